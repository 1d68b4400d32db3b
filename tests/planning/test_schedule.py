"""The schedule against every choice there is, and in everything it promises about its answer."""

import itertools
import math
import random
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optimizer.errors import CheckError
from optimizer.planning import schedule as module
from optimizer.planning.board import scale, start_of, terms
from optimizer.planning.ledger import audit, fires_of, price_of
from optimizer.planning.rows import build
from optimizer.planning.schedule import schedule
from optimizer.planning.solver import Outcome, set_goal, solve

SEEDS = range(30)
GOALS = ["money", "energy", "sticks", "tending"]


def exact(room, goal):
    """Where several fires of a stove fit, tending has only a bound."""
    fires = math.ceil(room.capacity["stove:stick"] / room.lightings["stick"].places)
    return goal != "tending" or fires == 1


class TestEveryChoiceCounted:
    @pytest.mark.parametrize("seed", SEEDS)
    def test_the_same_optimum(self, seed, random_case, exhaustive):
        columns, room = random_case(seed)
        for goal in GOALS:
            best = exhaustive(columns, room, goal)
            found = schedule(columns, room, goals=[goal], gap=0)
            if best is None:
                assert found.status == "infeasible"
                continue
            assert found.bound <= best * (1 + 1e-6)
            assert found.value == price_of(found.chosen, room, goal)
            if exact(room, goal):
                assert found.value == pytest.approx(best, rel=1e-6)
                assert found.status == "optimal"

    def test_some_of_them_have_no_plan_and_most_have(self, random_case, exhaustive):
        plans = [exhaustive(*random_case(seed), "money") is not None for seed in SEEDS]
        assert 10 <= sum(plans) < len(plans)

    @pytest.mark.parametrize("seed", range(8))
    def test_the_second_opinion_agrees(self, seed, random_case):
        columns, room = random_case(seed)
        ours = schedule(columns, room, goals=["money"], gap=0)
        other = schedule(columns, room, goals=["money"], gap=0, solver="cbc")
        assert other.bound is None
        assert (other.value is None) == (ours.value is None)
        if ours.value is not None:
            assert other.value == pytest.approx(ours.value, rel=1e-5)


class TestMoreIsNeverWorse:
    @settings(
        max_examples=40,
        deadline=None,
        derandomize=True,
    )
    @given(seed=st.integers(0, 300), more=st.floats(1, 3), goal=st.sampled_from(GOALS[:3]))
    def test_more_stock(self, seed, more, goal, random_case):
        columns, room = random_case(seed)
        richer = replace(room, stock_j={fuel: j * more for fuel, j in room.stock_j.items()})
        before = schedule(columns, room, goals=[goal], gap=0)
        after = schedule(columns, richer, goals=[goal], gap=0)
        if before.value is not None:
            assert after.value <= before.value * (1 + 1e-6)

    @settings(
        max_examples=40,
        deadline=None,
        derandomize=True,
    )
    @given(
        seed=st.integers(0, 300),
        resource=st.sampled_from(["pot:big", "pot:small", "cooker:box", "stove:gas"]),
    )
    def test_one_more_thing(self, seed, resource, random_case):
        columns, room = random_case(seed)
        richer = replace(room, capacity={**room.capacity, resource: room.capacity[resource] + 1})
        before = schedule(columns, room, goals=["money"], gap=0)
        after = schedule(columns, richer, goals=["money"], gap=0)
        if before.value is not None:
            assert after.value <= before.value * (1 + 1e-6)


