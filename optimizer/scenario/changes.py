"""Changes to a household, from text to text: people, days, weather, things, meals, dishes.

Each gives the whole file with the change and keeps its comments. Whether the outcome is a sound
scenario is the business of ``reading``.
"""

import re
from collections.abc import Iterable
from typing import Any

from optimizer.scenario.clock import EVERY_DAY, read_days
from optimizer.scenario.document import Location
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
    if given not in {None, ""} if not isinstance(given, list | dict) else True:
        return put(text, at, given)
    try:
        return remove(text, at)
    except KeyError:
        return text


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
    for place in reversed(range(len(_menu(text)))):
        named = read_days(_menu(text)[place].get("on", EVERY_DAY))
        if named is not None and max(named) > days:
            text = _on_days(text, place, [day for day in named if day <= days], days)
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
    return put(text, (section, name), {**bare, key: value}) if value not in {None, ""} else text


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


# meals and dishes


def with_meal(text: str, meal: str, at: str, on: list[int], dishes: list[str]) -> str:
    """Add a meal.

    Parameters
    ----------
    text
        The whole file.
    meal
        Its name, such as supper.
    at
        Clock time, such as 18:00.
    on
        Days it is eaten on.
    dishes
        Names of dishes.
    """
    days = plain_of(text).get("days", 1)
    entry = {"meal": meal, "at": at, "on": days_written(on, days), "dishes": dishes}
    return put(text, ("menu", len(_menu(text))), entry)


def without_meal(text: str, place: int) -> str:
    """Take a meal out.

    Parameters
    ----------
    text
        The whole file.
    place
        Its position in the menu, from 0.
    """
    return remove(text, ("menu", place))


def with_meal_days(text: str, place: int, days: list[int]) -> str:
    """Say on which days a meal is eaten; on none takes it out.

    Parameters
    ----------
    text
        The whole file.
    place
        Its position in the menu, from 0.
    days
        From 1.
    """
    return _on_days(text, place, days, plain_of(text).get("days", 1))


def _on_days(text: str, place: int, days: list[int], last: int) -> str:
    if not days:
        return without_meal(text, place)
    return put(text, ("menu", place, "on"), days_written(days, last))


def days_written(days: Iterable[int], last: int) -> str | list[int]:
    """Write days as a person would: every day, day 2, days 2-4, or a list.

    Parameters
    ----------
    days
        From 1.
    last
        The last day there is.
    """
    listed = sorted(set(days))
    if listed == list(range(1, last + 1)):
        return EVERY_DAY
    if len(listed) == 1:
        return f"day {listed[0]}"
    whole = listed == list(range(listed[0], listed[-1] + 1))
    return f"days {listed[0]}-{listed[-1]}" if whole else listed


def with_dish(text: str, place: int, dish: str) -> str:
    """Add a dish to a meal.

    Parameters
    ----------
    text
        The whole file.
    place
        The meal's position in the menu, from 0.
    dish
        Name of the dish.
    """
    return put(text, ("menu", place, "dishes", len(_menu(text)[place]["dishes"])), dish)


def without_dish(text: str, place: int, order: int) -> str:
    """Take a dish out of a meal; the last one takes the meal out.

    Parameters
    ----------
    text
        The whole file.
    place
        The meal's position in the menu, from 0.
    order
        The dish's position in the meal, from 0.
    """
    if len(_menu(text)[place]["dishes"]) == 1:
        return without_meal(text, place)
    return remove(text, ("menu", place, "dishes", order))


def with_portions(text: str, place: int, order: int, portions: dict[str, float] | None) -> str:
    """Say who eats of a dish; None: everybody.

    Parameters
    ----------
    text
        The whole file.
    place
        The meal's position in the menu, from 0.
    order
        The dish's position in the meal, from 0.
    portions
        Portions of adults and of children.
    """
    at: Location = ("menu", place, "dishes", order)
    said = _menu(text)[place]["dishes"][order]
    if not isinstance(said, dict):
        return put(text, at, {"dish": said, "portions": portions}) if portions else text
    if portions is None:
        return put(text, at, said["dish"]) if set(said) <= {"dish", "portions"} else text
    return put(text, (*at, "portions"), portions)


def with_day_repeated(text: str, day: int, others: Iterable[int]) -> str:
    """Eat on other days what is eaten on one; what they had before goes.

    Parameters
    ----------
    text
        The whole file.
    day
        The day that is repeated, from 1.
    others
        The days that become like it.
    """
    last = plain_of(text).get("days", 1)
    changed = set(others) - {day}
    for place in reversed(range(len(_menu(text)))):
        named = read_days(_menu(text)[place].get("on", EVERY_DAY))
        before = set(named or range(1, last + 1))
        after = before | changed if day in before else before - changed
        if after != before:
            text = _on_days(text, place, sorted(after), last)
    return text


def _menu(text: str) -> list[dict[str, Any]]:
    """Give the meals of a text."""
    found = plain_of(text).get("menu")
    return found if isinstance(found, list) else []
