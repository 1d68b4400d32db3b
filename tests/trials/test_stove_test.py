"""A water boiling test from its file: every phase, what a plan takes, and what is wrong with it."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from optimizer import shelf
from optimizer.errors import InputError
from optimizer.physics.heating import pot_loss_w_k
from optimizer.trials.boiling_test import parse_test
from optimizer.trials.stove_test import stove_test

THINGS = shelf.load()
HEAD = "fuel: sticks\nlhv: 19 MJ/kg\nmoisture: 10 %\npot: pot_2_5l\nair: 20 degC\nscale: 1 g\n"
START = (
    "{fuel: 300 g, char: 20 g, water: 2.5 kg, water_left: 2.45 kg, water_from: 20 degC, "
    "water_to: 100 degC, time: 15 min}"
)
SIMMER = "{fuel: 150 g, char: 10 g, water: 2.45 kg, water_left: 2.2 kg, time: 45 min}"
GOOD = f"{HEAD}cold: {START}\nhot: {START.replace('300', '280')}\nsimmer: {SIMMER}\n"


def made(text=GOOD, stove=None):
    document, test = parse_test(text, "test.yaml")
    return stove_test(document, test, THINGS.fuels, THINGS.pots, stove)


def problems(text, stove=None):
    with pytest.raises(InputError) as refused:
        made(text, stove)
    return [(p.line, p.key, p.code) for p in refused.value.problems]


def test_the_balance_of_one_start_by_hand():
    found = made().of("cold")[0]
    moist = 19e6 * 0.9 - 0.1 * (4186 * 80 + 2257e3)
    burned, char = 0.300 * moist, 0.020 * 29.5e6
    water = 4186 * 2.5 * 80 + 2260e3 * 0.05
    pot = THINGS.pots["pot_2_5l"]
    loss = pot_loss_w_k(
        diameter_m=pot.diameter_m,
        height_m=pot.height_m,
        surface_c=60.0,
        air_c=20.0,
        wind_m_s=0.0,
        emissivity=pot.emissivity,
    )
    added = 0.7 * 880 * 80 + loss * 40 * 15 * 60
    assert found.net == pytest.approx(water / (burned - char))
    assert found.efficiency(char_kept=True) == pytest.approx((water + added) / (burned - char))
    assert found.efficiency(char_kept=False) == pytest.approx((water + added) / burned)
    assert found.power(char_kept=False) == pytest.approx(burned / 900)


def test_a_plan_takes_the_mean_of_cold_and_hot():
    found = made()
    cold, hot = (found.of(phase)[0].efficiency(char_kept=False) for phase in ("cold", "hot"))
    assert found.efficiency == pytest.approx((cold + hot) / 2)
    assert found.values["efficiency"] == pytest.approx(found.efficiency, rel=0.005)
    assert found.low_power_w == pytest.approx(found.of("simmer")[0].burned_j / 2700)


def test_char_that_is_kept_makes_the_stove_better():
    kept = made(GOOD + "char_kept: true\n")
    assert kept.efficiency > made().efficiency
    assert kept.power_w < made().power_w
    # Either way as much heat gets into the pot.
    assert kept.efficiency * kept.power_w == pytest.approx(
        made().efficiency * made().power_w, rel=0.005
    )


def test_repeats_are_listed_and_their_differences_are_spread():
    starts = "".join(f"\n  - {START.replace('300', str(g))}" for g in (260, 300, 340))
    rough = made(f"{HEAD}cold:{starts}\n")
    alike = made(f"{HEAD}cold: [{START}, {START}, {START}]\n")
    assert [each.place for each in rough.of("cold")] == [0, 1, 2]
    assert rough.spread > alike.spread >= 0.08
    low, high = rough.band
    assert low < rough.efficiency < high
    assert high - low == pytest.approx(2 * 1.645 * rough.spread * rough.efficiency, rel=0.001)


def test_a_coarse_scale_makes_it_less_sure():
    assert made(GOOD.replace("1 g", "50 g")).spread > made().spread


def test_without_a_simmer_the_least_power_is_left_alone():
    found = made(f"{HEAD}hot: {START}\n")
    assert (found.low_power_w, found.turn_down, found.task_j) == (None, None, None)
    assert "low_power" not in found.values


def test_a_simmer_fiercer_than_the_start_is_no_contradiction_in_the_file():
    found = made(f"{HEAD}hot: {START}\nsimmer: {SIMMER.replace('150', '2000')}\n")
    assert found.low_power_w == found.power_w


def test_electricity_is_not_weighed():
    start = START.replace("300 g, char: 20 g", "0.31 kWh")
    found = made(f"fuel: electricity\npot: pot_2_5l\nair: 20 degC\nhot: {start}\n")
    phase = found.of("hot")[0]
    assert (phase.dry_kg, phase.consumption) == (None, None)
    assert phase.net == pytest.approx((4186 * 2.5 * 80 + 2260e3 * 0.05) / (0.31 * 3.6e6))


def test_alcohol_may_be_measured_by_volume():
    start = START.replace("300 g, char: 20 g", "60 mL")
    litres = made(f"fuel: ethanol\npot: pot_2_5l\nair: 20 degC\nhot: {start}\n").of("hot")[0]
    ethanol = THINGS.fuels["ethanol"]
    assert litres.fuel_j == pytest.approx(60e-6 * ethanol.density_kg_m3 * ethanol.lhv_j_kg)


def test_high_up_water_boils_cooler():
    text = GOOD.replace("water_to: 100", "water_to: 93").replace("air:", "altitude: 2000 m\nair:")
    found = made(text)
    assert 93 < found.boils_c < 94
    assert found.of("cold")[0].boiled_kg == pytest.approx(2.45 * 73 / (found.boils_c - 20))


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("fuel: sticks", "fuel: stiks", [(1, "fuel", "unknown_name")]),
        ("pot: pot_2_5l", "pot: pan", [(4, "pot", "unknown_name")]),
        ("lhv: 19 MJ/kg", "lhv: 19", [(2, "lhv", "unit_missing")]),
        ("moisture: 10 %", "moisture: 90 %", [(3, "moisture", "bounds")]),
        ("moisture: 10 %", "misture: 10 %", [(3, "misture", "unknown_key")]),
        ("scale: 1 g", "boils_at: 99 degC\naltitude: 9 m", [(7, "altitude", "contradiction")]),
        ("water_left: 2.2 kg", "water_left: 2.9 kg", [(9, "simmer.water_left", "contradiction")]),
        ("150 g, char: 10 g", "150 g, char: 300 g", [(9, "simmer", "out_of_range")]),
        ("150 g, char: 10 g", "0 g", [(9, "simmer.fuel", "bounds")]),
        ("2.45 kg, water_left: 2.2", "99 kg, water_left: 2.2", [(9, "simmer.water", "bounds")]),
        ("time: 45 min", "time: 45", [(9, "simmer.time", "unit_missing")]),
    ],
)
def test_what_is_wrong_is_told_where_it_stands(old, new, told):
    assert problems(GOOD.replace(old, new)) == told


def test_everything_wrong_is_told_at_once():
    text = (
        GOOD.replace("sticks", "stiks")
        .replace("20 degC\nscale", "20\nscale")
        .replace("45 min", "x")
    )
    assert problems(text) == [
        (1, "fuel", "unknown_name"),
        (5, "air", "unit_missing"),
        (9, "simmer.time", "quantity"),
    ]


def test_a_test_needs_a_start():
    assert problems(f"{HEAD}simmer: {SIMMER}\n") == [(None, "", "missing")]


def test_a_fault_in_a_repeat_has_its_place():
    repeat = START.replace("water_to: 100", "water_to: 25")
    text = f"{HEAD}cold:\n  - {START}\n  - {repeat}\n"
    assert problems(text) == [(9, "cold[2].water_to", "contradiction")]


def test_a_stove_is_tested_with_its_own_fuel():
    assert problems(GOOD, THINGS.stoves["gas_burner"]) == [(1, "fuel", "contradiction")]
    assert made(stove=THINGS.stoves["stick_stove"]).stove.name == "stick_stove"


@pytest.mark.parametrize("text", ["", "[]", "fuel: [", "7"])
def test_no_table_of_a_test_at_all(text):
    with pytest.raises(InputError):
        made(text)


@given(st.floats(0.1, 2.0), st.floats(0.5, 20.0), st.integers(5, 120))
def test_efficiency_is_a_share_or_refused(fuel_kg, water_kg, minutes):
    start = (
        f"{{fuel: {fuel_kg:.3f} kg, water: {water_kg:.3f} kg, water_left: {water_kg:.3f} kg, "
        f"water_from: 20 degC, water_to: 99 degC, time: {minutes} min}}"
    )
    try:
        found = made(f"{HEAD}cold: {start}\n")
    except InputError:
        return
    assert 0 < found.efficiency <= 1
    assert math.isfinite(found.spread)


def test_more_water_than_goes_into_the_pot_is_a_slip():
    assert problems(GOOD.replace("water: 2.5 kg", "water: 3.5 kg")) == [
        (7, "cold.water", "contradiction"),
        (8, "hot.water", "contradiction"),
    ]
