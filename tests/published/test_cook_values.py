"""Kinetic z against activation energy, and how much faster food cooks hot, against print."""

import pytest

from optimizer.physics import doneness


# Van Loey et al. 1995, J. Food Eng. 24, 361-377, abstract: z and activation energy of the same
# attribute (seen). The abstract states no temperature for the pairs,
# and the energy goes with its square: the middle is taken, 110.5 degC, with a tolerance of 6 %,
# half of what lies between 100 and 121 degC.
@pytest.mark.parametrize(
    ("z_k", "energy_kj_mol"),
    [
        pytest.param(21.3, 130.8, id="white beans, hardness"),
        pytest.param(24.3, 118.7, id="white beans, appearance"),
        pytest.param(28.5, 94.9, id="green peas, hardness"),
        pytest.param(26.4, 102.4, id="green peas, colour"),
    ],
)
def test_z_goes_with_the_printed_activation_energy(z_k, energy_kj_mol):
    energy = doneness.activation_energy_j_mol(z_k=z_k, temperature_c=110.5)
    assert energy / 1000 == pytest.approx(energy_kj_mol, rel=0.06)
    back = doneness.z_from_activation_energy_k(
        energy_j_mol=energy_kj_mol * 1000, temperature_c=110.5
    )
    assert back == pytest.approx(z_k, rel=0.06)


# Computed by others (D), at 100 degC. z of 19, 18 and 16 K: Quast and da
# Silva 1977; 33.1 K: the cook value. Tolerance 0.5 %: printed to whole kJ.
@pytest.mark.parametrize(("z_k", "energy_kj_mol"), [(19, 140), (18, 148), (16, 167), (33.1, 80.5)])
def test_z_goes_with_the_energy_computed_by_others(z_k, energy_kj_mol):
    energy = doneness.activation_energy_j_mol(z_k=z_k, temperature_c=100.0)
    assert energy / 1000 == pytest.approx(energy_kj_mol, rel=5e-3)


# Computed by others (D), "Rate multipliers implied". Tolerance 1.5 %:
# the temperatures in the table's head are rounded to 0.1 K.
@pytest.mark.parametrize(
    ("z_k", "multipliers"),
    [
        (16, (4.13, 8.91, 11.8, 20.4)),
        (19, (3.30, 6.31, 7.98, 12.7)),
        (21.3, (2.90, 5.17, 6.38, 9.63)),
        (28.5, (2.22, 3.41, 3.99, 5.43)),
        (33.1, (1.99, 2.88, 3.29, 4.29)),
    ],
)
def test_food_cooks_so_many_times_as_fast_under_pressure(z_k, multipliers):
    found = doneness.rate(temperature_c=[109.9, 115.2, 117.1, 120.95], z_k=z_k, floor_c=60)
    assert found == pytest.approx(multipliers, rel=0.015)


# Same table, right half: time against that at 100 degC.
@pytest.mark.parametrize(
    ("z_k", "times"),
    [
        (16, (2.06, 4.22, 17.8)),
        (19, (1.84, 3.36, 11.3)),
        (21.3, (1.72, 2.95, 8.69)),
        (28.5, (1.50, 2.24, 5.03)),
        (33.1, (1.42, 2.01, 4.02)),
    ],
)
def test_food_takes_so_many_times_as_long_below_the_boil(z_k, times):
    found = 1 / doneness.rate(temperature_c=[95.0, 90.0, 80.0], z_k=z_k, floor_c=60)
    assert found == pytest.approx(times, rel=0.015)
