"""The course of an outage: what was on which fire, when; as planned and as written down.

A plan says what burns when; entries of the log say what went otherwise. From both comes what a fuel
should have lost between two moments.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from optimizer.model.household import DAY_MIN, Item, Scenario
from optimizer.model.now import DayOfSticks
from optimizer.model.plan import Fire, Plan, Reboil, Step
from optimizer.planning.conditions import burn_ratio
from optimizer.planning.ways import conditions
from optimizer.scenario.log_entries import Followed, FollowedStep

MJ = 1e6


@dataclass(frozen=True, slots=True)
class Course:
    """Steps and fires of the plan that is followed; steps are numbered as the scenario's items."""

    steps: tuple[Step, ...] = ()
    fires: tuple[Fire, ...] = ()
    entry: int = 0  # number of the entry that says so; what was written before it is in it


@dataclass(frozen=True, slots=True)
class Burnt:
    """Fuel that one pot or one fire takes, evenly over its spans."""

    stove: str
    fuel: str
    joules: float
    spans: tuple[tuple[int, int], ...]

    def between(self, start: int, end: int) -> float:
        """Return what is burned between two moments [J]."""
        whole = sum(b - a for a, b in self.spans)
        part = sum(max(0, min(b, end) - max(a, start)) for a, b in self.spans)
        if whole:
            return self.joules * part / whole
        return self.joules if self.spans and start <= self.spans[0][0] < end else 0.0


def burnt_of(course: Course, scenario: Scenario, sticks: Iterable[DayOfSticks] = ()) -> list[Burnt]:
    """Return everything a course burns.

    Parameters
    ----------
    course
        Steps and fires.
    scenario
        The household.
    sticks
        Days on which sticks were found wet or dry; wet ones burn more for the same dish.
    """
    fuels = {own.stove.name: own.stove.fuel for own in scenario.stoves}
    found = []
    for step in course.steps:
        spans = ((step.on, step.off), *((again.on, again.off) for again in step.reboil))
        found.append(Burnt(step.stove, step.fuel, step.fuel_mj * MJ, spans))
    for fire in course.fires:
        joules = (fire.start_mj + fire.idle_mj) * MJ
        fuel = fuels.get(fire.stove, "")
        found.append(Burnt(fire.stove, fuel, joules, ((fire.start, fire.end),)))
    more = _more_when_wet(scenario, sticks)

    def factor(each: Burnt) -> float:
        since, ratio = more.get((each.fuel, _day(each)), (0, 1.0))
        return ratio if each.spans[0][0] >= since else 1.0

    return [replace(each, joules=each.joules * factor(each)) for each in found]


def _day(burnt: Burnt) -> int:
    return burnt.spans[0][0] // DAY_MIN + 1


def _more_when_wet(
    scenario: Scenario, sticks: Iterable[DayOfSticks]
) -> dict[tuple[str, int], tuple[int, float]]:
    """Return by fuel and day since when how much more burns than by the scenario's weather."""
    more = {}
    for found in sticks:
        if not 1 <= found.day <= scenario.days:
            continue
        said = conditions(scenario, found.day)
        true = replace(said, weather=replace(said.weather, wet_sticks=found.wet))
        for store in scenario.stores:
            if store.fuel.kind == "wood":
                ratio = burn_ratio(store.fuel, said) / burn_ratio(store.fuel, true)
                more[store.fuel.name, found.day] = (found.since, ratio)
    return more


# a plan that is followed, into the log and out of it


def followed(plan: Plan, before: Course, scenario: Scenario, begins: int) -> dict[str, object]:
    """Return what the log says of a plan that is followed from now on.

    Parameters
    ----------
    plan
        The plan, with its steps numbered as the items of the whole outage.
    before
        What was followed until now, as it went.
    scenario
        The whole outage; its stoves' numbers are those the plan was made with.
    begins
        The plan is followed from this minute on.
    """
    past = [step for step in before.steps if step.on < begins]
    old = [_cut(fire, begins) for fire in before.fires if fire.start < begins]
    steps = [*past, *plan.steps]
    return {
        "efficiency": {own.stove.name: own.stove.efficiency for own in scenario.stoves},
        "steps": [_said(step) for step in steps],
        "fires": [
            {
                "stove": fire.stove,
                "start": fire.start,
                "end": fire.end,
                "mj": round(fire.start_mj + fire.idle_mj, 6),
            }
            for fire in (*old, *plan.fires)
        ],
    }


