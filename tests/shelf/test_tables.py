"""Every cell of every table: typed, inside its bounds, in its unit, with its source."""

import csv
import re
from dataclasses import MISSING, fields
from pathlib import Path
from types import NoneType
from typing import get_args, get_type_hints

import pytest

from optimizer import physics, shelf, trials
from optimizer.model.things import (
    Cooker,
    Dish,
    Food,
    Fuel,
    Material,
    Pot,
    Rules,
    Source,
    Stove,
)

RECORDS = {
    "fuels": Fuel,
    "stoves": Stove,
    "pots": Pot,
    "materials": Material,
    "cookers": Cooker,
    "foods": Food,
    "dishes": Dish,
    "measures": shelf.Measure,
    "cautions": shelf.Notice,
    "sources": Source,
    "columns": shelf.Column,
}
TABLES = [*RECORDS, "dish_ingredients", "rules"]
SOURCED = [table for table in TABLES if table not in {"sources", "columns"}]
NAMED = ["fuels", "stoves", "pots", "materials", "cookers", "foods", "dishes"]
WORDS = {"text", "yes/no", "per row"}  # units of what is not a number, or has its unit beside it
UNITS = {  # suffix of a name: unit; the longest suffix holds
    "j_kgk": "J/(kg K)",
    "w_m2k": "W/(m2 K)",
    "m2k_w": "m2 K/W",
    "w_m2": "W/m2",
    "kg_m3": "kg/m3",
    "w_mk": "W/(m K)",
    "j_kg": "J/kg",
    "w_k": "W/K",
    "j_k": "J/K",
    "min": "min",
    "kg": "kg",
    "m3": "m3",
    "pa": "Pa",
    "c": "degC",
    "h": "h",
    "j": "J",
    "k": "K",
    "m": "m",
    "w": "W",
}
BARE = {"1", "s/m", *WORDS}  # what a name without a suffix may be in


def header(table):
    text = (shelf.data_folder() / "tables" / f"{table}.csv").read_text(encoding="utf-8")
    return next(csv.reader(text.splitlines()))


def cells():
    for table in TABLES:
        for row in shelf.read_rows(table):
            for column, cell in row.items():
                yield table, row, column, cell


def row_id(row):
    return next(iter(row.values()))


def unit_by_name(name):
    for suffix, unit in UNITS.items():
        if name == suffix or name.endswith(f"_{suffix}"):
            return unit
    return None


@pytest.fixture(scope="module")
def columns():
    return shelf.load().columns


@pytest.mark.parametrize(("table", "record"), RECORDS.items())
def test_columns_of_a_table_are_the_fields_of_its_record(table, record):
    named = [field for field in fields(record) if field.name != "ingredients"]
    needed = {field.name for field in named if field.default is MISSING}
    assert needed <= set(header(table)) <= {field.name for field in named}


def test_rules_table_has_one_row_for_every_field_of_the_rules():
    assert [row["name"] for row in shelf.read_rows("rules")] == [f.name for f in fields(Rules)]


@pytest.mark.parametrize("table", TABLES)
def test_every_row_has_as_many_cells_as_the_header_and_no_stray_blanks(table):
    text = (shelf.data_folder() / "tables" / f"{table}.csv").read_text(encoding="utf-8")
    rows = list(csv.reader(text.splitlines(), strict=True))
    assert len(rows) > 1
    assert {len(row) for row in rows} == {len(rows[0])}
    assert [cell for row in rows for cell in row if cell != cell.strip()] == []


def test_every_column_is_described_and_nothing_else_is(columns):
    there = {(table, column) for table in TABLES for column in header(table)}
    there |= {("rules", field.name) for field in fields(Rules)}
    assert set(columns) == there
    assert [key for key, column in columns.items() if not column.description] == []


def test_units_agree_with_the_suffixes_of_names(columns):
    wrong = [
        (key, column.unit)
        for key, column in columns.items()
        if key[0] != "columns"
        and column.unit not in ({unit_by_name(key[1])} if unit_by_name(key[1]) else BARE)
    ]
    assert wrong == []


def test_units_beside_the_rules_are_those_of_their_columns(columns):
    for row in shelf.read_rows("rules"):
        assert row["unit"] == columns["rules", row["name"]].unit, row["name"]


def test_a_number_has_both_bounds_and_a_word_has_none(columns):
    for key, column in columns.items():
        bounds = (column.minimum, column.maximum)
        if column.unit in WORDS:
            assert bounds == (None, None), key
        else:
            assert None not in bounds, key
            assert column.minimum < column.maximum, key


def test_every_number_is_inside_its_bounds(columns):
    outside = []
    for table, row, column, cell in cells():
        key = (table, row["name"] if (table, column) == ("rules", "value") else column)
        bound = columns[key]
        if bound.unit not in WORDS and cell and not bound.minimum <= float(cell) <= bound.maximum:
            outside.append((table, row_id(row), column, cell))
    assert outside == []


