"""A test of a cooker or a stove worked out for the household: what it says, or what is wrong.

No Streamlit here.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from optimizer.errors import InputError, Problem
from optimizer.model.household import Scenario
from optimizer.shelf import load
from optimizer.studies.box import known_cookers, known_pots
from optimizer.trials import stove_test
from optimizer.trials import water_test as box_test
from optimizer.trials.boiling_test import parse_test
from optimizer.trials.readings import parse_log

Asked = tuple[tuple[str, str], ...]  # what was said beside a table, by its key


@dataclass(frozen=True, slots=True)
class Tested:
    """A test and what it says, or what is wrong with it."""

    found: Any = None
    problems: tuple[Problem, ...] = ()


def _named(name: str, like: str | None, known: Mapping[str, Any], shelf: Mapping[str, Any]) -> Any:
    """Give the thing that was tested; a new one is like one on the shelf."""
    return known.get(name) if name else shelf.get(like or "")


def water_test(
    scenario: Scenario, readings: str, asked: Asked, name: str, like: str | None
) -> Tested:
    """Give what a water test says of a cooker.

    Parameters
    ----------
    scenario
        The household.
    readings
        The table.
    asked
        What was said beside it: water, pot, jar, room.
    name
        The cooker in the file or on the shelf; empty for a new one.
    like
        What on the shelf a new one is like.
    """
    known = known_cookers(scenario)
    cooker = _named(name, like, known, load().cookers)
    own = [each.pot for each in scenario.pots]
    try:
        log = parse_log(readings, "readings")
        pots = known_pots(scenario)
        return Tested(box_test.water_test(log, dict(asked), pots, known, cooker, own))
    except InputError as error:
        return Tested(problems=tuple(error.problems))


def boiling_test(scenario: Scenario, measured: str, name: str, like: str | None) -> Tested:
    """Give what a boiling test says of a stove.

    Parameters
    ----------
    scenario
        The household.
    measured
        The file of the test.
    name
        The stove in the file or on the shelf; empty for a new one.
    like
        What on the shelf a new one is like.
    """
    shelf = load()
    known = {**shelf.stoves, **{own.stove.name: own.stove for own in scenario.stoves}}
    fuels = {**shelf.fuels, **{store.fuel.name: store.fuel for store in scenario.stores}}
    stove = _named(name, like, known, shelf.stoves)
    try:
        document, test = parse_test(measured, "test")
        found = stove_test.stove_test(document, test, fuels, known_pots(scenario), stove)
        return Tested(found)
    except InputError as error:
        return Tested(problems=tuple(error.problems))
