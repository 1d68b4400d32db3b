"""The steps of a plan beside the things they name."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace

from optimizer.model.household import Scenario
from optimizer.model.plan import Plan, Step
from optimizer.planning.checks.dish import Case


def cases_of(plan: Plan, scenario: Scenario) -> tuple[list[Case], list[str]]:
    """Return the steps that name things the household has, and complaints about the others."""
    cases, wrong, pots = [], [], Counter(step.number for step in plan.steps)
    for step in plan.steps:
        missing = list(_unknown(step, scenario))
        wrong += missing
        if not missing:
            cases.append(_case(step, scenario, pots[step.number]))
    return cases, wrong


def _unknown(step: Step, scenario: Scenario) -> Iterator[str]:
    known: dict[str, tuple[object, list[object]]] = {
        "dish number": (step.number, [item.number for item in scenario.items]),
        "stove": (step.stove, [own.stove.name for own in scenario.stoves]),
        "fuel": (step.fuel, [store.fuel.name for store in scenario.stores]),
        "pot": (step.pot, [own.pot.name for own in scenario.pots]),
        "cooker": (step.cooker, [None, *(own.cooker.name for own in scenario.cookers)]),
    }
    for kind, (named, there) in known.items():
        if named not in there:
            yield f"{step.item}, {step.meal} of day {step.day}: there is no {kind} {named}"


def _case(step: Step, scenario: Scenario, pots: int) -> Case:
    cookers = {own.cooker.name: own for own in scenario.cookers}
    return Case(
        step=step,
        item=next(item for item in scenario.items if item.number == step.number),
        own=next(own for own in scenario.stoves if own.stove.name == step.stove),
        store=next(store for store in scenario.stores if store.fuel.name == step.fuel),
        own_pot=next(own for own in scenario.pots if own.pot.name == step.pot),
        cooker=cookers[step.cooker] if step.cooker is not None else None,
        scenario=scenario,
        pots=pots,
    )


def under_way_of(scenario: Scenario) -> list[Case]:
    """Return the steps of dishes that were begun before the plan, beside the things they name."""
    numbered = [replace(each.item, number=each.step.number) for each in scenario.under_way]
    whole = replace(scenario, items=tuple(numbered))
    return [
        _case(each.step, whole, 1)
        for each in scenario.under_way
        if not list(_unknown(each.step, whole))
    ]
