"""Thriftier menus: dishes of the same kind that take less fuel, dishes left out, washings saved."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Literal

from optimizer.model.household import Item, Scenario
from optimizer.model.things import Dish, Ingredient
from optimizer.planning.kitchen import Known, known_of
from optimizer.planning.ways import Way

Kind = Literal["water", "meat", "pulses", "grain", "vegetables"]
PULSE_PROTEIN = 0.19  # share of the dry matter; dry pulses have more, grains less (foods table)
DRY_WATER = 0.2  # share of water below which a food is dry (foods table)
# The general factors of Atwater, J/kg: 17 kJ/g of protein and carbohydrate, 37 kJ/g of fat.
PROTEIN_J_KG, FAT_J_KG, CARBOHYDRATE_J_KG = 17e6, 37e6, 17e6
FILLING = 0.8  # a dish that feeds less than this share is not put in another's place
CLEARLY = 0.95  # nor one that takes hardly less fuel
DRINK = 0.06  # share of solids below which it is water or a drink (dishes table)
READY_MIN = 1.0  # what boils no longer comes ready from a tin, and needs a store of tins


def kind_of(dish: Dish) -> Kind:
    """Return what kind of dish it is, by what is in it.

    Parameters
    ----------
    dish : Dish
        A dish.

    Returns
    -------
    str
        Meat (with fish and eggs) before all else, then what has most dry matter in it.
    """
    solid = [part for part in dish.ingredients if _dry_kg(part) > 0]
    whole_kg = sum(part.kg for part in dish.ingredients)
    if sum(map(_dry_kg, solid)) < DRINK * whole_kg:
        return "water"
    if any(part.food.endpoint_c is not None for part in solid):
        return "meat"
    main = max(solid, key=_dry_kg).food
    if main.protein >= PULSE_PROTEIN * (1 - main.water):
        return "pulses"
    return "grain" if main.water < DRY_WATER else "vegetables"


def _dry_kg(part: Ingredient) -> float:
    return part.kg * (1 - part.food.water)


def nourishment_j(dish: Dish) -> float:
    """Return the food energy of an adult portion [J]."""
    return sum(
        part.kg
        * (
            PROTEIN_J_KG * part.food.protein
            + FAT_J_KG * part.food.fat
            + CARBOHYDRATE_J_KG * part.food.carbohydrate
        )
        for part in dish.ingredients
    )


def least_fuel_j(scenario: Scenario, item: Item, known: Known) -> float | None:
    """Return the fuel of the way of a dish that takes least, without the lighting of a fed fire.

    Parameters
    ----------
    scenario : Scenario
        The household.
    item : Item
        The dish at its meal.
    known : dict
        Ways that are known; what is worked out is added.

    Returns
    -------
    float or None
        None where no way works [J]
    """
    attempts = known_of(scenario, item, item.day, known)
    ways = (attempt.way for attempt in attempts if isinstance(attempt.way, Way))
    found = [float(way.fuel_j(int(way.on_min[way.on_min > 0].min()))) for way in ways]
    return min(found, default=None)


def thriftier(
    scenario: Scenario, dishes: Mapping[str, Dish], known: Known
) -> Iterator[tuple[Dish, Dish]]:
    """Yield dishes of the menu, each with the one of its kind that takes least fuel.

    Parameters
    ----------
    scenario : Scenario
        The household.
    dishes : mapping of str to Dish
        All there are.
    known : dict
        Ways that are known.

    Yields
    ------
    dish, dish
        One on the menu, and one that feeds nearly as well and takes clearly less fuel.
    """
    first = {item.dish.name: item for item in reversed(scenario.items) if not item.drawn}
    for item in sorted(first.values(), key=lambda item: item.number):
        mine = least_fuel_j(scenario, item, known)
        others = _others(scenario, item, dishes, known)
        best = min(others, key=lambda pair: pair[0], default=None)
        if mine is not None and best is not None and best[0] < CLEARLY * mine:
            yield item.dish, best[1]


def _others(
    scenario: Scenario, item: Item, dishes: Mapping[str, Dish], known: Known
) -> Iterator[tuple[float, Dish]]:
    """Yield other dishes of a kind that is eaten, with their least fuel."""
    kind, feeds = kind_of(item.dish), FILLING * nourishment_j(item.dish)
    if kind == "water":
        return
    there = {other.dish.name for other in scenario.items}
    diets = {
        diet
        for other in scenario.items
        if other.dish.name == item.dish.name
        for diet in scenario.diets_of(other)
    }
    for name, dish in dishes.items():
        alike = kind_of(dish) == kind and nourishment_j(dish) >= feeds
        if name in there or not alike or dish.boil_min <= READY_MIN:
            continue
        if any(diet.unfit(dish) for diet in diets):
            continue
        least = least_fuel_j(scenario, replace(item, dish=dish), known)
        if least is not None:
            yield least, dish


def with_dish(scenario: Scenario, old: Dish, new: Dish) -> Scenario:
    """Return a household that eats another dish wherever it eats one."""
    items = (
        replace(i, dish=new) if i.dish.name == old.name and not i.drawn else i
        for i in scenario.items
    )
    return replace(scenario, items=tuple(items))


def without(scenario: Scenario, numbers: set[int]) -> Scenario:
    """Return a household without some items of the menu."""
    kept = (item for item in scenario.items if item.number not in numbers)
    items = tuple(replace(item, number=number) for number, item in enumerate(kept))
    return replace(scenario, items=items)


def numbers_of(scenario: Scenario, dish: Dish) -> list[int]:
    """Return where a dish stands on the menu."""
    return [item.number for item in scenario.items if item.dish.name == dish.name]


def is_washing(dish: Dish) -> bool:
    """Tell whether it is water that is warmed and neither eaten nor drunk."""
    return dish.heat_c is not None and kind_of(dish) == "water"
