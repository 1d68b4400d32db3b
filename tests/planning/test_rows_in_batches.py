"""Rows of dishes in several pots, of fires under several pots, and of a most that a goal has."""

from dataclasses import replace

import pytest

from optimizer.planning.columns import Lighting
from optimizer.planning.rows import build
from optimizer.planning.solver import dump


def lines(board, *families):
    return sorted(line for line in dump(board.program).splitlines() if line.startswith(families))


@pytest.fixture(name="soup")
def _soup(cook):
    """One dish on sticks or on gas."""
    return (
        cook(0, "stick", 360, 20, fuel_mj=2, money=0.16, tend_min=20),
        cook(0, "gas", 360, 20, fuel_mj=1, money=0.3, tend_min=5),
    )


def test_a_dish_in_three_pots(soup, kitchen):
    room = replace(kitchen(0, stick=3, gas=3, big=3), batches={0: 3})
    board = build(soup, room, may_miss=True)
    assert lines(board, "everyone_eats", "dish_on_stove", "dish_needs_the_fire") == [
        "dish_needs_the_fire[stick,0,0]: +1 cook[0,stick,0] -3 lit[stick,0] <= 0",
        "dish_on_stove[0,gas]: +1 cook[0,gas,1] -1 on[0,gas] == 0",
        "dish_on_stove[0,stick]: +1 cook[0,stick,0] -1 on[0,stick] == 0",
        "everyone_eats[0]: +1 cook[0,gas,1] +1 cook[0,stick,0] +3 missed[0] == 3",
    ]
    assert lines(board, "cook", "on", "missed", "one_at_a_time") == [
        "cook[0,gas,1] in [0.0, 3] whole",
        "cook[0,stick,0] in [0.0, 3] whole",
        "missed[0] in [0.0, 1] whole",  # all of a dish, or none
        "on[0,gas] in [0.0, 3] whole",
        "on[0,stick] in [0.0, 3] whole",
    ]


def test_three_pots_of_a_dish_crowd_two(soup, kitchen):
    room = replace(kitchen(0, stick=3, gas=2, big=3), batches={0: 3})
    assert lines(build(soup, room), "one_at_a_time") == [
        "one_at_a_time[stove:gas,360]: +1 cook[0,gas,1] <= 2"
    ]


@pytest.mark.parametrize(
    ("stoves", "places", "told"),
    [(1, 1, "[0.0, 1]"), (2, 1, "[0.0, 2]"), (2, 2, "[0.0, 1] whole"), (3, 2, "[0.0, 2] whole")],
)
def test_as_many_fires_as_carry_the_places(soup, kitchen, stoves, places, told):
    board = build(soup, kitchen(0, stick=stoves, places=places))
    assert lines(board, "burning", "lit[", "idle") == [
        f"burning[stick,0,360] in {told}",
        "idle[stick,0] in [0.0, None]",
        f"lit[stick,0,360] in {told}",
        "lit[stick,0] in [0.0, 1] whole",
    ]


def test_the_stove_of_a_dish_is_told_only_to_branch_on(soup, kitchen):
    assert not build(soup, kitchen(0), branch=False).on
    assert set(build(soup, kitchen(0)).on) == {(0, "stick"), (0, "gas")}


def test_a_most_of_a_goal_stands_in_its_own_unit(soup, kitchen):
    limits = {"money": 0.5, "energy": 6e6, "tending": 45.0}
    board = build(soup, replace(kitchen(0, tend=True), limits=limits))
    ends = [line.rsplit(" ", 2)[1:] for line in lines(board, "no_more")]
    assert ends == [["<=", "6"], ["<=", "0.5"], ["<=", "45"]]  # MJ, money, minutes
    assert lines(board, "no_more[tending]") == [
        "no_more[tending]: +1 idle[stick,0] +20 cook[0,stick,0] +5 cook[0,gas,1]"
        " +5 lit[stick,0,360] <= 45"
    ]


def test_fuel_decides_on_fires_wherever_tending_counts(soup, kitchen):
    def said(**limits):
        return lines(build(soup, replace(kitchen(0), limits=limits)), "lit_again")

    again = ["lit_again_after_long[stick,0,360]: +1 cook[0,stick,0] -1 lit[stick,0,360] <= 0"]
    assert said(tending=45.0) == again
    assert said(money=1.0) == []
    assert lines(build(soup, kitchen(0), tending=True), "lit_again") == again


def test_fuel_decides_on_every_fire_by_itself(cook, kitchen):
    room = kitchen(0, 1, 2, idle_w=0.0)
    butane = Lighting("gas", "butane", 1e6, 5, 500.0, 0.0, tend=False)
    room = replace(room, lightings={**room.lightings, "gas": butane})
    columns = (
        cook(0, "stick", 360, 20),
        cook(1, "gas", 360, 20),
        cook(2, "stick", 1020, 20),
        cook(2, "stick", 1060, 20),  # kept up over any time, since idling takes nothing
    )
    assert lines(build(columns, room, tending=True), "lit_again", "not_lit") == [
        "lit_again_after_long[gas,0,360]: +1 cook[1,gas,1] -1 lit[gas,0,360] <= 0",
        "lit_again_after_long[stick,0,360]: +1 cook[0,stick,0] -1 lit[stick,0,360] <= 0",
        "lit_again_after_long[stick,1,1020]: +1 cook[2,stick,2] -1 lit[stick,1,1020] <= 0",
        "lit_again_after_long[stick,1,1060]: +1 cook[2,stick,3] -1 cook[2,stick,2]"
        " -1 lit[stick,1,1060] <= 0",
    ]


def test_a_pot_of_two_over_a_fire_lights_half_of_it(cook, kitchen):
    columns = (cook(0, "stick", 360, 20), cook(1, "stick", 400, 20))
    board = build(columns, kitchen(0, 1, stick=2, places=2, idle_w=500), tending=True)
    assert lines(board, "lit_again") == [
        "lit_again_after_long[stick,0,360]: +1 cook[0,stick,0] -2 lit[stick,0,360] <= 0",
        "lit_again_after_long[stick,0,400]: +1 cook[1,stick,1] -2 cook[0,stick,0]"
        " -2 lit[stick,0,400] <= 0",
    ]


def test_where_two_fires_of_a_stove_fit_fuel_is_not_asked(cook, kitchen):
    columns = (cook(0, "stick", 360, 20), cook(1, "stick", 400, 20))
    assert lines(build(columns, kitchen(0, 1, stick=2), tending=True), "lit_again") == []


def test_what_is_held_for_no_time_takes_no_room(cook, kitchen):
    column = cook(0, "gas", 360, 20, held=380, cooker="cooker:box")
    assert (column.uses[-1].start, column.uses[-1].end) == (380, 380)
    board = build((column, cook(1, "gas", 400, 20)), kitchen(0, 1, box=0))
    assert lines(board, "one_at_a_time[cooker:box") == []
