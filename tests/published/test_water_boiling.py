"""The fully worked water boiling test, to its printed digits.

Test of 2015-04-04 of a small natural-draught stick stove by protocol 4.2.3 (2014), as published.
Water start, evaporated and effective boiled are implied by the printed results (computed).
"""

import pytest

from optimizer.errors import PhysicsError
from optimizer.physics import heating
from optimizer.trials import stove

LHV, MOISTURE, BOILING_C, AIR_C = 19_497e3, 0.12, 99.8, 27.9
FUEL_KG = {"cold": 0.280, "hot": 0.273, "simmer": 0.165}
CHAR_KG = {"cold": 0.028, "hot": 0.056, "simmer": 0.021}
START_KG = {"cold": 2.501, "hot": 2.500, "simmer": 0.0}
GONE_KG = {"cold": 0.020, "hot": 0.024, "simmer": 0.054}
BOILED_KG = {"cold": 2.481, "hot": 2.476, "simmer": 2.422}
RISE_K = {"cold": 71.9, "hot": 72.6, "simmer": 0.0}
TIME_S = {"cold": 17 * 60, "hot": 18 * 60, "simmer": 45 * 60}


def effective() -> float:
    return stove.effective_fuel_value_j_kg(
        lhv_j_kg=LHV, moisture=MOISTURE, boiling_c=BOILING_C, air_c=AIR_C
    )


def dry_kg(phase: str) -> float:
    char = CHAR_KG[phase]
    return stove.equivalent_dry_kg(
        moist_kg=FUEL_KG[phase], effective_j_kg=effective(), char_kg=char, lhv_j_kg=LHV
    )


def consumption(phase: str) -> float:
    return stove.specific_consumption(dry_kg=dry_kg(phase), boiled_kg=BOILED_KG[phase])


def net(phase: str) -> float:
    return stove.thermal_efficiency(
        water_kg=START_KG[phase],
        rise_k=RISE_K[phase],
        evaporated_kg=GONE_KG[phase],
        dry_kg=dry_kg(phase),
        lhv_j_kg=LHV,
    )


def power(phase: str) -> float:
    return stove.firepower_w(dry_kg=dry_kg(phase), lhv_j_kg=LHV, time_s=TIME_S[phase])


def energy(phase: str) -> float:
    value = consumption(phase)
    if RISE_K[phase]:
        value = stove.for_standard_rise(value=value, rise_k=RISE_K[phase])
    return value * LHV


@pytest.mark.parametrize(
    ("computed", "printed", "digits"),
    [
        pytest.param(lambda: effective() / 1e3, 16_850.40, 0.005, id="effective fuel value kJ/kg"),
        pytest.param(lambda: dry_kg("cold") * 1e3, 199.6262447, 5e-7, id="dry fuel, cold, g"),
        pytest.param(lambda: dry_kg("hot") * 1e3, 151.211, 5e-4, id="dry fuel, hot, g"),
        pytest.param(lambda: dry_kg("simmer") * 1e3, 110.828, 1e-3, id="dry fuel, simmer, g"),
        pytest.param(lambda: net("cold") * 100, 20.50, 0.005, id="efficiency, cold, %"),
        pytest.param(lambda: net("hot") * 100, 27.6104, 5e-3, id="efficiency, hot, %"),
        pytest.param(lambda: net("simmer") * 100, 5.65, 0.005, id="efficiency, simmer, %"),
        pytest.param(lambda: dry_kg("cold") * 1e3 / 17, 11.74, 0.005, id="burn rate, cold, g/min"),
        pytest.param(lambda: dry_kg("hot") * 1e3 / 18, 8.40, 0.005, id="burn rate, hot, g/min"),
        pytest.param(lambda: consumption("cold") * 1e3, 80.4620, 5e-5, id="consumption, cold, g/L"),
        pytest.param(lambda: consumption("hot") * 1e3, 61.07066203, 5e-4, id="the same, hot, g/L"),
        pytest.param(lambda: energy("cold") / 1e3, 1_636.41, 0.005, id="energy, cold, kJ/L"),
        pytest.param(lambda: energy("hot") / 1e3, 1_230.06, 0.02, id="energy, hot, kJ/L"),
        pytest.param(lambda: energy("simmer") / 1e3, 892.162, 0.01, id="energy, simmer, kJ/L"),
        pytest.param(lambda: power("cold"), 3_815.80, 0.005, id="firepower, cold, W"),
        pytest.param(lambda: power("hot"), 2_730, 0.5, id="firepower, hot, W"),
        pytest.param(lambda: power("simmer"), 800.302, 0.005, id="firepower, simmer, W"),
        pytest.param(lambda: power("cold") / power("simmer"), 4.768, 5e-4, id="turn-down ratio"),
    ],
)
def test_the_worked_test_to_its_printed_digits(computed, printed, digits):
    assert computed() == pytest.approx(printed, abs=digits)


