"""One more of a fuel or a thing in the linear program, in round numbers.

Two dishes that share a box, each 4 MJ of sticks, 8 without the box, or 6 of dear gas.

A kilogram of sticks has 20 MJ; a package is a tenth of one; a quarter of all is kept.
"""

from dataclasses import replace

import pytest

from optimizer.planning import appraisal
from optimizer.planning.mix import mix


@pytest.fixture(scope="module", name="home")
def _home(household):
    return household((("tea", "breakfast", 450),))


@pytest.fixture(name="asked")
def _asked(home):
    sticks, gas = home.stores
    fuel = replace(sticks.fuel, lhv_j_kg=20e6, moisture=0.0)
    stores = (
        replace(sticks, fuel=fuel, package_kg=0.1, reserve=0.25),
        replace(gas, fuel=replace(gas.fuel, name="butane"), package_kg=None),
    )
    return replace(home, stores=stores)


@pytest.fixture(name="columns")
def _columns(cook):
    boxed = {"held": 480, "cooker": "cooker:box"}
    return tuple(
        column
        for item in (0, 1)
        for column in (
            cook(item, "stick", 370, 20, fuel_mj=4.0, money=0.4, **boxed),
            cook(item, "stick", 370, 40, fuel_mj=8.0, money=0.8),
            cook(item, "gas", 370, 30, fuel_mj=6.0, money=3.0, pot="pot:small"),
        )
    )


@pytest.fixture(name="store")
def _store(asked, columns, kitchen):
    def made(stock_mj, thing=None, goal="money", **there):
        stock_j = {"sticks": stock_mj * 1e6, "butane": 12e6}
        room = kitchen(0, 1, stock_j=stock_j, **there)
        return appraisal._Store(asked, columns, room, goal, thing)

    return made


@pytest.mark.parametrize("goal", ["money", "energy", "tending", "sticks", "butane"])
@pytest.mark.parametrize("stock_mj", [3.0, 6.0, 11.0, 90.0])
def test_a_package_more_saves_what_the_mix_with_it_saves(store, stock_mj, goal):
    made = store(stock_mj, goal=goal)
    (chance,) = made.of_fuels()
    assert chance.what == "100 g more of sticks"
    more = {**made.kitchen.stock_j, "sticks": (stock_mj + 2) * 1e6}
    assert chance.kitchen == replace(made.kitchen, stock_j=more)
    before, after = (
        mix(made.columns, room, goal=goal).value for room in (made.kitchen, chance.kitchen)
    )
    assert chance.mixed == pytest.approx(before - after, abs=1e-6)
    assert (chance.scenario, chance.columns) == (made.scenario, made.columns)


def test_stock_and_package_are_told_in_kilograms_with_their_reserve(store):
    (chance,) = store(6.0).of_fuels()
    assert chance.had == pytest.approx(0.4)
    assert chance.unit == pytest.approx(0.1 / 0.75)
    assert chance.measure == "kg"


def test_where_all_is_kept_in_reserve(store, asked):
    made = store(6.0)
    first, second = asked.stores
    made.scenario = replace(asked, stores=(replace(first, reserve=1.0), second))
    (chance,) = made.of_fuels()
    assert chance.unit == pytest.approx(0.1)


def test_the_price_is_of_one_package_and_holds_from_the_empty_store_on(store):
    (chance,) = store(3.0).of_fuels()
    low, high = chance.price.low, chance.price.high
    assert low == pytest.approx(-1.5)
    assert chance.price.piece.price < 0
    assert 0 < high < 20
    (rich,) = store(90.0).of_fuels()
    assert rich.price.piece.price == pytest.approx(0.0)
    assert rich.price.high == 20


def test_one_more_box(store):
    made = store(90.0, ("cooker:box", 1))
    (chance,) = made.of_thing("box")
    assert (chance.what, chance.measure, chance.had) == ("one more box", "pieces", 1.0)
    capacity = {**made.kitchen.capacity, "cooker:box": 2}
    assert chance.kitchen == replace(made.kitchen, capacity=capacity)
    assert chance.mixed == pytest.approx(0.4)
    assert chance.price.piece.price == pytest.approx(-0.4)
    assert (chance.price.low, chance.price.high) == pytest.approx((-1.0, 1.0))
    assert (chance.unit, chance.scenario, chance.columns) == (1.0, made.scenario, made.columns)


def test_one_more_stove_with_two_places(store):
    made = store(90.0, ("stove:stick", 2), stick=4, places=2)
    (chance,) = made.of_thing("stick stove")
    assert chance.had == 2
    assert chance.kitchen.capacity == {**made.kitchen.capacity, "stove:stick": 6}


def test_of_one_thing_only_there_may_be_more(store):
    assert list(store(90.0).of_thing("box")) == []


def test_a_place_more_for_each_place_of_the_thing(store):
    # a box for two: with none, the first takes both dishes
    made = store(90.0, ("cooker:box", 2), box=0)
    (chance,) = made.of_thing("box")
    assert chance.had == 0
    assert chance.mixed == pytest.approx(0.8)


def test_where_nothing_can_be_cooked_nothing_is_said(store):
    made = store(0.0, ("pot:big", 1), gas=0)
    (chance,) = made.of_thing("pot")
    assert (chance.mixed, chance.price) == (None, None)
