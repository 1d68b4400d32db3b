"""A household's ways, columns and shared things, ready for the programs."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import product
from typing import Literal

from optimizer.model.household import Item, OwnCooker, OwnStove, Scenario, Weather
from optimizer.model.plan import Refusal
from optimizer.model.things import Dish, Pot
from optimizer.planning.columns import Column, Kitchen, Lighting
from optimizer.planning.conditions import Conditions, Refused
from optimizer.planning.contents import Load, carried_min, draws_of, load, pots_needed
from optimizer.planning.drawing import Draw
from optimizer.planning.held import beside, left_of, uses_of
from optimizer.planning.keeping import in_time, spoiled
from optimizer.planning.starts import columns_of
from optimizer.planning.stock import price_j, store_of, usable_j
from optimizer.planning.ways import Begun, Way, begin, conditions, make_ways

Only = Literal["any", "flame", "plain"]


@dataclass(frozen=True, slots=True)
class Attempt:
    """A way, or a reason why there is none."""

    own: OwnStove
    pot: Pot
    cooker: OwnCooker | None
    way: Way | Refused

    def suits(self, only: Only) -> bool:
        """Tell whether it is among the ways asked for."""
        return only == "any" or (self.cooker is None and (only == "flame" or not self.pot.gauge_pa))

    def refusal(self, item: Item) -> Refusal:
        """Return the reason, for one item."""
        assert isinstance(self.way, Refused)
        cooker = self.cooker.cooker.name if self.cooker else None
        return Refusal(
            item.number, self.own.stove.name, self.pot.name, cooker, self.way.code, self.way.reason
        )


Known = dict[tuple[Dish, float, int, tuple[Draw, ...], Weather], list[Attempt]]
"""Attempts by all that they depend on in one household: dish, adult portions, minutes it is
carried, draws, weather."""


@dataclass(frozen=True, slots=True)
class Choices:
    """All columns of a scenario, and why every other way was refused."""

    columns: tuple[Column, ...]
    refusals: tuple[Refusal, ...]
    workable: frozenset[int]  # items with a way, whether or not the cook hours have a start for it
    known: Known = field(repr=False)
    spoiled: Mapping[int, int] = field(default_factory=dict)
    """Items refused only because something in them spoils -> the earliest they could be on."""


def kitchen_of(scenario: Scenario) -> Kitchen:
    """Return what all dishes share: stoves, pots, cookers, cooks, fires, stocks, cook hours."""
    capacity = {f"stove:{s.stove.name}": s.count * s.stove.places for s in scenario.stoves}
    capacity |= {f"pot:{p.pot.name}": p.count for p in scenario.pots}
    capacity |= {f"cooker:{c.cooker.name}": c.count for c in scenario.cookers}
    capacity["cook"] = scenario.cooks
    usable = {s.fuel.name: usable_j(s) for s in scenario.stores}
    return Kitchen(
        items=tuple(item.number for item in scenario.items),
        capacity=capacity | left_of(uses_of(scenario), capacity),
        lightings=_lightings(scenario),
        stock_j={name: stock for name, stock in usable.items() if stock is not None},
        windows=scenario.windows,
        batches={i.number: n for i in scenario.items if (n := pots_for(scenario, i)) > 1},
    )


def household_of(scenario: Scenario) -> object:
    """Return all that ways depend on beside the dish and the weather."""
    fuels = tuple((store.fuel, price_j(store)) for store in scenario.stores)
    things = (scenario.stoves, scenario.pots, scenario.cookers)
    return scenario.place, scenario.rules, scenario.confidence, fuels, things


def pots_for(scenario: Scenario, item: Item) -> int:
    """Return in how many pots of the household an item has to be cooked."""
    pots = tuple(own.pot for own in scenario.pots)
    cookers = tuple(own.cooker for own in scenario.cookers)
    return pots_needed(item, scenario.place, scenario.rules, pots, cookers)


def _lightings(scenario: Scenario) -> dict[str, Lighting]:
    found = {}
    for own in scenario.stoves:
        stove, store = own.stove, store_of(scenario, own.stove.fuel)
        if stove.tended and stove.start_j and store is not None:
            found[stove.name] = Lighting(
                stove=stove.name,
                fuel=stove.fuel,
                start_j=stove.start_j,
                start_min=stove.start_min,
                idle_w=stove.low_power_w,
                money_j=price_j(store),
                tend=stove.tended,
                places=stove.places,
            )
    return found


def choices(scenario: Scenario, *, only: Only = "any", known: Known | None = None) -> Choices:
    """Return every column of every item.

    Parameters
    ----------
    scenario : Scenario
        The household.
    only : {"any", "flame", "plain"}
        All ways; those left on the flame; of these, those without a pressure pot.
    known : dict, optional
        Attempts of the same household, found before under whatever cook hours.

    Returns
    -------
    Choices
        Columns, refusals, and what is known now.
    """
    known = {} if known is None else known
    columns: list[Column] = []
    refusals: list[Refusal] = []
    workable: set[int] = set()
    late: dict[int, int] = {}
    held, capacity = uses_of(scenario), kitchen_of(scenario).capacity
    for item in scenario.items:
        made: list[Column] = []
        for attempt, today in _attempts_of(scenario, item, only, known):
            if isinstance(attempt.way, Way):
                workable.add(item.number)
                made += columns_of(item, attempt.way, scenario.windows, today)
            elif scenario.windows[today[0]].day == item.day:
                refusals.append(attempt.refusal(item))
        fresh = in_time(scenario, item, made)
        if made and not fresh:
            late[item.number] = min(column.burns[0].start for column in made)
            refusals += _spoiled(scenario, item, known)
        columns += beside(fresh, held, capacity) if held else fresh
    return Choices(tuple(columns), tuple(refusals), frozenset(workable), known, late)


def _attempts_of(
    scenario: Scenario, item: Item, only: Only, known: Known
) -> Iterator[tuple[Attempt, Sequence[int]]]:
    """Yield the attempts asked for of the day before and the day of an item, and its windows."""
    for day in (item.day - 1, item.day):
        if _carried_into_the_cold(scenario, item, day):
            continue
        today = [n for n, w in enumerate(scenario.windows) if w.day == day]
        for attempt in known_of(scenario, item, day, known) if today else ():
            if attempt.suits(only):
                yield attempt, today


def _carried_into_the_cold(scenario: Scenario, item: Item, day: int) -> bool:
    """Tell whether a dish cooked on a day would be carried on a colder one: not priced for that."""
    cooked, eaten = (conditions(scenario, each).weather.outdoors_c for each in (day, item.day))
    return carried_min(item) > 0 and eaten < cooked


def _spoiled(scenario: Scenario, item: Item, known: Known) -> Iterator[Refusal]:
    """Yield the reason for an item of which something spoils."""
    attempt = known_of(scenario, item, item.day, known)[0]
    yield replace(attempt, way=spoiled(scenario, item)).refusal(item)


def known_of(scenario: Scenario, item: Item, day: int, known: Known) -> list[Attempt]:
    """Return the attempts of an item on a day, worked out if they are not known."""
    weather = conditions(scenario, day).weather
    key = (item.dish, item.adult_portions, carried_min(item), draws_of(item), weather)
    if key not in known:
        known[key] = attempts(scenario, item, day)
    return known[key]


def attempts(scenario: Scenario, item: Item, day: int) -> list[Attempt]:
    """Return every stove, pot and finish for one item on one day."""
    at = conditions(scenario, day)
    load_ = load(item, scenario.place, pots_for(scenario, item))
    pots = [own.pot for own in scenario.pots]
    finishes: list[OwnCooker | None] = [None]
    if item.dish.serve != "any":
        finishes += scenario.cookers
    tried = [
        (each, _begin(scenario, load_, *each, at))
        for each in product(scenario.stoves, pots, finishes)
    ]
    going = [begun for _, begun in tried if isinstance(begun, Begun)]
    made = iter(make_ways(load_, going, at))
    return [
        Attempt(*each, next(made) if isinstance(begun, Begun) else begun) for each, begun in tried
    ]


def _begin(
    scenario: Scenario,
    load_: Load,
    own: OwnStove,
    pot: Pot,
    cooker: OwnCooker | None,
    at: Conditions,
) -> Begun | Refused:
    store = store_of(scenario, own.stove.fuel)
    if store is None:
        return Refused("no_fuel", f"its fuel is not in stock: {own.stove.fuel.replace('_', ' ')}")
    return begin(load_, own, store, pot, cooker, at)
