"""Specific heat of foods against the handbook's table."""

import pytest

from optimizer.physics import food


# ASHRAE Refrigeration 2006 ch. 9 (2010: ch. 19), table 3: composition in per cent of the mass and
# specific heat above freezing, kJ/(kg K) (seen). The table's
# carbohydrate holds the fibre; it is taken off here. Tolerance -0.10 to 0: the table's figures
# come from an older rule that lies about 0.04 above Choi and Okos.
@pytest.mark.parametrize(
    ("water", "protein", "fat", "carbohydrate", "fibre", "ash", "printed"),
    [
        pytest.param(87.79, 1.03, 0.19, 10.14, 3.0, 0.87, 3.92, id="carrots"),
        pytest.param(92.15, 1.44, 0.27, 5.43, 2.3, 0.71, 4.02, id="cabbage"),
        pytest.param(90.27, 1.82, 0.12, 7.14, 3.4, 0.66, 3.99, id="snap beans"),
        pytest.param(70.24, 6.84, 0.86, 20.16, 4.9, 1.89, 3.52, id="lima beans"),
        pytest.param(87.58, 1.61, 0.17, 9.56, 2.8, 1.08, 3.91, id="beets"),
        pytest.param(90.69, 2.98, 0.35, 5.24, 3.0, 0.92, 4.01, id="broccoli"),
        pytest.param(75.96, 3.22, 1.18, 19.02, 2.7, 0.62, 3.62, id="sweet corn"),
        pytest.param(58.58, 6.36, 0.50, 33.07, 2.1, 1.50, 3.17, id="garlic"),
        pytest.param(84.46, 3.30, 0.70, 10.01, 2.0, 1.53, 3.82, id="kale"),
        pytest.param(83.00, 1.50, 0.30, 14.15, 1.8, 1.05, 3.77, id="leeks"),
        pytest.param(96.01, 0.69, 0.13, 2.76, 0.8, 0.41, 4.09, id="cucumbers"),
        pytest.param(81.67, 1.74, 0.73, 15.09, 2.0, 0.77, 3.75, id="ginger"),
    ],
)
def test_specific_heat_of_the_handbook(water, protein, fat, carbohydrate, fibre, ash, printed):
    found = food.specific_heat_j_kgk(
        water=water / 100,
        protein=protein / 100,
        fat=fat / 100,
        carbohydrate=(carbohydrate - fibre) / 100,
        fibre=fibre / 100,
        ash=ash / 100,
        temperature_c=20.0,
    )
    assert -0.10 <= found / 1000 - printed <= 0


# Geankoplis table A.4-1, specific heat between 0 and 100 degC, kJ/(kg K) (a copy,
# seen). Tolerance 10 %: variety and ripeness; the source prints a range for apples.
# Compositions: only the water is printed (lean beef 72 %, potatoes 75 %), the rest is rounded
# from memory.
@pytest.mark.parametrize(
    ("water", "protein", "fat", "carbohydrate", "ash", "printed"),
    [
        pytest.param(0.72, 0.21, 0.06, 0.0, 0.01, 3.43, id="lean beef"),
        pytest.param(0.75, 0.02, 0.0, 0.22, 0.01, 3.52, id="potatoes"),
        pytest.param(0.0, 0.0, 1.0, 0.0, 0.0, 2.01, id="olive oil"),
    ],
)
def test_specific_heat_of_another_handbook(water, protein, fat, carbohydrate, ash, printed):
    found = food.specific_heat_j_kgk(
        water=water,
        protein=protein,
        fat=fat,
        carbohydrate=carbohydrate,
        fibre=0.0,
        ash=ash,
        temperature_c=50.0,
    )
    assert found / 1000 == pytest.approx(printed, rel=0.10)
