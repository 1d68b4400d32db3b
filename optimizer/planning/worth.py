"""What one more of each scarce thing is worth, found by solving again."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from optimizer.model.household import Scenario
from optimizer.model.plan import Worth
from optimizer.planning.baseline import Effort
from optimizer.planning.columns import Column, Kitchen
from optimizer.planning.mix import Mix
from optimizer.planning.result import Result
from optimizer.planning.schedule import schedule
from optimizer.planning.steps import MJ
from optimizer.planning.stock import package_j

TINY = 1e-9  # a price below this is a solver's rounding


@dataclass(frozen=True, slots=True)
class OneMore:
    """A kitchen with one more of something, and the linear program's price of it."""

    what: str
    kitchen: Kitchen
    dual: float | None


def one_more_each(scenario: Scenario, kitchen: Kitchen, mix: Mix) -> Iterator[OneMore]:
    """Yield one more package of every limited fuel, one more of every cooker, stove and pot."""
    for store in scenario.stores:
        name, more = store.fuel.name, package_j(store)
        if name in kitchen.stock_j and more is not None:
            stock = {**kitchen.stock_j, name: kitchen.stock_j[name] + more}
            price = -mix.prices.get(f"stock_is_enough[{name}]", 0.0) * more
            what = f"{mass(store.package_kg or 0.0)} more of {store.fuel.label}"
            yield OneMore(what, replace(kitchen, stock_j=stock), price)
    for kind, name, label, places in things_of(scenario):
        resource = f"{kind}:{name}"
        capacity = {**kitchen.capacity, resource: kitchen.capacity[resource] + places}
        yield OneMore(
            f"one more {label}",
            replace(kitchen, capacity=capacity),
            places * _scarcity(mix.prices, kitchen, resource),
        )


def things_of(scenario: Scenario) -> Iterator[tuple[str, str, str, int]]:
    """Yield kind, name, label and places of everything that is used and not used up."""
    yield from (("cooker", c.cooker.name, c.cooker.label, 1) for c in scenario.cookers)
    yield from (("stove", s.stove.name, s.stove.label, s.stove.places) for s in scenario.stoves)
    yield from (("pot", p.pot.name, p.pot.label, 1) for p in scenario.pots)


def _scarcity(prices: Mapping[str, float], kitchen: Kitchen, resource: str) -> float:
    """Return what one more would save at most in the linear program, at its prices."""
    _, _, name = resource.partition(":")
    total = 0.0
    for row, price in prices.items():
        if row.startswith(f"one_at_a_time[{resource},"):
            total -= price
        elif row.startswith(f"stove_has_time[{name},"):
            hours = kitchen.windows[int(row[:-1].rpartition(",")[2])]
            total -= price * (hours.end_min - hours.start_min)
    return total


def mass(kg: float) -> str:
    """Write a package."""
    return f"{kg:g} kg" if kg >= 1 else f"{kg * 1000:.0f} g"


def worth_of(
    scenario: Scenario,
    columns: Sequence[Column],
    kitchen: Kitchen,
    mix: Mix,
    base: Result,
    effort: Effort,
) -> tuple[Worth, ...]:
    """Return what one more of each thing that the linear program finds scarce would save.

    The duals say where to look; the worth itself is the difference of two schedules, so it is
    known to within the gap.
    """
    goal, told = scenario.goals[0], []
    for more in one_more_each(scenario, kitchen, mix):
        if effort.dropped:
            break
        if not _scarce(more, base, effort.gap):
            continue
        again = schedule(
            columns,
            more.kitchen,
            goals=(goal,),
            gap=effort.gap,
            time_limit_s=effort.time_limit_s,
            progress=effort.progress,
            solver=effort.solver,
        )
        if again.value is not None and base.value is not None:
            saved = max(0.0, base.value - again.value)
            told.append(told_in(goal, more.what, saved, more.dual, scenario.currency))
    return tuple(sorted(told, key=lambda worth: -worth.value))


def _scarce(more: OneMore, base: Result, gap: float) -> bool:
    """Tell whether more of it may save more than the gap, below which it is not known."""
    return more.dual is not None and more.dual > max(TINY, gap * abs(base.value or 0.0))


def told_in(goal: str, what: str, value: float, dual: float | None, currency: str) -> Worth:
    """Return a worth in the goal's unit: money, minutes, or MJ."""
    if goal == "money":
        return Worth(what, value, currency, dual)
    if goal == "tending":
        return Worth(what, value, "min", dual)
    return Worth(what, value / MJ, "MJ", None if dual is None else dual / MJ)
