"""What a search found set beside what is proven: gap, status, and what is no result at all.

One dish takes 2 MJ of gas for 5 money, on a stove that needs no lighting.
"""

from dataclasses import replace

import pytest

from optimizer.errors import CheckError
from optimizer.planning.result import result
from optimizer.planning.solver import Outcome
from tests.planning.conftest import cook, kitchen

DISH = cook(0, "gas", 400, 20, fuel_mj=2.0, money=5.0)
OUTCOME = Outcome("optimal", "why", 5.0, 5.0, 0.0, 1.0, 0)


def found(*outcomes, chosen=(DISH,), goal="money", stopped=False):
    return result(chosen, kitchen(0), goal, outcomes, 7.0, stopped=stopped)


def test_a_proven_plan():
    made = found(OUTCOME)
    assert (made.status, made.value, made.bound, made.gap) == ("optimal", 5.0, 5.0, 0.0)
    assert (made.chosen, made.seconds, made.lit) == ((DISH,), 7.0, ())


def test_the_gap_is_the_share_of_the_value_that_the_bound_leaves():
    made = found(replace(OUTCOME, bound=4.0))
    assert (made.status, made.bound, made.gap) == ("within_gap", 4.0, pytest.approx(0.2))


def test_value_and_bound_are_in_the_unit_of_the_goal_not_of_the_program():
    made = found(replace(OUTCOME, objective=2.0, bound=1.5), goal="energy")  # MJ
    assert (made.value, made.bound, made.gap) == (2e6, 1.5e6, pytest.approx(0.25))


def test_no_bound_is_above_the_value():
    assert found(replace(OUTCOME, bound=5.0 + 1e-7)).bound == 5.0


def test_what_is_within_a_millionth_is_the_best_there_is():
    assert found(replace(OUTCOME, bound=5.0 * (1 - 0.9e-6))).status == "optimal"
    assert found(replace(OUTCOME, bound=5.0 * (1 - 1.1e-6))).status == "within_gap"


def test_without_a_bound_nothing_is_proven():
    made = found(replace(OUTCOME, bound=None))
    assert (made.status, made.bound, made.gap) == ("within_gap", None, None)


def test_what_costs_nothing_has_no_gap():
    free = replace(DISH, money=0.0)
    assert found(replace(OUTCOME, bound=0.0), chosen=(free,)).gap == 0.0


def test_the_bound_is_that_of_the_first_goal_and_the_status_that_of_the_last():
    made = found(replace(OUTCOME, bound=4.0), replace(OUTCOME, status="feasible", bound=1.0))
    assert (made.bound, made.status) == (4.0, "time_limit")


@pytest.mark.parametrize("status", ["feasible", "no_solution"])
@pytest.mark.parametrize(("stopped", "told"), [(True, "stopped"), (False, "time_limit")])
def test_why_a_search_ended_early(status, stopped, told):
    assert found(replace(OUTCOME, status=status), stopped=stopped).status == told


@pytest.mark.parametrize(
    ("status", "told"), [("infeasible", "infeasible"), ("no_solution", "no_plan")]
)
def test_no_plan(status, told):
    made = found(replace(OUTCOME, status=status), chosen=())
    assert (made.status, made.chosen, made.value, made.bound) == (told, (), None, None)
    assert (made.gap, made.seconds, made.lit) == (None, 7.0, ())


@pytest.mark.parametrize(
    ("status", "chosen"),
    [("error", ()), ("optimal", ()), ("error", (DISH,)), ("infeasible", (DISH,))],
)
def test_a_solver_that_contradicts_what_is_chosen(status, chosen):
    with pytest.raises(CheckError, match=rf"^the solver fails: {status}, why$"):
        found(replace(OUTCOME, status=status), chosen=chosen)


def test_a_choice_that_breaks_a_limit_is_no_result():
    twice = [DISH, replace(DISH, item=1)]  # one burner
    with pytest.raises(CheckError):
        result(tuple(twice), kitchen(0, 1), "money", [OUTCOME], 7.0, stopped=False)


def test_fires_that_are_lit():
    fed = cook(0, "stick", 1040, 20)
    assert found(OUTCOME, chosen=(fed,)).lit == (("stick", 1),)
