"""Diets and pots apart: who eats of which dish, and what is told where somebody has nothing."""

import random

import pytest

from optimizer.errors import InputError
from optimizer.model.eaters import MARKS
from optimizer.planning.cautions import cautions_of
from optimizer.planning.planner import plan
from optimizer.scenario.reading import parse
from optimizer.scenario.variants import without_foods
from optimizer.shelf import load

SHELF = load()
MILD = "diets:\n  no gluten: {without: gluten, people: {adults: 1, children: 1}}\n"
APART = (
    "dishes: [porridge, tea]",
    "dishes: [porridge, {dish: cornmeal_mush, for: no gluten}, tea]",
)


def test_a_pot_is_only_for_those_whose_diet_it_fits(changed):
    """Two adults and three children, one of each without gluten: oats are for one and two."""
    porridge, mush, tea = parse(changed(APART) + MILD).items[:3]
    assert (porridge.adults, porridge.children) == (1, 2)
    assert (mush.adults, mush.children) == (1, 1)
    assert (tea.adults, tea.children) == (2, 3)


def test_nothing_to_eat_is_told_with_what_would_help(changed, told):
    (found,) = told(changed() + MILD)
    assert found.line == 22
    assert "nothing at breakfast that the 2 people of 'no gluten' eat" in found.message
    assert ": porridge has rolled oats; add another dish for them" in found.message
    assert "for: [no gluten]}" in found.message


def test_what_is_suggested_is_sound(changed, told):
    (found,) = told(changed() + MILD)
    entry = found.message.split("such as ")[1]
    text = changed(("dishes: [porridge, tea]", f"dishes: [porridge, tea, {entry}]"))
    assert len(parse(text + MILD).items) == 7  # three on each day, and a supper


def test_a_variant_leaves_its_foods_out(changed):
    text = changed(
        ("dishes: [lentil_stew]", "dishes: [beef_stew, {dish: beef_stew, without: [meat], for: v}]")
    )
    diet = "diets:\n  v: {without: [meat, fish], people: 2}\n"
    whole, without = parse(text + diet).items[-2:]
    assert without.dish.label == f"{whole.dish.label} without meat"
    assert {i.food.name for i in whole.dish.ingredients} - {
        i.food.name for i in without.dish.ingredients
    } == {"beef_stewing"}
    assert without.dish.boil_min == whole.dish.boil_min
    assert (whole.portions, without.portions) == (3, 2)


def test_a_single_food_may_be_left_out(changed):
    text = changed(("[lentil_stew]", "[{dish: lentil_stew, without: [onions]}]"))
    assert "onions" not in {i.food.name for i in parse(text).items[-1].dish.ingredients}


@pytest.mark.parametrize(
    ("entry", "words"),
    [
        ("{dish: lentil_stew, without: [meat]}", "has no meat in it"),
        ("{dish: lentil_stew, without: [onoins]}", "did you mean 'onions'"),
        ("{dish: porridge, without: [gluten]}", "is no dish any more"),
        ("{dish: porridge, for: [no gluten]}", "nobody it is for eats"),
        ("{dish: lentil_stew, to: the yard}", "carried: 20 min"),
    ],
)
def test_what_cannot_be(changed, told, entry, words):
    supper = ("dishes: [lentil_stew]", f"dishes: [lentil_stew, {entry}]")
    found = told(changed(APART, supper) + MILD)
    assert [words in each.message for each in found] == [True]
    assert found[0].line == 26


@pytest.mark.parametrize(
    ("diets", "words"),
    [
        ("diets: {d: {without: [glutten]}}", "did you mean 'gluten'"),
        ("diets: {d: {without: [nuts], people: 9}}", "are not among the people"),
        ("diets: {d: {without: [nuts], of: [yard]}}", "unknown household 'yard'"),
        ("households: [a, b]\ndiets: {d: {without: [nuts], people: 1}}", "of: NAME"),
        ("households: [a, b]\ndiets: {a: {without: [nuts]}}", "a name of its own"),
    ],
)
def test_diets_that_cannot_be(good, told, diets, words):
    assert [words in each.message for each in told(good + diets + "\n")] == [True]


def test_a_mark_cannot_be_taken_off_a_food_of_the_shelf(good, told):
    (found,) = told(good + "foods: {oats: {contains: []}}\n")
    assert "'oats' contains gluten" in found.message
    own = "foods: {pure_oats: {like: oats, contains: []}}\n"
    assert parse(good + own).people == 5


