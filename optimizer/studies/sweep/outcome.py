"""One point worked out: a plan without further studies, and the days that the store lasts.

Nothing here depends on what was worked out before, in which order or on how many cores. Only the
clock does: a row that it cut short says so.
"""

import time
from collections import OrderedDict
from dataclasses import dataclass, replace
from threading import Lock

from optimizer.errors import FuelthriftError, InputError, LimitError
from optimizer.model.household import Scenario
from optimizer.model.plan import FuelUse, Plan
from optimizer.planning.kitchen import Known, household_of
from optimizer.planning.memory import Memory
from optimizer.planning.planner import plans
from optimizer.studies.endurance.days import MOST_DAYS, Lasting, how_long
from optimizer.studies.endurance.pool import Pool
from optimizer.studies.endurance.watch import Watch
from optimizer.studies.sweep.grid import Effort, Grid

Cell = int | float | str | None
Row = dict[str, Cell]

PLANNED = ("optimal", "within_gap", "time_limit")  # with a plan, where there is a cost
SHARE_DIGITS, DIGITS = 6, 6
KEPT_HOUSEHOLDS = 4
LONGEST_REPORT = 1000
LATE = "(Time ran out while the least change was looked for.)"
_ONE = Lock()  # a worker with several threads works on one point at a time


@dataclass(slots=True)
class _Ways:
    """Ways of the last few households: pure functions of them, so that no row depends on it."""

    known: "OrderedDict[object, Known]"

    def of(self, scenario: Scenario) -> Known:
        dishes = tuple(dict.fromkeys(item.dish for item in scenario.items))
        key = (household_of(scenario), dishes)
        found = self.known.setdefault(key, {})
        self.known.move_to_end(key)
        while len(self.known) > KEPT_HOUSEHOLDS:
            self.known.popitem(last=False)
        return found


_WAYS = _Ways(OrderedDict())


def row_of(grid: Grid, number: int) -> Row:
    """Work out a point.

    Parameters
    ----------
    grid : Grid
        The scenario and what is varied.
    number : int
        Which point, from 1.

    Returns
    -------
    Row
        By name of the column; what is not known is not in it. A point without a plan, or with a
        fault, has its report in ``report``.
    """
    with _ONE:
        return _begun(grid, number) | _worked_out(grid, number)


def unworked(grid: Grid, number: int, error: BaseException) -> Row:
    """Return the row of a point whose worker failed.

    Parameters
    ----------
    grid : Grid
        The scenario and what is varied.
    number : int
        Which point, from 1.
    error : BaseException
        What became of the worker.
    """
    report = _told(f"its worker failed: {type(error).__name__}: {error}")
    return _begun(grid, number) | {"status": "failed", "report": report}


def _begun(grid: Grid, number: int) -> Row:
    given = grid.values(number)
    row: Row = {"point": number, "sweep": grid.fingerprint}
    return row | {axis.column: axis.cell(given[axis.key]) for axis in grid.axes}


def _worked_out(grid: Grid, number: int) -> Row:
    try:
        household = grid.household(number)
        scenario = grid.scenario(household, number)
        known = _WAYS.of(household)
        found = _planned(scenario, grid.effort, known)
        return found | (_lasting(household, grid.effort, known) if grid.effort.days else {})
    except InputError as error:
        return {"status": "bad_input", "report": _told("; ".join(map(str, error.problems)))}
    except Exception as error:  # whatever it is, it is the report of this point alone
        kind = "" if isinstance(error, FuelthriftError) else f"{type(error).__name__}: "
        return {"status": "failed", "report": _told(f"{kind}{error}")}


def _told(text: str) -> str:
    """Put a report on one line."""
    words = " ".join(text.split())
    return words if len(words) <= LONGEST_REPORT else f"{words[: LONGEST_REPORT - 3]}..."


def _planned(scenario: Scenario, effort: Effort, known: Known) -> Row:
    """Plan a household, as far as what the plan saves on the same stoves."""
    began, memory = time.perf_counter(), Memory(household_of(scenario), known)
    try:
        steady = plans(scenario, gap=effort.gap, time_limit_s=effort.time_limit_s, memory=memory)
        plan = next(steady)
        steady.close()  # type: ignore[attr-defined]  # plans() is a generator
    except LimitError as error:
        return {"status": "time_limit", "report": _told(str(error))}
    late = time.perf_counter() - began > effort.time_limit_s
    if not plan.steps:
        cut = (LATE,) if late else ()
        return {"status": plan.status, "report": _told(" ".join((*plan.changes, *cut))) or None}
    # its comparison may have been cut short too
    return _row_of_plan(replace(plan, status="time_limit") if late else plan)


def _row_of_plan(plan: Plan) -> Row:
    row: Row = {
        "status": plan.status,
        "gap": None if plan.gap is None else round(max(0.0, plan.gap), SHARE_DIGITS),
        "cost": _number(plan.cost),
        "fuel_mj": _number(plan.fuel_mj),
        "fire_min": _number(plan.fire_minutes),
        "saved_share": round(plan.saved.fuel_fraction, SHARE_DIGITS) if plan.saved else None,
    }
    return row | {column_of(use): _number(use.used) for use in plan.fuels}


def column_of(use: FuelUse) -> str:
    """Return the column of what is used of a fuel."""
    return used_column(use.name, weighed=use.used_kg is not None)


def used_column(fuel: str, *, weighed: bool) -> str:
    """Return the column of a fuel, which is weighed or counted by its energy."""
    return f"{fuel}_used_{'kg' if weighed else 'mj'}"


def _number(value: float) -> float:
    """Return a value to six digits: no more is known, and no computer gives other ones."""
    return float(f"{round(value, DIGITS):.{DIGITS}g}") + 0.0


def _lasting(household: Scenario, effort: Effort, known: Known) -> Row:
    """Count the whole days that the store lasts, each number with a checked plan."""
    watch = Watch(effort.time_limit_s, most_s=effort.time_limit_s)
    pool = Pool(known={household_of(household): known})
    try:
        lasting = how_long(household, most=MOST_DAYS, watch=watch, pool=pool)
    except LimitError:
        return {"days_status": "time_limit"}
    return {
        "days_lasted": lasting.days,
        "days_at_most": lasting.most,
        "days_status": _sureness(lasting, watch),
    }


def _sureness(lasting: Lasting, watch: Watch) -> str:
    """Say how sure the number of days is."""
    if lasting.beyond:
        return "beyond"
    if lasting.proven:
        return "proven"
    return "time_limit" if watch.over else "at_least"