def _cut(fire: Fire, end: int) -> Fire:
    """Return a fire that is not followed after a moment, with the fuel it has burned by then."""
    if fire.end <= end:
        return fire
    share = (end - fire.start) / (fire.end - fire.start)
    return replace(fire, end=end, idle_mj=fire.idle_mj * share)


def _said(step: Step) -> dict[str, object]:
    again = [{"on": r.on, "boil": r.boil, "off": r.off} for r in step.reboil]
    keys = ("day", "meal", "dish", "batch", "stove", "pot", "cooker", "finish", "soak_from")
    times = ("on", "boil", "off", "move", "serve")
    return {
        **{key: getattr(step, key) for key in (*keys, *times)},
        "reboil": again,
        "portions": step.portions,
        "mj": round(step.fuel_mj, 6),
        "serve_c": round(step.serve_c, 2),
        "serve_c_low": round(step.serve_c_low, 2),
    }


def course_of(entry: Followed, scenario: Scenario) -> Course:
    """Return the course that an entry of the log says is followed.

    What burns is told anew where the stove's efficiency is another by now, so that a measured
    number that has been taken is not taken twice.

    Parameters
    ----------
    entry
        The entry.
    scenario
        The whole outage; steps that name what it has not any more are left out.
    """
    items = {(item.day, item.meal, item.dish.name): item for item in scenario.items}
    efficiency = {own.stove.name: own.stove.efficiency for own in scenario.stoves}
    found = (
        _step(said, items.get((said.day, said.meal, said.dish)), scenario) for said in entry.steps
    )
    steps = tuple(
        replace(step, fuel_mj=step.fuel_mj * entry.efficiency.get(step.stove, now) / now)
        for step in found
        if step is not None and (now := efficiency[step.stove])
    )
    stoves = {own.stove.name for own in scenario.stoves}
    fires = tuple(
        Fire(each.stove, each.start // DAY_MIN + 1, each.start, each.end, each.mj, 0.0)
        for each in entry.fires
        if each.stove in stoves
    )
    return Course(steps, fires, entry.n)


def _step(said: FollowedStep, item: Item | None, scenario: Scenario) -> Step | None:
    fuels = {own.stove.name: own.stove.fuel for own in scenario.stoves}
    pots = {own.pot.name: own.pot for own in scenario.pots}
    cookers = {None, *(own.cooker.name for own in scenario.cookers)}
    if item is None or said.stove not in fuels or said.pot not in pots:
        return None
    if said.cooker not in cookers:
        return None
    return Step(
        number=item.number,
        day=item.day,
        meal=item.meal,
        item=item.dish.label,
        dish=item.dish.name,
        portions=said.portions,
        batch=said.batch,
        serve_rule=item.dish.serve,
        stove=said.stove,
        fuel=fuels[said.stove],
        pot=said.pot,
        pressure=pots[said.pot].gauge_pa > 0,
        finish=said.finish,
        cooker=said.cooker,
        soak_from=said.soak_from,
        light=said.on,
        on=said.on,
        boil=said.boil,
        off=said.off,
        move=said.move,
        reboil=tuple(Reboil(r.on, r.boil, r.off) for r in said.reboil),
        serve=said.serve,
        hold_minutes=max(0, said.off - said.boil),
        ingredients=(),
        water_kg=0.0,
        fuel_kg=None,
        fuel_mj=said.mj,
        cost=0.0,
        done=1.0,
        serve_c=said.serve_c,
        serve_c_low=said.serve_c_low,
        fill=1.0,
    )


def numbered(plan: Plan, scenario: Scenario, made_for: Scenario) -> Plan:
    """Return a plan with its steps numbered as the items of the whole outage.

    Parameters
    ----------
    plan
        Made for what remains.
    scenario
        The whole outage.
    made_for
        What remains of it.
    """
    keys = {(i.day, i.meal, i.dish.name, i.serve_min): i.number for i in scenario.items}
    of = {
        item.number: keys[item.day, item.meal, item.dish.name, item.serve_min]
        for item in made_for.items
    }
    return replace(plan, steps=tuple(replace(s, number=of[s.number]) for s in plan.steps))
