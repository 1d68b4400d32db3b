"""The checker's own count of what a rest cooks in many kitchens, against sums done otherwise."""

from dataclasses import replace

import numpy as np
import pytest
from scipy.integrate import quad

from optimizer import shelf
from optimizer.planning.checks.body import Body
from optimizer.planning.checks.cases import cases_of
from optimizer.planning.checks.chance import POWERS, cooked_min, kitchens
from optimizer.planning.checks.heat import minutes_between, minutes_by_power
from optimizer.planning.planner import plan
from optimizer.scenario.reading import read

PLANNED_MIN = 30.0
REST_MIN = 60
BODY = Body(12e3, 0.0, 0.8, 0.3, 97.0, 15.0, move_min=2.0)
ON_TIME = np.full(len(POWERS), PLANNED_MIN)


@pytest.fixture(name="case", scope="module")
def _case():
    scenario = read(shelf.data_folder() / "scenarios" / "one_person_jar.yaml")
    cases, _ = cases_of(plan(scenario, gap=0.05), scenario)
    return next(each for each in cases if each.item.dish.boil_min >= 5)


def sure(case, boil_spread=0.0):
    dish = replace(case.item.dish, boil_spread=boil_spread)
    return replace(case, item=replace(case.item, dish=dish))


def cooks(case, minutes, leak=0.0, spread=BODY.spread):
    """Minutes at 100 degC by an integral from a library, the way into the cooker included."""
    dish = case.item.dish
    constant_min = BODY.contents_j_k / (BODY.loss_w_k * (1 + leak * spread)) / 60

    def pace(since):
        level = BODY.room_c + (BODY.start_c - BODY.room_c) * np.exp(-since / constant_min)
        return 10 ** ((level - 100) / dish.z_k) if level >= dish.floor_c else 0.0

    moved = min(minutes, BODY.move_min)
    return moved * pace(0.0) + quad(pace, 0.0, minutes - moved)[0]


@pytest.mark.parametrize("leak", [-1.5, 0.0, 1.28])
@pytest.mark.parametrize("minutes", [1, 20, 60])
def test_a_rest_cooks_what_the_library_says(case, minutes, leak):
    assert cooked_min(BODY, case, minutes, leak) == pytest.approx(
        cooks(case, minutes, leak), rel=2e-3
    )


def test_where_nothing_varies_a_rest_counts_whole(case):
    body = replace(BODY, spread=0.0)
    found = kitchens(body, sure(case), REST_MIN, ON_TIME, PLANNED_MIN)
    assert found.counted_min(0.0) == pytest.approx(cooks(case, REST_MIN), abs=0.05)


@pytest.mark.parametrize("deviations", [0.0, 0.84, 1.28, 1.64])
def test_where_only_food_varies_it_counts_beside_the_careful_minutes(case, deviations):
    body, slow = replace(BODY, spread=0.0), sure(case, 0.25)
    found = kitchens(body, slow, REST_MIN, ON_TIME, PLANNED_MIN).counted_min(deviations)
    needed = slow.item.dish.boil_min * (1 + 0.25 * deviations)
    assert found == pytest.approx(
        cooks(case, REST_MIN) - (needed - slow.careful_boil_min), abs=0.05
    )


@pytest.mark.parametrize("deviations", [-1.28, 0.84, 1.28, 1.64])
def test_where_only_the_box_varies_it_counts_as_a_box_so_leaky(case, deviations):
    found = kitchens(BODY, sure(case), REST_MIN, ON_TIME, PLANNED_MIN).counted_min(deviations)
    assert found == pytest.approx(cooks(case, REST_MIN, leak=deviations), rel=0.02)


@pytest.mark.parametrize("deviations", [0.84, 1.28, 1.64])
def test_where_only_the_stove_varies_it_counts_as_late_as_a_stove_so_weak(case, deviations):
    body, up_min = replace(BODY, spread=0.0), PLANNED_MIN / (1 + 0.2 * POWERS)
    found = kitchens(body, sure(case), REST_MIN, up_min, PLANNED_MIN).counted_min(deviations)
    late_min = PLANNED_MIN / (1 - 0.2 * deviations) - PLANNED_MIN
    assert found == pytest.approx(cooks(case, REST_MIN - late_min), rel=0.02)


def test_a_pot_that_is_late_at_the_meal_lacks_it_on_the_fire(case):
    body = replace(BODY, spread=0.0)
    found = kitchens(body, sure(case), 5, ON_TIME + 12.0, PLANNED_MIN).counted_min(1.28)
    at_top = float(case.rate(np.asarray(case.top_c)))
    assert found == pytest.approx(-7.0 * at_top, abs=0.3)


def test_a_pot_that_never_boils_is_never_counted_done(case):
    found = kitchens(BODY, case, REST_MIN, np.full(len(POWERS), np.inf), np.inf)
    assert found.counted_min(1.28) < -100


def test_several_powers_at_once_take_as_long_as_one_by_one():
    pot = {"heat_j_k": 12e3, "loss_w_k": 4.0, "air_c": 10.0, "from_c": 12.0, "to_c": 99.0}
    watts = np.array([200.0, 356.0, 357.0, 400.0, 900.0])
    assert minutes_by_power(net_w=watts, **pot).tolist() == [
        pytest.approx(minutes_between(net_w=each, **pot)) for each in watts
    ]
