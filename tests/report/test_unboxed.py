"""Why a dish stays out of the cookers, dish by dish and cooker by cooker."""

from dataclasses import replace
from itertools import product

from optimizer.model.plan import Refusal
from optimizer.report.measures import Metric, Us
from optimizer.report.unboxed import unboxed_lines

COLD = "may be only 55 degC when it is served"


def everywhere(scenario, cooker, reason, item=5):
    return tuple(
        Refusal(item, own.stove.name, pot.pot.name, cooker, "cold", reason)
        for own, pot in product(scenario.stoves, scenario.pots)
    )


def test_the_reason_is_that_of_its_own_pot_on_its_own_stove(plan, scenario):
    refused = (
        Refusal(5, "stick_stove", "pot_6l", "packed_box", "cold", "another pot"),
        Refusal(5, "gas_burner", "pot_4l", "packed_box", "cold", "another stove"),
        Refusal(4, "stick_stove", "pot_4l", "packed_box", "cold", "another dish"),
        Refusal(5, "stick_stove", "pot_4l", None, "cold", "no cooker"),
        Refusal(5, "stick_stove", "pot_4l", "packed_box", "cold", COLD),
    )
    (line,) = unboxed_lines(replace(plan, refusals=refused), scenario, 2, Metric())
    assert line == (
        "brown lentils with potatoes: the packed box: may be only "
        "55 \u00b0C when it is served; the jar: would work in some way, but the plan is "
        "as good or better without."
    )
    (line,) = unboxed_lines(replace(plan, refusals=refused), scenario, 2, Us())
    assert "131 \u00b0F" in line


def test_where_nothing_goes_into_a_cooker_the_commonest_reason_is_told(plan, scenario):
    jar = list(everywhere(scenario, "jar_2l", "too small"))
    jar = [each for each in jar if (each.stove, each.pot) != ("stick_stove", "pot_4l")]
    jar.append(Refusal(5, "stick_stove", "pot_2_5l", "jar_2l", "cold", "a rare one"))
    told = replace(plan, refusals=(*jar, *everywhere(scenario, "packed_box", "too small")))
    (line,) = unboxed_lines(told, scenario, 2, Metric())
    assert line.endswith("the packed box and the jar: too small.")


def test_what_may_cool_needs_no_cooker(plan, scenario):
    steps = tuple(replace(s, serve_rule="any") if s.number == 3 else s for s in plan.steps)
    (line,) = unboxed_lines(replace(plan, steps=steps), scenario, 1, Metric())
    assert line == ("warm washing water: may cool before it is wanted, so no cooker is needed.")


def test_a_dish_in_two_pots_is_told_once_and_a_boxed_one_not_at_all(plan, scenario):
    twice = (*plan.steps, replace(plan.steps[-1], batch=2))
    assert len(unboxed_lines(replace(plan, steps=twice), scenario, 2, Metric())) == 1


def test_without_cookers_nothing_is_said(plan, scenario):
    assert unboxed_lines(plan, replace(scenario, cookers=()), 2, Metric()) == []
