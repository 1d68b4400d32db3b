"""A water test of an insulated cooker: from readings to its loss, its packing, its time constant.

A robust first pass names the outliers; least squares on the rest gives the numbers. Bands hold
90 % and come from the scatter of the readings alone: another filling is another box.
"""

import math
from dataclasses import dataclass, field
from typing import Final, Literal, NamedTuple

import numpy as np
from numpy.typing import NDArray

from optimizer.errors import PhysicsError
from optimizer.physics import cooling
from optimizer.trials.cooling_curve import (
    TRUSTED_K,
    Z90,
    Bodies,
    Cooling,
    Floats,
    Solved,
    curve_c,
    solved,
)

Kind = Literal["packed", "vacuum"]
PackingFrom = Literal["readings", "computed", "none"]

FEWEST: Final = 3  # readings of one body: its loss, its start, and one to hold them against
FEWEST_TWO: Final = 5  # of contents and packing
OUTLIER: Final = 4.0  # robust standard deviations
FACTOR_KNOWN: Final = 2.5  # a packing known within this factor is told, else it is not
FACTOR_LOSS: Final = 1.6  # a loss not known within this factor is not written down
CLEARLY: Final = 1.5  # times the scatter: a held packing does not fit
COMPUTED_FACTOR: Final = 1.4  # how well a computed packing is known: judgement
DRAWS: Final = 1000
DRAWN: Final = 200  # curves of which a band is drawn
LONGEST_H: Final = 48
STEP_S: Final = 300.0
# Relative standard deviation from one filling to the next, which one test cannot show: judgement.
AGAIN: Final = {"packed": 0.10, "vacuum": 0.05}


class Estimate(NamedTuple):
    """A fitted number with its 90 % band."""

    value: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class BoxFit:
    """What a water test says of a cooker."""

    readings: Cooling
    kind: Kind
    loss_w_k: Estimate
    packing_j_k: Estimate
    packing_from: PackingFrom
    start_c: Estimate
    constant_s: Estimate  # once the packing is warm
    noise_k: float  # scatter of the readings round the curve
    fitted_c: Floats = field(repr=False)  # at every reading
    outliers: tuple[int, ...]  # positions among the readings
    draws: Floats = field(repr=False)  # rows of loss and packing, as unsure as the bands

    @property
    def loss_spread(self) -> float:
        """Relative standard deviation for a plan: of this test, and from filling to filling."""
        half = math.log(self.loss_w_k.high / self.loss_w_k.low) / 2 / Z90
        return math.hypot(half, AGAIN[self.kind])

    @property
    def too_uncertain(self) -> bool:
        """Whether the loss is known too badly to be written down."""
        return self.loss_w_k.high > FACTOR_LOSS**2 * self.loss_w_k.low

    def band_c(self, time_s: Floats) -> tuple[Floats, Floats, Floats]:
        """Return the curve at some times with its lower and upper edge, which hold 90 %."""
        room_c = np.interp(time_s, self.readings.time_s, self.readings.room_c)
        at = Cooling(time_s, np.zeros_like(time_s), room_c, self.readings.contents_j_k)
        middle = Bodies(self.loss_w_k.value, self.packing_j_k.value, self.start_c.value)
        start_k = (self.start_c.high - self.start_c.low) / 2 / Z90
        starts = np.random.default_rng(1).normal(self.start_c.value, start_k, DRAWN)
        found = [
            curve_c(at, Bodies(float(loss), float(packing), float(start)))
            for (loss, packing), start in zip(self.draws[:DRAWN], starts, strict=True)
        ]
        low, high = np.quantile(found, [0.05, 0.95], axis=0)
        return curve_c(at, middle), low, high

    def hours_above(self, *, start_c: float, room_c: float, limit_c: float) -> Estimate:
        """Return hours until the tested filling falls below a temperature; infinite: over 48."""
        time_s = np.arange(0.0, LONGEST_H * 3600 + STEP_S, STEP_S)
        bodies = np.vstack([[self.loss_w_k.value, self.packing_j_k.value], self.draws])
        contents, _ = cooling.two_body_c(
            time_s=time_s,
            contents_j_k=self.readings.contents_j_k,
            packing_j_k=bodies[:, 1:],
            loss_w_k=bodies[:, :1],
            start_c=start_c,
            packing_start_c=room_c,
            room_c=room_c,
        )
        held = np.sum(np.asarray(contents) >= limit_c, axis=1)
        hours = np.where(held < time_s.size, held * STEP_S / 3600, np.inf)
        low, high = np.quantile(hours[1:], [0.05, 0.95], method="nearest")
        return Estimate(float(hours[0]), float(low), float(high))


def fit(readings: Cooling, kind: Kind, computed_j_k: float | None = None) -> BoxFit:
    """Fit a cooker to the readings of a water test.

    Parameters
    ----------
    readings : Cooling
        Time since it was closed, temperature of the water, of the room; heat of water and pot [-]
    kind : str
        "packed": contents and packing; "vacuum": one body [-]
    computed_j_k : float, optional
        Heat capacity of the packing by its volume, for readings that do not tell it [J/K]

    Returns
    -------
    BoxFit
        Loss, packing, start, time constant with 90 % bands; outliers named [-]

    Raises
    ------
    PhysicsError
        If there are fewer than three readings, or the water does not cool towards the room.

    Notes
    -----
    First a fit with Cauchy's loss; a reading is an outlier beyond four robust standard
    deviations, 1.4826 (1 + 5/(n - p)) times the median of the absolute misses and no less than
    0.3 K, at most a quarter of the readings. Then least squares on the rest; bands by Student's t
    in the logarithm of loss and packing.

    References
    ----------
    .. [1] ROUSSEEUW_LEROY_1987, p 202, finite-sample factor of the robust scale (from memory).
    """
    _check(readings)
    outliers = _outliers(readings, np.ones(readings.time_s.size, dtype=bool), kind)
    if outliers:  # a second look, now that they do not pull
        outliers = _outliers(readings, _without(readings, outliers), kind)
    kept = readings.only(_without(readings, outliers))
    found, source = _solve(kept, kind, computed_j_k)
    return _told(readings, kept, found, kind, source, outliers)


