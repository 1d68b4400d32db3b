"""The state of a search in two levels."""

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from optimizer.planning.board import scale
from optimizer.planning.cheapest import Prices
from optimizer.planning.columns import Column, Kitchen
from optimizer.planning.days import Kind
from optimizer.planning.ledger import price_of
from optimizer.planning.memory import Memory
from optimizer.planning.pricing import Day

THREADS = 2  # solves at once; what they find does not depend on it
_OF_A_DAY = 0.1  # of the gap asked for
Report = Callable[[float | None, float | None], bool]


@dataclass(slots=True)
class Ladder:
    """The state of a search in two levels; values are in the program's units."""

    columns: Sequence[Column]
    kitchen: Kitchen
    goal: str
    gap: float
    until: float
    report: Report
    kinds: tuple[Kind, ...]
    memory: Memory
    days: tuple[Day, ...] = ()
    chosen: tuple[Column, ...] = ()
    value: float | None = None
    bound: float | None = None
    tried: list[tuple[float, Prices]] = field(default_factory=list)

    @property
    def prices(self) -> Prices:
        """Return the prices with the highest bound, none where none were tried."""
        return max(self.tried, key=lambda each: each[0], default=(0.0, {}))[1]

    @property
    def day_gap(self) -> float:
        """Return how near to the least a day's bound has to be proven."""
        return _OF_A_DAY * self.gap

    @property
    def done(self) -> bool:
        """Whether the gap is closed."""
        if self.value is None or self.bound is None:
            return False
        return self.value - self.bound <= self.gap * abs(self.value)

    def over(self) -> bool:
        """Whether to stop: nothing to do, no time, or told so."""
        going = self.report(self.value, self.bound)
        return self.done or not going or time.perf_counter() >= self.until

    def better(self, chosen: tuple[Column, ...]) -> None:
        """Keep a schedule if it is better than the one there is."""
        if chosen:
            value = price_of(chosen, self.kitchen, self.goal) / scale(self.goal)
            if self.value is None or value < self.value:
                self.chosen, self.value = chosen, value

    def higher(self, bound: float) -> None:
        """Keep a bound if it is higher."""
        self.bound = bound if self.bound is None else max(bound, self.bound)
