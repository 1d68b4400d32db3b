"""Changes to diets, from text to text: who is fed by them, and what goes with a diet."""

import pytest

from optimizer.errors import InputError
from optimizer.scenario.diets import (
    meant_for,
    with_all_fed,
    with_diet,
    with_new_diet,
    without_diet,
)
from optimizer.scenario.menu import menu_of
from optimizer.scenario.passages import plain_of
from optimizer.scenario.reading import parse

MILD = {"without": ["gluten"], "people": {"adults": 1, "children": 0}}


def test_those_left_with_nothing_get_a_dish_at_each_such_meal(small):
    text = with_all_fed(with_new_diet(small, "mild", MILD))
    scenario = parse(text)
    porridge, own = scenario.items
    assert (porridge.adults, porridge.children) == (0, 1)
    assert (own.adults, own.children) == (1, 0)
    assert not scenario.groups[0].unfit(own.dish)
    assert "# early" in text


def test_a_dish_is_cooked_without_what_they_leave_out_where_that_can_be(small):
    text = small.replace("[porridge]", "[beef_stew]")
    text = with_all_fed(with_new_diet(text, "calm", {**MILD, "without": ["meat", "fish"]}))
    assert menu_of(text)[0]["dishes"] == [
        "beef_stew", {"dish": "beef_stew", "without": ["meat"], "for": ["calm"]},
    ]  # fmt: skip


def test_nothing_is_added_where_all_are_fed_or_something_else_is_wrong(small):
    text = with_new_diet(small, "nuts", {"without": ["nuts"]})
    assert with_all_fed(text) == text
    wrong = with_new_diet(small, "mild", {**MILD, "people": {"adults": 9, "children": 0}})
    assert with_all_fed(wrong) == wrong


def test_what_was_for_a_diet_alone_goes_with_it(small):
    menu = """
menu: # what we eat
  - meal: breakfast # first
    at: "07:30"
    dishes:
      - {dish: rice, for: mild} # theirs
      - {dish: rice, for: [mild, calm]}
      - one_boil: [tea, {dish: hot_bottles, for: mild}] # in one pot
  - meal: late
    at: "07:45"
    for: [mild]
    dishes: [rice]
"""
    diets = "diets: {mild: {without: nuts}, calm: {without: [soya]}} # ours, too\n"
    text = small.split("menu:")[0] + menu.lstrip() + diets
    assert [names for _, names in meant_for(text)] == [
        ["mild"],
        ["mild", "calm"],
        ["mild"],
        ["mild"],
    ]
    left = without_diet(text, "mild")
    assert menu_of(left) == [
        {"meal": "breakfast", "at": "07:30",
         "dishes": [{"dish": "rice", "for": ["calm"]}, {"one_boil": ["tea"]}]},
    ]  # fmt: skip
    assert plain_of(left)["diets"] == {"calm": {"without": ["soya"]}}
    assert "# in one pot" in left
    assert "# ours, too" in left
    assert "diets" not in plain_of(without_diet(left, "calm"))


def test_a_bare_word_becomes_what_is_left_out(small):
    text = small + "diets: {calm: nuts}\n"
    text = with_diet(text, "calm", "allergy", value=True)
    assert plain_of(text)["diets"]["calm"] == {"without": "nuts", "allergy": True}
    text = with_diet(text, "calm", "allergy", value=None)
    assert plain_of(text)["diets"]["calm"] == {"without": "nuts"}


def test_no_diet_is_written_over_another(small):
    text = with_new_diet(small, "mild", MILD)
    with pytest.raises(InputError, match="there is a diet 'mild' already"):
        with_new_diet(text, "mild", {"without": ["nuts"]})
