"""No point of a frontier is beaten by another; its ends are the single-goal optima."""

from functools import lru_cache
from itertools import permutations

import pytest

from optimizer.model.household import Scenario
from optimizer.planning.kitchen import choices, kitchen_of
from optimizer.planning.schedule import schedule
from optimizer.scenario.reading import read
from optimizer.shelf import data_folder
from optimizer.studies.frontier import Frontier, frontier

GAP = 1e-6


@lru_cache
def shipped(name: str) -> Scenario:
    return read(data_folder() / "scenarios" / f"{name}.yaml")


@lru_cache
def found(name: str, against: str, gap: float) -> Frontier:
    return frontier(shipped(name), against=against, count=4, gap=gap, time_limit_s=60)


def least(name: str, goal: str) -> float:
    scenario = shipped(name)
    made = schedule(choices(scenario).columns, kitchen_of(scenario), goals=(goal,), gap=GAP)
    assert made.value is not None
    return made.value


CASES = [("one_person_jar", "tending", GAP), ("outage_weekend", "energy", 0.01)]


@pytest.mark.parametrize("case", CASES)
def test_no_point_is_dominated(case):
    points = found(*case).points
    assert points
    for one, other in permutations(points, 2):
        worse = [a > b for a, b in zip(one.values, other.values, strict=True)]
        assert any(worse), "as good or better in both"
        assert not all(worse), "worse in both"


def test_the_ends_are_the_best_of_each_goal():
    points = found("one_person_jar", "tending", GAP).points
    assert points[0].values[0] == pytest.approx(least("one_person_jar", "money"), rel=1e-5)
    assert points[-1].values[1] == pytest.approx(least("one_person_jar", "tending"), rel=1e-5)


def test_the_ends_are_within_the_gap_of_the_best():
    points = found("outage_weekend", "energy", 0.01).points
    assert points[0].values[0] <= least("outage_weekend", "money") / (1 - 0.01)
    assert points[-1].values[1] <= least("outage_weekend", "energy") / (1 - 0.01)


@pytest.mark.parametrize("case", CASES)
def test_a_point_is_a_plan_that_takes_what_the_point_says(case):
    for point in found(*case).points:
        assert point.plan.cost == pytest.approx(point.values[0])
        second = point.plan.tending_minutes if case[1] == "tending" else point.plan.fuel_mj * 1e6
        assert second == pytest.approx(point.values[1])


def test_a_stop_ends_it_with_what_there_is():
    calls: list[int] = []

    def stop_after_one(done: int, count: int) -> bool:
        calls.append(done)
        assert count == 4
        return done < 1

    made = frontier(shipped("one_person_jar"), count=4, progress=stop_after_one)
    assert not made.complete
    assert len(made.points) == 1
    assert max(calls) == 1


def test_no_plan_gives_no_point():
    made = frontier(shipped("short_of_fuel"), count=3)
    assert made.points == ()
    assert not made.complete


def test_a_frontier_has_two_ends():
    with pytest.raises(ValueError, match="two ends"):
        frontier(shipped("one_person_jar"), count=1)
