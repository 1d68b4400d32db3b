"""Every cause has a stream of its own, the same from the same seed."""

import numpy as np
import pytest

from optimizer.studies.chances.draws import LEAST_FACTOR, Draws


def test_the_same_seed_gives_the_same_numbers_in_any_order():
    one, two = Draws(50, 4), Draws(50, 4)
    wind, wood = one.spreads("wind of day 1"), one.spreads("water in sticks")
    assert (two.spreads("water in sticks") == wood).all()
    assert (two.spreads("wind of day 1") == wind).all()
    assert (wind != wood).any()


def test_another_seed_gives_other_numbers():
    assert (Draws(50, 4).spreads("kitchen") != Draws(50, 5).spreads("kitchen")).all()


def test_causes_do_not_move_together():
    draws = Draws(20_000, 1)
    names = ["kitchen", "water", "wind of day 1", "wind of day 2", "heat of sticks"]
    apart = np.corrcoef([draws.spreads(name) for name in names]) - np.eye(len(names))
    assert np.abs(apart).max() < 0.04  # over five standard errors


def test_a_factor_has_its_mean_and_spread():
    factor = Draws(40_000, 2).factor("power of a stove", 0.15)
    assert factor.mean() == pytest.approx(1, abs=0.004)
    assert factor.std() == pytest.approx(0.15, abs=0.003)


def test_nothing_falls_to_nothing():
    factor = Draws(10_000, 2).factor("efficiency of a bad stove", 0.6)
    assert factor.min() == LEAST_FACTOR


def test_what_does_not_vary_is_as_usual():
    assert (Draws(10, 2).factor("power of a kettle", 0.0) == 1).all()


def test_a_shift_is_in_kelvin():
    draws = Draws(40_000, 3)
    shift = draws.shift_k("kitchen", 2.0)
    assert shift.std() == pytest.approx(2.0, abs=0.05)
    assert (shift == 2 * draws.spreads("kitchen")).all()
