"""A whole plan in every try: pots wait for their place over the fire, fires burn between pots."""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from optimizer.model.household import Scenario
from optimizer.model.plan import Fire, Plan, Step
from optimizer.model.things import Stove
from optimizer.planning.conditions import burn_ratio
from optimizer.planning.contents import load
from optimizer.planning.kitchen import pots_for
from optimizer.planning.stock import store_of
from optimizer.planning.ways import Way, conditions, make_way
from optimizer.studies.chances.cooking import DONE, Course
from optimizer.studies.chances.draws import Array, Draws, Truth
from optimizer.studies.chances.stoves import day_of, heat

MJ = 1e6


@dataclass(frozen=True, slots=True)
class Tried:
    """What became of a plan in every try (arrays by try)."""

    courses: tuple[Course, ...]  # in the order of the plan's steps
    fuel_mj: dict[tuple[str, int], Array]  # by fuel and day

    def done(self, number: int) -> Truth:
        """Tell in which tries the dish of a step is done when it is served."""
        return np.asarray(self.courses[number].done >= DONE)

    def hot(self, number: int) -> Truth | None:
        """Tell in which tries the dish of a step is hot enough; None: it need not be."""
        course = self.courses[number]
        if course.item.dish.serve == "any":
            return None
        return course.kept & np.asarray(course.table_c >= course.way.need_c)

    def well(self, number: int) -> Truth:
        """Tell in which tries the dish of a step is done, and hot enough."""
        hot = self.hot(number)
        return self.done(number) if hot is None else self.done(number) & hot

    def all_well(self) -> Truth:
        """Tell in which tries every dish is done, and hot enough."""
        return np.asarray(np.all([self.well(n) for n in range(len(self.courses))], axis=0))

    def used_mj(self, name: str | None = None, until: int | None = None) -> Array:
        """Return what is burned of a fuel (of all) until the end of a day (of all)."""
        parts = [
            mj
            for (fuel, day), mj in self.fuel_mj.items()
            if name in {None, fuel} and (until is None or day <= until)
        ]
        return np.sum(parts, axis=0) if parts else np.zeros(1)


def tried(plan: Plan, scenario: Scenario, draws: Draws) -> Tried:
    """Cook a plan in every try.

    Parameters
    ----------
    plan : Plan
        A plan that has steps.
    scenario : Scenario
        Its household.
    draws : Draws
        The tries.
    """
    courses = tuple(_course(step, scenario, draws) for step in plan.steps)
    fuel: dict[tuple[str, int], Array] = defaultdict(lambda: np.zeros(draws.count))
    stoves = {own.stove.name: own for own in scenario.stoves}
    free = {
        name: np.full((own.count * own.stove.places, draws.count), -np.inf)
        for name, own in stoves.items()
    }
    for course, number, on, off in _burns(courses):
        before = course.fuel_j
        left = _burn(course, number, on, free[course.step.stove])
        key = course.step.fuel, day_of(on)
        fuel[key] = fuel[key] + (course.fuel_j - before) / MJ
        idle_min = _early_min(left, off, stoves[course.step.stove].stove, plan.fires)
        fuel[key] = fuel[key] + idle_min * stoves[course.step.stove].stove.low_power_w * 60 / MJ
    for course in courses:
        course.serve()
    for fire in plan.fires:
        name = stoves[fire.stove].stove.fuel
        fuel[name, fire.day] = fuel[name, fire.day] + _lit_mj(fire, name, scenario, draws)
    return Tried(courses, dict(fuel))


def _course(step: Step, scenario: Scenario, draws: Draws) -> Course:
    zero, kept = np.zeros(draws.count), np.ones(draws.count, dtype=bool)
    way = way_of(step, scenario)
    return Course(step, scenario.item(step.number), way, draws, zero, zero, zero, zero, kept)


def way_of(step: Step, scenario: Scenario) -> Way:
    """Return the way that a step of a plan was priced by.

    Parameters
    ----------
    step : Step
        The step.
    scenario : Scenario
        Its household.
    """
    item = scenario.item(step.number)
    own = next(each for each in scenario.stoves if each.stove.name == step.stove)
    pot = next(each.pot for each in scenario.pots if each.pot.name == step.pot)
    cooker = next((c for c in scenario.cookers if c.cooker.name == step.cooker), None)
    store, at = store_of(scenario, step.fuel), conditions(scenario, day_of(step.on))
    assert store is not None
    pots = pots_for(scenario, item)
    way = make_way(load(item, scenario.place, pots), own, store, pot, cooker, at)
    assert isinstance(way, Way)
    return way


def _burns(courses: tuple[Course, ...]) -> Iterator[tuple[Course, int, int, int]]:
    """Yield every time that a pot is on a stove, in order: which one, from when until when."""
    burns = [
        (on, number, place)
        for place, course in enumerate(courses)
        for number, on in enumerate([course.step.on, *(r.on for r in course.step.reboil)])
    ]
    for on, number, place in sorted(burns):
        step = courses[place].step
        yield courses[place], number, on, step.reboil[number - 1].off if number else step.off


def _burn(course: Course, number: int, on: int, places: Array) -> Array:
    """Put a pot on as soon as its time has come and a place is free; return when it leaves."""
    place = places.argmin(axis=0)
    tries = np.arange(places.shape[1])
    if course.way.sunny:
        return course.burn(number, np.full(places.shape[1], float(on)))
    left = course.burn(number, np.maximum(on, places[place, tries]))
    places[place, tries] = left
    return left


def _early_min(left: Array, planned: int, stove: Stove, fires: tuple[Fire, ...]) -> Array:
    """Return minutes that a fed fire is kept up for the next pot since this one left early."""
    fed = stove.tended and stove.start_j > 0
    goes_on = any(f.stove == stove.name and f.start < planned < f.end for f in fires)
    return np.maximum(planned - left, 0.0) / stove.places if fed and goes_on else 0.0 * left


def _lit_mj(fire: Fire, fuel: str, scenario: Scenario, draws: Draws) -> Array:
    """Return what lighting a fire and keeping it up takes besides its pots."""
    store = store_of(scenario, fuel)
    assert store is not None
    at = conditions(scenario, fire.day)
    more = burn_ratio(store.fuel, at) / heat(store.fuel, at, draws)
    return np.asarray(fire.start_mj * more + fire.idle_mj)
