"""What a rest is counted on for, against many kitchens drawn one by one."""

import numpy as np
import pytest
from scipy.special import ndtri

from optimizer.planning.counting import STRENGTHS, Sooner, counted

STEP_MIN = 5
STEPS = 60
BOIL_MIN = 40.0
SPREAD = 0.2
DRAWS = 40_000
POINT = 0.01
LEAK = 1.28
MINUTES = np.arange(STEPS) * STEP_MIN


def cooked(leak, spread=0.2, constant_min=150.0):
    """Minutes at 100 degC by a rest in a box so many deviations leaky, cooling evenly."""
    constant = constant_min / (1 + spread * leak)
    return constant * (1 - np.exp(-MINUTES / constant))


def sooner(strength, spread, up_min=20.0):
    """How much sooner a stove so strong has a pot boiling than one 1.28 deviations weak."""
    power = np.maximum(1 + np.asarray(strength) * spread, 1e-3)
    return up_min * (1 / (1 - 1.28 * spread) - 1 / power)


def stoves(spread):
    never = -1 / spread if spread else -np.inf
    return Sooner(tuple(sooner(STRENGTHS, spread).tolist()), never)


def share(*, leak=0.2, stove=0.2, food=SPREAD, confidence=0.9, rate=1.0):
    found = counted(
        np.stack([cooked(each, leak) for each in (0.0, LEAK)])[:, None],
        LEAK,
        STEP_MIN,
        [stoves(stove)],
        np.array([rate]),
        BOIL_MIN,
        food,
        confidence,
    )
    return found[0]


def realised(step, on_fire_min, *, leak=0.2, stove=0.2, food=SPREAD):
    """Share of many kitchens in which so much on the fire and so long a rest is enough."""
    draw = np.random.default_rng(11)
    strong, leaky, slow = draw.standard_normal((3, DRAWS))
    rests = MINUTES[step] + sooner(strong, stove)
    constant = 150.0 / (1 + leak * leaky)
    rested = constant * (1 - np.exp(-np.maximum(rests, 0.0) / constant)) + np.minimum(rests, 0.0)
    return float(np.mean(on_fire_min + rested >= BOIL_MIN * (1 + food * slow)))


@pytest.mark.parametrize("confidence", [0.8, 0.9, 0.95])
@pytest.mark.parametrize("step", [0, 2, 6, 13, 24, 31, 44])
@pytest.mark.parametrize(
    ("leak", "stove", "food"),
    [(0.2, 0.2, 0.2), (0.3, 0.05, 0.05), (0.1, 0.3, 0.1), (0.05, 0.1, 0.25), (0.3, 0.3, 0.3)],
)
def test_as_many_kitchens_get_it_done_as_are_wanted(confidence, step, leak, stove, food):
    varied = {"leak": leak, "stove": stove, "food": food}
    careful_min = BOIL_MIN * (1 + ndtri(confidence) * food)
    on_fire_min = (1 - share(**varied, confidence=confidence)[step]) * careful_min
    assert realised(step, on_fire_min, **varied) == pytest.approx(confidence, abs=1.5 * POINT)


def test_where_only_food_varies_it_is_the_cooking_over_the_careful_minutes():
    alone = share(leak=0.0, stove=0.0)[::4]
    rested = MINUTES + sooner(0.0, 0.0)
    usual = np.interp(rested, MINUTES, cooked(0.0, 0.0))[::4]
    assert alone == pytest.approx(usual / (BOIL_MIN * (1 + ndtri(0.9) * SPREAD)), rel=1e-3)


def test_what_varies_besides_is_never_to_the_good():
    alone = share(leak=0.0)
    assert (share(leak=0.3) <= alone + 1e-9).all()
    assert (share(confidence=0.95) < share(confidence=0.9)).all()


def test_less_is_lost_than_if_all_were_bad_at_once():
    worst = np.interp(MINUTES, MINUTES, cooked(ndtri(0.9)))  # late, leaky, and for slow food
    careful = worst / (BOIL_MIN * (1 + ndtri(0.9) * SPREAD))
    assert (share()[2:] > careful[2:]).all()


def test_a_longer_rest_cooks_more():
    assert (np.diff(share())[:40] > 0).all()


def test_a_pot_that_may_be_late_at_the_meal_lacks_what_it_lacks_on_the_fire():
    at_once, stronger = share(stove=0.3)[0], share(stove=0.3, rate=1.3)[0]
    assert stronger < at_once


def test_a_stove_that_may_never_boil_is_counted_on_for_nothing():
    assert share(stove=0.7, confidence=0.95)[10] < -1


def test_each_of_many_is_as_if_alone():
    rows = np.stack([cooked(each) for each in (0.0, LEAK)])[:, None]
    slow = np.stack([cooked(each, constant_min=90.0) for each in (0.0, LEAK)])[:, None]
    rest = (BOIL_MIN, SPREAD, 0.9)
    both = counted(
        np.concatenate([rows, slow], axis=1),
        LEAK,
        STEP_MIN,
        [stoves(0.2), stoves(0.3)],
        np.array([1.0, 1.2]),
        *rest,
    )
    assert both[0] == pytest.approx(share(), abs=1e-6)
    assert both[1] == pytest.approx(
        counted(slow, LEAK, STEP_MIN, [stoves(0.3)], np.array([1.2]), *rest)[0],
        abs=1e-6,
    )
