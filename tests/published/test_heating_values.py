"""Heating values of pure fuels, and of wood by its moisture, against print."""

import pytest

from optimizer.physics import fuel


# Encyclopaedia table "Lower heating value for some organic compounds (25 degC)", MJ/kg
# (a secondary copy). Tolerance 0.15 %:
# heats of formation of different compilations differ by so much.
@pytest.mark.parametrize(
    ("compound", "phase", "lower_mj_kg"),
    [
        ("propane", "gas", 46.357),
        ("butane", "gas", 45.752),
        ("isobutane", "gas", 45.613),
        ("hexane", "liquid", 44.752),
        ("octane", "liquid", 44.427),
        ("dodecane", "liquid", 44.147),
    ],
)
def test_lower_heating_values_of_hydrocarbons(compound, phase, lower_mj_kg):
    found = fuel.heating_values_j_kg(compound, phase)
    assert found.lower_j_kg / 1e6 == pytest.approx(lower_mj_kg, rel=1.5e-3)


# GREET data as printed by the Hydrogen Analysis Resource Center, MJ/kg (same column, b;
# secondary copy). Tolerance 1 %: those are figures of the fuel as sold, ours of the pure liquid.
@pytest.mark.parametrize(
    ("compound", "higher_mj_kg", "lower_mj_kg"),
    [("methanol", 22.88, 20.09), ("ethanol", 29.84, 26.95)],
)
def test_heating_values_of_alcohols(compound, higher_mj_kg, lower_mj_kg):
    found = fuel.heating_values_j_kg(compound, "liquid")
    assert found.higher_j_kg / 1e6 == pytest.approx(higher_mj_kg, rel=0.01)
    assert found.lower_j_kg / 1e6 == pytest.approx(lower_mj_kg, rel=0.01)


# Same column, c: 30.0 MJ/kg for the hexamine tablet, no primary source given there. Tolerance
# 0.05: printed to 0.1.
def test_heating_value_of_the_tablet():
    found = fuel.heating_values_j_kg("hexamethylenetetramine", "solid")
    assert found.higher_j_kg / 1e6 == pytest.approx(30.0, abs=0.05)


# 40 CFR 98 table C-1 and NN-1, turned into MJ/kg with liquid density (computed:
# row "converted", D): higher heating value of the liquid. Tolerance 1 %: the density is rounded
# to three figures, and so is the value per gallon.
@pytest.mark.parametrize(
    ("compound", "higher_mj_kg"), [("propane", 49.9), ("butane", 49.2), ("isobutane", 49.0)]
)
def test_heating_values_of_bottled_gas_by_volume(compound, higher_mj_kg):
    found = fuel.heating_values_j_kg(compound, "liquid")
    assert found.higher_j_kg / 1e6 == pytest.approx(higher_mj_kg, rel=0.01)


MISPRINT = "the printed value does not fit its own row; 19(1 - w) - 2.40w gives"


# Table of heating value by moisture on the wet basis, GJ/t (a secondary copy). Tolerance 0.03: the
# table follows 19.0(1 - w) - 2.40 w, ours takes 2.443 for the latent heat, 0.026 lower at 60 %.
@pytest.mark.parametrize(
    ("moisture", "lower_gj_t"),
    [
        (0.0, 19.00),
        (0.15, 15.79),
        (0.20, 14.72),
        pytest.param(
            0.25, 13.72, marks=pytest.mark.xfail(reason=f"less heat, safe: {MISPRINT} 13.65")
        ),
        (0.30, 12.58),
        (0.35, 11.51),
        (0.40, 10.44),
        (0.45, 9.37),
        pytest.param(
            0.50,
            8.20,
            marks=pytest.mark.xfail(reason=f"1 % more heat, a misprint: {MISPRINT} 8.30"),
        ),
        (0.55, 7.23),
        (0.60, 6.16),
    ],
)
def test_wood_gives_less_the_wetter_it_is(moisture, lower_gj_t):
    found = fuel.lower_heating_value_j_kg(dry_j_kg=19.0e6, moisture=moisture)
    assert found / 1e6 == pytest.approx(lower_gj_t, abs=0.03)
