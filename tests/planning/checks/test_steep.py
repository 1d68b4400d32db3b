"""A steeped dish in its jar: balances of heat by hand, and just how much may be told wrongly."""

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.integrate import quad

from optimizer import shelf
from optimizer.model.household import Drawing, Steep
from optimizer.model.plan import Drawn, Steeped
from optimizer.physics import water
from optimizer.planning.checks.levels import Mouth, open_c
from optimizer.planning.checks.steep import Jar, steep_faults

SHELF = shelf.load()
ROOM_C = 16.0
WIDE_M = 0.12  # a jar as wide as it is high
BARE = replace(
    SHELF.cookers["jar_2l"],
    volume_m3=math.pi / 4 * WIDE_M**3,
    liner_j_k=300.0,
    loss_w_k=0.0,
    loss_spread=0.2,
)
OATS = replace(SHELF.dishes["porridge"], boil_min=10.0, boil_spread=0.25, z_k=30.0, floor_c=65.0)
QUICK = replace(OATS, boil_min=4.0)


@pytest.fixture(name="jar")
def _jar(case):
    """Make a jar that is shut at once, in a kitchen as sure as it is asked to be."""

    def made(confidence=0.5, open_min=0.0, minutes=60, dish=None, **cooker):
        plain = case().scenario
        rules = replace(plain.rules, draw_open_min=open_min)
        home = replace(plain, confidence=confidence, rules=rules)
        return Jar(case(home), Steep(dish or OATS, 2.0, replace(BARE, **cooker), minutes))

    return made


def heat_by_food(jar):
    names = [each.food.name for each in jar.steep.dish.ingredients]
    return dict(zip(names, jar.heats, strict=True))


@pytest.mark.parametrize(("preheated", "liner_j_k"), [(False, 300.0), (True, 0.0)])
def test_hot_water_gives_what_dry_food_and_a_cold_liner_take(jar, preheated, liner_j_k):
    made = jar(preheated=preheated)
    heats = heat_by_food(made)
    water_j_k = heats.pop("water")
    level = made.shut_c(95.0)
    assert water_j_k * (95 - level) == pytest.approx(
        (sum(heats.values()) + liner_j_k) * (level - ROOM_C)
    )


def test_an_open_jar_cools_through_a_mouth_as_wide_as_it_is_high(jar):
    made = jar(open_min=3.0)
    mouth = Mouth(math.pi / 4 * WIDE_M**2, 0.0, 3.0)
    cooled = open_c(jar().shut_c(95.0), sum(made.heats) + 300, ROOM_C, mouth)
    assert made.shut_c(95.0) == pytest.approx(cooled, abs=1e-6)


def test_a_jar_of_no_known_size_has_no_mouth(jar):
    assert jar(open_min=3.0, volume_m3=None).shut_c(95.0) == jar().shut_c(95.0)


def test_a_measured_loss_is_taken_as_it_is(jar):
    assert jar(loss_w_k=0.37).loss_w_k() == 0.37


def test_a_full_jar_falls_as_its_rating_says(jar):
    made = jar(loss_w_k=None, rated_start_c=95.0, rated_room_c=20.0, rated_c=78.0, rated_h=6.0)
    full_j_k = BARE.volume_m3 * water.density_kg_m3(95.0) * 4190 + 300
    left = math.exp(-made.loss_w_k() * 6 * 3600 / full_j_k)
    assert 20 + (95 - 20) * left == pytest.approx(78.0)


@pytest.mark.parametrize(("spreads", "colder_k"), [(0.0, 0.0), (1.5, 2.0), (-1.0, -3.0)])
def test_it_falls_by_the_law_of_cooling(jar, spreads, colder_k):
    made = jar(loss_w_k=0.5, minutes=90)
    curve, room = made.curve(95.0, spreads, colder_k), ROOM_C - colder_k
    left = math.exp(-0.5 * (1 + 0.2 * spreads) * 90 * 60 / (sum(made.heats) + 300))
    assert len(curve) == 91
    assert curve[0] == pytest.approx(made.shut_c(95.0))
    assert curve[-1] == pytest.approx(room + (made.shut_c(95.0) - room) * left, abs=1e-3)


@pytest.mark.parametrize(("confidence", "deviations"), [(0.5, 0.0), (0.9, 1.2816)])
def test_at_a_steady_heat_it_is_done_by_minutes_over_minutes_needed(jar, confidence, deviations):
    made = jar(confidence)
    pace = 10 ** ((made.shut_c(95.0) - 100) / 30)
    assert made.done(95.0) == pytest.approx(60 * pace / (10 * (1 + deviations * 0.25)), rel=1e-4)


def test_what_falls_is_credited_as_it_falls_in_a_leaky_jar(jar):
    made = jar(0.9, loss_w_k=0.15)
    top, per_s = made.shut_c(95.0), 0.15 * (1 + 1.2816 * 0.2) / (sum(made.heats) + 300)

    def pace(minute):
        level = ROOM_C + (top - ROOM_C) * math.exp(-per_s * 60 * minute)
        return 10 ** ((level - 100) / 30)

    needed_min = 10 * (1 + 1.2816 * 0.25)
    assert made.done(95.0) == pytest.approx(quad(pace, 0, 60)[0] / needed_min, rel=1e-3)


