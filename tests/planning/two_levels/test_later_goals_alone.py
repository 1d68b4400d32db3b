"""Further goals after a schedule that is given: room, fuel, each block its own, when it stops."""

import math
import time
from dataclasses import replace

import pytest

from optimizer.planning.days import kinds_of, spread
from optimizer.planning.ladder import Ladder
from optimizer.planning.later import then
from optimizer.planning.memory import Memory
from optimizer.planning.pricing import day_of
from optimizer.planning.solver import solve


def ladder_of(case, *picks, goal="money", report=lambda *_: True, until=math.inf):
    """Give a search that has chosen, in each block of its one kind, columns at some positions."""
    (kind,) = kinds_of(case.columns, case.room)
    plans = [kind.keep(kind.plan_of(pick, goal)) for pick in picks]
    value = sum(plan.value for plan in plans) / (1 if goal in {"money", "tending"} else 1e6)
    ladder = Ladder(case.columns, case.room, goal, 0.01, until, report, (kind,), Memory())
    ladder.days = (day_of(kind),)
    ladder.chosen, ladder.value = spread(kind, plans), value
    return ladder


def places(ladder):
    """Positions in their block of what is chosen, block by block."""
    (kind,) = ladder.kinds
    where = {id(c): (n, at) for n, block in enumerate(kind.blocks) for at, c in enumerate(block)}
    found = [where[id(column)] for column in ladder.chosen]
    return [tuple(at for n, at in found if n == number) for number in range(kind.count)]


def tea(cook, *ways):
    """One dish on gas, by money, tending and MJ, a way every ten minutes."""
    return [
        cook(0, "gas", 360 + 10 * n, 10, money=money, tend_min=tend, fuel_mj=mj)
        for n, (money, tend, mj) in enumerate(ways)
    ]


@pytest.fixture
def four(cook, days_of):
    """Four days of one dish: cheap and tended long, or 0.02 dearer and tended for 5 min."""
    return days_of([tea(cook, (1.0, 30, 2), (1.02, 5, 2))] * 4)


@pytest.mark.parametrize(("room", "pick", "value"), [(0.081, 1, 4.08), (0.079, 0, 4.0)])
def test_what_the_first_goal_leaves_is_shared_alike_by_all_blocks(four, room, pick, value):
    ladder = ladder_of(four, *[(0,)] * 4)
    then(ladder, ["tending"], 4.0 + room)
    assert places(ladder) == [(pick,)] * 4
    assert ladder.value == pytest.approx(value)


def test_less_room_than_none_is_none(four):
    ladder = ladder_of(four, *[(1,)] * 4)
    then(ladder, ["tending"], 1.0)
    assert places(ladder) == [(1,)] * 4


def test_without_a_schedule_or_a_goal_nothing_is_done(four):
    ladder = ladder_of(four, *[(0,)] * 4)
    before = ladder.chosen
    then(ladder, [], 9.0)
    assert (places(ladder), ladder.value) == ([(0,)] * 4, 4.0)
    ladder.value, ladder.days = None, ()
    then(ladder, ["tending"], 9.0)
    assert (ladder.chosen, ladder.value) == (before, None)


def test_each_block_goes_on_from_what_it_has_and_alike_ones_are_solved_once(
    cook, days_of, monkeypatch
):
    """A block that burns less may not turn to a way that burns more; the others may."""
    ways = ((1.0, 30, 2), (1.0, 20, 3), (1.0, 10, 3), (1.0, 25, 2))
    case = days_of([tea(cook, *ways)] * 4, stock_j={"butane": 11e6})
    solves = []

    def counted(*given, **named):
        solves.append(named)
        return solve(*given, **named)

    monkeypatch.setattr("optimizer.planning.later.solve", counted)
    ladder = ladder_of(case, (0,), (1,), (0,), (1,), until=time.perf_counter() + 900)
    then(ladder, ["tending"], 4.0)
    assert places(ladder) == [(3,), (2,), (3,), (2,)]
    assert len(solves) == 2
    for asked in solves:
        assert asked["gap"] == ladder.gap
        assert asked["start"]
        assert asked["search"] == "plain"
        assert asked["time_limit_s"] <= 900


def test_a_goal_keeps_those_before_it(cook, days_of):
    """Least tending within the money, then least energy with that tending and that money."""
    ways = ((1.0, 30, 2), (1.01, 5, 2), (1.01, 5, 1.5), (1.01, 9, 1), (1.02, 5, 1))
    case = days_of([tea(cook, *ways)] * 2)
    ladder = ladder_of(case, (0,), (0,))
    then(ladder, ["tending", "energy"], 2.03)
    assert places(ladder) == [(2,), (2,)]
    assert ladder.value == pytest.approx(2.02)


def test_in_energy_room_and_value_are_in_mj(cook, days_of):
    gas, *others = tea(cook, (1.0, 30, 2), (1.0, 20, 2.02), (1.0, 10, 2.04))
    ways = [gas, *(replace(each, fuel="sticks") for each in others)]
    ladder = ladder_of(days_of([ways] * 2), (0,), (0,), goal="energy")
    then(ladder, ["tending"], 4.05)
    assert places(ladder) == [(1,), (1,)]
    assert ladder.value == pytest.approx(4.04)


@pytest.mark.parametrize(("stock_j", "pick"), [({"butane": 9e6}, 0), ({}, 1)])
def test_a_fuel_with_a_limit_of_which_a_block_has_none_is_not_turned_to(
    cook, days_of, stock_j, pick
):
    gas = cook(0, "gas", 400, 20, money=1.0, tend_min=5)
    other = replace(gas, fuel="sticks", tend_min=30)
    ladder = ladder_of(days_of([[other, gas]] * 2, stock_j=stock_j), (0,), (0,))
    then(ladder, ["tending"], 2.0)
    assert places(ladder) == [(pick,)] * 2


def test_what_is_far_from_the_best_is_not_looked_at(cook, days_of):
    """Within the room, but by more than 3 % dearer than the best way of the day."""
    ways = ((1.0, 30, 2), (1.029, 20, 2), (1.05, 5, 2))
    ladder = ladder_of(days_of([tea(cook, *ways)] * 2), (0,), (0,))
    then(ladder, ["tending"], 9.0)
    assert places(ladder) == [(1,), (1,)]


def test_told_to_stop_it_keeps_what_there_was(four):
    told = []

    def stop(*given):
        told.append(given)
        return False

    ladder = ladder_of(four, *[(0,)] * 4, report=stop)
    then(ladder, ["tending", "energy"], 9.0)
    assert (places(ladder), ladder.value) == ([(0,)] * 4, 4.0)
    assert told == [(None, None)]


def test_a_dish_in_two_pots_stays_in_two(cook, days_of):
    case = days_of([tea(cook, (1.0, 30, 2), (1.0, 5, 2))] * 2, batches={0: 2, 1: 2})
    case = replace(case, room=replace(case.room, capacity=case.room.capacity | {"stove:gas": 2}))
    ladder = ladder_of(case, (0, 0), (0, 0))
    then(ladder, ["tending"], 4.0)
    assert places(ladder) == [(1, 1), (1, 1)]
