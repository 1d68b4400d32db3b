"""Packing in layers: one layer is the plain packing, several are held against finite elements."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from skfem import (
    Basis,
    BilinearForm,
    ElementQuad2,
    FacetBasis,
    MeshQuad,
    asm,
    condense,
    solve,
)

from optimizer.errors import PhysicsError
from optimizer.physics.layers import Layer, layered
from optimizer.physics.packing import packed_loss_w_k, packing_heat_j_k, packing_share

POT = {"diameter_m": 0.24, "height_m": 0.15}
OUT = {"gap": 0.0, "room_film_w_m2k": 7.7, "bare_w_m2k": 9.0}


def thick(*rows):
    return [Layer(*row) for row in rows]


@given(st.floats(0.01, 0.2), st.floats(0.03, 0.2), st.floats(0, 0.5))
def test_one_layer_is_the_plain_packing(thickness_m, conductivity, gap):
    found = layered(**POT, layers=thick((thickness_m, conductivity, 6e4)), **{**OUT, "gap": gap})
    through = {"thickness_m": thickness_m, "conductivity_w_mk": conductivity}
    loss = packed_loss_w_k(**POT, **through, **{**OUT, "gap": gap})
    heat = packing_heat_j_k(
        **POT, thickness_m=thickness_m, density_kg_m3=60.0, specific_heat_j_kgk=1000.0
    )
    share = packing_share(**POT, **through, room_film_w_m2k=7.7)
    assert found.loss_w_k == pytest.approx(loss, rel=1e-9)
    assert found.packing_j_k == pytest.approx(heat * share, rel=1e-9)
    assert found.faces == (1.0,)


def test_halves_of_one_packing_lose_nearly_what_the_whole_does():
    whole = layered(**POT, layers=thick((0.1, 0.05, 6e4)), **OUT)
    halves = layered(**POT, layers=thick((0.05, 0.05, 6e4), (0.05, 0.05, 6e4)), **OUT)
    assert 1 <= halves.loss_w_k / whole.loss_w_k < 1.08
    assert halves.packing_j_k == pytest.approx(whole.packing_j_k, rel=0.1)


def test_an_outer_layer_is_cooler_and_the_better_packing_belongs_inside():
    good, poor = (0.04, 0.04, 3e4), (0.04, 0.12, 6e4)
    inside, outside = (
        layered(**POT, layers=thick(*o), **OUT) for o in ((good, poor), (poor, good))
    )
    assert 1.0 == inside.faces[0] > inside.faces[1] > 0
    assert inside.faces[1] < outside.faces[1]


@pytest.mark.parametrize(
    ("layers", "words"),
    [
        ([], "at least one layer"),
        (thick((0.0, 0.05, 6e4)), "thickness_m must be above 0"),
        (thick((0.1, -1.0, 6e4)), "conductivity_w_mk must be above 0"),
        (thick((0.1, 0.05, -1.0)), "heat_j_m3k must be at least 0"),
    ],
)
def test_what_is_no_layer_is_refused(layers, words):
    with pytest.raises(PhysicsError, match=words):
        layered(**POT, layers=layers, **OUT)


# Held against finite elements that know nothing of rings and edges.


@BilinearForm
def conduction(u, v, w):
    return 2 * np.pi * w.x[0] * w.k * (u.grad[0] * v.grad[0] + u.grad[1] * v.grad[1])


@BilinearForm
def to_the_room(u, v, w):
    return 2 * np.pi * w.x[0] * w.h * u * v


def by_elements_w_k(size, layers, film, cells=12):
    radius, half = size["diameter_m"] / 2, size["height_m"] / 2
    ends = np.cumsum([0.0, *(layer.thickness_m for layer in layers)])
    out = np.concatenate(
        [a + (b - a) * np.linspace(0, 1, cells + 1)[1:] for a, b in pairwise(ends)]
    )
    r = np.concatenate([np.linspace(0, radius, cells + 1), radius + out])
    z = np.concatenate([np.linspace(0, half, cells + 1), half + out])
    whole = MeshQuad.init_tensor(r, z)
    at = whole.p[:, whole.t].mean(axis=1)
    mesh = whole.remove_elements(np.flatnonzero((at[0] < radius) & (at[1] < half))).with_boundaries(
        {"out": lambda x: (np.abs(x[0] - r[-1]) < 1e-9) | (np.abs(x[1] - z[-1]) < 1e-9)}
    )
    at = mesh.p[:, mesh.t].mean(axis=1)
    depth = np.maximum(at[0] - radius, at[1] - half)
    k = np.array([layer.conductivity_w_mk for layer in layers])[np.searchsorted(ends[1:-1], depth)]
    basis = Basis(mesh, ElementQuad2())
    outside = FacetBasis(mesh, ElementQuad2(), facets=mesh.boundaries["out"])
    flow = asm(conduction, basis, k=k[:, None]) + asm(to_the_room, outside, h=film)
    pot = basis.get_dofs(lambda x: (x[0] < radius + 1e-9) & (x[1] < half + 1e-9)).all()
    level = np.zeros(flow.shape[0])
    level[pot] = 1.0
    level = solve(*condense(flow, x=level, D=pot))
    return 2 * float(level @ (flow @ level))


def random_layers(count, seed=2005):
    """Two or three layers, together 0.1 to 1.5 radii, of wool, paper, foam or damp straw."""
    draw = np.random.default_rng(seed)
    for _ in range(count):
        diameter_m = draw.uniform(0.16, 0.36)
        size = {"diameter_m": diameter_m, "height_m": diameter_m * draw.uniform(0.4, 1.2)}
        shares = draw.dirichlet([2.0] * draw.integers(2, 4))
        total_m = diameter_m / 2 * draw.uniform(0.1, 1.5)
        yield size, [Layer(s * total_m, draw.uniform(0.035, 0.16), 6e4) for s in shares]


CASES = list(random_layers(30))


@pytest.mark.parametrize("case", CASES, ids=range(len(CASES)))
def test_layers_lose_up_to_12_percent_more_than_by_finite_elements_and_never_less(case):
    size, layers = case
    ratio = layered(**size, layers=layers, **OUT).loss_w_k / by_elements_w_k(size, layers, 7.7)
    assert 1.0 <= ratio < 1.12
