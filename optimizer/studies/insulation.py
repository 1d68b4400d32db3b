"""An insulated cooker on its own: what it loses, how long it keeps a pot hot.

The formulas are those of the planner (``planning.resting``): what is found here is what a plan
counts on.
"""

import math
from dataclasses import dataclass

import numpy as np

from optimizer.model.things import Cooker, Dish, Pot
from optimizer.physics import cooling
from optimizer.planning.bodies import Body, insulated
from optimizer.planning.boiling import Boil, least_hold_min
from optimizer.planning.conditions import Conditions, Refused
from optimizer.planning.contents import Load, load_of, pot_heat_j_k
from optimizer.planning.grid import GRID_MIN, MINUTES, Curve
from optimizer.planning.losses import kitchen_loss_w_k

BAND_Z = 1.645  # 5 to 95 %
LEAST_RADII, MOST_RADII = 0.05, 2.0  # thickness over the pot's radius: within 5 %, see tests
LEAST_HIGH, MOST_HIGH = 0.4, 1.2  # height over diameter: the same


@dataclass(frozen=True, slots=True)
class Holding:
    """How long a pot stays hot in a cooker; infinite beyond the longest that is ever planned."""

    cooker: Cooker
    loss_w_k: float
    packing_j_k: float
    constant_h: float  # time constant once the packing is warm
    packing_m3: float | None  # of packing that goes round the pot
    start_c: float
    usual_h: float
    low_h: float  # one in twenty is worse
    high_h: float  # one in twenty is better
    planned_h: float  # what a plan counts on
    curve_c: tuple[float, ...]  # usual, each hour
    careful_c: tuple[float, ...]  # what a plan counts on, each hour
    exact: bool  # inside the range in which the loss is held against finite elements


@dataclass(frozen=True, slots=True)
class FullPot:
    """A pot with something hot in it, and where it stands."""

    pot: Pot
    load: Load
    at: Conditions


def filled(dish: Dish, volume_m3: float, at: Conditions) -> Load:
    """Return so much of a dish.

    Parameters
    ----------
    dish : Dish
        A dish, or water.
    volume_m3 : float
        Volume it is to have [m3]
    at : Conditions
        Where.

    Returns
    -------
    Load
        The dish in as many portions as come to it.
    """
    return load_of(dish, volume_m3 / load_of(dish, 1.0, at.place).volume_m3, at.place)


def boiling(load: Load, pot: Pot, at: Conditions) -> Boil:
    """Return a pot as it leaves the boil in the kitchen; how it got there is left open.

    Parameters
    ----------
    load : Load
        What is in it.
    pot : Pot
        The pot.
    at : Conditions
        Where.

    Returns
    -------
    Boil
        Without power, fuel and minutes of heating up.
    """
    loss, kitchen_c = kitchen_loss_w_k(pot, at.boil_c, at), at.place.kitchen_c
    return Boil(
        heat_j_k=load.heat_j_k + pot_heat_j_k(pot),
        start_c=load.start_c,
        top_c=at.boil_c,
        boil_c=at.boil_c,
        air_c=kitchen_c,
        bare_w_k=loss,
        net_w=0.0,
        up_min=0.0,
        up_j=0.0,
        hold_w=0.0,
        steam_kg_min=0.0,
        extra_j_kg=0.0,
        fall_min=0.0,
        free_done=0.0,
        least_hold_min=least_hold_min(load, pot, at, 0.0),
    )


def hours_above(curve_c: Curve, limit_c: float) -> float:
    """Return hours until a curve over MINUTES falls below a temperature.

    Parameters
    ----------
    curve_c : ndarray
        A falling temperature [degC]
    limit_c : float
        The limit [degC]

    Returns
    -------
    float
        0 if it starts below, infinite if it never gets there [h]
    """
    if curve_c[0] < limit_c:
        return 0.0
    below = np.flatnonzero(curve_c < limit_c)
    if not below.size:
        return math.inf
    after = int(below[0])
    upper, lower = float(curve_c[after - 1]), float(curve_c[after])
    part = (upper - limit_c) / (upper - lower)
    return (float(MINUTES[after - 1]) + GRID_MIN * part) / 60


def holding(cooker: Cooker, pot: Pot, load: Load, at: Conditions) -> Holding | Refused:
    """Return how long a pot of something, moved off the boil, stays hot in a cooker.

    Parameters
    ----------
    cooker : Cooker
        The cooker.
    pot : Pot
        The pot that goes in, or from which a jar is filled.
    load : Load
        What is in it.
    at : Conditions
        Where, and how sure a plan has to be.

    Returns
    -------
    Holding or Refused
        Hours above the temperature of hot food, or why it cannot go in.
    """
    body = insulated(load, pot, cooker, boiling(load, pot, at), at)
    if isinstance(body, Refused):
        return body
    usual, low, high, planned = (body.curve(z) for z in (0.0, BAND_Z, -BAND_Z, at.hot_z))
    hot_c = at.rules.hot_c
    return Holding(
        cooker=cooker,
        loss_w_k=body.loss_w_k,
        packing_j_k=body.packing_j_k,
        constant_h=_constant_h(body),
        packing_m3=_packing_m3(cooker, pot),
        start_c=body.start_c,
        usual_h=hours_above(usual, hot_c),
        low_h=hours_above(low, hot_c),
        high_h=hours_above(high, hot_c),
        planned_h=hours_above(planned, hot_c),
        curve_c=_each_hour(usual),
        careful_c=_each_hour(planned),
        exact=_exact(cooker, pot),
    )


def _each_hour(curve_c: Curve) -> tuple[float, ...]:
    return tuple(float(level) for level in curve_c[:: 60 // GRID_MIN])


def _constant_h(body: Body) -> float:
    seconds = cooling.late_time_constant_s(
        contents_j_k=body.contents_j_k, packing_j_k=body.packing_j_k, loss_w_k=body.loss_w_k
    )
    return float(seconds) / 3600


def _packing_m3(cooker: Cooker, pot: Pot) -> float | None:
    if cooker.kind != "packed" or cooker.thickness_m is None:
        return None
    return round_pot_m3(pot, cooker.thickness_m)


def round_pot_m3(pot: Pot, thickness_m: float) -> float:
    """Return the packing that goes round a pot.

    Parameters
    ----------
    pot : Pot
        The pot.
    thickness_m : float
        The same on side, top and bottom [m]

    Returns
    -------
    float
        Volume [m3]
    """
    return float(
        cooling.packing_heat_j_k(
            diameter_m=pot.diameter_m,
            height_m=pot.height_m,
            thickness_m=thickness_m,
            density_kg_m3=1.0,
            specific_heat_j_kgk=1.0,
        )
    )


def _exact(cooker: Cooker, pot: Pot) -> bool:
    if cooker.kind != "packed" or cooker.loss_w_k is not None or cooker.thickness_m is None:
        return True
    radii = 2 * cooker.thickness_m / pot.diameter_m
    high = pot.height_m / pot.diameter_m
    return LEAST_RADII <= radii <= MOST_RADII and LEAST_HIGH <= high <= MOST_HIGH
