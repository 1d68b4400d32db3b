"""How long what is left lasts at the pace of the plan: a plain estimate, fuel by fuel.

A day's burn is that of the whole course over its days, times what was measured over what was
predicted where that is sure enough. The reserve is left untouched. Another mix of fuels may last
longer; the study of endurance looks for it.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from optimizer.model.household import Scenario, Store
from optimizer.model.now import Left
from optimizer.planning.remaining import with_left
from optimizer.planning.stock import joules_per_kg
from optimizer.trials.burn import ratios
from optimizer.trials.record import LATE, Record, left_at


@dataclass(frozen=True, slots=True)
class Pace:
    """How long one fuel lasts at the pace of the plan; None: the plan does not use it."""

    fuel: str
    days: float | None


def paces(record: Record, minute: int) -> tuple[Pace, ...]:
    """Return how long each limited fuel lasts at the pace of the plan.

    Parameters
    ----------
    record
        The log beside its scenario.
    minute
        Since 00:00 of day 1.
    """
    found = []
    for store in record.scenario.stores:
        left = left_at(record, store, minute)
        if left is not None:
            found.append(Pace(store.fuel.name, _days(record, store, left)))
    return tuple(found)


def household_left(record: Record, minute: int) -> Scenario:
    """Return the household with what is left, for the study of how long it lasts.

    A fuel of which a stove is measured to burn more than planned counts as so much less.

    Parameters
    ----------
    record
        The log beside its scenario.
    minute
        Since 00:00 of day 1.
    """
    return with_left(record.scenario, _counted(record, minute))


def _counted(record: Record, minute: int) -> Iterator[Left]:
    for store in record.scenario.stores:
        left = left_at(record, store, minute)
        if left is None:
            continue
        mine = (each for each in ratios(record) if each.fuel == store.fuel.name)
        more = max([1.0, *(each.value for each in mine if not each.why_not)])
        weighed = store.fuel.lhv_j_kg is not None
        much = max(0.0, left) / more
        yield Left(store.fuel.name, much if weighed else None, None if weighed else much)


def _days(record: Record, store: Store, left: float) -> float | None:
    """Return days until a fuel is down to its reserve."""
    name, days = store.fuel.name, record.scenario.days
    known = {ratio.stove: ratio.value for ratio in ratios(record) if not ratio.why_not}
    joules = sum(
        burnt.between(-LATE, LATE) * known.get(burnt.stove, 1.0)
        for burnt in record.burnt
        if burnt.fuel == name
    )
    a_day = joules / (joules_per_kg(store.fuel) or 1.0) / days
    stock = store.stock_j if store.fuel.lhv_j_kg is None else store.stock_kg
    usable = left - store.reserve * (stock or 0.0)
    return max(0.0, usable) / a_day if a_day > 0 else None
