"""Small tests for a class, with a litre of water each, and what the planner expects of them.

Only things of the shelf are used, so that no number stands here which the planner does not use.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from statistics import NormalDist
from typing import Literal

from optimizer import shelf
from optimizer.model.household import OwnStove, Scenario, Weather
from optimizer.model.things import Fuel, Pot
from optimizer.planning.bodies import Body, bare, insulated
from optimizer.planning.boiling import Boil, boil
from optimizer.planning.conditions import Conditions, Refused
from optimizer.planning.contents import Load, load_of
from optimizer.planning.grid import GRID_MIN
from optimizer.planning.stock import joules_per_kg

Quantity = Literal["boils", "reads", "burns"]

LITTLE, USUAL, MUCH = 0.1, 0.5, 0.9  # eight tests of ten lie between the first and the last
SMALL_POT, LARGE_POT = "pot_1_5l", "pot_2_5l"
WATER = "drinking_water"  # a portion is a litre
WINDY_M_S = 4.0
READ_MIN = (0, 30, 60, 120)
FILLED_READ_MIN = (0, 60, 120)
HELD_MIN = 20.0


@dataclass(frozen=True, slots=True)
class Expected:
    """What is read in a test: minutes until it boils, degC, or kg of fuel; 8 of 10 lie between."""

    quantity: Quantity
    minute: int  # after the boil, where a temperature is read
    little: float
    usual: float
    much: float


@dataclass(frozen=True, slots=True)
class Setup:
    """One of the things that are set beside each other in a test."""

    name: str
    expected: tuple[Expected, ...]
    why_not: str = ""  # the planner expects nothing of it, and why


@dataclass(frozen=True, slots=True)
class ClassTest:
    """One test: two or more setups that differ in one thing."""

    name: str
    setups: tuple[Setup, ...]


def class_tests(scenario: Scenario) -> tuple[ClassTest, ...]:
    """Return the tests and what the planner expects of them where a household lives.

    Parameters
    ----------
    scenario : Scenario
        The household: its place, and the stove of the tests.

    Returns
    -------
    tuple of ClassTest
        Lid, wind, box, filling, holding.
    """
    kit = _Kit(scenario, *class_stove(scenario))
    return (
        ClassTest("lid", (kit.boiling("lid_on", 0.0), kit.no_lid("lid_off"))),
        ClassTest("wind", (kit.boiling("shielded", 0.0), kit.boiling("in_the_wind", WINDY_M_S))),
        ClassTest(
            "box",
            (
                kit.resting("bare", None, SMALL_POT, 1, READ_MIN),
                kit.resting("in_blankets", "blanket_chest", SMALL_POT, 1, READ_MIN),
                kit.resting("in_paper", "packed_box", SMALL_POT, 1, READ_MIN),
            ),
        ),
        ClassTest(
            "filling",
            (
                kit.resting("two_fifths", "packed_box", LARGE_POT, 1, FILLED_READ_MIN),
                kit.resting("four_fifths", "packed_box", LARGE_POT, 2, FILLED_READ_MIN),
            ),
        ),
        ClassTest("holding", (kit.burning("to_the_boil"), kit.burning("held", HELD_MIN))),
    )


def class_stove(scenario: Scenario) -> tuple[OwnStove, Fuel]:
    """Return the stove of the tests, whose fuel can be weighed.

    Parameters
    ----------
    scenario : Scenario
        The household.

    Returns
    -------
    tuple of OwnStove and Fuel
        Its first flame that boils a litre there and needs no feeding, else its first flame that
        boils it, else a gas burner that is lent.
    """
    fuels = {store.fuel.name: store.fuel for store in scenario.stores}
    for own in sorted(scenario.stoves, key=lambda each: each.stove.tended):
        fuel = fuels.get(own.stove.fuel)
        if own.stove.flame and fuel is not None and fuel.lhv_j_kg is not None:
            kit = _Kit(scenario, own, fuel)
            if not isinstance(kit.boils(shelf.load().pots[SMALL_POT], 1, 0.0), Refused):
                return own, fuel
    stock = shelf.load()
    burner = stock.stoves["gas_burner"]
    return OwnStove(burner, 1, "outdoors"), stock.fuels[burner.fuel]


class _Kit:
    """What a class has: a stove outdoors, two pots, water, two cookers."""

    def __init__(self, scenario: Scenario, own: OwnStove, fuel: Fuel) -> None:
        self.own, self.fuel = own, fuel
        self.place, self.rules = scenario.place, scenario.rules
        self.dish = shelf.load().dishes[WATER]

    def at(self, wind_m_s: float, confidence: float) -> Conditions:
        """Return a dry day with so much wind, looked at so carefully."""
        weather = Weather(self.place.outdoors_c, wind_m_s, rain=False, wet_sticks=False)
        return Conditions(self.place, weather, self.rules, confidence)

    def boils(self, pot: Pot, litres: int, wind_m_s: float) -> list[Boil] | Refused:
        """Return how so much water comes to the boil: sooner, as usual, later."""
        load, found = self.load(litres), []
        for confidence in (LITTLE, USUAL, MUCH):
            one = boil(load, pot, self.own, self.fuel, self.at(wind_m_s, confidence))
            if isinstance(one, Refused):
                return one
            found.append(one)
        return found

    def load(self, litres: int) -> Load:
        """Return so much water."""
        return load_of(self.dish, float(litres), self.place)

    def boiling(self, name: str, wind_m_s: float) -> Setup:
        """Return the minutes until a litre boils."""
        found = self.boils(shelf.load().pots[SMALL_POT], 1, wind_m_s)
        if isinstance(found, Refused):
            return Setup(name, (), found.reason)
        return Setup(name, (_expected("boils", 0, [each.up_min for each in found]),))

    def no_lid(self, name: str) -> Setup:
        """Return that nothing is expected without a lid."""
        return Setup(name, (), "longer than with the lid; the planner keeps every lid on")

    def burning(self, name: str, held_min: float = 0.0) -> Setup:
        """Return the fuel that brings a litre to the boil, or holds it there."""
        found = self.boils(shelf.load().pots[SMALL_POT], 1, 0.0)
        heat_j_kg = joules_per_kg(self.fuel)
        if isinstance(found, Refused) or heat_j_kg is None:
            reason = found.reason if isinstance(found, Refused) else "its fuel cannot be weighed"
            return Setup(name, (), reason)
        burned_j = [60 * held_min * b.hold_w if held_min else self._up_j(b) for b in found]
        return Setup(name, (_expected("burns", 0, [each / heat_j_kg for each in burned_j]),))

    def _up_j(self, found: Boil) -> float:
        """Return fuel burned at full power until the boil."""
        return 60 * found.up_min * self.own.stove.power_w

    def resting(
        self, name: str, cooker: str | None, pot_name: str, litres: int, minutes: Sequence[int]
    ) -> Setup:
        """Return temperatures after the boil, bare or in a cooker."""
        pot, at = shelf.load().pots[pot_name], self.at(0.0, USUAL)
        found = self.boils(pot, litres, 0.0)
        if isinstance(found, Refused):
            return Setup(name, (), found.reason)
        load = self.load(litres)
        body = (
            bare(load, pot, found[1], at)
            if cooker is None
            else insulated(load, pot, shelf.load().cookers[cooker], found[1], at)
        )
        if isinstance(body, Refused):
            return Setup(name, (), body.reason)
        return Setup(name, tuple(_readings(body, minutes)))


def _readings(body: Body, minutes: Sequence[int]) -> Iterator[Expected]:
    """Yield the temperatures of a pot that rests, at so many minutes."""
    bands = [NormalDist().inv_cdf(share) for share in (MUCH, USUAL, LITTLE)]
    curves = [body.curve(band) for band in bands]
    for minute in minutes:
        at = minute // GRID_MIN
        yield _expected("reads", minute, [float(curve[at]) for curve in curves])


def _expected(quantity: Quantity, minute: int, values: Sequence[float]) -> Expected:
    little, usual, much = sorted(values)
    return Expected(quantity, minute, little, usual, much)
