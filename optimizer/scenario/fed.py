"""Whether a menu leaves anybody with nothing that they eat."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from optimizer.model.eaters import Group
from optimizer.model.things import Dish
from optimizer.scenario.document import Document
from optimizer.scenario.variants import food_kg, without_foods

LEAST_FOOD_KG = 0.02  # in an adult portion: tea has less


@dataclass(frozen=True, slots=True)
class Served:
    """One dish of the menu: the groups it is meant for, and those who eat it."""

    place: int  # of its meal in the menu
    meal: str
    days: Sequence[int]
    dish: Dish
    asked: tuple[int, ...]  # empty: for so many people, whoever they are
    eating: tuple[int, ...]


def is_food(dish: Dish) -> bool:
    """Tell whether a dish is more than a drink.

    Parameters
    ----------
    dish
        A dish, or water to drink or to wash in.
    """
    return dish.serve == "hot" and food_kg(dish.ingredients) >= LEAST_FOOD_KG


def check_fed(
    document: Document,
    served: Sequence[Served],
    groups: Sequence[Group],
    dishes: Mapping[str, Dish],
) -> None:
    """Note meals at which people get nothing that they eat, and what would feed them.

    Parameters
    ----------
    document
        Gets what is wrong.
    served
        All dishes of the menu.
    groups
        All people by household and diet; empty: all alike.
    dishes
        Those on the shelf and of the file, to suggest one.
    """
    meals: dict[tuple[int, str], list[Served]] = defaultdict(list)
    for each in served if any(group.diets for group in groups) else ():
        for day in each.days:
            if is_food(each.dish):
                meals[day, each.meal].append(each)
    told: set[tuple[int, int]] = set()
    for of_meal in meals.values():
        for number, first in _hungry(of_meal):
            if (first.place, number) not in told:
                told.add((first.place, number))
                message = _message(groups[number], of_meal, dishes)
                document.problem(("menu", first.place, "dishes"), "diet", message)


def _hungry(served: Sequence[Served]) -> Iterator[tuple[int, Served]]:
    """Yield the groups that a meal is meant for and does not feed, and its dish for them."""
    fed = {number for each in served for number in each.eating}
    for number in sorted({number for each in served for number in each.asked} - fed):
        yield number, next(each for each in served if number in each.asked)


def _message(group: Group, served: Sequence[Served], dishes: Mapping[str, Dish]) -> str:
    diet = next(each for each in group.diets if any(each.unfit(s.dish) for s in served))
    who = f"{group.people:g} {'person' if group.people == 1 else 'people'} of '{diet.name}'"
    where = f" ({group.house})" if group.house else ""
    dish = served[0].dish
    why = f"{dish.label} has {group.unfit(dish)[0].label}"
    return (
        f"nothing at {served[0].meal} that the {who}{where} eat: {why}; "
        f"add {_instead(group, diet.name, served, dishes)}"
    )


def _instead(group: Group, diet: str, served: Sequence[Served], dishes: Mapping[str, Dish]) -> str:
    """Suggest a dish without what they leave out, or another one that fits."""
    words = tuple(dict.fromkeys(word for each in group.diets for word in each.without))
    for each in served:
        out = [word for word in words if _has(each.dish, word)]
        if without_foods(each.dish, out) is not None and each.dish.name in dishes:
            return (
                f"{{dish: {each.dish.name}, without: [{', '.join(out)}], for: [{diet}]}}, "
                "a pot of its own"
            )
    fits = [name for name, dish in dishes.items() if is_food(dish) and not group.unfit(dish)]
    such_as = f", such as {{dish: {fits[0]}, for: [{diet}]}}" if fits else ""
    return f"another dish for them{such_as}"


def _has(dish: Dish, word: str) -> bool:
    return any(word == i.food.name or word in (i.food.contains or ()) for i in dish.ingredients)
