"""The cheapest plan of a day at prices of fuel, in sums of three numbers."""

import math
import time

import pytest

from optimizer.planning import cheapest as module
from optimizer.planning.cheapest import Cheapest, Effort, cheapest
from optimizer.planning.solver import Outcome


@pytest.fixture(name="soup")
def _soup(cook):
    """Sticks: 2 MJ and 1.5 MJ to light it, for 0.16 + 0.12; gas: 1 MJ for 0.3."""
    return (
        cook(0, "stick", 360, 20, fuel_mj=2, money=0.16),
        cook(0, "gas", 360, 20, fuel_mj=1, money=0.3),
    )


@pytest.mark.parametrize(
    ("goal", "at", "chosen", "bound"),
    [
        ("money", {}, 0, 0.28),
        ("money", {"sticks": 0.1}, 1, 0.3),  # 0.28 + 3.5 x 0.1 is more
        ("money", {"sticks": 0.1, "butane": 1.0}, 0, 0.63),
        ("energy", {"butane": 1.0}, 1, 2.0),  # each MJ counts by itself and at its price
        ("energy", {"butane": 3.0}, 0, 3.5),
        ("butane", {}, 0, 0.0),
        ("butane", {"sticks": 2.0}, 1, 1.0),
    ],
)
def test_fuel_is_paid_beside_the_goal(goal, at, chosen, bound, soup, kitchen):
    found = cheapest(soup, kitchen(0), goal, at)
    assert found.chosen == (soup[chosen],)
    assert found.bound == pytest.approx(bound, rel=1e-3)
    assert not found.cut_short


@pytest.mark.parametrize(
    ("bands", "chosen"),
    [
        ((("sticks", 0.0, 3.4),), 1),
        ((("sticks", 0.0, 3.6),), 0),
        ((("butane", 0.9, 1.1),), 1),
        ((("sticks", 0.0, 9.0), ("butane", 0.9, 1.1)), 1),
        ((("sticks", 0.0, 3.4), ("butane", 0.0, 0.9)), None),
    ],
)
def test_fuel_stays_within_its_bands(bands, chosen, soup, kitchen):
    found = cheapest(soup, kitchen(0), "money", {}, bands)
    if chosen is None:
        assert found == Cheapest((), math.inf, cut_short=False)
    else:
        assert found.chosen == (soup[chosen],)


def test_a_plan_known_before_is_only_a_beginning(soup, kitchen):
    found = cheapest(soup, kitchen(0), "money", {}, start=(soup[1],))
    assert found.chosen == (soup[0],)


@pytest.fixture(name="ended")
def _ended(soup, kitchen, monkeypatch):
    """A search that ends as it is told to, and what it was asked."""
    asked = {}

    def ended(status, bound=None, effort=None):
        def solve(program, **given):
            asked.update(given)
            return Outcome(status, "", None, bound, None, 0.0, 0)

        monkeypatch.setattr(module, "solve", solve)
        return cheapest(soup, kitchen(0), "money", {}, effort=effort or Effort()), asked

    return ended


def test_a_search_without_a_plan_tells_what_it_has_proven(ended):
    assert ended("infeasible")[0] == Cheapest((), math.inf, cut_short=False)
    assert ended("infeasible", 0.2)[0] == Cheapest((), math.inf, cut_short=False)
    assert ended("no_solution", 0.2)[0] == Cheapest((), 0.2, cut_short=True)
    assert ended("no_solution")[0] == Cheapest((), -math.inf, cut_short=True)
    assert ended("feasible")[0] == Cheapest((), -math.inf, cut_short=True)  # a plan, no bound


def test_the_search_is_given_no_more_effort_than_it_may_have(ended):
    until = time.perf_counter() + 1000
    _, asked = ended("infeasible", effort=Effort(gap=0.25, most_nodes=7, until=until))
    assert (asked["gap"], asked["most_nodes"]) == (0.25, 7)
    assert 0 < asked["time_limit_s"] <= 1000
    assert ended("infeasible")[1]["time_limit_s"] is None
