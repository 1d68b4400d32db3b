"""``fuelthrift sweep``: many scenarios made from one file, worked out side by side."""

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

import typer

from optimizer.cli.measuring import Options, same_file
from optimizer.cli.options import (
    Choices,
    Confidence,
    File,
    Gap,
    Goals,
    Json,
    TimeLimit,
    goals_given,
    read_scenario,
)
from optimizer.cli.outlet import Exit, Outlet, demo_file, failures_told
from optimizer.errors import InputError, Problem

if TYPE_CHECKING:
    from optimizer.model.household import Scenario
    from optimizer.studies.sweep.grid import Grid
    from optimizer.studies.sweep.study import Sweep

MOST_JOBS = 256
COMMAND_LINE = "command line"
TABLES = (".csv", ".parquet")

Vary = Annotated[
    list[str] | None,
    typer.Option(
        "--vary",
        metavar="NAME=VALUES",
        help="What is varied, and its values; repeat it for each thing: people=2..6, "
        "sticks=4,8,12 kg, 'outdoors=-5,5 degC', days=1..4, packed_box=0..2, "
        "'sticks.price=0.3,0.6 EUR/kg'. people are grown ones; days go round the menu.",
    ),
]
Out = Annotated[
    Path | None,
    typer.Option("--out", metavar="TABLE", help="Write the table here: NAME.csv or NAME.parquet."),
]
Chart = Annotated[
    Path | None,
    typer.Option("--chart", metavar="PAGE.html", help="Draw days lasted against fuel and people."),
]
Jobs = Annotated[
    int | None, typer.Option("--jobs", metavar="N", help="Cores to use (else all of them).")
]
EngineOption = Annotated[
    Literal["cores", "dask"],
    typer.Option("--engine", help="Cores of this machine, or a Dask cluster that is there."),
]
Scheduler = Annotated[
    str | None,
    typer.Option("--scheduler", metavar="ADDRESS", help="Of that cluster: tcp://HOST:8786."),
]
CountDays = Annotated[
    bool, typer.Option("--days/--no-days", help="Count the days that the store lasts, or do not.")
]
Afresh = Annotated[
    bool, typer.Option("--afresh", help="Begin anew, whatever stands at TABLE already.")
]


@dataclass(frozen=True, slots=True)
class Asked:
    """The options of the command, beside those that many commands have."""

    vary: tuple[str, ...]
    out: Path | None
    chart: Path | None
    jobs: int | None
    engine: str
    scheduler: str | None
    days: bool
    afresh: bool


def sweep(
    file: File = None,
    vary: Vary = None,
    out: Out = None,
    chart: Chart = None,
    jobs: Jobs = None,
    engine: EngineOption = "cores",
    scheduler: Scheduler = None,
    days: CountDays = True,
    afresh: Afresh = False,
    json: Json = None,
    goal: Goals = None,
    confidence: Confidence = None,
    gap: Gap = 0.01,
    time_limit: TimeLimit = 30.0,
) -> None:
    """Plan many scenarios made from one file; a row for each, and how long each store lasts."""
    asked = Asked(tuple(vary or ()), out, chart, jobs, engine, scheduler, days, afresh)
    choices = Choices(goals_given(goal), confidence, gap, time_limit)
    outlet = Outlet(json, file)
    with failures_told(outlet):
        scenario, grid = _asked_for(outlet, asked, choices)
        known = _worked_out(grid, scenario, asked)
        _tell(known, outlet, asked)
        _end(known)


def _asked_for(outlet: Outlet, asked: Asked, choices: Choices) -> "tuple[Scenario, Grid]":
    """Read the scenario and the grid; tell every problem of both, and of the options, at once."""
    options, file = Options(), outlet.file or demo_file()
    _check(options, asked, file, outlet.json)
    try:
        scenario = read_scenario(outlet, choices)
    except InputError as error:
        sound = all(problem.file == COMMAND_LINE for problem in error.problems)
        problems = _grid_problems(file, asked, choices) if sound else []
        raise InputError([*error.problems, *problems, *options.problems]) from error
    try:
        grid = _grid(file, asked, choices)
    except InputError as error:
        raise InputError([*error.problems, *options.problems]) from error
    if options.problems:
        raise InputError(options.problems)
    return scenario, grid


