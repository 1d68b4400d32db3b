"""The shelf on view: what a scenario can name, each thing with its numbers, spread and source."""

import json
from collections.abc import Iterator
from dataclasses import asdict, fields, is_dataclass
from difflib import get_close_matches
from typing import Any

from optimizer import shelf
from optimizer.model.things import Dish
from optimizer.report.layout import GAP, wrap
from optimizer.report.measures import figures
from optimizer.scenario.fields import key_of

KINDS = ("fuels", "stoves", "pots", "materials", "cookers", "foods", "dishes")
KEY_NUMBER = {
    "fuels": "lhv_j_kg",
    "stoves": "power_w",
    "pots": "volume_m3",
    "materials": "conductivity_w_mk",
    "cookers": "thickness_m",
    "foods": "half_size_m",
    "dishes": "boil_min",
}
TITLES = {"materials": "packings", "foods": "foods (half the piece)", "dishes": "dishes"}
FIGURES = 3
PLAIN = {"name", "label", "source_id", "source_place"}
SEEN = {
    "S1": "seen in print",
    "S2": "seen in a copy",
    "D": "computed",
    "M": "from memory",
    "judgement": "judgement",
}
READABLE = {"J/kg": (1e-6, "MJ/kg"), "J": (1e-6, "MJ"), "m3": (1e3, "L"), "W": (1e-3, "kW")}
READABLE |= {"m": (1e3, "mm"), "Pa": (1e-3, "kPa"), "kg/m3": (1.0, "kg/m³")}


def list_text() -> str:
    """Say what is on the shelf, by kind, each with one number that tells most.

    Returns
    -------
    str
        Lines of at most 80 columns.
    """
    lines: list[str] = []
    for kind in KINDS:
        lines += [TITLES.get(kind, kind)]
        for name, thing in getattr(shelf.load(), kind).items():
            number = _key_number(kind, thing)
            lines += wrap(f"{name}: {thing.label}{f', {number}' if number else ''}", GAP, 2 * GAP)
        lines += [""]
    return "\n".join([*lines, "One of them in full: fuelthrift check --shelf WORD"])


def _key_number(kind: str, thing: Any) -> str | None:
    """Give the number that tells most of a thing; None where it is nothing."""
    jar = kind == "cookers" and thing.kind == "vacuum"
    field = "volume_m3" if jar else KEY_NUMBER[kind]
    number = getattr(thing, field)
    nothing = not number or (kind == "dishes" and number < 1)
    return None if nothing else _value(kind, field, number)


def things_with(word: str) -> list[tuple[str, Any]]:
    """Find what has a word in its name or label.

    Parameters
    ----------
    word
        Any part of it, in small or capital letters.

    Returns
    -------
    list of (kind, thing)
        In the order of the shelf.
    """
    sought = word.casefold()
    return [
        (kind, thing)
        for kind in KINDS
        for thing in getattr(shelf.load(), kind).values()
        if sought in thing.name.casefold() or sought in thing.label.casefold()
    ]


def near(word: str) -> list[str]:
    """Find names of things whose name or label looks like a word that nothing has."""
    known: dict[str, str] = {}
    for kind in KINDS:
        for name, thing in getattr(shelf.load(), kind).items():
            known |= {thing.label.casefold(): name, name.casefold(): name}
    close = get_close_matches(word.casefold(), known, 3)
    return list(dict.fromkeys(known[each] for each in close))


def things_text(found: list[tuple[str, Any]]) -> str:
    """Say all there is to say about some things.

    Parameters
    ----------
    found
        Kinds and things.

    Returns
    -------
    str
        Lines of at most 80 columns.
    """
    return "\n\n".join("\n".join(_thing_lines(kind, thing)) for kind, thing in found)


