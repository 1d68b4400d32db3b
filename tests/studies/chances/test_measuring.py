"""What to measure: the variance left is what theory says, and the right thing comes first."""

from dataclasses import replace

import numpy as np
import pytest

from optimizer.studies.chances.draws import Draws
from optimizer.studies.chances.measuring import left_share, measurings
from optimizer.studies.chances.trying import tried

COUNT = 2000


@pytest.fixture(name="pair")
def _pair():
    chance = np.random.default_rng(5)
    return chance.normal(size=COUNT), chance.normal(size=COUNT)


@pytest.mark.parametrize("weight", [0.5, 1.0, 3.0])
def test_what_is_left_of_a_sum_when_one_part_is_known(pair, weight):
    # variance of a sum of two independent parts: known one removes its own part of it
    known, other = pair
    assert left_share(weight * known + other, known) == pytest.approx(1 / (1 + weight**2), abs=0.06)


def test_what_has_nothing_to_do_with_it_leaves_all(pair):
    known, other = pair
    assert left_share(other, known) == pytest.approx(1, abs=0.05)


def test_the_thing_itself_leaves_almost_nothing(pair):
    known, _ = pair
    assert left_share(known, known) < 0.02


def test_a_reading_the_other_way_round_tells_as_much(pair):
    known, other = pair
    assert left_share(known + other, known) == pytest.approx(left_share(known + other, -known))


def test_what_is_certain_needs_no_measuring(pair):
    known, _ = pair
    assert left_share(np.ones(COUNT), known) == 1
    assert left_share(known, np.ones(COUNT)) == 1


def found(demo, draws, **rules):
    scenario, plan = demo
    scenario = replace(scenario, rules=replace(scenario.rules, **rules))
    return measurings(tried(plan, scenario, draws), scenario, draws)


def test_the_stove_that_burns_most_is_what_to_measure(demo):
    told = found(demo, Draws(COUNT, 7))
    assert told[0].thing == "stick_stove"
    assert told[0].kind in {"weigh_fuel", "time_boil"}
    assert [each.left_mj for each in told] == sorted(each.left_mj for each in told)
    assert all(0 <= each.left_mj <= each.band_mj for each in told)
    assert len({each.band_mj for each in told}) == 1


def test_the_box_says_nothing_of_the_fuel_of_a_finished_plan(demo):
    told = {each.thing: each for each in found(demo, Draws(COUNT, 7)) if each.kind == "test_box"}
    assert told["packed_box"].left_mj > 0.95 * told["packed_box"].band_mj


def test_a_clumsy_measurement_narrows_less(demo):
    good = found(demo, Draws(COUNT, 7), measured_spread=0.02)[0]
    bad = found(demo, Draws(COUNT, 7), measured_spread=0.3)
    same = next(each for each in bad if (each.kind, each.thing) == (good.kind, good.thing))
    assert good.left_mj < same.left_mj


def test_only_what_the_plan_uses_is_measured(demo):
    scenario, plan = demo
    used = {step.stove for step in plan.steps} | {step.cooker for step in plan.steps}
    told = found(demo, Draws(200, 7))
    assert {each.thing for each in told} == used - {None}
    assert len({(each.kind, each.thing) for each in told}) == len(told)
    assert scenario.cookers
