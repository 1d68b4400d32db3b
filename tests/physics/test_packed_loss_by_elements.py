"""A packed pot against finite elements: 50 random geometries, in the steady state and cooling.

scikit-fem knows nothing of shape factors: it is given the ring of packing (and the blankets over
it) as a mesh of quadrilaterals, the conductivities and the film, and solves for the heat.
"""

import numpy as np
import pytest
from scipy.sparse import csc_matrix
from scipy.sparse.linalg import splu
from skfem import (
    Basis,
    BilinearForm,
    ElementQuad1,
    ElementQuad2,
    FacetBasis,
    MeshQuad,
    asm,
    condense,
    solve,
)

from optimizer.physics.cooling import (
    covered_film_w_m2k,
    packed_loss_w_k,
    packing_heat_j_k,
    packing_share,
)
from optimizer.physics.cooling import two_body_c as cooled_box_c

TURN = 2 * np.pi


@BilinearForm
def conduction(u, v, w):
    return TURN * w.x[0] * w.k * (u.grad[0] * v.grad[0] + u.grad[1] * v.grad[1])


@BilinearForm
def storage(u, v, w):
    return TURN * w.x[0] * w.c * u * v


@BilinearForm
def to_the_room(u, v, w):
    return TURN * w.x[0] * w.h * u * v


def steps(length, cells):
    """Nodes from 0 to a length, closer together near 0."""
    return length * np.linspace(0, 1, cells + 1) ** 1.5


def meshed(case, cells):
    """Upper half of the packing, by symmetry; the pot is a hole at one temperature."""
    radius, half = case["diameter_m"] / 2, case["height_m"] / 2
    out = steps(case["thickness_m"], cells)
    r = np.concatenate([np.linspace(0, radius, cells + 1)[:-1], radius + out])
    z = np.concatenate([np.linspace(0, half, cells + 1)[:-1], half + out])
    whole = MeshQuad.init_tensor(r, z)
    middle = whole.p[:, whole.t].mean(axis=1)
    return whole.remove_elements(
        np.flatnonzero((middle[0] < radius) & (middle[1] < half))
    ).with_boundaries(
        {
            "pot": lambda x: (
                ((x[0] < radius + 1e-9) & (np.abs(x[1] - half) < 1e-9))
                | ((x[1] < half + 1e-9) & (np.abs(x[0] - radius) < 1e-9))
            ),
            "out": lambda x: (np.abs(x[0] - r[-1]) < 1e-9) | (np.abs(x[1] - z[-1]) < 1e-9),
        }
    )


def assembled(case, cells, element):
    """Matrix of flow, matrix of heat, nodes on the pot."""
    mesh = meshed(case, cells)
    basis = Basis(mesh, element)
    outside = FacetBasis(mesh, element, facets=mesh.boundaries["out"])
    film = 1 / (1 / case["film_w_m2k"] + case["cover_m2k_w"])
    flow = asm(conduction, basis, k=case["conductivity_w_mk"]) + asm(to_the_room, outside, h=film)
    heat = asm(storage, basis, c=case["volumetric_j_m3k"])
    return flow.tocsr(), heat.tocsr(), basis.get_dofs("pot").all()


def by_elements_w_k(case, cells=16):
    """Heat from a pot at 1 degC to a room at 0 degC."""
    flow, _, pot = assembled(case, cells, ElementQuad2())
    level = np.zeros(flow.shape[0])
    level[pot] = 1.0
    level = solve(*condense(flow, x=level, D=pot))
    return 2 * float(level @ (flow @ level))


def closed_form_w_k(case):
    return packed_loss_w_k(
        **{name: case[name] for name in ("diameter_m", "height_m", "thickness_m")},
        conductivity_w_mk=case["conductivity_w_mk"],
        gap=0.0,
        room_film_w_m2k=covered_film_w_m2k(
            room_film_w_m2k=case["film_w_m2k"], cover_m2k_w=case["cover_m2k_w"]
        ),
        bare_w_m2k=9.0,
    )


def random_cases(count=50, seed=1918):
    """The stated range: pots 0.4 to 1.2 diameters high, packings of 0.05 to 2 radii."""
    draw = np.random.default_rng(seed)
    for _ in range(count):
        diameter_m = draw.uniform(0.12, 0.40)
        yield {
            "diameter_m": diameter_m,
            "height_m": diameter_m * draw.uniform(0.4, 1.2),
            "thickness_m": diameter_m / 2 * draw.uniform(0.05, 2.0),
            "conductivity_w_mk": draw.uniform(0.03, 0.20),  # dry wool to damp paper
            "film_w_m2k": draw.uniform(5.0, 10.0),
            "cover_m2k_w": draw.choice([0.0, 0.08, 0.16]),
            "volumetric_j_m3k": draw.uniform(20e3, 250e3),
            "contents_j_k": 4190.0 * 700 * diameter_m**3 * draw.uniform(0.4, 0.9),
        }


