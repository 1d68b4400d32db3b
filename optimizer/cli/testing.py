"""``fuelthrift test-box`` and ``test-stove``: what was measured becomes a thing's numbers."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any, Literal

import typer

from optimizer.cli.measuring import Options, same_file
from optimizer.cli.options import Json, UnitsOption
from optimizer.cli.outlet import Outlet, failures_told
from optimizer.errors import InputError

if TYPE_CHECKING:
    from collections.abc import Mapping

    from optimizer.model.household import Scenario

Into = Annotated[
    Path | None,
    typer.Option("--into", metavar="FILE", help="Write the numbers into this scenario."),
]
As = Annotated[
    str | None,
    typer.Option("--as", metavar="NAME", help="Whose numbers they are, in the file or new to it."),
]
Like = Annotated[
    str | None,
    typer.Option("--like", metavar="NAME", help="For a new name: what on the shelf it is like."),
]
BoxReadings = Annotated[
    Path, typer.Argument(metavar="READINGS.csv", help="Table of time, temperature and room.")
]
StoveReadings = Annotated[
    Path, typer.Argument(metavar="READINGS.yaml", help="What was weighed, read and timed.")
]
Water = Annotated[
    str | None, typer.Option("--water", metavar="AMOUNT", help="Water in it, such as '4.8 L'.")
]
Pot = Annotated[str | None, typer.Option("--pot", metavar="NAME", help="The pot it was in.")]
Jar = Annotated[str | None, typer.Option("--jar", metavar="NAME", help="Or the jar it was in.")]
Room = Annotated[
    str | None, typer.Option("--room", metavar="TEMP", help="The room, such as '18 degC'.")
]


def box_test(
    readings: BoxReadings,
    into: Into = None,
    name: As = None,
    like: Like = None,
    water: Water = None,
    pot: Pot = None,
    jar: Jar = None,
    room: Room = None,
    json: Json = None,
    units: UnitsOption = "metric",
) -> None:
    """Turn a water test of an insulated cooker into its numbers, with how sure they are."""
    outlet = Outlet(None if same_file(json, into) else json, readings)
    with failures_told(outlet):
        options = Options()
        scenario = target(outlet, json, into, name, like, options)
        from optimizer.report.trials import water_test_json, water_test_text
        from optimizer.scenario.measured import write_measured
        from optimizer.trials.readings import read_log
        from optimizer.trials.water_test import water_test

        known = things("cookers", scenario)
        cooker = known_thing("cookers", name, like, known, options)
        said = {"water": water, "pot": pot, "jar": jar, "room": room}
        own_pots = [own.pot for own in scenario.pots] if scenario else []
        log = told_together(options, lambda: read_log(readings))
        log.problems += options.problems
        found = water_test(log, said, things("pots", scenario), known, cooker, own_pots)
        if into is not None and name is not None:
            sure_enough(found.fit.too_uncertain, str(readings))
            write_measured(into, "cookers", name, found.values, like)
        written = str(into) if into is not None else None
        outlet.say(water_test_text(found, units, written))
        outlet.write(water_test_json(found, written))


def told_together(options: Options, read: Any) -> Any:
    """Read a file; what is wrong with the options is told with what is wrong with it."""
    try:
        return read()
    except InputError as error:
        raise InputError([*error.problems, *options.problems]) from error


def sure_enough(uncertain: bool, file: str) -> None:
    """Refuse to write down what is hardly known."""
    if uncertain:
        from optimizer.errors import Problem

        message = (
            "the readings leave the loss too uncertain to be written down; measure longer, or more "
            "often (without --into the numbers are shown)"
        )
        raise InputError([Problem(file, None, "", "too_uncertain", message)])


def target(
    outlet: Outlet,
    json: Path | None,
    into: Path | None,
    name: str | None,
    like: str | None,
    options: Options,
) -> "Scenario | None":
    """Read the scenario that is to be written into; --into and --as go together."""
    if into is not None and name is None:
        options.wrong("--as", "missing", "--into needs --as NAME: whose numbers are they?")
    if like is not None and into is None:
        options.wrong("--like", "missing", "--like is for --into FILE --as NAME")
    if outlet.overwrites or same_file(json, into):
        options.wrong("--json", "same_file", f"{json} is an input; it is kept")
    if same_file(outlet.file, into):
        options.wrong("--into", "same_file", f"{into} is the file of readings")
    if into is None:
        return None
    from optimizer.scenario.reading import read

    found: Scenario | None = told_together(options, lambda: read(into))
    return found


def things(
    section: Literal["pots", "cookers", "stoves", "fuels"], scenario: "Scenario | None"
) -> dict[str, Any]:
    """Give what can be named: of the shelf, and of the scenario in its place."""
    from optimizer.shelf import load

    field = {"pots": "pot", "cookers": "cooker", "stoves": "stove", "fuels": "fuel"}[section]
    own = getattr(scenario, "stores" if section == "fuels" else section) if scenario else ()
    return {**getattr(load(), section), **{getattr(o, field).name: getattr(o, field) for o in own}}


def known_thing(
    section: Literal["cookers", "stoves"],
    name: str | None,
    like: str | None,
    known: "Mapping[str, Any]",
    options: Options,
) -> Any:
    """Find the thing that the numbers are for, or the one it is like."""
    if name is None:
        return None
    if name in known:
        return known[name]
    if like is None:
        thing = section.removesuffix("s")
        hint = f"say with --like NAME which {thing} on the shelf it is like"
        options.wrong("--as", "unknown_name", f"there is no {thing} '{name}' yet; {hint}")
        return None
    from optimizer.shelf import load

    return options.thing("--like", like, getattr(load(), section))


def stove_test(
    readings: StoveReadings,
    into: Into = None,
    name: As = None,
    like: Like = None,
    json: Json = None,
    units: UnitsOption = "metric",
) -> None:
    """Turn a water boiling test of a stove into its numbers, with how sure they are."""
    outlet = Outlet(None if same_file(json, into) else json, readings)
    with failures_told(outlet):
        options = Options()
        scenario = target(outlet, json, into, name, like, options)
        from optimizer.report.stove_test import stove_test_json, stove_test_text
        from optimizer.scenario.measured import write_measured
        from optimizer.trials.boiling_test import read_test
        from optimizer.trials.stove_test import stove_test as worked_out

        stove = known_thing("stoves", name, like, things("stoves", scenario), options)
        document, test = told_together(options, lambda: read_test(readings))
        document.problems.extend(options.problems)
        fuels, pots = things("fuels", scenario), things("pots", scenario)
        found = worked_out(document, test, fuels, pots, stove)
        if into is not None and name is not None:
            write_measured(into, "stoves", name, found.values, like)
        written = str(into) if into is not None else None
        outlet.say(stove_test_text(found, units, written))
        outlet.write(stove_test_json(found, written))
