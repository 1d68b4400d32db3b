"""Options that commands share, their checks, and the scenario with the options put in."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from difflib import get_close_matches
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

import typer

from optimizer.cli.outlet import Outlet, demo_file
from optimizer.errors import InputError, Problem

if TYPE_CHECKING:
    from optimizer.model.household import Scenario

File = Annotated[
    Path | None,
    typer.Argument(metavar="FILE", help="The scenario; without it, the demo that is shipped."),
]
Json = Annotated[
    Path | None,
    typer.Option("--json", metavar="PATH", help="Write the result as JSON; - for standard output."),
]
Sheet = Annotated[
    Path | None,
    typer.Option("--sheet", metavar="PATH", help="Write the plan as a page to print (HTML)."),
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


def goals_given(goal: list[str] | None) -> tuple[str, ...]:
    """Give the goals of a repeated option, each perhaps a list with commas."""
    return tuple(word.strip() for text in goal or () for word in text.split(","))


def option_problem(option: str, code: str, message: str) -> Problem:
    """Give a problem with an option."""
    return Problem("command line", None, option, code, message)


def outlet_problems(outlet: Outlet) -> Iterator[Problem]:
    """Refuse to write the result over the scenario."""
    if outlet.overwrites:
        yield option_problem(
            "--json or --sheet",
            "same_file",
            f"{outlet.file or demo_file()} is the scenario; it is kept",
        )


EVEN_CHANCE = 0.5


def choice_problems(choices: Choices) -> Iterator[Problem]:
    """Check the numbers among the options; a number that is not one fails too."""
    sure = choices.confidence
    if sure is not None and not EVEN_CHANCE < sure < 1:
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
