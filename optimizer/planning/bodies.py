"""What rests off the fire, bare, packed or in a jar: its heat, what it loses, how hot it begins."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from optimizer.model.things import Cooker, Pot
from optimizer.physics import cooling, heating
from optimizer.physics.ranges import Values
from optimizer.planning.boiling import Boil
from optimizer.planning.conditions import Conditions, Refused
from optimizer.planning.contents import Load, goes_into, round_up
from optimizer.planning.counting import ON_TIME, Sooner
from optimizer.planning.grid import GRID_MIN, SECONDS, Curve
from optimizer.planning.losses import (
    jar_loss_w_k,
    jar_mouth_m2,
    kitchen_loss_w_k,
    mouth_m2,
    packed_loss_w_k,
)


@dataclass(frozen=True, slots=True)
class Body:
    """The two bodies of a rest: contents (and pot), packing, and the loss between and out."""

    contents_j_k: float
    packing_j_k: float
    loss_w_k: float
    loss_spread: float
    start_c: float
    room_c: float
    move_min: float = 0.0  # on the way into the cooker; the rest counts from leaving the fire
    early_min: float = 0.0  # it may leave the fire so much before its minute
    sooner: Sooner = ON_TIME
    top_c: float = 100.0  # over the fire, where it is when it is late
    mouth_m2: float = 0.0  # of the open vessel
    bare_w_k: float = 0.0  # loss through walls that are laid bare when it is opened
    shared_out: float = 1.0  # of its heat above the room, left for the last portion

    def curve(self, spreads: float) -> Curve:
        """Return the contents' temperature over MINUTES, so many spreads leakier than usual."""
        return np.asarray(curves_of([self], spreads, 0.0, 0.0)[0, 0])


def curves_of(bodies: Sequence[Body], spreads: Values, early: Values, colder_k: Values) -> Curve:
    """Return the contents' temperature over MINUTES, first of all by body.

    It is so many spreads leakier than usual, rests by a share of its early minutes longer, and in a
    room so much colder; columns of numbers give a row for each.
    """

    def each(name: str) -> Curve:
        return np.array([getattr(body, name) for body in bodies])[:, None, None]

    room = each("room_c") - colder_k
    rested_min = each("early_min") * early - each("move_min")
    contents, _ = cooling.two_body_c(
        time_s=np.maximum(SECONDS + 60 * rested_min, 0.0),
        contents_j_k=each("contents_j_k"),
        packing_j_k=each("packing_j_k"),
        loss_w_k=each("loss_w_k") * (1 + spreads * each("loss_spread")),
        start_c=each("start_c"),
        packing_start_c=room,
        room_c=room,
    )
    return np.asarray(contents)


def core_c(load: Load, boil: Boil, at: Conditions) -> float:
    """Return the mixed temperature of a pot when its rest begins: cores still lack a little.

    Pressure is gone between two steps of the clock; until the next one the pot cools bare.
    """
    lack = (1 - at.rules.heated_through) * load.piece_share * load.heat_j_k / boil.heat_j_k
    late_min = round_up(boil.fall_min, GRID_MIN) - boil.fall_min
    return float(
        heating.cooled_c(
            heat_capacity_j_k=boil.heat_j_k,
            loss_w_k=boil.bare_w_k,
            start_c=boil.boil_c - lack * (boil.boil_c - boil.start_c),
            air_c=boil.air_c,
            time_s=max(0.0, late_min) * 60,
        )
    )


def bare(load: Load, pot: Pot, boil: Boil, at: Conditions) -> Body:
    """Return a dish that waits in its lidded pot in the kitchen."""
    loss = kitchen_loss_w_k(pot, boil.boil_c, at)
    return Body(
        boil.heat_j_k,
        0.0,
        loss,
        at.rules.bare_spread,
        core_c(load, boil, at),
        at.place.kitchen_c,
        early_min=boil.early_min,
        sooner=boil.sooner,
        top_c=boil.top_c,
        mouth_m2=mouth_m2(pot.diameter_m),
    )


def moved_c(load: Load, boil: Boil, at: Conditions, start_c: float) -> float:
    """Return the temperature left when a pot has been moved from the fire."""
    return float(
        heating.cooled_c(
            heat_capacity_j_k=boil.heat_j_k,
            loss_w_k=boil.bare_w_k,
            start_c=start_c,
            air_c=min(boil.air_c, at.place.kitchen_c),
            time_s=at.rules.move_min * 60,
        )
    )


def insulated(load: Load, pot: Pot, cooker: Cooker, boil: Boil, at: Conditions) -> Body | Refused:
    """Return a dish in an insulated cooker, or why it cannot go there."""
    start = moved_c(load, boil, at, core_c(load, boil, at))
    made = (_packed if cooker.kind == "packed" else _jar)(load, pot, cooker, boil, at, start)
    if isinstance(made, Refused) or not load.carried_min:
        return made
    return _carried(made, pot, boil, at)


def _carried(body: Body, pot: Pot, boil: Boil, at: Conditions) -> Body:
    """Return a dish that is carried to where it is eaten, on the safe side all the way.

    It stands as cold as it is outdoors or in the kitchen from the first minute on, its cooker is
    jolted, and it is ladled out with the lid off: half of it is still in the pot on average.
    """
    rules = at.rules
    open_w_k = rules.open_loss * kitchen_loss_w_k(pot, boil.boil_c, at)
    cools = open_w_k * 60 * rules.share_out_min / (body.contents_j_k / 2)
    return replace(
        body,
        room_c=min(body.room_c, at.weather.outdoors_c),
        loss_spread=math.hypot(body.loss_spread, rules.carry_spread),
        shared_out=math.exp(-cools),
    )


def _packed(
    load: Load, pot: Pot, cooker: Cooker, boil: Boil, at: Conditions, start_c: float
) -> Body | Refused:
    del load
    if not goes_into(pot, cooker):
        return Refused("cooker_too_small", f"the {pot.label} does not go into it")
    loss, packing = packed_loss_w_k(cooker, pot, boil.boil_c, at)
    return Body(
        boil.heat_j_k,
        packing,
        loss,
        cooker.loss_spread,
        start_c,
        at.place.kitchen_c,
        at.rules.move_min,
        boil.early_min,
        boil.sooner,
        boil.top_c,
        mouth_m2(pot.diameter_m),
        kitchen_loss_w_k(pot, boil.boil_c, at),
    )


def _jar(
    load: Load, pot: Pot, cooker: Cooker, boil: Boil, at: Conditions, start_c: float
) -> Body | Refused:
    del pot
    if load.volume_m3 > (cooker.volume_m3 or 0.0):
        return Refused("cooker_too_small", f"{load.volume_m3 * 1000:.1f} L does not go into it")
    start = (
        start_c
        if cooker.preheated
        else float(
            cooling.mixed_c(
                hot_j_k=load.heat_j_k,
                hot_c=start_c,
                cold_j_k=cooker.liner_j_k,
                cold_c=at.place.kitchen_c,
            )
        )
    )
    heat = load.heat_j_k + cooker.liner_j_k
    return Body(
        heat,
        0.0,
        jar_loss_w_k(cooker),
        cooker.loss_spread,
        start,
        at.place.kitchen_c,
        at.rules.move_min,
        boil.early_min,
        boil.sooner,
        boil.top_c,
        jar_mouth_m2(cooker.volume_m3 or 0.0),
    )
