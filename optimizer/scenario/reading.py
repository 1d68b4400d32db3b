"""A scenario file to a Scenario; everything that is wrong is told at once."""

import re
from collections import defaultdict
from copy import deepcopy
from pathlib import Path
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from optimizer.errors import InputError
from optimizer.model.household import Scenario
from optimizer.scenario.document import Document, Location, parse_document
from optimizer.scenario.faults import note
from optimizer.scenario.file_text import read_text
from optimizer.scenario.household import Household
from optimizer.scenario.schema import Frame, file_model, json_schema
from optimizer.scenario.things import SECTIONS

# What stands in for a faulty value while the rest of the file is looked at: it finds no fault.
_STAND_IN: dict[str, Any] = {
    "title": "?",
    "people": 1,
    "place": {"altitude": "0 m", "kitchen": "20 degC", "outdoors": "20 degC", "water": "10 degC"},
    "days": 366,
    "cook_hours": ["00:00-24:00"],
    "fuels": {},
    "stoves": {},
    "pots": {},
}
_NO_DISH = "?"
_MEAL = {"meal": "?", "at": "12:00", "dishes": [_NO_DISH]}
_STAND_IN["menu"] = [_MEAL]
__all__ = ["json_schema", "parse", "read"]


def read(path: str | Path) -> Scenario:
    """Read a scenario file.

    Parameters
    ----------
    path
        The file.

    Returns
    -------
    Scenario
        With the items of every day in the order they are served.

    Raises
    ------
    InputError
        If anything is wrong with it; all of it at once.
    """
    found = Path(path)
    return parse(read_text(found), str(path))


def parse(text: str, file: str = "scenario") -> Scenario:
    """Read the text of a scenario file.

    Parameters
    ----------
    text
        The whole file.
    file
        Its name, for messages.

    Returns
    -------
    Scenario
        With the items of every day in the order they are served.

    Raises
    ------
    InputError
        If anything is wrong with it; all of it at once.
    """
    document = parse_document(text, file)
    household = _household(document)
    scenario = household.scenario() if household else None
    if document.problems or scenario is None:
        raise InputError(document.problems)
    return scenario


def dishes_missing(text: str) -> list[tuple[int, dict[str, Any]]]:
    """Suggest dishes for those whom a meal leaves with nothing that they eat.

    Parameters
    ----------
    text
        The whole file.

    Returns
    -------
    list of (int, dict)
        Position of a meal in the menu, and what would be added to its dishes. Nothing where
        something else is wrong with the file.
    """
    document = parse_document(text, "scenario")
    household = _household(document)
    if household is None or household.scenario() or not _only_diets(document):
        return []
    return household.meals.missing()


def _household(document: Document) -> Household | None:
    """Make what can be made of a file; nothing where its faults cannot be set aside."""
    entries, broken = _entries(document)
    return Household(document, entries, broken) if entries else None


def _only_diets(document: Document) -> bool:
    return all(problem.code == "diet" for problem in document.problems)


def _entries(document: Document) -> tuple[Any, dict[str, set[str]]]:
    """Validate the file; faulty parts are noted, set aside, and the rest validated again."""
    model = file_model()
    context = {"currency": _currency(document.plain)}
    broken: dict[str, set[str]] = defaultdict(set)
    data = document.plain
    for _ in range(3):
        try:
            return model.model_validate(data, context=context), broken
        except ValidationError as error:
            found = error.errors(include_url=False)
        note(document, model, found)
        data = _set_aside(data, found, broken)
    return None, broken


def _currency(plain: dict[str, Any]) -> str | None:
    """Read the currency before the prices; None if it is none."""
    given = plain.get("currency", Frame.model_fields["currency"].default)
    return given if isinstance(given, str) and re.fullmatch("[A-Z]{3}", given) else None


def _set_aside(
    data: dict[str, Any], found: list[ErrorDetails], broken: dict[str, set[str]]
) -> dict[str, Any]:
    """Copy the data without their faulty parts."""
    kept = deepcopy(data)
    broken["dishes"].add(_NO_DISH)
    for error in found:
        at: Location = error["loc"]
        top, whole = str(at[0]), kept.get(str(at[0]))
        if top in SECTIONS and len(at) > 1 and isinstance(whole, dict):
            broken[top].add(str(at[1]))
            _without(whole, at[1:])
        elif top == "menu" and len(at) > 1 and isinstance(whole, list):
            whole[int(at[1])] = _mended_meal(whole[int(at[1])], at[2:])
        else:
            broken[top].add("*")
            kept.pop(top, None)
            kept |= {top: _STAND_IN[top]} if top in _STAND_IN else {}
    return kept


def _without(section: dict[str, Any], at: Location) -> None:
    """Take a faulty field out of a thing, or the thing if it has no fields."""
    name, thing = str(at[0]), section.get(str(at[0]))
    if len(at) > 1 and isinstance(thing, dict):
        thing.pop(str(at[1]), None)
    else:
        section.pop(name, None)


def _mended_meal(meal: Any, at: Location) -> dict[str, Any]:
    """Put faultless values in the places of the faulty ones of a meal."""
    if not isinstance(meal, dict) or not at:
        return dict(_MEAL)
    key = str(at[0])
    dishes = meal.get("dishes")
    if key == "dishes" and len(at) > 1 and isinstance(dishes, list):
        dishes[int(at[1])] = _NO_DISH
        return meal
    return {
        **{k: v for k, v in meal.items() if k != key},
        **({key: _MEAL[key]} if key in _MEAL else {}),
    }