def test_the_time_for_a_standard_rise():
    for phase, printed_min in (("cold", 17.73), ("hot", 18.60)):
        told = stove.for_standard_rise(value=TIME_S[phase] / 60, rise_k=RISE_K[phase])
        assert told == pytest.approx(printed_min, abs=0.006)


def test_the_energy_of_the_five_litre_task():
    task = stove.task_energy_j(
        cold_j_kg=energy("cold"), hot_j_kg=energy("hot"), simmer_j_kg=energy("simmer")
    )
    assert task / 1e3 == pytest.approx(11_626.97, abs=0.1)


@pytest.mark.xfail(
    strict=True, reason="more fuel, a misprint: the form says 141.211 g, its other lines 151.211"
)
def test_the_dry_fuel_of_the_hot_start_as_the_form_has_it():
    assert dry_kg("hot") * 1e3 == pytest.approx(141.211, abs=5e-4)


def test_the_pots_losses_are_added_back_to_make_our_efficiency():
    # 2.5 L in a 20 cm pot of 611 g, heated from 27.9 to 99.8 degC in 17 min (as printed).
    loss = heating.pot_loss_w_k(
        diameter_m=0.20, height_m=0.11, surface_c=64, air_c=AIR_C, wind_m_s=0.0, emissivity=0.4
    )
    lost_j = loss * (64 - AIR_C) * TIME_S["cold"]
    fuel_j = dry_kg("cold") * LHV
    before = stove.efficiency_before_losses(net=net("cold"), pot_losses_j=lost_j, fuel_j=fuel_j)
    useful_j = net("cold") * fuel_j
    assert before * fuel_j == pytest.approx(useful_j + lost_j)
    assert net("cold") < before < net("cold") + 0.03


@pytest.mark.parametrize(
    ("wrong", "words"),
    [
        (
            lambda: stove.effective_fuel_value_j_kg(
                lhv_j_kg=1e6, moisture=1.0, boiling_c=100, air_c=20
            ),
            "moisture",
        ),
        (
            lambda: stove.effective_fuel_value_j_kg(
                lhv_j_kg=1e6, moisture=0.6, boiling_c=100, air_c=20
            ),
            "so wet",
        ),
        (
            lambda: stove.equivalent_dry_kg(
                moist_kg=0.1, effective_j_kg=17e6, char_kg=0.1, lhv_j_kg=19e6
            ),
            "char",
        ),
        (
            lambda: stove.thermal_efficiency(
                water_kg=1, rise_k=80, evaporated_kg=0, dry_kg=0, lhv_j_kg=19e6
            ),
            "fuel",
        ),
        (lambda: stove.firepower_w(dry_kg=1, lhv_j_kg=19e6, time_s=0), "time"),
        (lambda: stove.specific_consumption(dry_kg=1, boiled_kg=0), "water"),
        (lambda: stove.for_standard_rise(value=1, rise_k=0), "rise"),
        (lambda: stove.task_energy_j(cold_j_kg=-1, hot_j_kg=1, simmer_j_kg=1), "negative"),
        (lambda: stove.efficiency_before_losses(net=0.9, pot_losses_j=2, fuel_j=10), "efficiency"),
        (lambda: stove.efficiency_before_losses(net=0.9, pot_losses_j=2, fuel_j=0), "fuel"),
    ],
)
def test_what_cannot_be_is_refused(wrong, words):
    with pytest.raises(PhysicsError, match=words):
        wrong()
