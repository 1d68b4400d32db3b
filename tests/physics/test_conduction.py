"""Heating through: against other solutions of the same equation, and what must hold."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import special
from scipy.linalg import expm

from optimizer.errors import PhysicsError
from optimizer.physics import conduction

SHAPES = ("slab", "cylinder", "sphere")
POWER = {"slab": 0, "cylinder": 1, "sphere": 2}
POTATO = {"half_size_m": 0.02, "diffusivity_m2_s": 1.45e-7}
shapes = st.sampled_from(SHAPES)
shares = st.floats(0.75, 0.999)


def full_series(shape, fourier):
    """Share of the centre's rise with the surface held, by sixty terms."""
    n = np.arange(1, 61)
    roots = {
        "slab": (n - 0.5) * np.pi,
        "cylinder": special.jn_zeros(0, 60),
        "sphere": n * np.pi,
    }[shape]
    terms = {
        "slab": 2 * (-1.0) ** (n + 1) / roots,
        "cylinder": 2 / (roots * special.j1(roots)),
        "sphere": 2 * (-1.0) ** (n + 1),
    }[shape]
    return 1 - np.sum(terms * np.exp(-(roots**2) * fourier))


def shells(shape, cells=50):
    """Finite volumes from centre to surface: matrix and surface column, per unit of Fourier."""
    edges = np.linspace(0, 1, cells + 1)
    power = POWER[shape]
    volume = (edges[1:] ** (power + 1) - edges[:-1] ** (power + 1)) / (power + 1)
    flow = edges[1:] ** power * cells
    flow[-1] *= 2  # half a cell to the surface
    inner = flow[:-1]
    matrix = np.diag(-flow) + np.diag(inner, 1) + np.diag(inner, -1)
    matrix[1:, 1:] -= np.diag(inner)
    surface = np.zeros(cells)
    surface[-1] = flow[-1]
    return matrix / volume[:, None], surface / volume


def after_ramp(shape, ramp, hold):
    """Share of the centre's rise after an even ramp and a hold, both as Fourier numbers."""
    matrix, surface = shells(shape)
    cells = len(surface)
    whole = np.zeros((cells + 2, cells + 2))  # cells, the water, and the water's climb
    whole[:cells, :cells], whole[:cells, cells] = matrix, surface
    whole[cells, cells + 1] = 1.0
    state = np.zeros(cells + 2)
    state[-1] = 1 / ramp
    state = expm(whole * ramp) @ state
    state[-1] = 0.0
    return (expm(whole * hold) @ state)[0]


# Tolerance 0.005 of the rise: what the other terms add up to at a Fourier number of 0.2.
@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("fourier", [0.2, 0.3, 0.5, 1.0])
def test_one_term_agrees_with_the_full_series(shape, fourier):
    found = conduction.centre_rise(
        half_size_m=1.0, shape=shape, diffusivity_m2_s=1.0, time_s=fourier
    )
    assert found == pytest.approx(full_series(shape, fourier), abs=0.005)


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("fourier", [0.005, 0.02, 0.05, 0.1, 0.2, 0.4, 1.0])
def test_one_term_never_heats_faster_than_the_full_series(shape, fourier):
    found = conduction.centre_rise(
        half_size_m=1.0, shape=shape, diffusivity_m2_s=1.0, time_s=fourier
    )
    assert found <= full_series(shape, fourier) + 1e-9


# Another solution of the same equation (finite volumes): the centre must have made its share, by
# no more than 2.5 % of its rise too much (a slow heat-up of a ball to 80 % comes to 2.2 %).
# 0.0001 is the error of the 50 cells.
@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("ramp", [0.02, 0.1, 0.4, 0.8])
@pytest.mark.parametrize("share", [0.8, 0.95])
def test_a_slow_heat_up_agrees_with_finite_volumes(shape, ramp, share):
    hold = conduction.heated_through_s(
        half_size_m=1.0, shape=shape, diffusivity_m2_s=1.0, share=share, ramp_s=ramp
    )
    found = after_ramp(shape, ramp, hold)
    assert found >= share - 0.0001
    if hold > 0:
        assert found <= share + 0.025


@given(shapes, shares)
def test_time_and_share_are_inverse(shape, share):
    seconds = conduction.heated_through_s(shape=shape, share=share, **POTATO)
    found = conduction.centre_rise(shape=shape, time_s=seconds, **POTATO)
    assert found == pytest.approx(share, rel=1e-9)


