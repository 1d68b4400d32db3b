"""One big boil: the item it makes, the rules of its uses, both ways solved, words and cautions."""

import pytest

from optimizer.planning.planner import plan
from optimizer.planning.verify import verify
from optimizer.report.measures import Metric
from optimizer.report.one_boil import one_boil_told
from optimizer.report.timetable import timetable
from optimizer.scenario.reading import parse
from optimizer.studies.one_boil import one_boil, together

HOME = """\
title: One boil
people: 2
days: 1
place: {altitude: 100 m, kitchen: 15 degC, outdoors: 10 degC, water: 10 degC}
cook_hours: ["06:00-08:00", "10:00-11:30"]
fuels: {sticks: {stock: 6 kg, price: 0.50 EUR / kg}}
stoves: {stick_stove: 1}
pots: {pot_2_5l: 1, pot_6l: 1}
cookers: {packed_box: 1}
menu:
  - {meal: breakfast, at: "07:30", dishes: [tea, hot_bottles]}
  - {meal: noon, at: "11:30", dishes: [washing_water]}
"""
ONE = """\
  - meal: breakfast
    at: "07:30"
    dishes:
      - one_boil: [tea, {dish: washing_water, at: "08:00"}, {dish: hot_bottles, at: "07:45"}]
"""


@pytest.fixture(scope="module", name="apart")
def _apart():
    return parse(HOME)


@pytest.fixture(scope="module", name="once")
def _once():
    head = HOME.split("menu:\n", maxsplit=1)[0]
    return parse(head + "menu:\n" + ONE)


@pytest.fixture(scope="module", name="made")
def _made(once):
    return plan(once)


def test_the_pot_holds_the_sum_and_each_use_has_its_own_time_and_heat(once):
    (item,) = once.items
    # for two: 0.35 L of tea, 0.8 L for hot bottles, 1.2 L to wash, each
    assert sum(each.kg for each in item.dish.ingredients) == pytest.approx(2 * 2.35)
    assert [each.use for each in item.drawn] == ["tea", "water for hot bottles", "washing water"]
    assert [each.share for each in item.drawn] == pytest.approx([0.7 / 4.7, 1.6 / 4.7, 2.4 / 4.7])
    assert [each.need_c for each in item.drawn] == [80, 60, 45]
    assert [item.serve_min - each.before_min for each in item.drawn] == [450, 465, 480]
    assert item.dish.heat_c is None  # tea has to boil
    assert item.dish.disinfects


def test_it_is_one_pot_on_the_stove_and_its_plan_is_checked(once, made):
    verify(made, once)
    (step,) = made.steps
    assert step.pot == "pot_6l"
    assert step.drawn[0].careful_c >= 80
    assert [round(each.kg, 3) for each in step.drawn[0].ingredients] == [0.006, 0.016]


def test_bottles_are_never_filled_with_boiling_water(once, made):
    (step,) = made.steps
    bottles = step.drawn[1]
    assert bottles.most_c == 75
    told = [each.text for each in timetable(made, once, Metric()) if "bottles" in each.text]
    assert bottles.usual_c > 75
    assert "let it cool to 75 °C before you use it" in told[0]
    (caution,) = [each for each in made.cautions if each.code == "hot_bottle"]
    assert "never with boiling water" in caution.text
    assert "maker" in caution.text
    assert "infants" not in {each.code for each in made.cautions}  # nobody's bottle is made


def test_both_ways_are_solved_and_the_number_is_their_difference(apart):
    found = one_boil(apart)
    assert found is not None
    assert found.known
    assert [item.dish.name for item in found.days[0].items] == [
        "tea",
        "hot_bottles",
        "washing_water",
    ]
    assert found.fuel_mj == pytest.approx(found.apart.fuel_mj - found.at_once.fuel_mj)
    assert found.cost == pytest.approx(found.apart.cost - found.at_once.cost)
    told = " ".join(one_boil_told(found, apart, Metric()))
    assert "Against boiling each by itself it takes" in told
    assert ("only a suggestion" in told) == found.better


def test_so_many_uses_as_one_pot_serves_are_taken_together(apart):
    (day,) = together(apart)
    assert (day.meal, day.at, len(day.items)) == ("breakfast", 450, 3)
    unboxed = parse(HOME.replace("{packed_box: 1}", "{}"))
    (day,) = together(unboxed)
    assert [item.dish.name for item in day.items] == ["tea", "hot_bottles"]  # cold by noon


def test_nothing_to_put_together_is_said(apart):
    alone = parse(HOME.replace("[tea, hot_bottles]", "[tea]").replace("washing_water", "porridge"))
    assert one_boil(alone) is None
    assert "No day of this menu" in one_boil_told(None, alone, Metric())[0]


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("[tea,", "[porridge,", "is not made by pouring hot water"),
        ('at: "08:00"', 'at: "07:00"', "before the clock time of its meal"),
        ('at: "08:00"', "drawn: {08:00: 1 L}", "say 'at'"),
        ("washing_water", "washing_watr", "did you mean 'washing_water'"),
        ("one_boil:", "one_boyl:", "unknown key"),
    ],
)
def test_a_fault_is_told(old, new, words):
    from optimizer.errors import InputError

    head = HOME.split("menu:\n", maxsplit=1)[0]
    assert old in ONE
    with pytest.raises(InputError) as caught:
        parse(head + "menu:\n" + ONE.replace(old, new, 1))
    assert any(words in problem.message for problem in caught.value.problems)
