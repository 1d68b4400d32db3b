"""What was worked out for a household before: a plan after a small edit starts from it."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from optimizer.model.plan import BoilAll
from optimizer.planning.cheapest import Prices
from optimizer.planning.columns import Column
from optimizer.planning.days import Kind, shape
from optimizer.planning.kitchen import Known
from optimizer.planning.pricing import Day, day_of


@dataclass(slots=True)
class Memory:
    """Ways, days and prices of one household, kept from plan to plan in one process.

    A day is known again if nothing that its columns say has changed, whatever its date; its bounds
    and plans then hold as they are. Empty it is of no effect.
    """

    household: object = None
    known: Known = field(default_factory=dict)
    days: dict[object, Day] = field(default_factory=dict)
    prices: dict[str, Prices] = field(default_factory=dict)  # by goal, the best found
    chosen: tuple[Column, ...] = ()  # a schedule to begin with, if one is given
    boiled: dict[object, BoilAll] = field(default_factory=dict)  # by what it is set beside
    fresh: set[object] = field(default_factory=set)  # keys of the days of the plan being made

    def day(self, kind: Kind, goal: str) -> Day:
        """Return a kind of day with all that is known of it."""
        kitchen = kind.kitchen
        lightings = tuple(sorted(kitchen.lightings.items()))
        capacity = _frozen(kitchen.capacity)
        key = (goal, lightings, capacity, shape(kind.columns, kitchen))
        before = self.days.get(key)
        if before is None:
            self.days[key] = day = day_of(kind)
        else:
            kind.plans = before.kind.plans
            day = replace(before, kind=kind)
            self.days[key] = day
        self.fresh.add(key)
        return day

    def ways(self, household: object) -> Known:
        """Return the ways of a household, none if it is another than before."""
        if household != self.household:
            self.household, self.known, self.days, self.prices = household, {}, {}, {}
            self.boiled = {}
        self.days = {key: day for key, day in self.days.items() if key in self.fresh}
        self.fresh = set()
        return self.known


def _frozen(counts: Mapping[str, int]) -> tuple[tuple[str, int], ...]:
    return tuple(sorted(counts.items()))
