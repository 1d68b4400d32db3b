"""Porridge steeped in a jar with water off a big boil: its heat, its plan, its checks."""

import math
from dataclasses import replace

import pytest

from optimizer.errors import CheckError, InputError
from optimizer.model.now import Eaters, Now
from optimizer.planning.baseline import separate
from optimizer.planning.planner import plan
from optimizer.planning.remaining import remaining
from optimizer.planning.steeping import mixed_c, needed_c, steeped
from optimizer.planning.verify import verify
from optimizer.planning.ways import conditions
from optimizer.report.measures import Metric
from optimizer.report.timetable import timetable
from optimizer.scenario.reading import parse

HOME = """\
title: Porridge in a jar
people: {adults: 2, children: 1}
days: 1
place: {altitude: 100 m, kitchen: 15 degC, outdoors: 10 degC, water: 10 degC}
cook_hours: ["05:00-08:30"]
fuels: {propane: {stock: 2 kg, price: 9 EUR / kg}}
stoves: {gas_burner: 1}
pots: {pot_8l: 1}
cookers: {jar_2l: 1, packed_box: 1}
menu:
  - meal: breakfast
    at: "07:30"
    dishes:
      - one_boil:
          - {dish: porridge, steep_in: jar_2l, at: "06:15"}
          - {dish: washing_water, at: "08:00"}
"""


@pytest.fixture(scope="module", name="home")
def _home():
    return parse(HOME)


@pytest.fixture(scope="module", name="made")
def _made(home):
    return plan(home)


@pytest.fixture(scope="module", name="steep")
def _steep(home):
    return home.items[0].drawn[0].steep


def test_oats_take_heat_from_the_water_by_hand(home, steep):
    at = conditions(home, 1)
    tight = replace(steep, cooker=replace(steep.cooker, preheated=True))
    still = replace(at, rules=replace(at.rules, draw_open_min=0.0))
    # 2.6 portions: water at 4.18 kJ/kgK, dry food at about 1.75 kJ/kgK and 15 degC
    water = 2.6 * next(i.kg for i in steep.dish.ingredients if i.food.name == "water")
    dry = 2.6 * sum(i.kg for i in steep.dish.ingredients if i.food.name != "water")
    by_hand = (water * 4.18 * 95 + dry * 1.75 * 15) / (water * 4.18 + dry * 1.75)
    assert mixed_c(tight, 95.0, still) == pytest.approx(by_hand, abs=0.8)
    assert mixed_c(steep, 95.0, at) < mixed_c(tight, 95.0, still)  # the jar and the air take some


def test_the_water_is_as_hot_as_done_and_hot_need_and_no_less(home, steep):
    at = conditions(home, 1)
    need, wait = needed_c(steep, at), steep.minutes // 5
    assert 80 < need < at.boil_c
    enough, short = steeped(steep, need, at), steeped(steep, need - 1, at)
    assert enough.done[wait] >= 1
    assert enough.careful_c[wait] >= 60
    assert short.done[wait] < 1 or short.careful_c[wait] < 60


def test_too_short_a_steep_cannot_be(home, steep):
    assert math.isinf(needed_c(replace(steep, minutes=15), conditions(home, 1)))
    made = plan(parse(HOME.replace("06:15", "07:20")))
    assert made.status == "infeasible"
    assert any("never done and hot" in each.reason for each in made.refusals)


def test_what_does_not_go_into_the_jar_cannot_be(home, steep):
    assert math.isinf(needed_c(replace(steep, portions=6.0), conditions(home, 1)))


def test_it_is_planned_told_and_checked(home, made):
    verify(made, home)
    (step,) = made.steps
    told = step.drawn[0].steeped
    assert (told.cooker, told.serve) == ("jar_2l", 450)
    assert told.careful_c >= 60
    assert told.done >= 1
    lines = [each.text for each in timetable(made, home, Metric())]
    assert any("onto 155 g rolled oats" in line and "until 07:30" in line for line in lines)
    assert any(line.startswith("Breakfast. Serve the porridge, about") for line in lines)
    assert {"reheat", "thermometer"} <= {each.code for each in made.cautions}


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"careful_c": 80.0}, "degC at the table, not 80"),
        ({"done": 2.0}, "told as 2.000"),
        ({"serve": 455}, "for another time"),
        ({"cooker": "packed_box"}, "in another jar"),
    ],
)
def test_what_is_told_wrongly_of_it_is_found(home, made, change, told):
    (step,) = made.steps
    first = replace(step.drawn[0], steeped=replace(step.drawn[0].steeped, **change))
    wrong = replace(made, steps=(replace(step, drawn=(first, *step.drawn[1:])),))
    with pytest.raises(CheckError, match=told):
        verify(wrong, home)


def test_a_shorter_steep_than_planned_is_found_not_done(home, made):
    (item,) = home.items
    first = replace(item.drawn[0], steep=replace(item.drawn[0].steep, minutes=30))
    hasty = replace(home, items=(replace(item, drawn=(first, *item.drawn[1:])),))
    with pytest.raises(CheckError, match=r"is 0\.\d+ done"):
        verify(made, hasty)


def test_the_jar_is_taken_while_it_steeps(home):
    tea = (
        '  - {meal: early, at: "07:00", dishes: [{dish: tea, drawn: {07:00: 1 L, 07:20: 0.4 L}}]}\n'
    )
    two = HOME.replace("pot_8l: 1", "pot_8l: 1, pot_2_5l: 1").replace(
        "gas_burner: 1", "gas_burner: 2"
    )
    both = plan(parse(two + tea))
    assert all(step.cooker != "jar_2l" for step in both.steps)


def test_boiled_by_itself_it_is_ready_at_its_meal(home):
    porridge, washing = separate(home.items[0])
    assert (porridge.dish.name, porridge.serve_min) == ("porridge", 450)
    assert porridge.adult_portions == pytest.approx(2 + 0.6)
    assert washing.serve_min == 480


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("steep_in: jar_2l", "steep_in: packed_box", "is no vacuum jar"),
        ("dish: porridge", "dish: lentil_stew", "cannot be steeped"),
        ("dish: porridge", "dish: beef_stew", "cannot be steeped"),
        ('at: "06:15"', 'at: "07:30"', "before the meal"),
        ('steep_in: jar_2l, at: "06:15"', 'at: "07:30"', "steep it in a jar"),
    ],
)
def test_a_fault_of_the_file_is_told(old, new, words):
    assert old in HOME
    with pytest.raises(InputError) as caught:
        parse(HOME.replace(old, new, 1))
    assert any(words in problem.message for problem in caught.value.problems)


def test_more_who_eat_get_more_of_what_is_steeped_too(home):
    more = Now(minute=60, eaters=(Eaters(0, 4, 2),))
    (item,) = remaining(home, more).items
    assert item.adult_portions == pytest.approx(2 * home.items[0].adult_portions)
    assert item.drawn[0].steep.portions == pytest.approx(2 * 2.6)
