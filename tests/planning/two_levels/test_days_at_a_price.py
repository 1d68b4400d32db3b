"""Days with fuel at a price, against every plan of such a day."""

import random

import pytest

from optimizer.planning.board import MJ, scale
from optimizer.planning.cheapest import Effort, cheapest
from optimizer.planning.days import DayPlan, kinds_of
from optimizer.planning.pricing import (
    day_of,
    guess,
    plans_within,
    promising,
    prove,
    sketched,
    worth,
)

SEEDS = range(24)
GOALS = ("money", "energy", "sticks")


def days_and_plans(case, goal):
    """Every kind of day, and all plans of the group of days it stands for."""
    for kind in kinds_of(case.columns, case.room):
        number = next(n for n, g in enumerate(case.groups) if kind.kitchen.items[0] in g)
        if set(kind.kitchen.items) != set(case.groups[number]):
            continue  # the evening before ties it to a day of which it has no columns
        plans = []
        for chosen in case.plans(number):
            total, *fuel_j = case.total(chosen, goal)
            plans.append(DayPlan((), total, tuple(zip(("sticks", "butane"), fuel_j, strict=True))))
        yield day_of(kind), plans


def some_prices(chance, goal):
    top = 0.3 if goal == "money" else 2.0
    return {fuel: chance.choice((0.0, chance.uniform(0, top))) for fuel in ("sticks", "butane")}


@pytest.mark.parametrize("seed", SEEDS)
def test_a_proof_is_no_more_than_any_plan_and_near_to_the_least(seed, random_days):
    chance, goal = random.Random(seed), GOALS[seed % 3]
    for day, plans in days_and_plans(random_days(seed), goal):
        for _ in range(3):
            at = some_prices(chance, goal)
            least = min((worth(plan, goal, at) for plan in plans), default=None)
            bound = prove(day, goal, at)
            if least is None:
                assert bound is None
                continue
            slack = 1e-6 * max(1.0, abs(least))
            assert bound <= least + slack
            assert bound >= least * (1 - 2e-3) - slack
            assert guess(day, goal, at).bound <= least + slack
            assert min(worth(p, goal, at) for p in day.kind.plans) <= least * (1 + 2e-3) + slack


@pytest.mark.parametrize("seed", SEEDS)
def test_a_proof_within_bands(seed, random_days):
    chance, goal = random.Random(seed), GOALS[seed % 3]
    for day, plans in days_and_plans(random_days(seed), goal):
        burnt = sorted({dict(p.fuel_j)["sticks"] / MJ for p in plans})
        if len(burnt) < 2:
            continue
        cut = chance.randrange(1, len(burnt))
        middle = (burnt[cut - 1] + burnt[cut]) / 2
        for bands in ((("sticks", 0.0, middle),), (("sticks", middle, 1e9),)):
            at = some_prices(chance, goal)
            inside = [
                p for p in plans if bands[0][1] <= dict(p.fuel_j)["sticks"] / MJ <= bands[0][2]
            ]
            bound = prove(day, goal, at, bands)
            least = min(worth(p, goal, at) for p in inside)
            assert bound <= least + 1e-6 * max(1.0, abs(least))
            mine = plans_within(day.kind, bands)
            if not bands[0][1]:  # a fire may idle on to come up to a least, in a program
                assert bound >= least * (1 - 2e-3) - 1e-6
                assert min(worth(p, goal, at) for p in mine) <= least * (1 + 2e-3) + 1e-6
            for plan in mine:
                assert bands[0][1] - 2e-6 <= dict(plan.fuel_j).get("sticks", 0.0) / MJ
                assert dict(plan.fuel_j).get("sticks", 0.0) / MJ <= bands[0][2] + 2e-6


def test_bands_that_no_plan_keeps_to(cook, days_of):
    case = days_of([[cook(0, "gas", 400, 20, fuel_mj=2.0)]] * 2)
    (day,) = (day_of(kind) for kind in kinds_of(case.columns, case.room))
    assert prove(day, "energy", {"butane": 1.0}, (("butane", 0.0, 1.9),)) is None
    assert prove(day, "energy", {"butane": 1.0}, (("butane", 1.9, 2.1),)) == pytest.approx(4.0)
    assert prove(day, "energy", {"butane": 1.0}) == pytest.approx(4.0)


def test_a_day_that_cannot_be_cooked(cook, days_of):
    crowded = [cook(0, "gas", 400, 20), cook(1, "gas", 410, 20)]
    case = days_of([crowded] * 2)
    (day,) = (day_of(kind) for kind in kinds_of(case.columns, case.room))
    assert prove(day, "energy", {}) is None
    assert not day.kind.plans


@pytest.mark.parametrize("seed", SEEDS)
def test_no_column_of_a_best_plan_is_dropped(seed, random_days):
    chance, goal = random.Random(seed), GOALS[seed % 3]
    for day, plans in days_and_plans(random_days(seed), goal):
        at = some_prices(chance, goal)
        least = min(worth(plan, goal, at) for plan in plans)
        prove(day, goal, at, gap=0.0)
        kept = promising(day, goal, at, 0.0)
        assert {place for plan in day.kind.plans for place in plan.picks} <= set(kept)
        few = [day.kind.columns[place] for place in kept]
        found = cheapest(few, day.kind.kitchen, goal, at, effort=Effort(gap=0.0))
        plan = day.kind.add(found.chosen, goal)
        assert worth(plan, goal, at) == pytest.approx(least, rel=1e-6, abs=1e-6)


def test_promising_leaves_columns_out(random_days):
    left = 0
    for seed in range(10):
        for day, _ in days_and_plans(random_days(seed), "money"):
            prove(day, "money", {"sticks": 0.05})
            kept = promising(day, "money", {"sticks": 0.05}, 0.0)
            assert list(kept) == sorted(set(kept))
            left += len(day.kind.columns) - len(kept)
    assert left >= 20


def test_a_sketch_adds_a_plan_near_to_its_bound(random_days):
    case = random_days(4)
    for day, plans in days_and_plans(case, "money"):
        bound = sketched(day, "money", {"sticks": 0.02})
        least = min(worth(plan, "money", {"sticks": 0.02}) for plan in plans)
        assert bound <= least + 1e-6
        assert len(day.kind.plans) == 1


def test_worth_counts_the_goal_and_fuel_at_its_price():
    plan = DayPlan((), 3e6, (("butane", 2e6), ("sticks", 1e6)))
    assert worth(plan, "energy", {"butane": 0.5}) == pytest.approx(3 + 1)
    assert worth(plan, "money", {"sticks": 0.5}) == pytest.approx(3e6 + 0.5)
    assert scale("energy") == MJ
