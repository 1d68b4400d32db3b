"""``fuelthrift plan``: the main job."""

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from optimizer.cli.options import (
    Choices,
    Confidence,
    File,
    Gap,
    Goals,
    Json,
    Sheet,
    SolverOption,
    TimeLimit,
    UnitsOption,
    goals_given,
    read_scenario,
)
from optimizer.cli.outlet import Exit, Outlet, failures_told
from optimizer.errors import InputError, LimitError

From = Annotated[
    str | None,
    typer.Option(
        "--from", metavar="MOMENT", help="Plan from here on, by the log: 'day 2 12:00', now."
    ),
]
Follow = Annotated[
    bool, typer.Option("--follow", help="Write into the log that this plan is followed.")
]

WorthToo = Annotated[
    bool,
    typer.Option(
        "--worth",
        help="Solve again for more of everything: things, half an hour, warmth. Takes longer.",
    ),
]

SharesToo = Annotated[
    bool,
    typer.Option("--shares", help="Say what each household of a shared kitchen burns and owes."),
]

OneBoil = Annotated[
    bool,
    typer.Option(
        "--one-boil",
        help="Solve again with all hot water of a day boiled at once. Takes longer.",
    ),
]

if TYPE_CHECKING:
    from optimizer.model.household import Scenario
    from optimizer.model.plan import Plan
    from optimizer.report.measures import Units
    from optimizer.trials.replan import Replanning


def plan(
    file: File = None,
    json: Json = None,
    sheet: Sheet = None,
    units: UnitsOption = "metric",
    goal: Goals = None,
    confidence: Confidence = None,
    gap: Gap = 0.01,
    time_limit: TimeLimit = 30.0,
    solver: SolverOption = "highs",
    from_: From = None,
    follow: Follow = False,
    worth: WorthToo = False,
    shares: SharesToo = False,
    one_boil: OneBoil = False,
) -> None:
    """Plan what is cooked when, on what, and finished in what."""
    choices = Choices(goals_given(goal), confidence, gap, time_limit, solver)
    outlet = Outlet(json, file, sheet)
    with failures_told(outlet):
        scenario = read_scenario(outlet, choices)
        again = begun(file, scenario, choices, from_, follow=follow)
        scenario = again.scenario if again else scenario
        made, interrupted = search(scenario, choices)
        if worth and not interrupted:
            made = appraise(made, scenario, choices)
        made = tried(made, scenario)
        begin = [*begun_lines(scenario, units), *left_lines(again)]
        shared = share_text(made, scenario, units) if shares else []
        outlet.say("\n".join([*begin, told(made, scenario, units), *shared]))
        if one_boil and not interrupted:
            outlet.say("\n".join(boiled_at_once(scenario, choices, units)))
        outlet.give(made)
        if sheet is not None and made.steps:
            from optimizer.report.sheet import sheet_html
            from optimizer.scenario.saving import write_whole

            write_whole(sheet, sheet_html(made, scenario, units))
        if follow and again and file is not None and made.steps:
            mark_followed(file, made, again)
            outlet.say("\nWritten into the log: this plan is followed from here on.")
        if interrupted:
            raise typer.Exit(Exit.INTERRUPTED)
        if made.status == "infeasible":
            raise typer.Exit(Exit.NO_PLAN)


def tried(made: "Plan", scenario: "Scenario") -> "Plan":
    """Add what comes of a finished plan: its chances, and the shares of households."""
    from optimizer.studies.chances.study import with_chances
    from optimizer.studies.households import with_households

    return with_households(with_chances(made, scenario), scenario)


def told(made: "Plan", scenario: "Scenario", units: "Units") -> str:
    """Tell the plan."""
    from optimizer.report.text import plan_text

    return plan_text(made, scenario, units)


def appraise(made: "Plan", scenario: "Scenario", choices: Choices) -> "Plan":
    """Say what more of everything would save; Ctrl-C leaves the rest of it out."""
    from optimizer.planning.appraisal import appraised
    from optimizer.planning.baseline import Effort
    from optimizer.report.progress import Progress, interrupts

    with Progress() as progress, interrupts(progress):

        def wanted() -> bool:
            return progress.tell("what more would save") is not False

        effort = Effort(choices.gap, choices.time_limit_s, choices.solver, wanted)
        return replace(made, worth=appraised(made, scenario, effort))


