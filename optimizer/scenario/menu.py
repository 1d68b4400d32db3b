"""Changes to a menu, from text to text: meals, their days and dishes.

Each gives the whole file with the change and keeps its comments.
"""

from collections.abc import Iterable
from typing import Any

from optimizer.scenario.clock import EVERY_DAY, read_days
from optimizer.scenario.passages import plain_of, put, remove


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
    return put(text, ("menu", len(menu_of(text))), entry)


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
    return on_days(text, place, days, plain_of(text).get("days", 1))


def on_days(text: str, place: int, days: list[int], last: int) -> str:
    """Write the days of a meal; on none takes it out.

    Parameters
    ----------
    text
        The whole file.
    place
        Its position in the menu, from 0.
    days
        From 1.
    last
        The last day there is.
    """
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


def with_dish(text: str, place: int, dish: Any) -> str:
    """Add a dish to a meal.

    Parameters
    ----------
    text
        The whole file.
    place
        The meal's position in the menu, from 0.
    dish
        Its name, or all that the file says of it.
    """
    return put(text, ("menu", place, "dishes", len(menu_of(text)[place]["dishes"])), dish)


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
    if len(menu_of(text)[place]["dishes"]) == 1:
        return without_meal(text, place)
    return remove(text, ("menu", place, "dishes", order))


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
    for place in reversed(range(len(menu_of(text)))):
        named = read_days(menu_of(text)[place].get("on", EVERY_DAY))
        before = set(named or range(1, last + 1))
        after = before | changed if day in before else before - changed
        if after != before:
            text = on_days(text, place, sorted(after), last)
    return text


def menu_of(text: str) -> list[dict[str, Any]]:
    """Give the meals of a text.

    Parameters
    ----------
    text
        The whole file.
    """
    found = plain_of(text).get("menu")
    return found if isinstance(found, list) else []
