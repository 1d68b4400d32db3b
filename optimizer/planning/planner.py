"""The main job: a scenario in, a checked plan out."""

import time
from collections.abc import Callable, Iterator, MutableMapping, Sequence
from dataclasses import replace

from optimizer.errors import CheckError, LimitError
from optimizer.model.household import Scenario
from optimizer.model.plan import BoilAll, Goal, Plan, Status, Step
from optimizer.planning.baseline import Effort, boil_all, saving
from optimizer.planning.cautions import cautions_of
from optimizer.planning.columns import Kitchen
from optimizer.planning.explain import least_changes
from optimizer.planning.kitchen import Choices, Known, choices, household_of, kitchen_of
from optimizer.planning.ledger import price_of
from optimizer.planning.memory import Memory
from optimizer.planning.mix import mix
from optimizer.planning.result import Result
from optimizer.planning.schedule import schedule
from optimizer.planning.solver import Progress, SolverName
from optimizer.planning.steps import fire_minutes, fires_told, fuels_used, steps_of
from optimizer.planning.verify import verify
from optimizer.planning.worth import worth_of

Boiled = MutableMapping[object, BoilAll]


def plan(
    scenario: Scenario,
    *,
    gap: float = 0.01,
    time_limit_s: float = 30.0,
    solver: SolverName = "highs",
    progress: Progress | None = None,
    memory: Memory | None = None,
) -> Plan:
    """Plan a household's cooking.

    Parameters
    ----------
    scenario : Scenario
        The household; its goals and its confidence are used.
    gap : float
        Stop when the plan is proven to be within this share of the best there is.
    time_limit_s : float
        For the search; the comparisons and the worth of things get as much together [s]
    solver : {"highs", "cbc"}
        CBC is a second opinion and proves no bound.
    progress : callable, optional
        Called now and then with seconds, best value and bound; False stops the search.
    memory : Memory, optional
        Kept from plan to plan by the caller: after a small edit only what has changed is worked
        out again.

    Returns
    -------
    Plan
        Checked by the independent checker; status "infeasible" with the least changes that would
        make a plan, where there is none.

    Raises
    ------
    LimitError
        If time ran out, or the search was stopped, before there was a plan.
    CheckError
        If a plan fails the independent checker: a defect of this program.
    """
    *_, whole = plans(
        scenario,
        gap=gap,
        time_limit_s=time_limit_s,
        solver=solver,
        progress=progress,
        memory=memory,
    )
    return whole


def plans(
    scenario: Scenario,
    *,
    gap: float = 0.01,
    time_limit_s: float = 30.0,
    solver: SolverName = "highs",
    progress: Progress | None = None,
    memory: Memory | None = None,
    wanted: Callable[[], bool] | None = None,
) -> Iterator[Plan]:
    """Plan a household's cooking, and yield the plan as it grows.

    The first that comes has the whole schedule and what it saves; then comes the comparison on any
    stove, then what one more of each thing is worth. The memory is free for another search once
    the first has come.

    Parameters
    ----------
    scenario, gap, time_limit_s, solver, progress, memory
        As of ``plan``.
    wanted : callable, optional
        Asked while what comes after the first is worked out; False leaves the rest out.

    Yields
    ------
    Plan
        The same plan with more of it known each time; the last is what ``plan`` returns.

    Raises
    ------
    LimitError, CheckError
        As of ``plan``, before the first.
    """
    began = time.perf_counter()
    memory = Memory() if memory is None else memory
    options = choices(scenario, known=memory.ways(household_of(scenario)))
    kitchen = kitchen_of(scenario)
    found = schedule(
        options.columns,
        kitchen,
        goals=scenario.goals,
        gap=gap,
        time_limit_s=time_limit_s,
        progress=progress,
        solver=solver,
        memory=memory,
    )
    left = max(1.0, time_limit_s - (time.perf_counter() - began))
    effort = Effort(gap, left, solver, wanted)
    if found.status == "infeasible":
        yield _none(scenario, options, kitchen, effort)
        return
    if not found.chosen:
        raise LimitError(_nothing_yet(found))
    told = as_plan(scenario, options, kitchen, found)
    verify(told, scenario)
    if found.status == "stopped":
        yield told
        return
    for more in _compared(told, scenario, effort, options.known, memory.boiled):
        told = more
        yield told
    if effort.dropped:
        return
    cheapest = mix(options.columns, kitchen, goal=scenario.goals[0])
    worth = worth_of(scenario, options.columns, kitchen, cheapest, found, effort)
    if not effort.dropped:
        yield replace(told, worth=worth)


