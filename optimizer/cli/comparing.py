"""``fuelthrift compare``: one dish in every way."""

from difflib import get_close_matches
from typing import TYPE_CHECKING, Annotated

import typer

from optimizer.cli.options import (
    Choices,
    File,
    Json,
    UnitsOption,
    option_problem,
    read_scenario,
)
from optimizer.cli.outlet import Exit, Outlet, failures_told
from optimizer.errors import InputError

if TYPE_CHECKING:
    from optimizer.model.household import Item, Scenario

DishName = Annotated[
    str, typer.Option("--dish", metavar="NAME", help="A dish on the menu, by name or label.")
]
Day = Annotated[
    int | None, typer.Option("--day", help="Which day's, where it is on the menu several times.")
]


def compare(
    dish: DishName,
    file: File = None,
    day: Day = None,
    json: Json = None,
    units: UnitsOption = "metric",
) -> None:
    """Set every way of one dish side by side, and say why the others are refused."""
    outlet = Outlet(json, file)
    with failures_told(outlet):
        scenario = read_scenario(outlet, Choices())
        from optimizer.report.ways import comparison_text, json_text
        from optimizer.studies.comparison import compare as compare_ways

        found = compare_ways(scenario, item_of(scenario, dish, day))
        outlet.say(comparison_text(found, scenario, units))
        outlet.write(json_text(found, scenario))
        if not found.ways:
            raise typer.Exit(Exit.NO_PLAN)


def item_of(scenario: "Scenario", dish: str, day: int | None) -> "Item":
    """Find the first time a dish is on the menu, or say what is."""
    sought = dish.strip().casefold()
    named = [i for i in scenario.items if sought in {n.casefold() for n in names_of(i)}]
    wanted = [i for i in named if day in (None, i.day)]
    if wanted:
        return wanted[0]
    if named:
        days = ", ".join(dict.fromkeys(str(item.day) for item in named))
        text = f"{dish} is not on the menu of day {day}, but of day {days}"
        raise InputError([option_problem("--day", "unknown_day", text)])
    known = {name.casefold(): i.dish.name for i in scenario.items for name in names_of(i)}
    near = get_close_matches(sought, known, 1)
    there = ", ".join(dict.fromkeys(known.values()))
    hint = f"did you mean {known[near[0]]}?" if near else f"there are {there}"
    text = f"'{dish}' is not on the menu; {hint}"
    raise InputError([option_problem("--dish", "unknown_dish", text)])


def names_of(item: "Item") -> tuple[str, str]:
    """Give what a dish may be called."""
    return item.dish.name, item.dish.label
