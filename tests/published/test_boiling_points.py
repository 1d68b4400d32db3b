"""Boiling point and air pressure by altitude, and pressure pots, against print."""

import pytest

from optimizer.physics import water

FOOT_M = 0.3048
PSI_PA = 6894.757


def to_f(temperature_c):
    return temperature_c * 9 / 5 + 32


# Table of boiling points by altitude, "High-altitude cooking" (wikipedia.org), citing NASA and
# NOAA; seen in a secondary copy.
# Tolerance 0.5 degF: the table prints tenths, but its own steps from 1,000 ft to 1,000 ft go
# 1.8, 2.2, 1.8, 1.4, 1.9, 2.4, 1.3, so it is uneven by about that much.
@pytest.mark.parametrize(
    ("altitude_ft", "boils_f"),
    [
        (1000, 210.2),
        (2000, 208.4),
        (3000, 206.2),
        (4000, 204.4),
        (5000, 203.0),
        (6000, 201.1),
        (7000, 198.7),
        (8000, 197.4),
        (10000, 193.6),
    ],
)
def test_water_boils_as_the_altitude_table_prints(altitude_ft, boils_f):
    boils_c = water.boiling_point_c(water.air_pressure_pa(altitude_ft * FOOT_M))
    assert to_f(boils_c) == pytest.approx(boils_f, abs=0.5)


# Same place, row of pressures, seen in the table. Tolerance 0.025 kPa: printed to 0.01, with
# feet rounded to metres on the way.
@pytest.mark.parametrize(
    ("altitude_ft", "air_kpa"),
    [
        (1000, 97.73),
        (2000, 94.21),
        (3000, 90.82),
        pytest.param(
            4000,
            87.44,
            marks=pytest.mark.xfail(
                reason="hotter by 0.02 K, a misprint: 0.07 below the standard atmosphere's 87.51, "
                "while its neighbours agree"
            ),
        ),
        (5000, 84.32),
        (6000, 81.21),
        (7000, 78.19),
        (8000, 75.25),
        (10000, 69.69),
    ],
)
def test_air_presses_as_the_altitude_table_prints(altitude_ft, air_kpa):
    assert water.air_pressure_pa(altitude_ft * FOOT_M) / 1000 == pytest.approx(air_kpa, abs=0.025)


# US Standard Atmosphere 1976, formula printed at scipp.ucsc.edu/outreach/balloon/atmos
# 101325 (1 - h/44329 m)^5.255876. Tolerance 0.1 %: the printed
# formula takes h as geopotential height, 0.06 % different at 4 km.
@pytest.mark.parametrize("altitude_m", [0, 500, 1000, 1500, 2000, 3000, 4000, 5000])
def test_air_presses_as_the_printed_formula_says(altitude_m):
    printed_pa = 101325 * (1 - altitude_m / 44329) ** 5.255876
    assert water.air_pressure_pa(altitude_m) == pytest.approx(printed_pa, rel=1e-3)


# Univ. of Missouri Extension, qafs163: the true set pressure of the
# "10 psi" canning weight is 10.5 psi = 240 degF. Tolerance 0.5 degF: printed to whole degrees.
def test_the_canning_weight_gives_its_printed_temperature():
    pot_c = water.pressure_pot_c(air_pa=101325, gauge_pa=10.5 * PSI_PA)
    assert to_f(pot_c) == pytest.approx(240, abs=0.5)


# From memory (not seen): the usual canning table, at sea level. Tolerance 1 degF: whole degrees,
# and 10 psi is printed for what is 10.5.
@pytest.mark.parametrize(("gauge_psi", "pot_f"), [(5, 228), (10, 240), (15, 250)])
def test_canning_gauges_give_their_usual_temperatures(gauge_psi, pot_f):
    pot_c = water.pressure_pot_c(air_pa=101325, gauge_pa=gauge_psi * PSI_PA)
    assert to_f(pot_c) == pytest.approx(pot_f, abs=1)


# Computed by others from the steam tables (D), not measured; line
# "Pressure-pot temperature". Tolerance 0.06 K: printed to 0.1.
@pytest.mark.parametrize(
    ("altitude_ft", "gauge_pa", "pot_c"),
    [
        (0, 5 * PSI_PA, 108.4),
        (0, 6 * PSI_PA, 109.9),
        (0, 8 * PSI_PA, 112.6),
        (0, 10 * PSI_PA, 115.2),
        (0, 12 * PSI_PA, 117.6),
        (0, 15 * PSI_PA, 120.95),
        (5000, 15 * PSI_PA, 118.2),
        (8000, 15 * PSI_PA, 116.7),
        (0, 50e3, 111.6),
        (0, 60e3, 113.6),
        (0, 80e3, 117.1),
        (0, 100e3, 120.4),
    ],
)
def test_pressure_pots_are_as_hot_as_computed_by_others(altitude_ft, gauge_pa, pot_c):
    air_pa = water.air_pressure_pa(altitude_ft * FOOT_M)
    assert water.pressure_pot_c(air_pa=air_pa, gauge_pa=gauge_pa) == pytest.approx(pot_c, abs=0.06)
