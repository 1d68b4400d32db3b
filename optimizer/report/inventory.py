"""The shelf on view: what a scenario can name, each thing with its numbers, spread and source."""

import re
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from difflib import get_close_matches
from typing import Any

from optimizer import shelf
from optimizer.model.things import Dish, Material
from optimizer.report.layout import GAP, wrap
from optimizer.report.measures import figures

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
SUFFIX = re.compile(r"_(j_kgk|w_m2k|kg_m3|w_mk|j_kg|w_k|j_k|min|kg|m3|pa|[cjkmwh])$")
PLAIN = {"name", "label", "source_id", "source_place"}
READABLE = {"J/kg": (1e-6, "MJ/kg"), "J": (1e-6, "MJ"), "m3": (1e3, "L"), "W": (1e-3, "kW")}
READABLE |= {"m": (1e3, "mm"), "Pa": (1e-3, "kPa")}


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
            number = _value(kind, KEY_NUMBER[kind], getattr(thing, KEY_NUMBER[kind]))
            lines += wrap(f"{name}: {thing.label}{f', {number}' if number else ''}", GAP, 2 * GAP)
        lines += [""]
    return "\n".join([*lines, "One of them in full: fuelthrift check --shelf WORD"])


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
    """Find names that look like a word nothing has."""
    names = [name for kind in KINDS for name in getattr(shelf.load(), kind)]
    return get_close_matches(word, names, 3)


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
    source = shelf.load().sources[thing.source_id]
    seen = {"S1": "seen in print", "S2": "seen in a copy", "D": "computed", "M": "from memory"}
    yield from wrap(
        f"source: {source.citation} ({seen.get(source.confidence, source.confidence)}); "
        f"{thing.source_place}",
        GAP,
        3 * GAP,
    )


def _told(kind: str, field: str, value: Any) -> str:
    """Tell one field: its number and what it is."""
    if field == "ingredients":
        parts = ", ".join(f"{i.food.label} {figures(1000 * i.kg)} g" for i in value)
        return f"for one grown portion: {parts}"
    column = shelf.load().columns.get((kind, field))
    number = _value(kind, field, value)
    if number is None or column is None:
        return ""
    return f"{SUFFIX.sub('', field)}: {number} - {column.description}"


def _value(kind: str, field: str, value: Any) -> str | None:
    """Write a value with a unit that a person reads; None where there is none."""
    if value is None or isinstance(value, (Dish, Material)) or is_dataclass(value):
        return getattr(value, "label", None)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str):
        return value
    column = shelf.load().columns.get((kind, field))
    unit = column.unit if column else ""
    factor, readable = READABLE.get(unit, (1.0, unit))
    return f"{figures(factor * value, FIGURES)} {'' if unit == '1' else readable}".strip()
