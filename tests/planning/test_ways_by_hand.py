"""What a way takes on the fire, in round numbers."""

import math
from dataclasses import replace

import numpy as np
import pytest

from optimizer import shelf
from optimizer.planning.conditions import Refused
from optimizer.planning.contents import load
from optimizer.planning.drawing import Draw
from optimizer.planning.grid import LONGEST_MIN, MINUTES
from optimizer.planning.ways import NEVER_COLD, Way, conditions, make_way

THINGS = shelf.load()


@pytest.fixture(name="made")
def _made(household):
    def made(cooker=None, home=None, **changed):
        home = home or household([("rice", "supper", 1140)])
        packed = next((c for c in home.cookers if c.cooker.name == cooker), None)
        whole = replace(load(home.items[0], home.place), **changed)
        pot, at = THINGS.pots["pot_4l"], conditions(home, 1)
        return make_way(whole, home.stoves[1], home.stores[1], pot, packed, at)

    return made


@pytest.fixture(name="round_way")
def _round_way(made, household):
    """Ten minutes up; water at 10 degC to be boiled off doubles the minutes after that."""
    home = household([("rice", "supper", 1140)], confidence=0.5)
    home = replace(home, place=replace(home.place, water_c=10.0))
    way = made(home=home)
    assert isinstance(way, Way)
    boiled = replace(
        way.boil,
        up_min=10.0,
        up_j=5e5,
        hold_w=1000.0,
        top_c=100.0,
        steam_kg_min=0.01,
        extra_j_kg=1e6,
        net_w=0.01 * 4190 * 90 / 60,  # a minute's steam is heated from 10 degC in one minute
        free_done=0.25,
        least_hold_min=3.0,
    )
    dish = replace(way.load.dish, boil_min=20.0, boil_spread=0.2)
    return replace(way, load=replace(way.load, dish=dish), boil=boiled)


def test_half_of_the_minutes_after_the_rise_are_at_the_boil(round_way):
    assert round_way.hold_min(30) == pytest.approx(10)
    assert round_way.hold_min(np.array([10.0, 30.0])) == pytest.approx([0, 10])
    dry = replace(round_way, boil=replace(round_way.boil, steam_kg_min=0.0))
    assert dry.hold_min(30) == 20


@pytest.mark.parametrize(("hold", "minutes"), [(3.0, 20), (2.5, 15), (0.0, 15), (1.0, 15)])
def test_the_least_on_the_stove_is_the_rise_and_a_minute_at_least(round_way, hold, minutes):
    # 10 + 2 x 3 = 16, to the next five; never less than 10 + 2 x 1
    way = replace(round_way, boil=replace(round_way.boil, least_hold_min=hold))
    assert way.least_on_min == minutes


def test_water_boiled_off_and_fuel(round_way):
    assert round_way.steam_kg(30) == pytest.approx(0.1)
    assert round_way.steam_kg(5) == 0  # it does not boil yet
    # 0.5 MJ up, ten minutes at 1000 W, 0.1 kg at 1 MJ
    assert round_way.fuel_j(30) == pytest.approx(5e5 + 6e5 + 1e5)
    assert round_way.fuel_j(5) == pytest.approx(5e5)


def test_what_the_fire_cooks(round_way):
    # a quarter by rise and fall; ten of twenty minutes at 100 degC
    assert round_way.done_on_fire(30) == pytest.approx(0.75)
    assert round_way.done_on_fire(np.array([10.0, 30.0])) == pytest.approx([0.25, 0.75])
    careful = replace(round_way, at=replace(round_way.at, confidence=0.9))
    full = 20 * (1 + careful.at.done_z * 0.2)
    assert careful.done_on_fire(30) == pytest.approx(0.25 + 10 / full)
    hotter = replace(round_way, boil=replace(round_way.boil, top_c=100 + round_way.load.dish.z_k))
    more = (hotter.done_on_fire(50) - hotter.done_on_fire(30)) * 20
    assert more == pytest.approx(10 * (hotter.hold_min(50) - hotter.hold_min(30)))  # tenfold


@pytest.mark.parametrize("minutes", [0, 5, 40])
def test_a_dish_that_need_not_boil_is_done_at_once(round_way, minutes):
    dish = replace(round_way.load.dish, boil_min=0.0)
    way = replace(round_way, load=replace(round_way.load, dish=dish))
    assert way.done_on_fire(minutes) == 1
    assert way.done_on_fire(np.array([minutes, 7.0])).tolist() == [1, 1]


@pytest.mark.parametrize(
    ("serve", "serve_c", "need_c"),
    [
        ("hot", None, 60),
        ("hot", 45.0, 60),
        ("at", 45.0, 45),
        ("at", None, NEVER_COLD),
        ("any", None, NEVER_COLD),
    ],
)
def test_how_hot_it_has_to_be(round_way, serve, serve_c, need_c):
    dish = replace(round_way.load.dish, serve=serve, serve_c=serve_c)
    way = replace(round_way, load=replace(round_way.load, dish=dish))
    assert way.need_c == need_c
    assert [way.draw_need_c(Draw(0, 1.0, c)) for c in (None, 80.0)] == [need_c, 80]


