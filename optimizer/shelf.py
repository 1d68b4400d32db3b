"""What a scenario can name: the tables in ``data/`` as frozen records, each with its source.

The column names of a table are the field names of its record, and a cell is read by the type of
the field; an empty cell is None. The bounds of the columns are in ``columns.csv``.
"""

import csv
from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path
from types import MappingProxyType, NoneType
from typing import Any, Literal, TypeVar, get_args, get_origin, get_type_hints

from optimizer.model.things import (
    Cooker,
    Dish,
    Food,
    Fuel,
    Ingredient,
    Material,
    Pot,
    Rules,
    Source,
    Stove,
)

Record = TypeVar("Record")
Row = Mapping[str, str]
YES_NO = {"true": True, "false": False}
NOTHING = "none"  # in a cell of several words: there are none, which is not the same as not stated


@dataclass(frozen=True, slots=True)
class Notice:
    """A caution as it is printed, and the code of what sets it off."""

    code: str
    trigger: str
    text: str
    source_id: str
    source_place: str


@dataclass(frozen=True, slots=True)
class Measure:
    """What a level household cup of a food weighs, or one piece of it."""

    food: str
    measure: Literal["cup", "piece"]
    kg: float
    source_id: str
    source_place: str


@dataclass(frozen=True, slots=True)
class Column:
    """A column of a table: its unit and the bounds of what it may hold (None: no bound)."""

    table: str
    column: str
    unit: str  # "1": a bare number; "text" and "yes/no" have no bounds
    minimum: float | None
    maximum: float | None
    description: str


@dataclass(frozen=True, slots=True)
class Shelf:
    """All that is in ``data/tables``; every mapping is by name, in the order of its table."""

    fuels: Mapping[str, Fuel]
    stoves: Mapping[str, Stove]
    pots: Mapping[str, Pot]
    materials: Mapping[str, Material]
    cookers: Mapping[str, Cooker]
    foods: Mapping[str, Food]
    dishes: Mapping[str, Dish]
    rules: Rules
    measures: Mapping[str, Measure]  # by food
    cautions: Mapping[str, Notice]  # by code
    sources: Mapping[str, Source]  # by id
    columns: Mapping[tuple[str, str], Column]  # by table and column; a rule is a column of "rules"


@lru_cache(maxsize=1)
def data_folder() -> Traversable:
    """Folder of the tables and the shipped scenarios.

    Returns
    -------
    Traversable
        ``optimizer/_data`` of an installed wheel, or ``data`` of the checkout.

    Raises
    ------
    FileNotFoundError
        If there is neither: the installation is broken.
    """
    installed = files("optimizer") / "_data"
    checkout = Path(__file__).resolve().parent.parent / "data"
    for folder in (installed, checkout):
        if (folder / "tables").is_dir():
            return folder
    raise FileNotFoundError(f"the data of fuelthrift is missing: {installed} or {checkout}")


def read_rows(table: str) -> list[dict[str, str]]:
    """Rows of a table as text.

    Parameters
    ----------
    table : str
        Name of the table, without ``.csv``.

    Returns
    -------
    list of dict
        One dict a row, column name to cell.
    """
    text = (data_folder() / "tables" / f"{table}.csv").read_text(encoding="utf-8")
    return list(csv.DictReader(text.splitlines(), strict=True))


@lru_cache(maxsize=1)
def load() -> Shelf:
    """Everything on the shelf, read once.

    Returns
    -------
    Shelf
        The records, by name.

    Raises
    ------
    ValueError
        If a cell does not fit the type of its field, or a name stands twice.
    KeyError
        If a row names a thing that is not there.
    """
    materials = _by("name", _records(Material, read_rows("materials")))
    foods = _by("name", _records(Food, read_rows("foods")))
    return Shelf(
        fuels=_by("name", _records(Fuel, read_rows("fuels"))),
        stoves=_by("name", _records(Stove, read_rows("stoves"))),
        pots=_by("name", _records(Pot, read_rows("pots"))),
        materials=materials,
        cookers=_by("name", _records(Cooker, read_rows("cookers"), {"material": materials})),
        foods=foods,
        dishes=_dishes(foods),
        rules=_rules(read_rows("rules")),
        measures=_by("food", _records(Measure, read_rows("measures"))),
        cautions=_by("code", _records(Notice, read_rows("cautions"))),
        sources=_by("id", _records(Source, read_rows("sources"))),
        columns=MappingProxyType(
            {(c.table, c.column): c for c in _records(Column, read_rows("columns"))}
        ),
    )


def _dishes(foods: Mapping[str, Food]) -> Mapping[str, Dish]:
    recipes: dict[str, list[Ingredient]] = defaultdict(list)
    for row in read_rows("dish_ingredients"):
        recipes[row["dish"]].append(Ingredient(food=foods[row["food"]], kg=float(row["kg"])))
    rows = read_rows("dishes")
    known = {"ingredients": {row["name"]: tuple(recipes[row["name"]]) for row in rows}}
    named = [{**row, "ingredients": row["name"]} for row in rows]
    return _by("name", _records(Dish, named, known))


def _rules(rows: Iterable[Row]) -> Rules:
    values = [(row["name"], float(row["value"])) for row in rows]
    if len(dict(values)) < len(values):
        raise ValueError("two rows of the rules have the same name")
    return Rules(**dict(values))


def _by(key: str, records: Iterable[Record]) -> Mapping[str, Record]:
    listed = list(records)
    named = {str(getattr(record, key)): record for record in listed}
    if len(named) < len(listed):
        raise ValueError(f"two rows of {type(listed[0]).__name__} have the same {key}")
    return MappingProxyType(named)


def _records(
    kind: type[Record], rows: Iterable[Row], known: Mapping[str, Mapping[str, Any]] | None = None
) -> list[Record]:
    """Make a record of each row; `known` holds, by field, the things that a cell only names."""
    types = get_type_hints(kind)
    known = known or {}
    return [
        kind(
            **{
                field: known[field][cell] if cell and field in known else _cell(cell, types[field])
                for field, cell in row.items()
            }
        )
        for row in rows
    ]


def _cell(text: str, wanted: Any) -> Any:
    choices = get_args(wanted)
    if get_origin(wanted) is Literal:
        if text not in choices:
            raise ValueError(f"{text!r} is none of {choices}")
        return text
    if NoneType in choices:
        return _cell(text, choices[0]) if text else None
    if get_origin(wanted) is tuple:
        return () if text == NOTHING else tuple(text.split())
    return YES_NO[text] if wanted is bool else wanted(text)
