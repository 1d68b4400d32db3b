"""The plan with its chances filled in."""

from dataclasses import replace

import numpy as np
import pytest

from optimizer.model.plan import Goal, Plan
from optimizer.studies.chances.study import DRAWS, band, with_chances

COUNT = 1000


@pytest.fixture(name="tried_demo", scope="module")
def _tried_demo(demo):
    scenario, plan = demo
    return scenario, plan, with_chances(plan, scenario)


def test_a_plan_is_tried_two_thousand_times(tried_demo):
    _, _, made = tried_demo
    assert made.chances.draws == DRAWS == 2000


def test_nothing_else_of_the_plan_changes(tried_demo):
    _, plan, made = tried_demo
    bare = replace(
        made,
        chances=None,
        steps=tuple(replace(s, chance_done=None, chance_hot=None) for s in made.steps),
        fuels=tuple(replace(f, p10_mj=None, p90_mj=None) for f in made.fuels),
    )
    assert bare == plan


def test_the_same_seed_gives_the_same_chances(tried_demo):
    scenario, plan, made = tried_demo
    assert with_chances(plan, scenario) == made


def test_another_seed_gives_nearly_the_same(tried_demo):
    scenario, plan, made = tried_demo
    other = with_chances(plan, scenario, seed=made.chances.seed + 1)
    assert other != made
    for one, two in zip(made.steps, other.steps, strict=True):
        assert one.chance_done == pytest.approx(two.chance_done, abs=0.04)
    for one, two in zip(made.fuels, other.fuels, strict=True):
        assert one.p90_mj == pytest.approx(two.p90_mj, rel=0.05)


def test_what_need_not_be_hot_has_no_chance_of_it(tried_demo):
    _, _, made = tried_demo
    for step in made.steps:
        assert (step.chance_hot is None) == (step.serve_rule == "any")
        assert 0 <= step.chance_done <= 1


def test_all_together_is_rarer_than_any_one(tried_demo):
    _, _, made = tried_demo
    least = min(step.chance_done for step in made.steps)
    apart = np.prod([step.chance_done for step in made.steps])
    assert apart < made.chances.all_well <= least  # shared causes: often together or not at all


def test_bands_stand_in_order_round_what_is_planned(tried_demo):
    _, _, made = tried_demo
    for use, each in zip(made.fuels, made.chances.fuels, strict=True):
        assert use.name == each.name
        assert use.p10_mj == each.p10_mj <= each.p50_mj <= each.p90_mj == use.p90_mj
        assert each.p10_mj <= use.used_mj <= each.p90_mj


def test_a_band_is_of_a_tenth_and_nine_tenths():
    assert band(np.arange(101.0)) == (10.0, 50.0, 90.0)


def test_a_larger_store_runs_out_less_often_and_later_days_more(tried_demo):
    scenario, plan, _ = tried_demo

    def out(kg):
        stores = tuple(
            replace(s, stock_kg=kg) if s.fuel.name == "sticks" else s for s in scenario.stores
        )
        made = with_chances(plan, replace(scenario, stores=stores), count=COUNT)
        return next(f.runs_out for f in made.chances.fuels if f.name == "sticks")

    chances = [out(kg) for kg in (1.0, 4.0, 6.0, 8.0, 40.0)]
    assert all(list(days) == sorted(days) for days in chances)
    last = [days[-1] for days in chances]
    assert last == sorted(last, reverse=True)
    assert last[0] == 1
    assert last[-1] == 0
    assert any(0 < share < 1 for share in last)


def test_a_store_without_end_does_not_run_out(tried_demo):
    scenario, plan, _ = tried_demo
    stores = tuple(replace(s, stock_kg=None) for s in scenario.stores)
    made = with_chances(plan, replace(scenario, stores=stores), count=50)
    assert all(each.runs_out is None for each in made.chances.fuels)


def test_a_plan_without_steps_comes_back_as_it_is(demo):
    scenario, _ = demo
    none = Plan("Nothing", None, "infeasible", None, Goal("money", None, None))
    assert with_chances(none, scenario) is none
