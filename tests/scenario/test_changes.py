"""Changes to a household: the file stays readable, its comments stay, the rest stays as it was."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optimizer.errors import InputError
from optimizer.scenario import changes, menu, said_of_dishes
from optimizer.scenario.neighbours import with_household_people
from optimizer.scenario.passages import plain_of
from optimizer.scenario.reading import parse
from optimizer.shelf import data_folder

SHIPPED = sorted(Path(str(data_folder() / "scenarios")).glob("*.yaml"))
DEMO = next(path for path in SHIPPED if path.stem == "outage_weekend").read_text(encoding="utf-8")

HOUSE = """\
# keep 1
title: A house
people: {adults: 2, children: 3}
days: 4
# keep 2
place: {altitude: 320 m, kitchen: 12 degC, outdoors: -1 degC, water: 8 degC}
weather:
  # keep 3
  - {outdoors: 2 degC, wind: 2 m/s}
  # keep 4
  - {outdoors: -3 degC}

cook_hours: ["06:30-09:30", "11:00-19:00"]
# keep 5
fuels:
  # keep 6
  sticks:
    stock: 12 kg # of sticks

    # keep 7
  propane: # of propane
    stock: 1 x 465 g
  # keep 8

# keep 9
stoves:
  stick_stove: 1
  # keep 10
  gas_burner: {count: 1, where: outdoors} # of gas_burner
pots:
  pot_2_5l: 2 # of pot_2_5l
  # keep 11
  pot_4l: 1
cookers:
  packed_box:
    count: 1
    packing: {material: sheep_wool, thickness: 4 inch} # of packed_box
# keep 12
menu:
  - meal: breakfast
    at: "07:30"
    dishes: [porridge, tea]
  # keep 13
  - {meal: lunch, at: "12:30", on: day 1, dishes: [lentil_stew]}
  # keep 14
  - meal: supper
    at: "18:00"
    on: days 2-3
    dishes:
      - bean_stew
      # keep 15
      - {dish: rice, portions: 3}
