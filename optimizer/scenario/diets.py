"""Changes to who does not eat what, from text to text; comments are kept."""

from collections.abc import Iterator, Mapping
from typing import Any

from optimizer.errors import InputError, Problem
from optimizer.scenario.changes import with_value
from optimizer.scenario.document import Location
from optimizer.scenario.eater_parts import listed
from optimizer.scenario.menu import menu_of, with_dish
from optimizer.scenario.passages import plain_of, put, remove
from optimizer.scenario.reading import dishes_missing
from optimizer.scenario.said_of_dishes import with_said, without_said


def with_diet(text: str, name: str, key: str, value: Any) -> str:
    """Say one thing of a diet, or begin one; nothing takes it out.

    Parameters
    ----------
    text
        The whole file.
    name
        Of the diet.
    key
        ``without``, ``of``, ``people`` or ``allergy``.
    value
        As it is written in the file.
    """
    said = (plain_of(text).get("diets") or {}).get(name, {})
    given = None if value == [] and key != "without" else value
    if isinstance(said, dict):
        return with_value(text, ("diets", name, key), given)
    return put(text, ("diets", name), {"without": said, **({} if given is None else {key: given})})


def with_new_diet(text: str, name: str, said: Mapping[str, Any]) -> str:
    """Add a diet.

    Parameters
    ----------
    text
        The whole file.
    name
        What it is called.
    said
        As it is written in the file.

    Raises
    ------
    InputError
        If there is one of this name.
    """
    if name in (plain_of(text).get("diets") or {}):
        message = f"there is a diet '{name}' already; change that one, or give another name"
        raise InputError([Problem("scenario", None, "", "twice", message)])
    return put(text, ("diets", name), dict(said))


def with_all_fed(text: str) -> str:
    """Give those whom a meal leaves with nothing a dish of their own there, where one is known.

    Parameters
    ----------
    text
        The whole file.
    """
    for place, entry in dishes_missing(text):
        text = with_dish(text, place, entry)
    return text


def without_diet(text: str, name: str) -> str:
    """Take a diet out, and the meals and dishes that were for these people alone.

    Parameters
    ----------
    text
        The whole file.
    name
        Of the diet.
    """
    for at, names in reversed(list(meant_for(text))):
        rest = [each for each in names if each != name]
        if not rest:
            text = without_said(text, at)
        elif rest != names:
            text = with_said(text, at, "for", rest)
    last = len(plain_of(text)["diets"]) == 1
    return remove(text, ("diets",) if last else ("diets", name))


def meant_for(text: str) -> Iterator[tuple[Location, list[str]]]:
    """Yield the meals, dishes and uses of a menu that are for some people, and for whom.

    Parameters
    ----------
    text
        The whole file.
    """
    for at, said in _parts(menu_of(text), ("menu",)):
        names = listed(said.get("for"))
        if isinstance(names, list):
            yield at, names


def _parts(parts: Any, at: Location) -> Iterator[tuple[Location, dict[str, Any]]]:
    """Yield every mapping of a list of meals, dishes or uses, and what stands in it."""
    for place, part in enumerate(parts if isinstance(parts, list) else ()):
        if isinstance(part, dict):
            yield (*at, place), part
            for key in ("dishes", "one_boil"):
                yield from _parts(part.get(key), (*at, place, key))
