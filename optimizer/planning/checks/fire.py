"""The fires of a plan: every pot over one lit in time, none in vain, and what they burn besides.

Which pot stands over which of two fires of one stove is not told, so lighting and idle fuel are
counted for a stove's fires together.
"""

from collections.abc import Iterator, Sequence

from optimizer.model.household import DAY_MIN, Scenario
from optimizer.model.plan import Fire, Plan
from optimizer.model.things import Stove
from optimizer.planning.checks.clock import told_min, window_of
from optimizer.planning.checks.dish import Case

NEAR_MIN = 0.02
EVEN = 1e-6

Span = tuple[int, int]


def fire_faults(plan: Plan, cases: Sequence[Case]) -> Iterator[str]:
    """Yield pots without a fire, fires without a pot, and fires told wrongly."""
    cases = [case for case in cases if not case.sunny]
    stoves = {case.own.stove.name: (case.own.stove, case.own.count) for case in cases}
    for fire in plan.fires:
        if fire.stove not in stoves:
            yield f"{_named(fire)}: no step needs it"
    for name, (stove, count) in stoves.items():
        fires = [fire for fire in plan.fires if fire.stove == name]
        mine = [case for case in cases if case.step.stove == name]
        spans = [span for case in mine for span in case.burns]
        yield from _pot_faults(stove, fires, mine)
        yield from _edge_faults(stove, fires, spans)
        yield from _crowd_faults(count, fires)
        if stove.tended and stove.start_j:  # others are told as the minutes in which any burns
            yield from _room_faults(stove, fires, spans)
            yield from _hours_faults(fires, cases[0].scenario)
        yield from _fuel_faults(stove, fires, spans)


def _named(fire: Fire) -> str:
    return f"fire in {fire.stove} at {told_min(fire.start)}"


def _pot_faults(stove: Stove, fires: Sequence[Fire], cases: Sequence[Case]) -> Iterator[str]:
    for case in cases:
        for on, off in case.burns:
            if not any(f.start + stove.start_min <= on and off <= f.end for f in fires):
                yield f"{case.name}: no fire is lit for it from {told_min(on)} to {told_min(off)}"


def _edge_faults(stove: Stove, fires: Sequence[Fire], spans: Sequence[Span]) -> Iterator[str]:
    """Yield fires that are not lit just before their first pot or put out with their last."""
    for fire in fires:
        if fire.day != (fire.start + stove.start_min) // DAY_MIN + 1:
            yield f"{_named(fire)}: is not of day {fire.day}"
        if fire.start + stove.start_min not in {on for on, _ in spans}:
            yield f"{_named(fire)}: no pot goes on when it is ready, no step needs it so early"
        if fire.end not in {off for _, off in spans}:
            yield f"{_named(fire)}: no pot leaves it at {told_min(fire.end)}"


def _crowd_faults(count: int, fires: Sequence[Fire]) -> Iterator[str]:
    for fire in fires:
        together = sum(other.start <= fire.start < other.end for other in fires)
        if together > count:
            yield f"{_named(fire)}: {together} fires at once, there are {count} of it"


def _room_faults(stove: Stove, fires: Sequence[Fire], spans: Sequence[Span]) -> Iterator[str]:
    """Yield the first moment at which more pots are on than there is room over lit fires."""
    for minute in sorted({on for on, _ in spans}):
        pots = sum(on <= minute < off for on, off in spans)
        ready = sum(fire.start + stove.start_min <= minute < fire.end for fire in fires)
        if pots > ready * stove.places:
            yield f"{stove.name} at {told_min(minute)}: {pots} pots over {ready} fires"
            return


def _hours_faults(fires: Sequence[Fire], scenario: Scenario) -> Iterator[str]:
    for fire in fires:
        if window_of(scenario, fire.start, fire.end) is None:
            yield f"{_named(fire)}: burns outside of the cook hours"


def _fuel_faults(stove: Stove, fires: Sequence[Fire], spans: Sequence[Span]) -> Iterator[str]:
    """Yield fuel for lighting and idling told wrongly; a fire for one pot is in its step."""
    fed = stove.tended and stove.start_j > 0
    start_mj = len(fires) * stove.start_j / 1e6 if fed else 0.0
    idle_mj = idle_min(stove, fires, spans) * stove.low_power_w * 60e-6 if fed else 0.0
    for what, right, told in (
        ("lighting", start_mj, sum(fire.start_mj for fire in fires)),
        ("burning idle", idle_mj, sum(fire.idle_mj for fire in fires)),
    ):
        if abs(told - right) > EVEN * max(1.0, right):
            yield f"fires in {stove.name}: {what} takes {right:.3f} MJ, not {told:.3f}"


def idle_min(stove: Stove, fires: Sequence[Fire], spans: Sequence[Span]) -> float:
    """Return minutes of a stove's fires without a pot; an empty place counts in proportion."""
    burning = sum(fire.end - fire.start - stove.start_min for fire in fires)
    return max(0.0, burning - sum(off - on for on, off in spans) / stove.places)


def minutes_faults(plan: Plan, cases: Sequence[Case]) -> Iterator[str]:
    """Yield minutes of fire and of tending that are told wrongly."""
    minutes = sum(fire.end - fire.start for fire in plan.fires)
    if abs(plan.fire_minutes - minutes) > NEAR_MIN:
        yield f"minutes of fire are {minutes}, not {plan.fire_minutes:.1f}"
    tending = sum(_handled_min(case) for case in cases)
    for stove in {case.own.stove.name: case.own.stove for case in cases}.values():
        if stove.tended and stove.start_j:
            fires = [fire for fire in plan.fires if fire.stove == stove.name]
            spans = [s for case in cases if case.step.stove == stove.name for s in case.burns]
            tending += len(fires) * stove.start_min + idle_min(stove, fires, spans)
    if abs(plan.tending_minutes - tending) > NEAR_MIN:
        yield f"minutes of tending are {tending:.1f}, not {plan.tending_minutes:.1f}"


def _handled_min(case: Case) -> float:
    """Return a cook's minutes for one dish."""
    if case.own.stove.tended:
        return sum(off - on for on, off in case.burns)
    return len(case.burns) * case.scenario.rules.handling_min