class TestSmallKitchens:
    def test_dishes_share_a_fire(self, cook, kitchen):
        # Sticks cost less than gas only if one lighting serves both dishes.
        columns = [
            cook(0, "stick", 360, 20, money=0.1),
            cook(0, "gas", 360, 20, money=0.2),
            cook(1, "stick", 380, 20, money=0.1),
            cook(1, "stick", 1020, 20, money=0.05),
            cook(1, "gas", 380, 20, money=0.2),
        ]
        found = schedule(columns, kitchen(0, 1), goals=["money"], gap=0)
        assert [c.burns[0].start for c in found.chosen] == [360, 380]
        assert found.value == pytest.approx(0.1 + 0.1 + 0.12)
        assert found.lit == (("stick", 0),)
        alone = schedule(columns[:2], kitchen(0), goals=["money"], gap=0)
        assert alone.chosen == (columns[1],)
        assert alone.lit == ()

    def test_a_fire_is_not_kept_up_for_long_if_there_is_a_choice(self, cook, kitchen):
        columns = [
            cook(0, "stick", 360, 20),
            cook(1, "stick", 460, 20, fuel_mj=1.0),
            cook(1, "stick", 380, 20, fuel_mj=1.5),
        ]
        lazy = schedule(columns, kitchen(0, 1, idle_w=0), goals=["energy"], gap=0)
        brisk = schedule(columns, kitchen(0, 1, idle_w=500), goals=["energy"], gap=0)
        assert [c.burns[0].start for c in lazy.chosen] == [360, 460]
        assert [c.burns[0].start for c in brisk.chosen] == [360, 380]
        assert brisk.value == pytest.approx(1.5e6 + 1e6 + 1.5e6)

    def test_infeasible(self, cook, kitchen):
        columns = [cook(0, "gas", 360, 30), cook(1, "gas", 380, 30)]
        found = schedule(columns, kitchen(0, 1), goals=["money"])
        assert (found.status, found.chosen, found.value) == ("infeasible", (), None)

    def test_a_dish_without_a_way(self, cook, kitchen):
        found = schedule([cook(0, "gas", 360, 30)], kitchen(0, 1), goals=["money"])
        assert found.status == "infeasible"

    def test_nothing_to_cook(self, kitchen):
        found = schedule([], kitchen(), goals=["money"])
        assert (found.status, found.value, found.gap) == ("optimal", 0, 0)

    def test_needs_a_goal(self, kitchen):
        with pytest.raises(ValueError, match="goal"):
            schedule([], kitchen(), goals=[])

    def test_a_resource_nobody_counted(self, cook, kitchen):
        with pytest.raises(KeyError, match="pot:odd"):
            schedule([cook(0, "gas", 360, 30, pot="pot:odd")], kitchen(0), goals=["money"])


class TestSeveralGoals:
    @pytest.fixture
    def columns(self, cook):
        return [
            cook(0, "gas", 360, 20, money=1.00, fuel_mj=3.0, tend_min=9),
            cook(0, "gas", 380, 20, money=1.00, fuel_mj=2.0, tend_min=9),
            cook(0, "gas", 400, 20, money=1.00, fuel_mj=2.0, tend_min=8),
            cook(0, "gas", 420, 20, money=1.04, fuel_mj=1.0, tend_min=7),
        ]

    def test_the_first_goal_first(self, columns, kitchen):
        found = schedule(columns, kitchen(0), goals=["money", "energy", "tending"], gap=0)
        assert found.chosen == (columns[2],)
        assert found.value == pytest.approx(1.0)

    def test_what_lies_within_the_gap_is_as_good(self, columns, kitchen):
        found = schedule(columns, kitchen(0), goals=["money", "energy"], gap=0.05)
        assert found.chosen == (columns[3],)
        assert (found.value, found.bound) == (1.04, pytest.approx(1.0))
        assert (found.status, found.gap) == ("within_gap", pytest.approx(0.04 / 1.04))

    @pytest.mark.parametrize("seed", range(6))
    def test_never_more_than_the_gap(self, seed, random_case, exhaustive):
        columns, room = random_case(seed)
        best = exhaustive(columns, room, "money")
        found = schedule(columns, room, goals=["money", "tending", "energy"], gap=0.1)
        if best is None:
            assert found.status == "infeasible"
        else:
            assert found.value <= best / (1 - 0.1) * (1 + 1e-6)


