"""What sifting keeps of one dish and a handful of columns, reckoned by hand."""

import math
import time
from dataclasses import replace

import pytest

from optimizer.planning import sifting as module
from optimizer.planning.sifting import sift
from optimizer.planning.solver import solve


def sifted(columns, room, goal="money", keep=0.0):
    return sift(columns, room, goal, gap=1e-6, keep=keep, until=math.inf)


@pytest.mark.parametrize(
    ("keep", "kept"),
    [(0.0, 1), (0.04, 1), (0.1, 2), (0.49, 2), (0.51, 3), (0.99, 4), (1.0, 5), (2.0, 5)],
)
def test_columns_are_kept_up_to_the_share_asked_for(keep, kept, cook, kitchen):
    # worse by a share of 0.49 is 1 / 0.51 = 1.96, by 0.51 it is 2.04
    prices = (1.0, 1.05, 2.0, 99.0, 1000.0)
    columns = [cook(0, "gas", 360 + 10 * n, 10, money=price) for n, price in enumerate(prices)]
    found = sifted(columns, kitchen(0), keep=keep)
    assert found.columns == columns[:kept]
    assert found.chosen == (columns[0],)
    assert (found.value, found.bound) == pytest.approx((1.0, 1.0))


@pytest.fixture(name="tight")
def _tight(cook, kitchen):
    """Half on gas and half on sticks would do; whole, only a little gas for more money does."""
    columns = [
        cook(0, "gas", 360, 20, fuel_mj=2.0),
        cook(0, "stick", 360, 20, fuel_mj=2.0, money=1.0),  # and 1.5 MJ for 0.12 to light it
        cook(0, "gas", 390, 20, fuel_mj=1.0, money=1.0),
        cook(0, "gas", 420, 20, fuel_mj=1.0, money=1.5),
    ]
    return columns, kitchen(0, stock_j={"butane": 1e6, "sticks": 1.8e6})


def test_the_search_goes_on_beyond_the_columns_that_cost_nothing(tight):
    columns, room = tight
    found = sifted(columns, room)
    assert found.bound == pytest.approx(0.56)  # half of 1.12
    assert (found.value, found.chosen) == (pytest.approx(1.0), (columns[2],))
    assert found.columns == columns[:3]  # the last one costs 0.5 more than the one that is known


def test_where_no_schedule_is_found_all_are_left_and_the_bound_still_holds(tight):
    columns, room = tight
    found = sifted(columns[:2], room)
    assert (found.columns, found.chosen, found.value) == (columns[:2], (), None)
    assert found.bound == pytest.approx(0.56)


def test_what_not_even_classes_can_do_has_no_bound(cook, kitchen):
    columns = [cook(0, "gas", 360, 20)]
    found = sifted(columns, kitchen(0, 1))  # nobody cooks the second dish
    assert (found.columns, found.chosen, found.value, found.bound) == (columns, (), None, None)


@pytest.mark.parametrize(
    ("goal", "limits", "value", "bound"),
    [
        ("energy", {}, 1, 1),
        ("energy", {"money": 1.0}, 2, 1.5),  # in classes, half of each
        ("money", {}, 0, 0),
        ("money", {"energy": 1.5e6}, 2, 1),
    ],
)
def test_the_most_of_another_goal_counts(goal, limits, value, bound, cook, kitchen):
    columns = [
        cook(0, "gas", 360, 20, fuel_mj=1.0, money=2.0),
        cook(0, "gas", 390, 20, fuel_mj=2.0, money=0.0),
    ]
    found = sifted(columns, replace(kitchen(0), limits=limits), goal)
    assert (found.value, found.bound) == pytest.approx((value, bound))


def test_a_schedule_is_looked_for_as_near_and_as_long_as_is_asked(cook, kitchen, monkeypatch):
    asked = {}

    def watched(program, **given):
        asked.update(given)
        return solve(program, **given)

    monkeypatch.setattr(module, "solve", watched)
    columns = [cook(0, "gas", 360, 20)]
    until = time.perf_counter() + 1000
    found = sift(columns, kitchen(0), "energy", gap=0.25, keep=0.0, until=until)
    assert found.value == 1
    assert asked["gap"] == 0.25
    assert 0 < asked["time_limit_s"] <= 1000