def _grid(file: Path, asked: Asked, choices: Choices) -> "Grid":
    """Read what is to be varied."""
    from optimizer.scenario.file_text import read_text
    from optimizer.studies.sweep.grid import Effort, grid_of

    effort = Effort(
        choices.goals, choices.confidence, choices.gap, choices.time_limit_s, asked.days
    )
    return grid_of(str(file), read_text(file), asked.vary, effort)


def _grid_problems(file: Path, asked: Asked, choices: Choices) -> list[Problem]:
    """Return what is wrong with what is to be varied."""
    try:
        _grid(file, asked, choices)
    except InputError as error:
        return error.problems
    return []


def _check(options: Options, asked: Asked, file: Path, json: Path | None) -> None:
    """Note what is wrong with the options."""
    if asked.out is not None and asked.out.suffix.casefold() not in TABLES:
        told = f"expected a name ending in .csv or .parquet, given '{asked.out}'"
        options.wrong("--out", "format", told)
    if asked.jobs is not None and not 1 <= asked.jobs <= MOST_JOBS:
        options.wrong("--jobs", "bounds", f"expected 1 to {MOST_JOBS}, given {asked.jobs}")
    _check_engine(options, asked)
    places = [path for path in (asked.out, asked.chart, json) if path is not None]
    if any(same_file(path, file) for path in places):
        told = f"{file} is the scenario; it is kept"
        options.wrong("--out, --chart or --json", "same_file", told)
    if len({path.resolve() for path in places}) < len(places):
        options.wrong("--out, --chart or --json", "same_file", "are two names of one file")


def _check_engine(options: Options, asked: Asked) -> None:
    """Note which of them do not go together."""
    dask = asked.engine == "dask"
    if dask and not asked.scheduler:
        told = "--engine dask needs the address of its scheduler, such as tcp://127.0.0.1:8786"
        options.wrong("--scheduler", "missing", told)
    if asked.scheduler and not dask:
        options.wrong("--scheduler", "contradiction", "is for --engine dask only")
    if dask and asked.jobs is not None:
        options.wrong("--jobs", "contradiction", "is for this machine; a cluster has its workers")
    if asked.chart is not None and not asked.days:
        options.wrong("--chart", "contradiction", "shows days lasted; leave --no-days out")


def _worked_out(grid: "Grid", scenario: "Scenario", asked: Asked) -> "Sweep":
    """Work the points out; the first Ctrl-C ends it after those under way, the second at once."""
    import os

    from optimizer.report.progress import Progress, interrupts
    from optimizer.studies.sweep.study import Engine
    from optimizer.studies.sweep.study import sweep as work_out

    jobs = min(asked.jobs or os.cpu_count() or 1, grid.count)
    engine = Engine(jobs, asked.scheduler)
    with Progress() as progress, interrupts(progress):
        return work_out(
            grid, scenario, engine=engine, out=asked.out, afresh=asked.afresh, tell=progress.tell
        )


def _tell(known: "Sweep", outlet: Outlet, asked: Asked) -> None:
    """Print the table, and write what was asked for."""
    from optimizer.report.sweep.result import json_text
    from optimizer.report.sweep.text import sweep_text
    from optimizer.scenario.saving import write_whole

    outlet.say(sweep_text(known))
    outlet.write(json_text(known))
    if asked.chart is not None and known.rows:
        from optimizer.report.sweep.page import sweep_html

        write_whole(asked.chart, sweep_html(known))
        outlet.say(f"Chart: {asked.chart}")
    if asked.out is not None:
        kept = f"{asked.out}.part; run it again to go on" if known.stopped else str(asked.out)
        outlet.say(f"Table: {kept}")


def _end(known: "Sweep") -> None:
    """End with the code that says how it went."""
    if known.stopped:
        raise typer.Exit(Exit.INTERRUPTED)
    if not known.planned:
        late = known.with_status("time_limit")
        raise typer.Exit(Exit.LIMIT if late else Exit.NO_PLAN)
