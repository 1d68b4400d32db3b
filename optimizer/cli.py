"""The command line: ``fuelthrift plan`` and ``fuelthrift check``.

Only the parser is imported here; the rest is imported inside the commands, so that help is quick.

Exit codes: 0 done; 1 no plan is possible; 2 bad input; 3 a limit was hit before there was a plan;
4 a file could not be written; 130 interrupted.
"""

import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from difflib import get_close_matches
from enum import IntEnum
from json import dumps
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal, NoReturn

import typer

from optimizer.errors import InputError, LimitError, PhysicsError, Problem, SaveError

if TYPE_CHECKING:
    from optimizer.model.household import Scenario
    from optimizer.model.plan import Plan, Status

app = typer.Typer(
    name="fuelthrift",
    help="Hot, safe food on the table, on time, from the fuel that is in the shed.",
    add_completion=False,
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
)

STDOUT = Path("-")
DEMO = "outage_weekend.yaml"


class Exit(IntEnum):
    """What the exit code says."""

    DONE = 0
    NO_PLAN = 1
    BAD_INPUT = 2
    LIMIT = 3
    NOT_WRITTEN = 4
    INTERRUPTED = 130


File = Annotated[
    Path | None,
    typer.Argument(metavar="FILE", help="The scenario; without it, the demo that is shipped."),
]
Json = Annotated[
    Path | None,
    typer.Option("--json", metavar="PATH", help="Write the result as JSON; - for standard output."),
]
UnitsOption = Annotated[
    Literal["metric", "us"], typer.Option("--units", help="Measures of the text.")
]
Goals = Annotated[
    list[str] | None,
    typer.Option(
        "--goal",
        metavar="GOAL",
        help="What to make least: money, energy, tending or a fuel. Several count in order: "
        "repeat the option, or write a list with commas.",
    ),
]
Confidence = Annotated[
    float | None,
    typer.Option("--confidence", help="Chance that food is done, above 0.5 and below 1."),
]
Gap = Annotated[
    float, typer.Option("--gap", help="How far from the best plan will do, as a share.")
]
TimeLimit = Annotated[
    float, typer.Option("--time-limit", metavar="SECONDS", help="Longest time to search.")
]
SolverOption = Annotated[
    Literal["highs", "cbc"], typer.Option("--solver", help="Program that searches.")
]


@dataclass(frozen=True, slots=True)
class Choices:
    """What the options say, beside the file."""

    goals: tuple[str, ...] = ()
    confidence: float | None = None
    gap: float = 0.01
    time_limit_s: float = 30.0
    solver: Literal["highs", "cbc"] = "highs"


@dataclass(frozen=True, slots=True)
class Outlet:
    """Where the answer goes: text, a JSON file, or JSON alone on standard output."""

    json: Path | None
    file: Path | None  # the scenario, or the demo

    @property
    def overwrites(self) -> bool:
        """The result would be written over the scenario."""
        if self.json is None or self.json == STDOUT or not self.json.exists():
            return False
        file = self.file or demo_file()
        return file.exists() and self.json.samefile(file)

    def say(self, text: str) -> None:
        """Print text, unless standard output is for JSON alone."""
        if self.json != STDOUT:
            typer.echo(text)

    def give(
        self, plan: "Plan | None", problems: Sequence[Problem] = (), status: "Status | None" = None
    ) -> None:
        """Write the result file where one is wanted."""
        from optimizer.report.result import json_text, to_json, write_text

        if self.json is None or self.overwrites:
            return
        text = json_text(to_json(plan, problems, status))
        if self.json == STDOUT:
            typer.echo(text, nl=False)
        else:
            write_text(self.json, text)

    def fail(
        self, code: "Exit", problems: Sequence[Problem], status: "Status | None" = None
    ) -> NoReturn:
        """Say what went wrong, give what there is to give, and end."""
        typer.echo("\n".join(str(problem) for problem in problems), err=True)
        try:
            self.give(None, problems, status)
        except SaveError as error:
            typer.echo(str(error), err=True)
        raise typer.Exit(code)


