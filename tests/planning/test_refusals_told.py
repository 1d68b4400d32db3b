"""A refusal names the things it is about; a way without a start says what it lacks."""

from dataclasses import replace

import numpy as np
import pytest

from optimizer.model.household import Window
from optimizer.planning.conditions import Refused
from optimizer.planning.explain import labels_of, no_start, sentence
from optimizer.planning.grid import GRID_MIN, LONGEST_MIN, MINUTES
from optimizer.planning.kitchen import attempts
from optimizer.planning.ways import Way
from tests.planning.test_explain import LUNCH, refused


@pytest.mark.parametrize(
    ("code", "about"),
    [
        ("foams", "4 L pot: "),
        ("wind", "gas burner: "),
        ("slow", "gas burner, 4 L pot: "),
        ("cooker_taken", "packed box: "),
        ("never_done", "4 L pot, packed box: "),
        ("boil_again", "gas burner, 4 L pot, packed box: "),
        ("spoils", ""),
    ],
)
def test_a_refusal_names_the_things_it_is_about(household, code, about):
    assert sentence(refused(code, reason="why"), household(LUNCH)) == f"{about}why"


def test_a_refusal_without_a_cooker_names_none(household):
    bare = replace(refused("never_done", reason="why"), cooker=None)
    assert sentence(bare, household(LUNCH)) == "4 L pot: why"


def test_every_thing_of_the_household_has_its_label(household):
    labels = labels_of(household(LUNCH))
    assert len(labels) == 10
    assert labels["stove", "stick_stove"] == "stick stove"
    assert labels["pot", "pressure_6l"] == "6 L pressure pot"
    assert labels["cooker", "jar_2l"] == "2 L vacuum jar"


def way_of(household, dish, *, leads, boxed=True, falls_to=90.0):
    """Make a dish's item at 12:30 and its way with some leads, at one temperature all along."""
    scenario = household([(dish, "lunch", 750)])
    item = scenario.items[0]
    way = next(
        each.way
        for each in attempts(scenario, item, 1)
        if isinstance(each.way, Way) and (each.cooker is not None) == boxed
    )
    on_min = np.where((leads[0] <= MINUTES) & (leads[1] >= MINUTES), 20, 0)
    rest = replace(way.rest, careful_c=np.full(MINUTES.size, falls_to))
    return item, replace(way, on_min=on_min, rest=rest)


WHEN = (
    "would have to go on between 11:30 and 12:00, and would be on the fire outside the cook hours"
)


def test_a_dish_with_no_start_says_when_it_would_have_to_go_on(household):
    item, way = way_of(household, "rice", leads=(30, 60), boxed=False)
    assert no_start(way, item, [Window(360, 480)]) == Refused("no_start", WHEN)
    fuel = replace(way.store.fuel, kind="sun")
    sunny = replace(way, store=replace(way.store, fuel=fuel))
    assert no_start(sunny, item, [Window(360, 480)]) == Refused(
        "no_start",
        "would have to go on between 11:30 and 12:00, and would be in the sun outside its hours "
        "or the cook hours",
    )


def test_beans_have_to_soak_from_before_the_first_cook_hours(household):
    item, way = way_of(household, "bean_stew", leads=(30, 60), boxed=False)
    short = replace(item, dish=replace(item.dish, soak_min=450))
    soak = Refused("no_start", "has to soak 7.5 h, from before the first cook hours on")
    assert no_start(way, short, [Window(271, 280)]) == soak  # 7.5 h before 12:00 is 04:30
    assert no_start(way, short, [Window(270, 280)]) == Refused("no_start", WHEN)
    whole = replace(item, dish=replace(item.dish, soak_min=720))
    assert no_start(way, whole, [Window(0, 60)]) == Refused("no_start", WHEN)
    assert "soak 12 h, " in no_start(way, whole, [Window(1, 60)]).reason


def cold(falls_to):
    reason = f"left from earlier cook hours, it may fall to {falls_to} degC by 12:30"
    return Refused("cold", reason)


def test_what_was_cooked_in_earlier_hours_and_would_be_too_cold_says_so(household):
    item, way = way_of(household, "rice", leads=(30, 60), falls_to=55.4)
    assert no_start(way, item, [Window(360, 480)]) == cold(55)
    bare = replace(way, cooker=None)
    assert no_start(bare, item, [Window(360, 480)]).reason == WHEN
    warm = replace(way, rest=replace(way.rest, careful_c=np.full(MINUTES.size, way.need_c)))
    assert no_start(warm, item, [Window(360, 480)]).reason == WHEN


@pytest.mark.parametrize(
    ("windows", "is_cold"),
    [
        ([Window(360, 690)], True),  # ends when the first pot could go on
        ([Window(360, 691)], False),
        ([Window(800, 900)], False),
        ([], False),
        ([Window(-200, 750 - LONGEST_MIN)], True),  # held as long as anything is
        ([Window(-200, 750 - LONGEST_MIN - GRID_MIN)], False),
    ],
)
def test_earlier_cook_hours_are_those_that_a_rest_can_reach_from(household, windows, is_cold):
    item, way = way_of(household, "rice", leads=(30, 60), falls_to=40.0)
    assert (no_start(way, item, windows).code == "cold") == is_cold


def test_the_last_of_the_earlier_hours_counts(household):
    item, way = way_of(household, "rice", leads=(30, 60))
    falling = replace(way, rest=replace(way.rest, careful_c=59.0 - MINUTES / 10))
    assert no_start(falling, item, [Window(360, 480), Window(500, 650)]) == cold(49)
