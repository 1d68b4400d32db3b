"""What is varied, as it is typed, and everything that can be wrong with it."""

import pytest

from optimizer.studies.sweep.axes import MOST_VALUES, Axis, Wanted


def values(text: str) -> tuple[str, ...]:
    wanted = Wanted()
    (axis,) = wanted.axes((text,))
    assert not wanted.problems
    return axis.values


@pytest.mark.parametrize(
    ("text", "read"),
    [
        ("people=2..4", ("2", "3", "4")),
        ("people = 2", ("2",)),
        ("sticks=4,8,12 kg", ("4 kg", "8 kg", "12 kg")),
        ("sticks=4,8,12kg", ("4 kg", "8 kg", "12 kg")),
        ("sticks=500 g, 2 kg", ("500 g", "2 kg")),
        ("sticks=4..12:4 kg", ("4 kg", "8 kg", "12 kg")),
        ("sticks=1..2:0.5kg", ("1 kg", "1.5 kg", "2 kg")),
        ("sticks=0,2..4 kg", ("0 kg", "2 kg", "3 kg", "4 kg")),
        ("outdoors=-5..5:5degC", ("-5 degC", "0 degC", "5 degC")),
        ("outdoors=-5,5,15degC", ("-5 degC", "5 degC", "15 degC")),
        ("propane=1 x 465 g, 2 x 465 g", ("1 x 465 g", "2 x 465 g")),
        ("propane=1,2 x 465 g", ("1 x 465 g", "2 x 465 g")),
        ("sticks.price=0.3,0.6 EUR/kg", ("0.3 EUR/kg", "0.6 EUR/kg")),
        ("rain=yes,no", ("yes", "no")),
    ],
)
def test_values_are_read_as_they_would_stand_in_a_file(text, read):
    assert values(text) == read


@pytest.mark.parametrize(
    ("text", "code", "says"),
    [
        ("people", "syntax", "no name and values"),
        ("=3", "syntax", "no name and values"),
        ("people=", "syntax", "no name and values"),
        ("people=1,,2", "syntax", "empty place"),
        ("people=5..2", "range", "does not go up"),
        ("people=1..4:2", "range", "even steps"),
        ("people=1..4:0", "range", "even steps"),
        ("people=1..9999", "too_many", f"at most {MOST_VALUES}"),
        ("people=2,3,2", "repeated", "2 stands there twice"),
    ],
)
def test_each_fault_is_told_with_its_kind(text, code, says):
    wanted = Wanted()
    assert wanted.axes((text,)) == ()
    assert [problem.code for problem in wanted.problems] == [code]
    assert says in wanted.problems[0].message
    assert wanted.problems[0].key.startswith("--vary")


def test_nothing_varied_and_one_thing_twice_are_faults():
    none, twice = Wanted(), Wanted()
    assert none.axes(()) == ()
    assert none.problems[0].code == "missing"
    assert twice.axes(("people=2", "people=3")) == (Axis("people", ("2",)),)
    assert twice.problems[0].code == "repeated"


@pytest.mark.parametrize(
    ("axis", "column", "cells"),
    [
        (Axis("people", ("2", "3")), "people", [2, 3]),
        (Axis("sticks", ("4 kg", "8.5 kg")), "sticks_kg", [4.0, 8.5]),
        (Axis("outdoors", ("-5 degC", "5 degC")), "outdoors_c", [-5, 5]),
        (Axis("sticks.price", ("0.3 EUR/kg",)), "sticks_price_eur_per_kg", [0.3]),
        (Axis("sticks", ("500 g", "2 kg")), "sticks", ["500 g", "2 kg"]),
        (Axis("propane", ("1 x 465 g",)), "propane", ["1 x 465 g"]),
        (Axis("rain", ("yes", "no")), "rain", ["yes", "no"]),
    ],
)
def test_a_column_holds_numbers_where_all_values_have_one_unit(axis, column, cells):
    assert axis.column == column
    assert [axis.cell(value) for value in axis.values] == cells
