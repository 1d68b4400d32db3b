"""The chances of a plan in words: how sure its dishes are, how much fuel, what to measure."""

import math
from collections.abc import Iterator
from datetime import timedelta

from optimizer.model.household import Scenario
from optimizer.model.plan import Chances, FuelChances, Measuring, Plan, Step
from optimizer.planning.stock import joules_per_kg
from optimizer.report.layout import GAP, wrap
from optimizer.report.measures import Measures
from optimizer.report.names import Names

SURE = 0.95  # a dish less sure than this is named
MOST_NAMED = 3
WORTH_MEASURING = 0.9  # of the band that is left
OF = 100
MJ = 1e6


def chance(share: float) -> str:
    """Say a chance in whole hundredths, never as certain.

    Parameters
    ----------
    share
        0 to 1.
    """
    if share <= 0:
        return "under 1 in 100"
    if share >= 1:
        return "over 99 in 100"
    low = math.floor(OF * share + 1e-9)
    if low == 0:
        return "under 1 in 100"
    return f"{min(low, OF - 1)} in 100" if low < OF - 1 else "99 in 100 or more"


def chance_lines(plan: Plan, scenario: Scenario, system: Measures) -> list[str]:
    """Set out the chances of a plan, where it has been tried.

    Parameters
    ----------
    plan
        The plan.
    scenario
        Its household.
    system
        The measures.
    """
    if plan.chances is None:
        return []
    head = wrap(f"Chances, from {plan.chances.draws:,} tries of this plan")
    told = chances_told(plan, scenario, system)
    return ["", *head, *(line for each in told for line in wrap(each, GAP, 2 * GAP))]


def chances_told(plan: Plan, scenario: Scenario, system: Measures) -> list[str]:
    """Say how sure dishes are, how much fuel it may take, and what to measure.

    Parameters
    ----------
    plan
        The plan, tried.
    scenario
        Its household.
    system
        The measures.

    Returns
    -------
    list of str
        Sentences; none where it was not tried.
    """
    found = plan.chances
    if found is None:
        return []
    names = Names(scenario)
    return [
        f"Every dish done and hot when it is served: {chance(found.all_well)}.",
        *_least_sure(plan, scenario),
        *(told for each in found.fuels for told in _fuel_told(each, names, system)),
        *_measuring_told(found, names, system),
    ]


def chance_rows(plan: Plan, scenario: Scenario) -> list[dict[str, str]]:
    """Set out how sure every dish is, by the clock.

    Parameters
    ----------
    plan
        The plan, tried.
    scenario
        Its household.
    """
    return [
        {
            "dish": step.item,
            "day": _day(scenario, step.day),
            "done": "" if step.chance_done is None else chance(step.chance_done),
            "hot": "need not be" if step.chance_hot is None else chance(step.chance_hot),
        }
        for step in sorted(plan.steps, key=lambda step: (step.serve, step.number, step.batch))
        if plan.chances is not None
    ]


def run_out_rows(plan: Plan, scenario: Scenario) -> list[dict[str, str]]:
    """Set out how likely it is that all of a fuel is burned by the end of each day.

    Parameters
    ----------
    plan
        A plan of several days, tried.
    scenario
        Its household.

    Returns
    -------
    list of dict
        A row a day, from the first on which it may happen; none where it does not.
    """
    limited = [each for each in (plan.chances.fuels if plan.chances else ()) if each.runs_out]
    names = Names(scenario)
    rows = [
        (day, {names.fuel(each.name): (each.runs_out or ())[day - 1] for each in limited})
        for day in range(1, scenario.days + 1)
    ]
    return [
        {"by the end of": f"day {day}", **{label: chance(share) for label, share in row.items()}}
        for day, row in rows
        if any(row.values())
    ]


def least_sure(plan: Plan) -> list[Step]:
    """List the dishes that are least sure to be done or hot, the least first.

    Parameters
    ----------
    plan
        The plan, tried.
    """
    unsure = [step for step in plan.steps if surety(step) < SURE]
    return sorted(unsure, key=lambda step: (surety(step), step.on))[:MOST_NAMED]


def surety(step: Step) -> float:
    """Return the chance that a dish is done, or hot if that is less; 1 where it is not known."""
    known = [each for each in (step.chance_done, step.chance_hot) if each is not None]
    return min(known, default=1.0)


def _least_sure(plan: Plan, scenario: Scenario) -> Iterator[str]:
    named = least_sure(plan)
    if named:
        told = "; ".join(
            f"{step.item} on {_day(scenario, step.day)}, {chance(surety(step))}" for step in named
        )
        them = "it" if len(named) == 1 else "these"
        yield (
            f"Least sure: {told}. Have a thermometer at hand for {them}, and time for some minutes "
            "more."
        )


def _day(scenario: Scenario, day: int) -> str:
    if scenario.start is None:
        return f"day {day}"
    return f"{scenario.start + timedelta(days=day - 1):%A}"


def _fuel_told(each: FuelChances, names: Names, system: Measures) -> Iterator[str]:
    if each.p90_mj <= 0:
        return
    label = names.fuel(each.name)
    amounts = [_amount(mj, each.name, names, system) for mj in (each.p10_mj, each.p90_mj)]
    told = f"{label[:1].upper()}{label[1:]}: {amounts[0]} to {amounts[1]} in four tries of five."
    if each.runs_out is not None and each.runs_out[-1] > 0:
        told += f" The whole stock is burned before the end: {chance(each.runs_out[-1])}."
    yield told


def _amount(mj: float, name: str, names: Names, system: Measures) -> str:
    fuel = names.fuels.get(name)
    heat = joules_per_kg(fuel) if fuel else None
    return system.energy(mj) if heat is None else system.fuel(mj * MJ / heat)


def _measuring_told(found: Chances, names: Names, system: Measures) -> Iterator[str]:
    """Say what to measure, where that would narrow the band of all fuel together."""
    if not found.measuring:
        return
    best = found.measuring[0]
    if best.left_mj > WORTH_MEASURING * best.band_mj:
        yield "No single thing measured would say much more about the fuel."
        return
    yield (
        f"To know the fuel better: {measuring_words(best, names)}. What it may take "
        f"then lies within about {system.energy(best.left_mj)}, "
        f"not {system.energy(best.band_mj)}."
    )


def measuring_words(measuring: Measuring, names: Names) -> str:
    """Say what is measured.

    Parameters
    ----------
    measuring
        The thing to measure.
    names
        The labels of the scenario.
    """
    if measuring.kind == "test_box":
        return f"test the {names.cooker(measuring.thing)} with hot water and a thermometer"
    stove = names.stoves.get(measuring.thing)
    label = names.stove(measuring.thing)
    if measuring.kind == "time_boil":
        return f"time a boil on the {label}"
    fuel = names.fuels.get(stove.fuel) if stove else None
    if fuel is not None and fuel.kind == "gas":
        return f"weigh the can before and after a boil on the {label}"
    burned = names.fuel(stove.fuel) if stove else "fuel"
    return f"weigh the {burned} that one boil on the {label} takes"
