"""The curve of a closed cooker over the readings of a water test, and its least squares.

The curve is the planner's own (``physics.cooling.two_body_c``), so that what is fitted is what a
plan then counts on.
"""

import math
from dataclasses import dataclass
from typing import Final, NamedTuple

import numpy as np
from numpy.typing import NDArray

from optimizer.physics import cooling
from optimizer.physics.ranges import Values

Floats = NDArray[np.float64]

TRUSTED_K: Final = 0.3  # standard deviation that a reading has at least: common practice, no source
Z90: Final = 1.6448536269514722
WIDE_LOG: Final = 4.0  # a loss is sought within this many powers of e of the first guess
COLDER_K, HOTTER_K = 25.0, 60.0  # a start is sought so far from the first reading


@dataclass(frozen=True, slots=True)
class Cooling:
    """Readings of a cooker that was closed at time 0 and left shut (arrays of one length)."""

    time_s: Floats
    temp_c: Floats
    room_c: Floats
    contents_j_k: float

    def only(self, keep: NDArray[np.bool_]) -> "Cooling":
        """Return some of the readings."""
        return Cooling(self.time_s[keep], self.temp_c[keep], self.room_c[keep], self.contents_j_k)


class Bodies(NamedTuple):
    """What the curve is made of."""

    loss_w_k: float
    packing_j_k: float
    start_c: float


class Solved(NamedTuple):
    """Logarithm of the loss (and of the packing, if it was not held), and the start."""

    x: Floats
    held_j_k: float | None  # the packing, if it was held
    unit_covariance: Floats  # for readings with a standard deviation of 1 K
    miss_k: Floats

    @property
    def bodies(self) -> Bodies:
        """What the curve is made of."""
        return bodies_of(self.x, self.held_j_k)

    @property
    def noise_k(self) -> float:
        """Scatter of the readings round the curve."""
        free = max(1, self.miss_k.size - self.x.size)
        return math.sqrt(float(self.miss_k @ self.miss_k) / free)

    @property
    def deviation_k(self) -> float:
        """Standard deviation whose normal 90 % band is as wide as Student's."""
        from scipy.stats import t  # a second that only a fit has to pay

        free = max(1, self.miss_k.size - self.x.size)
        return max(float(t.ppf(0.95, free)) * self.noise_k / Z90, TRUSTED_K)

    @property
    def covariance(self) -> Floats:
        """Covariance of ``x``."""
        return np.asarray(self.unit_covariance * self.deviation_k**2)


def bodies_of(x: Floats, held_j_k: float | None) -> Bodies:
    """Turn a point of the search into bodies.

    Parameters
    ----------
    x : ndarray
        Logarithm of the loss, of the packing unless it is held, start [-]
    held_j_k : float, optional
        The packing, if it is held [J/K]

    Returns
    -------
    Bodies
        Loss, packing, start [-]

    Raises
    ------
    IndexError
        If a number is missing.

    References
    ----------
    .. [1] definition, p 1, no more than exponentials.
    """
    packing = float(np.exp(x[1])) if held_j_k is None else held_j_k
    return Bodies(float(np.exp(x[0])), packing, float(x[-1]))


def curve_c(readings: Cooling, bodies: Bodies) -> Floats:
    """Temperature of the contents at every reading.

    Parameters
    ----------
    readings : Cooling
        Times and rooms; the room may change from one reading to the next [-]
    bodies : Bodies
        Loss, packing, start; the packing starts at the first room [-]

    Returns
    -------
    ndarray
        Temperatures [degC]

    Raises
    ------
    PhysicsError
        If a quantity lies outside the range of the formula.

    References
    ----------
    .. [1] BOYCE_DIPRIMA, eq 7.5, linear systems with real different eigenvalues (from memory).
    """
    if np.ptp(readings.room_c) == 0:
        first_c = float(readings.room_c[0])
        level = _moved(readings, bodies, readings.time_s, bodies.start_c, first_c, first_c)
        return np.asarray(level[0])
    levels = np.empty(readings.time_s.size)
    contents, packing = bodies.start_c, float(readings.room_c[0])
    then_s, then_c = 0.0, packing
    for n, (now_s, now_c) in enumerate(zip(readings.time_s, readings.room_c, strict=True)):
        middle_c = (then_c + float(now_c)) / 2
        moved = _moved(readings, bodies, now_s - then_s, contents, packing, middle_c)
        contents, packing = float(moved[0]), float(moved[1])
        levels[n], then_s, then_c = contents, float(now_s), float(now_c)
    return levels


def _moved(
    readings: Cooling,
    bodies: Bodies,
    time_s: Values,
    contents_c: float,
    packing_c: float,
    room_c: float,
) -> tuple[Values, Values]:
    return cooling.two_body_c(
        time_s=time_s,
        contents_j_k=readings.contents_j_k,
        packing_j_k=bodies.packing_j_k,
        loss_w_k=bodies.loss_w_k,
        start_c=contents_c,
        packing_start_c=packing_c,
        room_c=room_c,
    )


def solved(readings: Cooling, held_j_k: float | None, *, robust: bool = False) -> Solved:
    """Fit the curve to the readings.

    Parameters
    ----------
    readings : Cooling
        The readings [-]
    held_j_k : float, optional
        The packing; None to fit it as well [J/K]
    robust : bool
        Readings far off count little [-]

    Returns
    -------
    Solved
        The best point; no covariance if robust [-]

    Raises
    ------
    PhysicsError
        If a quantity lies outside the range of the formula.

    References
    ----------
    .. [1] definition, p 1, least squares; robust: Cauchy's loss.
    """
    from scipy.optimize import least_squares  # half a second

    guess, low, high = _search(readings, held_j_k)

    def miss_k(x: Floats) -> Floats:
        return curve_c(readings, bodies_of(x, held_j_k)) - readings.temp_c

    found = least_squares(
        miss_k,
        guess,
        bounds=(low, high),
        x_scale="jac",
        loss="cauchy" if robust else "linear",
        f_scale=2 * TRUSTED_K,
    )
    x, jacobian = np.asarray(found.x), np.asarray(found.jac)
    covariance = np.zeros((x.size, x.size)) if robust else np.linalg.pinv(jacobian.T @ jacobian)
    return Solved(x, held_j_k, covariance, miss_k(x))


def _search(
    readings: Cooling, held_j_k: float | None
) -> tuple[list[float], list[float], list[float]]:
    """First guess of each number, and the bounds within which it is sought."""
    heat, room_c = readings.contents_j_k, float(readings.room_c.mean())
    first_c, last_c = float(readings.temp_c[0]), float(readings.temp_c[-1])
    fallen = math.log(max(first_c - room_c, 1.0) / max(last_c - room_c, 0.5))
    loss = math.log(heat * max(fallen, 0.01) / max(float(readings.time_s[-1]), 60.0))
    rows = [(loss, loss - WIDE_LOG, loss + WIDE_LOG)]
    if held_j_k is None:
        rows.append((math.log(heat / 5), math.log(heat) - 9, math.log(heat) + 3))
    rows.append((first_c, first_c - COLDER_K, first_c + HOTTER_K))
    guess, low, high = (list(column) for column in zip(*rows, strict=True))
    return guess, low, high
