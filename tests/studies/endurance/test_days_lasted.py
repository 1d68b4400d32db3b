"""Days that the store lasts, counted by hand where numbers are round, and never too many."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optimizer.errors import LimitError
from optimizer.planning.verify import verify
from optimizer.studies.endurance.days import how_long, mix_top
from optimizer.studies.endurance.pool import Pool
from optimizer.studies.endurance.repeat import repeated
from optimizer.studies.endurance.watch import Watch

POOL = Pool()


@pytest.mark.parametrize(("stock", "days"), [(4.5, 4), (3.02, 3), (2.98, 2), (0.9, 0), (0.0, 0)])
def test_one_fuel_lasts_as_many_days_as_it_holds_days(small, with_stock, day_kg, stock, days):
    found = how_long(with_stock(small(), sticks=stock * day_kg), pool=POOL)
    assert found.days == found.most == days
    assert found.proven
    assert found.stuck is None
    assert days <= found.mix_days < stock + 1e-6 + 1


def test_the_reserve_is_not_burned(small, with_stock, day_kg):
    house = with_stock(small(), reserve=0.25, sticks=4.5 * day_kg)  # 3.375 days without it
    found = how_long(house, pool=POOL)
    assert found.days == found.most == 3
    assert found.plan.fuels[0].left_kg >= 0.25 * 4.5 * day_kg - 1e-6


def test_every_plan_passes_the_checker_and_is_for_the_menu_repeated(small, with_stock, day_kg):
    house = with_stock(small(gas_kg=0.1), sticks=2.2 * day_kg)
    found = how_long(house, pool=POOL)
    assert found.scenario == repeated(house, found.days)
    assert {step.number for step in found.plan.steps} == {i.number for i in found.scenario.items}
    verify(found.plan, found.scenario)
    assert 2 < found.days <= found.most <= found.mix_days


def test_a_second_fuel_takes_over_and_both_are_told(small, with_stock, day_kg):
    found = how_long(with_stock(small(gas_kg=0.1), sticks=2.2 * day_kg), pool=POOL)
    assert {end.fuel for end in found.ends} == {"sticks", "propane"}
    assert sum(end.weight for end in found.ends) == pytest.approx(1.0)
    assert any(end.day is not None for end in found.ends)
    ended = [end.day for end in found.ends if end.day]
    assert ended == sorted(ended)
    assert all(end.left_mj >= 0 for end in found.ends)


def test_without_a_limit_it_lasts_beyond_what_is_looked_at(small, with_stock):
    house = small()
    free = replace(house, stores=(replace(house.stores[0], stock_kg=None),))
    found = how_long(free, most=4, pool=POOL)
    assert found.beyond
    assert not found.proven
    assert (found.days, found.mix_days) == (4, None)
    much = how_long(with_stock(house, sticks=500.0), most=3, pool=POOL)
    assert much.beyond
    assert much.mix_days > 3


def test_a_dish_without_a_way_is_not_called_a_want_of_fuel(small):
    menu = (("porridge", 450), ("beef_stew", 460))
    house = small(menu, days=1)
    items = (house.items[0], replace(house.items[1], day=2, serve_min=1440 + 430))
    two = small(days=2)
    found = how_long(replace(two, items=items), pool=POOL)
    assert found.days == found.most == 1
    assert found.stuck == ("beef stew",)


def test_days_of_a_round_that_differ_are_taken_in_turn(small, with_stock, day_kg):
    two = small(days=2)
    light = tuple(i for i in two.items if i.day == 1 or i.dish.name == "porridge")
    house = replace(two, items=tuple(replace(i, number=n) for n, i in enumerate(light)))
    found = how_long(with_stock(house, sticks=2.5 * day_kg), pool=POOL)
    again = repeated(house, found.days)
    assert [len([i for i in again.items if i.day == day]) for day in (1, 2, 3)] == [2, 1, 2]
    assert found.days >= 3
    assert found.days <= found.mix_days


@settings(max_examples=12, deadline=None)
@given(
    sticks=st.floats(0.2, 3.0), gas=st.floats(0.0, 0.15), more=st.floats(0.0, 1.0),
    reserve=st.sampled_from([0.0, 0.2]),
)  # fmt: skip
def test_more_fuel_never_lasts_fewer_days(small, with_stock, sticks, gas, more, reserve):
    house = small(gas_kg=0.1)
    less = how_long(with_stock(house, reserve, sticks=sticks, propane=gas), pool=POOL)
    grown = how_long(with_stock(house, reserve, sticks=sticks + more, propane=gas), pool=POOL)
    assert grown.most >= less.days
    assert grown.mix_days >= less.mix_days - 1e-6
    for found in (less, grown):
        assert found.days <= found.most
        assert found.days <= found.mix_days + 1e-6
    if less.proven and grown.proven:
        assert grown.days >= less.days


def test_the_same_days_are_found_without_what_was_known_before(small, with_stock, day_kg):
    house = with_stock(small(gas_kg=0.1), sticks=1.7 * day_kg)
    assert how_long(house).days == how_long(house, pool=POOL).days


def test_stopped_before_a_number_is_found(small):
    with pytest.raises(LimitError, match="no number of days"):
        how_long(small(), watch=Watch(tell=lambda _: False))
    with pytest.raises(LimitError, match="allow more time"):
        how_long(small(), watch=Watch(0.0))


def test_days_that_are_known_are_not_looked_for(small, with_stock, day_kg):
    house = with_stock(small(), sticks=3.5 * day_kg)
    found = how_long(house, pool=POOL, at_least=3)
    assert (found.days, found.most, found.plan) == (3, 3, None)


@pytest.mark.parametrize("top", range(8))
@pytest.mark.parametrize("first", [1, 3, 7])
def test_the_top_of_the_mix_is_found_from_anywhere(top, first):
    found = mix_top(lambda n: n <= top, lambda n: n / (top + 0.5), first, 7)
    assert found == min(top, 7)


def test_the_top_is_found_where_no_share_is_known():
    assert mix_top(lambda n: n <= 2, lambda n: 0.1 if n <= 2 else None, 1, 30) == 2
