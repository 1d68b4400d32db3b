"""Whether a menu leaves anybody with nothing that they eat."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from optimizer.model.eaters import Group
from optimizer.model.things import Dish
from optimizer.scenario.document import Document
from optimizer.scenario.letters import flow
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


@dataclass(frozen=True, slots=True)
class Unfed:
    """People whom a meal is meant for and who eat nothing of it."""

    group: Group
    served: tuple[Served, ...]  # what there is at that meal
    place: int  # of the meal in the menu that should have something for them

    @property
    def diet(self) -> str:
        """The diet that leaves them with nothing."""
        unfit = (d for d in self.group.diets if any(d.unfit(s.dish) for s in self.served))
        return next(unfit).name


def unfed(served: Sequence[Served], groups: Sequence[Group]) -> list[Unfed]:
    """Find the people that a meal leaves with nothing, once for a meal of several days.

    Parameters
    ----------
    served
        All dishes of the menu.
    groups
        All people by household and diet; empty: all alike.
    """
    meals: dict[tuple[int, str], list[Served]] = defaultdict(list)
    for each in served if any(group.diets for group in groups) else ():
        for day in each.days:
            if is_food(each.dish):
                meals[day, each.meal].append(each)
    found: dict[tuple[int, int], Unfed] = {}
    for of_meal in meals.values():
        for number, first in _hungry(of_meal):
            lack = Unfed(groups[number], tuple(of_meal), first.place)
            found.setdefault((first.place, number), lack)
    return list(found.values())


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
    for lack in unfed(served, groups):
        document.problem(("menu", lack.place, "dishes"), "diet", _message(lack, dishes))


def _hungry(served: Sequence[Served]) -> Iterator[tuple[int, Served]]:
    """Yield the groups that a meal is meant for and does not feed, and its dish for them."""
    fed = {number for each in served for number in each.eating}
    for number in sorted({number for each in served for number in each.asked} - fed):
        yield number, next(each for each in served if number in each.asked)


def _message(lack: Unfed, dishes: Mapping[str, Dish]) -> str:
    group, dish = lack.group, lack.served[0].dish
    who = f"{group.people:g} {'person' if group.people == 1 else 'people'} of '{lack.diet}'"
    where = f" ({group.house})" if group.house else ""
    why = f"{dish.label} has {group.unfit(dish)[0].label}"
    entry = suggested(lack, dishes)
    if entry is None:
        add = "another dish for them"
    elif "without" in entry:
        add = f"{flow(entry)}, a pot of its own"
    else:
        add = f"another dish for them, such as {flow(entry)}"
    return f"nothing at {lack.served[0].meal} that the {who}{where} eat: {why}; add {add}"


def suggested(lack: Unfed, dishes: Mapping[str, Dish]) -> dict[str, Any] | None:
    """Suggest a dish without what they leave out, or another one that fits, as the file says it.

    Parameters
    ----------
    lack
        Who has nothing at which meal.
    dishes
        Those on the shelf and of the file.
    """
    group, who = lack.group, {"for": [lack.diet]}
    words = tuple(dict.fromkeys(word for each in group.diets for word in each.without))
    for each in lack.served:
        out = [word for word in words if _has(each.dish, word)]
        if without_foods(each.dish, out) is not None and each.dish.name in dishes:
            return {"dish": each.dish.name, "without": out, **who}
    fits = (name for name, dish in dishes.items() if is_food(dish) and not group.unfit(dish))
    name = next(fits, None)
    return None if name is None else {"dish": name, **who}


def _has(dish: Dish, word: str) -> bool:
    return any(word == i.food.name or word in (i.food.contains or ()) for i in dish.ingredients)
