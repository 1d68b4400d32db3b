"""A row says what a plan of that household says; what fails is a report, not the end."""

import pytest

from optimizer.errors import LimitError
from optimizer.planning.planner import plan
from optimizer.studies.endurance.days import how_long
from optimizer.studies.sweep import outcome
from optimizer.studies.sweep.grid import Effort
from optimizer.studies.sweep.outcome import row_of


def test_a_row_is_what_a_plan_and_the_days_say(grid):
    made = grid("people=1..2", "sticks=1,2 kg")
    row = row_of(made, 4)
    house = made.household(4)
    whole = plan(house)
    assert (row["point"], row["people"], row["sticks_kg"]) == (4, 2, 2)
    assert row["status"] == whole.status
    assert row["cost"] == pytest.approx(whole.cost, rel=1e-5)
    assert row["fuel_mj"] == pytest.approx(whole.fuel_mj, rel=1e-5)
    assert row["sticks_used_kg"] == pytest.approx(whole.fuels[0].used_kg, rel=1e-5)
    assert row["fire_min"] == pytest.approx(whole.fire_minutes)
    assert row["saved_share"] == pytest.approx(whole.saved.fuel_fraction, abs=1e-6)
    assert row["days_lasted"] == how_long(house).days
    assert row["days_status"] == "proven"
    assert "report" not in row


def test_more_sticks_never_last_shorter_nor_more_people_longer(grid):
    made = grid("people=1..2", "sticks=1,2,3 kg")
    rows = [row_of(made, number) for number in range(1, 7)]
    assert {row["days_status"] for row in rows} == {"proven"}
    one, two = ([row["days_lasted"] for row in rows if row["people"] == n] for n in (1, 2))
    assert one == sorted(one)
    assert two == sorted(two)
    assert one[0] < one[-1]
    assert all(few >= many for few, many in zip(one, two, strict=True))


def test_no_plan_is_told_with_the_least_change(grid):
    row = row_of(grid("sticks=0.05 kg"), 1)
    assert row["status"] == "infeasible"
    assert "more would do" in row["report"]
    assert "cost" not in row
    assert row["days_lasted"] == 0


def test_a_household_that_makes_no_sense_is_a_row(grid):
    row = row_of(grid("stick_stove=0..1"), 1)
    assert row["status"] == "bad_input"
    assert "no stove" in row["report"]
    assert "\n" not in row["report"]


def test_a_defect_is_a_row_too(grid, monkeypatch):
    def broken(*_given, **_more):
        raise ZeroDivisionError("by\nnothing")

    monkeypatch.setattr(outcome, "plans", broken)
    row = row_of(grid("people=2"), 1)
    assert row["status"] == "failed"
    assert row["report"] == "ZeroDivisionError: by nothing"


def test_what_the_clock_cut_short_says_so(grid):
    row = row_of(grid("people=2", effort=Effort(time_limit_s=1e-9)), 1)
    assert row["status"] == "time_limit"
    assert row["days_status"] == "time_limit"
    assert "days_lasted" not in row


def test_a_least_change_that_the_clock_cut_short_says_so(grid):
    row = row_of(grid("sticks=0.05 kg", effort=Effort(time_limit_s=1e-9, days=False)), 1)
    assert row["status"] == "infeasible"
    assert row["report"].endswith(outcome.LATE)


def test_no_plan_in_time_is_a_row(grid, monkeypatch):
    def late(*_given, **_more):
        raise LimitError("no plan after 30 s")

    monkeypatch.setattr(outcome, "plans", late)
    row = row_of(grid("people=2", effort=Effort(days=False)), 1)
    assert (row["status"], row["report"]) == ("time_limit", "no plan after 30 s")
    assert "cost" not in row


def test_days_are_left_out_where_nobody_wants_them(grid):
    row = row_of(grid("people=2", effort=Effort(days=False)), 1)
    assert "days_lasted" not in row
    assert row["cost"] > 0


def test_beyond_what_is_looked_at(grid):
    row = row_of(grid("sticks=900 kg"), 1)
    assert (row["days_lasted"], row["days_status"]) == (outcome.MOST_DAYS, "beyond")