CASES = list(random_cases())


@pytest.mark.parametrize("case", CASES, ids=range(len(CASES)))
def test_the_loss_is_within_5_percent_of_finite_elements(case):
    assert 0.95 < closed_form_w_k(case) / by_elements_w_k(case) < 1.05


def test_the_finite_elements_have_converged():
    for case in CASES[:5]:
        assert by_elements_w_k(case, 10) == pytest.approx(by_elements_w_k(case, 24), rel=3e-3)


def cooled_by_elements_c(case, hours, step_s=120.0):
    """Contents that were 100 K hotter than packing and room, by backward steps in time."""
    flow, heat, pot = assembled(case, 8, ElementQuad1())
    flow, heat = 2 * flow.tolil(), 2 * heat.tolil()
    keep = np.setdiff1d(np.arange(flow.shape[0]), pot)
    fold = np.zeros((len(keep) + 1, flow.shape[0]))  # the pot's nodes are one node
    fold[np.arange(len(keep)), keep] = 1.0
    fold[-1, pot] = 1.0
    flow, heat = fold @ flow @ fold.T, fold @ heat @ fold.T
    heat[-1, -1] += case["contents_j_k"]
    level = np.zeros(len(keep) + 1)
    level[-1] = 100.0
    once = splu(csc_matrix(heat + step_s * flow))
    for _ in range(round(hours * 3600 / step_s)):
        level = once.solve(heat @ level)
    return level[-1]


def two_bodies_c(case, hours):
    size = {name: case[name] for name in ("diameter_m", "height_m", "thickness_m")}
    whole_j_k = packing_heat_j_k(
        **size, density_kg_m3=case["volumetric_j_m3k"] / 1500, specific_heat_j_kgk=1500.0
    )
    contents, _ = cooled_box_c(
        time_s=hours * 3600.0,
        contents_j_k=case["contents_j_k"],
        packing_j_k=whole_j_k * as_one_body(case),
        loss_w_k=closed_form_w_k(case),
        start_c=100.0,
        packing_start_c=0.0,
        room_c=0.0,
    )
    return contents


def as_one_body(case):
    film = covered_film_w_m2k(room_film_w_m2k=case["film_w_m2k"], cover_m2k_w=case["cover_m2k_w"])
    size = {name: case[name] for name in ("diameter_m", "height_m", "thickness_m")}
    return packing_share(**size, conductivity_w_mk=case["conductivity_w_mk"], room_film_w_m2k=film)


def steady_share(case):
    """Four times the heat-weighted square of the steady field, over the whole packing's heat."""
    flow, heat, pot = assembled(case, 16, ElementQuad2())
    level = np.zeros(flow.shape[0])
    level[pot] = 1.0
    level = solve(*condense(flow, x=level, D=pot))
    everywhere = np.ones_like(level)
    return 4 * float(level @ (heat @ level)) / float(everywhere @ (heat @ everywhere))


def test_the_share_of_a_packing_is_that_of_the_steady_field():
    for case in CASES[:20]:
        assert as_one_body(case) == pytest.approx(steady_share(case), rel=0.10)


@pytest.mark.parametrize(("cover_m2k_w", "share"), [(0.0, 4 / 3), (1e6, 4.0)])
def test_the_share_of_a_thin_wall_is_known(cover_m2k_w, share):
    case = {**CASES[0], "thickness_m": 1e-5, "film_w_m2k": 1e9, "cover_m2k_w": cover_m2k_w}
    assert as_one_body(case) == pytest.approx(share, rel=1e-3)


def heat_share(case):
    """Heat of the packing over that of the contents."""
    packing = case["volumetric_j_m3k"] * np.pi / 4
    twice = 2 * case["thickness_m"]
    outer = (case["diameter_m"] + twice) ** 2 * (case["height_m"] + twice)
    return packing * (outer - case["diameter_m"] ** 2 * case["height_m"]) / case["contents_j_k"]


# Two bodies for a whole field of temperatures, of 100 K at the start. In a kitchen's boxes (packing
# with less than half of the contents' heat) they stay within 2 K; packings as heavy as that and
# more (damp sawdust, a hand thick, round a small pot) warm up a little late.
@pytest.mark.parametrize("hours", [1, 2, 4, 8])
def test_two_bodies_cool_as_the_whole_field_does(hours):
    light = [case for case in CASES if heat_share(case) < 0.5][:10]
    heavy = [case for case in CASES if heat_share(case) >= 0.5][:10]
    assert len(light) == len(heavy) == 10
    for case in light:
        assert abs(two_bodies_c(case, hours) - cooled_by_elements_c(case, hours)) < 2
    for case in heavy:
        assert -2 < two_bodies_c(case, hours) - cooled_by_elements_c(case, hours) < 3.5
