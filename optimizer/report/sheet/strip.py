"""A day at a glance: a strip of time with a lane a dish; places are in per cent of its width."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from optimizer.model.household import DAY_MIN
from optimizer.model.plan import Step
from optimizer.report.stretches import stretches

HOUR_MIN = 60
MOST_TICKS = 9


@dataclass(frozen=True, slots=True)
class Bar:
    """One thing that happens to a pot: fire, boil, wait or cooker."""

    doing: str
    start: str
    width: str


@dataclass(frozen=True, slots=True)
class Lane:
    """One dish."""

    dish: str
    bars: tuple[Bar, ...]
    served: str | None  # where, if on this day


@dataclass(frozen=True, slots=True)
class Strip:
    """The lanes of a day under one clock."""

    lanes: tuple[Lane, ...]
    ticks: tuple[tuple[str, str], ...]  # where, and the hour


def strip_of(day: int, steps: Sequence[Step], label: dict[int, str]) -> Strip | None:
    """Set out a day's pots on a strip of time.

    Parameters
    ----------
    day
        Number of the day.
    steps
        All steps of the plan.
    label
        What each step is called, by its place among them.

    Returns
    -------
    Strip or None
        None on a day without a pot.
    """
    first, last = (day - 1) * DAY_MIN, day * DAY_MIN
    today = [
        (step, number) for number, step in enumerate(steps) if step.on < last and step.serve > first
    ]
    if not today:
        return None
    begin = max(first, min(step.on for step, _ in today))
    end = min(last, max(step.serve for step, _ in today))
    start, stop = HOUR_MIN * (begin // HOUR_MIN), HOUR_MIN * (end // HOUR_MIN + 1)
    clock = _Clock(start, min(stop, last))
    lanes = [_lane(step, label[number], clock) for step, number in today]
    return Strip(tuple(lanes), clock.ticks())


@dataclass(frozen=True, slots=True)
class _Clock:
    """The hours of a strip."""

    start: int
    end: int

    def share(self, minutes: float) -> str:
        """Write minutes as a part of the width."""
        return f"{100 * minutes / (self.end - self.start):.2f}%"

    def at(self, minute: int) -> str:
        """Write where a minute lies."""
        return self.share(minute - self.start)

    def ticks(self) -> tuple[tuple[str, str], ...]:
        """Give every hour, or every second or third where that would be too many."""
        hours = (self.end - self.start) // HOUR_MIN
        every = HOUR_MIN * math.ceil(hours / MOST_TICKS)
        first = every * math.ceil(self.start / every)
        midnight = self.start // DAY_MIN * DAY_MIN
        return tuple(
            (self.at(minute), str((minute - midnight) // HOUR_MIN))
            for minute in range(first, self.end + 1, every)
        )


def _lane(step: Step, dish: str, clock: _Clock) -> Lane:
    """Set out one pot."""
    inside = [each.within(clock.start, clock.end) for each in stretches(step)]
    bars = [
        Bar(each.doing, clock.at(each.start), clock.share(each.end - each.start))
        for each in inside
        if each is not None
    ]
    served = clock.at(step.serve) if clock.start <= step.serve <= clock.end else None
    return Lane(dish, tuple(bars), served)
