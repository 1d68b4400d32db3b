"""Dishes of a meal that are filled once and drawn on at several times."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from optimizer.model.things import Dish
from optimizer.scenario.document import Document, Location
from optimizer.scenario.servings import Serving, by_heads

KG_PER_M3 = 1000.0  # a litre is counted as a kilogram
STAYS = "what is drawn on stays where it is: carry it in a meal of its own, or draw on it here"
MOST_SOLID = 0.1  # of what is drawn: tea leaves, sugar


def drawn_on(
    document: Document, part: Any, meal_at: int, serving: Serving, at: Location
) -> Iterator[Serving]:
    """Yield a dish in the amount that is drawn, if it is; or note what is wrong.

    Parameters
    ----------
    document
        Gets what is wrong.
    part
        What the file says of the dish.
    meal_at
        Minute of the day of its meal.
    serving
        The dish.
    at
        Where it stands.
    """
    if part.drawn is None:
        yield serving
        return
    wrong = _wrong(part, meal_at, serving)
    for code, message in wrong:
        document.problem((*at, "drawn"), code, message)
    if wrong:
        return
    whole = sum(part.drawn.values())
    portion_kg = sum(each.kg for each in serving.dish.ingredients)
    draws = tuple((minute, part.drawn[minute] / whole) for minute in sorted(part.drawn))
    portions = whole * KG_PER_M3 / portion_kg
    helpings = by_heads(serving.helpings, portions)
    yield replace(serving, adults=portions, children=0.0, helpings=helpings, drawn=draws)


def _wrong(part: Any, meal_at: int, serving: Serving) -> list[tuple[str, str]]:
    """List what is wrong with drawing on a dish: code and message."""
    found, dish = [], serving.dish
    if serving.carried is not None:
        found.append(("contradiction", STAYS))
    if part.portions is not None:
        found.append(("contradiction", "say either portions or drawn, which says how much"))
    if not drawable(dish):
        message = f"{dish.name} cannot be drawn on: only hot water and tea can"
        found.append(("not_drawn", message))
    if min(part.drawn) < meal_at:
        message = "it is drawn before the clock time of its meal; write the meal earlier"
        found.append(("order", message))
    return found


def drawable(dish: Dish) -> bool:
    """Tell whether a dish is water, or nearly, and wanted hot.

    Parameters
    ----------
    dish
        The dish.
    """
    return dish.serve != "any" and not dish.soak_min and water_of(dish) >= 1 - MOST_SOLID


def water_of(dish: Dish) -> float:
    """Return the share of water in a dish.

    Parameters
    ----------
    dish
        The dish.
    """
    whole = sum(each.kg for each in dish.ingredients)
    return sum(each.kg for each in dish.ingredients if each.food.name == "water") / whole
