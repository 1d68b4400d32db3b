"""The temperature at each draw on a pot or jar, integrated step by step."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Protocol

import numpy as np
from numpy.typing import NDArray
from scipy.integrate import solve_ivp

from optimizer.model.household import Drawing

EVEN = 1e-9
ZERO_C = 273.15
CARRIER_W_M2PA = 0.089 + 0.0782 * 0.5  # in a draught of 0.5 m/s
FILM_W_M2K, GREY_W_M2K4 = 10.0, 0.96 * 5.670374419e-8
Pace = Callable[[float, NDArray[np.float64]], list[float]]


class Falling(Protocol):
    """What falls during a rest."""

    @property
    def contents_j_k(self) -> float:
        """Heat of contents and vessel."""

    @property
    def packing_j_k(self) -> float:
        """Heat of the packing."""

    @property
    def loss_w_k(self) -> float:
        """Usual loss."""

    @property
    def spread(self) -> float:
        """Its relative standard deviation."""

    @property
    def start_c(self) -> float:
        """Temperature when it is closed."""


@dataclass(frozen=True)
class Mouth:
    """How a pot or jar stands open while it is drawn on."""

    m2: float
    bare_w_k: float  # through walls that are laid bare
    open_min: float


def drawn_levels(
    body: Falling,
    draws: Sequence[Drawing],
    *,
    load_j_k: float,
    first_min: float,
    spreads: float,
    room_c: float,
    mouth: Mouth,
) -> list[float]:
    """Return the temperature at each draw by stepping the two bodies through all of it."""
    through = 2 * body.loss_w_k * (1 + spreads * body.spread)
    left = body.contents_j_k
    level, packing = body.start_c, room_c
    gaps = [first_min, *(a.before_min - b.before_min for a, b in pairwise(draws))]
    found = []
    for minutes, draw in zip(gaps, draws, strict=True):
        level, packing = _shut(
            level, packing, 60 * minutes, left, body.packing_j_k, through, room_c
        )
        found.append(level)
        left -= draw.share * load_j_k
        if left > EVEN and draw is not draws[-1]:
            level = open_c(level, left, room_c, mouth)
    return found


def _shut(
    level: float,
    packing: float,
    seconds: float,
    left_j_k: float,
    packing_j_k: float,
    through_w_k: float,
    room_c: float,
) -> tuple[float, float]:
    """Return contents and packing after a time in the closed cooker."""

    def pace(_: float, at: NDArray[np.float64]) -> list[float]:
        if packing_j_k <= 0:
            return [-through_w_k / 2 * (at[0] - room_c) / left_j_k, 0.0]
        inner, outer = through_w_k * (at[0] - at[1]), through_w_k * (at[1] - room_c)
        return [-inner / left_j_k, (inner - outer) / packing_j_k]

    return _stepped(pace, [level, packing], seconds)


def open_c(level: float, left_j_k: float, room_c: float, mouth: Mouth) -> float:
    """Return what is left when an open pot or jar is closed again."""

    def pace(_: float, at: NDArray[np.float64]) -> list[float]:
        vapour_pa = 611.21 * math.exp((18.678 - at[0] / 234.5) * at[0] / (257.14 + at[0]))  # Buck
        glow = GREY_W_M2K4 * ((at[0] + ZERO_C) ** 4 - (room_c + ZERO_C) ** 4)
        lost = CARRIER_W_M2PA * vapour_pa + FILM_W_M2K * (at[0] - room_c) + glow
        return [-(mouth.m2 * lost + mouth.bare_w_k * (at[0] - room_c)) / left_j_k, 0.0]

    return _stepped(pace, [level, 0.0], 60 * mouth.open_min)[0]


def _stepped(pace: Pace, start: list[float], seconds: float) -> tuple[float, float]:
    if seconds <= 0:
        return start[0], start[1]
    end = solve_ivp(pace, (0.0, seconds), start, rtol=1e-7, atol=1e-7, method="LSODA").y[:, -1]
    return float(end[0]), float(end[1])
