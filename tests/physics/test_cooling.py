"""Packed pots and jars as they cool: against an ODE solver, and what must always hold."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from optimizer.errors import PhysicsError
from optimizer.physics.cooling import (
    jar_loss_w_k,
    mixed_c,
    packed_loss_w_k,
    packing_heat_j_k,
    two_body_c,
)

HOURS = np.arange(0.0, 13.0) * 3600.0
BOX = {"contents_j_k": 2.0e4, "packing_j_k": 2.7e3, "loss_w_k": 0.3}
TEMPERATURES = {"start_c": 98.0, "packing_start_c": 12.0, "room_c": 12.0}


def solved_c(*, time_s, contents_j_k, packing_j_k, loss_w_k, start_c, packing_start_c, room_c):
    def slope(_, t):
        inward, outward = 2 * loss_w_k * (t[0] - t[1]), 2 * loss_w_k * (t[1] - room_c)
        return [-inward / contents_j_k, (inward - outward) / packing_j_k]

    start = [start_c, packing_start_c]
    span = (0.0, time_s[-1])
    return solve_ivp(slope, span, start, "LSODA", time_s, rtol=1e-11, atol=1e-10).y


@pytest.mark.parametrize(
    "change",
    [
        {},
        {"packing_j_k": 2.0e4},
        {"packing_j_k": 1.0},
        {"loss_w_k": 3.0},
        {"packing_start_c": 60.0},
        {"start_c": 5.0, "packing_start_c": 90.0, "room_c": 30.0},
    ],
    ids=str,
)
def test_closed_form_is_the_solution_of_the_two_equations(change):
    problem = {"time_s": HOURS, **BOX, **TEMPERATURES, **change}
    assert np.allclose(two_body_c(**problem), solved_c(**problem), rtol=0, atol=1e-6)


def test_broadcasts_times_over_draws():
    losses = np.array([[0.2], [0.3]])
    contents, packing = two_body_c(time_s=HOURS, **{**BOX, "loss_w_k": losses}, **TEMPERATURES)
    assert contents.shape == packing.shape == (2, len(HOURS))
    alone, _ = two_body_c(time_s=HOURS, **BOX, **TEMPERATURES)
    assert np.array_equal(contents[1], alone)


def test_without_packing_one_body_falls_to_the_room():
    contents, _ = two_body_c(time_s=HOURS, **{**BOX, "packing_j_k": 0.0}, **TEMPERATURES)
    assert np.allclose(contents, 12 + 86 * np.exp(-0.3 / 2.0e4 * HOURS), rtol=1e-12)


def test_a_packing_of_hardly_any_heat_is_no_packing():
    little, none = (
        two_body_c(time_s=HOURS, **{**BOX, "packing_j_k": heat}, **TEMPERATURES)[0]
        for heat in (1e-6, 0.0)
    )
    assert np.allclose(little, none, rtol=0, atol=1e-6)


def test_without_loss_nothing_changes():
    contents, packing = two_body_c(time_s=HOURS, **{**BOX, "loss_w_k": 0.0}, **TEMPERATURES)
    assert (contents == 98.0).all()
    assert (packing == 12.0).all()


def test_early_fall_is_faster_than_the_late_one():
    contents, _ = two_body_c(time_s=HOURS, **BOX, **TEMPERATURES)
    rates = -np.diff(np.log(contents - 12.0))
    assert (np.diff(rates) < 0).all()


size = st.floats(0.1, 0.4)
heat = st.floats(1e3, 1e5)


@given(
    size, size, st.floats(0.02, 0.2), st.floats(1.0, 1.5), st.floats(0.03, 0.12), st.floats(0, 0.4)
)
def test_more_packing_never_loses_faster_inside_the_stated_range(d, h, t, more, k, gap):
    fixed = {"diameter_m": d, "height_m": h, "conductivity_w_mk": k, "gap": gap}
    thick = min(t * more, d)  # two radii
    thin, thicker = (
        packed_loss_w_k(**fixed, thickness_m=x, room_film_w_m2k=7.7, bare_w_m2k=9.0)
        for x in (min(t, d), thick)
    )
    assert thicker <= thin * (1 + 1e-12)


@given(heat, heat, st.floats(0.0, 1e4), st.floats(0.05, 2.0), st.floats(0, 48 * 3600))
def test_a_fuller_pot_outlasts_an_emptier_one(one, other, packing, loss, time):
    less, more = sorted((one, other))
    rest = {"time_s": time, "packing_j_k": packing, "loss_w_k": loss, **TEMPERATURES}
    emptier, fuller = (two_body_c(contents_j_k=c, **rest)[0] for c in (less, more))
    assert fuller >= emptier - 1e-9


@given(
    heat, st.floats(0.0, 1e4), st.floats(0.05, 2.0), st.floats(1.0, 3.0), st.floats(0, 48 * 3600)
)
def test_a_leakier_box_is_never_hotter(contents, packing, loss, worse, time):
    rest = {"time_s": time, "contents_j_k": contents, "packing_j_k": packing, **TEMPERATURES}
    tight, leaky = (two_body_c(loss_w_k=u, **rest)[0] for u in (loss, loss * worse))
    assert leaky <= tight + 1e-9


def to_room_j(*, loss_w_k, room_c, time_s, **box):
    """Heat from packing to room by quadrature: panels that halve towards the start."""
    nodes, weights = np.polynomial.legendre.leggauss(24)
    ends = time_s * np.concatenate([[0.0], 2.0 ** np.arange(-40, 1)])
    half = np.diff(ends)[:, None] / 2
    moments = (ends[:-1, None] + half * (1 + nodes)).ravel()
    _, packing = two_body_c(time_s=moments, loss_w_k=loss_w_k, room_c=room_c, **box)
    return 2 * loss_w_k * (half * weights).ravel() @ (packing - room_c)


@given(heat, st.floats(10.0, 1e4), st.floats(0.05, 2.0), st.floats(60.0, 48 * 3600))
def test_what_leaves_the_contents_is_in_the_packing_or_the_room_to_1e_9(
    contents, packing, loss, time
):
    box = {"contents_j_k": contents, "packing_j_k": packing, "loss_w_k": loss, **TEMPERATURES}
    first, second = two_body_c(time_s=time, **box)
    left, kept = contents * (98.0 - first), packing * (second - 12.0)
    lost = to_room_j(time_s=time, **box)
    assert left == pytest.approx(kept + lost, rel=0, abs=1e-9 * contents * 86.0)


@given(st.floats(100.0, 1e4), st.floats(50.0, 500.0), st.floats(0, 24 * 3600))
def test_a_preheated_jar_outlasts_a_cold_one(contents, liner, time):
    """Common practice, no source: rinse the jar with boiling water first."""
    cold = mixed_c(hot_j_k=contents, hot_c=98.0, cold_j_k=liner, cold_c=12.0)
    rest = {"time_s": time, "contents_j_k": contents + liner, "packing_j_k": 0.0, "loss_w_k": 0.05}
    from_cold, from_hot = (
        two_body_c(start_c=start, packing_start_c=12.0, room_c=12.0, **rest)[0]
        for start in (cold, 98.0)
    )
    assert from_cold < from_hot


def test_mixing_keeps_the_heat():
    assert mixed_c(hot_j_k=4000.0, hot_c=95.0, cold_j_k=160.0, cold_c=12.0) == pytest.approx(
        (4000 * 95 + 160 * 12) / 4160, rel=1e-15
    )


@given(st.floats(40, 94), st.floats(1, 24), st.floats(500.0, 1e4))
def test_a_jar_is_as_hot_as_rated_after_the_hours_of_its_rating(rated, hours, contents):
    loss = jar_loss_w_k(
        rated_c=rated, hours=hours, start_c=95.0, room_c=20.0, contents_j_k=contents
    )
    after, _ = two_body_c(
        time_s=hours * 3600,
        contents_j_k=contents,
        packing_j_k=0.0,
        loss_w_k=loss,
        start_c=95.0,
        packing_start_c=20.0,
        room_c=20.0,
    )
    assert after == pytest.approx(rated, abs=1e-9)


@pytest.mark.parametrize(("rated", "start"), [(20.0, 95.0), (95.0, 95.0), (97.0, 95.0)])
def test_a_rating_that_does_not_fall_towards_the_room_is_refused(rated, start):
    with pytest.raises(PhysicsError, match="must be above 0"):
        jar_loss_w_k(rated_c=rated, hours=6.0, start_c=start, room_c=20.0, contents_j_k=4000.0)


@pytest.mark.parametrize(
    ("name", "value"),
    [("time_s", -1.0), ("contents_j_k", 0.0), ("packing_j_k", -1.0), ("start_c", 301.0)],
)
def test_out_of_range_is_refused_by_name(name, value):
    with pytest.raises(PhysicsError, match=f"{name} must be .* not"):
        two_body_c(**{"time_s": 60.0, **BOX, **TEMPERATURES, name: value})


def test_packing_of_no_thickness_takes_no_heat():
    flat = {"thickness_m": 0.0, "density_kg_m3": 45.0, "specific_heat_j_kgk": 1400.0}
    assert packing_heat_j_k(diameter_m=0.2, height_m=0.2, **flat) == 0.0
