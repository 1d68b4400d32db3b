"""A day when sticks fail: the same day on the other stoves, in rain and wind.

All that is cooked on a stove for sticks is cooked that day on what else there is, in rain and in at
least a moderate breeze. What this burns has to be held back until the day comes.
"""

import math
from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from itertools import product

from optimizer.model.household import DAY_MIN, Scenario, Window
from optimizer.model.plan import Plan
from optimizer.planning.columns import Column, Kitchen
from optimizer.planning.kitchen import choices, kitchen_of
from optimizer.planning.schedule import schedule
from optimizer.planning.shortage import least_change
from optimizer.studies.endurance.days import checked_plan
from optimizer.studies.endurance.menus import is_washing, without
from optimizer.studies.endurance.pool import EVEN, Pool
from optimizer.studies.endurance.repeat import MJ
from optimizer.studies.endurance.watch import Watch

# Lower edge of Beaufort 4 (moderate breeze: raises dust and loose paper), World Meteorological
# Organization's scale; from memory.
BREEZE_M_S = 5.5
LEAST_CHANGE_S = 2.0


@dataclass(frozen=True, slots=True)
class Held:
    """What of one fuel has to be held back."""

    fuel: str
    mj: float
    kg: float | None


@dataclass(frozen=True, slots=True)
class Fallback:
    """One day of the menu without the stoves for sticks."""

    day: int
    plan: Plan | None  # None: no fallback
    held: tuple[Held, ...] = ()
    enough: bool = False  # the store has it, above the reserve
    cold: tuple[str, ...] = ()  # dishes that cannot be cooked that day
    known: bool = True  # False: not looked at to the end


def failing(scenario: Scenario) -> tuple[str, ...]:
    """Return the names of the stoves that burn sticks or other wood."""
    wood = {store.fuel.name for store in scenario.stores if store.fuel.kind == "wood"}
    return tuple(own.stove.name for own in scenario.stoves if own.stove.fuel in wood)


def fallbacks(scenario: Scenario, *, watch: Watch, pool: Pool) -> tuple[Fallback, ...]:
    """Plan every day of the menu once more without sticks.

    Parameters
    ----------
    scenario : Scenario
        The household.
    watch : Watch
        How long to look.
    pool : Pool
        What is known already.

    Returns
    -------
    tuple of Fallback
        One for each day that was looked at; empty where no stove burns sticks.

    Raises
    ------
    CheckError
        If a plan fails the independent checker: a defect of this program.
    """
    told: list[Fallback] = []
    for day in range(1, scenario.days + 1) if failing(scenario) else ():
        if not watch.going(f"day {day} without sticks"):
            break
        told.append(_fallback(scenario, day, watch, pool))
    return tuple(told)


def _fallback(scenario: Scenario, day: int, watch: Watch, pool: Pool) -> Fallback:
    bad = bad_day(scenario, day)
    if not bad.items or not bad.stoves:
        return Fallback(day, None, cold=_labels(bad, range(len(bad.items))))
    free, nothing = _without_limit(bad), set[int]()
    washing = {item.number for item in bad.items if is_washing(item.dish)}
    for with_fuel, left_out in product((bad, free), (nothing, washing) if washing else (nothing,)):
        found = _try(with_fuel, bad, day, left_out, watch, pool)
        if found is not None:
            return found
    return _most_of(bad, day, washing, watch, pool)


def _most_of(bad: Scenario, day: int, washing: set[int], watch: Watch, pool: Pool) -> Fallback:
    """Return the day with as few dishes left out as can be, the washing water first."""
    eaten = without(_without_limit(bad), washing)
    missing = least_change(
        _columns(eaten, pool),
        kitchen_of(eaten),
        resources=(),
        time_limit_s=max(0.1, min(LEAST_CHANGE_S, watch.left_s)),
    )
    left_out = {*missing.dishes, *missing.no_way}
    cold = (*_labels(bad, washing), *_labels(eaten, left_out))
    found = _try(eaten, bad, day, left_out, watch, pool)
    if found is not None:
        return replace(found, cold=cold)
    return Fallback(day, None, cold=cold, known=missing.known and not watch.over)


def _try(
    free: Scenario, bad: Scenario, day: int, left_out: set[int], watch: Watch, pool: Pool
) -> Fallback | None:
    """Return the day without some dishes, or None if there is no such plan."""
    rest = without(free, left_out)
    chosen = _search(_columns(rest, pool), kitchen_of(rest), watch) if rest.items else ()
    if not chosen:
        return None
    return replace(_told(rest, bad, day, chosen), cold=_labels(bad, left_out))


def _columns(bad: Scenario, pool: Pool) -> tuple[Column, ...]:
    """Return the columns of a bad day; nothing is cooked the day before."""
    today = {n for n, window in enumerate(bad.windows) if window.day == bad.days}
    return tuple(
        column
        for column in choices(bad, known=pool.ways(bad)).columns
        if all(burn.window in today for burn in column.burns)
    )


def bad_day(scenario: Scenario, day: int) -> Scenario:
    """Return one day of a household in rain and wind, without the stoves for sticks.

    Parameters
    ----------
    scenario : Scenario
        The household.
    day : int
        The day, from 1.

    Returns
    -------
    Scenario
        Of two days: the day before is there only so that pulses can be put to soak.
    """
    lost, shift = failing(scenario), (2 - day) * DAY_MIN
    weather = scenario.weather[day - 1]
    wet = replace(weather, rain=True, wind_m_s=max(BREEZE_M_S, weather.wind_m_s), wet_sticks=True)
    windows = tuple(
        Window(w.start_min + shift, w.end_min + shift)
        for w in scenario.windows
        if w.day in (day - 1, day)
    )
    mine = [item for item in scenario.items if item.day == day]
    items = tuple(
        replace(item, number=number, day=2, serve_min=item.serve_min + shift)
        for number, item in enumerate(mine)
    )
    return replace(
        scenario,
        start=None,
        days=2,
        weather=(wet, wet),
        windows=windows,
        items=items,
        stoves=tuple(own for own in scenario.stoves if own.stove.name not in lost),
    )


def _search(columns: Sequence[Column], kitchen: Kitchen, watch: Watch) -> tuple[Column, ...]:
    """Return the schedule that burns least, or none."""
    if {column.item for column in columns} != set(kitchen.items):
        return ()
    found = schedule(
        columns,
        kitchen,
        goals=("energy",),
        gap=watch.gap,
        time_limit_s=max(0.1, min(watch.most_s, watch.left_s)),
        progress=lambda *_: watch.going(),
    )
    return found.chosen


def _told(rest: Scenario, bad: Scenario, day: int, chosen: tuple[Column, ...]) -> Fallback:
    """Return a fallback that was found with any amount of fuel; the store may have it or not."""
    plan, stock_j = checked_plan(rest, chosen), kitchen_of(bad).stock_j
    held = tuple(Held(use.name, use.used_mj, use.used_kg) for use in plan.fuels if use.used_mj > 0)
    enough = all(each.mj * MJ <= stock_j.get(each.fuel, math.inf) * (1 + EVEN) for each in held)
    return Fallback(day, plan, held, enough)


def _without_limit(scenario: Scenario) -> Scenario:
    stores = tuple(replace(each, stock_kg=None, stock_j=None) for each in scenario.stores)
    return replace(scenario, stores=stores)


def _labels(scenario: Scenario, numbers: Collection[int]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(scenario.items[n].dish.label for n in sorted(numbers)))
