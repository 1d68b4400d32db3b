"""What a plan burns, costs and saves, in words and in tables."""

import math

from optimizer.model.household import Scenario
from optimizer.model.plan import BoilAll, FuelUse, Goal, Plan, Saving
from optimizer.report.layout import GAP, table, wrap
from optimizer.report.measures import Measures, duration, kilowatt_hours
from optimizer.report.names import Names

SHARES = (
    (0.0, "hardly any"),
    (1 / 10, "a tenth"),
    (1 / 5, "a fifth"),
    (1 / 4, "a quarter"),
    (1 / 3, "a third"),
    (2 / 5, "two fifths"),
    (1 / 2, "half"),
    (3 / 5, "three fifths"),
    (2 / 3, "two thirds"),
    (3 / 4, "three quarters"),
    (4 / 5, "four fifths"),
    (9 / 10, "nine tenths"),
    (1.0, "nearly all"),
)
NO_MONEY = 0.005
NO_MINUTES = 2.5
NO_SHARE = 0.005
FINEST = 3  # figures of what is left


# what is saved, and how good the plan is


def share(fraction: float) -> str:
    """Say a share in words, to the nearest simple fraction."""
    return min(SHARES, key=lambda known: abs(known[0] - fraction))[1]


def saving_lines(plan: Plan, currency: str, system: Measures) -> list[str]:
    """Say what is saved against boiling the whole time."""
    ways = [way for way in (plan.boil_all_same_stoves, plan.boil_all) if way is not None]
    known = next((way for way in ways if way.fuel_mj is not None), None)
    if not ways:
        return []
    if plan.saved is None or known is None or known.fuel_mj is None:
        short = next((f": {way.short}" for way in ways if way.short), "")
        return wrap(f"Boiled the whole time, this menu cannot be done{short}.")
    where = " on the same stoves" if known is plan.boil_all_same_stoves else ""
    text = (
        f"{system.energy(plan.fuel_mj)} of fuel instead of {system.energy(known.fuel_mj)} "
        f"boiled the whole time{where}: {_fuel_share(plan.saved)}."
    )
    return [*wrap(text), *wrap(price_of(plan.saved, currency))]


def headline(plan: Plan, currency: str, system: Measures) -> list[str]:
    """Say in two sentences what the plan saves, or what it takes where that is not known.

    Parameters
    ----------
    plan
        A plan that has steps.
    currency
        Of its prices.
    system
        The measures.
    """
    takes = (
        f"{system.energy(plan.fuel_mj)} of fuel, {plan.cost:.2f} {currency}, "
        f"{duration(plan.fire_minutes)} of fire."
    )
    lines = saving_lines(plan, currency, system)
    if plan.saved is None:
        return [takes, " ".join(lines)]
    price = price_of(plan.saved, currency)
    return [" ".join(lines).removesuffix(price).strip(), price]


def _fuel_share(saved: Saving) -> str:
    """Say how much of the fuel is saved, or that more is burned."""
    word = share(abs(saved.fuel_fraction))
    about = "" if word in {"hardly any", "nearly all"} else "about "
    return f"{about}{word} {'saved' if saved.fuel_fraction >= 0 else 'more'}"


def price_of(saved: Saving, currency: str) -> str:
    """Say what the saving does to money and to minutes at the fire."""
    money = f"{abs(saved.cost):.2f} {currency}".strip()
    minutes = duration(abs(saved.fire_minutes))
    costs = "costs the same"
    if abs(saved.cost) >= NO_MONEY:
        costs = f"costs {money} {'less' if saved.cost > 0 else 'more'}"
    takes = "takes as long at the fire"
    if abs(saved.fire_minutes) >= NO_MINUTES:
        takes = f"takes {minutes} {'less' if saved.fire_minutes > 0 else 'more'} at the fire"
    joint = "and" if (saved.cost >= 0) == (saved.fire_minutes >= 0) else "but"
    return f"It {costs} {joint} {takes}."


def goal_words(goal: Goal, scenario: Scenario) -> str:
    """Say what the best plan would be."""
    known = {
        "money": "the cheapest plan there is",
        "energy": "the plan that burns the least fuel",
        "tending": "the plan with the least time at the fire",
    }
    fuel = f"the plan that burns the least {Names(scenario).fuel(goal.name)}"
    return known.get(goal.name, fuel)


