"""Doneness: known integrals, and that it never falls with time or with heat."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from optimizer.errors import PhysicsError
from optimizer.physics import doneness

BEANS = {"boil_min": 60.0, "z_k": 19.0, "floor_c": 60.0}
temperatures = st.lists(st.floats(0, 125), min_size=2, max_size=30).map(np.array)
zs = st.floats(10, 50)


def test_an_hour_at_the_boil_is_an_hour():
    found = doneness.credit(time_s=[0, 1800, 3600], temperature_c=[100, 100, 100], **BEANS)
    assert found == pytest.approx([0, 0.5, 1.0])


def test_nothing_is_credited_below_the_floor():
    speeds = doneness.rate(temperature_c=[59.9, 60.0, 100.0], z_k=20, floor_c=60)
    assert speeds == pytest.approx([0, 0.01, 1])


def test_a_step_across_the_floor_counts_nothing():
    found = doneness.credit(time_s=[0, 600, 1200], temperature_c=[70, 50, 50], **BEANS)
    assert found.tolist() == [0, 0, 0]


# The integral of a straight fall is z/ln 10 times the difference of the rates over the slope.
@pytest.mark.parametrize("z_k", [16.0, 19.0, 33.1])
@pytest.mark.parametrize("turned", [1, -1])
def test_a_straight_fall_agrees_with_its_integral_and_errs_to_too_little(z_k, turned):
    steps = math.ceil(30 / (z_k / 5)) + 1
    time_s = np.linspace(0, 3600, steps)
    falling = np.linspace(100, 70, steps)[::turned]
    found = doneness.credit(time_s=time_s, temperature_c=falling, boil_min=60, z_k=z_k, floor_c=60)[
        -1
    ]
    exact = z_k / math.log(10) * (1 - 10 ** (-30 / z_k)) / 30
    assert exact * 0.99 <= found <= exact


# scipy's own quadrature of a pot that cools towards 20 degC; minutes as steps. Tolerance 0.1 %.
def test_a_cooling_pot_agrees_with_another_quadrature():
    from scipy.integrate import quad

    def pot_c(second):
        return 20 + 78 * math.exp(-second / 40000)

    time_s = np.arange(0, 4 * 3600 + 1, 60.0)
    level = np.array([pot_c(second) for second in time_s])
    exact, _ = quad(lambda second: 10 ** ((pot_c(second) - 100) / 19) / 3600, 0, 4 * 3600)
    found = doneness.credit(time_s=time_s, temperature_c=level, **BEANS)[-1]
    assert found == pytest.approx(exact, rel=1e-3)


@given(temperatures, zs)
def test_done_never_falls_with_time(level, z_k):
    time_s = np.arange(len(level)) * 60.0
    found = doneness.credit(time_s=time_s, temperature_c=level, boil_min=30, z_k=z_k, floor_c=60)
    assert found[0] == 0
    assert found.shape == level.shape
    assert np.all(np.diff(found) >= 0)


@given(temperatures, zs, st.floats(0, 20))
def test_done_never_falls_with_heat(level, z_k, rise_k):
    time_s = np.arange(len(level)) * 60.0
    rule = {"time_s": time_s, "boil_min": 30, "z_k": z_k, "floor_c": 60}
    cooler = doneness.credit(temperature_c=level, **rule)
    hotter = doneness.credit(temperature_c=level + rise_k, **rule)
    assert np.all(hotter >= cooler)


@given(temperatures, zs, st.floats(1, 60))
def test_done_goes_down_with_the_time_it_takes(level, z_k, boil_min):
    rule = {"time_s": np.arange(len(level)) * 60.0, "temperature_c": level, "z_k": z_k}
    once = doneness.credit(boil_min=boil_min, floor_c=60, **rule)
    twice = doneness.credit(boil_min=2 * boil_min, floor_c=60, **rule)
    assert twice * 2 == pytest.approx(once)


def test_draws_are_credited_row_by_row():
    time_s = np.array([0.0, 600.0, 1200.0])
    level = np.array([[100.0, 95.0, 90.0], [98.0, 92.0, 85.0]])
    takes = np.array([[50.0], [70.0]])
    found = doneness.credit(time_s=time_s, temperature_c=level, boil_min=takes, z_k=19, floor_c=60)
    each = [
        doneness.credit(
            time_s=time_s, temperature_c=row, boil_min=float(minutes[0]), z_k=19, floor_c=60
        )
        for row, minutes in zip(level, takes, strict=True)
    ]
    assert found == pytest.approx(np.array(each))


@given(zs, st.floats(0, 150))
def test_energy_and_z_are_inverse(z_k, temperature_c):
    energy = doneness.activation_energy_j_mol(z_k=z_k, temperature_c=temperature_c)
    back = doneness.z_from_activation_energy_k(energy_j_mol=energy, temperature_c=temperature_c)
    assert back == pytest.approx(z_k)


# The slope of Arrhenius' law itself, by two temperatures a hair apart.
def test_the_energy_gives_the_same_slope_as_arrhenius():
    energy = doneness.activation_energy_j_mol(z_k=20, temperature_c=90)
    warm, hot = 363.14, 363.16
    ratio = math.exp(energy / 8.314462618 * (1 / warm - 1 / hot))
    assert ratio == pytest.approx(10 ** (0.02 / 20), rel=1e-8)


@pytest.mark.parametrize(
    ("change", "rule"),
    [
        ({"boil_min": 0.0}, "boil_min must be positive"),
        ({"boil_min": math.inf}, "boil_min must be positive"),
        ({"z_k": 0.0}, "z_k must be positive"),
        ({"time_s": [0.0, 60.0, 30.0]}, "time_s must rise"),
        ({"temperature_c": [90.0, math.nan, 90.0]}, "temperature_c must be finite"),
    ],
)
def test_impossible_cooking_is_refused(change, rule):
    usual = {"time_s": [0.0, 60.0, 120.0], "temperature_c": [90.0, 90.0, 90.0], **BEANS}
    with pytest.raises(PhysicsError, match=rule):
        doneness.credit(**usual | change)


@pytest.mark.parametrize("temperature_c", [-1.0, 151.0])
def test_energies_outside_a_kitchen_are_refused(temperature_c):
    with pytest.raises(PhysicsError, match="temperature_c must be at least 0 and at most 150"):
        doneness.activation_energy_j_mol(z_k=20, temperature_c=temperature_c)


def test_an_energy_of_nothing_is_refused():
    with pytest.raises(PhysicsError, match="energy_j_mol must be positive"):
        doneness.z_from_activation_energy_k(energy_j_mol=0.0, temperature_c=100.0)
