"""What a way is made of, what else its jar is wanted for, and when the fire alone does it."""

from dataclasses import replace

import pytest

from optimizer import shelf
from optimizer.model.household import OwnCooker, Steep
from optimizer.planning.conditions import Refused
from optimizer.planning.contents import load
from optimizer.planning.drawing import Draw
from optimizer.planning.grid import GRID_MIN, MINUTES
from optimizer.planning.steeping import needed_c
from optimizer.planning.ways import Way, conditions, make_way

THINGS = shelf.load()
JAR = THINGS.cookers["jar_2l"]


@pytest.fixture(name="made")
def _made(household):
    """Rice on gas, from four things that may be others."""
    home = household([("rice", "supper", 1140)])

    def made(pot="pot_4l", cooker=None, dish=None, draws=()):
        item = home.items[0]
        item = item if dish is None else replace(item, dish=replace(item.dish, **dish))
        whole = replace(load(item, home.place), draws=draws)
        gas, store = home.stoves[1], home.stores[1]
        return make_way(whole, gas, store, THINGS.pots[pot], cooker, conditions(home, 1))

    return made


def test_a_way_knows_its_things(made, household):
    home, jar = household([("rice", "supper", 1140)]), OwnCooker(JAR, 1)
    way = made("pot_2_5l", jar)
    assert isinstance(way, Way)
    assert (way.own, way.store) == (home.stoves[1], home.stores[1])
    assert (way.pot, way.cooker) == (THINGS.pots["pot_2_5l"], jar)
    assert way.lasts == way.on_min.tolist()
    assert not way.sunny
    assert way.price_j > 0


def test_where_the_rest_cooks_nothing_the_fire_does_it_all(made):
    # below 105 degC this dish does not cook: only under pressure
    way = made("pressure_6l", dish={"floor_c": 105.0})
    assert isinstance(way, Way)
    assert way.rest.done.max() <= 1e-6
    took = {int(minutes) for minutes in way.on_min if minutes}
    assert len(took) == 1  # however long before the meal it is put on
    (minutes,) = took
    assert way.done_on_fire(minutes) >= 1 > way.done_on_fire(minutes - GRID_MIN)
    assert MINUTES[way.on_min > 0][0] == minutes + way.fall_min


def steeped(cooker=JAR):
    return Draw(60, 0.5, None, Steep(THINGS.dishes["tea"], 2.0, cooker, 30))


def test_a_jar_in_which_something_is_steeped_is_taken(made):
    draws = steeped(), Draw(0, 0.5, None)
    refused = made(cooker=OwnCooker(JAR, 1), draws=draws)
    assert refused == Refused("cooker_taken", "something is steeped in it")
    other = steeped(THINGS.cookers["jar_1l"]), Draw(0, 0.5, None)
    for cooker, wanted in ((OwnCooker(JAR, 2), draws), (OwnCooker(JAR, 1), other)):
        found = made(cooker=cooker, draws=wanted)
        assert getattr(found, "code", "") != "cooker_taken"
    assert isinstance(made(cooker=OwnCooker(JAR, 1)), Way)  # nothing is drawn


def test_water_to_steep_in_is_as_hot_as_that_needs(made):
    way = made()
    assert isinstance(way, Way)
    draw = steeped()
    assert way.draw_need_c(draw) == needed_c(draw.steep, way.at) > way.need_c


@pytest.fixture(name="level_c")
def _level_c(made):
    """How hot the first of two draws surely is, at the best."""
    way = made(cooker=OwnCooker(JAR, 1), dish={"serve": "any"}, draws=draws_at(None))
    assert isinstance(way, Way)
    return float(way.rest.drawn_c[0][1][way.least_rest_min // GRID_MIN])


def draws_at(need_c):
    return Draw(30, 0.5, need_c), Draw(0, 0.5, None)


@pytest.mark.parametrize(("more_k", "code"), [(-0.5, ""), (0.5, "cold")])
def test_half_a_degree_less_than_a_draw_needs_is_too_cold(made, level_c, more_k, code):
    draws = draws_at(level_c + more_k)
    found = made(cooker=OwnCooker(JAR, 1), dish={"serve": "any"}, draws=draws)
    assert getattr(found, "code", "") == code


def test_what_is_hot_at_every_draw_but_raw_is_never_done(made):
    found = made(
        cooker=OwnCooker(JAR, 1), dish={"serve": "any", "boil_min": 5000.0}, draws=draws_at(None)
    )
    assert found == Refused("never_done", "is never done in the time there is")


def test_what_is_just_hot_enough_but_raw_is_never_done(made):
    jar, dish = OwnCooker(JAR, 1), {"serve": "at", "serve_c": 60.0}
    way = made(cooker=jar, dish=dish)
    assert isinstance(way, Way)
    level = float(way.rest.careful_c[0])
    raw = {"serve": "at", "boil_min": 5000.0}
    assert made(cooker=jar, dish={**raw, "serve_c": level}).code == "never_done"
    assert made(cooker=jar, dish={**raw, "serve_c": level + 0.1}).code == "cold"
