"""Changes to a household, from text to text: people, days, weather, things.

Each gives the whole file with the change and keeps its comments. Whether the outcome is a sound
scenario is the business of ``reading``.
"""

import re
from collections.abc import Iterable
from typing import Any

from optimizer.model.household import DAY_MIN
from optimizer.scenario.clock import EVERY_DAY, read_days, read_moment
from optimizer.scenario.document import Location
from optimizer.scenario.menu import menu_of, on_days
from optimizer.scenario.passages import plain_of, put, remove

COUNTED = frozenset({"stoves", "pots", "cookers"})  # a bare number after the name is the count


def with_people(text: str, adults: int, children: int) -> str:
    """Say how many eat.

    Parameters
    ----------
    text
        The whole file.
    adults
        Grown ones.
    children
        Small ones.
    """
    if not isinstance(plain_of(text).get("people"), dict):
        return put(text, ("people",), {"adults": adults, "children": children})
    return put(put(text, ("people", "adults"), adults), ("people", "children"), children)


def with_value(text: str, at: Location, value: Any) -> str:
    """Set a value; nothing (None or an empty text) takes its key out.

    Parameters
    ----------
    text
        The whole file.
    at
        Keys and positions from the top.
    value
        The value as it is written in the file.
    """
    given = value.strip() if isinstance(value, str) else value
    if not _nothing(given):
        return put(text, at, given)
    try:
        return remove(text, at)
    except KeyError:
        return text


def _nothing(value: Any) -> bool:
    return value is None or (isinstance(value, str) and not value.strip())


# days


def with_days(text: str, days: int) -> str:
    """Set how many days are planned; what is said of days beyond the last goes.

    Parameters
    ----------
    text
        The whole file.
    days
        From 1.
    """
    text = put(text, ("days",), days)
    for key in ("weather", "cook_hours"):
        text = _days_cut(text, key, days)
    for place in reversed(range(len(menu_of(text)))):
        named = read_days(menu_of(text)[place].get("on", EVERY_DAY))
        if named is not None and max(named) > days:
            text = on_days(text, place, [day for day in named if day <= days], days)
    return _bought_cut(text, days)


def _bought_cut(text: str, days: int) -> str:
    """Take out what is bought fresh on days beyond the last."""
    cold = plain_of(text).get("cold")
    bought = (cold.get("bought") if isinstance(cold, dict) else None) or []
    for place in reversed(range(len(bought))):
        if read_moment(bought[place]) >= days * DAY_MIN:
            text = remove(text, ("cold", "bought", place))
    return text


def _days_cut(text: str, key: str, days: int) -> str:
    """Take out what weather or hours say of days beyond the last."""
    said = plain_of(text).get(key)
    if key == "weather" and isinstance(said, list):
        for place in reversed(range(days, len(said))):
            text = remove(text, (key, place))
    for name in list(said) if isinstance(said, dict) else ():
        named = read_days(name)
        if named is not None and max(named) > days:
            kept = [day for day in named if day <= days]
            text = _split(text, key, name, kept)
    return text


def _split(text: str, key: str, name: str, days: Iterable[int]) -> str:
    """Say of single days what was said of several."""
    value = plain_of(text)[key][name]
    for day in days:
        text = put(text, (key, f"day {day}"), value)
    return remove(text, (key, name)) if name not in {f"day {day}" for day in days} else text


def with_weather(text: str, day: int, key: str, value: Any) -> str:
    """Say one thing of the weather of one day.

    Parameters
    ----------
    text
        The whole file.
    day
        From 1.
    key
        outdoors, wind, rain, wet_sticks or sun.
    value
        As it is written in the file; nothing takes it out.
    """
    said = plain_of(text).get("weather")
    if isinstance(said, dict):
        text, name = _day_of_its_own(text, said, day)
        return with_value(text, ("weather", name, key), value)
    for place in range(len(said or []), day):
        text = put(text, ("weather", place), {})
    return with_value(text, ("weather", day - 1, key), value)


def _day_of_its_own(text: str, said: dict[str, Any], day: int) -> tuple[str, str]:
    """Find the key of weather that is about one day alone, or make one."""
    named = {name: read_days(name) for name in said}
    holder = next((name for name, days in named.items() if days and day in days), None)
    if holder is not None and named[holder] == (day,):
        return text, holder
    name = f"day {day}"
    if holder is not None:
        return _split(text, "weather", holder, named[holder] or ()), name
    every = next((n for n, days in named.items() if days is None), None)
    return put(text, ("weather", name), said[every] if every else {}), name


# things


def with_thing(text: str, section: str, name: str, entry: Any) -> str:
    """Add a thing.

    Parameters
    ----------
    text
        The whole file.
    section
        fuels, stoves, pots, cookers, dishes, ...
    name
        Its name in the file.
    entry
        What is said of it: a count, or keys and values.
    """
    return put(text, (section, name), entry)


def without_thing(text: str, section: str, name: str) -> str:
    """Take a thing out.

    Parameters
    ----------
    text
        The whole file.
    section
        fuels, stoves, pots, cookers, dishes, ...
    name
        Its name in the file.
    """
    return remove(text, (section, name))


def with_field(text: str, section: str, name: str, key: str, value: Any) -> str:
    """Say one thing of a thing; nothing takes it out.

    Parameters
    ----------
    text
        The whole file.
    section
        fuels, stoves, pots, cookers, ...
    name
        Its name in the file.
    key
        What is said, such as count or stock.
    value
        As it is written in the file.
    """
    said = plain_of(text)[section][name]
    if isinstance(said, dict):
        return with_value(text, (section, name, key), value)
    bare = {} if said is None else {"count": said}
    if key == "count" and section in COUNTED:
        return put(text, (section, name), value)
    return text if _nothing(value) else put(text, (section, name), {**bare, key: value})


def free_name(text: str, section: str, like: str) -> str:
    """Give a name that no thing of a section has yet.

    Parameters
    ----------
    text
        The whole file.
    section
        fuels, stoves, pots, cookers, ...
    like
        Words to make it from, or the name of a thing on the shelf.
    """
    taken = plain_of(text).get(section) or {}
    stem = re.sub(r"[^a-z0-9]+", "_", like.casefold()).strip("_") or "thing"
    names = [stem, *(f"{stem}_{number}" for number in range(2, len(taken) + 3))]
    return next(name for name in names if name not in taken)
