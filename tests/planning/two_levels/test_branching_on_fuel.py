"""Cases of what torn days may burn: they close what prices leave open."""

import pytest

from optimizer.planning import branching, closing, levels
from optimizer.planning.ledger import audit
from tests.planning.two_levels.torn_days import ladder_of, torn


@pytest.fixture(autouse=True)
def _nothing_closed_whole(monkeypatch) -> None:
    """Leave what is left to the cases."""
    monkeypatch.setattr(closing, "MOST", 0)


def test_prices_alone_leave_a_gap(cook, days_of, monkeypatch):
    monkeypatch.setattr(levels, "branch", lambda ladder: None)
    case = torn(cook, days_of)
    ladder = ladder_of(case)
    levels.climb(ladder)
    # three MJ over the least 4 let one day in four burn 3 MJ: 1 + 3 * 4 = 13; the mixture gives
    # 2.9 / 2 such days: 16 - 3 * 1.45 = 11.65
    assert ladder.value == pytest.approx(13.0)
    assert ladder.bound == pytest.approx(11.65, rel=1e-3)
    assert not ladder.done


@pytest.mark.parametrize("stock_mj", [5.0, 6.9, 7.5, 9.9])
@pytest.mark.parametrize("days", [4, 5])
def test_cases_raise_no_bound_above_the_best(days, stock_mj, cook, days_of, monkeypatch):
    monkeypatch.setattr(branching, "THREADS", 1)
    case = torn(cook, days_of, days, stock_mj)
    best = case.best("money")
    heard = []
    ladder = ladder_of(case, heard=heard)
    levels.climb(ladder)
    if best is None:
        assert ladder.value is None
        return
    audit(ladder.chosen, case.room)
    assert ladder.value == pytest.approx(best)
    bounds = [bound for _, bound in heard if bound is not None]
    assert max(bounds) <= best * (1 + 1e-6)
    assert bounds == sorted(bounds)


def test_cases_close_the_gap(cook, days_of, monkeypatch):
    monkeypatch.setattr(branching, "THREADS", 1)
    ladder = ladder_of(torn(cook, days_of))
    levels.climb(ladder)
    assert ladder.done
    assert ladder.value == pytest.approx(13.0)


def test_a_plan_that_no_price_finds_may_still_be_the_best(cook, days_of, monkeypatch):
    monkeypatch.setattr(branching, "THREADS", 1)
    plans = ((1.55, 3.539), (3.55, 1.186), (3.65, 1.013))
    pots = ("pot:big", "pot:small", "pot:third")
    day = [
        cook(0, "gas", 400, 20, fuel_mj=fuel_mj, money=money, pot=pot)
        for (fuel_mj, money), pot in zip(plans, pots, strict=True)
    ]
    case = days_of([day] * 4, stock_j={"butane": 12.229e6})
    case.room.capacity.update({"pot:third": 1})
    # three days of 3.55 MJ and one of 1.55 MJ take 12.2 MJ: 3 * 1.186 + 3.539
    assert case.best("money") == pytest.approx(7.097)
    ladder = ladder_of(case, gap=1e-6)
    levels.climb(ladder)
    assert ladder.bound <= 7.097 * (1 + 1e-6)


@pytest.mark.parametrize("seed", range(0, 200, 10))
def test_no_case_goes_too_far(seed, random_days, monkeypatch):
    monkeypatch.setattr(branching, "THREADS", 1)
    case = random_days(seed)
    best, heard = case.best("money"), []
    ladder = ladder_of(case, gap=1e-5, heard=heard)
    levels.climb(ladder)
    if best is None:
        assert ladder.value is None
        return
    for value, bound in heard:
        assert bound is None or bound <= best * (1 + 1e-6)
        assert value is None or value >= best * (1 - 1e-4)


def test_looking_at_no_case_leaves_the_bound(cook, days_of, monkeypatch):
    monkeypatch.setattr(branching, "_CASES", 0)
    ladder = ladder_of(torn(cook, days_of))
    levels.climb(ladder)
    assert ladder.bound == pytest.approx(11.65, rel=1e-3)


def test_two_threads_work_on_one_kind_of_day_at_once(random_days, monkeypatch):
    """Both halves of a kind are planned at once: neither may spoil the other's program."""
    for seed in (84, 99, 114, 127, 151, 162, 176, 192):
        found = []
        for threads in (1, 2, 2):
            monkeypatch.setattr(levels, "THREADS", threads)
            monkeypatch.setattr(branching, "THREADS", threads)
            case, goal = random_days(seed), ("money", "energy", "sticks")[seed % 3]
            ladder = ladder_of(case, goal=goal, gap=1e-2)
            levels.climb(ladder)
            found.append((ladder.value, ladder.bound, ladder.chosen))
        assert found[0] == found[1] == found[2]
