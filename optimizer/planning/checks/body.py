"""What falls during a rest, made anew from the pot, its packing or its jar."""

import math
from dataclasses import dataclass

from optimizer.physics import cooling, heating, water
from optimizer.planning.checks.dish import WATER_J_KGK, Case
from optimizer.planning.checks.heat import Curve, falling


@dataclass(frozen=True)
class Body:
    """What falls during a rest."""

    contents_j_k: float
    packing_j_k: float
    loss_w_k: float
    spread: float
    start_c: float
    room_c: float
    move_min: float = 0.0  # on the way into the cooker

    def curve(self, minutes: float, spreads: float, colder_k: float = 0.0) -> Curve:
        """Return its temperature, so many spreads leakier than usual, the room so much colder."""
        return falling(
            contents_j_k=self.contents_j_k,
            packing_j_k=self.packing_j_k,
            loss_w_k=self.loss_w_k * (1 + spreads * self.spread),
            start_c=self.start_c,
            room_c=self.room_c - colder_k,
            minutes=max(0.0, minutes - self.move_min),
        )


def kitchen_loss_w_k(case: Case) -> float:
    """Return what the pot loses by itself in the kitchen."""
    pot = case.own_pot.pot
    return heating.pot_loss_w_k(
        diameter_m=pot.diameter_m,
        height_m=pot.height_m,
        surface_c=case.opened_c,
        air_c=case.scenario.place.kitchen_c,
        wind_m_s=0.0,
        emissivity=pot.emissivity,
    )


def packed(case: Case, start_c: float) -> Body:
    """Return a pot in its packing."""
    pot = case.own_pot.pot
    assert case.cooker is not None
    cooker, rules = case.cooker.cooker, case.scenario.rules
    loss, packing = cooker.loss_w_k, cooker.packing_j_k
    material, thick = cooker.material, cooker.thickness_m
    if material is not None and thick is not None:
        size = {"diameter_m": pot.diameter_m, "height_m": pot.height_m, "thickness_m": thick}
        area = math.pi * pot.diameter_m * (pot.height_m + pot.diameter_m / 2)
        damp = material.damp_factor if cooker.damp else 1.0
        conductivity = material.conductivity_w_mk * damp
        film = 1 / (1 / rules.room_film_w_m2k + cooker.blankets * rules.blanket_m2k_w)
        computed = cooling.packed_loss_w_k(
            **size,
            conductivity_w_mk=conductivity,
            gap=cooker.gap,
            room_film_w_m2k=film,
            bare_w_m2k=kitchen_loss_w_k(case) / area,
        )
        heat = cooling.packing_heat_j_k(
            **size,
            density_kg_m3=material.density_kg_m3,
            specific_heat_j_kgk=material.specific_heat_j_kgk,
        ) * cooling.packing_share(**size, conductivity_w_mk=conductivity, room_film_w_m2k=film)
        loss = float(computed) if loss is None else loss
        packing = float(heat) if packing is None else packing
    room = case.scenario.place.kitchen_c
    spread = cooker.loss_spread
    move_min = case.scenario.rules.move_min
    return Body(case.heat_j_k, packing or 0.0, loss or math.inf, spread, start_c, room, move_min)


def in_jar(case: Case, start_c: float) -> Body:
    """Return a dish in its vacuum jar, by the rating of the jar."""
    room = case.scenario.place.kitchen_c
    assert case.cooker is not None
    jar = case.cooker.cooker
    loss = jar.loss_w_k
    if loss is None:
        rated_c, hours = jar.rated_c or 0.0, jar.rated_h or 0.0
        full_c, cold_c = jar.rated_start_c or 0.0, jar.rated_room_c or 0.0
        full = (jar.volume_m3 or 0.0) * water.density_kg_m3(full_c) * WATER_J_KGK
        ratio = (full_c - cold_c) / (rated_c - cold_c)
        loss = (full + jar.liner_j_k) * math.log(ratio) / (3600 * hours)
    both = case.contents_j_k + jar.liner_j_k
    if not jar.preheated:
        start_c = (case.contents_j_k * start_c + jar.liner_j_k * room) / both
    move_min = case.scenario.rules.move_min
    return Body(both, 0.0, loss, jar.loss_spread, start_c, room, move_min)
