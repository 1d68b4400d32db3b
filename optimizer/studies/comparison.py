"""One dish in every way: fuel, money, minutes, where the heat goes, and why a way is refused."""

from dataclasses import dataclass, fields, replace

from optimizer.model.household import Item, Scenario
from optimizer.model.plan import Finish, Refusal
from optimizer.physics import water
from optimizer.planning.columns import Column
from optimizer.planning.conditions import Refused, burn_ratio, efficiency
from optimizer.planning.contents import pot_heat_j_k
from optimizer.planning.explain import no_start
from optimizer.planning.grid import GRID_MIN
from optimizer.planning.kitchen import attempts
from optimizer.planning.starts import Cooking, columns_of
from optimizer.planning.stock import joules_per_kg, price_j
from optimizer.planning.ways import WATER_J_KGK, Way

MJ = 1e6


@dataclass(frozen=True, slots=True)
class HeatFlow:
    """Where the heat of the fuel, or of the sun, goes [J]; the parts add up to all of it."""

    food_j: float
    water_j: float
    pot_j: float
    boiled_off_j: float
    pot_losses_j: float  # from side and lid, heating up and holding
    stove_losses_j: float  # past the pot
    start_j: float  # lighting

    @property
    def total_j(self) -> float:
        """All of it."""
        return sum(float(getattr(self, part.name)) for part in fields(self))


@dataclass(frozen=True, slots=True)
class DishWay:
    """One way of one dish from its cheapest start, its own lighting paid for."""

    stove: str
    fuel: str
    pot: str
    cooker: str | None
    finish: Finish
    pressure: bool
    fuel_mj: float
    fuel_kg: float | None
    cost: float
    tending_minutes: float
    on: int
    off: int
    ready: int  # off the flame, pressure gone, in its cooker
    done: int  # cooked through, as sure as the household wants to be
    serve: int
    serve_c: float
    serve_c_low: float
    heat: HeatFlow


@dataclass(frozen=True, slots=True)
class Comparison:
    """Every way of one dish, the cheapest first, and every refusal."""

    item: Item
    ways: tuple[DishWay, ...]
    refusals: tuple[Refusal, ...]


def compare(scenario: Scenario, item: Item) -> Comparison:
    """Return every way of one dish side by side.

    Parameters
    ----------
    scenario : Scenario
        The household.
    item : Item
        One of its items.

    Returns
    -------
    Comparison
        Ways in order of money, then fuel; a way that has no start in the cook hours is refused.
    """
    ways: list[DishWay] = []
    refusals: list[Refusal] = []
    today = [
        n for n, window in enumerate(scenario.windows) if window.day in (item.day - 1, item.day)
    ]
    for attempt in attempts(scenario, item, item.day):
        if not isinstance(attempt.way, Way):
            refusals.append(attempt.refusal(item))
            continue
        columns = columns_of(item, attempt.way, scenario.windows, today)
        plain = [c for c in columns if isinstance(c.way, Cooking) and c.way.reboil is None]
        if plain:
            ways.append(_told(min(plain, key=lambda c: (c.money, c.fuel_j, c.burns[0].start))))
            continue
        again = Refused("boil_again", "has to be boiled again before the meal; see the plan")
        refused = again if columns else no_start(attempt.way, item, scenario.windows)
        refusals.append(replace(attempt, way=refused).refusal(item))
    return Comparison(item, tuple(sorted(ways, key=lambda w: (w.cost, w.fuel_mj))), tuple(refusals))


def _told(column: Column) -> DishWay:
    cooking = column.way
    assert isinstance(cooking, Cooking)
    way = cooking.way
    minutes = cooking.off - cooking.on
    light_j = way.own.stove.start_j
    burnt_j = column.fuel_j - (0.0 if way.own.stove.tended else light_j)
    heat = joules_per_kg(way.store.fuel)
    fuel_j = burnt_j + light_j
    wait = (cooking.item.serve_min - cooking.rest_from) // GRID_MIN
    return DishWay(
        stove=way.own.stove.name,
        fuel=way.store.fuel.name,
        pot=way.pot.name,
        cooker=way.cooker.cooker.name if way.cooker else None,
        finish=way.finish,
        pressure=way.pot.gauge_pa > 0,
        fuel_mj=fuel_j / MJ,
        fuel_kg=None if heat is None else fuel_j / heat,
        cost=fuel_j * price_j(way.store),
        tending_minutes=column.tend_min + way.own.stove.start_min,
        on=cooking.on,
        off=cooking.off,
        ready=cooking.rest_from,
        done=min(cooking.rest_from + _rest_until_done(way, minutes), cooking.item.serve_min),
        serve=cooking.item.serve_min,
        serve_c=float(way.rest.usual_c[wait]),
        serve_c_low=float(way.rest.careful_c[wait]),
        heat=heat_flow(way, minutes),
    )


def _rest_until_done(way: Way, on_min: int) -> int:
    """Return minutes of rest until a dish is done."""
    done = way.done_on_fire(on_min) + way.rest.done >= 1 - 1e-9
    return GRID_MIN * int(done.argmax())


def heat_flow(way: Way, on_min: float) -> HeatFlow:
    """Return where the heat of the fuel goes for so many minutes on the stove.

    Parameters
    ----------
    way : Way
        A way that is not boiled again.
    on_min : float
        Minutes on the stove [min]

    Returns
    -------
    HeatFlow
        Parts that add up to the fuel burned and the lighting, or to the sunshine used.
    """
    load, boil = way.load, way.boil
    rise, ratio = boil.top_c - boil.start_c, burn_ratio(way.store.fuel, way.at)
    fuel_j = way.fuel_j(on_min) * (ratio if way.sunny else 1.0)
    into_pot = way.fuel_j(on_min) * ratio * efficiency(way.own, way.at)
    steam_kg = way.steam_kg(on_min)
    added_j = steam_kg * WATER_J_KGK * (boil.top_c - way.at.place.water_c)
    water_j = load.water_kg * WATER_J_KGK * rise
    food_j = load.heat_j_k * rise - water_j
    pot_j = pot_heat_j_k(way.pot) * rise
    off_j = steam_kg * water.latent_heat_j_kg(way.at.boil_c)
    return HeatFlow(
        food_j=food_j,
        water_j=water_j + added_j,
        pot_j=pot_j,
        boiled_off_j=off_j,
        pot_losses_j=into_pot - food_j - water_j - added_j - pot_j - off_j,
        stove_losses_j=fuel_j - into_pot,
        start_j=way.own.stove.start_j,
    )
