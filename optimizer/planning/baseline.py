"""The same menu boiled the whole time: what a plan is compared with."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from optimizer.model.household import Scenario, Window
from optimizer.model.plan import BoilAll, Plan, Saving, Step
from optimizer.planning.columns import Column, Kitchen
from optimizer.planning.kitchen import choices, kitchen_of
from optimizer.planning.ledger import fuel_of, price_of
from optimizer.planning.schedule import Result, schedule
from optimizer.planning.solver import SolverName
from optimizer.planning.steps import MJ, fire_minutes, fires_told


EARLIER_MIN = (30, 60, 120, 240)
HOUR_MIN = 60


@dataclass(frozen=True, slots=True)
class Effort:
    """How hard to look: gap, seconds, solver."""

    gap: float
    time_limit_s: float
    solver: SolverName


def boil_all(scenario: Scenario, effort: Effort, steps: Sequence[Step] = ()) -> BoilAll:
    """Return what boiling the whole time takes: on the flame until done, no limit on the stock.

    Parameters
    ----------
    scenario : Scenario
        The household; its first goal is used.
    effort : Effort
        How hard to look.
    steps : sequence of Step
        A plan's; every dish then stays on the stove it has there. Empty: any stove.

    Returns
    -------
    BoilAll
        Where it does not fit the cook hours: with hours that begin earlier, or, if even that does
        not do, the least each dish takes alone, so that no saving is overstated.
    """
    stoves = {step.number: step.stove for step in steps}
    found = _try(scenario, 0, stoves, effort)
    if found is not None:
        return found
    longest = EARLIER_MIN[-1]
    widest = _try(scenario, longest, stoves, effort)
    if widest is None:
        return _alone(scenario, _flame(_earlier(scenario, longest), stoves))
    for minutes in EARLIER_MIN[:-1]:
        found = _try(scenario, minutes, stoves, effort)
        if found is not None:
            return _early(found, minutes)
    return _early(widest, longest)


def _flame(scenario: Scenario, stoves: Mapping[int, str]) -> tuple[Column, ...]:
    """Return the columns of dishes left on the flame in ordinary lidded pots until done.

    A dish that no ordinary pot may cook here is left to the pressure pot, on the flame too.
    """
    plain = _on(choices(scenario, insulated=False).columns, stoves)
    cooked = {column.item for column in plain}
    if len(cooked) == len(scenario.items):
        return plain
    rest = _on(choices(replace(scenario, cookers=())).columns, stoves)
    return plain + tuple(column for column in rest if column.item not in cooked)


def _on(columns: Sequence[Column], stoves: Mapping[int, str]) -> tuple[Column, ...]:
    return tuple(c for c in columns if stoves.get(c.item, c.stove) == c.stove)


def _earlier(scenario: Scenario, minutes: int) -> Scenario:
    """Return the household with cook hours that begin earlier, where they do not run together."""
    windows: list[Window] = []
    for window in scenario.windows:
        free = windows[-1].end_min if windows else 0
        windows.append(replace(window, start_min=max(free, window.start_min - minutes)))
    return replace(scenario, windows=tuple(windows))


def _try(
    scenario: Scenario, minutes: int, stoves: Mapping[int, str], effort: Effort
) -> BoilAll | None:
    wide = _earlier(scenario, minutes)
    columns = _flame(wide, stoves)
    if {column.item for column in columns} != {item.number for item in scenario.items}:
        return None
    free = replace(kitchen_of(wide), stock_j={})
    found = schedule(
        columns,
        free,
        goals=scenario.goals[:1],
        gap=effort.gap,
        time_limit_s=effort.time_limit_s,
        solver=effort.solver,
    )
    return _told(found, free, wide) if found.chosen else None


def _told(found: Result, kitchen: Kitchen, scenario: Scenario) -> BoilAll:
    fires = fires_told(found.chosen, kitchen, scenario)
    return BoilAll(
        status="optimal" if found.status == "optimal" else "within_gap",
        fuel_mj=sum(fuel_of(found.chosen, kitchen).values()) / MJ,
        cost=price_of(found.chosen, kitchen, "money"),
        fire_minutes=fire_minutes(fires),
        short=None,
    )


def _early(found: BoilAll, minutes: int) -> BoilAll:
    hours = f"{minutes} min" if minutes < HOUR_MIN else f"{minutes / HOUR_MIN:g} h"
    return replace(
        found, status="does_not_fit", short=f"would need cook hours that begin {hours} earlier"
    )


def _alone(scenario: Scenario, columns: Sequence[Column]) -> BoilAll:
    """Return the least that each dish takes alone, and the fires that no dish can do without."""
    mine: dict[int, list[Column]] = defaultdict(list)
    for column in columns:
        mine[column.item].append(column)
    missing = [item.dish.label for item in scenario.items if item.number not in mine]
    if missing:
        text = "cannot be boiled through here: " + ", ".join(dict.fromkeys(missing))
        return BoilAll("infeasible", None, None, None, text)
    least = [min(ways, key=lambda c: c.fuel_j) for ways in mine.values()]
    lightings = kitchen_of(scenario).lightings
    fires = [lightings[stove] for stove, _ in _needed(mine.values()) if stove in lightings]
    return BoilAll(
        status="does_not_fit",
        fuel_mj=(sum(c.fuel_j for c in least) + sum(f.start_j for f in fires)) / MJ,
        cost=sum(c.money for c in least) + sum(f.start_j * f.money_j for f in fires),
        fire_minutes=float(
            sum(b.end - b.start for c in least for b in c.burns) + sum(f.start_min for f in fires)
        ),
        short="would need more stoves or pots, whatever the hours; each dish is counted alone",
    )


def _needed(groups: Iterable[Sequence[Column]]) -> set[tuple[str, int]]:
    """Return fires, stove and window, that some dish needs whatever its start."""
    fires = ({(c.burns[0].stove, c.burns[0].window) for c in group} for group in groups)
    return set().union(*(fire for fire in fires if len(fire) == 1))


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
