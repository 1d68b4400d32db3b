"""What went otherwise than planned: dishes left out, on another stove, packed sooner or later."""

from collections.abc import Sequence
from dataclasses import replace

from optimizer.model.household import Item, OwnStove, Scenario
from optimizer.model.plan import Step
from optimizer.scenario.log_entries import (
    Eaten,
    Read,
)
from optimizer.trials.course import Course

EARLY_MIN = 5  # packed so much sooner than planned, it is not known how hot a dish will be


def items_of(entry: Eaten | Read, scenario: Scenario) -> list[Item]:
    """Return the dishes of the menu that an entry is about.

    Parameters
    ----------
    entry
        About a meal, or about one dish of it.
    scenario
        The whole outage.
    """
    return [
        item
        for item in scenario.items
        if item.day == entry.day
        and item.meal == entry.meal
        and entry.dish in {None, item.dish.name, item.dish.label}
    ]


def corrected(course: Course, item: Item, entry: Eaten, scenario: Scenario) -> Course:
    """Return the course as one dish really went.

    Parameters
    ----------
    course
        As it was planned.
    item
        The dish.
    entry
        What was written down of it.
    scenario
        The whole outage.
    """
    mine = [step for step in course.steps if step.number == item.number]
    others = [step for step in course.steps if step.number != item.number]
    if entry.how in {"left out", "not begun", "soaking"}:
        mine = [step for step in mine if entry.how == "soaking"]
    elif entry.how == "in the cooker":
        mine = [_packed(item, entry, mine, scenario)]
    else:
        mine = [_on_stove(step, entry, scenario) for step in mine]
    steps = sorted([*others, *mine], key=lambda step: (step.on, step.serve, step.number))
    return replace(course, steps=tuple(steps))


def _on_stove(step: Step, entry: Eaten, scenario: Scenario) -> Step:
    """Return a step on the stove it really was on; that took fuel as the stoves' shares differ."""
    own = _stove(entry.stove, scenario)
    planned = _stove(step.stove, scenario)
    if own is None or planned is None or own == planned:
        return step
    fuel_mj = step.fuel_mj * planned.stove.efficiency / own.stove.efficiency
    return replace(step, stove=own.stove.name, fuel=own.stove.fuel, fuel_mj=fuel_mj)


def _stove(name: str | None, scenario: Scenario) -> OwnStove | None:
    return next((own for own in scenario.stoves if own.stove.name == name), None)


def _packed(item: Item, entry: Eaten, planned: Sequence[Step], scenario: Scenario) -> Step:
    """Return the step of a dish that went into a cooker, on the minute it was written.

    How hot it will be is told as planned only where it went in as planned; it is 0 where unknown.
    """
    if planned and entry.at <= planned[0].serve:
        first = _on_stove(planned[0], entry, scenario)
        minutes = first.off - first.on
    else:
        first, minutes = _unplanned(item, entry, scenario), 0
    on = min(first.on, entry.at - minutes) if minutes else entry.at
    pot, cooker = entry.pot or first.pot, entry.cooker or first.cooker
    same = (pot, cooker) == (first.pot, first.cooker) and entry.at >= first.off - EARLY_MIN
    return replace(
        first,
        pot=pot,
        cooker=cooker,
        serve_c=first.serve_c if same else 0.0,
        serve_c_low=first.serve_c_low if same else 0.0,
        on=on,
        light=on,
        boil=min(first.boil, entry.at),
        off=entry.at,
        move=entry.at,
        reboil=(),
    )


def _unplanned(item: Item, entry: Eaten, scenario: Scenario) -> Step:
    """Return a step of which only is known that its pot is in a cooker."""
    own = _stove(entry.stove, scenario) or scenario.stoves[0]
    cooker = entry.cooker or (scenario.cookers[0].cooker.name if scenario.cookers else None)
    pot = entry.pot or scenario.pots[0].pot.name
    return Step(
        number=item.number, day=item.day, meal=item.meal, item=item.dish.label,
        dish=item.dish.name, portions=item.portions, batch=1, serve_rule=item.dish.serve,
        stove=own.stove.name, fuel=own.stove.fuel, pot=pot, pressure=False, finish="packed",
        cooker=cooker, soak_from=None, light=entry.at, on=entry.at, boil=entry.at, off=entry.at,
        move=entry.at, reboil=(), serve=item.serve_min, hold_minutes=0, ingredients=(),
        water_kg=0.0, fuel_kg=None, fuel_mj=0.0, cost=0.0, done=1.0, serve_c=0.0, serve_c_low=0.0,
        fill=1.0,
    )  # fmt: skip