@given(shapes, shares, st.floats(0.001, 0.05), st.floats(1.01, 3))
def test_time_goes_with_the_square_of_the_size(shape, share, half_size_m, larger):
    rule = {"shape": shape, "share": share, "diffusivity_m2_s": 1.4e-7}
    small = conduction.heated_through_s(half_size_m=half_size_m, **rule)
    large = conduction.heated_through_s(half_size_m=half_size_m * larger, **rule)
    assert large == pytest.approx(small * larger**2, rel=1e-9)


@given(shapes, shares, st.floats(0, 7200), st.floats(1, 3600))
def test_a_longer_heat_up_leaves_less_to_wait_but_takes_longer_in_all(shape, share, ramp_s, more_s):
    rule = {"shape": shape, "share": share, **POTATO}
    short = conduction.heated_through_s(ramp_s=ramp_s, **rule)
    long = conduction.heated_through_s(ramp_s=ramp_s + more_s, **rule)
    assert long <= short + 1e-9
    assert long + ramp_s + more_s >= short + ramp_s - 1e-9


@given(shapes, shares, st.floats(0.0001, 0.2))
def test_more_of_the_rise_takes_longer(shape, share, nearer):
    more = share + (1 - share) * nearer
    times = [
        conduction.heated_through_s(shape=shape, share=value, **POTATO) for value in (share, more)
    ]
    assert times[1] > times[0]


@given(shapes, st.floats(0.01, 1e4), st.floats(1.01, 10))
def test_a_thinner_film_heats_faster(shape, biot, thinner):
    roots = [conduction.first_root(value, shape) for value in (biot, biot * thinner, math.inf)]
    assert 0 < roots[0] < roots[1] < roots[2]


@pytest.mark.parametrize("shape", SHAPES)
def test_a_strong_film_becomes_a_held_surface(shape):
    film, held = conduction.first_term(1e7, shape), conduction.first_term(math.inf, shape)
    assert film == pytest.approx(held, rel=1e-5)


# A body with a weak film has one temperature: exp(-(power + 1) Bi Fo) is left of the difference.
@pytest.mark.parametrize("shape", SHAPES)
def test_a_weak_film_leaves_one_temperature(shape):
    found = conduction.centre_rise(
        half_size_m=1.0, shape=shape, diffusivity_m2_s=1.0, time_s=50.0, biot=0.01
    )
    assert found == pytest.approx(1 - math.exp(-(POWER[shape] + 1) * 0.5), rel=0.01)


@pytest.mark.parametrize(("shape", "half_size_m"), [("liquid", 0.02), ("sphere", 0.0)])
def test_a_liquid_needs_no_time(shape, half_size_m):
    piece = {"shape": shape, "half_size_m": half_size_m, "diffusivity_m2_s": 1.4e-7}
    assert conduction.heated_through_s(share=0.95, **piece) == 0
    assert conduction.centre_rise(time_s=np.array([0.0, 5.0]), **piece) == pytest.approx([1, 1])


@pytest.mark.parametrize(
    ("change", "rule"),
    [
        ({"half_size_m": -0.01}, "half_size_m must be at least 0"),
        ({"diffusivity_m2_s": 0.0}, "diffusivity_m2_s must be above 0"),
        ({"shape": "cube"}, "shape must be liquid, slab, cylinder or sphere"),
        ({"share": 0.0}, "share must lie between 0 and 1"),
        ({"share": 1.0}, "share must lie between 0 and 1"),
        ({"share": 0.5}, "share is too small for the first term of a sphere"),
        ({"ramp_s": -1.0}, "ramp_s must be at least 0"),
        ({"biot": 0.0}, "biot must be above 0"),
    ],
)
def test_impossible_pieces_are_refused(change, rule):
    piece = {"shape": "sphere", "share": 0.95, **POTATO}
    with pytest.raises(PhysicsError, match=rule):
        conduction.heated_through_s(**piece | change)


def test_a_negative_time_is_refused():
    with pytest.raises(PhysicsError, match="time_s must be at least 0"):
        conduction.centre_rise(shape="sphere", time_s=[10.0, -1.0], **POTATO)


def test_a_liquid_has_no_root():
    with pytest.raises(PhysicsError, match="shape must be slab, cylinder or sphere"):
        conduction.first_root(1.0, "liquid")
