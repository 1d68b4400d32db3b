"""Not-a-number is refused by name, whichever quantity it stands for; and what mutants got past."""

from decimal import Decimal
from functools import partial

import numpy as np
import pytest

from optimizer.errors import PhysicsError
from optimizer.physics import cooling, doneness, fuel, heating, one_body, safety, surface

POT = {"heat_capacity_j_k": 10000.0, "loss_w_k": 0.5, "start_c": 80.0, "air_c": 20.0}
CALLS = {
    one_body.heat_up_s: {**POT, "net_power_w": 900.0, "end_c": 99.0},
    one_body.heated_c: {**POT, "net_power_w": 900.0, "time_s": 60.0},
    one_body.cooled_c: {**POT, "time_s": 60.0},
    one_body.cooled_s: {**POT, "end_c": 60.0},
    cooling.jar_loss_w_k: {
        "rated_c": 60.0, "hours": 8.0, "start_c": 95.0, "room_c": 20.0, "contents_j_k": 4000.0,
    },
    cooling.late_time_constant_s: {"contents_j_k": 2e4, "packing_j_k": 1e4, "loss_w_k": 0.5},
    cooling.mixed_c: {"hot_j_k": 4000.0, "hot_c": 95.0, "cold_j_k": 300.0, "cold_c": 20.0},
    heating.hold_power_w: {
        "low_power_w": 100.0, "efficiency": 0.4, "loss_w_k": 2.0, "temperature_c": 99.0,
        "air_c": 5.0, "steam_leak": 0.05,
    },
    heating.boiled_off_kg: {
        "fuel_power_w": 900.0, "efficiency": 0.4, "loss_w_k": 2.0, "temperature_c": 99.0,
        "air_c": 5.0, "time_s": 600.0, "latent_j_kg": 2.26e6,
    },
    safety.water_boil_min: {"altitude_m": 100.0, "low_min": 1.0, "high_min": 3.0, "high_m": 1524.0},
    safety.too_slow: {"rise_s": 600.0, "most_min": 120.0},
    partial(safety.bean_boil_min, phaseolus=True, pressure=False): {
        "boiling_c": 99.0, "limit_c": 98.0, "boil_min": 30.0, "pressure_min": 10.0,
    },
    partial(safety.greatest_fill, pressure=True, swelling=True): {
        "ordinary": 0.9, "pressure_most": 0.66, "pressure_swelling": 0.5,
    },
    doneness.activation_energy_j_mol: {"z_k": 30.0, "temperature_c": 100.0},
}  # fmt: skip
EACH = [(call, given, name) for call, given in CALLS.items() for name in given]


@pytest.mark.parametrize(("call", "given", "name"), EACH)
def test_a_value_that_is_no_number_is_refused_by_its_name(call, given, name):
    call(**given)
    with pytest.raises(PhysicsError, match=name if name != "temperature_c" else None):
        call(**{**given, name: np.nan})


def test_a_cooling_pot_may_lose_little_and_end_close_to_the_air():
    seconds = one_body.cooled_s(**POT, end_c=20.5)
    assert seconds == pytest.approx(20000 * np.log(120))  # C / UA ln(60 / 0.5), worked by hand


def test_a_weak_flame_warms_in_the_end():
    given = {**POT, "loss_w_k": 0.0, "heat_capacity_j_k": 1000.0, "start_c": 20.0}
    assert one_body.heat_up_s(**given, net_power_w=0.5, end_c=21.0) == pytest.approx(2000)


@pytest.mark.parametrize("small", [2e-4, 9.9e-4])
def test_what_is_lost_in_the_first_moments_is_exact(small):
    seconds, watts = small * 10000 / 0.5, 1000.0
    given = {**POT, "start_c": 20.0, "net_power_w": watts, "time_s": seconds}
    share = Decimal(small)
    rise = (share - 1 + (-share).exp()) / share**2  # in 28 digits, where floats have none left
    exact = watts * seconds * small * float(rise)
    assert one_body.heat_split(**given).lost_j == pytest.approx(exact, rel=4e-12)


def test_the_late_fall_is_the_slower_mode_of_two_bodies():
    across, contents, packing = 2 * 0.5, 2e4, 3e4
    modes = np.linalg.eigvals(
        [[-across / contents, across / contents], [across / packing, -2 * across / packing]]
    )
    found = cooling.late_time_constant_s(contents_j_k=contents, packing_j_k=packing, loss_w_k=0.5)
    assert found == pytest.approx(-1 / modes.max())


@pytest.mark.parametrize(("margin", "feeds"), [(0.9, True), (1.2, False)])
def test_gas_has_to_press_harder_by_its_margin(margin, feeds):
    # butane at 20 degC: 2.08 bar (from memory, any table of vapour pressures)
    given = {"compound": "butane", "air_c": 25.0, "self_cooling_k": 5.0, "air_pa": 101325.0}
    assert fuel.feeds(**given, margin=margin) is feeds


def test_readings_may_be_close_together_or_at_one_moment():
    given = {"temperature_c": [100.0] * 4, "boil_min": 1.0, "z_k": 30.0, "floor_c": 70.0}
    done = doneness.credit(time_s=[0.0, 0.5, 0.5, 60.0], **given)
    assert done == pytest.approx([0, 0.5 / 60, 0.5 / 60, 1])


# Air at 40 degC: 0.0272 W/(m K), 1.70e-5 m2/s, Pr 0.705 (from memory, tables of air). A plate of
# 0.3 m: laminar in the wind 0.664 Re^0.5 Pr^(1/3) = 136; free over a quarter of it 0.54 Ra^0.25
# upwards (Ra 1.29e6), 0.27 Ra^0.25 where it is colder than the air; as cubes together.
@pytest.mark.parametrize(
    ("surface_c", "air_c", "wind", "film"),
    [(60.0, 20.0, 0.0, 6.60), (20.0, 60.0, 0.0, 3.30), (60.0, 20.0, 3.0, 12.93)],
)
def test_the_lid_loses_as_a_plate_does(surface_c, air_c, wind, film):
    found = surface._film(surface_c, air_c, wind, 0.075, 0.3, upright=False)
    assert found == pytest.approx(film, rel=0.03)
