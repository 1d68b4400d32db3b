"""How far a household may count on a rest to cook a dish, where stove, box and food all vary.

Each varies by itself, so a dish need not be slow, late and in a leaky box all at once. The chance
that it is done is summed up over how strong the stove may be, each time with the spread of slow
food and of a leaky box. What is looked for is the least cooking on the fire that makes the chance
as large as the household wants.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr, ndtri

from optimizer.planning.grid import Curve

# How strong a stove may be, in standard deviations: close where a pot is late, or too late.
STRENGTHS: Curve = np.array(
    [-4.2, -3.4, -2.8, -2.4, -2.1, -1.85, -1.6, -1.4, -1.2, -1.0, -0.75, -0.4, 0.0, 0.6, 1.6]
)
LEAST_LEAK = 0.5  # standard deviations that a leaky box has to be looked at
_EDGES: Curve = np.array([-np.inf, *((STRENGTHS[1:] + STRENGTHS[:-1]) / 2), np.inf])
_LATEST_MIN = 300.0  # late: of which there is no getting done
_LEAST_SPREAD = 0.01  # of food that is told to cook as it is said
_CHANCES = (1e-9, 1 - 1e-9)
_NEAR = 1e-6  # standard deviations
_FAR = 6.0  # standard deviations
_ROUNDS = 40
_STEP = 0.2  # between two strengths, nearly
_FINE = 24  # steps of the clock at the start of a rest, before it is looked at more coarsely
_COARSE = 4


@dataclass(frozen=True, slots=True)
class Sooner:
    """How much sooner than planned stoves have a pot off."""

    min: tuple[float, ...]  # by `STRENGTHS`; less than 0: later
    never: float  # standard deviations below which a stove does not boil it at all


ON_TIME = Sooner((0.0,) * len(STRENGTHS), -np.inf)


def counted(
    cooked: Curve,
    leak: float,
    step_min: float,
    sooner: Sequence[Sooner],
    rate_on_fire: Curve,
    boil_min: float,
    spread: float,
    confidence: float,
) -> Curve:
    """Return the share of the careful boil minutes that rests are counted on to cook.

    Parameters
    ----------
    cooked : ndarray (2, n, steps)
        Minutes at 100 degC by steps of each rest, in the usual box and in a leaky one [min]
    leak : float
        By how many standard deviations that is leaky, more than 0; best as many as belong to the
        confidence [-]
    step_min : float
        A step of the rest [min]
    sooner : sequence of Sooner
        When each rest begins, n of them.
    rate_on_fire : ndarray (n,)
        Minutes at 100 degC that a minute on the fire is worth [-]
    boil_min : float
        Time at 100 degC until done, as usual [min]
    spread : float
        Relative standard deviation of that [-]
    confidence : float
        Chance that the dish is to be done [-]

    Returns
    -------
    ndarray (n, steps)
        The share by steps of the rest; less than 0 where a late pot would lack more [-]
    """
    steps, looked_at = _steps(cooked.shape[-1])
    steps_sooner = np.array([each.min for each in sooner]) / step_min
    rested = _rested(cooked, looked_at, steps_sooner, rate_on_fire * step_min)
    missing = 1 - np.maximum(rested, -_LATEST_MIN) / boil_min
    spreads = _spreads(missing, leak, max(spread, _LEAST_SPREAD))
    wanted = float(ndtri(confidence))
    shares = 1 - _least(missing[0], spreads, _weights(sooner), wanted) / (1 + wanted * spread)
    return np.array([np.interp(steps, looked_at, share) for share in shares])


@lru_cache(maxsize=4)
def _steps(count: int) -> tuple[NDArray[np.int_], NDArray[np.int_]]:
    """Return all steps of a rest, and those that are looked at."""
    steps = np.arange(count)
    return steps, np.concatenate([steps[:_FINE], steps[_FINE::_COARSE]])


def _rested(cooked: Curve, at: NDArray[np.int_], sooner: Curve, rate: Curve) -> Curve:
    """Return minutes at 100 degC by rests that begin sooner or later (leak, n, strength, step)."""
    last = cooked.shape[-1] - 1
    begun = np.minimum(at + sooner[..., None], last)
    floor = np.maximum(begun, 0.0).astype(np.int_)
    each = np.arange(cooked.shape[1])[:, None, None]
    before, after = cooked[:, each, floor], cooked[:, each, np.minimum(floor + 1, last)]
    part = begun - floor  # less than 0: still on the fire
    slope = np.where(part < 0, rate[:, None, None], after - before)
    return np.asarray(before + part * slope)


def _spreads(missing: Curve, leak: float, spread: float) -> Curve:
    """Return the spread of what is missing: slow food, leaks, stoves between two `STRENGTHS`."""
    by_leak = (missing[1] - missing[0]) / leak
    steps = np.abs(np.diff(missing[0], axis=1))
    between = np.zeros_like(by_leak)
    between[:, 1:-1] = np.minimum(steps[:, 1:], steps[:, :-1])  # not across "never boils"
    return np.asarray(np.sqrt(spread**2 + by_leak**2 + between**2 / 12))


def _weights(sooner: Sequence[Sooner]) -> Curve:
    """Return the chance of each of `STRENGTHS`; what never boils is the first one's (n, 1, it)."""
    never = np.array([each.never for each in sooner])
    chances = np.diff(ndtr(np.maximum(_EDGES, never[:, None])), axis=1)
    chances[:, 0] += ndtr(never)
    return np.asarray(chances[:, None])


def _least(missing: Curve, spreads: Curve, weights: Curve, wanted: float) -> Curve:
    """Return the least cooking on the fire by step, in boil times, for the deviations wanted.

    It begins with the worst of what is as unlikely. Then come Newton's steps on the deviations that
    belong to the chance, which grow nearly evenly; a step out of the range that is left halves it.
    """
    low = (missing - _FAR * spreads).min(axis=1)
    high = (missing + _FAR * spreads).max(axis=1)
    near = np.abs(STRENGTHS) <= wanted + _STEP
    left = np.sqrt(np.maximum(wanted**2 - STRENGTHS[near] ** 2, 0.0))[:, None]
    least = (missing[:, near] + left * spreads[:, near]).max(axis=1)
    for _ in range(_ROUNDS):
        over = (least[:, None] - missing) / spreads
        now = ndtri(np.clip((weights @ ndtr(over))[:, 0], *_CHANCES))
        short = now - wanted
        if np.abs(short).max() < _NEAR:
            break
        low, high = np.where(short < 0, least, low), np.where(short < 0, high, least)
        slope = np.maximum((weights @ (np.exp(-over * over / 2) / spreads))[:, 0], _CHANCES[0])
        least = least - short * np.exp(-now * now / 2) / slope
        least = np.where((least >= low) & (least <= high), least, (low + high) / 2)
    return np.asarray(least)
