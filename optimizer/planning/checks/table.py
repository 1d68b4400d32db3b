"""The dish at the table: done, hot, and told as it is."""

from collections.abc import Iterator

from optimizer.planning.checks.rest import Telling

NEAR_K = 0.2
NEAR_DONE = 0.02
UNDER_DONE = 0.05  # the planner's sums in steps of the clock err to less
NEAR_SURE = 0.05  # standard deviations: less than a point of a chance of 80 in 100 and more
TOO_SURE = 0.25  # the same to the safe side, where a stove may hardly boil it
COARSE_MIN = 0.5  # the planner looks at fewer stoves
NEAR_MIN = 0.51  # times are told in whole minutes
WHOLE = 1 - 1e-3
GRID_MIN = 5  # the planner's own sums may leave out one step at the floor


def heat_faults(telling: Telling) -> Iterator[str]:
    """Yield temperatures at the table that are not so, or too low."""
    step, case, last = telling.case.step, telling.case, telling.legs[-1]
    told = {
        "serve_c": (step.serve_c, last.usual_c),
        "serve_c_low": (step.serve_c_low, last.careful_c),
    }
    for what, (said, true) in told.items():
        if not abs(said - true) <= NEAR_K:
            yield f"{case.name}: {what} is {true:.2f} degC, not {said:.2f}"
    wanted = {"hot": case.scenario.rules.hot_c, "at": case.item.dish.serve_c}
    least = wanted.get(case.item.dish.serve)
    if least is not None and last.careful_c < least - NEAR_K:
        yield f"{case.name}: may be only {last.careful_c:.1f} degC at the table, not {least:.0f}"


def between_faults(telling: Telling) -> Iterator[str]:
    """Yield a dish that falls too low before it is boiled again, or does not boil again."""
    case, least = telling.case, telling.case.scenario.rules.hot_c
    for number, again in enumerate(case.step.reboil):
        level = telling.legs[number].careful_c
        if level < least - NEAR_K:
            yield f"{case.name}: may fall to {level:.1f} degC before it is boiled again"
        up = telling.again_min(number)
        if up > again.off - again.on:
            yield f"{case.name}: does not boil again, {up:.1f} min are needed"
        elif not up - NEAR_MIN <= again.boil - again.on <= up + 1 + NEAR_MIN:  # rounded up
            yield f"{case.name}: boils again {up:.1f} min after it goes on, not at {again.boil}"


def done_faults(telling: Telling) -> Iterator[str]:
    """Yield a dish that is not done, or not so far done as told."""
    case, told = telling.case, telling.case.step.done
    near, under = NEAR_DONE * max(1.0, told), UNDER_DONE * max(1.0, told)
    whole = case.careful_boil_min
    if whole:
        at_floor = 10 ** ((case.item.dish.floor_c - 100) / case.item.dish.z_k)
        near += COARSE_MIN / whole
        under += (COARSE_MIN + len(telling.legs) * GRID_MIN * at_floor) / whole
    least, most = telling.done(TOO_SURE) - under, telling.done(-NEAR_SURE) + near
    if not most >= WHOLE or not told >= WHOLE:
        yield f"{case.name}: is not done, {telling.done():.3f} of it, told as {told:.3f}"
    if not least <= told <= most:
        yield f"{case.name}: done is {telling.done():.3f}, not {told:.3f}"


def hold_faults(telling: Telling) -> Iterator[str]:
    """Yield times at the boil that are told wrongly."""
    case, step = telling.case, telling.case.step
    hold = max(0.0, telling.hold_min)
    if abs(step.hold_minutes - hold) > NEAR_MIN:
        yield f"{case.name}: hold is {hold:.1f} min, not {step.hold_minutes}"
    if abs(step.off - step.boil - hold) > NEAR_MIN:
        yield f"{case.name}: boils {hold:.1f} min before it leaves the fire, not at {step.boil}"
