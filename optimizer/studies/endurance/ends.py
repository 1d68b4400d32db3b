"""Which fuel ends first, and on which day."""

from collections.abc import Mapping
from dataclasses import dataclass

from optimizer.model.household import Scenario
from optimizer.model.plan import Plan
from optimizer.planning.stock import joules_per_kg, usable_j

MJ = 1e6


@dataclass(frozen=True, slots=True)
class End:
    """One limited fuel over the days of a plan, without its reserve."""

    fuel: str
    usable_mj: float
    left_mj: float  # above the reserve, after the last day
    day: int | None  # the last day it burns, where less is left than such a day takes
    weight: float  # part of what limits the days, of one in all
    j_per_kg: float | None  # None: no mass

    @property
    def usable_kg(self) -> float | None:
        """What may be used [kg]."""
        return None if self.j_per_kg is None else self.usable_mj * MJ / self.j_per_kg

    @property
    def left_kg(self) -> float | None:
        """What is left above the reserve [kg]."""
        return None if self.j_per_kg is None else self.left_mj * MJ / self.j_per_kg

    @property
    def left_share(self) -> float:
        """Share of what may be used that is left."""
        return self.left_mj / self.usable_mj if self.usable_mj else 0.0


def burnt_by_day(plan: Plan, scenario: Scenario) -> dict[str, list[float]]:
    """Return what is burned of each fuel on each day.

    Parameters
    ----------
    plan : Plan
        A plan.
    scenario : Scenario
        Its household.

    Returns
    -------
    dict of str to list of float
        Fuel's name to energies, day 1 first [MJ]
    """
    fuel_of = {own.stove.name: own.stove.fuel for own in scenario.stoves}
    burnt = {store.fuel.name: [0.0] * scenario.days for store in scenario.stores}
    for step in plan.steps:
        burnt[step.fuel][step.on // 1440] += step.fuel_mj
    for fire in plan.fires:
        burnt[fuel_of[fire.stove]][fire.day - 1] += fire.start_mj + fire.idle_mj
    return burnt


def ends_of(plan: Plan, scenario: Scenario, prices: Mapping[str, float]) -> tuple[End, ...]:
    """Return when each limited fuel ends, those first that end first.

    Parameters
    ----------
    plan : Plan
        A plan for as many days as the store lasts.
    scenario : Scenario
        Its household.
    prices : mapping of str to float
        Share of the store for a joule of each fuel.

    Returns
    -------
    tuple of End
        A fuel that is never burned, or of which another day's is left, does not end.
    """
    burnt, told = burnt_by_day(plan, scenario), []
    for store in scenario.stores:
        usable = usable_j(store)
        if usable is None:
            continue
        name = store.fuel.name
        on = [day for day, mj in enumerate(burnt[name], start=1) if mj > 0]
        left = usable / MJ - sum(burnt[name])
        spent = bool(on) and left < sum(burnt[name]) / len(on)
        weight = prices.get(name, 0.0) * usable
        day, heat = on[-1] if spent else None, joules_per_kg(store.fuel)
        told.append(End(name, usable / MJ, max(0.0, left), day, weight, heat))
    return tuple(sorted(told, key=lambda e: (e.day is None, e.day or 0, e.left_share)))


def first_short(plan: Plan, scenario: Scenario) -> tuple[str, int] | None:
    """Return the first fuel that is short when a plan is gone through again and again.

    Parameters
    ----------
    plan : Plan
        A plan for one round of the menu.
    scenario : Scenario
        Its household.

    Returns
    -------
    tuple of str and int
        The fuel and the first day for which it does not suffice; None where none is limited.
    """
    burnt, found = burnt_by_day(plan, scenario), []
    for store in scenario.stores:
        usable, mine = usable_j(store), burnt[store.fuel.name]
        if usable is None or sum(mine) <= 0:
            continue
        rounds = int(usable / MJ / sum(mine) * (1 + 1e-9))
        left, day = usable / MJ - rounds * sum(mine), rounds * len(mine)
        for each in mine:
            day += 1
            left -= each
            if left < -1e-6 * usable / MJ:
                break
        found.append((day, store.fuel.name))
    if not found:
        return None
    day, fuel = min(found)
    return fuel, day
