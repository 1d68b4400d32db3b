"""What spoils without cold is refused, and an order of dishes that works is suggested."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optimizer import shelf
from optimizer.errors import CheckError
from optimizer.model.household import DAY_MIN, Cold, Weather
from optimizer.planning.keeping import in_time, is_good, keeping_of, spells
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
    spoiled = choices(scenario).spoiled
    moves = better_order(scenario, tuple(spoiled))
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
