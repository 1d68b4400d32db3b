"""Columns left out beforehand, against every combination there is."""

import math
import time

import pytest

from optimizer.planning import schedule as module
from optimizer.planning.board import scale
from optimizer.planning.ledger import audit, fuel_of, price_of
from optimizer.planning.schedule import schedule
from optimizer.planning.sifting import sift

SEEDS = range(150)
GOALS = ("money", "energy", "sticks")
GAP = 1e-6


@pytest.mark.usefixtures("sifted")
@pytest.mark.parametrize("seed", SEEDS)
def test_the_best_is_still_found(seed, random_days):
    case, goal = random_days(seed), GOALS[seed % 3]
    best = case.best(goal)
    found = schedule(case.columns, case.room, goals=[goal], gap=GAP)
    if best is None:
        assert found.status == "infeasible"
        return
    audit(found.chosen, case.room)
    assert found.value == pytest.approx(best, rel=1e-5)
    assert found.bound <= best * (1 + 1e-6)


@pytest.mark.parametrize("seed", range(60))
def test_a_second_goal_loses_nothing_by_it(seed, random_days, monkeypatch):
    case, goals, gap = random_days(seed), ("money", "sticks"), 0.05
    monkeypatch.setattr(module, "FEW", 10**9)
    wanted = schedule(case.columns, case.room, goals=goals, gap=gap)
    monkeypatch.setattr(module, "MANY_TO_SIFT", 0)
    found = schedule(case.columns, case.room, goals=goals, gap=gap)
    assert (found.status == "infeasible") == (wanted.status == "infeasible")
    if not found.chosen:
        return
    most = max(found.value, found.bound / (1 - gap))
    assert price_of(found.chosen, case.room, "money") <= most * (1 + 1e-6)
    if found.bound == pytest.approx(wanted.bound):  # else they were given different room
        burnt, other = (fuel_of(each.chosen, case.room) for each in (found, wanted))
        assert burnt.get("sticks", 0.0) <= other.get("sticks", 0.0) / (1 - gap) + 1e3


def sifted(case, keep=0.0, until=math.inf):
    return sift(case.columns, case.room, "money", gap=GAP, keep=keep, until=until)


def test_some_are_left_out_and_more_are_kept_for_what_is_worse(random_days):
    fewer = 0
    for seed in range(40):
        case = random_days(seed)
        sizes = [len(sifted(case, keep).columns) for keep in (0.0, 0.1, 0.5, 1.0)]
        assert sizes == sorted(sizes)
        assert sizes[-1] == len(case.columns)
        fewer += sizes[0] < len(case.columns)
    assert fewer > 10


def test_its_own_schedule_and_bound_hold(random_days):
    for seed in range(40):
        case = random_days(seed)
        left = sifted(case)
        if left.value is None:
            continue
        audit(left.chosen, case.room)
        assert left.value == pytest.approx(price_of(left.chosen, case.room, "money"))
        assert left.bound * scale("money") <= case.best("money") * (1 + 1e-6)
        assert set(map(id, left.chosen)) <= set(map(id, left.columns))


def test_without_time_all_are_left(random_days):
    case = random_days(3)
    late = sifted(case, until=time.perf_counter() - 1)
    assert late.value is not None or len(late.columns) == len(case.columns)
