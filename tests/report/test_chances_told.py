"""How chances are told: never as certain, the least sure first, amounts as a cook weighs them."""

from dataclasses import replace

import pytest

from optimizer.model.plan import Chances, FuelChances, Measuring
from optimizer.planning.planner import plan
from optimizer.report.chances import (
    chance,
    chance_lines,
    chance_rows,
    chances_told,
    least_sure,
    measuring_words,
    run_out_rows,
    surety,
)
from optimizer.report.measures import measures
from optimizer.report.names import Names
from optimizer.report.result import json_text, to_json
from optimizer.report.sheet.page import sheet_html
from optimizer.report.sheet.readings import UNSURE
from optimizer.report.text import plan_text
from optimizer.scenario.reading import read
from optimizer.shelf import data_folder
from optimizer.studies.chances.study import with_chances

METRIC, US = measures("metric"), measures("us")
HOUSE = read(data_folder() / "scenarios" / "one_person_jar.yaml")
FUEL = HOUSE.stores[0].fuel.name
STOVE = HOUSE.stoves[0].stove.name


@pytest.fixture(name="plain", scope="module")
def _plain():
    return plan(HOUSE, gap=0.05)


@pytest.fixture(name="made", scope="module")
def _made(plain):
    """A plan with chances of round numbers."""
    steps = tuple(replace(step, chance_done=0.99, chance_hot=None) for step in plain.steps)
    first = replace(steps[0], chance_done=0.91, chance_hot=1.0)
    second = replace(steps[1], chance_done=0.97, chance_hot=0.90)
    fuel = FuelChances(FUEL, 5.0, 6.0, 8.0, (0.0, 0.034))
    found = Chances(
        2000, 7, 0.876, (5.0, 6.0, 8.0), (fuel,), (Measuring("weigh_fuel", STOVE, 3.0, 1.2),)
    )
    return replace(plain, steps=(first, second, *steps[2:]), chances=found)


@pytest.mark.parametrize(
    ("share", "told"),
    [
        (0.0, "under 1 in 100"),
        (0.004, "under 1 in 100"),
        (0.034, "3 in 100"),
        (0.5, "50 in 100"),
        (0.8999, "89 in 100"),
        (0.9, "90 in 100"),
        (0.985, "98 in 100"),
        (0.993, "99 in 100 or more"),
        (1.0, "over 99 in 100"),
    ],
)
def test_a_chance_is_rounded_down_and_never_certain(share, told):
    assert chance(share) == told


def test_a_dish_is_as_sure_as_the_less_sure_of_done_and_hot(made):
    assert [surety(step) for step in made.steps[:2]] == [0.91, 0.90]
    assert surety(replace(made.steps[0], chance_done=None, chance_hot=None)) == 1


def test_the_least_sure_comes_first_and_the_sure_are_not_named(made):
    assert least_sure(made) == [made.steps[1], made.steps[0]]


def test_what_is_said(made):
    told = chances_told(made, HOUSE, METRIC)
    assert told[0] == "Every dish done and hot when it is served: 87 in 100."
    assert told[1].startswith(f"Least sure: {made.steps[1].item} on ")
    assert "90 in 100" in told[1]
    assert "in four tries of five. The whole stock is burned before the end: 3 in 100." in told[2]
    assert told[2].startswith("Alcohol: ")
    assert told[3].startswith("To know the fuel better: weigh the alcohol that one boil")
    assert told[3].endswith("What it may take then lies within about 1.2 MJ, not 3 MJ.")


def test_american_measures(made):
    assert " oz to " in chances_told(made, HOUSE, US)[2]


def test_where_no_measurement_helps_that_is_said(made):
    none = (Measuring("test_box", "jar_1l", 3.0, 2.9),)
    found = replace(made, chances=replace(made.chances, measuring=none))
    assert chances_told(found, HOUSE, METRIC)[-1].startswith("No single thing measured")


def test_a_can_is_weighed_and_a_box_is_tested():
    demo = read(data_folder() / "scenarios" / "outage_weekend.yaml")
    names = Names(demo)
    words = [
        measuring_words(Measuring(kind, thing, 1.0, 1.0), names)
        for kind, thing in (
            ("weigh_fuel", "gas_burner"),
            ("weigh_fuel", "stick_stove"),
            ("time_boil", "stick_stove"),
            ("test_box", "packed_box"),
        )
    ]
    assert words == [
        "weigh the can before and after a boil on the gas burner",
        "weigh the sticks that one boil on the stick stove takes",
        "time a boil on the stick stove",
        "test the packed box with hot water and a thermometer",
    ]


def test_the_text_has_them_and_fits_a_terminal(made, plain):
    lines = plan_text(made, HOUSE).splitlines()
    assert "Chances, from 2,000 tries of this plan" in lines
    assert max(map(len, lines)) <= 80
    assert chance_lines(plain, HOUSE, METRIC) == []
    assert chances_told(plain, HOUSE, METRIC) == []


def test_a_row_a_dish(made, plain):
    rows = chance_rows(made, HOUSE)
    assert len(rows) == len(made.steps)
    assert {row["hot"] for row in rows} == {"need not be", "90 in 100", "over 99 in 100"}
    assert chance_rows(plain, HOUSE) == []


def test_days_on_which_nothing_runs_out_are_left_out(made):
    assert run_out_rows(made, HOUSE) == [{"by the end of": "day 2", "alcohol": "3 in 100"}]
    never = replace(made.chances.fuels[0], runs_out=(0.0, 0.0))
    assert run_out_rows(replace(made, chances=replace(made.chances, fuels=(never,))), HOUSE) == []
    endless = replace(made.chances.fuels[0], runs_out=None)
    assert run_out_rows(replace(made, chances=replace(made.chances, fuels=(endless,))), HOUSE) == []


def test_the_sheet_names_the_least_sure_where_it_is_served(made, plain):
    told = sheet_html(made, HOUSE)
    assert UNSURE in told
    assert f"<b>{made.steps[0].item}" in told
    assert UNSURE not in sheet_html(plain, HOUSE)


def test_the_result_has_every_key(plain):
    made = with_chances(plain, HOUSE, count=100)
    told = to_json(made)
    assert set(told["chances"]) == {"draws", "seed", "all_well", "fuel_mj", "fuels", "measuring"}
    assert told["chances"]["draws"] == 100
    assert [step["chance_done"] for step in told["steps"]] == [s.chance_done for s in made.steps]
    assert told["fuels"][0]["p10_mj"] < told["fuels"][0]["p90_mj"]
    assert len(told["chances"]["fuels"][0]["runs_out"]) == HOUSE.days
    assert json_text(told)
    assert to_json(plain)["chances"] is None
