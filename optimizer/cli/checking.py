"""``fuelthrift check``: read a scenario, or look at what a scenario can name."""

from json import dumps
from pathlib import Path
from typing import Annotated

import typer

from optimizer.cli.options import Choices, Json, option_problem, read_scenario
from optimizer.cli.outlet import Outlet, failures_told
from optimizer.errors import InputError

ShelfOption = Annotated[
    bool,
    typer.Option("--shelf", help="Show what a scenario can name; with a word, all about it."),
]
Subject = Annotated[
    str | None,
    typer.Argument(
        metavar="[FILE]", help="The scenario (without it, the demo), or the word after --shelf."
    ),
]


def check(
    subject: Subject = None,
    json: Json = None,
    schema: Annotated[
        bool, typer.Option("--schema", help="Print the JSON Schema of a scenario file.")
    ] = False,
    shelf: ShelfOption = False,
) -> None:
    """Read a scenario and say what is wrong with it, or show what one can name."""
    if schema:
        from optimizer.scenario.reading import json_schema

        typer.echo(dumps(json_schema(), indent=2, ensure_ascii=False))
        return
    outlet = Outlet(json, Path(subject) if subject and not shelf else None)
    with failures_told(outlet):
        if shelf:
            text, json_text = shelf_texts(subject)
            outlet.say(text)
            outlet.write(json_text)
            return
        scenario = read_scenario(outlet, Choices())
        from optimizer.report.summary import summary_text

        outlet.say(summary_text(scenario))
        outlet.give(None)


def shelf_texts(word: str | None) -> tuple[str, str]:
    """Tell the shelf, or what on it has a word in its name, to a person and to a program."""
    from optimizer.report.inventory import json_text, list_text, near, things_text, things_with

    found = things_with(word or "")
    if not found:
        close = near(word or "")
        hint = f"did you mean {', '.join(close)}?" if close else "leave the word out for a list"
        text = f"nothing on the shelf is called '{word}'; {hint}"
        raise InputError([option_problem("--shelf", "unknown_thing", text)])
    return list_text() if word is None else things_text(found), json_text(found)