@app.command()
def plan(
    file: File = None,
    json: Json = None,
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
    outlet = Outlet(json, file)
    with failures_told(outlet):
        scenario = read_scenario(outlet, choices)
        made, interrupted = search(scenario, choices)
        from optimizer.report.text import plan_text

        outlet.say(plan_text(made, scenario, units))
        outlet.give(made)
        if interrupted:
            raise typer.Exit(Exit.INTERRUPTED)
        if made.status == "infeasible":
            raise typer.Exit(Exit.NO_PLAN)


@app.command()
def check(
    file: File = None,
    json: Json = None,
    schema: Annotated[
        bool, typer.Option("--schema", help="Print the JSON Schema of a scenario file.")
    ] = False,
) -> None:
    """Read a scenario and say what is wrong with it."""
    if schema:
        from optimizer.scenario.reading import json_schema

        typer.echo(dumps(json_schema(), indent=2, ensure_ascii=False))
        return
    outlet = Outlet(json, file)
    with failures_told(outlet):
        scenario = read_scenario(outlet, Choices())
        from optimizer.report.summary import summary_text

        outlet.say(summary_text(scenario))
        outlet.give(None)


def read_scenario(outlet: Outlet, choices: Choices) -> "Scenario":
    """Read the scenario and put the options into it; tell every problem of both at once."""
    from optimizer.scenario.reading import read

    problems = [*outlet_problems(outlet), *choice_problems(choices)]
    try:
        scenario = read(outlet.file or demo_file())
    except InputError as error:
        raise InputError([*error.problems, *problems]) from error
    problems += goal_problems(choices.goals, scenario)
    if problems:
        raise InputError(problems)
    return replace(
        scenario,
        goals=choices.goals or scenario.goals,
        confidence=scenario.confidence if choices.confidence is None else choices.confidence,
    )


def demo_file() -> Path:
    """Find the scenario that is shipped; it is only read."""
    from optimizer.shelf import data_folder

    return Path(str(data_folder() / "scenarios" / DEMO))


def option_problem(option: str, code: str, message: str) -> Problem:
    """Give a problem with an option."""
    return Problem("command line", None, option, code, message)


def outlet_problems(outlet: Outlet) -> Iterator[Problem]:
    """Refuse to write the result over the scenario."""
    if outlet.overwrites:
        yield option_problem("--json", "same_file", f"{outlet.json} is the scenario; it is kept")


def choice_problems(choices: Choices) -> Iterator[Problem]:
    """Check the numbers among the options; a number that is not one fails too."""
    sure = choices.confidence
    if sure is not None and not 0.5 < sure < 1:  # noqa: PLR2004
        yield option_problem("--confidence", "bounds", f"{sure:g} is not above 0.5 and below 1")
    if not 0 <= choices.gap < 1:
        yield option_problem("--gap", "bounds", f"{choices.gap:g} is not 0 or more and below 1")
    if not 0 < choices.time_limit_s < float("inf"):
        seconds = choices.time_limit_s
        yield option_problem("--time-limit", "bounds", f"{seconds:g} is not more than 0 seconds")


def goal_problems(goals: tuple[str, ...], scenario: "Scenario") -> Iterator[Problem]:
    """Check that every goal is one of the three or a fuel of the household."""
    known = ["money", "energy", "tending", *(store.fuel.name for store in scenario.stores)]
    for goal in goals:
        if goal not in known:
            near = get_close_matches(goal, known, 1)
            hint = f"; did you mean {near[0]}?" if near else f"; it can be {', '.join(known)}"
            yield option_problem("--goal", "unknown_goal", f"'{goal}' is not a goal{hint}")
    if len(set(goals)) < len(goals):
        yield option_problem("--goal", "repeated_goal", "a goal is named twice")


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


@contextmanager
def failures_told(outlet: Outlet) -> Iterator[None]:
    """Turn what can go wrong into a message and an exit code."""
    try:
        yield
    except InputError as error:
        outlet.fail(Exit.BAD_INPUT, error.problems)
    except PhysicsError as error:
        outlet.fail(Exit.BAD_INPUT, [Problem("scenario", None, "", "out_of_range", str(error))])
    except LimitError as error:
        outlet.fail(Exit.LIMIT, [Problem("search", None, "", "limit", str(error))], "time_limit")
    except KeyboardInterrupt:
        found = Problem("search", None, "", "stopped", "stopped before there was a plan")
        outlet.fail(Exit.INTERRUPTED, [found], "stopped")
    except SaveError as error:
        typer.echo(str(error), err=True)
        raise typer.Exit(Exit.NOT_WRITTEN) from error


def main() -> None:
    """Run the command line."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")  # a terminal that knows no degree sign
    app()
