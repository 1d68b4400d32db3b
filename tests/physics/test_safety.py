"""The rules that bar a way, with the limits of the shipped table typed in."""

import numpy as np
import pytest

from optimizer.errors import PhysicsError
from optimizer.physics import safety

BEANS = {"limit_c": 98.0, "boil_min": 30.0, "pressure_min": 10.0}
WATER = {"low_min": 1.0, "high_min": 3.0, "high_m": 1524.0}
FILL = {"ordinary": 0.9, "pressure_most": 2 / 3, "pressure_swelling": 0.5}


@pytest.mark.parametrize(
    ("phaseolus", "pressure", "boiling_c", "minutes"),
    [
        (True, False, 99.97, 30.0),
        (True, False, 98.0, 30.0),
        (True, False, 97.9, np.inf),  # an open boil does not count: refused, not warned
        (True, True, 97.9, 10.0),
        (True, True, 99.97, 10.0),
        (False, False, 90.0, 0.0),
    ],
)
def test_beans_boil_first_or_are_refused(phaseolus, pressure, boiling_c, minutes):
    given = {"phaseolus": phaseolus, "pressure": pressure, "boiling_c": boiling_c}
    assert safety.bean_boil_min(**given, **BEANS) == minutes


@pytest.mark.parametrize(("altitude_m", "minutes"), [(0.0, 1.0), (1523.0, 1.0), (1524.0, 3.0)])
def test_water_boils_longer_in_the_mountains(altitude_m, minutes):
    assert safety.water_boil_min(altitude_m=altitude_m, **WATER) == minutes


@pytest.mark.parametrize(
    ("pressure", "swelling", "share"),
    [(False, True, 0.9), (False, False, 0.9), (True, False, 2 / 3), (True, True, 0.5)],
)
def test_pressure_pots_are_filled_less(pressure, swelling, share):
    assert safety.greatest_fill(pressure=pressure, swelling=swelling, **FILL) == share


def test_food_may_not_warm_too_slowly():
    late = safety.too_slow(rise_s=np.array([7199.0, 7200.0, 7201.0, np.inf]), most_min=120.0)
    assert late.tolist() == [False, False, True, True]


def test_out_of_range_is_refused_by_name():
    with pytest.raises(PhysicsError, match=r"altitude_m must be .* not 9000"):
        safety.water_boil_min(altitude_m=9000.0, **WATER)
    with pytest.raises(PhysicsError, match="pressure_most must be"):
        safety.greatest_fill(pressure=True, swelling=False, **{**FILL, "pressure_most": 1.2})
    beans = {"phaseolus": True, "pressure": False, "boiling_c": 99.0}
    with pytest.raises(PhysicsError, match="boil_min must be"):
        safety.bean_boil_min(**beans, **{**BEANS, "boil_min": -1.0})
    with pytest.raises(PhysicsError, match="rise_s must be"):
        safety.too_slow(rise_s=-1.0, most_min=120.0)
