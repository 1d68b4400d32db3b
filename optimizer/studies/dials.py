"""One dish under the hand: what wind, height, lid, packing, filling and wet wood do to it.

The answer is the planner's own way of a dish, on the flame and in a packed cooker, for other
conditions than the household's. It is quick enough to follow a slider.

The planner knows pots with their lid on only. Without it the water's surface loses vapour to the
air: Carrier's formula for open water (1918), as handbooks print it in SI, from memory. It is taken
at the hottest the pot gets all the while it heats up, which burns too much rather than too little.
"""

import math
from dataclasses import dataclass, replace

from optimizer.model.household import OwnCooker, OwnStove, Scenario, Store
from optimizer.model.things import Cooker, Dish, Material, Pot
from optimizer.planning.conditions import Conditions, Refused, air_c, bare_loss_w_k, wind_m_s
from optimizer.planning.contents import Load, load_of
from optimizer.planning.grid import GRID_MIN
from optimizer.planning.stock import joules_per_kg
from optimizer.planning.ways import Way, conditions, make_way
from optimizer.studies.comparison import MJ, HeatFlow, heat_flow
from optimizer.studies.designs import rebuilt
from optimizer.studies.insulation import filled, hours_above

# Open water, W/m2 for each pascal of vapour pressure: still air, and more for each m/s of wind.
OPEN_W_M2PA, WINDY_W_M2PA = 0.089, 0.0782
ROOM_PA = 1000.0  # vapour in the air, about that of a cool room


@dataclass(frozen=True, slots=True)
class Dials:
    """How one dish is cooked."""

    dish: Dish
    stove: OwnStove
    store: Store
    pot: Pot
    cooker: Cooker  # a packed one; material and thickness are those below
    material: Material
    thickness_m: float
    fill: float  # cooked volume over pot volume
    wind_m_s: float
    altitude_m: float
    moisture: float  # of wood, on the wet basis
    lid: bool = True


@dataclass(frozen=True, slots=True)
class Cooked:
    """What one way of it takes: the shortest time on the stove that serves it done and hot."""

    fuel_mj: float
    fuel_kg: float | None
    boil_min: float  # until it boils
    stove_min: int
    done_min: int  # from the pot going on until it is done
    hot_h: float  # above the temperature of hot food once off the stove; infinite: over 14 h
    careful_h: float  # the same, as a plan counts on it
    heat: HeatFlow
    curve: tuple[tuple[int, float, float], ...]  # minutes off the stove, usual, careful degC


@dataclass(frozen=True, slots=True)
class Answer:
    """The dish in the cooker, and left on the flame until it is done."""

    boxed: Cooked | Refused
    flame: Cooked | Refused
    adult_portions: float
    boil_c: float

    @property
    def saved(self) -> float | None:
        """Share of the fuel that the cooker saves; None where one of the ways does not work."""
        if isinstance(self.boxed, Refused) or isinstance(self.flame, Refused):
            return None
        if not self.flame.fuel_mj:
            return None
        return 1 - self.boxed.fuel_mj / self.flame.fuel_mj


def dialled(scenario: Scenario, dials: Dials) -> Answer:
    """Return what a dish takes under these conditions.

    Parameters
    ----------
    scenario : Scenario
        The household: its kitchen, outdoors, rules and confidence.
    dials : Dials
        The dish and the conditions.

    Returns
    -------
    Answer
        Both ways, or why one does not work.
    """
    at = _at(scenario, dials)
    load = filled(dials.dish, dials.fill * dials.pot.volume_m3, at)
    store = _store(dials)
    stove = dials.stove if dials.lid else _open(dials, load, at)
    box = rebuilt(dials.cooker, material=dials.material, thickness_m=dials.thickness_m)
    ways = [
        make_way(load, stove, store, dials.pot, cooker, at) for cooker in (OwnCooker(box, 1), None)
    ]
    boxed, flame = (way if isinstance(way, Refused) else _cooked(way) for way in ways)
    return Answer(boxed, flame, load.adult_portions, at.boil_c)


def fill_of(dish: Dish, adult_portions: float, pot: Pot, scenario: Scenario) -> float:
    """Return how full a pot is of so many portions.

    Parameters
    ----------
    dish : Dish
        A dish.
    adult_portions : float
        Portions in adult size.
    pot : Pot
        The pot.
    scenario : Scenario
        The household.

    Returns
    -------
    float
        Cooked volume over pot volume.
    """
    return load_of(dish, adult_portions, scenario.place).volume_m3 / pot.volume_m3


def _at(scenario: Scenario, dials: Dials) -> Conditions:
    known = conditions(scenario, 1)
    return replace(
        known,
        place=replace(known.place, altitude_m=dials.altitude_m),
        weather=replace(known.weather, wind_m_s=dials.wind_m_s, rain=False, wet_sticks=False),
    )


def _store(dials: Dials) -> Store:
    """Return the fuel as wet as it is dialled, if it is wood."""
    fuel = dials.store.fuel
    if fuel.kind != "wood":
        return dials.store
    return replace(dials.store, fuel=replace(fuel, moisture=dials.moisture))


def _open(dials: Dials, load: Load, at: Conditions) -> OwnStove:
    """Return the stove with a pot that has no lid on it."""
    if dials.pot.gauge_pa:
        return dials.stove  # a pressure pot is always shut
    top = at.boil_c if load.dish.heat_c is None else min(load.dish.heat_c, at.boil_c)
    loss = bare_loss_w_k(dials.pot, top, dials.stove, at)
    rise = max(1.0, top - air_c(dials.stove, at))
    loss += open_loss_w(dials.pot.diameter_m, top, wind_m_s(dials.stove, at)) / rise
    return replace(dials.stove, stove=replace(dials.stove.stove, loss_w_k=loss))


def open_loss_w(diameter_m: float, water_c: float, wind: float) -> float:
    """Return the heat that leaves with the vapour of an open pot.

    Parameters
    ----------
    diameter_m : float
        Of the pot [m]
    water_c : float
        Temperature of the water [degC]
    wind : float
        Wind over it [m/s]

    Returns
    -------
    float
        Heat [W]
    """
    from chemicals.iapws import iapws95_Psat  # only asked for without a lid

    pressure = float(iapws95_Psat(water_c + 273.15)) - ROOM_PA
    area = math.pi * diameter_m**2 / 4
    return area * max(0.0, pressure) * (OPEN_W_M2PA + WINDY_W_M2PA * wind)


def _cooked(way: Way) -> Cooked:
    """Return the shortest time on the stove, and what it takes."""
    minutes = int(way.on_min[way.on_min > 0].min())
    burnt_j = way.fuel_j(minutes) + way.own.stove.start_j
    heat = joules_per_kg(way.store.fuel)
    done = way.done_on_fire(minutes) + way.rest.done >= 1 - 1e-9
    rested = GRID_MIN * int(done.argmax())
    hot_c = way.at.rules.hot_c
    return Cooked(
        fuel_mj=burnt_j / MJ,
        fuel_kg=None if heat is None else burnt_j / heat,
        boil_min=minutes - max(0.0, way.hold_min(minutes)),
        stove_min=minutes,
        done_min=minutes + (way.fall_min + rested if rested else 0),
        hot_h=hours_above(way.rest.usual_c, hot_c),
        careful_h=hours_above(way.rest.careful_c, hot_c),
        heat=heat_flow(way, minutes),
        curve=tuple(
            (GRID_MIN * n, float(usual), float(careful))
            for n, (usual, careful) in enumerate(
                zip(way.rest.usual_c, way.rest.careful_c, strict=True)
            )
        ),
    )
