"""Starts of pots in the sun, of dishes boiled twice and of soaking, on a clock in round numbers."""

from dataclasses import replace
from types import SimpleNamespace as Made

import numpy as np
import pytest

from optimizer.model.household import Window
from optimizer.model.plan import Reboil
from optimizer.planning import starts
from optimizer.planning.grid import GRID_MIN
from optimizer.planning.starts import (
    FIRST_TRIES,
    Cooking,
    _again,
    _in_reach,
    _in_sun,
    _left_in_sun,
    _reboil,
    done_twice,
    first_on,
    fuel_of,
    soak_from,
)
from tests.planning.conftest import household

MORNING, NOON, EVENING = Window(360, 480), Window(660, 780), Window(960, 1140)
TOMORROW = Window(1440 + 360, 1440 + 480)
DAY = (MORNING, NOON, EVENING, TOMORROW)
STOVE = Made(start_min=10, start_j=5e6, power_w=1000.0, tended=False)


def way(**more):
    """A pot that is hot enough for 190 min and cools by 1 K in 5 min from 98 degC."""
    curve = 98.0 - np.arange(0, 169)
    words = {
        "own": Made(stove=STOVE),
        "warm_min": 190,
        "least_on_min": 20,
        "need_c": 60.0,
        "at": Made(rules=Made(hot_c=60.0, sun_from_min=540, sun_to_min=960, rest_min=30)),
        "rest": Made(careful_c=curve, done=curve * 0, least=curve * 0),
        "sunny": False,
        "cooker": None,
        "fuel_j": lambda minutes: minutes * 1e5,
    }
    return Made(**{**words, **more})


def dish(serve_min, name="bean_stew", **more):
    item = household(((name, "supper", 1140),)).items[0]
    return replace(item, serve_min=serve_min, **more)


class TestInReach:
    def test_later_cook_hours_before_it_is_too_cold(self):
        # from 480 to 660 + 10 is 190 min; from 480 to 960 is too long
        assert _in_reach(way(), 0, DAY) == [NOON]
        assert _in_reach(way(warm_min=189), 0, DAY) == []
        assert _in_reach(way(warm_min=490), 0, DAY) == [NOON, EVENING]

    def test_neither_its_own_hours_nor_earlier_ones_nor_the_next_day(self):
        assert _in_reach(way(warm_min=9999), 1, DAY) == [EVENING]
        assert _in_reach(way(warm_min=9999), 2, DAY) == []

    def test_a_pot_goes_on_when_the_fire_is_lit(self):
        assert first_on(way(), NOON) == 670


class TestSoaking:
    """Beans soak for 480 min."""

    @pytest.mark.parametrize(
        ("since", "on", "told"),
        [
            (200, 1000, 200),  # soaking already
            (520, 1000, 520),
            (521, 1000, 480),  # too late to be long enough: in the morning's cook hours
            (None, 1000, 480),
            (None, 900, 420),
            (None, 840, 360),  # with the first minute of the cook hours
            (None, 839, -1),
        ],
    )
    def test_the_last_moment_at_which_it_can_start(self, since, on, told):
        assert soak_from(dish(1140, soaked_from=since), on, DAY) == told


