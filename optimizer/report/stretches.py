"""What happens to a pot, stretch by stretch: heated, kept boiling, waiting, in its cooker."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from optimizer.model.plan import Step

Doing = Literal["fire", "boil", "wait", "cooker"]


@dataclass(frozen=True, slots=True)
class Stretch:
    """Minutes of the clock in which one thing happens to a pot."""

    doing: Doing
    start: int
    end: int

    def within(self, start: int, end: int) -> "Stretch | None":
        """Return what of it lies between two minutes, if any does."""
        first, last = max(start, self.start), min(end, self.end)
        return Stretch(self.doing, first, last) if first < last else None


def stretches(step: Step) -> list[Stretch]:
    """List what happens to a pot from the stove to the table.

    Parameters
    ----------
    step
        One dish of a plan.

    Returns
    -------
    list of Stretch
        In order, without gaps and none of them empty.
    """
    return [each for each in _all(step) if each.start < each.end]


def _all(step: Step) -> Iterator[Stretch]:
    yield Stretch("fire", step.on, step.boil)
    yield Stretch("boil", step.boil, step.off)
    resting: Doing = "wait" if step.cooker is None else "cooker"
    since = step.off if step.move is None else step.move
    yield Stretch("wait", step.off, since)
    for again in step.reboil:
        yield Stretch(resting, since, again.on)
        yield Stretch("fire", again.on, again.boil)
        yield Stretch("boil", again.boil, again.off)
        since = again.off
    yield Stretch("wait" if step.reboil else resting, since, step.serve)