@pytest.mark.parametrize(
    ("cooker", "carried", "draws", "least"),
    [
        (None, 0, (), 0),
        ("packed_box", 0, (), 5),  # two minutes to move it, to the next five
        ("packed_box", 20, (), 25),
        ("packed_box", 0, (Draw(61, 0.5, None), Draw(0, 0.5, None)), 70),
    ],
)
def test_the_shortest_rest_is_move_way_and_draws(made, cooker, carried, draws, least):
    way = made(cooker)
    way = replace(way, load=replace(way.load, carried_min=carried, draws=draws))
    assert way.at.rules.move_min == 2
    assert way.least_rest_min == least


def test_what_is_drawn_on_may_rest_long(round_way):
    assert round_way.most_rest_min == round_way.at.rules.rest_min
    drawn = replace(round_way.load, draws=(Draw(0, 1.0, None),))
    assert replace(round_way, load=drawn).most_rest_min == LONGEST_MIN


def test_hot_and_warm_are_where_the_careful_curve_is(round_way):
    curve = np.where(MINUTES <= 30, 60.0, 59.9)
    way = replace(round_way, rest=replace(round_way.rest, careful_c=curve))
    assert way.hot.tolist() == [True] * 7 + [False] * (len(MINUTES) - 7)
    assert way.warm_min == 30
    cold = replace(way, rest=replace(way.rest, careful_c=curve - 1))
    assert (cold.warm_min, cold.hot.any()) == (0, False)


def test_every_draw_has_to_be_hot_enough(round_way):
    usual = np.full(len(MINUTES), 90.0)
    first, last = np.where(MINUTES >= 60, 80.0, 70.0), np.where(MINUTES <= 120, 65.0, 55.0)
    drawn = replace(round_way.load, draws=(Draw(60, 0.5, 75.0), Draw(0, 0.5, None)))
    rested = replace(round_way.rest, careful_c=last, drawn_c=((usual, first), (usual, last)))
    way = replace(round_way, load=drawn, rest=rested)
    assert MINUTES[way.hot].tolist() == list(range(60, 125, 5))


def test_a_shortage_of_heat_is_told_in_degrees(made, household):
    home = household([("rice", "supper", 1140)])
    hotter = replace(home, rules=replace(home.rules, hot_c=99.9))
    refused = made("packed_box", hotter)
    assert isinstance(refused, Refused)
    assert refused.code == "cold"
    level = int(refused.reason.removeprefix("may be only ").partition(" ")[0])
    assert refused.reason == f"may be only {level} degC as soon as it is in it"
    assert 80 < level < 100


@pytest.mark.parametrize(
    ("needs", "code", "told"),
    [
        ((99.9, 40.0), "cold", "at the draw 60 min before the last, 100 is wanted"),
        ((None, 99.9), "cold", "at the last draw, 100 is wanted"),
        ((99.0, 99.9), "cold", "at the last draw, 100 is wanted"),  # it lacks more
        (
            (math.inf, None),
            "never_done",
            "what is steeped with it is never done and hot in its time",
        ),
    ],
)
def test_the_draw_that_lacks_most_is_told(made, needs, code, told):
    draws = Draw(60, 0.5, needs[0]), Draw(0, 0.5, needs[1])
    refused = made("packed_box", draws=draws)
    assert isinstance(refused, Refused)
    assert refused.code == code
    assert refused.reason.endswith(told)
    assert code == "cold" or refused.reason == told


def test_what_takes_longer_than_a_day_is_never_done(made, household):
    home = household([("rice", "supper", 1140)])
    slow = replace(home.items[0].dish, boil_min=5000.0)
    home = replace(home, items=(replace(home.items[0], dish=slow),))
    for cooker in (None, "packed_box"):
        refused = made(cooker, home)
        assert isinstance(refused, Refused)
        assert (refused.code, refused.reason) == (
            "never_done",
            "is never done in the time there is",
        )


def test_only_a_cooker_that_may_be_carried_is(made, household):
    home = household([("rice", "supper", 1140)])
    bare = made(None, home, carried_min=20)
    assert (bare.code, bare.reason) == (
        "carried",
        "cools on the 20 min to where it is eaten, in no cooker",
    )

    def boxes(*, portable):
        return tuple(
            replace(own, cooker=replace(own.cooker, portable=portable)) for own in home.cookers
        )

    fixed = made("packed_box", replace(home, cookers=boxes(portable=False)), carried_min=20)
    assert fixed == Refused("not_portable", "is not one to carry away")
    assert isinstance(made("packed_box", replace(home, cookers=boxes(portable=True))), Way)
