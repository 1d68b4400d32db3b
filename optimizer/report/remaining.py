"""What a plan from now on begins with, in words: the moment, dishes under way, what is left."""

from optimizer.model.household import DAY_MIN, Scenario
from optimizer.report.dates import day_name
from optimizer.report.measures import Units, kilowatt_hours, measures
from optimizer.report.names import Names
from optimizer.scenario.clock import clock

MJ = 1e6


def remaining_lines(scenario: Scenario, units: Units = "metric") -> list[str]:
    """Say what a plan from now on begins with.

    Parameters
    ----------
    scenario
        What remains of the outage.
    units
        ``metric`` or ``us``.

    Returns
    -------
    list of str
        Sentences; none for the plan of a whole outage.
    """
    if scenario.begins <= 0:
        return []
    day = day_name(scenario, scenario.begins // DAY_MIN + 1)
    left = ", ".join(_left(scenario, units))
    lines = [f"From {day}, {clock(scenario.begins)} on" + (f", with {left}." if left else ".")]
    under_way = list(_under_way(scenario))
    if under_way:
        lines.append(f"Under way: {'; '.join(under_way)}.")
    return lines


def _left(scenario: Scenario, units: Units) -> list[str]:
    """Say what is left of each fuel."""
    system, names = measures(units), Names(scenario)
    told = []
    for store in scenario.stores:
        name = names.fuel(store.fuel.name)
        if store.stock_kg is not None:
            told.append(f"{system.fuel(store.stock_kg, 3)} of {name}")
        elif store.stock_j is not None:
            told.append(f"{kilowatt_hours(store.stock_j / MJ)} of {name}")
    return told


def _under_way(scenario: Scenario) -> list[str]:
    """Say which pots are where, and when they are served."""
    names = Names(scenario)
    told = []
    for each in scenario.under_way:
        step = each.step
        if step.off > scenario.begins:
            where = f"on the {names.stove(step.stove)}"
        elif step.cooker is not None:
            where = f"in the {names.cooker(step.cooker)}"
        else:
            where = "off the stove, lid on"
        told.append(f"{step.item} {where}, for {clock(step.serve)}")
    return told
