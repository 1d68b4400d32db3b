"""A dish that is steeped: water off a big boil poured on it in a jar, where it finishes."""

import math
from collections.abc import Sequence
from functools import lru_cache

import numpy as np

from optimizer.model.household import Steep
from optimizer.physics import cooling, opening
from optimizer.planning.bodies import Body
from optimizer.planning.conditions import Conditions
from optimizer.planning.contents import heat_of, load_of
from optimizer.planning.grid import GRID_MIN
from optimizer.planning.losses import jar_loss_w_k, jar_mouth_m2
from optimizer.planning.resting import Rest, rests

STEP_C = 0.5  # of the water, as it is looked for


def mixed_c(steep: Steep, water_c: float, at: Conditions) -> float:
    """Return the temperature in the jar when it is shut: food, jar and water mixed, a minute open.

    The food is as warm as the kitchen, a jar that is not rinsed hot as well.
    """
    load = load_of(steep.dish, steep.portions, at.place)
    water = next(i.food for i in steep.dish.ingredients if i.food.name == "water")
    hot_j_k = load.water_kg * heat_of(water)
    liner = 0.0 if steep.cooker.preheated else steep.cooker.liner_j_k
    mixed = cooling.mixed_c(
        hot_j_k=hot_j_k,
        hot_c=water_c,
        cold_j_k=load.heat_j_k - hot_j_k + liner,
        cold_c=at.place.kitchen_c,
    )
    closed = opening.opened_c(
        start_c=mixed,
        air_c=at.place.kitchen_c,
        heat_capacity_j_k=load.heat_j_k + steep.cooker.liner_j_k,
        surface_m2=jar_mouth_m2(steep.cooker.volume_m3 or 0.0),
        bare_w_k=0.0,
        open_s=60 * at.rules.draw_open_min,
    )
    return float(closed)


@lru_cache(maxsize=16384)
def steeped(steep: Steep, water_c: float, at: Conditions) -> Rest:
    """Return how a dish rests in its jar from pouring on."""
    return _steeped(steep, [water_c], at)[0]


def _steeped(steep: Steep, levels_c: Sequence[float], at: Conditions) -> list[Rest]:
    """Return the same for water of several temperatures."""
    load, jar = load_of(steep.dish, steep.portions, at.place), steep.cooker
    bodies = [
        Body(
            load.heat_j_k + jar.liner_j_k,
            0.0,
            jar_loss_w_k(jar),
            jar.loss_spread,
            mixed_c(steep, level, at),
            at.place.kitchen_c,
        )
        for level in levels_c
    ]
    return rests(load, bodies, at)


@lru_cache(maxsize=4096)
def needed_c(steep: Steep, at: Conditions) -> float:
    """Return how hot the water has to be, so that the dish is done and hot at the table.

    Infinite where even boiling water does not do, or where it does not go into the jar.
    """
    if load_of(steep.dish, steep.portions, at.place).volume_m3 > (steep.cooker.volume_m3 or 0.0):
        return math.inf
    wait = steep.minutes // GRID_MIN
    levels = np.arange(at.rules.hot_c, at.boil_c, STEP_C).tolist()
    for level, found in zip(levels, _steeped(steep, levels, at), strict=True):
        if found.done[wait] >= 1 and found.careful_c[wait] >= at.rules.hot_c:
            return float(level)
    return math.inf
