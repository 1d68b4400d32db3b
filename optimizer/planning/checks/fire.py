"""The fires of a plan: those the steps need, lit in time, and what they burn besides the dishes."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from optimizer.model.household import DAY_MIN
from optimizer.model.plan import Fire, Plan
from optimizer.model.things import Stove
from optimizer.planning.checks.clock import told_min, window_of
from optimizer.planning.checks.dish import Case

NEAR_SHARE = 0.02
NEAR_MJ = 1e-6


@dataclass(frozen=True, slots=True)
class Needed:
    """A fire that the steps need; its idle fuel lies between two counts."""

    fire: Fire
    most_idle_mj: float
    fires: int
    fed: bool


def needed_fires(cases: Sequence[Case]) -> list[Needed]:
    """Return the fires that the steps need: a fed one once in a window, others for each pot."""
    fed: dict[tuple[str, int], list[tuple[int, int]]] = {}
    stoves = {case.own.stove.name: case.own.stove for case in cases}
    needed = []
    for case in cases:
        for on, off in case.burns:
            window = window_of(case.scenario, on, off)
            if window is not None and case.own.stove.tended and case.own.stove.start_j:
                fed.setdefault((case.step.stove, window.start_min), []).append((on, off))
                continue
            start = on - case.own.stove.start_min
            alone = Fire(case.step.stove, on // DAY_MIN + 1, start, off, 0.0, 0.0)
            needed.append(Needed(alone, 0.0, 1, fed=False))
    needed += [_fed(stoves[name], spans) for (name, _), spans in fed.items()]
    return needed


def _fed(stove: Stove, spans: Sequence[tuple[int, int]]) -> Needed:
    """Return a fire kept up from its first pot to its last."""
    first, last = min(a for a, _ in spans), max(b for _, b in spans)
    level = [sum(a <= minute < b for a, b in spans) for minute in range(first, last)]
    pots = max(level, default=1)
    fires, minute_mj = math.ceil(pots / stove.places), stove.low_power_w * 60e-6
    span = fires * (last - first)
    least = span - sum(math.ceil(pots / stove.places) for pots in level)
    most = span - sum(level) / min(pots, stove.places)  # pots spread evenly over the fires
    fire = Fire(
        stove=stove.name,
        day=first // DAY_MIN + 1,
        start=first - stove.start_min,
        end=last,
        start_mj=fires * stove.start_j / 1e6,
        idle_mj=least * minute_mj,
    )
    return Needed(fire, most * minute_mj, fires, fed=True)


def fire_faults(plan: Plan, needed: Sequence[Needed]) -> Iterator[str]:
    """Yield fires that the steps need and the plan has not, told wrongly, or has in vain."""
    left = list(plan.fires)
    for need in needed:
        fire = need.fire
        name = f"fire in {fire.stove} at {told_min(fire.start)}"
        key = (fire.stove, fire.start, fire.end, fire.day)
        found = next((f for f in left if (f.stove, f.start, f.end, f.day) == key), None)
        if found is None:
            yield f"{name} until {told_min(fire.end)}: is needed and not in the plan"
            continue
        left.remove(found)
        if abs(found.start_mj - fire.start_mj) > NEAR_SHARE * fire.start_mj + NEAR_MJ:
            yield f"{name}: lighting takes {fire.start_mj:.3f} MJ, not {found.start_mj:.3f}"
        least, most = fire.idle_mj * (1 - NEAR_SHARE), need.most_idle_mj * (1 + NEAR_SHARE)
        if not least - NEAR_MJ <= found.idle_mj <= most + NEAR_MJ:
            yield f"{name}: idle it burns {fire.idle_mj:.3f} MJ, not {found.idle_mj:.3f}"
    for fire in left:
        yield f"fire in {fire.stove} at {told_min(fire.start)}: no step needs it"


def minutes_faults(plan: Plan, needed: Sequence[Needed], cases: Sequence[Case]) -> Iterator[str]:
    """Yield minutes of fire and of tending that are told wrongly."""
    fire = sum(f.end - f.start for f in plan.fires)
    if abs(plan.fire_minutes - fire) > NEAR_SHARE:
        yield f"minutes of fire are {fire}, not {plan.fire_minutes:.1f}"
    stoves = {case.own.stove.name: case.own.stove for case in cases}
    least = float(sum(_handled_min(case) for case in cases))
    most = least
    for need in (need for need in needed if need.fed):
        stove = stoves[need.fire.stove]
        minute_mj = stove.low_power_w * 60e-6 or math.inf
        least += need.fires * stove.start_min + need.fire.idle_mj / minute_mj
        most += need.fires * stove.start_min + need.most_idle_mj / minute_mj
    if not least - NEAR_SHARE <= plan.tending_minutes <= most + NEAR_SHARE:
        yield f"minutes of tending are {least:.1f}, not {plan.tending_minutes:.1f}"


def _handled_min(case: Case) -> float:
    """Return a cook's minutes for one dish."""
    if case.own.stove.tended:
        return sum(off - on for on, off in case.burns)
    return len(case.burns) * case.scenario.rules.handling_min
