"""Dishes of a meal as items; those that are filled once and drawn on at several times."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from optimizer.model.household import DAY_MIN, Drawing, Item
from optimizer.model.things import Dish, Ingredient, Rules
from optimizer.scenario.document import Document, Location

KG_PER_M3 = 1000.0  # a litre is counted as a kilogram
COLD_C = 1.0  # water that may be cold when it is drawn
MOST_SOLID = 0.1  # of what is drawn: tea leaves, sugar


@dataclass(frozen=True, slots=True)
class Use:
    """What a draw of a big boil is for, and how hot it has to be."""

    dish: Dish
    need_c: float | None


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
        drawn = tuple(replace(d, of=use.dish, need_c=use.need_c) for d, use in pairs)
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


# water boiled once for several dishes


def one_boil(
    document: Document,
    uses: Sequence[tuple[Any, Helping, Location]],
    meal_at: int,
    rules: Rules,
) -> Iterator[Helping]:
    """Yield one pot of water for several dishes, or note what is wrong.

    Parameters
    ----------
    document
        Gets what is wrong.
    uses
        What the file says of each, its dish and for whom, and where it stands.
    meal_at
        Minute of the day of the meal.
    rules
        How hot water is that is poured on tea.
    """
    wrong = False
    for part, helping, at in uses:
        for code, message in _wrong_use(part, meal_at, helping.dish):
            document.problem(at, code, message)
            wrong = True
    if uses and not wrong:
        times = [(meal_at if part.at is None else part.at, helping) for part, helping, _ in uses]
        yield boiled_once(times, rules)


def _wrong_use(part: Any, meal_at: int, dish: Dish) -> list[tuple[str, str]]:
    found = []
    if part.drawn is not None:
        found.append(("contradiction", "say 'at' when its water is drawn, not 'drawn'"))
    if not waterlike(dish):
        found.append(("not_drawn", f"{dish.name} is not made by pouring hot water; boil it itself"))
    if part.at is not None and part.at < meal_at:
        found.append(("order", "it is drawn before the clock time of its meal"))
    return found


def waterlike(dish: Dish) -> bool:
    """Tell whether a dish is water, or made by pouring water on very little.

    Parameters
    ----------
    dish
        The dish.
    """
    return drawable(replace(dish, serve="hot"))


def water_of(dish: Dish) -> float:
    """Return the share of water in a dish.

    Parameters
    ----------
    dish
        The dish.
    """
    whole = sum(each.kg for each in dish.ingredients)
    return sum(each.kg for each in dish.ingredients if each.food.name == "water") / whole


def boiled_once(times: Sequence[tuple[int, Helping]], rules: Rules) -> Helping:
    """Return one pot of water for several dishes, drawn on for each at its time.

    Parameters
    ----------
    times
        Minute of the day, and a dish and for whom.
    rules
        How hot water is that is poured on tea.
    """
    ordered = sorted(times, key=lambda pair: pair[0])
    litres = [_water_kg(helping) for _, helping in ordered]
    draws = tuple((at, kg / sum(litres)) for (at, _), kg in zip(ordered, litres, strict=True))
    uses = tuple(Use(h.dish, _need_c(h.dish, rules)) for _, h in ordered)
    dishes = [use.dish for use in uses]
    return Helping(_boil_of(dishes, uses[-1].need_c, sum(litres)), 1.0, 0.0, draws, uses)


def _water_kg(helping: Helping) -> float:
    portions = helping.adults + helping.children * helping.dish.child_share
    return portions * sum(i.kg for i in helping.dish.ingredients if i.food.name == "water")


def _need_c(dish: Dish, rules: Rules) -> float | None:
    """Return how hot the water has to be when it is drawn."""
    return rules.poured_c if dish.serve == "hot" else dish.serve_c


def _boil_of(dishes: Sequence[Dish], last_c: float | None, litres: float) -> Dish:
    """Return the pot of water as a dish: boiled if one of them is, for as long as that is."""
    slowest = max(dishes, key=lambda dish: (dish.heat_c is None, dish.boil_min, dish.heat_c or 0))
    water = next(i.food for i in slowest.ingredients if i.food.name == "water")
    return replace(
        slowest,
        name="one boil of " + ", ".join(dish.name for dish in dishes),
        label="one boil",
        ingredients=(Ingredient(water, litres),),
        child_share=1.0,
        serve="at",
        serve_c=COLD_C if last_c is None else last_c,
        disinfects=any(dish.disinfects for dish in dishes),
    )