class TestSecondBoil:
    """Off at 480; hot until 98 - 38 degC, that is for 190 min; boils again in 4 min."""

    @pytest.fixture(autouse=True)
    def _boils_in_four(self, monkeypatch):
        monkeypatch.setattr(starts, "_up_again", lambda way: way.rest.careful_c * 0 + 4.0)
        monkeypatch.setattr(starts, "_serves", lambda *_: True)

    def test_the_latest_before_it_is_too_cold(self):
        made = _reboil(dish(750), way(), 440, 480, NOON)
        # tried 10 min apart back from 740; by 670 it has stood for 190 min, and no start is
        # earlier than 670: none
        assert made is None
        made = _reboil(dish(750), way(warm_min=200), 440, 480, NOON)
        assert made is None  # at 680 it has 58 degC
        longer = way(warm_min=230, rest=Made(careful_c=98.0 - np.arange(0, 169) * 0.8))
        made = _reboil(dish(750), longer, 440, 480, NOON)
        # 60 degC after 237 min: 710 is the last 10 min step back from 740 by then; boils at 714,
        # boiled for a minute by 715
        assert (made.on, made.off) == (440, 480)
        assert made.reboil == Reboil(710, 714, 715)
        assert made.reboil_from_c == pytest.approx(98.0 - 46 * 0.8)

    def test_not_later_than_the_meal_and_the_end_of_the_cook_hours(self):
        hot = way(warm_min=800, rest=Made(careful_c=np.full(169, 90.0)))
        assert _reboil(dish(750), hot, 440, 480, NOON).reboil == Reboil(740, 744, 745)
        assert _reboil(dish(900), hot, 440, 480, NOON).reboil == Reboil(770, 774, 775)

    def test_whatever_serves_it_done_and_hot(self, monkeypatch):
        hot = way(warm_min=800, rest=Made(careful_c=np.full(169, 90.0)))
        monkeypatch.setattr(starts, "_serves", lambda *words: words[4] <= 700)
        assert _reboil(dish(750), hot, 440, 480, NOON).reboil.on == 700
        monkeypatch.setattr(starts, "_serves", lambda *_: False)
        assert _reboil(dish(750), hot, 440, 480, NOON) is None

    def test_a_pot_that_boils_too_slowly_tries_earlier(self, monkeypatch):
        hot = way(warm_min=800, rest=Made(careful_c=np.full(169, 90.0)))
        monkeypatch.setattr(starts, "_up_again", lambda way: way.rest.careful_c * 0 + 20.0)
        # on at 720: boils at 740, a minute more is 745 on the grid
        assert _reboil(dish(750), hot, 440, 480, NOON).reboil == Reboil(720, 740, 745)


class TestFirstStarts:
    def test_the_last_of_the_cook_hours_and_two_earlier(self, monkeypatch):
        tried = []
        monkeypatch.setattr(starts, "_reboil", lambda *words: tried.append(words[2:]) or None)
        assert list(_again(dish(750, "rice"), way(), 0, DAY)) == []
        assert FIRST_TRIES == 3
        assert [(on, off) for on, off, _ in tried] == [(460, 480), (440, 460), (420, 440)]
        assert {second for *_, second in tried} == {NOON}

    def test_no_earlier_than_the_fire_is_lit(self, monkeypatch):
        tried = []
        monkeypatch.setattr(starts, "_reboil", lambda *words: tried.append(words[2]) or None)
        short = (Window(440, 480), *DAY[1:])
        list(_again(dish(750, "rice"), way(), 0, short))
        assert tried == [460]
        tried.clear()
        list(_again(dish(750, "rice"), way(), 0, (Window(430, 480), *DAY[1:])))
        assert tried == [460, 440]

    def test_not_before_its_beans_are_soaked(self, monkeypatch):
        monkeypatch.setattr(starts, "_reboil", lambda *words: words[2])
        # 480 min before 760, but not before 740 or 720
        assert list(_again(dish(1140, soaked_from=265), way(), 1, DAY)) == [760]
        assert list(_again(dish(1140), way(), 1, DAY)) == []

    def test_what_serves_is_kept(self, monkeypatch):
        monkeypatch.setattr(starts, "_reboil", lambda *words: words[2])
        assert list(_again(dish(750, "rice"), way(), 0, DAY)) == [460, 440, 420]
        assert list(_again(dish(750, "rice"), way(warm_min=0), 0, DAY)) == []


