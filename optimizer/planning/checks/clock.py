"""The clock of a plan: every dish once, in order, inside the cook hours."""

from collections import defaultdict
from collections.abc import Iterator
from itertools import pairwise

from optimizer.model.household import DAY_MIN, Scenario, Window
from optimizer.model.plan import Plan, Step
from optimizer.planning.checks.dish import Case

LONGEST_MIN = 14 * 60  # nothing is kept for longer


def menu_faults(plan: Plan, scenario: Scenario) -> Iterator[str]:
    """Yield dishes of the menu that are not cooked, or whose pots are not numbered 1, 2, 3 ..."""
    cooked: dict[int, list[int]] = defaultdict(list)
    for step in plan.steps:
        cooked[step.number].append(step.batch)
    for item in scenario.items:
        pots = sorted(cooked[item.number])
        if not pots or pots != list(range(1, len(pots) + 1)):
            name = f"{item.dish.label}, {item.meal} of day {item.day}"
            told = f"in pots {', '.join(map(str, pots))}" if pots else "in no pot"
            yield f"{name}: is cooked {told}"


def label_faults(case: Case) -> Iterator[str]:
    """Yield what a step says of its dish and things that is not so."""
    step, item = case.step, case.item
    told = {
        "day": (step.day, item.day),
        "meal": (step.meal, item.meal),
        "item": (step.item, item.dish.label),
        "dish": (step.dish, item.dish.name),
        "portions": (step.portions, (item.adults + item.children) / case.pots),
        "serve rule": (step.serve_rule, item.dish.serve),
        "serve time": (step.serve, item.serve_min),
        "fuel": (step.fuel, case.own.stove.fuel),
        "pressure": (step.pressure, case.own_pot.pot.gauge_pa > 0),
        "finish": (step.finish, _finish(case)),
    }
    for what, (said, true) in told.items():
        if said != true:
            yield f"{case.name}: {what} is {said}, must be {true}"


def _finish(case: Case) -> str:
    if case.step.reboil:
        return "boiled_again"
    return "flame" if case.cooker is None else case.cooker.cooker.kind


def order_faults(case: Case) -> Iterator[str]:
    """Yield moments of a step that are out of order."""
    step, moments = case.step, list(_moments(case.step))
    for (before, a), (after, b) in pairwise(moments):
        if a > b:
            yield f"{case.name}: {before} at {told_min(a)} is later than {after} at {told_min(b)}"
    if moments[0][1] < 0:
        yield f"{case.name}: {moments[0][0]} is before day 1"
    begins = case.scenario.begins
    for what, minute in moments:
        soaking = what == "soak" and minute == case.item.soaked_from
        if 0 <= minute < begins and not soaking:
            yield f"{case.name}: {what} at {told_min(minute)} is before the plan begins"
    if (step.move is None) != (case.cooker is None):
        yield f"{case.name}: the time of the move does not go with the cooker {step.cooker}"
    if step.reboil and step.cooker is None:
        yield f"{case.name}: is boiled again without a cooker between"


def _moments(step: Step) -> Iterator[tuple[str, int]]:
    if step.soak_from is not None:
        yield "soak", step.soak_from
    yield from (("light", step.light), ("on", step.on), ("boil", step.boil), ("off", step.off))
    if step.move is not None:
        yield "move", step.move
    for again in step.reboil:
        yield "boil again: on", again.on
        yield "boils again", again.boil
        yield "boil again: off", again.off
    yield "serve", step.serve


def wait_faults(case: Case) -> Iterator[str]:
    """Yield a dish that waits longer than it may."""
    step, rules = case.step, case.scenario.rules
    bare = case.cooker is None and case.item.dish.serve != "any" and not case.item.drawn
    most = rules.rest_min if bare else LONGEST_MIN
    if step.serve - case.rest_from > most:
        yield f"{case.name}: waits {step.serve - case.rest_from} min, {most:.0f} is the most"


def told_min(minute: int) -> str:
    """Return a clock minute as day and hours."""
    day, rest = divmod(minute, DAY_MIN)
    return f"{rest // 60:02}:{rest % 60:02} of day {day + 1}"


def hours_faults(case: Case) -> Iterator[str]:
    """Yield times over the fire outside of the cook hours, lighting included."""
    start_min = case.own.stove.start_min
    if case.sunny:
        yield from _sun_faults(case)
        return
    for on, off in case.burns:
        if window_of(case.scenario, on - start_min, off) is None:
            yield (
                f"{case.name}: on {case.step.stove} from {told_min(on)} to {told_min(off)}, "
                f"lit {start_min} min before, is outside the cook hours"
            )
    if case.step.light > case.step.on - start_min:
        yield f"{case.name}: the fire is lit too late, at {told_min(case.step.light)}"
    if window_of(case.scenario, case.step.light, case.step.off) is None:
        yield f"{case.name}: the fire is lit at {told_min(case.step.light)}, not in its cook hours"


def _sun_faults(case: Case) -> Iterator[str]:
    """Yield times in a solar cooker without sun, or with nobody there to put on and take off."""
    step, rules = case.step, case.scenario.rules
    dawn = (step.on // DAY_MIN) * DAY_MIN
    if step.on < dawn + rules.sun_from_min or step.off > dawn + rules.sun_to_min:
        yield f"{case.name}: is in the sun outside of its hours"
    if window_of(case.scenario, step.on, step.on) is None:
        yield f"{case.name}: nobody is there to put it in the sun"
    if window_of(case.scenario, step.off, step.off) is None and (
        step.serve - step.off > rules.rest_min
    ):
        yield f"{case.name}: nobody is there to take it out of the sun"


def window_of(scenario: Scenario, start: int, end: int) -> Window | None:
    """Return the cook hours that hold a time over the fire, or None."""
    return next((w for w in scenario.windows if w.start_min <= start and end <= w.end_min), None)
