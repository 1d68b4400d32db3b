"""Households, their people and fuel, as the file says them."""

import pytest
from ruamel.yaml import YAML

from optimizer.scenario.neighbours import (
    household_heads,
    with_household_people,
    with_households,
)
from optimizer.scenario.reading import parse

WEIR = """\
households:
  upstairs: {adults: 2, children: 1, brings: {sticks: 4 kg}}
  # they come on Friday
  yard: {children: 2, brings: {propane: 465 g}}
"""


def plain(text):
    return YAML(typ="safe", pure=True).load(text)


def test_households_have_people_and_bring_fuel(good):
    upstairs, yard = parse(good + WEIR).houses
    assert (upstairs.name, upstairs.adults, upstairs.children) == ("upstairs", 2, 1)
    assert (yard.adults, yard.children) == (0, 2)
    assert [(b.fuel, b.kg) for b in upstairs.brings] == [("sticks", 4.0)]
    assert [(b.fuel, b.kg) for b in yard.brings] == [("propane", 0.465)]


def test_names_alone_are_equal_heads(good):
    houses = parse(good + "households: [one, two]\n").houses
    assert [(h.adults, h.children) for h in houses] == [(1.0, 1.5), (1.0, 1.5)]


def test_everybody_eats_of_every_dish(good):
    item = parse(good + WEIR).items[0]
    assert [(h.group, h.adults, h.children) for h in item.helpings] == [(0, 2, 1), (1, 0, 2)]
    assert (item.adults, item.children) == (2.0, 3.0)


def test_a_dish_may_be_for_some_households_only(good):
    text = good.replace("dishes: [porridge, tea]", "dishes: [{dish: porridge, for: yard}, tea]")
    porridge, tea, *_ = parse(text + WEIR).items
    assert (porridge.adults, porridge.children) == (0, 2)
    assert [h.group for h in porridge.helpings] == [1]
    assert [h.group for h in tea.helpings] == [0, 1]


def test_a_meal_may_be_for_some_households_only(good):
    text = good.replace("    on: [2]\n", "    on: [2]\n    for: [upstairs]\n")
    assert (parse(text + WEIR).items[-1].adults, parse(text + WEIR).items[-1].children) == (2, 1)


@pytest.mark.parametrize(
    ("households", "line", "words"),
    [
        ("households: {one: 2, two: {children: 2}}", 25, "come to 2 adults and 2 children"),
        ("households: {one: 2, two: }", 25, "or of none"),
        ("households: [one, one]", 25, "stands twice"),
        ("households: {one: {adults: 2, children: 3, brings: {coal: 1 kg}}}", 25, "among the fuel"),
        ("households: {one: {adults: 2, children: 3, brings: {sticks: 13 kg}}}", 25, "bring more"),
        ("households: {one: {adults: 2, children: 3, brings: {sticks: 1 kWh}}}", 25, "by energy"),
        ("households: {one: {adults: 2, children: 3, brings: {sticks: unlimited}}}", 25, "such as"),
        ("households: {one: {adults: 2, childs: 3}}", 25, "did you mean 'children'"),
    ],
)
def test_what_is_wrong_is_told_on_its_line(good, told, households, line, words):
    found = told(good + households + "\n")
    assert len(found) == 1
    assert words in found[0].message
    assert found[0].line == line + good.count("\n") - 24


def test_a_dish_for_somebody_unknown(good, told):
    text = good.replace("dishes: [porridge, tea]", "dishes: [{dish: porridge, for: yrad}, tea]")
    (found,) = told(text + WEIR)
    assert found.message == "no household and no diet is called 'yrad'; did you mean 'yard'?"
    assert found.line == 22


class TestChanges:
    def test_people_follow_their_household(self, good):
        text = with_household_people(good + WEIR, "yard", 1, 2)
        assert plain(text)["people"] == {"adults": 3, "children": 3}
        assert plain(text)["households"]["yard"] == {
            "adults": 1, "children": 2, "brings": {"propane": "465 g"},
        }  # fmt: skip
        assert "# they come on Friday" in text
        assert parse(text).houses[1].adults == 1

    def test_a_list_of_names_gets_people(self, good):
        text = with_household_people(good + "households: [one, two]\n", "one", 2, 0)
        assert plain(text)["households"] == {
            "one": {"adults": 2, "children": 0}, "two": {"adults": 1, "children": 1},
        }  # fmt: skip
        assert parse(text).people == 4

    def test_who_stays_keeps_what_is_said_of_them(self, good):
        text = with_households(good + WEIR, ["upstairs", "attic"])
        assert plain(text)["households"] == {
            "upstairs": {"adults": 2, "children": 1, "brings": {"sticks": "4 kg"}},
            "attic": {"adults": 0},
        }  # fmt: skip
        assert plain(text)["people"] == {"adults": 2, "children": 1}

    def test_none_takes_them_out(self, good):
        assert "households" not in plain(with_households(good + WEIR, []))

    def test_others_altogether_are_a_list(self, good):
        assert plain(with_households(good + WEIR, ["a", "b"]))["households"] == ["a", "b"]

    def test_heads_are_whole_and_come_to_all(self, good):
        heads = household_heads(good + "households: [one, two]\n")
        assert heads == {"one": (1, 2), "two": (1, 1)}
