"""The first days of an outage of unknown end leave as many days open as can be."""

from dataclasses import replace

import pytest

from optimizer.planning.verify import verify
from optimizer.studies.endurance.days import how_long
from optimizer.studies.endurance.ends import burnt_by_day, first_short
from optimizer.studies.endurance.opening import opening
from optimizer.studies.endurance.pool import Pool
from optimizer.studies.endurance.repeat import with_less
from optimizer.studies.endurance.watch import Watch

POOL = Pool()


def looked(house):
    lasting = how_long(house, pool=POOL)
    return lasting, opening(house, lasting, watch=Watch(gap=1e-4), pool=POOL)


@pytest.fixture(scope="module")
def dear_sticks(small, with_stock, day_kg):
    """Sticks cost much and last long; gas costs nothing and is little, so that it goes first."""
    house = with_stock(small(gas_kg=0.08), sticks=3.2 * day_kg)
    stores = (replace(house.stores[0], price_kg=5.0), replace(house.stores[1], price_kg=0.0))
    return replace(house, stores=stores)


def test_no_first_days_leave_more_open_than_are_proven(dear_sticks):
    lasting, found = looked(dear_sticks)
    assert lasting.proven
    assert found.days == 1
    assert found.sparing.open_days == lasting.days - 1
    assert found.ordinary.open_days <= found.sparing.open_days
    for first in (found.sparing, found.ordinary):
        verify(first.plan, dear_sticks)
        assert first.open_days <= first.open_most <= lasting.most - 1


def test_what_is_left_open_can_be_had_with_what_is_left(dear_sticks):
    _, found = looked(dear_sticks)
    for first in (found.sparing, found.ordinary):
        rest = with_less(dear_sticks, {use.name: use.used_mj for use in first.plan.fuels})
        assert how_long(rest, pool=POOL).days >= first.open_days


def test_the_ordinary_plan_is_the_cheapest_at_its_own_prices(dear_sticks):
    _, found = looked(dear_sticks)
    assert found.ordinary.plan.cost <= found.sparing.plan.cost + 1e-6
    for first in (found.sparing, found.ordinary):
        paid = 5.0 * first.plan.fuels[0].used_kg
        assert first.plan.cost == pytest.approx(paid)


def test_a_store_that_does_not_outlast_the_round_has_no_ordinary_plan(small, with_stock, day_kg):
    house = with_stock(small(days=3), sticks=2.4 * day_kg)
    lasting, found = looked(house)
    assert lasting.days == found.days == 2
    assert found.ordinary is None
    assert found.sparing.open_days == 0
    assert {step.day for step in found.sparing.plan.steps} == {1, 2}


def test_nothing_can_be_kept_open_where_no_day_can_be_had(small, with_stock):
    house = with_stock(small(), sticks=0.0)
    assert opening(house, how_long(house, pool=POOL), watch=Watch(), pool=POOL) is None


def test_the_first_fuel_that_is_short_by_hand(small, with_stock, day_kg):
    house = with_stock(small(), sticks=3.5 * day_kg)
    plan = how_long(with_stock(house, sticks=1.01 * day_kg), pool=POOL).plan
    burnt = sum(burnt_by_day(plan, house)["sticks"])
    assert burnt == pytest.approx(plan.fuels[0].used_mj)
    assert first_short(plan, house) == ("sticks", 4)  # three rounds of a day, then too little
    assert (
        first_short(plan, replace(house, stores=(replace(house.stores[0], stock_kg=None),))) is None
    )


def test_with_less_takes_the_reserve_and_what_is_burned(small, with_stock):
    house = with_stock(small(gas_kg=1.0), reserve=0.25, sticks=4.0)
    left = with_less(house, {"propane": 46.0e0})
    sticks, propane = left.stores
    assert (sticks.stock_kg, sticks.reserve) == (3.0, 0.0)
    heat = house.stores[1].fuel.lhv_j_kg
    assert propane.stock_kg == pytest.approx(max(0.0, 0.75 - 46e6 / heat), abs=1e-9)
