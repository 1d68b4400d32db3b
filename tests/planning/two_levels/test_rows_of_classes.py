"""The program of classes row by row, in kitchens small enough to write it down by hand."""

from dataclasses import replace

import pytest

from optimizer.planning.classes import classes_of
from optimizer.planning.columns import Lighting, Use
from optimizer.planning.program import dump
from optimizer.planning.relaxation import priced, relax, terms

HALVES = ((360, 410, 480), (1020, 1050, 1140))


def relaxed(columns, room, moments=HALVES):
    return relax(classes_of(columns, moments), room, moments)


def rows(made, *families):
    """Rows of some families (all, if none is named), each by the first word of its name."""
    found = []
    for line in dump(made.program).splitlines()[1:]:
        name, _, told = line.partition(": ")
        family = name.partition("[")[0]
        if told and (not families or family in families):
            found.append(f"{family}: {told}")
    return sorted(found)


def bounds(made):
    return sorted(line for line in dump(made.program).splitlines() if " in [" in line)


def boxed(cook, item, stove, start, **other):
    """Twenty minutes on a stove, then in the box until 10:00."""
    return cook(item, stove, start, 20, held=600, cooker="cooker:box", **other)


@pytest.fixture(name="soup")
def _soup(cook):
    """One class of two starts: 10 or 5 minutes before 6:50, 10 or 15 after it."""
    return boxed(cook, 0, "stick", 400), boxed(cook, 0, "stick", 405)


def test_a_class_over_a_fed_fire(soup, kitchen):
    made = relaxed(soup, kitchen(0))
    assert rows(made) == sorted(
        [
            "everyone_eats: +1 cook[0,stick,0] == 1",
            "dish_needs_the_fire: +1 cook[0,stick,0] -1 lit[stick,0] <= 0",
            "lit_once_or_more: +1 lit[stick,0] -1 starts[stick,0,0] -1 starts[stick,0,1] <= 0",
            # alive: lit in the stretch, or kept up from the one before; kept up only so
            "lit_or_kept_up: +1 alive[stick,0,0] -1 starts[stick,0,0] <= 0",
            "lit_or_kept_up: +1 alive[stick,0,1] -1 kept[stick,0,0] -1 starts[stick,0,1] <= 0",
            "kept_only_alive: +1 kept[stick,0,0] -1 alive[stick,0,0] <= 0",
            "kept_only_alive: +1 kept[stick,0,0] -1 alive[stick,0,1] <= 0",
            # 50 minutes of a fire that goes on, not lit in them, less the most that a pot is on
            "fire_kept_between_pots: +50 kept[stick,0,0] -1 idle[stick,0,0] -10 cook[0,stick,0]"
            " -50 starts[stick,0,0] <= 0",
            # both starts burn before 6:50, across it and after it
            "pot_needs_the_fire: +1 cook[0,stick,0] -1 alive[stick,0,0] <= 0",
            "pot_needs_the_fire: +1 cook[0,stick,0] -1 alive[stick,0,1] <= 0",
            "pot_needs_the_fire: +1 cook[0,stick,0] -1 kept[stick,0,0] <= 0",
            # the fewest minutes of either start
            "has_time: +5 cook[0,stick,0] -50 alive[stick,0,0] <= 0",
            "has_time: +10 cook[0,stick,0] -70 alive[stick,0,1] <= 0",
            # both are on the stove from 6:45 on; of pots and boxes there are enough
            "one_at_a_time: +1 cook[0,stick,0] -1 alive[stick,0,0] <= 0",
        ]
    )


@pytest.mark.parametrize(("stoves", "places", "fires"), [(1, 1, 1), (3, 2, 2), (4, 2, 2)])
def test_fires_are_as_many_as_there_are_stoves(soup, kitchen, stoves, places, fires):
    room = replace(kitchen(0, stick=stoves, places=places), batches={0: 3})
    assert bounds(relaxed(soup, room)) == [
        f"alive[stick,0,0] in [0.0, {fires}]",
        f"alive[stick,0,1] in [0.0, {fires}]",
        "cook[0,stick,0] in [0.0, 3] whole",
        "idle[stick,0,0] in [0.0, None]",
        f"kept[stick,0,0] in [0.0, {fires}]",
        "lit[stick,0] in [0.0, 1] whole",
        f"starts[stick,0,0] in [0.0, {fires}]",
        f"starts[stick,0,1] in [0.0, {fires}]",
    ]


