"""Trade-offs told: what each plan of a frontier takes, and how well that is known."""

import math
from dataclasses import dataclass

from optimizer.model.household import Scenario
from optimizer.planning.stock import joules_per_kg
from optimizer.report.measures import (
    BTU_PER_MJ,
    KG_PER_LB,
    MJ_PER_KWH,
    Measures,
    Us,
    duration,
    kilowatt_hours,
)
from optimizer.report.names import Names
from optimizer.studies.frontier import Frontier, Point

MJ = 1e6
HOUR_MIN = 60

Row = dict[str, str]


@dataclass(frozen=True, slots=True)
class Scale:
    """An axis: what it counts, and how much of that one of the planner's units is."""

    title: str
    factor: float


def goals_of(scenario: Scenario) -> tuple[str, ...]:
    """List what money can be set against: time at the fire, all fuel, each fuel there is.

    Parameters
    ----------
    scenario
        The household.
    """
    burnt = {own.stove.fuel for own in scenario.stoves}
    fuels = [s.fuel.name for s in scenario.stores if s.fuel.name in burnt and s.fuel.kind != "sun"]
    return ("tending", "energy", *fuels)


def goal_name(goal: str, scenario: Scenario) -> str:
    """Name what is made less.

    Parameters
    ----------
    goal
        "money", "energy", "tending" or a fuel's name.
    scenario
        The household.
    """
    known = {"money": "money", "energy": "all fuel together", "tending": "time at the fire"}
    return known.get(goal) or Names(scenario).fuel(goal)


def scale_of(goal: str, scenario: Scenario, system: Measures) -> Scale:
    """Give the axis of a goal.

    Parameters
    ----------
    goal
        "money", "energy", "tending" or a fuel's name.
    scenario
        The household.
    system
        The measures.
    """
    name, us = goal_name(goal, scenario), isinstance(system, Us)
    if goal == "money":
        return Scale(f"money, {scenario.currency}", 1.0)
    if goal == "tending":
        return Scale(f"{name}, hours", 1 / HOUR_MIN)
    heat = _heat_j_kg(goal, scenario)
    if heat is not None:
        return Scale(f"{name}, lb", 1 / heat / KG_PER_LB) if us else Scale(f"{name}, kg", 1 / heat)
    if goal != "energy":
        return Scale(f"{name}, kWh", 1 / MJ / MJ_PER_KWH)
    return (
        Scale(f"{name}, thousand BTU", BTU_PER_MJ / 1000 / MJ)
        if us
        else Scale(f"{name}, MJ", 1 / MJ)
    )


def value_words(goal: str, value: float, scenario: Scenario, system: Measures) -> str:
    """Say a value of a goal.

    Parameters
    ----------
    goal
        "money", "energy", "tending" or a fuel's name.
    value
        In money, minutes or J.
    scenario
        The household.
    system
        The measures.
    """
    if goal == "money":
        return f"{value:.2f} {scenario.currency}"
    if goal == "tending":
        return duration(value)
    heat = _heat_j_kg(goal, scenario)
    if heat is not None:
        return system.fuel(value / heat)
    return system.energy(value / MJ) if goal == "energy" else kilowatt_hours(value / MJ)


def _heat_j_kg(goal: str, scenario: Scenario) -> float | None:
    fuels = {store.fuel.name: store.fuel for store in scenario.stores}
    return joules_per_kg(fuels[goal]) if goal in fuels else None


def frontier_rows(found: Frontier, scenario: Scenario, system: Measures) -> list[Row]:
    """Set the plans of a frontier out as a table.

    Parameters
    ----------
    found
        The frontier.
    scenario
        The household.
    system
        The measures.
    """
    first, second = found.goals
    return [
        {
            "plan": str(number),
            goal_name(first, scenario): value_words(first, point.values[0], scenario, system),
            goal_name(second, scenario): value_words(second, point.values[1], scenario, system),
            "what it is": what_it_is(point, found, scenario),
            "proven within": gap_words(point),
        }
        for number, point in enumerate(found.points, start=1)
    ]


def what_it_is(point: Point, found: Frontier, scenario: Scenario) -> str:
    """Say which end of the frontier a plan is, or that it lies between.

    Parameters
    ----------
    point
        One of its points.
    found
        The frontier.
    scenario
        The household.
    """
    if len(found.points) == 1:
        return "best in both"
    first, second = (goal_name(goal, scenario) for goal in found.goals)
    if point is found.points[0]:
        return f"least {first}"
    return f"least {second}" if point is found.points[-1] else "between"


def gap_words(point: Point) -> str:
    """Say how near a plan is proven to be to the best of its kind.

    Parameters
    ----------
    point
        A point.
    """
    if point.gap is None:
        return "not known"
    percent = math.ceil(1000 * point.gap - 1e-6) / 10
    return f"{percent:.3g} %" if percent else "exactly"