def _nothing_yet(found: Result) -> str:
    return (
        f"no plan after {found.seconds:.0f} s; allow more time (--time-limit), a wider gap "
        "(--gap 0.05), or plan fewer days at a time"
    )


def _none(scenario: Scenario, options: Choices, kitchen: Kitchen, effort: Effort) -> Plan:
    return Plan(
        title=scenario.title,
        start=scenario.start,
        status="infeasible",
        gap=None,
        goal=Goal(scenario.goals[0], None, None),
        changes=least_changes(scenario, options, kitchen, effort),
        refusals=options.refusals,
        begins=scenario.begins,
        under_way=tuple(each.step for each in scenario.under_way),
    )


def as_plan(scenario: Scenario, options: Choices, kitchen: Kitchen, found: Result) -> Plan:
    """Return a schedule as a plan, without comparisons and worth.

    Parameters
    ----------
    scenario : Scenario
        The household.
    options : Choices
        Its columns and refusals.
    kitchen : Kitchen
        What its dishes share.
    found : Result
        A schedule of these columns.

    Returns
    -------
    Plan
        Not checked yet.
    """
    fires = fires_told(found.chosen, kitchen, scenario)
    steps = steps_of(found.chosen, fires, scenario)
    return Plan(
        title=scenario.title,
        start=scenario.start,
        status=_status(found),
        gap=found.gap,
        goal=Goal(scenario.goals[0], found.value, found.bound),
        steps=steps,
        fires=fires,
        fuels=fuels_used(found.chosen, kitchen, scenario),
        cost=price_of(found.chosen, kitchen, "money"),
        fire_minutes=fire_minutes(fires),
        tending_minutes=price_of(found.chosen, kitchen, "tending"),
        cautions=cautions_of(steps, scenario),
        refusals=options.refusals,
        begins=scenario.begins,
        under_way=tuple(each.step for each in scenario.under_way),
    )


def _status(found: Result) -> Status:
    """Return the status of a schedule that was found."""
    if found.status == "infeasible" or found.status == "no_plan":  # noqa: PLR1714  (mypy narrows by it)
        raise CheckError(f"a schedule was found, and yet its status is {found.status}")
    return found.status


def _compared(
    told: Plan, scenario: Scenario, effort: Effort, known: Known, boiled: Boiled
) -> Iterator[Plan]:
    """Yield the plan beside boiling through on its own stoves, and then beside any stove too."""
    same = _boiled(scenario, effort, told.steps, known, boiled)
    told = replace(told, boil_all_same_stoves=same, saved=saving(told, same))
    if told.saved is not None:
        yield told
    any_stove = _boiled(scenario, effort, (), known, boiled)
    by_any = saving(told, any_stove)
    if told.saved is None or not effort.dropped:
        yield replace(told, boil_all=any_stove, saved=told.saved or by_any, saved_any_stove=by_any)


def _boiled(
    scenario: Scenario, effort: Effort, steps: Sequence[Step], known: Known, boiled: Boiled
) -> BoilAll:
    """Return what boiling the whole time takes; it is the same whatever the stock."""
    stores = tuple(replace(each, stock_kg=None, stock_j=None) for each in scenario.stores)
    asked = replace(scenario, title="", start=None, stores=stores, shop=None)  # it has stocks too
    stoves = frozenset((step.number, step.stove) for step in steps)
    key = (asked, stoves, effort.gap, effort.solver)
    if key not in boiled:
        began = time.perf_counter()
        found = boil_all(scenario, effort, steps=steps, known=known)
        if effort.dropped or time.perf_counter() - began > effort.time_limit_s:
            return found  # perhaps not the best there is
        boiled[key] = found
    return boiled[key]