def test_two_pots_fit_over_a_fire_and_a_dish_is_in_three(soup, kitchen):
    made = relaxed(soup, replace(kitchen(0, stick=4, places=2), batches={0: 3}))
    assert rows(made, "everyone_eats") == ["everyone_eats: +1 cook[0,stick,0] == 3"]
    assert rows(made, "dish_needs_the_fire", "pot_needs_the_fire", "has_time") == [
        "dish_needs_the_fire: +1 cook[0,stick,0] -3 lit[stick,0] <= 0",
        "has_time: +10 cook[0,stick,0] -140 alive[stick,0,1] <= 0",
        "has_time: +5 cook[0,stick,0] -100 alive[stick,0,0] <= 0",
        "pot_needs_the_fire: +1 cook[0,stick,0] -3 alive[stick,0,0] <= 0",
        "pot_needs_the_fire: +1 cook[0,stick,0] -3 alive[stick,0,1] <= 0",
        "pot_needs_the_fire: +1 cook[0,stick,0] -3 kept[stick,0,0] <= 0",
    ]
    assert rows(made, "fire_kept_between_pots") == [
        "fire_kept_between_pots: +50 kept[stick,0,0] -1 idle[stick,0,0] -5 cook[0,stick,0]"
        " -50 starts[stick,0,0] <= 0"
    ]
    # three pots of it in one box and two big pots, four over two fires
    assert rows(made, "one_at_a_time") == [
        "one_at_a_time: +1 cook[0,stick,0] -2 alive[stick,0,0] <= 0",
        "one_at_a_time: +1 cook[0,stick,0] <= 1",
        "one_at_a_time: +1 cook[0,stick,0] <= 2",
    ]


def test_a_fire_goes_on_from_each_stretch_into_the_next_one_only(soup, kitchen):
    thirds = ((360, 410, 440, 480), (1020, 1140))
    made = relaxed(soup, kitchen(0), thirds)
    assert rows(made, "kept_only_alive") == [
        "kept_only_alive: +1 kept[stick,0,0] -1 alive[stick,0,0] <= 0",
        "kept_only_alive: +1 kept[stick,0,0] -1 alive[stick,0,1] <= 0",
        "kept_only_alive: +1 kept[stick,0,1] -1 alive[stick,0,1] <= 0",
        "kept_only_alive: +1 kept[stick,0,1] -1 alive[stick,0,2] <= 0",
    ]
    assert rows(made, "lit_or_kept_up") == [
        "lit_or_kept_up: +1 alive[stick,0,0] -1 starts[stick,0,0] <= 0",
        "lit_or_kept_up: +1 alive[stick,0,1] -1 kept[stick,0,0] -1 starts[stick,0,1] <= 0",
        "lit_or_kept_up: +1 alive[stick,0,2] -1 kept[stick,0,1] -1 starts[stick,0,2] <= 0",
    ]


def test_every_pot_is_over_a_fire_of_its_own_stove_and_hours(cook, kitchen):
    room = kitchen(0, 1, 2)
    butane = Lighting("gas", "butane", 1e6, 5, 500.0, 0.0, tend=False)
    room = replace(room, lightings={**room.lightings, "gas": butane})
    columns = (cook(0, "stick", 360, 20), cook(1, "gas", 420, 20), cook(2, "gas", 1050, 20))
    made = relaxed(columns, room)
    assert rows(made, "one_at_a_time") == [
        "one_at_a_time: +1 cook[0,stick,0] -1 alive[stick,0,0] <= 0",  # from the first minute on
        "one_at_a_time: +1 cook[1,gas,1] -1 alive[gas,0,1] <= 0",
        "one_at_a_time: +1 cook[2,gas,2] -1 alive[gas,1,1] <= 0",  # a stretch begins at 17:30
    ]
    # single starts keep to every moment, so minutes are not counted
    assert rows(made, "has_time") == []
    assert rows(made, "fire_kept_between_pots") == [
        "fire_kept_between_pots: +30 kept[gas,1,0] -1 idle[gas,1,0] -30 starts[gas,1,0] <= 0",
        "fire_kept_between_pots: +50 kept[gas,0,0] -1 idle[gas,0,0] -50 starts[gas,0,0] <= 0",
        "fire_kept_between_pots: +50 kept[stick,0,0] -1 idle[stick,0,0] -20 cook[0,stick,0]"
        " -50 starts[stick,0,0] <= 0",
    ]


