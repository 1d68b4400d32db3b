"""A moment of an outage as a person says it: by day and clock, by meal, by date, or now."""

import re
from datetime import date, datetime

from pydantic_core import PydanticCustomError

from optimizer.model.household import DAY_MIN, Scenario
from optimizer.scenario.clock import read_moment
from optimizer.scenario.faults import near

EXAMPLE = "'day 2 12:00', 'day 2 supper'"
_DATED = re.compile(r"(\d{4}-\d{2}-\d{2})[\sT,]+(\d{1,2}:\d{2})")
_MEAL = re.compile(r"day\s*(\d{1,3})[\s,]+([^\d\s,].*)", re.IGNORECASE)


class MomentError(ValueError):
    """A text is no moment of this outage."""


def moment_of(text: str, scenario: Scenario) -> int:
    """Read a moment.

    Parameters
    ----------
    text
        ``day 2 12:00``, ``day 2 supper``; where the scenario has a date, also
        ``2027-01-16 12:00`` and ``now``.
    scenario
        The outage.

    Returns
    -------
    int
        Minutes since 00:00 of day 1; below 0 before it.

    Raises
    ------
    MomentError
        If it is none.
    """
    said = text.strip()
    if said.casefold() == "now":
        clock = datetime.now().astimezone()
        return _since_start(clock.date(), 60 * clock.hour + clock.minute, scenario, said)
    if dated := _DATED.fullmatch(said):
        minute = _minute(f"day 1 {dated[2]}")
        try:
            day = date.fromisoformat(dated[1])
        except ValueError as error:
            raise MomentError(f"'{dated[1]}' is no date") from error
        return _since_start(day, minute, scenario, said)
    if by_meal := _MEAL.fullmatch(said):
        return _of_meal(int(by_meal[1]), by_meal[2].strip(), scenario)
    return _minute(said, scenario)


def _minute(said: str, scenario: Scenario | None = None) -> int:
    try:
        return read_moment(said)
    except PydanticCustomError as error:
        dated = " or '2027-01-16 12:00'" if scenario is not None and scenario.start else ""
        message = f"expected a moment such as {EXAMPLE}{dated}, given {said!r:.60}"
        raise MomentError(message) from error


def _since_start(day: date, minute: int, scenario: Scenario, said: str) -> int:
    """Return minutes since day 1 of a date."""
    if scenario.start is None:
        raise MomentError(f"'{said}' needs a 'start' date in the scenario; write {EXAMPLE}")
    return (day - scenario.start).days * DAY_MIN + minute


def _of_meal(day: int, meal: str, scenario: Scenario) -> int:
    """Return when a meal is served."""
    today = {i.meal.casefold(): i.serve_min for i in scenario.items if i.day == day}
    if meal.casefold() in today:
        return today[meal.casefold()]
    if not today:
        raise MomentError(f"nothing is on the menu of day {day}")
    raise MomentError(f"day {day} has no meal '{meal:.60}'{near(meal, today)}")
