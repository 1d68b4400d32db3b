"""The search in two levels against every combination there is."""

import pytest

from optimizer.planning.ledger import audit, price_of
from optimizer.planning.schedule import schedule

SEEDS = range(200)
GOALS = ("money", "energy", "sticks")
GAP = 0.01


@pytest.mark.usefixtures("two_levels")
@pytest.mark.parametrize("seed", SEEDS)
def test_no_bound_above_the_best_and_no_plan_below_it(seed, random_days):
    case, goal = random_days(seed), GOALS[seed % 3]
    best = case.best(goal)
    found = schedule(case.columns, case.room, goals=[goal], gap=GAP)
    if best is None:
        assert found.status == "infeasible"
        return
    audit(found.chosen, case.room)
    assert found.value == price_of(found.chosen, case.room, goal)
    assert found.bound <= best * (1 + 1e-6)
    assert found.value >= best * (1 - 1e-4)
