"""The ways of a dish as text: numbers that add up, nothing wider than a terminal."""

from dataclasses import fields, replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from optimizer.model.household import Scenario
from optimizer.report.layout import WIDTH
from optimizer.report.measures import Units
from optimizer.report.ways import (
    MARKS,
    PARTS,
    comparison_text,
    heat_bar,
    heat_shares,
    to_json,
    whole_parts,
)
from optimizer.studies.comparison import Comparison, DishWay, HeatFlow

HEAT = HeatFlow(0.4e6, 0.8e6, 0.1e6, 0.0, 0.5e6, 4.2e6, 1.0e6)
WAY = DishWay(
    stove="stick_stove", fuel="sticks", pot="pot_6l", cooker="packed_box", finish="packed",
    pressure=False, fuel_mj=7.0, fuel_kg=0.49, cost=0.3, tending_minutes=55.0, on=970, off=1020,
    ready=1020, done=1075, serve=1110, serve_c=68.4, serve_c_low=61.9, heat=HEAT,
)  # fmt: skip


def text_of(scenario: Scenario, *ways: DishWay, item: int = 2, units: Units = "metric") -> str:
    return comparison_text(Comparison(scenario.items[item], ways, ()), scenario, units)


def test_a_way_is_told_in_full(scenario: Scenario) -> None:
    lines = text_of(scenario, WAY).splitlines()
    assert lines[0] == "kidney bean stew, supper of Friday 15 January at 18:30, 5 portions"
    assert lines[4:8] == [
        "1. stick stove, large pot, then the packed box",
        "   7 MJ (490 g of sticks), 0.30 EUR, 55 min tended",
        "   on 16:10, off 17:00, done 17:55; served at about 68 °C, perhaps only 61",
        "   " + "#" * 13 + "=" * 6 + "-" * 46 + "." * 11,
    ]
    # 0.4, 0.8, 0.1, 0.5, 4.2 and 1.0 of 7.0: 5.7, 11.4, 1.4, 7.1, 60.0 and 14.3 per cent
    heat = " ".join(" ".join(lines[8:10]).split())
    assert heat == (
        "heat: food 6 %, water 12 %, pot 1 %, lost by the pot 7 %, past the pot 60 %, start-up 14 %"
    )


@pytest.mark.parametrize("units", ["metric", "us"])
def test_every_line_fits(scenario: Scenario, units: Units) -> None:
    text = text_of(scenario, WAY, replace(WAY, cooker=None, serve_c=90.0), units=units)
    assert max(map(len, text.splitlines())) <= WIDTH
    assert ("°F" in text) == (units == "us")


def test_electricity_is_told_as_it_is_sold(scenario: Scenario) -> None:
    plate = replace(WAY, stove="electric_plate", fuel="electricity", fuel_kg=None, fuel_mj=0.9)
    assert "0.25 kWh of stored electricity, 0.30 EUR" in text_of(scenario, plate)


def test_sunshine_has_no_bar(scenario: Scenario) -> None:
    sun = replace(scenario.stores[2], fuel=replace(scenario.stores[2].fuel, kind="sun"))
    sunny = replace(scenario, stores=(*scenario.stores[:2], sun))
    text = text_of(sunny, replace(WAY, fuel="electricity", fuel_kg=None, fuel_mj=0.0, cost=0.0))
    assert "no fuel, 0.00 EUR" in text
    assert "##" not in text
    assert "the longer" not in text.casefold()


def test_the_evening_before_is_told(scenario: Scenario) -> None:
    early = replace(WAY, on=1200, off=1230, ready=1230, done=1240, serve=1890)
    assert "on 20:00 the day before, off 20:30" in text_of(scenario, early, item=4)
    assert "day before" not in text_of(scenario, WAY)


def test_what_cools_is_told_one_temperature(scenario: Scenario) -> None:
    water = replace(WAY, cooker=None, finish="flame", serve_c=27.0, serve_c_low=18.0)
    text = text_of(scenario, water, item=1)
    assert "served at about 27 °C" in text
    assert "perhaps" not in text


def test_no_way(scenario: Scenario) -> None:
    assert text_of(scenario).splitlines()[1:] == ["", "No way works."]


@given(
    st.lists(st.floats(0, 1e9), min_size=1, max_size=9).filter(lambda parts: sum(parts) > 1e-3),
    st.integers(1, 200),
)
def test_rounded_parts_add_up_and_are_near(parts: list[float], whole: int) -> None:
    named = {str(number): part for number, part in enumerate(parts)}
    rounded = whole_parts(named, whole)
    assert sum(rounded.values()) == whole
    assert list(rounded) == list(named)
    for name, part in named.items():
        assert abs(rounded[name] - whole * part / sum(parts)) < 1 + 1e-9


def test_the_largest_remainder_is_rounded_up() -> None:
    assert whole_parts({"a": 1.0, "b": 1.0, "c": 1.4}, 10) == {"a": 3, "b": 3, "c": 4}
    assert whole_parts({"a": 0.0, "b": 0.0}, 100) == {"a": 0, "b": 0}


def test_every_part_has_a_name_and_a_mark() -> None:
    parts = [part.name for part in fields(HeatFlow)]
    assert list(PARTS) == parts
    assert sorted(part for those in MARKS.values() for part in those) == sorted(parts)


def test_shares_come_to_a_hundred() -> None:
    thirds = HeatFlow(1.0, 1.0, 1.0, 0.0, 0.0, 0.0, 0.0)
    assert sum(heat_shares(thirds).values()) == 100
    assert sorted(heat_shares(thirds).values()) == [0, 0, 0, 0, 33, 33, 34]


def test_the_bar_is_as_long_as_the_fuel_is_much() -> None:
    full = heat_bar(HEAT, HEAT.total_j)
    assert len(full) <= WIDTH - 3
    assert len(heat_bar(HEAT, 2 * HEAT.total_j)) == round(len(full) / 2)
    assert len(heat_bar(HEAT, 1e4 * HEAT.total_j)) == 1
    assert [mark for mark in MARKS if mark in full] == list(dict.fromkeys(full))


def test_parts_in_json_add_up(scenario: Scenario) -> None:
    told = to_json(Comparison(scenario.items[2], (WAY,), ()), scenario)
    (way,) = told["ways"]
    assert sum(way["heat"].values()) == pytest.approx(way["fuel_mj"], rel=1e-12)
    assert (told["dish"], told["day"], told["serve"]) == ("bean_stew", 1, 1110)
