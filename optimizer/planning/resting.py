"""A dish off the fire: how hot it stays and how far it cooks on, bare, packed or in a jar."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from optimizer.physics import doneness
from optimizer.planning.bodies import Body, curves_of
from optimizer.planning.boiling import careful_boil_min, rate_at
from optimizer.planning.conditions import Conditions
from optimizer.planning.contents import Load
from optimizer.planning.counting import LEAST_LEAK, counted
from optimizer.planning.drawing import Draw, Vessel
from optimizer.planning.grid import GRID_MIN, MINUTES, SECONDS, Curve


@dataclass(frozen=True, slots=True)
class Rest:
    """Temperature and doneness by minutes after leaving the fire (arrays over MINUTES)."""

    usual_c: Curve
    careful_c: Curve
    done: Curve  # what it is counted on to cook, in shares of the careful boil minutes
    least: Curve  # the same where stove and box both are as bad as the household reckons with
    drawn_c: tuple[tuple[Curve, Curve], ...] = ()  # usual and careful at each draw


def rest(load: Load, body: Body, at: Conditions) -> Rest:
    """Return how a dish rests in a cooker, or bare; one that is drawn on is as at its last draw."""
    return rests(load, [body], at)[0]


def rests(load: Load, bodies: Sequence[Body], at: Conditions) -> list[Rest]:
    """Return how a dish rests in each of several bodies."""
    if not bodies:
        return []
    spreads = np.array([at.hot_z, 0.0, _leak(at)])[:, None]
    careful = np.array([1.0, 0.0, 0.0])[:, None]  # by how much it is early, and the room cold
    curves = curves_of(bodies, spreads, careful, at.rules.air_spread_k * careful)
    cooked = _cooked(load, bodies, at, curves[:, 1:])
    found = [
        Rest(
            usual_c=_last_portion_c(body, levels[1], body.room_c),
            careful_c=_last_portion_c(body, levels[0], body.room_c - at.rules.air_spread_k),
            done=done,
            least=least,
        )
        for body, levels, done, least in zip(bodies, curves, *cooked, strict=True)
    ]
    if not load.draws:
        return found
    return [_drawn_on(load, *each, at) for each in zip(bodies, found, strict=True)]


def _leak(at: Conditions) -> float:
    """Return by how many standard deviations a box is looked at as leaky."""
    return max(LEAST_LEAK, at.done_z)


def _cooked(
    load: Load, bodies: Sequence[Body], at: Conditions, levels_c: Curve
) -> tuple[Curve, Curve]:
    """Return what rests cook, out of their temperatures (n, box, step): counted on, and least."""
    dish = load.dish
    minutes = doneness.credit(
        time_s=SECONDS, temperature_c=levels_c, boil_min=1.0, z_k=dish.z_k, floor_c=dish.floor_c
    )
    done = counted(
        np.moveaxis(minutes, 1, 0),
        _leak(at),
        GRID_MIN,
        [body.sooner for body in bodies],
        np.array([rate_at(body.top_c, dish.z_k, dish.floor_c) for body in bodies]),
        dish.boil_min,
        dish.boil_spread,
        at.confidence,
    )
    return done, minutes[:, 1] / careful_boil_min(load, at)


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


def _drawn_on(load: Load, body: Body, whole: Rest, at: Conditions) -> Rest:
    """Return how a dish rests that is drawn on; it has to be done by the first draw."""
    found = drawn_c(load, body, at, load.draws, MINUTES.astype(np.float64))
    until_first = np.maximum(MINUTES - load.draws[0].before_min, 0)
    done = np.interp(until_first, MINUTES, whole.done)
    usual, careful = found[-1]
    return replace(whole, usual_c=usual, careful_c=careful, done=done, drawn_c=found)
