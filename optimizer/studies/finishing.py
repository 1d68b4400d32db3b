"""Dishes that finish in an insulated cooker: hours to done after minutes at the boil."""

import math
from dataclasses import dataclass

import numpy as np

from optimizer.model.things import Cooker, Dish, Pot
from optimizer.planning.bodies import insulated
from optimizer.planning.boiling import careful_boil_min, rate_at
from optimizer.planning.conditions import Conditions, Refused
from optimizer.planning.contents import Load, round_up
from optimizer.planning.grid import GRID_MIN, MINUTES
from optimizer.planning.resting import Rest, rest
from optimizer.studies.insulation import boiling, filled, hours_above

BEANS = Refused("bean_boil", "water boils too cool here for these beans: use a pressure pot")


@dataclass(frozen=True, slots=True)
class Finish:
    """One dish in a cooker; hours are counted from leaving the fire."""

    dish: Dish
    boil_min: float  # at the boil before
    done_h: float | None  # None: not within the longest rest that is ever planned
    done_c: float | None  # usual temperature then
    hot_h: float  # hours a plan counts on its being hot
    enough_min: int | None  # at the boil, so that it is done while it is surely hot
    refused: Refused | None = None

    @property
    def in_time(self) -> bool:
        """Done while a plan still counts on its being hot."""
        return self.done_h is not None and self.done_h <= self.hot_h


def finish(
    dish: Dish, cooker: Cooker, pot: Pot, volume_m3: float, at: Conditions, boil_min: float = 0.0
) -> Finish:
    """Return how a dish finishes in a cooker.

    Parameters
    ----------
    dish : Dish
        The dish.
    cooker : Cooker
        The cooker.
    pot : Pot
        The pot.
    volume_m3 : float
        How much of it there is [m3]
    at : Conditions
        Where, and how sure the household wants to be that it is done.
    boil_min : float
        Minutes at the boil before; at least those that are safe are taken [min]

    Returns
    -------
    Finish
        Hours until it is done, and until when it is hot; or why it cannot go in.
    """
    load = filled(dish, volume_m3, at)
    fired = boiling(load, pot, at)
    if math.isinf(fired.least_hold_min):
        return Finish(dish, 0.0, None, None, 0.0, None, BEANS)
    boiled = max(boil_min, round_up(fired.least_hold_min, GRID_MIN))
    body = insulated(load, pot, cooker, fired, at)
    if isinstance(body, Refused):
        return Finish(dish, boiled, None, None, 0.0, None, body)
    resting = rest(load, body, at)
    hot_h = hours_above(resting.careful_c, at.rules.hot_c)
    done = np.flatnonzero(_share(load, at, boiled) + resting.done >= 1 - 1e-9)
    when = int(done[0]) if done.size else None
    return Finish(
        dish=dish,
        boil_min=boiled,
        done_h=None if when is None else float(MINUTES[when]) / 60,
        done_c=None if when is None else float(resting.usual_c[when]),
        hot_h=hot_h,
        enough_min=_enough_min(load, at, resting, hot_h, boiled),
    )


def _share(load: Load, at: Conditions, boil_min: float) -> float:
    """Share of the cooking that minutes at the boil do."""
    full = careful_boil_min(load, at)
    if not full:
        return 1.0
    return boil_min * rate_at(at.boil_c, load.dish.z_k, load.dish.floor_c) / full


def _enough_min(
    load: Load, at: Conditions, resting: Rest, hot_h: float, least_min: float
) -> int | None:
    """Minutes at the boil that leave no more to do than the hours of sure heat do."""
    if not hot_h:
        return None
    last = int(np.searchsorted(MINUTES, min(60 * hot_h, float(MINUTES[-1])), side="right")) - 1
    missing = 1 - float(resting.done[last])
    rate = rate_at(at.boil_c, load.dish.z_k, load.dish.floor_c)
    return round_up(max(least_min, missing * careful_boil_min(load, at) / rate), GRID_MIN)
