"""What any purchase keeps to: money, limits, margins, reserves; and what is said where none is."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optimizer.errors import CheckError
from optimizer.model.household import Shop
from optimizer.planning.verify import verify
from optimizer.studies.buying.margin import margin
from optimizer.studies.buying.offers import offers_of
from optimizer.studies.buying.study import what_to_buy

TEA = (("tea", 450), ("drinking_water", 1080))


def full_shop(stall, stick_price=1.0, gas_price=2.0) -> Shop:
    return Shop(
        fuels=(
            stall.fuel("sticks", stick_price, 0.5, limit=3.0),
            stall.fuel("propane", gas_price, 0.1),
        ),
        things=(stall.stove("gas_burner", 4.0), stall.box(3.0), stall.pot("pot_4l", 2.0)),
        water=(stall.bottles(0.9, 2.0),),
    )


@settings(max_examples=12, deadline=None)
@given(
    days=st.integers(1, 5),
    stick_price=st.floats(0.1, 8.0),
    gas_price=st.floats(0.1, 8.0),
    sticks_kg=st.floats(0.0, 2.0),
)
def test_every_purchase_keeps_to_its_promises(
    days, stick_price, gas_price, sticks_kg, small, stall
):
    shop = full_shop(stall, stick_price, gas_price)
    scenario = small(shop, menu=TEA, sticks_kg=sticks_kg)
    found = what_to_buy(scenario, days, savings=False)
    assert found.cost is not None
    assert found.plan is not None
    assert found.household is not None
    assert found.household.days == days
    verify(found.plan, found.household)
    assert found.cost == pytest.approx(sum(b.count * b.offer.price for b in found.bought))
    assert found.bound <= found.cost + 1e-6
    for held in found.fuels:
        assert held.careful_mj >= held.used_mj
        assert held.usable_mj is not None
        assert held.careful_mj <= held.usable_mj * (1 + 1e-4) + 1e-4
        if held.store.fuel.name == "sticks":
            assert held.store.stock_kg <= max(3.0, sticks_kg) + 1e-9
    got = sum(b.litres or 0.0 for b in found.bought)
    packed = sum(b.count * b.offer.amount for b in found.bought if b.offer.kind == "water")
    assert got <= packed + 1e-6
    drunk = [item for item in found.household.items if item.dish.name == "drinking_water"]
    assert sum(item.adult_portions for item in drunk) + got == pytest.approx(2.0 * days)


@settings(max_examples=8, deadline=None)
@given(days=st.integers(1, 4), sticks_kg=st.floats(0.0, 1.0), gas_price=st.floats(0.5, 6.0))
def test_more_days_never_cost_less(days, sticks_kg, gas_price, small, stall):
    scenario = small(full_shop(stall, 2.0, gas_price), menu=TEA, sticks_kg=sticks_kg)
    fewer = what_to_buy(scenario, days, gap=0.0, savings=False)
    more = what_to_buy(scenario, days + 1, gap=0.0, savings=False)
    assert more.cost >= fewer.bound - 1e-6
    if fewer.known:
        assert more.cost >= fewer.cost - 1e-6


@settings(max_examples=8, deadline=None)
@given(one=st.floats(0.0, 12.0), more=st.floats(0.0, 12.0))
def test_a_larger_budget_never_costs_more(one, more, small, stall):
    scenario = small(full_shop(stall, 3.0, 2.0), menu=TEA, sticks_kg=0.1)
    less = what_to_buy(scenario, 2, budget=one, gap=0.0, savings=False)
    larger = what_to_buy(scenario, 2, budget=one + more, gap=0.0, savings=False)
    if less.cost is not None:
        assert larger.cost == less.cost
        assert less.cost <= one + 1e-6
    else:
        assert less.changes
        assert less.plan is None


def test_too_little_money_says_how_much_more(small, stall):
    scenario = small(Shop(fuels=(stall.fuel("sticks", 1.5, 0.3),)))
    free = what_to_buy(scenario, 2, savings=False)
    assert free.cost > 1.0
    found = what_to_buy(scenario, 2, budget=free.cost - 1.0, savings=False)
    assert found.plan is None
    assert found.cost is None
    assert [change.sort for change in found.changes] == ["money"]
    assert found.changes[0].more_money == pytest.approx(1.0)
    enough = what_to_buy(scenario, 2, budget=free.cost, savings=False)
    assert enough.cost == free.cost


def test_too_little_room_says_which_limit(small, stall):
    scenario = small(Shop(fuels=(stall.fuel("sticks", 1.5, 0.3, limit=0.8),)))
    found = what_to_buy(scenario, 2, savings=False)
    free = what_to_buy(small(Shop(fuels=(stall.fuel("sticks", 1.5, 0.3),))), 2, savings=False)
    assert found.plan is None
    (change,) = found.changes
    assert change.sort == "limit"
    assert change.cost == free.cost
    ((offer, room),) = change.limits
    assert offer.name == "sticks"
    assert room == pytest.approx(0.4 + free.bought[0].count * 0.3)


def test_too_little_of_both_says_so(small, stall):
    scenario = small(Shop(fuels=(stall.fuel("sticks", 1.5, 0.3, limit=0.8),)))
    found = what_to_buy(scenario, 2, budget=2.0, savings=False)
    (change,) = found.changes
    assert change.sort == "both"
    assert change.more_money == pytest.approx(change.cost - 2.0)


def test_a_dish_that_nothing_cooks_is_named(small, stall):
    scenario = small(Shop(things=(stall.box(1.0),)), menu=(("lentil_stew", 750),), people=40)
    found = what_to_buy(scenario, 1, savings=False)
    assert found.plan is None
    assert found.stuck == ("lentil stew",)


def test_without_a_shop_nothing_can_be_bought(small):
    scenario = small(None, sticks_kg=0.1)
    found = what_to_buy(scenario, 1, savings=False)
    assert found.plan is None
    assert not found.changes


def test_what_is_in_the_house_is_counted_against_the_limit(small, stall):
    scenario = small(Shop(fuels=(stall.fuel("sticks", 1.0, 0.5, limit=2.0),)), sticks_kg=0.9)
    assert [offer.most for offer in offers_of(scenario)] == [2]
    over = replace(scenario, stores=(replace(scenario.stores[0], stock_kg=5.0),))
    assert [offer.most for offer in offers_of(over)] == [0]


def test_a_fuel_without_end_is_not_sold(small, stall):
    scenario = small(Shop(fuels=(stall.fuel("sticks", 1.0, 0.5),)))
    endless = replace(scenario, stores=(replace(scenario.stores[0], stock_kg=None),))
    assert offers_of(endless) == ()


def test_a_reserve_is_kept_of_what_is_bought_too(small, stall):
    shop = Shop(fuels=(stall.fuel("sticks", 1.0, 0.1),))
    scenario = small(shop, sticks_kg=0.0)
    kept = replace(scenario, stores=(replace(scenario.stores[0], reserve=0.5),))
    plain = what_to_buy(scenario, 1, gap=0.0, savings=False).bought[0].count
    double = what_to_buy(kept, 1, gap=0.0, savings=False).bought[0].count
    assert plain * 2 - 1 <= double <= plain * 2


def test_the_margin_is_that_of_a_lognormal_quantile(small):
    """exp(z s), z = 1.2816 at nine cases of ten (standard normal tables, from memory)."""
    scenario = small(None)
    own, store = scenario.stoves[0], scenario.stores[0]
    spread = (0.15**2 + 0.05**2) ** 0.5
    assert own.stove.efficiency_spread == 0.15
    assert store.fuel.lhv_spread == 0.05
    assert margin(own, store, 0.9) == pytest.approx(2.718281828 ** (1.2816 * spread), rel=1e-4)
    assert margin(own, store, 0.5) == pytest.approx(1.0)


def test_more_confidence_never_costs_less(small, stall):
    costs = [
        what_to_buy(
            small(Shop(fuels=(stall.fuel("sticks", 1.0, 0.1),)), confidence=sure),
            2,
            gap=0.0,
            savings=False,
        ).cost
        for sure in (0.55, 0.9, 0.999)
    ]
    assert costs == sorted(costs)
    assert costs[0] < costs[-1]


def test_water_for_an_infant_is_always_boiled(small, stall):
    shop = Shop(fuels=(stall.fuel("sticks", 50.0, 1.0),), water=(stall.bottles(0.1, 6.0),))
    scenario = small(shop, menu=(("bottle_water", 450), ("drinking_water", 1080)), sticks_kg=0.1)
    found = what_to_buy(scenario, 1, savings=False)
    assert any(step.dish == "bottle_water" for step in found.plan.steps)


def test_a_wrong_plan_would_be_refused(small, stall):
    found = what_to_buy(small(Shop(fuels=(stall.fuel("sticks", 1.0, 0.6),))), 1, savings=False)
    step = found.plan.steps[0]
    wrong = replace(
        found.plan, steps=(replace(step, fuel_mj=step.fuel_mj / 2), *found.plan.steps[1:])
    )
    with pytest.raises(CheckError):
        verify(wrong, found.household)
