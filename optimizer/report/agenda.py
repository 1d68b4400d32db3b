"""The timetable of one day as a table."""

from collections.abc import Iterable

from optimizer.model.household import DAY_MIN
from optimizer.report.doings import Doing
from optimizer.report.timetable import capital
from optimizer.scenario.clock import clock

Row = dict[str, str]
FIRE = "fire"


def day_rows(doings: Iterable[Doing], day: int) -> list[Row]:
    """Set out what has to be done on one day.

    Parameters
    ----------
    doings
        Of the whole plan, in order.
    day
        The day.
    """
    return [
        {"clock": clock(d.clock), "dish": capital(d.dish or FIRE), "what to do": d.text}
        for d in doings
        if d.clock // DAY_MIN + 1 == day
    ]


def days_told(doings: Iterable[Doing]) -> tuple[int, ...]:
    """List the days on which something has to be done.

    Parameters
    ----------
    doings
        Of the whole plan.
    """
    return tuple(sorted({d.clock // DAY_MIN + 1 for d in doings}))
