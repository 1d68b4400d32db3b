"""Shares and rota in words: rows that come to what stands below them."""

import re
from dataclasses import replace

import pytest

from optimizer.model.eaters import Brought, Group, Helping, House
from optimizer.model.sharing import FuelPart, Share, Turn
from optimizer.report.households import (
    cooks_of,
    grain_of,
    rota_lines,
    share_blocks,
    share_lines,
    shared_out,
)
from optimizer.report.measures import measures
from optimizer.report.result import to_json
from optimizer.report.sheet import sheet_html
from optimizer.report.text import plan_text
from optimizer.studies.households import shares

METRIC = measures("metric")


def part(used, brought=0.0, back=0.0, owed=0.0, unit="kg"):
    return FuelPart("sticks", unit, used, brought, back, owed, used * 0.3)


@pytest.fixture
def shared(plan, scenario):
    """A plan of three households: 1 kg of sticks in thirds, one of them brought by the first."""
    third = 1 / 3
    parts = [part(third, 2.0, 1 + third, third), part(third, owed=-third / 2), part(third)]
    parts[2] = part(third, owed=-third / 2)
    made = tuple(
        Share(name, 1.0, 0.0, 2.0, (each,), third, each.owed)
        for name, each in zip(("mill", "weir", "yard"), parts, strict=True)
    )
    turns = (
        Turn("mill", 1, 366, 420, 54.0, ("breakfast",)),
        Turn("weir", 1, 972, 1081, 100.0, ("supper",)),
        Turn("yard", 2, 1806, 1860, 54.0, ("breakfast",)),
    )
    return replace(plan, shares=made, rota=turns, cost=1.0), scenario


def told(cell):
    """Read a number from a cell, below 0 where it is owed."""
    found = re.search(r"\d+(?:\.\d+)?", cell)
    sign = -1 if "owes" in cell or "pays" in cell else 1
    return sign * float(found[0]) if found else 0.0


def test_rows_come_to_the_total_below_them(shared):
    for block in share_blocks(*shared, METRIC):
        for column in range(1, len(block.heads) + 1):
            *rows, total = [told(row[column]) for row in block.rows]
            assert round(sum(rows), 6) == total, block.title


def test_a_kilogram_in_thirds_by_hand(shared):
    fuel, money = share_blocks(*shared, METRIC)
    assert fuel.heads == ("used", "brought", "gets back", "between them")
    assert [row[1] for row in fuel.rows] == ["0.34 kg", "0.33 kg", "0.33 kg", "1.00 kg"]
    assert [row[4] for row in fuel.rows] == ["is owed 0.33 kg", "owes 0.17 kg", "owes 0.16 kg", "-"]
    assert [row[2] for row in money.rows] == ["0.34 EUR", "0.33 EUR", "0.33 EUR", "1.00 EUR"]
    assert money.rows[0][3] == "gets 0.33 EUR"
    assert money.rows[1][3] == "pays 0.17 EUR"


def test_lines_are_no_wider_than_a_terminal(shared):
    lines = [*share_lines(*shared, METRIC), *rota_lines(*shared)]
    assert lines
    assert max(map(len, lines)) <= 80


@pytest.mark.parametrize(
    ("each", "total", "units", "written"),
    [
        (part(0.2), 0.45, "metric", "1 g"),
        (part(0.2), 1.45, "metric", "0.01 kg"),
        (part(0.2), 0.45, "us", "0.1 oz"),
        (part(0.2), 0.46, "us", "0.01 lb"),
        (part(0.2, unit="MJ"), 9.0, "us", "0.01 kWh"),
    ],
)
def test_grains(each, total, units, written):
    assert grain_of(each, total, measures(units)).told(1) == written


def test_what_is_owed_and_what_is_owed_to_one_are_equal():
    assert sum(shared_out([0.34, -0.17, -0.17], 0.1)) == 0
    assert shared_out([0.26, -0.26], 0.1) == [3, -3]


def test_who_cooks_is_told_by_the_clock(shared):
    lines = rota_lines(*shared)
    assert any("06:05-07:00" in line and "mill" in line for line in lines)
    assert any("16:10-18:05" in line and "weir" in line for line in lines)
    assert "weir 1 h 40 min" in " ".join(" ".join(lines).split())


def test_the_sheet_says_who_cooks(shared):
    assert cooks_of(1, shared[0]) == "cook: mill 06:05-07:00, weir 16:10-18:05"
    assert cooks_of(2, shared[0]) == "cook: yard"
    assert cooks_of(3, shared[0]) == ""
    page = sheet_html(*shared)
    assert page.count('<p class="cooks">') == 2


def test_a_plan_says_who_cooks_and_its_result_too(shared):
    assert "Who cooks" in plan_text(*shared)
    result = to_json(shared[0])
    assert [turn["household"] for turn in result["rota"]] == ["mill", "weir", "yard"]
    assert [share["household"] for share in result["shares"]] == ["mill", "weir", "yard"]
    assert result["shares"][0]["fuels"][0]["owed"] == pytest.approx(1 / 3)


def test_nobody_shares_an_ordinary_kitchen(plan, scenario):
    assert share_blocks(plan, scenario, METRIC) == []
    assert rota_lines(plan, scenario) == []
    assert "Who cooks" not in plan_text(plan, scenario)
    assert to_json(plan)["shares"] is None
    assert to_json(plan)["rota"] is None


def test_electricity_is_shared_in_kilowatt_hours(plan, scenario):
    """A fuel without a mass is counted by energy in the result and on paper."""
    groups = (Group("mill", (), 3, 0), Group("weir", (), 0, 2))
    houses = (House("mill", 3, 0, (Brought("electricity", None, 3.6e6),)), House("weir", 0, 2))
    items = tuple(replace(i, helpings=(Helping(0, 3, 0), Helping(1, 0, 2))) for i in scenario.items)
    home = replace(scenario, houses=houses, groups=groups, items=items)
    made = replace(plan, shares=shares(plan, home))
    electric = next(f for f in made.shares[0].fuels if f.name == "electricity")
    assert (electric.unit, electric.brought) == ("MJ", pytest.approx(3.6))
    assert any("1.00 kWh" in line for line in share_lines(made, home, METRIC))
