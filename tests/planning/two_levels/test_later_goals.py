"""Further goals, block by block, within what the first goal left."""

from dataclasses import replace

import pytest

from optimizer.planning.ledger import audit, fuel_of, price_of
from optimizer.planning.schedule import schedule

GAP = 0.05


@pytest.mark.usefixtures("two_levels")
@pytest.mark.parametrize("seed", [s for s in range(28) if s % 4 != 3])
def test_a_later_goal_keeps_the_first(seed, random_days):
    case = random_days(seed)
    best = case.best("money")
    first = schedule(case.columns, case.room, goals=["money"], gap=GAP)
    both = schedule(case.columns, case.room, goals=["money", "tending"], gap=GAP)
    if best is None:
        assert both.status == "infeasible"
        return
    audit(both.chosen, case.room)
    assert both.value <= best / (1 - GAP) + 1e-4
    assert both.bound <= best * (1 + 1e-6)
    before = price_of(first.chosen, case.room, "tending")
    if first.gap <= GAP:
        assert price_of(both.chosen, case.room, "tending") <= before + 1e-4


@pytest.mark.usefixtures("two_levels")
def test_it_makes_tending_less_where_it_may(cook, days_of):
    day = [
        cook(0, "gas", 400, 20, fuel_mj=2.0, money=1.0, tend_min=30),
        cook(0, "gas", 430, 20, fuel_mj=2.0, money=1.0, tend_min=5),
    ]
    case = days_of([day] * 4)
    found = schedule(case.columns, case.room, goals=["money", "tending"])
    assert price_of(found.chosen, case.room, "tending") == pytest.approx(20)
    assert found.value == pytest.approx(4.0)


@pytest.mark.usefixtures("two_levels")
def test_a_later_goal_takes_no_fuel_that_others_need(cook, days_of):
    """Gas is all used by the last day; the others may not turn to it for the sake of tending."""
    sticks = cook(0, "gas", 400, 20, fuel_mj=2.0, money=1.0, tend_min=30)
    sticks = replace(sticks, fuel="sticks")
    gas = cook(0, "gas", 430, 20, fuel_mj=2.0, money=1.001, tend_min=5)
    only_gas = cook(0, "gas", 400, 20, fuel_mj=2.0, money=1.0, tend_min=5)
    case = days_of([[sticks, gas], [sticks, gas], [only_gas]], stock_j={"butane": 3e6})
    found = schedule(case.columns, case.room, goals=["money", "tending"], gap=0.05)
    audit(found.chosen, case.room)
    assert fuel_of(found.chosen, case.room)["butane"] <= 3e6 + 1e3
