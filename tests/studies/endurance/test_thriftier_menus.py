"""Dishes of a kind, thriftier ones, and what changes the days."""

from dataclasses import replace

import pytest

from optimizer import shelf
from optimizer.model.eaters import Diet, Group, Helping
from optimizer.planning.kitchen import household_of
from optimizer.studies.endurance import changes as otherwise
from optimizer.studies.endurance.days import how_long
from optimizer.studies.endurance.fallback import Fallback, Held
from optimizer.studies.endurance.menus import (
    FILLING,
    is_washing,
    kind_of,
    least_fuel_j,
    nourishment_j,
    thriftier,
    with_dish,
    without,
)
from optimizer.studies.endurance.pool import Pool
from optimizer.studies.endurance.watch import Watch

DISHES = shelf.load().dishes
POOL = Pool()

# What a cook would call them.
KINDS = {
    "water": ("drinking_water", "washing_water", "tea", "hot_bottles", "bottle_water"),
    "meat": ("beef_stew", "chicken_soup", "fish_soup", "boiled_eggs"),
    "pulses": ("bean_stew", "lentil_soup", "chickpea_stew", "split_pea_soup", "soybean_stew"),
    "grain": ("porridge", "rice", "bulgur", "couscous", "cornmeal_mush", "pasta_tomato"),
    "vegetables": ("potatoes", "vegetable_soup", "pumpkin_soup", "beetroot_soup"),
}


@pytest.mark.parametrize(("kind", "name"), [(k, n) for k, names in KINDS.items() for n in names])
def test_kinds_of_dishes(kind, name):
    assert kind_of(DISHES[name]) == kind


def test_washing_is_warmed_and_not_drunk():
    assert {name for name, dish in DISHES.items() if is_washing(dish)} >= {"washing_water"}
    assert not is_washing(DISHES["drinking_water"])
    assert not is_washing(DISHES["tea"])


def test_nourishment_by_the_general_factors():
    dish = DISHES["rice"]
    rice = next(part for part in dish.ingredients if "rice" in part.food.name)
    by_hand = rice.kg * (17e6 * (rice.food.protein + rice.food.carbohydrate) + 37e6 * rice.food.fat)
    assert nourishment_j(dish) == pytest.approx(by_hand, rel=0.01)
    assert nourishment_j(DISHES["drinking_water"]) == 0


def test_a_thriftier_dish_is_of_the_kind_feeds_as_well_and_takes_less(demo):
    known = POOL.ways(demo)
    pairs = list(thriftier(demo, DISHES, known))
    assert pairs
    on_menu = {item.dish.name for item in demo.items}
    for old, new in pairs:
        item = next(i for i in demo.items if i.dish.name == old.name)
        assert kind_of(new) == kind_of(old)
        assert kind_of(old) != "water"
        assert new.name not in on_menu
        assert nourishment_j(new) >= FILLING * nourishment_j(old)
        assert least_fuel_j(demo, replace(item, dish=new), known) < least_fuel_j(demo, item, known)


def test_menus_are_changed_everywhere(demo):
    tea = with_dish(demo, DISHES["porridge"], DISHES["couscous"])
    assert [i.dish.name for i in tea.items].count("couscous") == demo.days
    less = without(demo, {0, 2})
    assert [i.number for i in less.items] == list(range(len(demo.items) - 2))


def test_the_pool_keeps_ways_by_household(demo, small):
    assert POOL.ways(demo) is POOL.ways(replace(demo, title="Other"))
    assert household_of(small()) != household_of(demo)
    assert POOL.ways(demo) is not POOL.ways(small())


@pytest.fixture(scope="module")
def house(small, with_stock, day_kg):
    menu = (("porridge", 450), ("lentil_soup", 1110), ("washing_water", 1050))
    return with_stock(small(menu, gas_kg=0.2), sticks=4.0 * day_kg)


def days_of(cases, base):
    found = otherwise.tried(cases, base, watch=Watch(), pool=POOL)
    return {(each.case.sort, each.case.what, each.case.count): each for each in found}


