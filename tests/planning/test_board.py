"""The board of a schedule: what is read off it, and a choice known before as its numbers."""

from dataclasses import replace

import pytest

from optimizer.planning.board import MJ, of_column, of_fire, scale, start_of
from optimizer.planning.rows import build
from optimizer.planning.solver import set_goal, solve


@pytest.fixture(name="named")
def _named():
    def named(board, numbers):
        names = {id(column): name for name, column in board.program.columns.items()}
        return {names[id(column)]: number for column, number in numbers.items()}

    return named


def test_units_are_one_of_the_goal_or_a_megajoule():
    assert [scale(goal) for goal in ("money", "tending", "missed")] == [1, 1, 1]
    assert [scale(goal) for goal in ("energy", "sticks", "short")] == [MJ, MJ, MJ]


def test_a_column_counts_towards_its_own_fuel(cook):
    column = cook(0, "gas", 360, 20, fuel_mj=2, money=0.3, tend_min=5)
    goals = ("money", "tending", "energy", "butane", "sticks")
    assert [of_column(column, goal) for goal in goals] == [0.3, 5, 2, 2, 0]


@pytest.mark.parametrize(
    ("goal", "start", "minute"),
    [
        ("money", 0.12, 0.0024),  # 1.5 MJ, and 500 W x 60 s, at 0.08 a MJ
        ("energy", 1.5, 0.03),
        ("sticks", 1.5, 0.03),
        ("butane", 0, 0),
        ("tending", 5, 1),
    ],
)
def test_a_fire_counts_as_it_is_lit_and_by_idle_minutes(kitchen, goal, start, minute):
    lighting = kitchen(0, tend=True).lightings["stick"]
    assert of_fire(lighting, goal) == pytest.approx((start, minute))


def test_nobody_waits_at_a_fire_that_is_left_alone(kitchen):
    assert of_fire(kitchen(0, tend=False).lightings["stick"], "tending") == (5, 0)


def test_a_choice_as_numbers_of_the_program(cook, kitchen, named):
    soup, tea = cook(0, "stick", 360, 20), cook(1, "stick", 390, 20)
    gas = cook(1, "gas", 390, 20)
    board = build((soup, tea, gas), kitchen(0, 1, idle_w=500))
    # ten idle minutes take 0.3 MJ, a second lighting 1.5 MJ: the fire is kept up
    assert named(board, start_of(board, (soup, tea))) == {
        "cook[0,stick,0]": 1,
        "cook[1,stick,1]": 1,
        "on[1,stick]": 1,
        "lit[stick,0]": 1,
        "burning[stick,0,360]": 1,
        "burning[stick,0,380]": 1,
        "burning[stick,0,390]": 1,
        "lit[stick,0,360]": 1,
        "lit[stick,0,380]": 0,
        "lit[stick,0,390]": 0,
        "idle[stick,0]": 10,
    }


def test_a_fire_that_goes_out_is_lit_again(cook, kitchen, named):
    soup, tea = cook(0, "stick", 360, 20), cook(1, "stick", 390, 20)
    board = build((soup, tea), kitchen(0, 1, idle_w=5000))  # ten minutes: 3 MJ
    numbers = named(board, start_of(board, (soup, tea)))
    assert [numbers[f"burning[stick,0,{minute}]"] for minute in (360, 380, 390)] == [1, 0, 1]
    assert [numbers[f"lit[stick,0,{minute}]"] for minute in (360, 380, 390)] == [1, 0, 1]
    assert numbers["idle[stick,0]"] == 0


def test_two_fires_at_a_time_are_two(cook, kitchen, named):
    soup, tea = cook(0, "stick", 360, 30), cook(1, "stick", 370, 30)
    board = build((soup, tea), kitchen(0, 1, stick=2))
    numbers = named(board, start_of(board, (soup, tea)))
    assert [numbers[f"burning[stick,0,{minute}]"] for minute in (360, 370, 390)] == [1, 2, 1]
    assert [numbers[f"lit[stick,0,{minute}]"] for minute in (360, 370, 390)] == [1, 1, 0]


def test_pots_of_a_dish_are_counted_once_each(cook, kitchen, named):
    early, late = cook(0, "gas", 360, 20), cook(0, "gas", 390, 20)
    stick = cook(0, "stick", 360, 20)
    board = build((early, late, stick), replace(kitchen(0, big=3), batches={0: 3}))
    numbers = named(board, start_of(board, (early, late, late)))
    assert numbers == {"cook[0,gas,0]": 1, "cook[0,gas,1]": 2, "on[0,gas]": 3}


def test_equal_columns_share_what_was_chosen(cook, kitchen, named):
    tea = cook(0, "gas", 360, 20)
    board = build((tea, replace(tea)), replace(kitchen(0), batches={0: 2}))
    assert named(board, start_of(board, (tea, tea))) == {"cook[0,gas,0]": 2}


def test_a_choice_that_is_not_in_the_program_is_no_start(cook, kitchen):
    tea, other = cook(0, "gas", 360, 20), cook(0, "gas", 390, 20)
    board = build((tea,), kitchen(0))
    assert start_of(board, (other,)) == {}
    assert start_of(board, (tea, tea)) == {}  # once more than it can be cooked


def test_what_was_chosen_is_told_as_often_as_it_was(cook, kitchen):
    cheap, dear = cook(0, "gas", 360, 20, money=1.0), cook(0, "gas", 390, 20, money=2.0)
    room = replace(kitchen(0, gas=2, big=2), batches={0: 3})
    board = build((cheap, dear), room)
    set_goal(board.program, [(y, c.money) for y, c in zip(board.cook, board.columns, strict=True)])
    assert solve(board.program).solved
    assert board.chosen() == (cheap, cheap, dear)  # two stoves: the third pot is cooked later