def boiled_at_once(scenario: "Scenario", choices: Choices, units: "Units") -> list[str]:
    """Say what one big boil a day would save; Ctrl-C leaves it out."""
    from optimizer.report.measures import measures
    from optimizer.report.one_boil import one_boil_lines
    from optimizer.report.progress import Progress, interrupts
    from optimizer.studies.one_boil import one_boil

    with Progress() as progress, interrupts(progress):
        found = one_boil(
            scenario, gap=choices.gap, time_limit_s=choices.time_limit_s, progress=progress
        )
    return one_boil_lines(found, scenario, measures(units))


def search(scenario: "Scenario", choices: Choices) -> "tuple[Plan, bool]":
    """Search for a plan; the first Ctrl-C ends the search, the second ends everything."""
    from optimizer.planning.planner import plan as make_plan
    from optimizer.report.progress import Progress, interrupts

    with Progress() as progress, interrupts(progress):
        try:
            made = make_plan(
                scenario,
                gap=choices.gap,
                time_limit_s=choices.time_limit_s,
                solver=choices.solver,
                progress=progress,
            )
        except LimitError as error:
            if progress.stop:
                raise KeyboardInterrupt from error
            raise
    return made, progress.stop


def begun(
    file: Path | None, scenario: "Scenario", choices: Choices, text: str | None, *, follow: bool
) -> "Replanning | None":
    """Put together what remains from a moment on; None where the whole outage is planned."""
    if text is None and not follow:
        return None
    from optimizer.cli.options import option_problem
    from optimizer.cli.outlet import demo_file
    from optimizer.scenario.logbook import Log, log_path, read_log
    from optimizer.trials.moment import MomentError, moment_of
    from optimizer.trials.record import followed_in
    from optimizer.trials.replan import follow as plan_before
    from optimizer.trials.replan import record_from, replanning

    problems = []
    if follow and file is None:
        message = "--follow writes into the log: name the scenario it stands beside"
        problems.append(option_problem("FILE", "missing", message))
    try:
        minute = moment_of(text or "day 1 00:00", scenario)
    except MomentError as error:
        problems.append(option_problem("--from", "moment", str(error)))
    log = read_log(log_path(file)) if file is not None else Log(str(demo_file()))
    if problems:
        raise InputError(problems)
    found = followed_in([entry for entry, _ in log.standing], scenario)
    if found is None and minute > 0:
        found = plan_before(
            scenario, gap=choices.gap, time_limit_s=choices.time_limit_s, solver=choices.solver
        )
    return replanning(record_from(log, scenario, found), minute)


def begun_lines(scenario: "Scenario", units: "Units") -> list[str]:
    """Say what a plan from a moment on begins with; nothing for the plan of a whole outage."""
    from optimizer.report.layout import wrap
    from optimizer.report.remaining import remaining_lines

    lines = [line for told in remaining_lines(scenario, units) for line in wrap(told)]
    return [*lines, ""] if lines else []


def share_text(made: "Plan", scenario: "Scenario", units: "Units") -> list[str]:
    """Tell the shares of households; one line where nobody shares the kitchen."""
    from optimizer.report.households import share_lines
    from optimizer.report.measures import measures

    told = share_lines(made, scenario, measures(units))
    return told or ["", "No shares: the scenario names no households, or there is no plan."]


def left_lines(again: "Replanning | None") -> list[str]:
    """Say how many days what is left lasts; nothing for the plan of a whole outage."""
    if again is None or again.minute <= 0:
        return []
    from optimizer.report.layout import wrap
    from optimizer.report.left import days_left_told
    from optimizer.studies.endurance.left import days_left
    from optimizer.trials.remains import household_left, paces

    record, minute = again.record, again.minute
    found = days_left(household_left(record, minute))
    return [*wrap(days_left_told(found, paces(record, minute), record.scenario)), ""]


def mark_followed(file: Path, made: "Plan", again: "Replanning") -> None:
    """Write into the log that a plan is followed."""
    from optimizer.scenario.clock import moment_written
    from optimizer.scenario.logbook import log_path
    from optimizer.trials.course import followed, numbered
    from optimizer.trials.diary import write

    whole = again.record.scenario
    plan_ = numbered(made, whole, again.scenario)
    said = followed(plan_, again.record.course, whole, again.minute)
    write(log_path(file), {"at": moment_written(again.minute), "kind": "plan", **said})