def test_only_an_optional_field_may_be_empty():
    hints = {table: get_type_hints(record) for table, record in RECORDS.items()}
    empty = [
        (table, row_id(row), column)
        for table, row, column, cell in cells()
        if not cell and NoneType not in get_args(hints.get(table, {}).get(column))
    ]
    assert empty == []


def test_yes_no_columns_say_true_or_false(columns):
    told = {cell for t, _, c, cell in cells() if columns[t, c].unit == "yes/no"}
    assert told == {"true", "false"}


@pytest.mark.parametrize("table", SOURCED)
def test_every_row_says_where_its_numbers_stand(table):
    known = {row["id"] for row in shelf.read_rows("sources")}
    for row in shelf.read_rows(table):
        assert row["source_id"] in known, row
        assert row["source_place"], row


def sources_of_formulas():
    """Module and source of every reference in the docstrings of physics and trials."""
    for package in (physics, trials):
        for path in sorted(Path(package.__file__).parent.glob("*.py")):
            text = path.read_text(encoding="utf-8")
            for source_id in re.findall(r"^ *\.\. \[\d+\] ([^,\n]*)", text, re.MULTILINE):
                yield f"{package.__name__}.{path.stem}", source_id


def test_sources_of_formulas_are_known():
    known = {row["id"] for row in shelf.read_rows("sources")}
    found = list(sources_of_formulas())
    assert ("optimizer.physics.food", "CHOI_OKOS_1986") in found
    assert ("optimizer.trials.stove", "WBT_EXAMPLE_2015") in found
    assert [(module, source_id) for module, source_id in found if source_id not in known] == []


def test_sources_named_in_passing_are_known_and_every_source_is_used():
    known = {row["id"] for row in shelf.read_rows("sources")}
    used, named = {source_id for _, source_id in sources_of_formulas()}, set()
    for table in SOURCED:
        for row in shelf.read_rows(table):
            used.add(row["source_id"])
            named |= set(re.findall(r"\b[A-Z][A-Z0-9]*(?:_[A-Z0-9]+)+\b", row["source_place"]))
    assert named <= known
    assert known <= used | named


def test_confidence_is_one_of_the_five():
    told = {row["confidence"] for row in shelf.read_rows("sources")}
    assert told <= {"S1", "S2", "D", "M", "judgement"}


@pytest.mark.parametrize("table", ["fuels", "stoves", "materials", "cookers", "dishes"])
def test_a_judgement_carries_a_spread(table):
    spreads = [column for column in header(table) if column.endswith("spread")]
    assert spreads
    # Minutes are a rule, not a guess.
    water = {"drinking_water", "washing_water", "bottle_water", "hot_bottles"}
    for row in shelf.read_rows(table):
        if row["source_id"] in {"judgement", "memory"} and row["name"] not in water:
            assert all(float(row[spread]) > 0 for spread in spreads), row["name"]


@pytest.mark.parametrize("table", NAMED)
def test_names_are_lower_snake_and_once_only(table):
    names = [row["name"] for row in shelf.read_rows(table)]
    assert [n for n in names if not re.fullmatch(r"[a-z][a-z0-9]*(_[a-z0-9]+)*", n)] == []
    assert len(set(names)) == len(names)


@pytest.mark.parametrize("table", NAMED)
def test_labels_are_words_of_the_trade_not_names_of_products(table):
    # Only the unit litre is written with a capital; a proper name would be.
    for row in shelf.read_rows(table):
        assert not re.search(r"[A-Z]", re.sub(r"\b[\d.]+ L\b", "", row["label"])), row["label"]


def test_no_cell_has_an_address_or_a_trade_mark():
    found = [
        (table, row_id(row))
        for table, row, _, cell in cells()
        if re.search(r"https?:|www\.|\(R\)|\(TM\)|®|™", cell)
    ]
    assert found == []


@pytest.mark.parametrize(
    ("table", "count"),
    [
        ("fuels", 8),
        ("stoves", 8),
        ("pots", 6),
        ("materials", 8),
        ("cookers", 6),
        ("foods", 18),
        ("dishes", 14),
    ],
)
def test_there_is_enough_on_the_shelf(table, count):
    assert len(shelf.read_rows(table)) >= count


def test_what_is_measured_out_is_on_the_shelf_once():
    foods = [row["food"] for row in shelf.read_rows("measures")]
    assert len(set(foods)) == len(foods)
    assert set(foods) <= set(shelf.load().foods)


def test_no_ingredient_is_listed_twice_and_no_dish_is_missing():
    listed = [(row["dish"], row["food"]) for row in shelf.read_rows("dish_ingredients")]
    assert len(set(listed)) == len(listed)
    assert {dish for dish, _ in listed} == {row["name"] for row in shelf.read_rows("dishes")}