def _thing_lines(kind: str, thing: Any) -> Iterator[str]:
    yield from wrap(f"{thing.name}: {thing.label} ({TITLES.get(kind, kind).split(' ')[0]})")
    for field in fields(thing):
        if field.name in PLAIN:
            continue
        told = _told(kind, field.name, getattr(thing, field.name))
        if told:
            yield from wrap(told, GAP, 3 * GAP)
    for rule in _dish_rules(thing) if kind == "dishes" else ():
        yield from wrap(f"rule: {rule}", GAP, 3 * GAP)
    source = shelf.load().sources[thing.source_id]
    yield from wrap(
        f"source: {source.citation} ({SEEN[source.confidence]}); {thing.source_place}",
        GAP,
        3 * GAP,
    )


def fields_told(kind: str, thing: Any) -> dict[str, tuple[str, str]]:
    """Tell the fields of a thing that a scenario can change, by their key in the file.

    Parameters
    ----------
    kind
        Table of the thing, such as ``pots``.
    thing
        A record of the shelf.

    Returns
    -------
    dict
        Key to its value, with a unit, and what it is.
    """
    columns = shelf.load().columns
    named = [f.name for f in fields(thing) if f.name not in PLAIN and (kind, f.name) in columns]
    return {
        key_of(name): (
            _value(kind, name, getattr(thing, name)) or "not said",
            columns[kind, name].description,
        )
        for name in named
    }


def meanings(kind: str) -> dict[str, str]:
    """Say what each key of a thing in the file means.

    Parameters
    ----------
    kind
        Table of the thing, such as ``pots``.
    """
    return {
        key_of(name): column.description
        for (table, name), column in shelf.load().columns.items()
        if table == kind and name not in PLAIN
    }


def _told(kind: str, field: str, value: Any) -> str:
    """Tell one field: its number and what it is."""
    if field == "ingredients":
        parts = ", ".join(f"{i.food.label} {figures(1000 * i.kg)} g" for i in value)
        return f"for one grown portion: {parts}"
    column = shelf.load().columns.get((kind, field))
    number = _value(kind, field, value)
    if number is None or column is None:
        return ""
    plain = f"{key_of(field)}: {number}"
    return plain if value is False else f"{plain} - {column.description}"


def _dish_rules(dish: Dish) -> Iterator[str]:
    """Tell the rules of safety that a dish comes under, with their numbers."""
    rules = shelf.load().rules
    for food in (part.food for part in dish.ingredients):
        if food.phaseolus:
            yield (
                f"{food.label}: soak at least {rules.bean_soak_min / 60:g} h, pour that water off, "
                f"and keep at a full boil for at least {rules.bean_boil_min:g} min, or at full "
                f"pressure for at least {rules.bean_pressure_min:g} min, before it goes into any "
                f"cooker; where water boils below {rules.bean_boil_c:g} degC, only under pressure"
            )
        if food.endpoint_c is not None:
            yield f"{food.label}: its centre has to reach {food.endpoint_c:g} degC"
    if dish.foams:
        yield "it foams and could block the vent: never in a pressure pot"
    if dish.disinfects:
        yield (
            f"a rolling boil of {rules.water_boil_min:g} min, above {rules.water_high_m:g} m of "
            f"{rules.water_boil_high_min:g} min; it takes out no chemicals"
        )
    if dish.serve == "hot":
        yield f"eaten at {rules.hot_c:g} degC or hotter"


def json_text(found: list[tuple[str, Any]]) -> str:
    """Write things as JSON: numbers in SI units and degC, as the ends of their names say.

    Parameters
    ----------
    found
        Kinds and things.

    Returns
    -------
    str
        JSON without NaN, ending in a new line.
    """
    sources = shelf.load().sources
    things = [
        {"table": kind, **asdict(thing), "source": asdict(sources[thing.source_id])}
        for kind, thing in found
    ]
    told = {"version": 1, "things": things}
    return json.dumps(told, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def _value(kind: str, field: str, value: Any) -> str | None:
    """Write a value with a unit that a person reads; None where there is none."""
    if value is None or is_dataclass(value):
        return getattr(value, "label", None)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str | tuple):
        return value if isinstance(value, str) else ", ".join(value) or "nothing of the kind"
    column = shelf.load().columns.get((kind, field))
    unit = column.unit if column else ""
    factor, readable = READABLE.get(unit, (1.0, unit))
    return f"{figures(factor * value, FIGURES)} {'' if unit == '1' else readable}".strip()
