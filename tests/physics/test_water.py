"""Water: against two other libraries, and what must hold everywhere."""

import iapws
import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st

from optimizer.errors import PhysicsError
from optimizer.physics import water

TEMPERATURES_C = [5.0, 25.0, 60.0, 80.0, 100.0, 120.0]


# Two formulations of the same standards body: they differ by less than 0.02 K here.
@pytest.mark.parametrize("pressure_pa", [54e3, 70e3, 85e3, 101325.0, 150e3, 205e3])
def test_boiling_point_agrees_with_other_libraries(pressure_pa):
    found = water.boiling_point_c(pressure_pa)
    assert found == pytest.approx(
        PropsSI("T", "P", pressure_pa, "Q", 0, "Water") - 273.15, abs=0.02
    )
    assert found == pytest.approx(iapws.IAPWS97(P=pressure_pa / 1e6, x=0).T - 273.15, abs=1e-3)


@pytest.mark.parametrize("temperature_c", TEMPERATURES_C)
def test_latent_heat_agrees_with_other_libraries(temperature_c):
    kelvin = temperature_c + 273.15
    steam, liquid = (PropsSI("H", "T", kelvin, "Q", share, "Water") for share in (1, 0))
    found = water.latent_heat_j_kg(temperature_c)
    assert found == pytest.approx(steam - liquid, rel=1e-6)
    wet, dry = (iapws.IAPWS97(T=kelvin, x=share).h for share in (0, 1))
    assert found / 1000 == pytest.approx(dry - wet, rel=1e-3)


@pytest.mark.parametrize("temperature_c", TEMPERATURES_C)
def test_density_agrees_with_other_libraries(temperature_c):
    kelvin = temperature_c + 273.15
    found = water.density_kg_m3(temperature_c)
    assert found == pytest.approx(PropsSI("D", "T", kelvin, "Q", 0, "Water"), rel=1e-6)
    assert found == pytest.approx(iapws.IAPWS97(T=kelvin, x=0).rho, rel=1e-4)


@given(st.floats(-500, 5499), st.floats(1, 500))
def test_water_boils_cooler_the_higher_one_is(altitude_m, climb_m):
    low = water.air_pressure_pa(altitude_m)
    high = water.air_pressure_pa(min(5500.0, altitude_m + climb_m))
    assert high < low
    assert water.boiling_point_c(high) < water.boiling_point_c(low)


@given(st.floats(50e3, 101325), st.floats(1e3, 100e3))
def test_a_weight_makes_a_pot_hotter_and_no_hotter_than_by_the_sea(air_pa, gauge_pa):
    pot = water.pressure_pot_c(air_pa=air_pa, gauge_pa=gauge_pa)
    assert pot > water.boiling_point_c(air_pa)
    assert pot <= water.pressure_pot_c(air_pa=101325, gauge_pa=gauge_pa) + 1e-9


def test_no_weight_is_an_ordinary_pot():
    assert water.pressure_pot_c(air_pa=9e4, gauge_pa=0) == water.boiling_point_c(9e4)


@pytest.mark.parametrize("altitude_m", [-501, 5501, float("nan")])
def test_an_altitude_outside_the_range_is_refused(altitude_m):
    with pytest.raises(PhysicsError, match="altitude_m must be at least -500 and at most 5500"):
        water.air_pressure_pa(altitude_m)


@pytest.mark.parametrize("pressure_pa", [19e3, 1.1e6, float("nan")])
def test_a_pressure_outside_the_range_is_refused(pressure_pa):
    with pytest.raises(PhysicsError, match="pressure_pa must be at least 20000 and at most"):
        water.boiling_point_c(pressure_pa)


@pytest.mark.parametrize("gauge_pa", [-1.0, float("nan")])
def test_a_negative_weight_is_refused(gauge_pa):
    with pytest.raises(PhysicsError, match="gauge_pa must be at least 0"):
        water.pressure_pot_c(air_pa=1e5, gauge_pa=gauge_pa)


@pytest.mark.parametrize("function", [water.latent_heat_j_kg, water.density_kg_m3])
@pytest.mark.parametrize("temperature_c", [-1.0, 151.0])
def test_ice_and_hot_steam_are_refused(function, temperature_c):
    with pytest.raises(PhysicsError, match="temperature_c must be at least 0 and at most 150"):
        function(temperature_c)