def test_every_food_of_the_shelf_states_what_it_contains():
    for food in SHELF.foods.values():
        assert food.contains is not None
        assert set(food.contains) <= set(MARKS)
    raw = {f.name for f in SHELF.foods.values() if {"meat", "fish", "egg"} & set(f.contains or ())}
    assert {f.name for f in SHELF.foods.values() if f.endpoint_c is not None} <= raw


class TestCautions:
    """What a plan says of diets; it never says that anything is safe."""

    def codes(self, text):
        scenario = parse(text)
        return {c.code: c for c in cautions_of(plan(scenario, gap=0.05).steps, scenario)}

    def test_pots_apart(self, changed):
        found = self.codes(changed(APART) + MILD)
        assert found["separate_pots"].items == (SHELF.dishes["cornmeal_mush"].label,)
        assert "allergy" not in found

    def test_an_allergy(self, changed):
        text = changed(APART) + MILD.replace("children: 1}}", "children: 1}, allergy: true}")
        told = self.codes(text)["allergy"].text
        assert "cannot promise" in told
        assert "Separate pot, spoon and lid" in told

    def test_a_pot_that_held_the_other_before(self, changed):
        text = changed(
            ("  pot_4l: 2\n", ""),
            ("dishes: [porridge, tea]", "dishes: [porridge]"),
            (
                "  - meal: supper\n",
                '  - meal: breakfast\n    at: "18:00"\n    on: [1]\n'
                "    dishes: [{dish: cornmeal_mush, for: no gluten}]\n"
                "  - meal: supper\n",
            ),
        )
        late = text.replace('at: "07:30"\n', 'at: "07:30"\n    on: [1]\n')
        mush = SHELF.dishes["cornmeal_mush"].label
        assert self.codes(late + MILD)["pot_before"].items[0] == mush

    def test_nothing_stated_of_an_own_food(self, changed):
        own = (
            "foods: {flakes: {water: 0.1, protein: 0.1, fat: 0.05, carbohydrate: 0.7, fibre: 0.05,"
            " ash: 0, shape: slab, half_size: 1 mm, phaseolus: false}}\n"
            "dishes: {gruel: {like: porridge, ingredients: {flakes: 60 g, water: 300 g}}}\n"
        )
        text = changed((APART[0], APART[1].replace("cornmeal_mush", "gruel"))) + MILD + own
        assert self.codes(text)["contents_unstated"].items == ("gruel",)

    def test_nobody_with_a_diet(self, good):
        assert not {"separate_pots", "allergy", "pot_before", "contents_unstated"} & set(
            self.codes(good)
        )


@pytest.mark.parametrize("seed", range(60))
def test_nobody_is_ever_given_what_their_diet_leaves_out(good, seed):
    """Random diets, households and entries: a problem is told, or nobody gets what is left out."""
    draw = random.Random(seed)
    houses = "households: {a: {adults: 1, children: 2}, b: {adults: 1, children: 1}}\n"
    lines = []
    for name, of in (("x", draw.choice(["a", "b"])), ("y", draw.choice(["a", "b"]))):
        people = draw.choice(["", ", people: {adults: 1}", ", people: {adults: 0, children: 1}"])
        marks = ", ".join(draw.sample(MARKS, 2))
        lines.append(f"  {name}: {{without: [{marks}], of: {of}{people}}}\n")
    names = draw.sample([d for d in SHELF.dishes if SHELF.dishes[d].serve == "hot"], 3)
    entries = ", ".join(
        draw.choice([dish, f"{{dish: {dish}, for: {draw.choice(['a', 'b', 'x', 'y'])}}}"])
        for dish in names
    )
    text = good.replace("[porridge, tea]", f"[{entries}]") + houses + f"diets:\n{''.join(lines)}"
    try:
        scenario = parse(text)
    except InputError as error:
        told = error.problems
    else:
        told = []
        _nobody_gets_what_is_left_out(scenario)
    assert all(problem.line for problem in told)


def _nobody_gets_what_is_left_out(scenario):
    assert sum(group.people for group in scenario.groups) == 5
    for item in scenario.items:
        assert sum(h.adults for h in item.helpings) == pytest.approx(item.adults)
        assert sum(h.children for h in item.helpings) == pytest.approx(item.children)
        for helping in item.helpings:
            for diet in scenario.groups[helping.group].diets:
                for part in item.dish.ingredients:
                    assert not set(diet.without) & set(part.food.contains or ())


def test_a_dish_is_never_only_water_and_salt():
    assert without_foods(SHELF.dishes["porridge"], ["gluten"]) is None


def test_a_fault_of_the_households_is_told_once(good, told):
    text = (
        good + "households: {mill: {brings: {sticks: 5}}}\ndiets: {d: {without: nuts, of: mill}}\n"
    )
    (found,) = told(text)
    assert "expected text such as" in found.message
