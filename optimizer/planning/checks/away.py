"""Dishes carried to where they are eaten, and who eats of which pot, looked at apart."""

from collections.abc import Iterator

from optimizer.model.things import Food
from optimizer.planning.checks.dish import Case


def carry_faults(case: Case) -> Iterator[str]:
    """Yield a dish that is carried away hot in nothing that is made for it, or in a hurry."""
    carried, step = case.item.carried, case.step
    if carried is None or case.item.dish.serve == "any":
        return
    if case.cooker is None or step.move is None:
        yield f"{case.name}: is carried {carried.minutes} min, and in no cooker"
        return
    if not case.cooker.cooker.portable:
        yield f"{case.name}: is carried away in {step.cooker}, which is not one to carry"
    if step.reboil:
        yield f"{case.name}: is carried away and boiled again"
    if step.serve - step.move < carried.minutes:
        left = step.serve - step.move
        yield f"{case.name}: is carried {carried.minutes} min, and has {left} min until it is eaten"


def diet_faults(case: Case) -> Iterator[str]:
    """Yield a pot that is served to somebody whose diet leaves out what is in it."""
    there = [food for food, _ in case.foods]
    for helping in case.item.helpings:
        if helping.adults + helping.children <= 0:
            continue
        group = case.scenario.groups[helping.group]
        for diet in group.diets:
            for food in there:
                if _is_out(food, diet.without):
                    who = f"{group.house or 'some'}, {diet.name}"
                    yield f"{case.name}: is served to people ({who}) who eat no {food.label}"


def _is_out(food: Food, without: tuple[str, ...]) -> bool:
    words = {food.name, *(food.contains if food.contains is not None else ())}
    return any(word in words for word in without)
