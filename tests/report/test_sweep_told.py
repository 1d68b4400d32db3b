"""A sweep in words and as a chart, from rows typed here."""

import json
import re
from dataclasses import replace

import pytest

from optimizer.report.sweep.page import sweep_html
from optimizer.report.sweep.panels import MOST_PANELS, panels_of
from optimizer.report.sweep.result import to_json
from optimizer.report.sweep.text import CLOCK_NOTE, MOST_LINES, SURE_NOTE, sweep_text
from optimizer.scenario.reading import parse
from optimizer.studies.sweep.axes import Wanted
from optimizer.studies.sweep.columns import columns_of
from optimizer.studies.sweep.grid import Effort, Grid
from optimizer.studies.sweep.outcome import Row
from optimizer.studies.sweep.study import Sweep

TEXT = """\
title: One <b>cold</b> morning & more
people: 2
days: 1
place: {altitude: 100 m, kitchen: 15 degC, outdoors: 10 degC, water: 10 degC}
cook_hours: ["06:00-08:00"]
fuels: {sticks: {stock: 2 kg}}
stoves: {stick_stove: 1}
pots: {pot_2_5l: 1}
menu:
  - {meal: breakfast, at: "07:30", dishes: [porridge]}
"""


def sweep_of(*texts: str, change=lambda row: {}) -> Sweep:
    grid = Grid("morning.yaml", TEXT, Wanted().axes(texts), Effort())
    scenario = parse(TEXT)
    known = Sweep(grid, scenario, columns_of(grid, scenario))
    known.rows = [_row(grid, n) for n in range(1, grid.count + 1)]
    known.rows = [row | change(row) for row in known.rows]
    return known


def _row(grid: Grid, number: int) -> Row:
    given = grid.values(number)
    return {
        "point": number,
        **{axis.column: axis.cell(given[axis.key]) for axis in grid.axes},
        "status": "within_gap",
        "cost": 1.234,
        "fuel_mj": 12.34,
        "fire_min": 56.7,
        "saved_share": 0.256,
        "days_lasted": number,
        "days_status": "proven",
        "sweep": grid.fingerprint,
    }


def test_a_row_is_told_in_round_numbers():
    lines = sweep_text(sweep_of("people=1..2")).splitlines()
    assert lines[1].split() == ["plan", "EUR", "MJ", "fire", "min", "saved", "days"]
    assert " ".join(lines[2].split()) == "people 1 near best 1.23 12 57 26 % 1"
    assert "2 points: 2 planned." in lines


def test_days_that_are_not_sure_have_a_mark_that_is_explained():
    marks = {1: ("proven", 4), 2: ("at_least", 5), 3: ("beyond", 60), 4: ("time_limit", None)}

    def change(row: Row) -> Row:
        status, days = marks[row["point"]]
        return {"days_status": status, "days_lasted": days}

    told = sweep_text(sweep_of("people=1..4", change=change))
    assert re.findall(r"%\s+(\S+)", told) == ["4", "5+", "60+", "-"]
    assert SURE_NOTE in " ".join(told.split())
    assert CLOCK_NOTE in " ".join(told.split())
    assert SURE_NOTE not in " ".join(sweep_text(sweep_of("people=1..2")).split())


def test_a_long_table_is_cut_and_reports_too():
    known = sweep_of("people=1..60", change=lambda row: {"status": "failed", "report": "broken"})
    told = sweep_text(known)
    assert told.count("broken") == 5
    assert f"... and {60 - MOST_LINES} more" in told
    assert "... and 55 more reports" in told


def test_stopped_before_there_was_a_row():
    known = sweep_of("people=1..2")
    known.rows = []
    assert "0 of 2 points: none yet." in sweep_text(known)
    assert to_json(known)["rows"] == []


def test_what_is_not_known_is_null_for_programs():
    known = sweep_of("people=1..2", change=lambda row: {"cost": None})
    told = json.loads(json.dumps(to_json(known), allow_nan=False))
    assert {row["cost"] for row in told["rows"]} == {None}
    assert [row["days_lasted"] for row in told["rows"]] == [1, 2]


def test_fuel_goes_across_people_up_and_all_else_has_panels():
    whole = panels_of(sweep_of("outdoors=-5,5 degC", "people=1..3", "sticks=1,2 kg"))
    assert (whole.across.key, whole.up.key) == ("sticks", "people")
    assert [panel.title for panel in whole.panels] == ["outdoors -5 °C", "outdoors 5 °C"]
    squares = {(s.across, s.up): s.days for s in whole.panels[1].squares}
    assert squares == {("1", "1"): 7, ("2", "1"): 8, ("1", "2"): 9, ("2", "2"): 10,
                       ("1", "3"): 11, ("2", "3"): 12}  # fmt: skip
    assert whole.most == 12


@pytest.mark.parametrize(
    ("texts", "across", "up"),
    [
        (("people=1..2",), "people", None),
        (("sticks=1,2 kg",), "sticks", None),
        (("kitchen=5,15 degC", "people=1..2"), "kitchen", "people"),
        (("kitchen=5,15 degC", "outdoors=0,5 degC"), "kitchen", "outdoors"),
    ],
)
def test_other_axes_are_drawn_as_well(texts, across, up):
    whole = panels_of(sweep_of(*texts))
    assert whole.across.key == across
    assert (whole.up.key if whole.up else None) == up


def test_panels_have_an_end_and_a_missing_row_a_dash():
    known = sweep_of("people=1..2", "sticks=1,2 kg", "kitchen=1..15 degC")
    known.rows = known.rows[:-1]
    whole = panels_of(known)
    assert (len(whole.panels), whole.left_out) == (MOST_PANELS, 3)
    few = sweep_of("people=1..2", "sticks=1,2 kg")
    few.rows = few.rows[:-1]
    assert panels_of(few).panels[0].squares[-1].word == "-"


def test_the_page_shows_every_number_and_nothing_of_another_place():
    def change(row: Row) -> Row:
        odd = {"report": "<i>odd</i>"} if row["point"] == 2 else {}
        return {"days_lasted": 10 * row["point"] + 3, **odd}

    page = sweep_html(sweep_of("people=1..2", "sticks=1,2 kg", change=change))
    drawn = page[page.index("<svg") : page.index("</svg>")]
    words = re.findall(r">([^<]+)</text>", drawn)
    assert {"13", "23", "33", "43", "sticks, kg", "people"} <= set(words)
    assert "&lt;b&gt;cold&lt;/b&gt;" in page
    assert "&lt;i&gt;odd&lt;/i&gt;" in page
    assert "<b>" not in page
    assert "<i>" not in page
    assert 'aria-label="Days lasted against sticks, kg and people' in page
    places = set(re.findall(r"https?://[^\"' )<]+", page))
    assert places <= {"http://www.w3.org/2000/svg", "http://www.w3.org/1999/xlink"}
    assert "Use every flame outdoors" in page


def test_a_long_page_says_what_it_leaves_out(monkeypatch):
    monkeypatch.setattr("optimizer.report.sweep.page.MOST_ROWS", 3)
    page = sweep_html(sweep_of("people=1..2", "sticks=1,2,3 kg"))
    assert "3 more points are in the table" in page


def test_money_is_in_the_currency_of_the_file():
    known = sweep_of("people=1..2")
    other = replace(known.scenario, currency="SEK")
    known.scenario = other
    assert "SEK" in sweep_text(known)
