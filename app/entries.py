"""What the scenario says at a place of its file, sound or not."""

from collections.abc import Mapping
from typing import Any

from pydantic_core import PydanticCustomError

from app import cached, state
from optimizer.scenario.clock import MOST_DAYS, read_days
from optimizer.scenario.document import Location


def shown(at: Location) -> str:
    """Write a location as problems do: ``menu[1].at``.

    Parameters
    ----------
    at
        Keys and positions from the top.
    """
    words = ""
    for part in at:
        words += f"[{part + 1}]" if isinstance(part, int) else f".{part}" if words else part
    return words


def said(at: Location, instead: Any = None) -> Any:
    """Give what the scenario says at a place.

    Parameters
    ----------
    at
        Keys and positions from the top.
    instead
        What to give where it says nothing.
    """
    found: Any = cached.said(state.text())
    for part in at:
        try:
            found = found[part]
        except (KeyError, IndexError, TypeError):
            return instead
    return instead if found is None else found


def mapping(at: Location) -> dict[str, Any]:
    """Give the keys and values at a place; none where something else stands there.

    Parameters
    ----------
    at
        Keys and positions from the top.
    """
    found = said(at)
    return found if isinstance(found, dict) else {}


def items(at: Location) -> list[Any]:
    """Give the list at a place; an empty one where something else stands there.

    Parameters
    ----------
    at
        Keys and positions from the top.
    """
    found = said(at)
    return found if isinstance(found, list) else []


def names(at: Location) -> list[str]:
    """Give the names at a place, listed or each with more said of it.

    Parameters
    ----------
    at
        Keys and positions from the top.
    """
    found = said(at)
    return [str(each) for each in found] if isinstance(found, list | dict) else []


def days() -> list[int]:
    """List the days that are planned, from 1; none where that is not said soundly."""
    found = said(("days",))
    return list(range(1, found + 1)) if isinstance(found, int) and found <= MOST_DAYS else []


def day_key(said: Mapping[str, Any], day: int) -> str:
    """Find the key that says something of a day, in a mapping of days.

    Parameters
    ----------
    said
        The mapping, from keys such as "days 2-4".
    day
        From 1.
    """
    named = {name: days_of(name) for name in said}
    every = next((name for name, days in named.items() if days is None), f"day {day}")
    return next((name for name, days in named.items() if days and day in days), every)


def days_of(name: Any) -> tuple[int, ...] | None:
    """Give the days that a word names; none of them where it names no days.

    Parameters
    ----------
    name
        Such as "every day" (None) or "days 2-4".
    """
    try:
        return read_days(name)
    except PydanticCustomError:
        return ()
