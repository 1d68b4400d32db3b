"""Not-a-number is refused by name, whichever quantity it stands for; and what mutants got past."""

from decimal import Decimal
from functools import partial

import numpy as np
import pytest

from optimizer.errors import PhysicsError
from optimizer.physics import (
    cooling,
    doneness,
    fuel,
    heating,
    layers,
    one_body,
    opening,
    packing,
    ranges,
    safety,
    surface,
)

POT = {"heat_capacity_j_k": 10000.0, "loss_w_k": 0.5, "start_c": 80.0, "air_c": 20.0}
BOX = {"diameter_m": 0.24, "height_m": 0.16}
STRAW = {**BOX, "thickness_m": 0.1, "conductivity_w_mk": 0.05, "room_film_w_m2k": 8.0}
TWO_BODIES = {
    "time_s": 3600.0, "contents_j_k": 2e4, "packing_j_k": 3e4, "loss_w_k": 0.5, "start_c": 95.0,
    "packing_start_c": 30.0, "room_c": 20.0,
}  # fmt: skip
CALLS = {
    cooling.two_body_c: TWO_BODIES,
    opening.open_loss_w: {"surface_m2": 0.05, "temperature_c": 90.0, "air_c": 20.0},
    opening.opened_c: {
        "surface_m2": 0.05, "bare_w_k": 1.5, "start_c": 95.0, "air_c": 20.0, "open_s": 30.0,
        "heat_capacity_j_k": 2e4,
    },
    packing.packing_share: STRAW,
    packing.packed_loss_w_k: {**STRAW, "gap": 0.05, "bare_w_m2k": 9.0},
    packing.packing_heat_j_k: {
        **BOX, "thickness_m": 0.1, "density_kg_m3": 60.0, "specific_heat_j_kgk": 1500.0,
    },
    partial(layers.layered, layers=[layers.Layer(0.1, 0.05, 6e4)]): {
        **BOX, "gap": 0.05, "room_film_w_m2k": 8.0, "bare_w_m2k": 9.0,
    },
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
    with pytest.raises(PhysicsError, match=rf"^{name} " if name != "temperature_c" else None):
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


def test_no_layer_at_all_is_refused_in_plain_words():
    given = {**BOX, "gap": 0.0, "room_film_w_m2k": 8.0, "bare_w_m2k": 9.0}
    with pytest.raises(PhysicsError, match=r"^there must be at least one layer of packing$"):
        layers.layered(layers=[], **given)


@pytest.mark.parametrize("name", STRAW)
def test_the_share_of_many_packings_is_that_of_each(name):
    some = STRAW[name] * np.array([0.5, 1.0, 2.0])
    each = [packing.packing_share(**{**STRAW, name: value}) for value in some]
    assert packing.packing_share(**{**STRAW, name: some}) == pytest.approx(each, rel=1e-12)
    assert len({*each}) == 3


def test_without_packing_the_middle_between_contents_and_room_is_told():
    contents, middle = cooling.two_body_c(**{**TWO_BODIES, "packing_j_k": 0.0})
    assert contents == pytest.approx(20 + 75 * np.exp(-0.5 * 3600 / 2e4))  # one body, by hand
    assert middle == pytest.approx((contents + 20) / 2)


def test_without_a_loss_contents_and_packing_stay():
    assert cooling.two_body_c(**{**TWO_BODIES, "loss_w_k": 0.0}) == pytest.approx((95, 30))


def test_a_jar_and_a_box_at_once_cool_as_each_alone():
    box, jar = TWO_BODIES, {**TWO_BODIES, "packing_j_k": 0.0}
    together = cooling.two_body_c(**{**TWO_BODIES, "packing_j_k": np.array([3e4, 0.0])})
    alone = [cooling.two_body_c(**each) for each in (box, jar)]
    assert np.transpose(together) == pytest.approx(np.array(alone), rel=1e-12)


@pytest.mark.parametrize(
    ("range_", "told", "given", "held"),
    [
        (ranges.POSITIVE, "above 0", 0.0, False),
        (ranges.NOT_NEGATIVE, "at least 0", 0.0, True),
        (ranges.SHARE, "at least 0 and at most 1", 1.5, False),
    ],
)
def test_a_range_says_what_it_holds(range_, told, given, held):
    assert str(range_) == told
    if held:
        range_.check(it=given)
    else:
        with pytest.raises(PhysicsError, match=f"^it must be {told}, not {given:g}$"):
            range_.check(it=given)
