"""What the checker asks of raw meat: how long it was out of the cold, and in which air."""

from dataclasses import replace

import pytest

from optimizer.model.household import DAY_MIN, Cold, Weather
from optimizer.planning.checks.safety import spoil_faults

MILD, HOT = (Weather(c, 0.0, rain=False, wet_sticks=False) for c in (8.0, 32.0))
TOO_LONG = "is out of the cold too long before it goes on the fire"


@pytest.fixture(name="fault")
def _fault(household, case):
    """Say whether beef that goes on at a minute is out of the cold too long."""

    def found(on, cold, fresh=(0,), weather=(MILD,) * 3, kitchen_c=16.0):
        home = household((("beef_stew", "supper", 2 * DAY_MIN + 1110),), days=3, weather=weather)
        place = replace(home.place, kitchen_c=kitchen_c)
        spells = tuple(Cold("box", *each) for each in cold)
        step = case(replace(home, cold=spells, fresh=fresh, place=place), on=on)
        lines = list(spoil_faults(step))
        assert all("beef" in line and line.endswith(TOO_LONG) for line in lines)
        return bool(lines)

    return found


# FSIS_DANGER_ZONE: 2 h out of the cold, 1 h above 90 degF (32 degC).
@pytest.mark.parametrize(("on", "late"), [(720, False), (721, True)])
def test_two_hours_after_the_cold_ends(fault, on, late):
    assert fault(on, [(0, 600)]) is late


@pytest.mark.parametrize(("on", "late"), [(1000, False), (1001, True)])
def test_gaps_between_cold_places_add_up(fault, on, late):
    assert fault(on, [(0, 500), (540, 920)]) is late  # 40 min, then 80


def test_cold_places_may_overlap_and_stand_in_any_order(fault):
    assert not fault(1020, [(500, 900), (0, 600)])
    assert fault(1021, [(500, 900), (0, 600)])


def test_cold_that_begins_after_the_fire_is_no_help(fault):
    assert not fault(700, [(0, 600), (900, 2000)])
    assert fault(760, [(0, 600), (900, 2000)])


def test_what_was_bought_last_counts(fault):
    assert not fault(1000, [], fresh=(0, 900))
    assert fault(1000, [], fresh=(0, 1100))
    assert fault(1021, [], fresh=(0, 900))


@pytest.mark.parametrize(("on", "late"), [(660, False), (661, True)])
def test_one_hour_in_hot_air(fault, on, late):
    assert fault(on, [(0, 600)], weather=(HOT, MILD, MILD)) is late
    assert fault(on, [(0, 600)], kitchen_c=32.0) is late


@pytest.mark.parametrize(
    ("weather", "late"),
    [((HOT, MILD, MILD), True), ((MILD, HOT, MILD), True), ((MILD, MILD, HOT), False)],
)
def test_a_hot_evening_counts_past_midnight(fault, weather, late):
    assert fault(DAY_MIN + 50, [(0, DAY_MIN - 30)], weather=weather) is late  # out for 80 min


def test_a_hot_day_in_the_cold_does_not_count(fault):
    assert not fault(DAY_MIN + 680, [(0, DAY_MIN + 600)], weather=(HOT, MILD, MILD))


def test_the_last_day_of_weather_goes_on(fault):
    assert fault(2 * DAY_MIN + 680, [(0, 2 * DAY_MIN + 600)], weather=(MILD, HOT))
