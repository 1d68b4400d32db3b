"""The equations of a pot integrated step by step, without their closed forms."""

import math
from collections.abc import Callable
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

Curve = NDArray[np.float64]

HALVINGS = 20  # of the way to a temperature
INTERVALS = 16  # of Simpson's rule in each; even
CELLS = 40  # from a piece's centre to its surface
DIMENSION = {"slab": 0, "cylinder": 1, "sphere": 2}


def minutes_between(
    *,
    heat_j_k: float,
    net_w: float,
    loss_w_k: float,
    air_c: float,
    from_c: float,
    to_c: float,
    weight: Callable[[Curve], Curve] | None = None,
) -> float:
    """Return minutes in which a pot comes from one temperature to another.

    ``C dT/dt = net - UA (T - T_air)`` over temperature by Simpson's rule, each minute weighted
    by its temperature if asked for; infinite where the pot never gets there.
    """
    if to_c == from_c:
        return 0.0
    level, simpson = _levels(from_c, to_c)
    pace_k_s = (net_w - loss_w_k * (level - air_c)) / heat_j_k
    if (pace_k_s * (to_c - from_c) <= 0).any():
        return math.inf
    height = (1.0 if weight is None else weight(level)) / pace_k_s
    return float((simpson * height).sum()) / 60


def minutes_by_power(
    *,
    heat_j_k: float,
    net_w: Curve,
    loss_w_k: float,
    air_c: float,
    from_c: float,
    to_c: float,
) -> Curve:
    """Return the same on the way up for several powers at once (array by power)."""
    level, simpson = _levels(from_c, to_c)
    pace_k_s = (net_w[:, None, None] - loss_w_k * (level - air_c)) / heat_j_k
    gets_there = (pace_k_s > 0).all(axis=(1, 2))
    minutes = np.full(len(net_w), math.inf)
    minutes[gets_there] = (simpson / pace_k_s[gets_there]).sum(axis=(1, 2)) / 60
    return minutes


def _levels(from_c: float, to_c: float) -> tuple[Curve, Curve]:
    """Return temperatures on the way, and Simpson's weights of them [K]."""
    share = 0.5 ** np.arange(HALVINGS)
    edge_c = np.append(to_c - (to_c - from_c) * share, to_c)  # closer where it may level off
    simpson = np.full((INTERVALS + 1, 1), 2.0)
    simpson[1::2], simpson[0], simpson[-1] = 4.0, 1.0, 1.0
    level = np.linspace(edge_c[:-1], edge_c[1:], INTERVALS + 1)
    return level, simpson * np.diff(edge_c) / (3 * INTERVALS)


@lru_cache(maxsize=4096)
def falling(
    *,
    contents_j_k: float,
    packing_j_k: float,
    loss_w_k: float,
    start_c: float,
    room_c: float,
    minutes: float,
) -> Curve:
    """Return the contents' temperature minute by minute until the end of a rest.

    Contents lose through half of the packing to its middle, that through the other half to the
    room; the packing starts as warm as the room. Integrated by the two-stage Gauss method.
    """
    steps = max(1, math.ceil(minutes))
    across = 2 * loss_w_k
    if packing_j_k > 0:
        out, into = across / contents_j_k, across / packing_j_k
        rates, state = np.array([[-out, out], [into, -2 * into]]), np.array([start_c - room_c, 0.0])
    else:
        rates, state = np.array([[-loss_w_k / contents_j_k]]), np.array([start_c - room_c])
    forward = _gauss(rates * (60 * minutes / steps))
    curve = [start_c - room_c]
    for _ in range(steps):
        state = forward @ state
        curve.append(float(state[0]))
    return np.array(curve) + room_c


def bare_c(
    heat_j_k: float, loss_w_k: float, start_c: float, room_c: float, minutes: float
) -> float:
    """Return how hot something without packing is after so many minutes."""
    curve = falling(
        contents_j_k=heat_j_k,
        packing_j_k=0.0,
        loss_w_k=loss_w_k,
        start_c=start_c,
        room_c=room_c,
        minutes=minutes,
    )
    return float(curve[-1])


def _gauss(rates: Curve) -> Curve:
    """Return one step of the two-stage Gauss method for a linear system, order four."""
    one, twice = np.eye(len(rates)), rates @ rates / 12
    return np.asarray(np.linalg.solve(one - rates / 2 + twice, one + rates / 2 + twice))


def credited(curve: Curve, minutes: float, rate: Callable[[Curve], Curve]) -> float:
    """Return minutes at 100 degC that a falling curve over so many minutes is worth."""
    return float(np.trapezoid(rate(curve), dx=minutes / (len(curve) - 1)))


def centre_share(
    *, half_size_m: float, shape: str, diffusivity_m2_s: float, ramp_s: float, hold_s: float
) -> float:
    """Return the share of its rise that a piece's centre has made, by finite volumes.

    Its surface rises evenly over the ramp and is then held.
    """
    decay, lag = _piece(shape)
    per_s = decay * diffusivity_m2_s / half_size_m**2
    lag = lag * np.exp(-per_s * hold_s)
    if ramp_s > 0:
        lag = lag * -np.expm1(-per_s * ramp_s) / (per_s * ramp_s)
    return float(1 - lag.sum())


@lru_cache(maxsize=3)
def _piece(shape: str) -> tuple[Curve, Curve]:
    """Return decay rates and what each holds of the centre's lag, half-size and diffusivity 1."""
    edges = np.linspace(0.0, 1.0, CELLS + 1)
    power = DIMENSION[shape]
    half = np.sqrt(np.diff(edges ** (power + 1)) / (power + 1))  # roots of the cells' volumes
    through = edges[1:] ** power * CELLS
    through[-1] *= 2  # the surface is half a cell away
    rates = np.diag(through + np.append(0.0, through[:-1]))
    rates -= np.diag(through[:-1], 1) + np.diag(through[:-1], -1)
    decay, modes = np.linalg.eigh(rates / np.outer(half, half))
    return decay, modes[0] / half[0] * (modes.T @ half)
