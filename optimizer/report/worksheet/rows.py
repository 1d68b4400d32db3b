"""What is read in a class test, row by row, and what the planner expects there."""

from collections.abc import Iterator
from dataclasses import dataclass

from optimizer.report.measures import Measures
from optimizer.report.worksheet.words import SETUPS
from optimizer.studies.classroom import ClassTest, Expected, Setup

UNREAD = {"lid": "minutes until it boils", "wind": "minutes until it boils"}
UNREAD |= {"holding": "fuel burned"}


@dataclass(frozen=True, slots=True)
class Reading:
    """One blank to fill in, and what the planner expects there."""

    test: str
    setup: str
    what: str
    unit: str
    usual: str  # empty: the planner expects nothing
    between: str
    why_not: str = ""
    minute: int = 0  # after the boil, where a temperature is read


def readings(test: ClassTest, system: Measures) -> list[Reading]:
    """List what is read in a test.

    Parameters
    ----------
    test
        The test.
    system
        The measures.

    Returns
    -------
    list of Reading
        A row of every setup, and of every time it is read.
    """
    return [row for setup in test.setups for row in _rows(test, setup, system)]


def _rows(test: ClassTest, setup: Setup, system: Measures) -> Iterator[Reading]:
    name = SETUPS[setup.name]
    if not setup.expected:
        what = UNREAD.get(test.name, "temperature after 60 min")
        yield Reading(test.name, name, what, _unit(what, system), "", "", setup.why_not)
    for each in setup.expected:
        what = _what(each)
        usual, *band = (
            _told(value, each, system) for value in (each.usual, each.little, each.much)
        )
        between = "" if band[0] == band[1] else f"{band[0]} to {band[1]}"
        yield Reading(test.name, name, what, _unit(what, system), usual, between, "", each.minute)


def _what(expected: Expected) -> str:
    """Say what is read."""
    if expected.quantity == "boils":
        return "minutes until it boils"
    if expected.quantity == "burns":
        return "fuel burned"
    return f"temperature after {expected.minute} min" if expected.minute else "temperature at once"


def _unit(what: str, system: Measures) -> str:
    """Say in which unit."""
    if what.startswith("minutes"):
        return "min"
    return "g" if what.startswith("fuel") else system.temperature(0.0).split()[-1]


def _told(value: float, expected: Expected, system: Measures) -> str:
    """Write a number without its unit."""
    if expected.quantity == "boils":
        return f"{value:.0f}"
    if expected.quantity == "burns":
        return f"{1000 * value:.2g}"
    return system.degrees(value)
