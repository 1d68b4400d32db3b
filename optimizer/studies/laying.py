"""A cooker from what a house has: which packings to take, and in which order round the pot."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise, permutations

from optimizer.errors import PhysicsError
from optimizer.model.things import Cooker, Material, Pot
from optimizer.physics import cooling
from optimizer.physics.layers import Layer, Layered, layered
from optimizer.planning.losses import kitchen_loss_w_k
from optimizer.studies.designs import COMPUTED_SPREAD, computed, merit, rebuilt, thickness_of
from optimizer.studies.insulation import FullPot, Holding

MOST_HEAPS = 4  # more kinds at once are laid by nobody
THIN_M = 0.005  # a layer thinner than this is none


@dataclass(frozen=True, slots=True)
class Heap:
    """So much of a packing as a house has."""

    material: Material
    packing_m3: float  # as it lies in the box


@dataclass(frozen=True, slots=True)
class Laid:
    """Packings round a pot, from the inside out."""

    heaps: tuple[Heap, ...]
    thick_m: tuple[float, ...]  # of each, on every side
    holding: Holding
    too_soft: tuple[Material, ...]  # those that the heat there would soften

    @property
    def outside_m(self) -> float:
        """Thickness of them all."""
        return sum(self.thick_m)


def lay(cooker: Cooker, full: FullPot, heaps: Sequence[Heap]) -> tuple[Laid, ...]:
    """Return every choice of what a house has, laid in its best order; the best choice first.

    Parameters
    ----------
    cooker : Cooker
        A packed cooker, for its gaps, damp and blankets.
    full : FullPot
        The pot, and where.
    heaps : sequence of Heap
        What there is, at most four kinds.

    Returns
    -------
    tuple of Laid
        One for each choice of packings that goes round the pot.

    Raises
    ------
    PhysicsError
        If there are too many kinds, or none of them goes round the pot.
    """
    if len(heaps) > MOST_HEAPS:
        raise PhysicsError(f"at most {MOST_HEAPS} kinds of packing at once, not {len(heaps)}")
    best: dict[frozenset[str], Laid] = {}
    for order in _orders(heaps):
        made = _laid(cooker, full, order)
        if made is None:
            continue
        key = frozenset(heap.material.name for heap in order)
        if key not in best or _better(made) > _better(best[key]):
            best[key] = made
    if not best:
        litres = 1000 * sum(heap.packing_m3 for heap in heaps)
        raise PhysicsError(f"{litres:.1f} L are not enough to go round the {full.pot.label}")
    return tuple(sorted(best.values(), key=_better, reverse=True))


def _orders(heaps: Sequence[Heap]) -> Iterator[tuple[Heap, ...]]:
    for count in range(1, len(heaps) + 1):
        yield from permutations(heaps, count)


def _better(made: Laid) -> tuple[bool, float, float]:
    """Say how good it is: what the heat does not soften goes before more hours."""
    return (not made.too_soft, *merit(made.holding))


def _laid(cooker: Cooker, full: FullPot, order: tuple[Heap, ...]) -> Laid | None:
    """Lay heaps round a pot in this order; None if one of them makes hardly a layer."""
    pot, at = full.pot, full.at
    thick_m = _thicknesses_m(pot, order)
    if min(thick_m) < THIN_M:
        return None
    found = _layered(cooker, full, order, thick_m)
    inside_c = [
        at.place.kitchen_c + face * (at.boil_c - at.place.kitchen_c) for face in found.faces
    ]
    made = replace(
        rebuilt(cooker, material=order[0].material, thickness_m=sum(thick_m)),
        loss_w_k=found.loss_w_k,
        packing_j_k=found.packing_j_k,
        loss_spread=max(cooker.loss_spread, COMPUTED_SPREAD),
    )
    soft = (h.material for h, c in zip(order, inside_c, strict=True) if h.material.greatest_c < c)
    return Laid(order, thick_m, computed(made, full), tuple(soft))


def _thicknesses_m(pot: Pot, order: Sequence[Heap]) -> tuple[float, ...]:
    """How thick each heap goes round what is inside of it."""
    ends, volume = [0.0], 0.0
    for heap in order:
        volume += heap.packing_m3
        ends.append(thickness_of(pot, volume))
    return tuple(after - before for before, after in pairwise(ends))


def _layered(
    cooker: Cooker, full: FullPot, order: Sequence[Heap], thick_m: Sequence[float]
) -> Layered:
    pot, at = full.pot, full.at
    area_m2 = math.pi * pot.diameter_m * (pot.height_m + pot.diameter_m / 2)
    return layered(
        diameter_m=pot.diameter_m,
        height_m=pot.height_m,
        layers=[
            _layer(heap.material, each, damp=cooker.damp)
            for heap, each in zip(order, thick_m, strict=True)
        ],
        gap=cooker.gap,
        room_film_w_m2k=float(
            cooling.covered_film_w_m2k(
                room_film_w_m2k=at.rules.room_film_w_m2k,
                cover_m2k_w=cooker.blankets * at.rules.blanket_m2k_w,
            )
        ),
        bare_w_m2k=kitchen_loss_w_k(pot, at.boil_c, at) / area_m2,
    )


def _layer(material: Material, thick_m: float, *, damp: bool) -> Layer:
    factor = material.damp_factor if damp else 1.0
    heat = material.density_kg_m3 * material.specific_heat_j_kgk
    return Layer(thick_m, factor * material.conductivity_w_mk, heat)