def gap_lines(plan: Plan, scenario: Scenario) -> list[str]:
    """Say how near the plan is to the best one."""
    best = goal_words(plan.goal, scenario)
    if plan.status == "optimal":
        return wrap(f"This is {best}; that is proven.")
    early = {"stopped": "Stopped early. ", "time_limit": "Time ran out. "}.get(plan.status, "")
    if plan.gap is None:
        return wrap(f"{early}How near this is to {best} is not known.")
    percent = math.ceil(1000 * plan.gap - 1e-9) / 10
    return wrap(f"{early}Within {percent:.3g} % of {best}; that is proven.")


# tables


def fuel_lines(plan: Plan, scenario: Scenario, system: Measures) -> list[str]:
    """Say what is used of each fuel and what is left."""
    names = Names(scenario)
    rows = [fuel_row(use, names, system) for use in plan.fuels]
    if not rows:
        return []
    kept = [
        f"{system.fuel(store.reserve * store.stock_kg)} of {names.fuel(store.fuel.name)}"
        for store in scenario.stores
        if store.reserve > 0 and store.stock_kg
    ]
    note = f"What is left holds the reserve: {', '.join(kept)}."
    lines = table("Fuel", ("used", "left", "of stock"), rows)
    return ["", *lines, *(wrap(note, GAP) if kept else [])]


def fuel_row(use: FuelUse, names: Names, system: Measures) -> tuple[str, str, str, str]:
    """Set out one fuel; what has no weight is told as energy."""
    label = names.fuel(use.name)
    if use.used_kg is not None:
        known = use.left_kg is not None
        left = _left(use.left_kg or 0.0, use.used_kg, system) if known else ""
        return label, system.fuel(use.used_kg), left, _percent(use.used_kg, use.stock_kg)
    fuel = names.fuels.get(use.name)
    energy = kilowatt_hours if fuel and fuel.kind == "electricity" else system.energy
    left = "" if use.stock_mj is None else energy(max(0.0, use.stock_mj - use.used_mj))
    return label, energy(use.used_mj), left, _percent(use.used_mj, use.stock_mj)


def _left(left_kg: float, used_kg: float, system: Measures) -> str:
    """Say what is left as finely as what is used is known: to its second figure."""
    if left_kg <= 0 or used_kg <= 0:
        return system.fuel(max(0.0, left_kg), FINEST)
    apart = math.floor(math.log10(left_kg)) - math.floor(math.log10(used_kg))
    return system.fuel(left_kg, min(FINEST, max(1, 2 + apart)))


def _percent(used: float, stock: float | None) -> str:
    """Say the share of the stock that is used."""
    if not stock:
        return ""
    return "under 1 %" if 0 < used / stock < NO_SHARE else f"{100 * used / stock:.0f} %"


def comparison_lines(plan: Plan, scenario: Scenario, system: Measures) -> list[str]:
    """Set the plan beside boiling the whole time, both ways."""
    if not _boiled(plan):
        return []
    rows = compared_rows(plan, scenario, system)
    lines = ["", *table("Compared", ("fuel", "money", "at the fire"), rows)]
    for told in short_told(plan):
        lines += wrap(told, GAP, 2 * GAP)
    return lines


def short_told(plan: Plan) -> list[str]:
    """Say by how much boiling the whole time does not fit, where it does not.

    Parameters
    ----------
    plan
        The plan.
    """
    return [f"{label}: {way.short}" for label, way in _boiled(plan) if way.short]


def compared_rows(
    plan: Plan, scenario: Scenario, system: Measures
) -> list[tuple[str, str, str, str]]:
    """Set out the plan and both ways of boiling the whole time: fuel, money, at the fire.

    Parameters
    ----------
    plan
        The plan.
    scenario
        Its household.
    system
        The measures.
    """
    money = f"{plan.cost:.2f} {scenario.currency}"
    rows = [("this plan", system.energy(plan.fuel_mj), money, duration(plan.fire_minutes))]
    boiled = [(label, *way_cells(way, scenario.currency, system)) for label, way in _boiled(plan)]
    return [*rows, *boiled]


def _boiled(plan: Plan) -> list[tuple[str, BoilAll]]:
    ways = (
        ("boiled through, same stoves", plan.boil_all_same_stoves),
        ("boiled through, any stove", plan.boil_all),
    )
    return [(label, way) for label, way in ways if way is not None]


def way_cells(way: BoilAll, currency: str, system: Measures) -> tuple[str, str, str]:
    """Set out one way of boiling everything."""
    return (
        "-" if way.fuel_mj is None else system.energy(way.fuel_mj),
        "-" if way.cost is None else f"{way.cost:.2f} {currency}",
        "-" if way.fire_minutes is None else duration(way.fire_minutes),
    )