@pytest.mark.parametrize("several_first", [True, False])
def test_minutes_of_a_stretch_are_counted_where_any_class_has_several_starts(
    several_first, cook, kitchen
):
    tea = boxed(cook, 0, "gas", 365), boxed(cook, 0, "gas", 370)
    rice = (cook(1, "gas", 380, 30),)
    columns = (*tea, *rice) if several_first else (*rice, *tea)
    made = relaxed(columns, kitchen(0, 1, gas=2, big=3))
    names = ("cook[0,gas,0]", "cook[1,gas,1]")
    if not several_first:
        names = ("cook[0,gas,1]", "cook[1,gas,0]")
    # two stoves for 50 minutes
    assert rows(made, "has_time") == [f"has_time: +20 {names[0]} +30 {names[1]} <= 100"]


def test_cooks_have_time_for_what_is_tended_only(cook, kitchen):
    tended = [
        replace(c, uses=(*c.uses, Use("cook", c.burns[0].start, c.burns[0].end)))
        for c in (boxed(cook, 0, "gas", 365), boxed(cook, 0, "gas", 370))
    ]
    left = boxed(cook, 1, "gas", 365), boxed(cook, 1, "gas", 370)
    room = kitchen(0, 1, box=2)
    room = replace(room, capacity={**room.capacity, "cook": 3})
    assert rows(relaxed((*tended, *left), room), "has_time") == [
        "has_time: +20 cook[0,gas,0] +20 cook[1,gas,1] <= 50",
        "has_time: +20 cook[0,gas,0] <= 150",
    ]


def test_a_thing_held_twice_counts_twice_and_room_is_for_all_pots_of_a_dish(cook, kitchen):
    twice = cook(0, "gas", 360, 20)
    twice = replace(twice, uses=(*twice.uses, Use("pot:big", 360, 380)))
    other = cook(1, "gas", 430, 20, pot="pot:small")
    made = relaxed((twice, other), replace(kitchen(0, 1, gas=2, small=1), batches={1: 2}))
    assert rows(made, "one_at_a_time") == [
        "one_at_a_time: +1 cook[1,gas,1] <= 1",
        "one_at_a_time: +2 cook[0,gas,0] <= 2",
    ]


def test_a_dish_without_a_class_cannot_be_had(soup, kitchen):
    assert "everyone_eats:  == 1" in rows(relaxed(soup, kitchen(0, 1)), "everyone_eats")


@pytest.fixture(name="priced_soup")
def _priced_soup(cook, kitchen):
    """2 MJ of sticks for 0.16 and 20 min, or 1 MJ of butane for nothing and 5 min."""
    columns = (
        cook(0, "stick", 365, 20, fuel_mj=2, money=0.16, tend_min=20),
        cook(0, "gas", 365, 20, fuel_mj=1, tend_min=5),
    )
    return relaxed(columns, kitchen(0, tend=True))


@pytest.mark.parametrize(
    ("goal", "soup", "butane", "lit", "idle"),
    [
        ("money", 0.16, 0, 0.12, 0.0024),  # 0.08 for each MJ of sticks
        ("energy", 2, 1, 1.5, 0.03),  # 500 W x 60 s
        ("butane", 0, 1, 0, 0),
        ("tending", 20, 5, 5, 1),
    ],
)
def test_what_a_goal_counts(priced_soup, goal, soup, butane, lit, idle):
    wanted = {
        "cook[0,stick,0]": soup,
        "cook[0,gas,1]": butane,
        "starts[stick,0,0]": lit,
        "starts[stick,0,1]": lit,
        "idle[stick,0,0]": idle,
    }
    names = {id(column): name for name, column in priced_soup.program.columns.items()}
    found = {names[id(column)]: factor for column, factor in terms(priced_soup, goal)}
    assert found == pytest.approx({name: factor for name, factor in wanted.items() if factor})


def test_fuel_at_a_price_is_paid_beside_the_goal(priced_soup):
    names = {id(column): name for name, column in priced_soup.program.columns.items()}
    pairs = priced(priced_soup, "money", {"sticks": 0.5, "butane": 0.25})
    assert {names[id(column)]: factor for column, factor in pairs} == pytest.approx(
        {
            "cook[0,stick,0]": 0.16 + 0.5 * 2,
            "cook[0,gas,1]": 0.25 * 1,  # costs nothing but its price
            "starts[stick,0,0]": 0.12 + 0.5 * 1.5,
            "starts[stick,0,1]": 0.12 + 0.5 * 1.5,
            "idle[stick,0,0]": 0.0024 + 0.5 * 0.03,
        }
    )
