"""All ways and columns of a household, and what its dishes share."""

from dataclasses import replace

import pytest

from optimizer import shelf
from optimizer.model.household import OwnStove
from optimizer.planning.kitchen import choices, kitchen_of

THINGS = shelf.load()


def test_capacity_is_what_the_household_has(household):
    room = kitchen_of(household())
    assert room.capacity["stove:stick_stove"] == room.capacity["stove:gas_burner"] == 1
    assert room.capacity["pot:pot_4l"] == 2
    assert room.capacity["cooker:jar_1l"] == 1
    assert room.capacity["cook"] == 2


def test_a_stove_with_two_places_takes_two_pots(household):
    home = household()
    wide = replace(home.stoves[0].stove, places=2)
    home = replace(home, stoves=(OwnStove(wide, 3, "outdoors"), home.stoves[1]))
    assert kitchen_of(home).capacity["stove:stick_stove"] == 6


def test_only_fed_fires_are_lit_for_several_pots(household):
    room = kitchen_of(household())
    assert set(room.lightings) == {"stick_stove"}
    assert room.lightings["stick_stove"].idle_w == THINGS.stoves["stick_stove"].low_power_w


def test_the_reserve_is_not_for_the_plan(household):
    home = household()
    usable = kitchen_of(home).stock_j["propane"]
    assert usable == pytest.approx(THINGS.fuels["propane"].lhv_j_kg)  # 1 kg, no reserve
    more = replace(home.stores[1], reserve=0.25)
    less = kitchen_of(replace(home, stores=(home.stores[0], more))).stock_j["propane"]
    assert less == pytest.approx(0.75 * usable)


def test_a_fuel_without_a_limit_has_none(household):
    home = household()
    endless = tuple(replace(store, stock_kg=None) for store in home.stores)
    assert kitchen_of(replace(home, stores=endless)).stock_j == {}


def test_every_dish_has_a_way_and_every_refusal_a_reason(household):
    home = household()
    found = choices(home)
    assert {column.item for column in found.columns} == {item.number for item in home.items}
    assert found.workable == {item.number for item in home.items}
    assert found.refusals
    assert all(refusal.code and refusal.reason for refusal in found.refusals)


def test_every_stove_pot_and_finish_is_tried_or_refused(household):
    home = household([("rice", "lunch", 750)])
    found = choices(home)
    tried = {
        (c.stove, c.way.way.pot.name, c.way.way.cooker and c.way.way.cooker.cooker.name)
        for c in found.columns
    } | {(r.stove, r.pot, r.cooker) for r in found.refusals}
    assert len(tried) == 2 * 4 * 5  # stoves, pots, the flame and four cookers


@pytest.mark.parametrize(("only", "pressure"), [("plain", {False}), ("flame", {False, True})])
def test_dishes_may_be_kept_to_the_flame(household, only, pressure):
    found = choices(household(), only=only).columns
    assert {column.way.way.finish for column in found} == {"flame"}
    assert {column.way.way.pot.gauge_pa > 0 for column in found} == pressure


def test_ways_found_before_are_the_same(household):
    home, known = household(), {}
    first = choices(home, known=known)
    assert known
    again = choices(home, known=known)
    assert [(c.item, c.fuel_j, c.uses) for c in again.columns] == [
        (c.item, c.fuel_j, c.uses) for c in first.columns
    ]


def test_water_that_may_be_cold_is_not_packed(household):
    found = choices(household([("drinking_water", "lunch", 750)])).columns
    assert {column.way.way.finish for column in found} == {"flame"}


def test_a_stove_without_fuel_is_refused(household):
    home = household([("rice", "lunch", 750)])
    found = choices(replace(home, stores=home.stores[:1]))
    assert {column.stove for column in found.columns} == {"stick_stove"}
    assert {r.code for r in found.refusals if r.stove == "gas_burner"} == {"no_fuel"}


def test_a_dish_may_be_cooked_the_evening_before(household):
    home = household([("drinking_water", "breakfast", 1440 + 450)], days=2)
    days = {column.way.on // 1440 for column in choices(home).columns}
    assert days == {0, 1}


def test_each_day_is_cooked_in_its_own_weather(household):
    home = household([("rice", "lunch", 750), ("rice", "lunch", 1440 + 750)], days=2)
    windy = replace(home, weather=(home.weather[0], replace(home.weather[1], wind_m_s=6.0)))
    fuel = {}
    for column in choices(windy).columns:
        way = column.way.way
        if column.stove == "gas_burner" and way.pot.name == "pot_4l" and way.cooker is None:
            fuel.setdefault(column.item, set()).add(column.fuel_j)
    assert max(fuel[0]) < min(fuel[1])


def test_equal_dishes_on_equal_days_have_equal_columns(household):
    home = household([("rice", "lunch", 750), ("rice", "lunch", 1440 + 750)], days=2)
    by_item = {0: [], 1: []}
    for column in choices(home).columns:
        by_item[column.item].append((column.way.on - 1440 * column.item, column.fuel_j))
    assert by_item[0] == by_item[1] != []