def _check(readings: Cooling) -> None:
    if readings.time_s.size < FEWEST:
        raise PhysicsError(f"at least {FEWEST} readings are needed, not {readings.time_s.size}")
    first, last = readings.temp_c[0], readings.temp_c[-1]
    if not first - 1.0 > last > readings.room_c[-1]:
        raise PhysicsError(
            f"the water has to cool towards the room: it went from {first:g} to {last:g} degC in a "
            f"room of {readings.room_c[-1]:g} degC"
        )


def _without(readings: Cooling, outliers: tuple[int, ...]) -> NDArray[np.bool_]:
    keep = np.ones(readings.time_s.size, dtype=bool)
    keep[list(outliers)] = False
    return keep


def _outliers(readings: Cooling, keep: NDArray[np.bool_], kind: Kind) -> tuple[int, ...]:
    """Positions of the readings that lie off the curve that the kept ones make."""
    kept = readings.only(keep)
    held = None if kind == "packed" and kept.time_s.size > FEWEST_TWO else 0.0
    found = solved(kept, held, robust=True)
    free = kept.time_s.size - found.x.size
    if free <= 1:
        return tuple(int(n) for n in np.flatnonzero(~keep))
    scale = 1.4826 * (1 + 5 / free) * float(np.median(np.abs(found.miss_k)))
    miss_k = np.abs(curve_c(readings, found.bodies) - readings.temp_c)
    off = np.flatnonzero(miss_k > OUTLIER * max(scale, TRUSTED_K))
    worst = off[np.argsort(-miss_k[off])][: readings.time_s.size // 4]
    return tuple(sorted(int(n) for n in worst))


def _solve(kept: Cooling, kind: Kind, computed_j_k: float | None) -> tuple[Solved, PackingFrom]:
    """Fit contents and packing where the readings tell both, else hold the packing."""
    if kind == "vacuum":
        return solved(kept, 0.0), "none"
    held = solved(kept, computed_j_k or 0.0)
    if kept.time_s.size >= FEWEST_TWO:
        both = solved(kept, None)
        known = Z90 * math.sqrt(both.covariance[1, 1]) <= math.log(FACTOR_KNOWN)
        if known or held.noise_k > max(CLEARLY * both.noise_k, 2 * TRUSTED_K):
            return both, "readings"
    return held, "computed" if computed_j_k else "none"


def _told(
    readings: Cooling,
    kept: Cooling,
    found: Solved,
    kind: Kind,
    source: PackingFrom,
    outliers: tuple[int, ...],
) -> BoxFit:
    bodies, covariance = found.bodies, _covariance(kept, found)
    half = Z90 * np.sqrt(np.diag(covariance))
    about_packing = half[1] if source == "readings" else math.log(COMPUTED_FACTOR)
    draws = _draws(covariance, found)
    return BoxFit(
        readings=readings,
        kind=kind,
        loss_w_k=_band(bodies.loss_w_k, float(half[0])),
        packing_j_k=_band(bodies.packing_j_k, float(about_packing)),
        packing_from=source,
        start_c=Estimate(
            bodies.start_c, bodies.start_c - float(half[-1]), bodies.start_c + float(half[-1])
        ),
        constant_s=_constant_s(readings.contents_j_k, bodies, draws),
        noise_k=found.noise_k,
        fitted_c=curve_c(readings, bodies),
        outliers=outliers,
        draws=draws,
    )


def _covariance(kept: Cooling, found: Solved) -> Floats:
    """Covariance of the point; that of a computed packing comes on top."""
    held = found.held_j_k
    if not held:
        return found.covariance
    less, more = (solved(kept, held * f).x for f in (1 / COMPUTED_FACTOR, COMPUTED_FACTOR))
    step = (more - less) / 2 / Z90
    return np.asarray(found.covariance + np.outer(step, step))


def _draws(covariance: Floats, found: Solved) -> Floats:
    """Losses and packings that the readings allow."""
    drawn = np.random.default_rng(0).multivariate_normal(
        found.x, covariance, size=DRAWS, method="eigh"
    )
    held = found.held_j_k
    packing = np.exp(drawn[:, 1]) if held is None else np.full(DRAWS, held)
    return np.column_stack([np.exp(drawn[:, 0]), packing])


def _constant_s(contents_j_k: float, bodies: Bodies, draws: Floats) -> Estimate:
    losses = np.append(bodies.loss_w_k, draws[:, 0])
    packings = np.append(bodies.packing_j_k, draws[:, 1])
    found = np.asarray(
        cooling.late_time_constant_s(
            contents_j_k=contents_j_k, loss_w_k=losses, packing_j_k=packings
        )
    )
    low, high = np.quantile(found[1:], [0.05, 0.95])
    return Estimate(float(found[0]), float(low), float(high))


def _band(value: float, half: float) -> Estimate:
    return Estimate(value, value * math.exp(-half), value * math.exp(half))
