"""A finished plan tried in 2,000 seeded draws: chances, bands of fuel, and what to measure."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from optimizer.model.household import Scenario
from optimizer.model.plan import Chances, FuelChances, Plan
from optimizer.planning.stock import stock_j
from optimizer.studies.chances.draws import Array, Draws
from optimizer.studies.chances.measuring import measurings
from optimizer.studies.chances.trying import MJ, Tried, tried

DRAWS, SEED = 2000, 7
BAND = (0.1, 0.5, 0.9)


def with_chances(plan: Plan, scenario: Scenario, *, count: int = DRAWS, seed: int = SEED) -> Plan:
    """Return a plan with the chances of its dishes and the bands of its fuels filled in.

    Parameters
    ----------
    plan : Plan
        Any plan; one without steps comes back as it is.
    scenario : Scenario
        Its household.
    count : int
        How many tries.
    seed : int
        The same seed gives the same numbers.

    Returns
    -------
    Plan
        With ``chances``, and those of each step and fuel.
    """
    if not plan.steps:
        return plan
    draws = Draws(count, seed)
    found = tried(plan, scenario, draws)
    fuels = tuple(_fuels(plan, scenario, found))
    bands = {each.name: each for each in fuels}
    return replace(
        plan,
        steps=tuple(
            replace(
                step,
                chance_done=float(found.done(n).mean()),
                chance_hot=None if (hot := found.hot(n)) is None else float(hot.mean()),
            )
            for n, step in enumerate(plan.steps)
        ),
        fuels=tuple(
            replace(use, p10_mj=bands[use.name].p10_mj, p90_mj=bands[use.name].p90_mj)
            for use in plan.fuels
        ),
        chances=Chances(
            draws=count,
            seed=seed,
            all_well=float(found.all_well().mean()),
            fuel_mj=band(found.used_mj()),
            fuels=fuels,
            measuring=measurings(found, scenario, draws),
        ),
    )


def band(values: Array) -> tuple[float, float, float]:
    """Return the values that a tenth, a half and nine tenths of the tries stay below."""
    low, middle, high = (float(each) for each in np.quantile(values, BAND))
    return low, middle, high


def _fuels(plan: Plan, scenario: Scenario, found: Tried) -> Iterator[FuelChances]:
    stores = {store.fuel.name: store for store in scenario.stores}
    for use in plan.fuels:
        low, middle, high = band(found.used_mj(use.name))
        there = stock_j(stores[use.name])
        out = None if there is None else tuple(_runs_out(found, use.name, there / MJ, scenario))
        yield FuelChances(use.name, low, middle, high, out)


def _runs_out(found: Tried, fuel: str, there_mj: float, scenario: Scenario) -> Iterator[float]:
    """Yield the chance that a fuel has run out by the end of each day."""
    for day in range(1, scenario.days + 1):
        yield float((found.used_mj(fuel, day) > there_mj).mean())
