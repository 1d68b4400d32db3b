"""``fuelthrift plan``: the main job."""

from typing import TYPE_CHECKING

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
    read_scenario,
)
from optimizer.cli.outlet import Exit, Outlet, failures_told
from optimizer.errors import LimitError

if TYPE_CHECKING:
    from optimizer.model.household import Scenario
    from optimizer.model.plan import Plan


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
) -> None:
    """Plan what is cooked when, on what, and finished in what."""
    goals = tuple(word.strip() for text in goal or () for word in text.split(","))
    choices = Choices(goals, confidence, gap, time_limit, solver)
    outlet = Outlet(json, file, sheet)
    with failures_told(outlet):
        scenario = read_scenario(outlet, choices)
        made, interrupted = search(scenario, choices)
        from optimizer.report.text import plan_text

        outlet.say(plan_text(made, scenario, units))
        outlet.give(made)
        if sheet is not None and made.steps:
            from optimizer.report.result import write_text
            from optimizer.report.sheet import sheet_html

            write_text(sheet, sheet_html(made, scenario, units))
        if interrupted:
            raise typer.Exit(Exit.INTERRUPTED)
        if made.status == "infeasible":
            raise typer.Exit(Exit.NO_PLAN)


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
