"""Changes to water boiled once in one pot for several dishes, from text to text."""

from collections.abc import Sequence
from typing import Any

from optimizer.scenario.document import Location
from optimizer.scenario.menu import menu_of, with_dish, without_dish
from optimizer.scenario.passages import put
from optimizer.scenario.said_of_dishes import said_at

BOIL = "one_boil"


def with_boil(text: str, place: int, names: Sequence[str]) -> str:
    """Boil the water of several dishes of a meal in one pot.

    What stands in the meal already goes into the pot with all that is said of it.

    Parameters
    ----------
    text
        The whole file.
    place
        The meal's position in the menu, from 0.
    names
        Of the dishes.
    """
    dishes = menu_of(text)[place]["dishes"]
    standing = {_name(each): n for n, each in reversed(list(enumerate(dishes)))}
    uses = [dishes[standing[name]] if name in standing else name for name in names]
    text = with_dish(text, place, {BOIL: uses})
    for order in sorted({standing[name] for name in names if name in standing}, reverse=True):
        text = without_dish(text, place, order)
    return text


def with_use(text: str, at: Location, dish: str, drawn_at: str, steep_in: str | None) -> str:
    """Draw on a big boil for one more dish.

    Parameters
    ----------
    text
        The whole file.
    at
        Where the boil stands in the menu.
    dish
        Name of the dish.
    drawn_at
        Clock time; empty: at the meal.
    steep_in
        Name of the jar in which its water is poured on it, to be eaten at the meal.
    """
    told: dict[str, Any] = {"at": drawn_at.strip(), "steep_in": steep_in}
    given = {key: value for key, value in told.items() if value}
    use = {"dish": dish, **given} if given else dish
    return put(text, (*at, BOIL, len(said_at(text, at)[BOIL])), use)


def _name(entry: Any) -> str | None:
    return entry.get("dish") if isinstance(entry, dict) else entry
