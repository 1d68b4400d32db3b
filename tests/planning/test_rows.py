"""The program of small kitchens in round numbers, family by family, against golden files.

The files under ``golden/`` were read against the formulation by hand. Where the program is meant to
change, read the new rows before they are put in a file's place.
"""

from dataclasses import replace
from pathlib import Path

import pytest

from optimizer.planning.board import scale, start_of, terms
from optimizer.planning.ledger import price_of
from optimizer.planning.rows import build, cliques
from optimizer.planning.schedule import schedule
from optimizer.planning.solver import dump, set_goal

GOLDEN = Path(__file__).parent / "golden"


def lines(board, *families):
    """Rows of some families, bounds left out."""
    text = dump(board.program).splitlines()
    return sorted(line for line in text if line.startswith(families))


def golden(name):
    text = (GOLDEN / f"{name}.txt").read_text(encoding="utf-8").splitlines()
    return sorted(line for line in text if line and not line.startswith("#"))


@pytest.fixture
def breakfast(cook):
    """Two dishes: 0 on sticks or gas, 1 on sticks at two times."""
    return (
        cook(0, "stick", 360, 20, fuel_mj=2, money=0.16, tend_min=20),
        cook(0, "gas", 360, 20, fuel_mj=1, money=0.3, tend_min=5),
        cook(1, "stick", 370, 20, fuel_mj=3, money=0.24, tend_min=20),
        cook(1, "stick", 400, 20, fuel_mj=4, money=0.32, tend_min=20, pot="pot:small"),
    )


@pytest.mark.parametrize(
    ("name", "families"),
    [
        ("everyone_eats", ("everyone_eats",)),
        ("dish_on_stove", ("dish_on_stove",)),
        ("dish_needs_the_fire", ("dish_needs_the_fire", "lit_once_or_more")),
        ("fire_kept_up", ("pot_needs_the_fire", "lit_or_kept_up", "fire_kept_between_pots")),
        ("one_at_a_time", ("one_at_a_time",)),
        ("stock_is_enough", ("stock_is_enough",)),
    ],
)
def test_family(breakfast, kitchen, name, families):
    room = kitchen(0, 1, big=1, idle_w=500, stock_j={"sticks": 9e6, "butane": 2e6})
    assert lines(build(breakfast, room), *families) == golden(name)


@pytest.mark.parametrize("goal", ["money", "energy", "tending", "sticks"])
def test_goal(breakfast, kitchen, goal):
    board = build(breakfast, kitchen(0, 1, big=1, idle_w=500, tend=True))
    set_goal(board.program, terms(board, goal))
    assert lines(board, "least") == golden(f"goal_{goal}")


def test_several_pots_over_one_fire(breakfast, kitchen):
    board = build(breakfast, kitchen(0, 1, stick=2, places=2, idle_w=500))
    assert lines(board, "pot_needs", "fire_kept_between") == golden("several_places")


def test_tending_follows_the_fuel(breakfast, kitchen):
    # At 2500 W a fire is lit again after more than 10 minutes without a pot.
    board = build(breakfast, kitchen(0, 1, idle_w=2500, tend=True), tending=True)
    assert lines(board, "lit_again_after_long", "not_lit_again_soon") == golden("tending")


def test_elastic(breakfast, kitchen):
    room = kitchen(0, 1, stock_j={"sticks": 9e6, "butane": 2e6})
    board = build(breakfast, room, may_miss=True, may_be_short=("butane",))
    assert lines(board, "everyone_eats", "stock_is_enough[butane]") == golden("elastic")
    assert set(board.short) == {"butane"}
    for goal, name in (("missed", "missed"), ("short", "short")):
        assert [c for c, _ in terms(board, goal)] == list(getattr(board, name).values())


def test_a_dish_nobody_can_cook_keeps_its_row(breakfast, kitchen):
    board = build(breakfast, kitchen(0, 1, 2))
    assert "everyone_eats[2]:  == 1" in dump(board.program).splitlines()


def test_a_moment_that_no_choice_can_crowd_has_no_row(breakfast, kitchen):
    board = build(breakfast, kitchen(0, 1, big=2, stick=2))
    assert lines(board, "one_at_a_time") == []


def test_a_thing_held_twice_by_one_dish_counts_twice(cook, kitchen):
    column = cook(0, "gas", 360, 20)
    column = replace(column, uses=column.uses * 2)
    board = build((column,), kitchen(0, big=1, gas=1))
    assert lines(board, "one_at_a_time[pot:big") == [
        "one_at_a_time[pot:big,360]: +2 cook[0,gas,0] <= 1"
    ]


def test_cliques_are_the_largest_sets_only():
    spans = [(0, 10, 1), (5, 15, 2), (10, 20, 3), (12, 14, 4), (30, 40, 5)]
    found = [(minute, sorted(together)) for minute, together in cliques(spans)]
    assert found == [(5, [1, 2]), (12, [2, 3, 4]), (30, [5])]


@pytest.mark.parametrize("seed", range(40))
def test_a_choice_known_before_keeps_every_row_at_its_price(seed, random_case):
    columns, room = random_case(seed)
    chosen = schedule(columns, replace(room, stock_j={}), goals=["money"]).chosen
    board = build(columns, replace(room, stock_j={"sticks": 1e9, "butane": 1e9}))
    numbers = start_of(board, chosen)
    for column in board.program.columns.values():
        column.varValue = float(numbers.get(column, 0))
    for name, row in board.program.rows.items():
        assert row.valid(1e-9), name
    for goal in ("money", "energy", "tending", "butane"):
        counted = sum(factor * column.varValue for column, factor in terms(board, goal))
        assert counted * scale(goal) == pytest.approx(price_of(chosen, room, goal))
