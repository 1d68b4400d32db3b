"""The plan from now on: what was followed, how it stands, and what remains planned again."""

from dataclasses import dataclass

from optimizer.errors import InputError, Problem
from optimizer.model.household import Scenario
from optimizer.model.plan import Plan
from optimizer.planning.kitchen import choices, kitchen_of
from optimizer.planning.planner import as_plan
from optimizer.planning.remaining import remaining
from optimizer.planning.schedule import schedule
from optimizer.planning.solver import Progress, SolverName
from optimizer.planning.verify import verify
from optimizer.scenario.logbook import Log
from optimizer.trials.course import Course
from optimizer.trials.log_check import check
from optimizer.trials.record import Record, followed_in, now, record_of


@dataclass(frozen=True, slots=True)
class Replanning:
    """What is planned again from a moment on."""

    record: Record
    minute: int
    scenario: Scenario  # what remains
    marked: bool  # the log says which plan was followed


def follow(
    scenario: Scenario,
    *,
    gap: float = 0.01,
    time_limit_s: float = 30.0,
    solver: SolverName = "highs",
    progress: Progress | None = None,
) -> Course:
    """Return the plan of the whole outage as what is followed where nothing else is said.

    Parameters
    ----------
    scenario, gap, time_limit_s, solver, progress
        As of ``planner.plan``.

    Returns
    -------
    Course
        Empty where there is no plan, or none in time.
    """
    options, kitchen = choices(scenario), kitchen_of(scenario)
    found = schedule(
        options.columns,
        kitchen,
        goals=scenario.goals,
        gap=gap,
        time_limit_s=time_limit_s,
        solver=solver,
        progress=progress,
    )
    if not found.chosen:
        return Course()
    made = as_plan(scenario, options, kitchen, found)
    verify(made, scenario)
    return course_from(made)


def course_from(plan: Plan) -> Course:
    """Return a plan of the whole outage as what is followed.

    Parameters
    ----------
    plan
        Steps are numbered as the items of the scenario.
    """
    return Course(plan.steps, plan.fires)


def record_from(log: Log, scenario: Scenario, followed: Course | None = None) -> Record:
    """Return a log beside its scenario, checked against it.

    Parameters
    ----------
    log
        The log.
    scenario
        The whole outage.
    followed
        What is followed where the log marks no plan; None: nothing is known of it.

    Raises
    ------
    InputError
        If an entry names what the scenario does not have; all of them at once.
    """
    check(log, scenario)
    entries = [entry for entry, _ in log.standing]
    marked = followed_in(entries, scenario)
    return record_of(entries, scenario, marked or followed or Course())


def replanning(record: Record, minute: int, *, marked: bool = False) -> Replanning:
    """Return what is to be planned from a moment on.

    Parameters
    ----------
    record
        The log beside its scenario.
    minute
        Since 00:00 of day 1; one before that plans the whole outage.
    marked
        The log says which plan was followed.

    Raises
    ------
    InputError
        If no meal is left.
    """
    left = remaining(record.scenario, now(record, max(0, minute)))
    if not left.items:
        last = max((item.serve_min for item in record.scenario.items), default=0)
        message = (
            "nothing is left to be cooked: the last meal of this scenario is over or under way"
            if last >= minute
            else "this is after the last meal of the scenario; give it more days to plan on"
        )
        raise InputError([Problem("command line", None, "--from", "no_meal_left", message)])
    return Replanning(record, max(0, minute), left, marked)
