"""A pot over a fire and off it: against an ODE solver, and what must always hold."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from optimizer.errors import PhysicsError
from optimizer.physics import heating

POT = {"heat_capacity_j_k": 2.0e4, "loss_w_k": 1.6, "air_c": -3.0}
HOLD = {"efficiency": 0.3, "loss_w_k": 1.6, "temperature_c": 98.0, "air_c": -2.0}
FACE = {"surface_c": 95.0, "air_c": 15.0, "wind_m_s": 0.0, "emissivity": 0.4}

heats = st.floats(100.0, 1e5)
losses = st.floats(0.0, 10.0)
powers = st.floats(0.0, 5e3)
cold = st.floats(-20.0, 40.0)
times = st.floats(0.0, 24 * 3600.0)


def test_heating_up_takes_as_long_as_the_equation_says():
    seconds = heating.heat_up_s(**POT, net_power_w=700.0, start_c=10.0, end_c=98.0)

    def slope(_, t):
        return (700.0 - 1.6 * (t + 3.0)) / 2.0e4

    solution = solve_ivp(slope, (0, seconds), [10.0], rtol=1e-11, atol=1e-10)
    assert solution.y[0, -1] == pytest.approx(98.0, abs=1e-6)


def test_without_losses_heat_over_power():
    lossless = {**POT, "loss_w_k": 0.0}
    assert heating.heat_up_s(
        **lossless, net_power_w=500.0, start_c=10.0, end_c=60.0
    ) == pytest.approx(2000.0, rel=1e-15)


def test_a_fire_too_small_never_gets_there():
    steady_w = 1.6 * (98.0 + 3.0)
    powers_w = np.array([0.0, 20.8, steady_w, steady_w + 1.0])
    seconds = heating.heat_up_s(**POT, net_power_w=powers_w, start_c=10.0, end_c=98.0)
    assert np.isinf(seconds).tolist() == [True, True, True, False]


def test_already_hot_takes_no_time_even_without_a_fire():
    assert heating.heat_up_s(**POT, net_power_w=0.0, start_c=98.0, end_c=60.0) == 0.0


@given(heats, st.floats(200.0, 5e3), losses, cold, times)
def test_heating_up_and_heated_are_each_other_s_inverse(heat, power, loss, air, time):
    pot = {"heat_capacity_j_k": heat, "loss_w_k": loss, "air_c": air, "net_power_w": power}
    end = min(heating.heated_c(**pot, start_c=air, time_s=time), 150.0)
    seconds = heating.heat_up_s(**pot, start_c=air, end_c=end)
    if np.isfinite(seconds):  # not where it has come to its steady temperature
        back = heating.heated_c(**pot, start_c=air, time_s=seconds)
        assert back == pytest.approx(end, abs=1e-6)


@given(heats, powers, losses, st.floats(-20.0, 120.0), cold, times)
def test_heat_given_is_kept_or_lost_to_1e_9(heat, power, loss, start, air, time):
    split = heating.heat_split(
        heat_capacity_j_k=heat,
        net_power_w=power,
        loss_w_k=loss,
        start_c=start,
        air_c=air,
        time_s=time,
    )
    scale = abs(split.given_j) + abs(split.contents_j) + abs(split.lost_j) + heat
    assert abs(split.given_j - split.contents_j - split.lost_j) <= 1e-9 * scale


def test_heat_split_against_the_ode_solver():
    split = heating.heat_split(**POT, net_power_w=700.0, start_c=10.0, time_s=3000.0)

    def slope(_, y):
        return [(700.0 - 1.6 * (y[0] + 3.0)) / 2.0e4, 1.6 * (y[0] + 3.0)]

    solution = solve_ivp(slope, (0, 3000), [10.0, 0.0], rtol=1e-11, atol=1e-9)
    assert split.lost_j == pytest.approx(solution.y[1, -1], rel=1e-8)
    assert split.given_j == 2.1e6


@given(heats, st.floats(0.01, 10.0), cold, times, st.floats(-60.0, 250.0))
def test_cooling_goes_to_the_air_and_no_further(heat, loss, air, time, start):
    end = heating.cooled_c(
        heat_capacity_j_k=heat, loss_w_k=loss, start_c=start, air_c=air, time_s=time
    )
    assert min(start, air) - 1e-9 <= end <= max(start, air) + 1e-9


def test_cooling_is_heating_without_a_fire():
    cooled = heating.cooled_c(**POT, start_c=98.0, time_s=5000.0)
    assert cooled == pytest.approx(
        heating.heated_c(**POT, start_c=98.0, time_s=5000.0, net_power_w=0.0), abs=1e-9
    )


def test_time_to_cool_is_the_inverse_and_infinite_below_the_air():
    seconds = heating.cooled_s(**POT, start_c=98.0, end_c=np.array([99.0, 60.0, -3.0, -10.0]))
    assert seconds[0] == 0.0
    assert heating.cooled_c(**POT, start_c=98.0, time_s=seconds[1]) == pytest.approx(60.0)
    assert np.isinf(seconds[2:]).all()


def test_without_loss_a_pot_never_cools():
    assert heating.cooled_s(**{**POT, "loss_w_k": 0.0}, start_c=98.0, end_c=60.0) == np.inf


def test_holding_pays_losses_and_leak_or_the_least_the_stove_can_burn():
    power = heating.hold_power_w(low_power_w=np.array([0.0, 900.0]), **HOLD, steam_leak=0.05)
    assert power == pytest.approx([160.0 / 0.95 / 0.3, 900.0])


def test_what_holding_does_not_need_boils_off():
    steam = heating.boiled_off_kg(fuel_power_w=900.0, **HOLD, time_s=3600.0, latent_j_kg=2.257e6)
    assert steam == pytest.approx((270.0 - 160.0) * 3600 / 2.257e6)


@given(st.floats(0.0, 5e3), st.floats(0.0, 0.3), st.floats(0.05, 0.9), losses)
def test_the_leak_and_nothing_else_boils_off_a_stove_turned_down(low, leak, efficiency, loss):
    hold = {"efficiency": efficiency, "loss_w_k": loss, "temperature_c": 98.0, "air_c": 8.0}
    power = heating.hold_power_w(low_power_w=low, **hold, steam_leak=leak)
    steam_w = 2e6 * heating.boiled_off_kg(fuel_power_w=power, **hold, time_s=1.0, latent_j_kg=2e6)
    least = leak * efficiency * power
    assert steam_w >= least - 1e-6
    if power > low:
        assert steam_w == pytest.approx(least, abs=1e-6)


def test_too_little_fuel_boils_nothing_off():
    assert heating.boiled_off_kg(fuel_power_w=0.0, **HOLD, time_s=60.0, latent_j_kg=2e6) == 0.0


def test_a_bare_pot_loses_more_in_wind_when_big_and_when_black():
    def loss(**change):
        return heating.pot_loss_w_k(**{"diameter_m": 0.22, "height_m": 0.17, **FACE, **change})

    assert loss() < loss(wind_m_s=1.0) < loss(wind_m_s=4.0)
    assert loss() < loss(diameter_m=0.26)
    assert loss() < loss(height_m=0.22)
    assert loss() < loss(emissivity=0.9)


def test_a_bare_pot_s_film_is_of_the_order_of_ten_watts_a_square_metre_and_kelvin():
    """Common practice, no source: 8 to 12 W/(m2 K) indoors for a dull surface near the boil."""
    loss = heating.pot_loss_w_k(diameter_m=0.22, height_m=0.17, **{**FACE, "emissivity": 0.8})
    assert 8.0 < loss / (np.pi * 0.22 * (0.17 + 0.055)) < 14.0


def test_radiation_is_the_law_of_stefan_and_boltzmann():
    size = {"diameter_m": 0.22, "height_m": 0.17}
    black, bright = (heating.pot_loss_w_k(**size, **{**FACE, "emissivity": e}) for e in (1.0, 0.0))
    area = np.pi * 0.22 * (0.17 + 0.055)
    expected = 5.670374419e-8 * area * ((95 + 273.15) ** 4 - (15 + 273.15) ** 4)
    assert (black - bright) * 80.0 == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize(
    ("name", "value"),
    [("diameter_m", 0.0), ("surface_c", 301.0), ("wind_m_s", -1.0), ("emissivity", 1.1)],
)
def test_out_of_range_pots_are_refused_by_name(name, value):
    with pytest.raises(PhysicsError, match=f"{name} must be .* not {value:g}"):
        heating.pot_loss_w_k(**{"diameter_m": 0.2, "height_m": 0.2, **FACE, name: value})


@pytest.mark.parametrize(
    ("name", "value"),
    [("heat_capacity_j_k", 0.0), ("loss_w_k", -0.1), ("net_power_w", -1.0), ("air_c", np.nan)],
)
def test_out_of_range_heating_is_refused_by_name(name, value):
    usual = {**POT, "net_power_w": 700.0, "start_c": 10.0, "end_c": 98.0}
    with pytest.raises(PhysicsError, match=f"{name} must be"):
        heating.heat_up_s(**{**usual, name: value})


@pytest.mark.parametrize(("name", "value"), [("efficiency", 0.0), ("steam_leak", 1.0)])
def test_out_of_range_holding_is_refused_by_name(name, value):
    with pytest.raises(PhysicsError, match=f"{name} must be"):
        heating.hold_power_w(**{"low_power_w": 500.0, **HOLD, "steam_leak": 0.05, name: value})