@pytest.mark.slow
def test_less_to_cook_never_lasts_fewer_days(house):
    base = how_long(house, pool=POOL)
    assert base.days > 3
    found = days_of(otherwise.changes(house, POOL), base)
    sorts = {each.case.sort for each in found.values()}
    assert sorts >= {"cooker", "washing", "drop"}
    for each in found.values():
        if each.case.gains:
            assert each.days >= base.days
        assert each.days <= each.most
    assert found["washing", "washing water", 0].mix_days > base.mix_days


@pytest.mark.slow
def test_worse_weather_and_more_people_never_last_longer_by_the_mix(house):
    base = how_long(house, pool=POOL)
    assert base.days > 3
    found = days_of(otherwise.cases(house), base)
    worse = {
        ("people", "people", 1),
        ("people", "people", 2),
        ("weather", "windier", 3.0),
        ("weather", "colder", 5.0),
        ("weather", "damp", None),
        ("weather", "all", None),
        ("stoves", "stoves", None),
    }
    for key in worse:
        assert found[key].mix_days <= base.mix_days + 1e-6, key
        assert found[key].days <= base.most
    assert found["people", "people", -1].mix_days >= base.mix_days
    assert found["weather", "mild", None].mix_days >= base.mix_days - 1e-6


def test_people_eat_as_the_others_do(house):
    more = {case.count: case.scenario for case in otherwise.cases(house) if case.sort == "people"}
    assert more[2].adults == house.adults + 2
    assert {item.adults for item in more[2].items} == {4.0}
    alone = replace(house, adults=1, items=tuple(replace(i, adults=1.0) for i in house.items))
    assert -1 not in {case.count for case in otherwise.cases(alone)}


def test_fuel_for_the_worst_day_without_sticks_is_held_back(house):
    told = [
        Fallback(1, how_long(house, pool=POOL).plan, (Held("propane", 2.0, None),), enough=True),
        Fallback(2, how_long(house, pool=POOL).plan, (Held("propane", 3.0, None),), enough=True),
        Fallback(3, None),
    ]
    (held,) = [c for c in otherwise.changes(house, POOL, told) if c.sort == "held"]
    gas = held.scenario.stores[1]
    assert gas.stock_kg == pytest.approx(0.2 - 3e6 / gas.fuel.lhv_j_kg)
    assert not [c for c in otherwise.changes(house, POOL, [Fallback(1, None)]) if c.sort == "held"]


def test_water_to_drink_is_never_left_out(demo):
    dropped = {case.what for case in otherwise.changes(demo, POOL) if case.sort == "drop"}
    assert "tea" in dropped
    assert dropped == {i.dish.label for i in demo.items} - {"drinking water", "washing water"}


def test_a_first_box_is_tried_where_there_is_none(house):
    bare = replace(house, cookers=())
    first = next(otherwise.changes(bare, POOL))
    assert (first.sort, len(first.scenario.cookers)) == ("cooker", 1)


def test_each_washing_fewer_is_tried(small):
    menu = (("porridge", 450), ("washing_water", 1050))
    counts = [c.count for c in otherwise.changes(small(menu, days=4), POOL) if c.sort == "washing"]
    assert counts == [3, 2, 0]


def test_a_case_out_of_bounds_is_left_out(house):
    base = how_long(house, pool=POOL)
    assert base.days > 3
    frozen = replace(house, place=replace(house.place, altitude_m=50_000.0))
    assert not days_of([otherwise.Case("weather", "none", frozen)], base)


def test_a_stop_keeps_what_was_tried(house):
    base = how_long(house, pool=POOL)
    assert base.days > 3
    stop = Watch(tell=lambda _: False)
    assert not list(otherwise.tried(otherwise.cases(house), base, watch=stop, pool=POOL))


def test_nobody_is_given_another_dish_that_they_do_not_eat(demo):
    """With a diet that leaves out every other dish there is, none is offered."""
    known = {}
    offered = dict(thriftier(demo, DISHES, known))
    assert offered
    foods = {part.food.name for new in offered.values() for part in new.ingredients}
    diet = Diet("little", tuple(foods))
    groups = (Group(None, (diet,), float(demo.adults), float(demo.children)),)
    items = tuple(replace(i, helpings=(Helping(0, i.adults, i.children),)) for i in demo.items)
    told = dict(thriftier(replace(demo, groups=groups, items=items), DISHES, known))
    assert all(not diet.unfit(new) for new in told.values())
    assert told != offered
