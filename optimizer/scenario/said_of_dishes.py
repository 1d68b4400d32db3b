"""Changes to what a menu says of a meal, a dish or a use of a big boil, from text to text.

Each gives the whole file with the change and keeps its comments.
"""

from collections.abc import Mapping
from typing import Any

from optimizer.errors import InputError, Problem
from optimizer.scenario.changes import with_value
from optimizer.scenario.document import Location
from optimizer.scenario.menu import menu_of, without_dish, without_meal
from optimizer.scenario.passages import put, remove

CARRIED = ("carried", "back", "to")
_DISH_AT = 4  # parts of the place of a dish; a use of a big boil has two more


def with_said(text: str, at: Location, key: str, value: Any) -> str:
    """Say one thing of a meal, a dish or a use; nothing takes it out.

    A dish of which nothing more is said stands as its bare name.

    Parameters
    ----------
    text
        The whole file.
    at
        Where it stands, such as ``("menu", 0, "dishes", 1)``.
    key
        What is said, such as ``for``.
    value
        As it is written in the file; None, an empty text, list or mapping: nothing.
    """
    said = said_at(text, at)
    given = None if value in ([], {}) else value
    if not isinstance(said, dict):
        nothing = given is None or not str(given).strip()
        return text if nothing else put(text, at, {"dish": said, key: given})
    text = with_value(text, (*at, key), given)
    left = said_at(text, at)
    return put(text, at, left["dish"]) if set(left) == {"dish"} else text


def with_carried(text: str, at: Location, value: str) -> str:
    """Say how long a meal or a dish is carried; nothing: it is eaten where it is cooked.

    Parameters
    ----------
    text
        The whole file.
    at
        Where it stands.
    value
        Such as ``20 min``; empty takes out as well where it goes and when the carrier is back.
    """
    for key in CARRIED if not value.strip() else ():
        text = with_said(text, at, key, None)
    return with_said(text, at, CARRIED[0], value)


def draws_read(words: str) -> dict[str, str]:
    """Read when a jar is drawn on, and how much each time, as a person types it.

    Parameters
    ----------
    words
        Such as ``07:30 0.5 L, 10:00 0.5 L``; empty: it is not drawn on.

    Raises
    ------
    InputError
        If a draw has no clock time, or no amount, or a time stands twice.
    """
    parts = [part.split(maxsplit=1) for part in words.split(",") if part.strip()]
    for part in parts:
        if len(part) != len(("time", "amount")):
            raise _wrong(f"expected a time and how much, such as 07:30 0.5 L, given '{part[0]}'")
    times = [part[0] for part in parts]
    twice = next((time for n, time in enumerate(times) if time in times[:n]), None)
    if twice is not None:
        raise _wrong(f"{twice} stands twice")
    return {time: much.strip() for time, much in parts}


def with_draws(text: str, at: Location, draws: Mapping[str, str]) -> str:
    """Say when a dish is drawn on, which says how much of it there is; none: it is served whole.

    Parameters
    ----------
    text
        The whole file.
    at
        Where it stands.
    draws
        Clock time and how much.
    """
    text = with_said(text, at, "portions", None) if draws else text
    return with_said(text, at, "drawn", dict(draws))


def _wrong(message: str) -> InputError:
    return InputError([Problem("scenario", None, "", "drawn", message)])


def without_said(text: str, at: Location) -> str:
    """Take a meal, a dish or a use out; the last of its kind takes out what it stands in.

    Parameters
    ----------
    text
        The whole file.
    at
        Where it stands.
    """
    place = int(at[1])
    if len(at) < _DISH_AT:
        return without_meal(text, place)
    order = int(at[3])
    if len(at) == _DISH_AT or len(said_at(text, at[:-1])) == 1:
        return without_dish(text, place, order)
    return remove(text, at)


def said_at(text: str, at: Location) -> Any:
    """Give what stands in a menu at a place.

    Parameters
    ----------
    text
        The whole file.
    at
        Where it stands.
    """
    found: Any = menu_of(text)
    for part in at[1:]:
        found = found[part]
    return found
