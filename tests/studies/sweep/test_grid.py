"""The points of a grid, and the household of each: what the file would say with the change."""

from dataclasses import replace

import pytest

from optimizer.errors import InputError
from optimizer.scenario.reading import parse
from optimizer.studies.endurance.repeat import repeated
from optimizer.studies.sweep.grid import MOST_POINTS, Effort

SHARED = """\
title: One cold morning
people: {adults: 2, children: 1}
days: 2
place: {altitude: 100 m, kitchen: 15 degC, outdoors: 10 degC, water: 10 degC}
weather:
  day 1: {outdoors: 8 degC, wind: 1 m/s}
cook_hours: ["06:00-08:00"]
fuels:
  sticks: {stock: 2 kg, price: 0.50 EUR / kg}
  propane: {stock: 1 x 465 g}
stoves: {stick_stove: 1, gas_burner: {count: 1, where: outdoors}}
pots: {pot_2_5l: 1}
menu:
  - {meal: breakfast, at: "07:30", dishes: [porridge]}
"""


def test_every_combination_is_a_point_and_the_last_axis_goes_fastest(grid):
    made = grid("people=1..3", "sticks=1,2 kg")
    assert made.count == 6
    points = [tuple(made.values(n).values()) for n in range(1, 7)]
    assert points == [(p, s) for p in "123" for s in ("1 kg", "2 kg")]


@pytest.mark.parametrize(
    ("text", "said", "instead"),
    [
        ("people=4", "people: {adults: 2, children: 1}", "people: {adults: 4, children: 0}"),
        ("adults=3", "adults: 2", "adults: 3"),
        ("children=2", "children: 1", "children: 2"),
        ("kitchen=5 degC", "kitchen: 15 degC", "kitchen: 5 degC"),
        ("altitude=2000 ft", "altitude: 100 m", "altitude: 2000 ft"),
        ("sticks=7 kg", "stock: 2 kg", "stock: 7 kg"),
        ("propane=3 x 465 g", "stock: 1 x 465 g", "stock: 3 x 465 g"),
        ("sticks.price=0.9 EUR/kg", "0.50 EUR / kg", "0.90 EUR / kg"),
        ("sticks.reserve=0.2", "price: 0.50", "reserve: 0.2, price: 0.50"),
        ("stick_stove=2", "stick_stove: 1", "stick_stove: 2"),
        ("gas_burner=3", "count: 1", "count: 3"),
        ("pot_2_5l=4", "pot_2_5l: 1", "pot_2_5l: 4"),
        ("wind=5 m/s", "  day 1: {outdoors: 8 degC, wind: 1 m/s}",
         "  day 1: {outdoors: 8 degC, wind: 5 m/s}\n  day 2: {wind: 5 m/s}"),
        ("reserve=0.1", "menu:", "reserve: 0.1\nmenu:"),
        ("cooks=2", "menu:", "cooks: 2\nmenu:"),
    ],
)  # fmt: skip
def test_a_household_is_that_of_the_file_with_the_change(grid, text, said, instead):
    assert said in SHARED
    found = grid(text, text=SHARED).household(1)
    assert found == parse(SHARED.replace(said, instead), "morning.yaml")


def test_the_cold_outdoors_is_that_of_every_day(grid):
    found = grid("outdoors=-9 degC", text=SHARED).household(1)
    assert [day.outdoors_c for day in found.weather] == [-9, -9]
    assert found.place.outdoors_c == -9


def test_some_who_eat_are_changed_after_all_who_eat(grid):
    found = grid("children=2", "people=4", text=SHARED).household(1)
    assert (found.adults, found.children) == (4, 2)


def test_weather_in_a_list_is_changed_on_every_day(grid):
    text = SHARED.replace("weather:\n  day 1: {", "weather:\n  - {")
    found = grid("rain=yes", "wind=7 m/s", text=text).household(1)
    assert [(day.rain, day.wind_m_s) for day in found.weather] == [(True, 7), (True, 7)]
    assert found.weather[0].outdoors_c == 8


def test_days_go_round_the_menu(grid):
    made = grid("days=1,5", text=SHARED)
    house = made.household(2)
    assert house == parse(SHARED, "morning.yaml")
    assert made.scenario(house, 1) == repeated(house, 1)
    longer = made.scenario(house, 2)
    assert [item.day for item in longer.items] == [1, 2, 3, 4, 5]


def test_goal_and_confidence_are_those_of_the_options(grid):
    made = grid("people=2", effort=Effort(goals=("sticks",), confidence=0.95))
    found = made.household(1)
    assert (found.goals, found.confidence) == (("sticks",), 0.95)


def test_the_fingerprint_is_that_of_file_grid_and_effort(grid):
    one = grid("people=1..2", "sticks=1,2 kg")
    assert one.fingerprint == grid("people=1..2", "sticks=1,2kg").fingerprint
    others = [
        grid("people=1..3", "sticks=1,2 kg"),
        grid("sticks=1,2 kg", "people=1..2"),
        grid("people=1..2", "sticks=1,2 kg", effort=Effort(gap=0.02)),
        grid("people=1..2", "sticks=1,2 kg", effort=Effort(days=False)),
        replace(one, text=one.text + "# edited\n"),
    ]
    assert len({one.fingerprint, *(each.fingerprint for each in others)}) == 6


def test_every_fault_of_a_grid_is_told_at_once(grid):
    with pytest.raises(InputError) as caught:
        grid(
            "stiks=1 kg", "people=0,2,x", "sticks=4,6 m", "outdoors=-5,90 degC", "days=3,0",
            "cooks=5..2", "pot_2_5l=-1", "rain=maybe", "sticks.stok=3 kg", "kitchen=4",
        )  # fmt: skip
    told = {(p.key.removeprefix("--vary "), p.code) for p in caught.value.problems}
    assert {key for key, _ in told} == {
        "stiks", "people", "sticks", "outdoors", "days", "cooks", "pot_2_5l", "rain",
        "sticks.stok", "kitchen",
    }  # fmt: skip
    words = str(caught.value)
    assert "did you mean sticks?" in words
    assert "value '6 m'" in words
    assert "at most 55 degC" in words
    assert "whole number of days" in words


def test_a_grid_has_an_end(grid):
    with pytest.raises(InputError, match=f"at most {MOST_POINTS} points"):
        grid("people=1..200", "sticks=1..200 kg")


def test_a_value_that_is_wrong_only_beside_others_is_no_fault_of_the_grid(grid):
    made = grid("stick_stove=0..1", "gas_burner=0..1", text=SHARED)
    with pytest.raises(InputError, match="no stove"):
        made.household(1)
    assert len(made.household(4).stoves) == 2
