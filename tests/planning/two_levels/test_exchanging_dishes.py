"""Plans of a day that differ from another in one dish."""

from collections import Counter
from dataclasses import replace

import pytest

from optimizer.planning import exchange as module
from optimizer.planning.days import kinds_of
from optimizer.planning.exchange import exchange
from optimizer.planning.ledger import audit
from optimizer.planning.pricing import day_of, prove, worth

AT = {"sticks": 0.05, "butane": 0.0}
WORSE = 1.0  # of the plan they start from: few days in round numbers have nearly equal plans


@pytest.fixture(autouse=True)
def _farther(monkeypatch):
    monkeypatch.setattr(module, "_WORSE", WORSE)


def exchanged(seed, random_days):
    """Plan the first kind of a case and exchange its dishes: the day, its first plan, the rest."""
    case = random_days(seed)
    day = day_of(kinds_of(case.columns, case.room)[0])
    if prove(day, "money", AT) is None:
        return day, None, []
    first = min(day.kind.plans, key=lambda plan: worth(plan, "money", AT))
    known = list(day.kind.plans)
    exchange(day, first, "money", AT)
    return day, first, [plan for plan in day.kind.plans if plan not in known]


@pytest.mark.parametrize("seed", range(80))
def test_each_can_be_cooked_and_differs_in_one_dish(seed, random_days):
    day, first, new = exchanged(seed, random_days)
    for plan in new:
        audit([day.kind.columns[n] for n in plan.picks], day.kind.kitchen)
        assert plan == day.kind.plan_of(plan.picks, "money")
        changed = Counter(plan.picks) - Counter(first.picks)
        assert changed.total() == 1
        assert worth(plan, "money", AT) <= worth(first, "money", AT) * (1 + WORSE) + 1e-9


@pytest.mark.parametrize("seed", range(80))
def test_none_is_beaten_by_where_it_came_from_or_by_another(seed, random_days):
    _, first, new = exchanged(seed, random_days)
    told = [(p.value, dict(p.fuel_j).get("sticks", 0.0)) for p in ([first] if first else []) + new]
    for number, mine in enumerate(told):
        others = told[:number] + told[number + 1 :]
        assert not any(all(a <= b for a, b in zip(o, mine, strict=True)) for o in others)


def test_many_days_gain_plans(random_days):
    assert sum(bool(exchanged(seed, random_days)[2]) for seed in range(80)) >= 20


def test_the_same_exchange_is_not_made_again(random_days):
    seed = next(seed for seed in range(80) if exchanged(seed, random_days)[2])
    day, first, new = exchanged(seed, random_days)
    day.kind.plans = [plan for plan in day.kind.plans if plan not in new]
    before = len(day.kind.plans)
    exchange(day, first, "money", AT)
    assert len(day.kind.plans) == before
    exchange(day, first, "money", {**AT, "sticks": 0.0501})
    assert len(day.kind.plans) > before


def test_a_dish_moved_to_another_fire_stays_clear_of_the_pots_that_are_there(cook, days_of):
    early = [cook(n, "stick", 400 + 20 * n, 20, fuel_mj=2.0, money=0.1) for n in range(2)]
    late = [cook(n, "gas", 400, 20, fuel_mj=1.0, money=0.102) for n in range(2)]
    clash = [replace(c, money=0.1) for c in late]  # the other dish's pot stands there
    case = days_of([[early[0], clash[0], early[1]], [late[1]]])
    day = day_of(kinds_of(case.columns, case.room)[0])
    plan = day.kind.add([day.kind.columns[0], day.kind.columns[2]], "money")
    exchange(day, plan, "money", AT)
    for made in day.kind.plans:
        audit([day.kind.columns[n] for n in made.picks], day.kind.kitchen)