def test_nothing_is_credited_below_the_floor_and_all_of_it_at_the_floor(jar):
    level = jar().curve(95.0, 0.0, 0.0)
    at, above = level.min(), np.nextafter(level.max(), 100)
    assert jar(dish=replace(OATS, floor_c=at)).done(95.0) == jar().done(95.0)
    assert jar(dish=replace(OATS, floor_c=above)).done(95.0) == 0


USUAL_C, CAREFUL_C = 95.0, 93.0


class Told:
    """A draw of hot water onto oats, told just as it is."""

    def __init__(self, jar):
        self.jar = jar
        case, self.cooker = jar.case, jar.steep.cooker
        self.draw = Drawing(60, 0.4, steep=jar.steep)
        self.usual = float(jar.curve(USUAL_C, 0.0, 0.0)[-1])
        self.low = float(jar.curve(CAREFUL_C, case.hot_z, case.scenario.rules.air_spread_k)[-1])
        self.done = jar.done(CAREFUL_C)
        self.named = f"{case.name}, porridge steeped: "

    def faults(self, **change):
        """Return what is said of it, without the name, when it is told otherwise."""
        steeped = Steeped(self.cooker.name, 2.0, 450, self.usual, self.low, self.done)
        return self.said(replace(steeped, **change))

    def said(self, steeped, draw=None):
        each = Drawn(390, "porridge", 1.0, USUAL_C, CAREFUL_C, steeped=steeped)
        lines = steep_faults(self.jar.case, each, draw or self.draw, USUAL_C, CAREFUL_C)
        return [line.removeprefix(self.named) for line in lines]


def poured(jar, **other):
    """A jar of oats that come hot and done to the table."""
    return jar(0.9, **{"loss_w_k": 0.15, "dish": QUICK, **other})


@pytest.fixture(name="told")
def _told(jar):
    return Told(poured(jar))


def test_what_is_told_as_it_is_has_no_fault(told):
    assert told.usual > told.low + 1 > 61
    assert told.faults() == []


def test_what_is_not_told_is_named(told):
    assert told.said(None) == ["is not told"]
    steeped = Steeped(told.cooker.name, 2.0, 450, told.usual, told.low, told.done)
    assert told.said(steeped, replace(told.draw, steep=None)) == ["is not told"]


@pytest.mark.parametrize("change", [{"cooker": "jar_1l"}, {"serve": 449}, {"serve": 451}])
def test_another_jar_or_time_is_named(told, change):
    assert told.faults(**change) == ["is told in another jar, or for another time"]


@pytest.mark.parametrize("key", ["usual_c", "careful_c"])
@pytest.mark.parametrize("sign", [-1, 1])
def test_a_temperature_may_be_told_wrong_by_0_3_k(told, key, sign):
    true = told.usual if key == "usual_c" else told.low
    off = true + sign * 0.31
    assert told.faults(**{key: true + sign * 0.29}) == []
    assert told.faults(**{key: off}) == [f"is {true:.2f} degC at the table, not {off:.2f}"]
    assert len(told.faults(**{key: math.nan})) == 1


def test_done_may_be_told_3_hundredths_more_or_5_less(told):
    done = told.done
    for near in (done + 0.03, done - 0.05):
        assert told.faults(done=near) == []
    for far in (done + 0.031, done - 0.051):
        assert told.faults(done=far) == [f"is {done:.3f} done, told as {far:.3f}"]


def test_it_must_be_done_but_for_3_hundredths(jar, told):
    for share, faults in ((0.975, 0), (0.965, 1)):
        slow = replace(QUICK, boil_min=4.0 * told.done / share)
        other = Told(poured(jar, dish=slow))
        assert other.done == pytest.approx(share)
        assert len(other.faults()) == faults
        if faults:
            assert other.faults() == ["is 0.965 done, told as 0.965"]


def test_it_must_be_hot_but_for_0_3_k(told):
    for over, faults in ((0.29, 0), (0.31, 1)):
        case = told.jar.case
        rules = replace(case.scenario.rules, hot_c=told.low + over)
        hot = replace(case, scenario=replace(case.scenario, rules=rules))
        other = Told(Jar(hot, told.jar.steep))
        said = f"may be only {told.low:.1f} degC at the table, not {told.low + over:.0f}"
        assert other.faults() == [said] * faults


def test_it_must_go_into_its_jar(jar):
    volume = jar().volume_m3
    for less_m3, faults in ((0.5e-6, 0), (2e-6, 1)):
        told = Told(poured(jar, volume_m3=volume - less_m3))
        said = f"{1000 * volume:.1f} L do not go into jar_2l"
        assert told.faults() == [said] * faults


def test_how_much_too_much_it_is_is_told_in_litres(jar):
    made = poured(jar)
    many = Told(Jar(made.case, replace(made.steep, portions=300.0)))
    assert many.faults()[0] == f"{150_000 * made.volume_m3:.1f} L do not go into jar_2l"


def test_nothing_goes_into_a_jar_of_no_known_size(jar):
    told = Told(poured(jar, volume_m3=None))
    assert len(told.faults()) == 1
