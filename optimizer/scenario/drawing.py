"""Dishes of a meal as items; those that are filled once and drawn on at several times."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

from optimizer.model.household import DAY_MIN, Drawing, Item, Steep
from optimizer.model.things import Dish
from optimizer.scenario.document import Document, Location

KG_PER_M3 = 1000.0  # a litre is counted as a kilogram
MOST_SOLID = 0.1  # of what is drawn: tea leaves, sugar


@dataclass(frozen=True, slots=True)
class Use:
    """What a draw of a big boil is for, and how hot it has to be."""

    dish: Dish
    need_c: float | None
    steep: Steep | None = None


@dataclass(frozen=True, slots=True)
class Helping:
    """A dish of a meal, for whom, and when it is drawn (minutes of the day, share of it)."""

    dish: Dish
    adults: float
    children: float
    drawn: tuple[tuple[int, float], ...] = ()
    uses: tuple[Use, ...] = ()  # of each draw, where it is a big boil


def item_of(helping: Helping, day: int, meal: str, minute: int) -> Item:
    """Return a helping as an item of one day; one that is drawn on is served at its last draw.

    Parameters
    ----------
    helping
        The dish and for whom.
    day
        From 1.
    meal
        Its name.
    minute
        Of the clock, when the meal is.
    """
    last = helping.drawn[-1][0] if helping.drawn else 0
    drawn = tuple(Drawing(last - at, share) for at, share in helping.drawn)
    if helping.uses:
        pairs = zip(drawn, helping.uses, strict=True)
        drawn = tuple(
            replace(d, of=use.dish, need_c=use.need_c, steep=use.steep) for d, use in pairs
        )
    serve = (day - 1) * DAY_MIN + last if drawn else minute
    return Item(0, day, meal, helping.dish, helping.adults, helping.children, serve, drawn=drawn)


def portions_of(
    document: Document, people: Any, given: Any, at: Location
) -> tuple[float, float] | None:
    """Count grown and small portions; a number of heads is shared out as the people are.

    Parameters
    ----------
    document
        Gets what is wrong.
    people
        Who eats, as the file says.
    given
        What the file says of one dish; None: everybody.
    at
        Where that stands.
    """
    if given is None:
        return float(people.adults), float(people.children)
    if given.people is None and given.adults + given.children > 0:
        return given.adults, given.children
    if given.people is None or given.adults or given.children:
        message = "expected a number of people, or adults and children, more than none"
        document.problem(at, "portions", message)
        return None
    grown = people.adults / max(people.adults + people.children, 1)
    return given.people * grown, given.people * (1 - grown)


def drawn_on(
    document: Document, part: Any, meal_at: int, helping: Helping, at: Location
) -> Iterator[Helping]:
    """Yield a dish in the amount that is drawn, if it is; or note what is wrong.

    Parameters
    ----------
    document
        Gets what is wrong.
    part
        What the file says of the dish.
    meal_at
        Minute of the day of its meal.
    helping
        The dish.
    at
        Where it stands.
    """
    if part.drawn is None:
        yield helping
        return
    wrong = _wrong(part, meal_at, helping.dish)
    for code, message in wrong:
        document.problem((*at, "drawn"), code, message)
    if wrong:
        return
    whole = sum(part.drawn.values())
    portion_kg = sum(each.kg for each in helping.dish.ingredients)
    draws = tuple((minute, part.drawn[minute] / whole) for minute in sorted(part.drawn))
    yield Helping(helping.dish, whole * KG_PER_M3 / portion_kg, 0.0, draws)


def _wrong(part: Any, meal_at: int, dish: Dish) -> list[tuple[str, str]]:
    """List what is wrong with drawing on a dish: code and message."""
    found = []
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
