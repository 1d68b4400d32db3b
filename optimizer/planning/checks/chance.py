"""How far a rest cooks a dish as often as the household wants, tried in many kitchens.

Stove and box are drawn; that the food is slow is taken from its distribution.
"""

import math
from dataclasses import dataclass

import numpy as np
from scipy.optimize import brentq
from scipy.special import ndtr, ndtri

from optimizer.planning.checks.body import Body
from optimizer.planning.checks.dish import Case
from optimizer.planning.checks.heat import Curve

KITCHENS = 1000
_EVEN: Curve = np.asarray(ndtri((np.arange(KITCHENS) + 0.5) / KITCHENS))
STOVES, BOXES = (np.random.default_rng(seed).permutation(_EVEN) for seed in (1, 2))
POWERS: Curve = np.arange(-4.0, 3.1, 0.1)  # of a stove, where its time to the boil is worked out
LEAKS = (-1.5, 0.0, 1.5)
SOONEST_MIN, NEVER_MIN = 1e-3, 1000.0
LEAST_LOSS = 0.05  # of the usual
NEAR = 1e-4
FAR = 6.0  # standard deviations
SURE_SPREAD = 0.01  # of food that is told to cook as it is said


@dataclass(frozen=True)
class Kitchens:
    """What a rest cooks in all kitchens, in boil times, and how the food itself varies."""

    case: Case
    rested: Curve

    def counted_min(self, deviations: float) -> float:
        """Return the minutes at 100 degC that it is counted on for, by so many deviations."""
        boil_min, spread = self.case.item.dish.boil_min, self.case.item.dish.boil_spread
        fire = _least(self.rested, max(spread, SURE_SPREAD), deviations)
        return self.case.careful_boil_min - fire * boil_min


def kitchens(body: Body, case: Case, minutes: int, up_min: Curve, planned_min: float) -> Kitchens:
    """Return what a rest cooks in all kitchens.

    ``up_min`` tells when stoves of all `POWERS` have the pot at its top temperature. Where that is
    later than planned, the pot is over the fire meanwhile.
    """
    if math.isinf(planned_min):
        return Kitchens(case, np.full(KITCHENS, -NEVER_MIN))
    paces = np.interp(STOVES, POWERS, 1 / np.maximum(up_min, SOONEST_MIN))
    rests = minutes + planned_min - 1 / np.maximum(paces, 1 / NEVER_MIN)
    longest = max(float(minutes), float(rests.max()))
    low, usual, high = (_cooked(body, case, longest, rests, leak) for leak in LEAKS)
    slope, bend = (high - low) / (2 * LEAKS[-1]), (high + low - 2 * usual) / (2 * LEAKS[-1] ** 2)
    rested = (usual + slope * BOXES + bend * BOXES**2) / case.item.dish.boil_min
    return Kitchens(case, np.nan_to_num(rested, nan=-NEVER_MIN))


def cooked_min(body: Body, case: Case, minutes: int, leak: float) -> float:
    """Return the minutes at 100 degC that a rest is worth in a box so many spreads leaky."""
    return float(_cooked(body, case, float(minutes), np.asarray(float(minutes)), leak))


def _cooked(body: Body, case: Case, longest: float, rests: Curve, leak: float) -> Curve:
    """Return minutes at 100 degC by each rest; one that is less than nothing is over the fire."""
    fixed = max(leak, (LEAST_LOSS - 1) / body.spread) if body.spread else 0.0
    curve, way = case.rate(body.curve(longest, fixed)), min(longest, body.move_min)
    step = (longest - way) / (len(curve) - 1)
    at = np.append(0.0, way + step * np.arange(len(curve)))
    moved = way * float(case.rate(np.asarray(body.start_c)))
    cooked = np.cumsum(np.concatenate([[0.0, moved], step * (curve[1:] + curve[:-1]) / 2]))
    late = np.minimum(rests, 0.0) * float(case.rate(np.asarray(case.top_c)))
    return np.asarray(np.interp(rests, at, cooked) + late)


def _least(rested: Curve, spread: float, deviations: float) -> float:
    """Return the least cooking on the fire, in boil times, that is enough as often as wanted."""
    wanted = float(ndtr(deviations))

    def surer(fire: float) -> float:
        return float(ndtr((fire + rested - 1) / spread).mean()) - wanted

    low, high = 1 - float(rested.max()) - FAR * spread, 1 - float(rested.min()) + FAR * spread
    return float(brentq(surer, low, high, xtol=NEAR))
