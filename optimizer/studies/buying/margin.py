"""Fuel counted with a margin, so that it is enough at the household's confidence.

A plan counts what a usual stove burns of a usual fuel. Both vary; both spreads are relative. As
heat and efficiency are positive and divide, they are taken as lognormal: so much more than usual is
needed with the household's confidence. All fires of a stove vary together, which is the careful
way.
"""

import math
from collections.abc import Mapping
from dataclasses import replace
from statistics import NormalDist

from optimizer.model.household import OwnStove, Scenario, Store
from optimizer.planning.columns import Column, Lighting
from optimizer.planning.stock import store_of


def margin(own: OwnStove, store: Store, confidence: float) -> float:
    """Return how many times the usual fuel of a stove is enough with a confidence.

    Parameters
    ----------
    own : OwnStove
        The stove.
    store : Store
        Its fuel.
    confidence : float
        Chance that it is enough.
    """
    spread = math.hypot(own.stove.efficiency_spread, store.fuel.lhv_spread)
    return math.exp(NormalDist().inv_cdf(confidence) * spread)


def margins(scenario: Scenario) -> dict[str, float]:
    """Return the margin of every stove of a household by its name."""
    found = {}
    for own in scenario.stoves:
        store = store_of(scenario, own.stove.fuel)
        if store is not None:
            found[own.stove.name] = margin(own, store, scenario.confidence)
    return found


def careful(column: Column, by_stove: Mapping[str, float]) -> Column:
    """Return a column with its fuel at the margin, and without money: fuel is bought beforehand."""
    return replace(column, fuel_j=column.fuel_j * by_stove[column.stove], money=0.0)


def careful_fire(lighting: Lighting, by_stove: Mapping[str, float]) -> Lighting:
    """Return what it takes to light a stove, at the margin and without money."""
    more = by_stove[lighting.stove]
    return replace(
        lighting, start_j=lighting.start_j * more, idle_w=lighting.idle_w * more, money_j=0.0
    )
