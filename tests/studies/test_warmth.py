"""The curve of a dish is the planner's own: it ends at what the plan says of the table."""

from dataclasses import replace
from functools import lru_cache

import pytest

from optimizer.errors import CheckError
from optimizer.model.household import Scenario
from optimizer.model.plan import Plan
from optimizer.planning.planner import plan
from optimizer.scenario.reading import read
from optimizer.shelf import data_folder
from optimizer.studies.warmth import warmth


@lru_cache
def planned(name: str) -> tuple[Scenario, Plan]:
    scenario = read(data_folder() / "scenarios" / f"{name}.yaml")
    return scenario, plan(scenario, gap=0.05)


@pytest.mark.parametrize("name", ["one_person_jar", "outage_weekend"])
def test_the_last_reading_is_the_one_at_the_table(name):
    scenario, made = planned(name)
    boxed = [step for step in made.steps if step.cooker]
    assert boxed
    for step in boxed:
        found = warmth(scenario, step)
        assert found.readings[-1].minute == step.serve
        assert found.readings[-1].usual_c == pytest.approx(step.serve_c)
        assert found.readings[-1].careful_c == pytest.approx(step.serve_c_low)


def test_a_dish_that_needs_two_pots_has_a_curve_for_each():
    scenario, _ = planned("outage_weekend")
    washing = next(i for i in scenario.items if i.dish.name == "washing_water")
    many = replace(
        scenario,
        stores=tuple(replace(each, stock_kg=None, stock_j=None) for each in scenario.stores),
        items=(replace(washing, adults=3, number=0),),
    )
    steps = plan(many, gap=0.2).steps
    assert [step.batch for step in steps] == [1, 2]
    for step in steps:
        found = warmth(many, step)
        assert found.readings[-1].usual_c == pytest.approx(step.serve_c)


def test_the_careful_temperature_is_never_above_the_usual_and_both_fall():
    scenario, made = planned("outage_weekend")
    for step in made.steps:
        readings = warmth(scenario, step).readings
        assert all(r.careful_c <= r.usual_c + 1e-9 for r in readings)
        usual = [r.usual_c for r in readings]
        assert usual == sorted(usual, reverse=True)


def test_hot_food_is_above_its_line_when_it_is_served():
    scenario, made = planned("outage_weekend")
    for step in made.steps:
        found = warmth(scenario, step)
        if step.serve_rule == "hot":
            assert found.need_c == scenario.rules.hot_c
            assert found.readings[-1].careful_c >= found.need_c
        if step.serve_rule == "any":
            assert found.need_c is None


def test_a_plan_of_another_household_is_refused():
    scenario, _ = planned("one_person_jar")
    _, made = planned("outage_weekend")
    with pytest.raises(CheckError, match="no such"):
        warmth(scenario, made.steps[0])
