"""A dish without some of its foods: cooked apart, in a pot of its own."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from optimizer.model.eaters import Diet
from optimizer.model.things import Dish, Ingredient
from optimizer.scenario.document import Document, Location

SEASONING = frozenset({"water", "oil", "salt", "sugar"})  # these alone are no dish
LEAST_LEFT = 1 / 3  # of the food beside these: with less the water is far too much


def variant(document: Document, dish: Dish, without: Sequence[str], at: Location) -> Dish | None:
    """Return a dish without some of its foods; None, and noted, where that is none.

    Parameters
    ----------
    document
        Gets what is wrong.
    dish
        The whole dish.
    without
        Marks such as "meat", or foods by name.
    at
        Where that stands.
    """
    for place, word in enumerate(without):
        if not Diet("", (word,)).unfit(dish):
            document.problem((*at, place), "not_in_it", f"{dish.label} has no {_said(word)} in it")
    left = without_foods(dish, without)
    if left is None:
        what = " and ".join(map(_said, without))
        document.problem(
            at,
            "nothing_left",
            f"{dish.label} without {what} is no dish any more: too little of it is left",
        )
    return None if document.faulty(at) else left


def food_kg(ingredients: Iterable[Ingredient]) -> float:
    """Return the food of an adult portion, beside water and seasoning [kg].

    Parameters
    ----------
    ingredients
        Of a dish.
    """
    return sum(each.kg for each in ingredients if each.food.name not in SEASONING)


def without_foods(dish: Dish, without: Sequence[str]) -> Dish | None:
    """Return a dish without some of its foods; None where too little food is left.

    It boils as long as the whole dish, which errs to the safe side.

    Parameters
    ----------
    dish
        The whole dish.
    without
        Marks such as "meat", or foods by name.
    """
    out = Diet("", tuple(without)).unfit(dish)
    left = tuple(each for each in dish.ingredients if each.food not in out)
    if food_kg(left) <= LEAST_LEFT * food_kg(dish.ingredients):
        return None
    return replace(
        dish,
        name=f"{dish.name}_without_{'_'.join(sorted(without))}",
        label=f"{dish.label} without {' and '.join(map(_said, without))}",
        ingredients=left,
    )


def _said(word: str) -> str:
    return word.replace("_", " ")
