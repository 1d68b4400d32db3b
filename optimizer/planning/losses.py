"""What pots, packed boxes and jars lose, and through which mouth they are drawn on."""

import math
from functools import lru_cache

from optimizer.model.things import Cooker, Material, Pot
from optimizer.physics import cooling, heating, water
from optimizer.planning.conditions import CALM, Conditions


@lru_cache(maxsize=4096)
def kitchen_loss_w_k(pot: Pot, surface_c: float, at: Conditions) -> float:
    """Return the loss of a bare lidded pot in the kitchen [W/K]."""
    return float(
        heating.pot_loss_w_k(
            diameter_m=pot.diameter_m,
            height_m=pot.height_m,
            surface_c=surface_c,
            air_c=at.place.kitchen_c,
            wind_m_s=CALM,
            emissivity=pot.emissivity,
        )
    )


@lru_cache(maxsize=4096)
def packed_loss_w_k(
    cooker: Cooker, pot: Pot, surface_c: float, at: Conditions
) -> tuple[float, float]:
    """Return the loss of a packed pot [W/K] and the heat of its packing as one body [J/K]."""
    material, thick = cooker.material, cooker.thickness_m
    if material is None or thick is None:  # measured only
        return cooker.loss_w_k or math.inf, cooker.packing_j_k or 0.0
    layer = {
        "diameter_m": pot.diameter_m,
        "height_m": pot.height_m,
        "thickness_m": thick,
        "conductivity_w_mk": material.conductivity_w_mk
        * (material.damp_factor if cooker.damp else 1.0),
        "room_film_w_m2k": cooling.covered_film_w_m2k(
            room_film_w_m2k=at.rules.room_film_w_m2k,
            cover_m2k_w=cooker.blankets * at.rules.blanket_m2k_w,
        ),
    }
    area = math.pi * pot.diameter_m * (pot.height_m + pot.diameter_m / 2)
    loss = (
        cooling.packed_loss_w_k(
            **layer, gap=cooker.gap, bare_w_m2k=kitchen_loss_w_k(pot, surface_c, at) / area
        )
        if cooker.loss_w_k is None
        else cooker.loss_w_k
    )
    packing = (
        _packing_j_k(pot, material, thick) * cooling.packing_share(**layer)
        if cooker.packing_j_k is None
        else cooker.packing_j_k
    )
    return float(loss), float(packing)


def _packing_j_k(pot: Pot, material: Material, thickness_m: float) -> float:
    """Return the heat of the whole packing round a pot [J/K]."""
    return float(
        cooling.packing_heat_j_k(
            diameter_m=pot.diameter_m,
            height_m=pot.height_m,
            thickness_m=thickness_m,
            density_kg_m3=material.density_kg_m3,
            specific_heat_j_kgk=material.specific_heat_j_kgk,
        )
    )


def mouth_m2(diameter_m: float) -> float:
    """Return the open surface of a round vessel [m2]."""
    return math.pi * diameter_m**2 / 4


def jar_mouth_m2(volume_m3: float) -> float:
    """Return the open surface of a jar as wide as it is high, the widest there is [m2]."""
    return mouth_m2((4 * volume_m3 / math.pi) ** (1 / 3))


@lru_cache(maxsize=1024)
def jar_loss_w_k(cooker: Cooker) -> float:
    """Return the loss of a vacuum jar [W/K], from its rating filled with water."""
    if cooker.loss_w_k is not None:
        return cooker.loss_w_k
    rated = (
        cooker.volume_m3,
        cooker.rated_c,
        cooker.rated_h,
        cooker.rated_start_c,
        cooker.rated_room_c,
    )
    volume, left_c, hours, start_c, room_c = (float(x or 0.0) for x in rated)
    full_j_k = volume * water.density_kg_m3(start_c) * 4190.0 + cooker.liner_j_k
    return float(
        cooling.jar_loss_w_k(
            rated_c=left_c, hours=hours, start_c=start_c, room_c=room_c, contents_j_k=full_j_k
        )
    )
