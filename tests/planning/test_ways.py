"""Ways: for every lead before the meal the shortest time on the stove that serves it well."""

from dataclasses import replace

import pytest

from optimizer import shelf
from optimizer.planning.conditions import Refused
from optimizer.planning.contents import load
from optimizer.planning.grid import GRID_MIN, LONGEST_MIN, MINUTES
from optimizer.planning.ways import conditions, make_way

THINGS = shelf.load()


@pytest.fixture(name="way_of")
def _way_of(household):
    def way_of(dish, pot, cooker=None, stove="gas_burner", home=None, **other):
        home = home or household([(dish, "supper", 1140)])
        item = home.items[0]
        own = next(s for s in home.stoves if s.stove.name == stove)
        store = next(s for s in home.stores if s.fuel.name == own.stove.fuel)
        packed = next((c for c in home.cookers if c.cooker.name == cooker), None)
        if packed is not None and other:
            packed = replace(packed, **other)
        at = conditions(home, 1)
        return make_way(load(item, home.place), own, store, THINGS.pots[pot], packed, at)

    return way_of


KINDS = [
    ("rice", "pot_2_5l", None),
    ("rice", "pressure_6l", None),
    ("lentil_soup", "pot_4l", "packed_box"),
    ("rice", "pressure_6l", "packed_box"),
    ("tea", "pot_4l", "jar_2l"),
    ("bean_stew", "pot_4l", "packed_box"),
    ("drinking_water", "pot_6l", None),
    ("washing_water", "pot_6l", "cushion_basket"),
]


@pytest.mark.parametrize(("dish", "pot", "cooker"), KINDS)
def test_every_lead_serves_it_done_hot_and_in_time(way_of, dish, pot, cooker):
    way = way_of(dish, pot, cooker)
    some = way.on_min > 0
    assert some.any()
    waits = MINUTES[some] - way.on_min[some] - way.fall_min
    assert (waits >= way.least_rest_min).all()
    assert (waits <= way.most_rest_min).all()
    steps = waits // GRID_MIN
    assert (way.rest.careful_c[steps] >= way.need_c).all()
    fire = [way.done_on_fire(minutes) for minutes in way.on_min[some]]
    assert (fire + way.rest.done[steps] >= 1 - 1e-9).all()


@pytest.mark.parametrize(("dish", "pot", "cooker"), KINDS)
def test_no_shorter_time_on_the_stove_would_do(way_of, dish, pot, cooker):
    way = way_of(dish, pot, cooker)
    for lead in (MINUTES[way.on_min > 0][0], MINUTES[way.on_min > 0][-1]):
        minutes = int(way.on_min[lead // GRID_MIN]) - GRID_MIN
        wait = (lead - minutes - way.fall_min) // GRID_MIN
        too_short = minutes < way.least_on_min
        too_long = wait * GRID_MIN > way.most_rest_min
        raw = way.done_on_fire(minutes) + way.rest.done[wait] < 1
        cold = way.rest.careful_c[wait] < way.need_c
        assert too_short or too_long or raw or cold


# A regression: water that will boil off is heated first, and the boil was that much too short.
@pytest.mark.parametrize(("dish", "pot", "cooker"), KINDS)
def test_the_least_boil_is_whole(way_of, dish, pot, cooker):
    way = way_of(dish, pot, cooker)
    assert way.hold_min(way.least_on_min) >= max(1.0, way.boil.least_hold_min) - 1e-9
    assert way.hold_min(way.least_on_min - GRID_MIN) < max(1.0, way.boil.least_hold_min)


def test_the_box_takes_fewer_minutes_on_the_stove_than_the_flame(way_of):
    flame, packed = way_of("rice", "pot_2_5l"), way_of("rice", "pot_2_5l", "packed_box")
    assert packed.on_min[packed.on_min > 0].min() < flame.on_min[flame.on_min > 0].min()
    assert packed.fuel_j(packed.on_min[packed.on_min > 0].min()) < flame.fuel_j(
        flame.on_min[flame.on_min > 0].min()
    )


def test_more_minutes_take_more_fuel_and_water(way_of):
    way = way_of("rice", "pot_2_5l")
    short, long = way.least_on_min, way.least_on_min + 20
    assert way.fuel_j(long) > way.fuel_j(short) > way.boil.up_j
    assert way.steam_kg(long) > way.steam_kg(short) > 0
    assert way.steam_kg(0) == 0


@pytest.mark.parametrize(
    ("dish", "pot", "cooker", "finish"),
    [
        ("rice", "pot_2_5l", None, "flame"),
        ("rice", "pot_2_5l", "packed_box", "packed"),
        ("rice", "pot_2_5l", "jar_2l", "vacuum"),
    ],
)
def test_the_finish_is_that_of_the_cooker(way_of, dish, pot, cooker, finish):
    assert way_of(dish, pot, cooker).finish == finish


@pytest.mark.parametrize(
    ("dish", "pot", "cooker", "least_c"),
    [
        ("rice", "pot_2_5l", None, 60),  # eaten hot: BfR opinion 037/2020
        ("washing_water", "pot_6l", None, 45),  # as the dish asks
        ("drinking_water", "pot_6l", None, -273),
    ],
)
def test_what_is_needed_at_the_table(way_of, dish, pot, cooker, least_c):
    assert way_of(dish, pot, cooker).need_c == least_c


def test_a_dish_waits_twenty_minutes_bare_and_long_in_a_cooker(way_of):
    assert way_of("rice", "pot_2_5l").most_rest_min == THINGS.rules.rest_min
    assert way_of("rice", "pot_2_5l", "packed_box").most_rest_min == LONGEST_MIN
    assert way_of("drinking_water", "pot_6l").most_rest_min == LONGEST_MIN


def test_pressure_falls_before_the_pot_is_packed_unless_that_is_allowed(way_of):
    waits = way_of("rice", "pressure_6l", "packed_box")
    assert waits.fall_min >= waits.boil.fall_min > 0
    assert waits.fall_min % GRID_MIN == 0
    allowed = way_of("rice", "pressure_6l", "packed_box", pressure_allowed=True)
    assert allowed.fall_min == 0


def test_a_dish_that_is_never_hot_enough_is_refused(way_of, household):
    home = household([("rice", "supper", 1140)])
    hotter = replace(home, rules=replace(home.rules, hot_c=99.9))
    refused = way_of("rice", "pot_2_5l", "packed_box", home=hotter)
    assert refused.code == "cold"


def test_reasons_of_stove_and_cooker_are_passed_on(way_of):
    assert way_of("drinking_water", "pot_2_5l").code == "pot_too_small"
    assert way_of("tea", "pot_4l", "jar_1l").code == "cooker_too_small"
    assert isinstance(way_of("porridge", "pressure_6l"), Refused)


def test_days_have_their_own_weather_and_the_first_also_the_evening_before(household):
    home = household(days=2)
    home = replace(home, weather=(home.weather[0], replace(home.weather[0], wind_m_s=5.0)))
    assert conditions(home, 0).weather == conditions(home, 1).weather == home.weather[0]
    assert conditions(home, 2).weather == home.weather[1]
