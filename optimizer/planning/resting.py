"""A dish off the fire: how hot it stays and how far it cooks on, bare, packed or in a jar."""

import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from optimizer.model.things import Cooker, Pot
from optimizer.physics import cooling, doneness, heating
from optimizer.physics.ranges import Values
from optimizer.planning.boiling import Boil, careful_boil_min
from optimizer.planning.conditions import Conditions, Refused
from optimizer.planning.contents import Load, goes_into, round_up
from optimizer.planning.drawing import Draw, Vessel
from optimizer.planning.losses import (
    jar_loss_w_k,
    jar_mouth_m2,
    kitchen_loss_w_k,
    mouth_m2,
    packed_loss_w_k,
)

GRID_MIN = 5  # the clock's step
LONGEST_MIN = 14 * 60  # nothing is kept hot for longer
MINUTES: NDArray[np.int_] = np.arange(0, LONGEST_MIN + 1, GRID_MIN)
Curve = NDArray[np.float64]
SECONDS: Curve = MINUTES.astype(np.float64) * 60


@dataclass(frozen=True, slots=True)
class Rest:
    """Temperature and doneness by minutes after leaving the fire (arrays over MINUTES)."""

    usual_c: Curve
    careful_c: Curve
    done: Curve
    drawn_c: tuple[tuple[Curve, Curve], ...] = ()  # usual and careful at each draw


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
    mouth_m2: float = 0.0  # of the open vessel
    bare_w_k: float = 0.0  # loss through walls that are laid bare when it is opened
    shared_out: float = 1.0  # of its heat above the room, left for the last portion

    def curves(self, spreads: Values, *, early_min: Values = 0.0, colder_k: Values = 0.0) -> Curve:
        """Return the contents' temperature over MINUTES; columns of numbers give a row for each.

        It is so many spreads leakier than usual, rests so much longer and in a room so much colder.
        """
        contents, _ = cooling.two_body_c(
            time_s=np.maximum(SECONDS + 60 * (early_min - self.move_min), 0.0),
            contents_j_k=self.contents_j_k,
            packing_j_k=self.packing_j_k,
            loss_w_k=self.loss_w_k * (1 + spreads * self.loss_spread),
            start_c=self.start_c,
            packing_start_c=self.room_c - colder_k,
            room_c=self.room_c - colder_k,
        )
        return np.asarray(contents)


def rest(load: Load, body: Body, at: Conditions) -> Rest:
    """Return how a dish rests in a cooker, or bare; one that is drawn on is as at its last draw."""
    cooking, careful, usual = body.curves(
        np.array([[at.done_z], [at.hot_z], [0.0]]),
        early_min=np.array([[0.0], [body.early_min], [0.0]]),
        colder_k=np.array([[0.0], [at.rules.air_spread_k], [0.0]]),
    )
    credit = doneness.credit(
        time_s=SECONDS,
        temperature_c=cooking,
        boil_min=careful_boil_min(load, at),
        z_k=load.dish.z_k,
        floor_c=load.dish.floor_c,
    )
    if load.draws:
        return _drawn_on(load, body, at, credit)
    return Rest(
        usual_c=_last_portion_c(body, usual, body.room_c),
        careful_c=_last_portion_c(body, careful, body.room_c - at.rules.air_spread_k),
        done=credit,
    )


def _last_portion_c(body: Body, curve_c: Curve, room_c: float) -> Curve:
    """Return how hot the last portion is once the lid has been opened and all is shared out."""
    return room_c + body.shared_out * (curve_c - room_c)


def vessel(load: Load, body: Body, at: Conditions, spreads: float, colder_k: float) -> Vessel:
    """Return what is drawn on, so many spreads leakier than usual, in a room so much colder."""
    room = body.room_c - colder_k
    return Vessel(
        contents_j_k=body.contents_j_k,
        load_j_k=load.heat_j_k,
        packing_j_k=body.packing_j_k,
        loss_w_k=body.loss_w_k * (1 + spreads * body.loss_spread),
        start_c=body.start_c,
        packing_c=room,
        room_c=room,
        mouth_m2=body.mouth_m2,
        bare_w_k=body.bare_w_k,
        open_s=60 * at.rules.draw_open_min,
    )


def drawn_c(
    load: Load, body: Body, at: Conditions, draws: tuple[Draw, ...], minutes: Curve
) -> tuple[tuple[Curve, Curve], ...]:
    """Return the usual and the careful temperature at each draw, by minutes until the last."""
    first = minutes - draws[0].before_min - body.move_min
    usual = vessel(load, body, at, 0.0, 0.0)
    careful = vessel(load, body, at, at.hot_z, at.rules.air_spread_k)
    pairs = zip(
        usual.levels(60 * np.maximum(first, 0.0), draws),
        careful.levels(60 * np.maximum(first + body.early_min, 0.0), draws),
        strict=True,
    )
    return tuple((np.asarray(one), np.asarray(other)) for one, other in pairs)


def _drawn_on(load: Load, body: Body, at: Conditions, credit: Curve) -> Rest:
    """Return how a dish rests that is drawn on; it has to be done by the first draw."""
    found = drawn_c(load, body, at, load.draws, MINUTES.astype(np.float64))
    until_first = np.maximum(MINUTES - load.draws[0].before_min, 0)
    done = np.interp(until_first, MINUTES, credit)
    return Rest(*found[-1], done=done, drawn_c=found)


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
        jar_mouth_m2(cooker.volume_m3 or 0.0),
    )
