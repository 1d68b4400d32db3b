"""The same menu boiled the whole time: what a plan is compared with."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace

from optimizer.model.household import Scenario
from optimizer.model.plan import BoilAll, Plan, Saving, Step
from optimizer.planning.columns import Column, Kitchen
from optimizer.planning.kitchen import choices
from optimizer.planning.ledger import fuel_of, price_of
from optimizer.planning.schedule import Result, schedule
from optimizer.planning.solver import SolverName
from optimizer.planning.steps import MJ, fire_minutes, fires_told


@dataclass(frozen=True, slots=True)
class Effort:
    """How hard to look: gap, seconds, solver."""

    gap: float
    time_limit_s: float
    solver: SolverName


def flame_columns(scenario: Scenario) -> tuple[Column, ...]:
    """Return the columns of dishes left on the flame in ordinary lidded pots until done.

    A dish that no ordinary pot may cook here is left to the pressure pot, on the flame too.
    """
    plain = choices(scenario, insulated=False).columns
    cooked = {column.item for column in plain}
    if len(cooked) == len(scenario.items):
        return plain
    flame = replace(scenario, cookers=())
    rest = choices(flame).columns
    return plain + tuple(column for column in rest if column.item not in cooked)


def boil_all(
    columns: Sequence[Column], kitchen: Kitchen, scenario: Scenario, effort: Effort
) -> BoilAll:
    """Return what boiling the whole time takes, without a limit on the stock.

    Where it does not fit the cook hours the fuel is the least each dish takes alone, fires not
    counted: too little, so that no saving is overstated.
    """
    if {column.item for column in columns} != set(kitchen.items):
        return BoilAll("infeasible", None, None, None, _impossible(columns, scenario))
    free = replace(kitchen, stock_j={})
    found = schedule(
        columns,
        free,
        goals=scenario.goals[:1],
        gap=effort.gap,
        time_limit_s=effort.time_limit_s,
        solver=effort.solver,
    )
    if found.chosen:
        return _told(found, free, scenario)
    return _crowded(columns, scenario)


def _impossible(columns: Sequence[Column], scenario: Scenario) -> str:
    cooked = {column.item for column in columns}
    missing = dict.fromkeys(i.dish.label for i in scenario.items if i.number not in cooked)
    return "cannot be boiled through here in the cook hours: " + ", ".join(missing)


def _told(found: Result, kitchen: Kitchen, scenario: Scenario) -> BoilAll:
    fires = fires_told(found.chosen, kitchen, scenario)
    return BoilAll(
        status="optimal" if found.status == "optimal" else "within_gap",
        fuel_mj=sum(fuel_of(found.chosen, kitchen).values()) / MJ,
        cost=price_of(found.chosen, kitchen, "money"),
        fire_minutes=fire_minutes(fires),
        short=None,
    )


def _crowded(columns: Sequence[Column], scenario: Scenario) -> BoilAll:
    alone: dict[int, Column] = {}
    for column in columns:
        best = alone.setdefault(column.item, column)
        if column.fuel_j < best.fuel_j:
            alone[column.item] = column
    least = list(alone.values())
    minutes = sum(burn.end - burn.start for column in least for burn in column.burns)
    room = sum(window.end_min - window.start_min for window in scenario.windows)
    return BoilAll(
        status="does_not_fit",
        fuel_mj=sum(column.fuel_j for column in least) / MJ,
        cost=sum(column.money for column in least),
        fire_minutes=float(minutes),
        short=f"{minutes / 60:.0f} h of pots on the fire do not fit {room / 60:.0f} cook hours "
        "with these stoves and pots",
    )


def same_stoves(columns: Sequence[Column], steps: Collection[Step]) -> tuple[Column, ...]:
    """Return the columns that keep every dish on the stove a plan chose for it."""
    stoves = {step.number: step.stove for step in steps}
    return tuple(column for column in columns if column.stove == stoves[column.item])


def saving(plan: Plan, other: BoilAll) -> Saving | None:
    """Return what a plan saves against boiling the whole time; None without a comparison."""
    if other.fuel_mj is None or other.cost is None or other.fire_minutes is None:
        return None
    return Saving(
        fuel_mj=other.fuel_mj - plan.fuel_mj,
        fuel_fraction=1 - plan.fuel_mj / other.fuel_mj if other.fuel_mj else 0.0,
        cost=other.cost - plan.cost,
        fire_minutes=other.fire_minutes - plan.fire_minutes,
    )
