"""Clock times, hours and days as a person writes them."""

import re
from typing import Any

from pydantic_core import PydanticCustomError

from optimizer.model.household import DAY_MIN

HOUR_MIN = 60
MOST_DAYS = 366
EVERY_DAY = "every day"

_TIME = re.compile(r"(\d{1,2}):(\d{2})")
_WINDOW = re.compile(r"\s*(\d{1,2}:\d{2})\s*(?:-|to|\u2013)\s*(\d{1,2}:\d{2})\s*")
_DAYS = re.compile(r"(?:days?\s*)?(\d{1,5})(?:\s*(?:-|to|\u2013)\s*(\d{1,5}))?", re.IGNORECASE)

_MOMENT = re.compile(r"day\s*(\d{1,3})[\s,]+(\d{1,2}:\d{2})", re.IGNORECASE)


def _fault(code: str, message: str) -> PydanticCustomError:
    return PydanticCustomError(code, "{message}", {"message": message})


def _minutes(text: str) -> int | None:
    """Minutes since midnight, or None if it is no time of a day."""
    found = _TIME.fullmatch(text.strip())
    if found is None:
        return None
    minutes = HOUR_MIN * int(found[1]) + int(found[2])
    return minutes if int(found[2]) < HOUR_MIN and minutes <= DAY_MIN else None


def read_time(given: Any) -> int:
    """Read ``"18:30"`` as minutes since midnight.

    Parameters
    ----------
    given
        What the file holds.

    Raises
    ------
    PydanticCustomError
        If it is no time between 00:00 and 23:59.
    """
    minutes = _minutes(given) if isinstance(given, str) else None
    if minutes is None or minutes == DAY_MIN:
        message = f"expected a clock time from 00:00 to 23:59 such as '18:30', given {given!r:.60}"
        raise _fault("clock", message)
    return minutes


def read_window(given: Any) -> tuple[int, int]:
    """Read ``"06:00-09:00"`` as minutes since midnight.

    Parameters
    ----------
    given
        What the file holds.

    Raises
    ------
    PydanticCustomError
        If it is no stretch of one day, from earlier to later.
    """
    found = _WINDOW.fullmatch(given) if isinstance(given, str) else None
    start, end = (_minutes(found[1]), _minutes(found[2])) if found else (None, None)
    if start is None or end is None:
        message = f"expected hours such as '06:00-09:00', given {given!r:.60}"
        raise _fault("hours", message)
    if start >= end:
        message = f"'{given}' ends before it begins; write two stretches for hours over midnight"
        raise _fault("hours", message)
    return start, end


def read_days(given: Any) -> tuple[int, ...] | None:
    """Read ``every day`` (None), ``2``, ``day 2``, ``days 2-4``, or a list of these.

    Parameters
    ----------
    given
        What the file holds.

    Raises
    ------
    PydanticCustomError
        If it names no days from 1 to 366.
    """
    if isinstance(given, str) and given.strip().lower() == EVERY_DAY:
        return None
    parts = given if isinstance(given, list) else [given]
    days = {day for part in parts for day in _some_days(part)}
    if not days:
        raise _fault("days", "expected 'every day' or a list of days, given an empty list")
    return tuple(sorted(days))


def _some_days(given: Any) -> range:
    """Days that one entry names."""
    text = str(given) if isinstance(given, str | int) and not isinstance(given, bool) else ""
    found = _DAYS.fullmatch(text.strip())
    first, last = (int(found[1]), int(found[2] or found[1])) if found else (0, 0)
    if not 1 <= first <= last <= MOST_DAYS:
        message = f"expected 'every day', 'day 2', 'days 2-4' or [1, 3], given {given!r:.60}"
        raise _fault("days", message)
    return range(first, last + 1)


def clock(minute: int) -> str:
    """Write a time of day, whatever the day.

    Parameters
    ----------
    minute
        Since 00:00 of day 1.
    """
    hours, minutes = divmod(minute % DAY_MIN, HOUR_MIN)
    return f"{hours:02d}:{minutes:02d}"


def read_moment(given: Any) -> int:
    """Read ``"day 2 12:05"`` as minutes since 00:00 of day 1.

    Parameters
    ----------
    given
        What the file holds.

    Raises
    ------
    PydanticCustomError
        If it is no time of a day from 1 to 366.
    """
    found = _MOMENT.fullmatch(given.strip()) if isinstance(given, str) else None
    minutes = _minutes(found[2]) if found else None
    if (
        found is None
        or minutes is None
        or minutes == DAY_MIN
        or not 1 <= int(found[1]) <= MOST_DAYS
    ):
        message = f"expected a day and a clock time such as 'day 2 12:05', given {given!r:.60}"
        raise _fault("moment", message)
    return (int(found[1]) - 1) * DAY_MIN + minutes


def moment_written(minute: int) -> str:
    """Write a minute since 00:00 of day 1 as ``day 2 12:05``.

    Parameters
    ----------
    minute
        From 0.
    """
    day, rest = divmod(minute, DAY_MIN)
    return f"day {day + 1} {rest // 60:02}:{rest % 60:02}"
