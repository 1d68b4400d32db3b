"""Stoves, pots, jars and cooks in the checker: one too many, from which minute until which."""

from dataclasses import replace

import pytest

from optimizer import shelf
from optimizer.model.eaters import Carrying
from optimizer.model.household import Drawing, OwnCooker, Steep
from optimizer.planning.checks.places import crowding_faults

SHELF = shelf.load()
TURN_MIN = 15  # a pot is ladled out and washed
JAR = OwnCooker(SHELF.cookers["jar_2l"], 1)


@pytest.fixture(name="home")
def _home(case):
    """One burner, one pot of each size, one jar and one cook."""
    home = case().scenario
    assert home.rules.turn_min == TURN_MIN
    return replace(
        home,
        stoves=tuple(replace(own, count=1) for own in home.stoves),
        pots=tuple(replace(own, count=1) for own in home.pots),
        cookers=(JAR,),
        cooks=1,
    )


@pytest.fixture(name="said")
def _said(case, home):
    """Say what two teas take too much of: the first from 420, off at 440 and served at 450."""

    def found(second, scenario=home, first=None, **change):
        one = replace(case(scenario), **(first or {}))
        other = replace(case(scenario, **second), **change)
        return list(crowding_faults([one, other], scenario))

    return found


def test_a_burner_is_free_the_minute_a_pot_is_off(said):
    later = {"pot": "pot_4l", "boil": 450, "off": 460, "serve": 470}
    assert said({**later, "on": 440}) == []
    (line,) = said({**later, "on": 439})
    assert line == "stove gas_burner: 2 in use at 07:19 of day 1, there are 1"


@pytest.mark.parametrize(("on", "busy"), [(450 + TURN_MIN, False), (450 + TURN_MIN - 1, True)])
def test_a_pot_is_busy_until_it_is_washed(said, on, busy):
    lines = said({"on": on, "boil": on + 10, "off": on + 20, "serve": on + 30})
    assert lines == (["pot pot_2_5l: 2 in use at 07:44 of day 1, there are 1"] if busy else [])


@pytest.mark.parametrize("more", [0, 10])
def test_a_pot_that_is_carried_away_is_busy_until_it_is_back(case, home, said, more):
    tea = case(home).item
    away = {"item": replace(tea, carried=Carrying(5, 60))}
    on = 450 + 60 + TURN_MIN - more
    lines = said({"on": on, "boil": on + 10, "off": on + 20, "serve": on + 30}, first=away)
    assert bool(lines) is (more > 0)


@pytest.mark.parametrize(("poured", "busy"), [(390 + 60 + TURN_MIN, False), (464, True)])
def test_a_jar_in_which_something_steeps_is_busy_until_it_is_washed(case, home, said, poured, busy):
    steep = Steep(SHELF.dishes["porridge"], 2.0, JAR.cooker, 60)
    one, other = (Drawing(before, 0.4, steep=steep) for before in (60, 50))
    tea = case(home).item
    later = {"pot": "pot_4l", "on": 445, "boil": 455, "off": 460, "serve": poured + 50}
    lines = said(
        later,
        first={"item": replace(tea, drawn=(one,))},  # poured at 390 for the table at 450
        item=replace(tea, drawn=(other,)),
    )
    assert lines == (["cooker jar_2l: 2 in use at 07:44 of day 1, there are 1"] if busy else [])


def test_a_jar_that_is_filled_is_busy_from_the_fire_until_it_is_washed(case, home, said):
    first = {"cooker": JAR, "step": replace(case().step, move=442, cooker="jar_2l")}
    for move, busy in ((467, False), (466, True)):
        second = {"pot": "pot_4l", "on": 440, "move": move, "serve": 500, "cooker": "jar_2l"}
        lines = said(second, first=first, cooker=JAR)
        assert [line for line in lines if line.startswith("cooker")] == (
            ["cooker jar_2l: 2 in use at 07:44 of day 1, there are 1"] if busy else []
        ), move


def test_one_cook_feeds_one_fire_and_a_burner_needs_none(case, home, said):
    fed = replace(home.stoves[0], stove=replace(home.stoves[0].stove, tended=True))
    quiet = replace(home.stoves[1], stove=replace(home.stoves[1].stove, tended=False))
    also = replace(quiet, stove=replace(quiet.stove, tended=True))
    second = {"pot": "pot_4l"}
    assert not [
        line for line in said(second, own=fed, first={"own": quiet}) if line.startswith("cook:")
    ]
    lines = said(second, own=fed, first={"own": also})
    assert "cook: 2 needed at 07:00 of day 1, there are 1" in lines


def test_what_happened_before_the_plan_begins_is_not_looked_at(said, home):
    on = 450 + TURN_MIN - 1
    late = replace(home, begins=450 + TURN_MIN)
    assert said({"on": on, "boil": on + 10, "off": on + 20, "serve": on + 30}, late) == []
