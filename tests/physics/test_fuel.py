"""Fuel: bottled gas against another library, moisture, and what is refused."""

import sys

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st

from optimizer.errors import PhysicsError
from optimizer.physics import fuel, water

COLD = {"air_c": 5.0, "self_cooling_k": 5.0, "margin": 0.1, "air_pa": 101325.0}


# Tolerance 0.1 %: two fits of the same measurements.
@pytest.mark.parametrize("temperature_c", [-40.0, -20.0, 0.0, 20.0, 40.0])
@pytest.mark.parametrize(
    ("compound", "name"),
    [("propane", "Propane"), ("butane", "n-Butane"), ("isobutane", "IsoButane")],
)
def test_vapour_pressure_agrees_with_another_library(compound, name, temperature_c):
    expected = PropsSI("P", "T", temperature_c + 273.15, "Q", 0, name)
    found = fuel.vapour_pressure_pa(compound=compound, temperature_c=temperature_c)
    assert found == pytest.approx(expected, rel=1e-3)


# Typed once more from the table that the library carries; no tolerance.
@pytest.mark.parametrize(
    ("compound", "number"),
    [("propane", "74-98-6"), ("butane", "106-97-8"), ("isobutane", "75-28-5")],
)
def test_the_copied_coefficients_are_the_librarys(compound, number):
    from chemicals import vapor_pressure

    row = vapor_pressure.Psat_data_VDI_PPDS_3.loc[number]
    copied = fuel.SATURATION[compound]
    assert copied == tuple(row[key] for key in ("Tc", "Pc", "A", "B", "C", "D"))


# From the design: at 2,600 m butane boils at -9 degC, so it feeds better than at sea level.
# Tolerance 3 %: half a degree, and the design prints whole ones.
def test_butane_boils_at_minus_nine_in_the_mountains():
    air_pa = water.air_pressure_pa(2600)
    pressing = fuel.vapour_pressure_pa(compound="butane", temperature_c=-9)
    assert pressing == pytest.approx(air_pa, rel=0.03)


@pytest.mark.parametrize(
    ("compound", "air_c", "altitude_m", "does"),
    [
        ("butane", 0.0, 0.0, False),
        ("butane", 20.0, 0.0, True),
        ("butane", 2.0, 0.0, False),
        ("butane", 2.0, 2600.0, True),
        ("isobutane", 0.0, 0.0, True),
        ("isobutane", -10.0, 0.0, False),
        ("propane", -30.0, 0.0, True),
        ("propane", -45.0, 0.0, False),
    ],
)
def test_bottled_gas_feeds_while_it_presses_harder_than_the_air(compound, air_c, altitude_m, does):
    air_pa = water.air_pressure_pa(altitude_m)
    found = fuel.feeds(
        compound=compound, air_c=air_c, self_cooling_k=4.0, margin=0.05, air_pa=air_pa
    )
    assert found is does


@given(st.sampled_from(list(fuel.SATURATION)), st.floats(-60, 80), st.floats(0.1, 10))
def test_warmer_gas_presses_harder(compound, temperature_c, rise_k):
    colder = fuel.vapour_pressure_pa(compound=compound, temperature_c=temperature_c)
    warmer = fuel.vapour_pressure_pa(compound=compound, temperature_c=temperature_c + rise_k)
    assert warmer > colder


@given(st.floats(1.5e7, 2.1e7), st.floats(0, 0.6), st.floats(0.001, 0.05))
def test_wetter_wood_gives_less(dry_j_kg, moisture, more):
    wet = fuel.lower_heating_value_j_kg(dry_j_kg=dry_j_kg, moisture=moisture)
    wetter = fuel.lower_heating_value_j_kg(dry_j_kg=dry_j_kg, moisture=moisture + more)
    assert wetter < wet <= dry_j_kg


def test_dry_fuel_keeps_its_value():
    assert fuel.lower_heating_value_j_kg(dry_j_kg=4.5e7, moisture=0.0) == 4.5e7


def test_draws_of_moisture_give_draws_of_heat():
    draws = np.array([0.1, 0.2, 0.3])
    found = fuel.lower_heating_value_j_kg(dry_j_kg=np.full(3, 1.9e7), moisture=draws)
    each = [fuel.lower_heating_value_j_kg(dry_j_kg=1.9e7, moisture=float(w)) for w in draws]
    assert found == pytest.approx(each, rel=1e-12)


# 44.0 kJ/mol is what the reference formula takes for the water.
@pytest.mark.parametrize(
    ("compound", "hydrogens", "grams"), [("propane", 8, 44.1), ("ethanol", 6, 46.07)]
)
def test_higher_and_lower_differ_by_the_water_condensed(compound, hydrogens, grams):
    found = fuel.heating_values_j_kg(compound, "gas")
    water_j_kg = hydrogens / 2 * 44.0e3 / (grams / 1000)
    assert found.higher_j_kg - found.lower_j_kg == pytest.approx(water_j_kg, rel=1e-3)


@pytest.mark.parametrize(
    ("dry_j_kg", "moisture", "rule"),
    [
        (0.0, 0.1, "dry_j_kg must be above 0"),
        (float("nan"), 0.1, "dry_j_kg must be above 0"),
        (1.9e7, -0.01, "moisture must be at least 0 and at most 1"),
        (1.9e7, 1.01, "moisture must be at least 0 and at most 1"),
        (1.9e7, 1.0, "moisture must leave some heat"),
        (1.9e7, 0.95, "moisture must leave some heat"),
    ],
)
def test_impossible_wood_is_refused(dry_j_kg, moisture, rule):
    with pytest.raises(PhysicsError, match=rule):
        fuel.lower_heating_value_j_kg(dry_j_kg=dry_j_kg, moisture=moisture)


@pytest.mark.parametrize(
    ("compound", "phase", "rule"),
    [
        ("not a chemical", "gas", "compound must be a known chemical"),
        ("propane", "solid", "heat of formation as solid"),
        ("propane", "plasma", "phase must be"),
    ],
)
def test_unknown_compounds_and_phases_are_refused(compound, phase, rule):
    with pytest.raises(PhysicsError, match=rule):
        fuel.heating_values_j_kg(compound, phase)


def test_an_unknown_gas_is_refused():
    with pytest.raises(PhysicsError, match="compound must be one of propane, butane, isobutane"):
        fuel.feeds(compound="helium", **COLD)


@pytest.mark.parametrize(
    "change", [{"air_pa": 0.0}, {"self_cooling_k": -1.0}, {"margin": -0.1}, {"air_c": 200.0}]
)
def test_impossible_weather_is_refused(change):
    with pytest.raises(PhysicsError, match="must"):
        fuel.feeds(compound="butane", **COLD | change)


def test_the_plan_path_does_not_load_pandas():
    import subprocess

    program = (
        "import sys; from optimizer.physics import fuel, water;"
        "fuel.vapour_pressure_pa(compound='butane', temperature_c=5.0);"
        "water.latent_heat_j_kg(water.boiling_point_c(water.air_pressure_pa(300.0)));"
        "sys.exit('pandas' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", program], check=False, timeout=60)
    assert done.returncode == 0
