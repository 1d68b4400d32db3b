"""What dishes under way hold, thing by thing and to the minute, and who fits in beside them."""

from dataclasses import replace

import pytest

from optimizer import shelf
from optimizer.model.eaters import Carrying
from optimizer.model.household import Drawing, Item, Steep, UnderWay
from optimizer.model.plan import Reboil
from optimizer.planning.columns import Column, Use
from optimizer.planning.held import beside, left_of, uses_of

THINGS = shelf.load()
TURN = int(THINGS.rules.turn_min)
ITEM = Item(7, 1, "lunch", THINGS.dishes["lentil_soup"], 2, 2, 750)


@pytest.fixture
def held(household, soup_step):
    """Tell from when to when one dish holds what, at a minute."""

    def told(begins, *, item=None, **changed):
        each = UnderWay(replace(ITEM, **(item or {})), replace(soup_step, **changed))
        uses = uses_of(replace(household(), begins=begins, under_way=(each,)))
        assert all(use.start == begins for use in uses)
        return sorted((use.resource, use.end) for use in uses)

    return told


def test_on_a_fire_that_is_tended_it_holds_the_cook_as_long_as_the_stove(held):
    assert held(410) == [
        ("cook", 430),
        ("cooker:packed_box", 750),
        ("pot:pot_4l", 750 + TURN),
        ("stove:stick_stove", 430),
    ]


def test_on_a_burner_that_needs_no_tending_it_holds_no_cook(held):
    assert held(410, stove="gas_burner", cooker=None, finish="flame", move=None) == [
        ("pot:pot_4l", 750 + TURN),
        ("stove:gas_burner", 430),
    ]


def test_what_ends_as_the_plan_begins_is_free(held):
    kept = ["cooker:packed_box", "pot:pot_4l"]
    assert [name for name, _ in held(429)] == ["cook", *kept, "stove:stick_stove"]
    assert [name for name, _ in held(430)] == kept
    assert held(749)[0] == ("cooker:packed_box", 750)
    assert held(750) == [("pot:pot_4l", 750 + TURN)]
    assert held(750 + TURN) == []


def test_boiled_again_it_holds_the_stove_until_its_last_fire(held):
    again = (Reboil(600, 605, 610), Reboil(735, 740, 745))
    for begins in (410, 500, 744):
        found = dict(held(begins, reboil=again))
        assert (found["stove:stick_stove"], found["cook"]) == (745, 745)
    assert [name for name, _ in held(745, reboil=again)] == ["cooker:packed_box", "pot:pot_4l"]


def test_a_pot_that_is_poured_into_a_jar_is_free_when_it_is_poured(held):
    assert held(432, cooker="jar_2l", finish="vacuum") == [
        ("cooker:jar_2l", 750 + TURN),
        ("pot:pot_4l", 433 + TURN),
    ]


def test_water_for_any_time_leaves_its_pot_as_it_is_moved_or_taken_off(held):
    plain = {"serve_rule": "any", "finish": "flame", "cooker": None}
    assert held(432, **plain, move=440) == [("pot:pot_4l", 440 + TURN)]
    assert held(432, **plain, move=None) == [("pot:pot_4l", 430 + TURN)]


@pytest.mark.parametrize(("cooker", "turn"), [("packed_box", 0), ("jar_2l", TURN)])
def test_what_is_carried_away_is_held_until_it_is_back(held, cooker, turn):
    found = dict(held(500, item={"carried": Carrying(20, 60, "Mill Lane")}, cooker=cooker))
    assert found[f"cooker:{cooker}"] == 750 + 60 + turn
    if not turn:
        assert found["pot:pot_4l"] == 750 + 60 + TURN


def test_a_jar_that_water_is_poured_into_is_held_once_for_every_draw_that_steeps(held):
    jar = Steep(THINGS.dishes["porridge"], 2.0, THINGS.cookers["jar_1l"], 20)
    drawn = (Drawing(250, 0.3, steep=jar), Drawing(200, 0.3), Drawing(100, 0.4, steep=jar))
    found = held(500, item={"drawn": drawn})
    assert found == [
        ("cooker:jar_1l", 500 + 20 + TURN),
        ("cooker:jar_1l", 650 + 20 + TURN),
        ("cooker:packed_box", 750),
        ("pot:pot_4l", 750 + TURN),
    ]


def test_every_dish_under_way_is_counted(household, soup_step):
    other = replace(soup_step, pot="pot_6l", cooker=None)
    under_way = (UnderWay(ITEM, soup_step), UnderWay(ITEM, other))
    uses = uses_of(replace(household(), begins=700, under_way=under_way))
    assert [use.resource for use in uses] == ["pot:pot_4l", "cooker:packed_box", "pot:pot_6l"]
    assert uses_of(replace(household(), begins=700)) == ()


HELD = (Use("pot:x", 600, 650), Use("pot:x", 600, 700), Use("cook", 600, 620))


def test_what_is_left_grows_as_pots_come_free_and_nothing_left_is_not_told():
    left = left_of(HELD, {"pot:x": 2, "cook": 1})
    assert left == {"left of pot:x until 700": 1}
    left = left_of(iter(HELD), {"pot:x": 3, "cook": 3})
    assert left == {
        "left of pot:x until 650": 1,
        "left of pot:x until 700": 2,
        "left of cook until 620": 2,
    }
    assert left_of(HELD, {}) == {}


def column(*uses):
    return Column(0, "s", (), tuple(uses), "sticks", 1e6, 0.1, 5.0)


def test_one_that_starts_as_the_last_is_freed_holds_nothing_more():
    late = column(Use("pot:x", 700, 720), Use("cook", 620, 640), Use("other", 600, 640))
    assert beside([late], HELD, {"pot:x": 2, "cook": 1}) == [late]


def test_one_that_needs_what_is_held_is_left_out_and_the_others_stay():
    early = column(Use("pot:x", 649, 660))
    later, last = column(Use("pot:x", 650, 660)), column(Use("pot:x", 700, 720))
    kept = beside([early, later, last], HELD, {"pot:x": 2, "cook": 1})
    assert [each.uses[0].start for each in kept] == [650, 700]
    both = column(Use("pot:x", 700, 720), Use("cook", 619, 620))
    assert beside([both, last], HELD, {"pot:x": 2, "cook": 1}) == [last]


def test_one_that_shares_holds_what_is_left_until_the_other_or_itself_ends():
    shared = column(Use("pot:x", 610, 690), Use("cook", 615, 630))
    (kept,) = beside([shared], HELD, {"pot:x": 3, "cook": 2})
    assert kept == replace(shared, uses=kept.uses)
    assert kept.uses == (
        *shared.uses,
        Use("left of cook until 620", 615, 620),
        Use("left of pot:x until 650", 610, 650),
        Use("left of pot:x until 700", 610, 690),
    )


def test_two_spans_of_one_dish_are_told_in_order_of_time():
    twice = column(Use("pot:x", 640, 645), Use("pot:x", 610, 620))
    (kept,) = beside([twice], HELD[1:2], {"pot:x": 2})
    name = "left of pot:x until 700"
    assert kept.uses[2:] == (Use(name, 610, 620), Use(name, 640, 645))