# keep 16
goal: money
# keep 17
"""
KEPT = [f"# keep {number}" for number in range(1, 18)]
TITLES = st.text(st.characters(categories=["L", "P", "Zs"]), min_size=1)
THINGS = ("sticks", "propane", "gas_burner", "pot_2_5l", "packed_box")  # with a comment beside
SECTIONS = {
    "fuels": ("butane", "charcoal", "ethanol"),
    "stoves": ("open_fire", "alcohol_burner"),
    "pots": ("pot_6l", "pressure_6l", "pot_1_5l"),
    "cookers": ("jar_2l", "hay_box"),
}


def dishes_of(text: str) -> list[tuple[int, int]]:
    """Give the places of the dishes in a menu."""
    return [(p, o) for p, meal in enumerate(menu.menu_of(text)) for o in range(len(meal["dishes"]))]


@st.composite
def one_change(draw: Any, text: str) -> str:
    """Make any change that the pages can make."""
    plain = plain_of(text)
    kind = draw(st.sampled_from(sorted(SECTIONS)))
    things = list(plain[kind])
    name = draw(st.sampled_from([*things, *SECTIONS[kind]]))
    day = draw(st.integers(1, plain["days"]))
    meal = draw(st.integers(0, len(plain["menu"]) - 1)) if plain["menu"] else None
    place, order = draw(st.sampled_from(dishes_of(text) or [(None, None)]))
    days = sorted(draw(st.sets(st.integers(1, plain["days"]), min_size=1)))
    possible: list[Callable[[], str]] = [
        lambda: changes.with_people(text, draw(st.integers(0, 9)), draw(st.integers(0, 9))),
        lambda: changes.with_days(text, draw(st.integers(1, 6))),
        lambda: changes.with_weather(
            text, day, draw(st.sampled_from(["outdoors", "wind"])), draw(st.sampled_from(["", "3"]))
        ),
        lambda: changes.with_weather(text, day, "rain", draw(st.sampled_from([True, None]))),
        lambda: changes.with_value(text, ("title",), draw(TITLES)),
        lambda: menu.with_meal(text, "tea", "16:00", days, ["tea"]),
        lambda: menu.with_day_repeated(text, day, days),
    ]  # fmt: skip
    if name in things:
        possible += [
            lambda: changes.without_thing(text, kind, name),
            lambda: changes.with_field(text, kind, name, "label", draw(st.sampled_from(["", "L"]))),
            lambda: changes.with_field(text, kind, name, "count", draw(st.integers(0, 9))),
        ]
    else:
        possible.append(lambda: changes.with_thing(text, kind, name, {"count": 1}))
    if meal is not None and place is not None:
        possible += [
            lambda: menu.without_meal(text, meal),
            lambda: menu.with_meal_days(text, meal, days),
            lambda: menu.with_dish(text, meal, "tea"),
            lambda: menu.without_dish(text, place, order),
            lambda: said_of_dishes.with_said(
                text,
                ("menu", place, "dishes", order),
                "portions",
                draw(st.sampled_from([None, {"adults": 1, "children": 2}])),
            ),
        ]
    return draw(st.sampled_from(possible))()


@settings(max_examples=25)
@given(st.data())
def test_any_changes_leave_a_readable_file_with_every_comment_that_is_not_of_what_went(data):
    text, gone = HOUSE, set()
    for _ in range(data.draw(st.integers(1, 6))):
        text = data.draw(one_change(text))
        plain = plain_of(text)
        gone |= {n for n in THINGS if not any(n in plain[section] for section in SECTIONS)}
    lines = [line.strip() for line in text.splitlines()]
    within_supper = "# keep 15"  # between the dishes of a meal that may go whole
    there = [line for line in lines if line in KEPT and line != within_supper]
    assert there == [line for line in KEPT if line != within_supper]
    assert [n for n in THINGS if n not in gone and f"# of {n}" not in text] == []


@pytest.mark.parametrize(
    ("edit", "line"),
    [
        (lambda t: changes.with_field(t, "fuels", "sticks", "stock", "5 kg"), "stock"),
        (lambda t: changes.with_field(t, "pots", "pot_2_5l", "count", 7), "pot_2_5l"),
        (lambda t: changes.with_value(t, ("menu", 0, "at"), "08:15"), "at:"),
        (lambda t: menu.with_dish(t, 1, "tea"), "lunch"),
        (lambda t: changes.with_weather(t, 2, "wind", "4 m/s"), "-3 degC"),
    ],
)
def test_what_is_changed_is_all_that_changes(edit, line):
    before, after = HOUSE.splitlines(), edit(HOUSE).splitlines()
    differ = [old for old, new in zip(before, after, strict=True) if old != new]
    assert len(differ) == 1
    assert line in differ[0]


@pytest.mark.parametrize("path", SHIPPED, ids=lambda path: path.stem)
def test_every_shipped_scenario_can_be_changed_and_stays_sound(path: Path):
    text = path.read_text(encoding="utf-8")
    comments = text.count("#")
    plain = plain_of(text)
    fuel = next(iter(plain["fuels"]))
    for change in (
        lambda t: changes.with_value(t, ("title",), "Another title"),
        lambda t: changes.with_weather(t, 1, "wind", "2 m/s"),
        lambda t: changes.with_field(t, "fuels", fuel, "label", "our own"),
        _with_other_people,
        lambda t: menu.with_meal(t, "extra", "12:00", [1], ["tea"]),
        lambda t: menu.with_dish(t, 0, "tea"),
    ):  # fmt: skip
        text = change(text)
    parse(text)
    assert text.count("#") == comments
    assert plain_of(text)["title"] == "Another title"


# days


def _with_other_people(text: str) -> str:
    """Change how many eat: all of them, or those of a household where the file says how many."""
    said = plain_of(text).get("households")
    if isinstance(said, dict):
        return with_household_people(text, next(iter(said)), 3, 1)
    return changes.with_people(text, 3, 1)


def test_fewer_days_take_what_is_said_of_the_others():
    scenario = parse(changes.with_days(DEMO, 1))
    assert scenario.days == 1
    assert {item.meal for item in scenario.items} == {
        "breakfast", "lunch", "supper", "water for the children",
    }  # fmt: skip
    assert parse(changes.with_days(DEMO, 3)).items == parse(DEMO).items


def test_hours_and_weather_by_days_are_cut_too():
    text = HOUSE.replace(
        'cook_hours: ["06:30-09:30", "11:00-19:00"]',
        'cook_hours:\n  every day: ["06:30-19:00"]\n  days 2-4: ["07:00-19:00"]',
    )
    assert plain_of(changes.with_days(text, 3))["cook_hours"] == {
        "every day": ["06:30-19:00"],
        "day 2": ["07:00-19:00"],
        "day 3": ["07:00-19:00"],
    }
    assert parse(changes.with_days(text, 3)).days == 3


@pytest.mark.parametrize(
    ("said", "day", "wanted"),
    [
        ([], 2, [{}, {"wind": "3 m/s"}]),
        ({"every day": {"rain": True}}, 2,
         {"every day": {"rain": True}, "day 2": {"rain": True, "wind": "3 m/s"}}),
        ({"days 1-2": {"rain": True}}, 2,
         {"day 1": {"rain": True}, "day 2": {"rain": True, "wind": "3 m/s"}}),
        ({"day 2": {"rain": True}}, 2, {"day 2": {"rain": True, "wind": "3 m/s"}}),
        ({"2": {"rain": True}}, 2, {"2": {"rain": True, "wind": "3 m/s"}}),
        ({"day 1": {"rain": True}}, 2, {"day 1": {"rain": True}, "day 2": {"wind": "3 m/s"}}),
    ],
)  # fmt: skip
def test_the_weather_of_one_day_changes_for_that_day_alone(said, day, wanted):
    text = changes.with_value(HOUSE, ("weather",), said)
    assert plain_of(changes.with_weather(text, day, "wind", "3 m/s"))["weather"] == wanted


# things


def test_a_bare_count_stays_bare_until_more_is_said():
    text = changes.with_field(HOUSE, "pots", "pot_4l", "count", 3)
    assert "  pot_4l: 3\n" in text
    text = changes.with_field(text, "pots", "pot_4l", "mass", "1 kg")
    assert plain_of(text)["pots"]["pot_4l"] == {"count": 3, "mass": "1 kg"}


def test_a_thing_of_ones_own_is_like_one_on_the_shelf():
    name = changes.free_name(HOUSE, "pots", "Grandmother's pot!")
    assert name == "grandmother_s_pot"
    entry = {"like": "pot_6l", "label": "Grandmother's pot!", "count": 1}
    scenario = parse(changes.with_thing(HOUSE, "pots", name, entry))
    assert {own.pot.label for own in scenario.pots} >= {"Grandmother's pot!"}


def test_a_free_name_is_free():
    assert changes.free_name(HOUSE, "pots", "pot 4l") == "pot_4l_2"
    assert changes.free_name(HOUSE, "pots", "!?") == "thing"


def test_nothing_takes_a_key_out():
    text = changes.with_field(DEMO, "fuels", "sticks", "price", " ")
    assert "price" not in plain_of(text)["fuels"]["sticks"]
    assert changes.with_field(text, "fuels", "sticks", "price", "") == text


# the menu


@pytest.mark.parametrize(
    ("days", "written"),
    [
        ([1, 2, 3], "every day"),
        ([2], "day 2"),
        ([3, 2], "days 2-3"),
        ([1, 3], [1, 3]),
    ],
)
def test_days_are_written_as_a_person_would(days, written):
    assert menu.days_written(days, 3) == written


def test_a_day_is_repeated_whole():
    scenario = parse(menu.with_day_repeated(DEMO, 1, [2, 3]))
    by_day = {
        day: [(i.meal, i.dish.name, i.serve_min % 1440) for i in scenario.items if i.day == day]
        for day in (1, 2, 3)
    }
    assert by_day[1] == by_day[2] == by_day[3]
    first = [(i.meal, i.dish.name, i.serve_min) for i in parse(DEMO).items if i.day == 1]
    assert by_day[1] == first


def test_the_last_dish_takes_its_meal_along():
    text = menu.without_dish(DEMO, 1, 0)
    assert [meal["meal"] for meal in menu.menu_of(text)].count("lunch") == 2


def test_portions_are_said_and_unsaid():
    at = ("menu", 1, "dishes", 0)
    text = said_of_dishes.with_said(DEMO, at, "portions", {"adults": 2, "children": 0})
    (stew,) = [i for i in parse(text).items if i.dish.name == "lentil_stew"]
    assert (stew.adults, stew.children) == (2, 0)
    assert said_of_dishes.with_said(text, at, "portions", None) == DEMO
    assert said_of_dishes.with_said(DEMO, at, "portions", None) == DEMO


def test_a_change_of_a_file_that_is_broken_is_told():
    with pytest.raises(InputError):
        changes.with_days("days: [", 2)
