"""The checker's own integrations against a library's, and against series in print."""

import math

import numpy as np
import pytest
from scipy.integrate import quad, solve_ivp

from optimizer.planning.checks.heat import centre_share, credited, falling, minutes_between

POT = {"heat_j_k": 12e3, "loss_w_k": 4.0, "air_c": 10.0}


@pytest.mark.parametrize(
    ("net_w", "from_c", "to_c"),
    [(900.0, 12.0, 99.0), (360.0, 12.0, 99.0), (357.0, 12.0, 99.0), (0.0, 116.0, 98.0)],
)
def test_a_rise_or_fall_takes_as_long_as_the_library_says(net_w, from_c, to_c):
    def pace(_t, level):
        return (net_w - POT["loss_w_k"] * (level - POT["air_c"])) / POT["heat_j_k"]

    def there(_t, level):
        return level[0] - to_c

    there.terminal = True
    run = solve_ivp(pace, (0, 1e6), [from_c], events=there, rtol=1e-10, atol=1e-10)
    minutes = minutes_between(net_w=net_w, from_c=from_c, to_c=to_c, **POT)
    assert minutes == pytest.approx(run.t_events[0][0] / 60, rel=1e-4)


@pytest.mark.parametrize(
    ("net_w", "from_c", "to_c"), [(350.0, 12.0, 99.0), (356.0, 12.0, 99.0), (0.0, 12.0, 99.0)]
)
def test_a_pot_that_levels_off_below_never_gets_there(net_w, from_c, to_c):
    assert minutes_between(net_w=net_w, from_c=from_c, to_c=to_c, **POT) == math.inf


def test_no_way_takes_no_time():
    assert minutes_between(net_w=900.0, from_c=99.0, to_c=99.0, **POT) == 0


def test_minutes_are_weighted_by_their_temperature():
    def cooking(level):
        return 10.0 ** ((level - 100.0) / 18.0)

    counted = minutes_between(net_w=0.0, from_c=116.0, to_c=98.0, weight=cooking, **POT)
    rate = POT["heat_j_k"] / POT["loss_w_k"]
    true = quad(lambda level: cooking(level) * rate / (level - POT["air_c"]), 98.0, 116.0)[0]
    assert counted == pytest.approx(true / 60, rel=1e-6)


@pytest.mark.parametrize("packing_j_k", [0.0, 5.0, 500.0, 8000.0])
@pytest.mark.parametrize("minutes", [0.5, 20.0, 333.0])
def test_a_rest_falls_as_the_library_says(packing_j_k, minutes):
    contents, loss, start, room = 12e3, 0.4, 97.0, 15.0
    across = 2 * loss

    def pace(_t, y):
        if not packing_j_k:
            return [-loss * (y[0] - room) / contents, 0.0]
        through = across * (y[0] - y[1])
        return [-through / contents, (through - across * (y[1] - room)) / packing_j_k]

    run = solve_ivp(pace, (0, 60 * minutes), [start, room], method="Radau", rtol=1e-9, atol=1e-9)
    curve = falling(
        contents_j_k=contents,
        packing_j_k=packing_j_k,
        loss_w_k=loss,
        start_c=start,
        room_c=room,
        minutes=minutes,
    )
    assert curve[0] == start
    assert curve[-1] == pytest.approx(run.y[0][-1], abs=0.02)
    assert (np.diff(curve) < 0).all()


def test_a_rest_of_no_time_changes_nothing():
    curve = falling(
        contents_j_k=9e3, packing_j_k=100.0, loss_w_k=1.0, start_c=90.0, room_c=20.0, minutes=0
    )
    assert curve[-1] == 90


def test_a_steady_100_degrees_is_worth_its_minutes():
    assert credited(np.full(31, 100.0), 30.0, np.ones_like) == pytest.approx(30)


# Share of its rise that a centre has made at a Fourier number of 0.5, held surface: one term of
# the series with the textbook's roots and coefficients (pi/2, 1.2732; 2.4048, 1.6018; pi, 2),
# Incropera-DeWitt, table 5.1, from memory.
@pytest.mark.parametrize(
    ("shape", "share"), [("slab", 0.6292), ("cylinder", 0.9111), ("sphere", 0.98562)]
)
def test_a_piece_heats_through_as_the_series_in_print(shape, share):
    computed = centre_share(
        half_size_m=0.01, shape=shape, diffusivity_m2_s=1.4e-7, ramp_s=0.0, hold_s=0.5e-4 / 1.4e-7
    )
    assert computed == pytest.approx(share, abs=5e-4)


def test_a_slow_rise_of_the_water_counts_and_less_than_hot_water():
    piece = {"half_size_m": 0.01, "shape": "sphere", "diffusivity_m2_s": 1.4e-7}
    none = centre_share(ramp_s=0.0, hold_s=200.0, **piece)
    some = centre_share(ramp_s=400.0, hold_s=200.0, **piece)
    hot = centre_share(ramp_s=0.0, hold_s=600.0, **piece)
    assert none < some < hot