@pytest.fixture(scope="module", name="crowd")
def _crowd(cook, kitchen):
    """Twenty dishes on two stoves: a first plan comes soon, a proof does not come in a minute."""
    chance = random.Random(1)
    columns = []
    for item in range(20):
        size = chance.uniform(1, 3)
        for opens, slot, stove in itertools.product((360, 1020), range(20), ("stick", "gas")):
            fuel_mj = round(size * chance.uniform(0.8, 1.2) * (2 if stove == "stick" else 1), 3)
            minutes = 10 + item % 3 * 5
            columns.append(cook(item, stove, opens + 5 * slot, minutes, fuel_mj=fuel_mj))
    return columns, kitchen(*range(20), big=2, idle_w=300, stock_j={"butane": 18e6})


class TestLimits:
    def test_stopped_before_a_plan(self, crowd):
        columns, room = crowd
        found = schedule(columns, room, goals=["energy"], gap=0, progress=lambda *_: False)
        assert found.status in ("no_plan", "stopped")
        assert bool(found.chosen) == (found.status == "stopped")

    def test_stopped_after_a_plan_keeps_it(self, crowd):
        columns, room = crowd
        told = []

        def until_there_is_one(seconds, best, bound):
            told.append((seconds, best, bound))
            return best is None

        found = schedule(columns, room, goals=["energy"], gap=0, progress=until_there_is_one)
        assert told[-1][1] is not None
        assert found.status == "stopped"
        audit(found.chosen, room)
        assert found.value <= told[-1][1] * (1 + 1e-6)  # J, not MJ
        assert found.bound <= found.value

    def test_no_time(self, crowd):
        columns, room = crowd
        found = schedule(columns, room, goals=["energy"], gap=0, time_limit_s=0.0)
        assert found.status in ("no_plan", "time_limit")
        assert found.seconds < 5

    def test_begins_with_a_plan_known_before(self, crowd):
        columns, room = crowd
        first = schedule(columns, room, goals=["energy"], gap=0.5)
        board = build(columns, room)
        set_goal(board.program, terms(board, "energy"))
        start = start_of(board, first.chosen)
        assert start
        again = solve(board.program, gap=0, time_limit_s=0.2, start=start)
        assert again.objective * scale("energy") <= first.value * (1 + 1e-6)

    def test_a_start_of_other_columns_is_left_alone(self, cook, kitchen):
        board = build([cook(0, "gas", 360, 20)], kitchen(0))
        assert start_of(board, [cook(9, "gas", 380, 5)]) == {}

    @pytest.mark.parametrize("seed", SEEDS[:10])
    def test_an_optimum_is_a_start(self, seed, random_case):
        columns, room = random_case(seed)
        first = schedule(columns, room, goals=["money"], gap=0)
        if first.chosen:
            board = build(columns, room)
            set_goal(board.program, terms(board, "money"))
            again = solve(board.program, gap=0, start=start_of(board, first.chosen))
            assert again.objective == pytest.approx(first.value)

    def test_the_same_plan_every_time(self, crowd):
        columns, room = crowd
        plans = [schedule(columns, room, goals=["energy"], gap=0.5).chosen for _ in range(2)]
        assert plans[0] == plans[1]

    def test_a_solver_that_fails(self, cook, kitchen, monkeypatch):
        broken = Outcome("error", "Solve error", None, None, None, 0.0, 0)
        monkeypatch.setattr(module, "solve", lambda *_, **__: broken)
        with pytest.raises(CheckError, match="Solve error"):
            schedule([cook(0, "gas", 360, 20)], kitchen(0), goals=["money"])


def test_lit_are_the_fires_of_the_choice(cook, kitchen):
    columns = [cook(0, "stick", 360, 20), cook(1, "stick", 1040, 20)]
    found = schedule(columns, kitchen(0, 1), goals=["money"])
    assert found.lit == (("stick", 0), ("stick", 1))
    assert len(fires_of(found.chosen, kitchen(0, 1))) == 2
