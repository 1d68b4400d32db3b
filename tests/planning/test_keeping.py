"""What spoils without cold is refused, and an order of dishes that works is suggested."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optimizer import shelf
from optimizer.errors import CheckError
from optimizer.model.household import DAY_MIN, Cold, Weather
from optimizer.planning.conditions import Refused
from optimizer.planning.keeping import (
    Spell,
    foods_that,
    in_time,
    is_good,
    keeping_of,
    moment,
    spells,
    spoiled,
)
from optimizer.planning.kitchen import choices
from optimizer.planning.ordering import better_order, reordered, told
from optimizer.planning.planner import plan
from optimizer.planning.verify import verify

HOURS = 60
SUPPERS = (
    ("lentil_soup", "supper", 1110),
    ("lentil_stew", "supper", DAY_MIN + 1110),
    ("beef_stew", "supper", 2 * DAY_MIN + 1110),
)


def test_limits_are_those_of_print():
    # USDA FSIS, danger zone: 2 h, 1 h above 90 degF; at or below 40 degF (4.4 degC). FSIS on
    # outages, from memory: fridge 4 h, freezer 48 h full and 24 h half full, kept shut.
    rules = shelf.load().rules
    assert (rules.fresh_min, rules.fresh_hot_min) == (120, 60)
    assert rules.hot_air_c <= (90 - 32) / 1.8
    assert rules.cold_c <= (40 - 32) / 1.8
    assert rules.fridge_shut_min == 4 * HOURS
    assert (rules.freezer_full_min, rules.freezer_half_min) == (48 * HOURS, 24 * HOURS)


def test_raw_meat_fish_and_eggs_spoil_and_dry_food_keeps():
    foods = shelf.load().foods
    raw = {name for name, food in foods.items() if food.endpoint_c is not None}
    assert raw == {"beef_stewing", "chicken_thigh", "egg", "cod"}
    assert {name for name, f in foods.items() if keeping_of(f) == "perishable"} == raw
    assert keeping_of(foods["lentils_brown"]) == "keeps"


def test_a_new_food_with_an_endpoint_spoils_unless_it_says_that_it_keeps():
    new = replace(shelf.load().foods["oats"], name="goat", endpoint_c=70.0, keeping=None)
    assert keeping_of(new) == "perishable"
    assert keeping_of(replace(new, keeping="keeps")) == "keeps"


def test_cold_places_follow_each_other_and_a_gap_ends_the_cold(household):
    fridge, box = Cold("fridge", 0, 600), Cold("ice box", 540, 1500)
    assert spells(household(cold=(fridge,)))[0].good_until == 600 + 120
    assert spells(household(cold=(box, replace(fridge, end_min=540))))[0].good_until == 1500 + 120
    gap = spells(household(cold=(fridge, replace(box, start_min=601))))
    assert (gap[0].cold_until, gap[0].good_until) == (600, 720)


def test_hot_air_halves_the_time(household):
    warm = (Weather(32.0, 0.0, rain=False, wet_sticks=False),)
    assert spells(household(cold=(Cold("fridge", 0, 600),), weather=warm))[0].good_until == 660


def test_what_is_bought_later_counts_from_then(household):
    scenario = household(cold=(), fresh=(0, 900))
    assert [is_good(scenario, m) for m in (120, 121, 899, 900, 1020, 1021)] == [
        True, False, False, True, True, False,
    ]  # fmt: skip


def test_raw_meat_on_day_three_is_refused_unless_cold_is_kept(household):
    warm = household(SUPPERS, days=3, cold=())
    found = plan(warm)
    assert found.status == "infeasible"
    assert found.steps == ()
    text = " ".join(found.changes)
    assert "beef stew (supper, day 3): nothing keeps the stewing beef cold" in text
    assert "Kept cold at least until" in text
    kept = plan(household(SUPPERS, days=3, cold=(Cold("ice box", 0, 3 * DAY_MIN),)))
    assert [step.dish for step in kept.steps if step.day == 3] == ["beef_stew"]


def test_the_least_cold_that_is_told_is_enough_and_less_is_not(household):
    warm = household(SUPPERS, days=3, cold=())
    on = choices(warm).spoiled[2]
    enough = replace(warm, cold=(Cold("ice box", 0, on - 120),))
    assert not choices(enough).spoiled
    assert choices(replace(warm, cold=(Cold("ice box", 0, on - 121),))).spoiled


def test_a_swap_is_suggested_when_the_cold_ends_after_day_one(household):
    short = household(SUPPERS, days=3, cold=(Cold("ice box", 0, 1000),))
    moves = better_order(short, tuple(choices(short).spoiled))
    assert told(moves) == ["Swap beef stew (supper, day 3) with red lentil soup (supper, day 1)."]
    assert told(moves)[0] in plan(short).changes
    assert [item.dish.name for item in short.items] == [name for name, *_ in SUPPERS]  # not moved


def test_no_order_is_suggested_where_none_helps(household):
    assert better_order(household(SUPPERS, days=3, cold=()), (2,)) == ()


@settings(max_examples=12, deadline=None)
@given(end=st.integers(0, 3 * DAY_MIN), order=st.permutations(SUPPERS))
def test_whatever_is_suggested_can_be_cooked(household, end, order):
    menu = [(dish, "supper", DAY_MIN * day + 1110) for day, (dish, *_) in enumerate(order)]
    scenario = household(menu, days=3, cold=(Cold("ice box", 0, end),))
    moves = better_order(scenario, tuple(choices(scenario).spoiled))
    better = reordered(scenario, moves)
    assert sorted(i.dish.name for i in better.items) == sorted(i.dish.name for i in scenario.items)
    if moves:
        found = choices(better)
        assert not found.spoiled
        assert {column.item for column in found.columns} == {0, 1, 2}


def test_every_column_left_is_in_time(household):
    scenario = household(SUPPERS, days=3, cold=(Cold("ice box", 0, 2 * DAY_MIN + 900),))
    beef = [c for c in choices(scenario).columns if c.item == 2]
    assert beef
    assert max(c.burns[0].start for c in beef) <= 2 * DAY_MIN + 900 + 120
    assert in_time(replace(scenario, cold=()), scenario.items[2], beef) == []
    assert in_time(replace(scenario, cold=()), scenario.items[0], beef) == beef


def test_the_checker_rejects_meat_that_was_out_of_the_cold(household):
    kept = household(SUPPERS[2:], days=3, cold=(Cold("ice box", 0, 3 * DAY_MIN),))
    made = plan(kept)
    verify(made, kept)
    with pytest.raises(CheckError, match="out of the cold too long"):
        verify(made, replace(kept, cold=()))


def test_leaves_only_wilt_and_have_their_own_time(household):
    rules = replace(shelf.load().rules, fresh_min=120.0, leaves_min=700.0)
    scenario = household(cold=(Cold("fridge", 0, 600),), rules=rules)
    assert spells(scenario) == (Spell(0, 600, 720),)
    assert spells(scenario, "leaves") == (Spell(0, 600, 1300),)
    assert is_good(scenario, 1300, "leaves")
    assert not is_good(scenario, 721)


def test_fresh_food_is_told_in_order_and_a_cold_place_begins_with_its_first_minute(household):
    scenario = household(cold=(Cold("fridge", 500, 600),), fresh=(500, 499, 0))
    assert spells(scenario) == (Spell(0, 0, 120), Spell(499, 499, 619), Spell(500, 600, 720))


def air(*outdoors_c):
    return tuple(Weather(each, 0.0, rain=False, wet_sticks=False) for each in outdoors_c)


@pytest.mark.parametrize(
    ("outdoors_c", "kitchen_c", "cold_until", "minutes"),
    [
        ((20.0, 20.0), 20.0, 600, 120),
        ((20.0, 31.0), 20.0, 600, 120),  # the hot day is another
        ((20.0, 31.0), 20.0, DAY_MIN - 121, 120),
        ((20.0, 31.0), 20.0, DAY_MIN - 120, 60),  # it would lie into the hot day
        ((31.0, 20.0), 20.0, DAY_MIN - 60, 60),  # and out of it
        ((20.0, 31.0), 20.0, 3 * DAY_MIN, 60),  # after the last day it is as on that
        ((31.0, 20.0), 20.0, 3 * DAY_MIN, 120),
        ((20.0, 20.0), 31.0, 600, 60),  # a hot kitchen counts as well
        ((30.0, 20.0), 20.0, 600, 60),  # as hot as the limit is hot
        ((29.9, 20.0), 20.0, 600, 120),
    ],
)
def test_hot_air_of_the_day_or_of_the_kitchen(
    household, outdoors_c, kitchen_c, cold_until, minutes
):
    made = household(days=2, cold=(Cold("ice box", 0, cold_until),), weather=air(*outdoors_c))
    scenario = replace(
        made,
        place=replace(made.place, kitchen_c=kitchen_c),
        rules=replace(made.rules, fresh_min=120.0, fresh_hot_min=60.0, hot_air_c=30.0),
    )
    assert spells(scenario) == (Spell(0, cold_until, cold_until + minutes),)


def test_a_dish_goes_on_the_fire_from_when_its_food_comes_until_it_spoils(household, cook):
    scenario = household(SUPPERS[2:], days=3, cold=(), fresh=(400,))
    columns = [cook(0, "gas", start, 20) for start in (399, 400, 401)]
    assert in_time(scenario, scenario.items[0], columns) == columns[1:]
    late = replace(scenario, fresh=(280,))
    assert in_time(late, scenario.items[0], columns) == columns[:2]


@pytest.mark.parametrize(
    ("cold", "fresh", "told_"),
    [
        ((), (0,), "nothing keeps the stewing beef cold; say under 'cold' what does"),
        ((), (3000,), "nothing keeps the stewing beef cold; say under 'cold' what does"),
        (
            (Cold("fridge", 0, 600),),
            (0,),
            "the stewing beef is cold until 10:00 on day 1; it has to be on the fire by "
            "12:00 on day 1",
        ),
        (
            (),
            (DAY_MIN + 485,),
            "the stewing beef comes at 08:05 on day 2 and nothing keeps it cold; it has to be on "
            "the fire by 10:05 on day 2",
        ),
        (  # what comes at the meal itself is the latest that can be eaten then
            (Cold("fridge", 0, 600),),
            (0, 2500, 2501),
            "the stewing beef comes at 17:40 on day 2 and nothing keeps it cold; it has to be on "
            "the fire by 19:40 on day 2",
        ),
        (  # cold for as long as one place follows another
            (Cold("fridge", 0, 1500), Cold("ice box", 1500, 1800)),
            (0,),
            "the stewing beef is cold until 06:00 on day 2; it has to be on the fire by "
            "08:00 on day 2",
        ),
        (
            (Cold("fridge", 0, 60),),
            (0,),
            "the stewing beef is cold until 01:00 on day 1; it has to be on the fire by "
            "03:00 on day 1",
        ),
    ],
)
def test_why_a_dish_spoils_is_told(household, cold, fresh, told_):
    scenario = household([("beef_stew", "supper", 2500)], days=3, cold=cold, fresh=fresh)
    assert spoiled(scenario, scenario.items[0]) == Refused("spoils", told_)


def test_the_food_that_is_good_for_longest_is_told_not_the_last(household):
    rules = replace(shelf.load().rules, fresh_min=120.0, fresh_hot_min=10.0, hot_air_c=30.0)
    scenario = household(
        [("beef_stew", "supper", DAY_MIN + 300)],
        days=2,
        cold=(),
        fresh=(DAY_MIN - 121, DAY_MIN - 119),  # the second lies into a hot day
        weather=air(20.0, 35.0),
        rules=rules,
    )
    assert spoiled(scenario, scenario.items[0]).reason.endswith("by 23:59 on day 1")


def test_all_that_spoils_in_a_dish_is_named(household):
    foods, dishes = shelf.load().foods, shelf.load().dishes
    stew = dishes["beef_stew"]
    beef = next(i for i in stew.ingredients if i.food.name == "beef_stewing")
    egg = replace(beef, food=replace(foods["egg"], label="egg, whole, raw"))
    both = replace(stew, ingredients=(*stew.ingredients, egg))
    assert [food.name for food in foods_that(both, "perishable")] == ["beef_stewing", "egg"]
    assert "egg" not in [food.name for food in foods_that(both, "keeps")]
    scenario = household([("beef_stew", "supper", 1110)], cold=())
    item = replace(scenario.items[0], dish=both)
    assert spoiled(scenario, item).reason.startswith("nothing keeps the stewing beef and egg cold;")


@pytest.mark.parametrize(
    ("minute", "told_"),
    [
        (0, "00:00 on day 1"),
        (DAY_MIN - 1, "23:59 on day 1"),
        (DAY_MIN, "00:00 on day 2"),
        (2 * DAY_MIN + 605, "10:05 on day 3"),
    ],
)
def test_a_moment_is_told_by_clock_and_day(minute, told_):
    assert moment(minute) == told_
