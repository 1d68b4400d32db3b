"""An open mouth: what it loses, against figures from steam tables and an integration."""

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from optimizer.errors import PhysicsError
from optimizer.physics.opening import open_loss_w, opened_c

# Vapour pressure of water in Pa, from the steam tables (from memory).
STEAM = {60.0: 19_946, 90.0: 70_182, 100.0: 101_420}


@pytest.mark.parametrize("level", STEAM)
def test_vapour_film_and_glow_are_added_up(level):
    vapour = (0.089 + 0.0782 * 0.5) * STEAM[level]
    glow = 0.96 * 5.670374e-8 * ((level + 273.15) ** 4 - 293.15**4)
    by_hand = vapour + 10 * (level - 20) + glow
    assert open_loss_w(surface_m2=1.0, temperature_c=level, air_c=20.0) == pytest.approx(
        by_hand, rel=1e-3
    )


def test_ninety_degrees_by_hand():
    # 8,994 W of vapour, 700 W of film, 545 W of glow from each square metre
    assert open_loss_w(surface_m2=1.0, temperature_c=90.0, air_c=20.0) == pytest.approx(
        10_239, rel=1e-3
    )


@pytest.mark.parametrize("litres", [0.3, 1.0, 4.0])
def test_a_minute_open_is_the_integral_of_its_loss(litres):
    heat, mouth, bare = 4180 * litres, 0.0148, 1.2

    def pace(_, level):
        lost = open_loss_w(surface_m2=mouth, temperature_c=level, air_c=15.0) + bare * (level - 15)
        return -lost / heat

    exact = solve_ivp(pace, (0, 60), [90.0], rtol=1e-9, atol=1e-9).y[0, -1]
    found = opened_c(
        start_c=90.0,
        air_c=15.0,
        heat_capacity_j_k=heat,
        surface_m2=mouth,
        bare_w_k=bare,
        open_s=60.0,
    )
    assert found == pytest.approx(exact, abs=0.01)
    assert found < 90.0


def test_arrays_go_through_and_nothing_open_loses_nothing():
    shut = {"air_c": 15.0, "heat_capacity_j_k": 4e3, "surface_m2": 0.0, "bare_w_k": 0.0}
    levels = np.array([60.0, 80.0])
    assert opened_c(start_c=levels, open_s=60.0, **shut) == pytest.approx(levels)


def test_no_heat_left_is_refused():
    with pytest.raises(PhysicsError, match="heat_capacity_j_k"):
        opened_c(
            start_c=80.0,
            air_c=15.0,
            heat_capacity_j_k=0.0,
            surface_m2=0.01,
            bare_w_k=0.0,
            open_s=60.0,
        )
