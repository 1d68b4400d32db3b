"""What a rest is counted on for where little varies, so that it can be reckoned by hand."""

import numpy as np
import pytest
from scipy.special import ndtr, ndtri

from optimizer.planning.counting import ON_TIME, STRENGTHS, Sooner, counted

EVEN = 0.5  # a chance of one half: what is usual, without any reserve
ONE = float(ndtr(1.0))  # a chance that belongs to one standard deviation
TENS = (0.0, 10.0, 20.0, 30.0, 40.0)  # minutes at 100 degC by steps of the rest


def sooner(minutes):
    return Sooner((float(minutes),) * len(STRENGTHS), -np.inf)


def shares(usual=TENS, leaky=None, *, leak=1.0, each=(ON_TIME,), rates=(1.0,), **other):
    """Shares of 50 boil minutes by steps of 5 minutes, the same rest for each."""
    rest = np.array([usual, usual if leaky is None else leaky])
    spread, confidence = other.get("spread", 0.2), other.get("confidence", EVEN)
    cooked = np.repeat(rest[:, None], len(each), axis=1)
    return counted(cooked, leak, 5, each, np.array(rates), 50.0, spread, confidence)


def test_it_is_what_the_rest_cooks_over_the_boil_minutes():
    assert shares()[0] == pytest.approx([0, 0.2, 0.4, 0.6, 0.8], abs=1e-5)


def test_slow_food_needs_more_minutes():
    # 50 minutes and a spread of 0.2 are 60 careful ones
    assert shares(confidence=ONE)[0] == pytest.approx([0, 1 / 6, 2 / 6, 3 / 6, 4 / 6], abs=1e-5)


def test_food_without_a_spread_is_given_a_hundredth():
    assert shares(confidence=ONE, spread=0.0)[0] == pytest.approx(
        [-0.01, 0.19, 0.39, 0.59, 0.79], abs=1e-5
    )


@pytest.mark.parametrize(
    ("minutes", "told"),
    [
        (10, [0.4, 0.6, 0.8, 0.8, 0.8]),  # two steps; a rest longer than known cooks no more
        (2.5, [0.1, 0.3, 0.5, 0.7, 0.8]),
        (-5, [-0.05, 0, 0.2, 0.4, 0.6]),  # at the meal it lacks five minutes over half a fire
        (-7.5, [-0.075, -0.025, 0.1, 0.3, 0.5]),
        (-1e6, [-6] * 5),  # five hours late at the most: 300 of 50 minutes
    ],
)
def test_a_pot_that_leaves_the_fire_sooner_rests_the_longer(minutes, told):
    found = shares(each=[sooner(minutes)], rates=[0.5])
    assert found[0] == pytest.approx(told, abs=1e-5)


def test_each_rest_has_its_own_fire():
    found = shares(each=[sooner(-5), ON_TIME, sooner(-5)], rates=[0.5, 1.0, 2.0])
    assert found[:, 0] == pytest.approx([-0.05, 0, -0.2], abs=1e-5)
    assert found[:, 2] == pytest.approx([0.2, 0.4, 0.2], abs=1e-5)


def test_a_leaky_box_adds_to_the_spread_by_its_square():
    leaky = (0.0, 10.0, 12.5, 22.5, 32.5)  # 7.5 of 50 minutes less: with 0.2 that is 0.25
    one = shares(leaky=leaky, confidence=ONE)[0]
    assert one[1] == pytest.approx(1 / 6, abs=1e-5)
    assert one[2:] == pytest.approx([1 - (1.25 - c) / 1.2 for c in (0.4, 0.6, 0.8)], abs=1e-5)
    # as much less, in a box that is looked at twice as leaky, is half the spread
    two = shares(leaky=(0.0, 10.0, 5.0, 15.0, 25.0), leak=2.0, confidence=ONE)[0]
    assert two == pytest.approx(one, abs=1e-6)


def test_a_stove_that_never_boils_it_is_late_without_end():
    late = Sooner((-1e6, *(0.0,) * (len(STRENGTHS) - 1)), -1e9)
    never = Sooner(late.min, 0.0)  # every second stove
    sure, half = shares(each=[late], rates=[1.0])[0], shares(each=[never], rates=[1.0])[0]
    assert sure == pytest.approx(shares()[0], abs=1e-3)  # only one in 70,000 is so weak
    assert (half < sure - 0.5).all()


def test_half_of_the_stoves_have_to_do_it_though_they_never_boil_it():
    # three quarters: those that boil it, and every second of those that lack 50 and 300 minutes
    never = Sooner((-1e6, *(0.0,) * (len(STRENGTHS) - 1)), 0.0)
    found = shares(each=[never], confidence=0.75)[0]
    careful = 1 + ndtri(0.75) * 0.2
    assert found == pytest.approx([1 - 7 / careful] * 5, abs=1e-4)


def test_a_long_rest_is_looked_at_more_coarsely_and_told_by_steps():
    steps = np.arange(60.0)
    found = shares(tuple(steps))[0]
    assert found[:57] == pytest.approx(steps[:57] / 50, abs=1e-5)
    assert found[57:] == pytest.approx([56 / 50] * 3, abs=1e-5)  # not looked at: no more than that
