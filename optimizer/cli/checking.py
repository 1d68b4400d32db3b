"""``fuelthrift check``: read a scenario, or look at what a scenario can name."""

from json import dumps
from typing import Annotated

import typer

from optimizer.cli.options import Choices, File, Json, read_scenario
from optimizer.cli.outlet import Outlet, failures_told


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
