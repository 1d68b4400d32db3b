"""How warm a dish of a plan stays: the planner's own curves, read again for one step."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from optimizer.errors import CheckError
from optimizer.model.household import DAY_MIN, Scenario
from optimizer.model.plan import Drawn, Step
from optimizer.planning.contents import load
from optimizer.planning.drawing import Draw
from optimizer.planning.grid import GRID_MIN
from optimizer.planning.kitchen import pots_for
from optimizer.planning.resting import drawn_c
from optimizer.planning.stock import store_of
from optimizer.planning.ways import Way, conditions, make_way


@dataclass(frozen=True, slots=True)
class Reading:
    """How warm a pot is at one minute of the clock."""

    minute: int
    usual_c: float
    careful_c: float
    rest: int  # 0 off the stove, 1 after it was boiled again or drawn on, ...


@dataclass(frozen=True, slots=True)
class Warmth:
    """A dish from the stove to the table."""

    step: int  # position among the plan's steps
    item: str
    day: int
    need_c: float | None  # least that is wanted at the table; None: anything will do
    readings: tuple[Reading, ...]
    serve: int
    serve_c: float
    serve_c_low: float


def way_of(scenario: Scenario, step: Step) -> Way:
    """Find the way that a step of a plan was priced by.

    Parameters
    ----------
    scenario
        The household the plan was made for.
    step
        A step of its plan.

    Returns
    -------
    Way
        With its curves.

    Raises
    ------
    CheckError
        If there is no such way: the plan is of another household.
    """
    item = next((each for each in scenario.items if each.number == step.number), None)
    own = next((each for each in scenario.stoves if each.stove.name == step.stove), None)
    pot = next((each.pot for each in scenario.pots if each.pot.name == step.pot), None)
    cookers = (each for each in scenario.cookers if each.cooker.name == step.cooker)
    store = store_of(scenario, step.fuel)
    if item is None or own is None or pot is None or store is None:
        raise CheckError(f"{step.item}: this household has no such dish, stove, pot or fuel")
    at = conditions(scenario, step.on // DAY_MIN + 1)
    full = load(item, scenario.place, pots_for(scenario, item))
    way = make_way(full, own, store, pot, next(cookers, None), at)
    if not isinstance(way, Way):
        raise CheckError(f"{step.item}: {way.reason}")
    return way


def warmth(scenario: Scenario, step: Step, number: int = 0) -> Warmth:
    """Return how warm a dish is from leaving the stove until it is served.

    Parameters
    ----------
    scenario
        The household.
    step
        A step of its plan.
    number
        Its position among the plan's steps.

    Returns
    -------
    Warmth
        Every five minutes; the last reading is the one at the table.

    Raises
    ------
    CheckError
        If the plan is of another household.
    """
    way = way_of(scenario, step)
    return Warmth(
        step=number,
        item=step.item,
        day=step.day,
        need_c=None if step.serve_rule == "any" else way.need_c,
        readings=tuple(_readings(way, step)),
        serve=step.serve,
        serve_c=step.serve_c,
        serve_c_low=step.serve_c_low,
    )


def _readings(way: Way, step: Step) -> Iterator[Reading]:
    since = step.off + way.fall_min
    if step.drawn:
        yield from _drawn_on(way, since, step)
        return
    for rest, again in enumerate(step.reboil):
        yield from _rest(way, since, again.on, rest)
        since = again.off
    yield from _rest(way, since, step.serve, len(step.reboil))


def _drawn_on(way: Way, since: int, step: Step) -> Iterator[Reading]:
    """Yield how warm it is, and twice at each draw: before it, and when it is shut again."""
    for minute in sorted({*range(since, step.serve + 1, GRID_MIN), *(d.at for d in step.drawn)}):
        before = [d for d in step.drawn if d.at < minute]
        yield _at(way, since, minute, before, step)
        if minute != step.serve and any(d.at == minute for d in step.drawn):
            taken = [d for d in step.drawn if d.at <= minute]
            yield _at(way, since, minute, taken, step)


def _at(way: Way, since: int, minute: int, before: Sequence[Drawn], step: Step) -> Reading:
    """Return how warm it is at a minute after some draws."""
    shares = {d.at: draw.share for d, draw in zip(step.drawn, way.load.draws, strict=True)}
    draws = (*(Draw(minute - d.at, shares[d.at], None) for d in before), Draw(0, 0.0, None))
    wait = np.array([float(minute - since)])
    usual, careful = drawn_c(way.load, way.body, way.at, draws, wait)[-1]
    return Reading(minute, float(usual[0]), float(careful[0]), len(before))


def _rest(way: Way, since: int, until: int, rest: int) -> Iterator[Reading]:
    for number in range((until - since) // GRID_MIN + 1):
        usual, careful = way.rest.usual_c[number], way.rest.careful_c[number]
        yield Reading(since + GRID_MIN * number, float(usual), float(careful), rest)
