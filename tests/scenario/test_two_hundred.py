"""The shipped scenario of two hundred people: carriers, shares, a diet, a plan that is checked."""

from itertools import pairwise

import pytest

from optimizer.planning.planner import plan
from optimizer.planning.verify import verify
from optimizer.scenario.reading import read
from optimizer.shelf import data_folder
from optimizer.studies.households import with_households


@pytest.fixture(scope="module")
def street():
    scenario = read(data_folder() / "scenarios" / "hill_street.yaml")
    return scenario, with_households(plan(scenario, gap=0.05), scenario)


def test_two_hundred_eat_twice_a_day(street):
    scenario, made = street
    assert scenario.people == 200
    assert sum(item.portions for item in scenario.items) == pytest.approx(200 * 2 * 2)
    assert sum(step.portions for step in made.steps) == pytest.approx(800)
    verify(made, scenario)


def test_what_is_carried_leaves_in_carriers_and_is_hot(street):
    scenario, made = street
    away = [step for step in made.steps if scenario.items[step.number].carried]
    assert len(away) >= 12
    assert {step.cooker for step in away} == {"crowd_carrier"}
    assert min(step.serve_c_low for step in away) >= 60


def test_large_dishes_are_in_several_pots(street):
    assert max(step.batch for step in street[1].steps) > 1


def test_twelve_people_eat_no_meat(street):
    scenario, _ = street
    groups = [n for n, g in enumerate(scenario.groups) if any(d.name == "no meat" for d in g.diets)]
    assert sum(scenario.groups[n].people for n in groups) == 12
    for item in scenario.items:
        meat = any("meat" in (part.food.contains or ()) for part in item.dish.ingredients)
        assert not meat or not {h.group for h in item.helpings} & {*groups}


def test_three_streets_share_what_is_burned(street):
    _, made = street
    used = made.fuels[0].used_kg
    assert sum(share.fuels[0].used for share in made.shares) == pytest.approx(used)
    assert made.shares[2].settlement == pytest.approx(-made.shares[2].cost)  # it brought none
    assert {turn.household for turn in made.rota} == {"yard street", "upper street", "mill lane"}
    assert all(one.household != other.household for one, other in pairwise(made.rota))
