"""Stopped, out of time, watched, and the same twice."""

import pytest

from optimizer.planning import branching, levels
from optimizer.planning.ledger import audit, price_of
from optimizer.planning.schedule import schedule

SEEDS = [s for s in range(20) if s % 4 in (0, 1, 2)]


def solvable(random_days, seed):
    case = random_days(seed)
    return case if case.best("money") is not None else None


@pytest.mark.usefixtures("two_levels")
@pytest.mark.parametrize("seed", SEEDS)
def test_stopped_after_a_first_plan_it_keeps_the_plan(seed, random_days):
    case = solvable(random_days, seed)
    if case is None:
        return
    heard = []

    def stop(seconds, value, bound):
        heard.append(value)
        return value is None

    found = schedule(case.columns, case.room, goals=["money"], gap=1e-7, progress=stop)
    audit(found.chosen, case.room)
    assert found.value == price_of(found.chosen, case.room, "money")
    assert found.bound <= case.best("money") * (1 + 1e-6)
    assert found.gap == pytest.approx((found.value - found.bound) / found.value)
    if found.gap > 1e-6:
        assert found.status == "stopped"
        assert len({value for value in heard if value is not None}) == 1


@pytest.mark.usefixtures("two_levels")
def test_stopped_at_once_there_is_no_plan(random_days):
    case = random_days(0)
    found = schedule(case.columns, case.room, goals=["money"], progress=lambda *_: False)
    assert (found.status, found.chosen, found.value) == ("no_plan", (), None)


@pytest.mark.usefixtures("two_levels")
def test_no_time_at_all(random_days):
    case = random_days(0)
    found = schedule(case.columns, case.room, goals=["money"], time_limit_s=0.0)
    if found.chosen:
        audit(found.chosen, case.room)
        assert found.status in ("time_limit", "within_gap", "optimal")
    else:
        assert (found.status, found.value, found.bound) == ("no_plan", None, None)


@pytest.mark.usefixtures("two_levels")
@pytest.mark.parametrize("seed", SEEDS)
def test_bounds_only_rise_and_values_only_fall(seed, random_days):
    case = solvable(random_days, seed)
    heard = []

    def listen(seconds, value, bound):
        heard.append((seconds, value, bound))

    if case is None:
        return
    found = schedule(case.columns, case.room, goals=["money"], gap=1e-4, progress=listen)
    seconds, values, bounds = zip(*heard, strict=True)
    values = [value for value in values if value is not None]
    bounds = [bound for bound in bounds if bound is not None]
    assert list(seconds) == sorted(seconds)
    assert values == sorted(values, reverse=True)
    assert bounds == sorted(bounds)
    assert found.value <= min(values, default=found.value) * (1 + 1e-9)
    assert min(found.value, max(bounds)) <= case.best("money") * (1 + 1e-6)


def answer(case, threads, monkeypatch):
    monkeypatch.setattr(levels, "THREADS", threads)
    monkeypatch.setattr(branching, "THREADS", threads)
    found = schedule(case.columns, case.room, goals=["money", "tending"], gap=1e-3)
    return found.status, found.chosen, found.value, found.bound


@pytest.mark.usefixtures("two_levels")
@pytest.mark.parametrize("seed", SEEDS[:20])
def test_the_same_twice(seed, random_days, monkeypatch):
    case = random_days(seed)
    one = answer(case, 1, monkeypatch)
    assert answer(case, 1, monkeypatch) == one


@pytest.mark.usefixtures("two_levels")
def test_the_same_with_any_number_of_threads(random_days, monkeypatch):
    for seed in (2, 16, 17, 18, 20):
        case = random_days(seed)
        assert answer(case, 2, monkeypatch) == answer(case, 1, monkeypatch)
