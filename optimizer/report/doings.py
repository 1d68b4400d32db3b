"""What has to be done, put in the order of the clock; its times rounded without upsetting that.

Clock times are rounded to five minutes. What must begin (soaking, lighting, a pot set on) is
rounded down, so that it is never begun late; what must not end early (a pot taken off) is rounded
up; meals keep their minute. Where that would upset the order, the exact minute is kept.
"""

import math
from dataclasses import dataclass, replace
from typing import Literal

from optimizer.model.plan import Fire, Step
from optimizer.scenario.clock import clock

GRAIN_MIN = 5

# What comes first in the same minute: a pot leaves its place before the next one takes it.
SOAK, OFF, MOVE, END, LIGHT, ON, SERVE = range(7)

Rounding = Literal["down", "exact", "up"]


@dataclass(frozen=True, slots=True)
class Doing:
    """One line of the timetable; ``order`` settles what comes first in the same minute."""

    minute: int  # as planned
    order: int
    rounding: Rounding
    dish: str  # empty: about a fire
    text: str
    clock: int = 0  # as shown
    of: Step | Fire | None = None  # what it is about


def nearest(minute: int) -> str:
    """Write a time of day that is only about right."""
    return clock(GRAIN_MIN * round(minute / GRAIN_MIN))


def rounded(minute: int, rounding: Rounding) -> int:
    """Round a minute to the grain of the clock."""
    if rounding == "exact":
        return minute
    way = math.floor if rounding == "down" else math.ceil
    return GRAIN_MIN * way(minute / GRAIN_MIN)


def shown(doings: list[Doing]) -> list[Doing]:
    """Put doings in order and round their clock times without upsetting that order."""
    ordered = sorted(doings, key=lambda d: (d.minute, d.order, d.dish, d.text))
    clocks = [rounded(d.minute, d.rounding) for d in ordered]
    for i in range(len(ordered) - 2, -1, -1):  # rounded up: not past what comes next
        if ordered[i].rounding == "up":
            clocks[i] = min(clocks[i], max(ordered[i].minute, clocks[i + 1]))
    for i in range(1, len(ordered)):  # rounded down: not before what came first
        clocks[i] = max(clocks[i], clocks[i - 1])
    return [replace(d, clock=c) for d, c in zip(ordered, clocks, strict=True)]
