"""How long what is left lasts at the pace of the plan: a plain estimate, fuel by fuel.

A day's burn is that of the whole course over its days, times what was measured over what was
predicted where that is sure enough. The reserve is left untouched. Another mix of fuels may last
longer; the study of endurance looks for it.
"""

from dataclasses import dataclass

from optimizer.model.household import Store
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