class TestSun:
    """The sun cooks from 540 to 960; a meal may rest for 30 min."""

    @pytest.mark.parametrize(
        ("on", "off", "in_sun"),
        [
            (540, 700, True),  # taken out in the noon cook hours
            (539, 700, False),
            (600, 960, True),
            (600, 961, False),
            (600, 800, False),  # nobody is there
            (600, 780, True),
            (600, 660, True),
            (600, 659, False),
        ],
    )
    def test_it_stands_there_in_its_hours_and_is_taken_out_by_somebody(self, on, off, in_sun):
        assert _in_sun(Cooking(way(), dish(1140), on, off), DAY) is in_sun

    def test_whoever_eats_soon_takes_it_out(self):
        assert _in_sun(Cooking(way(), dish(830), 600, 800), DAY)
        assert not _in_sun(Cooking(way(), dish(831), 600, 800), DAY)

    def test_the_hours_are_those_of_its_own_day(self):
        assert _in_sun(Cooking(way(), dish(1440 + 750), 1440 + 540, 1440 + 750), DAY)
        assert not _in_sun(Cooking(way(), dish(1440 + 750), 1440 + 539, 1440 + 750), DAY)

    @pytest.mark.parametrize(
        ("serve", "on", "minutes"),
        [
            (900, 600, 300),  # until the meal
            (1000, 600, 360),  # until the sun is gone
            (900, 790, 0),  # done in 120 min
            (900, 780, 120),
            (1010, 600, 360),  # 50 min of rest
            (1015, 600, 0),
        ],
    )
    def test_it_stays_until_the_meal_or_as_long_as_the_sun(self, serve, on, minutes):
        sunny = way(on_min=np.array([0, 120, 130]), most_rest_min=50)
        assert _left_in_sun(dish(serve), sunny, on) == minutes

    def test_not_where_it_is_too_cold_by_the_meal(self):
        sunny = way(on_min=np.array([0, 120]), most_rest_min=500)
        assert _left_in_sun(dish(960 + 190), sunny, 600) == 360  # 98 - 38 degC
        assert _left_in_sun(dish(960 + 195), sunny, 600) == 0


class TestFuel:
    """100 kJ a minute, 5 MJ to light; 1 kW all the time the second time."""

    def test_once_and_twice(self):
        once = Cooking(way(), dish(750), 440, 480)
        assert fuel_of(once) == 40 * 1e5 + 5e6
        twice = replace(once, reboil=Reboil(700, 704, 710))
        assert fuel_of(twice) == 40 * 1e5 + 5e6 + 10 * 60 * 1000.0 + 5e6

    def test_a_fed_fire_is_paid_for_apart(self):
        fed = way(own=Made(stove=Made(**{**vars(STOVE), "tended": True})))
        twice = Cooking(fed, dish(750), 440, 480, Reboil(700, 704, 710))
        assert fuel_of(twice) == 40 * 1e5 + 10 * 60 * 1000.0

    def test_the_sun_is_free(self):
        assert fuel_of(Cooking(way(sunny=True), dish(750), 440, 480)) == 0.0


def test_what_two_boils_and_two_rests_cook_is_added_up(monkeypatch):
    monkeypatch.setattr(starts, "rate_at", lambda *_: 0.5)
    monkeypatch.setattr(starts, "careful_boil_min", lambda *_: 20.0)
    done, least = np.zeros(169), np.zeros(169)
    done[4], least[6] = 0.25, 0.125
    made = way(
        load=Made(dish=Made(z_k=10.0, floor_c=60.0)),
        boil=Made(top_c=100.0),
        rest=Made(done=done, least=least),
        done_on_fire=lambda minutes: minutes / 100,
    )
    # 0.3 on the fire, 0.25 at rest, 4 min at half the pace of 20, 0.125 at the last rest
    assert done_twice(made, 30, 4, 4.0, 6) == pytest.approx(0.3 + 0.25 + 0.1 + 0.125)
    monkeypatch.setattr(starts, "careful_boil_min", lambda *_: 0.0)  # done once it boils
    assert done_twice(made, 30, 4, 4.0, 6) == pytest.approx(0.3 + 0.25 + 1.0 + 0.125)


def test_the_clock_has_steps_of_five_minutes():
    assert GRID_MIN == 5
