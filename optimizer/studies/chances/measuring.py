"""What to measure: how much narrower the plan's band of fuel would be if one thing were known.

In every try the thing is measured as it is in that try, with the error of a kitchen scale, a clock
or a thermometer. Tries with like readings are put together; the variance of the fuel that is left
within them, over the whole variance, is what the measurement leaves of it.
"""

from collections.abc import Iterator
from typing import Literal

import numpy as np

from optimizer.model.household import Scenario
from optimizer.model.plan import Measuring
from optimizer.studies.chances.draws import Array, Draws
from optimizer.studies.chances.stoves import efficiency, heat, power
from optimizer.studies.chances.trying import Tried

GROUPS = 25
Kind = Literal["weigh_fuel", "time_boil", "test_box"]
FEW = 4  # tries in a group at the least


def measurings(found: Tried, scenario: Scenario, draws: Draws) -> tuple[Measuring, ...]:
    """Return what may be measured, what narrows the band of the plan's fuel most first.

    Parameters
    ----------
    found : Tried
        The plan in every try.
    scenario : Scenario
        Its household.
    draws : Draws
        The tries.
    """
    used = found.used_mj()
    low, high = np.quantile(used, (0.1, 0.9))
    band = float(high - low)
    told = []
    for kind, thing, true in _readings(found, draws):
        noise = draws.factor(f"{kind} of {thing}", scenario.rules.measured_spread)
        share = left_share(used, true * noise)
        told.append(Measuring(kind, thing, band, band * share**0.5))
    return tuple(sorted(told, key=lambda each: (each.left_mj, each.kind, each.thing)))


def left_share(values: Array, reading: Array) -> float:
    """Return the share of a variance that is left once a reading is known, 0 to 1.

    Parameters
    ----------
    values : ndarray
        What is not known, by try.
    reading : ndarray
        What is read, by try.
    """
    whole = float(np.var(values))
    groups = max(1, min(GROUPS, len(values) // FEW))
    if not whole or np.ptp(reading) == 0:
        return 1.0
    parts = np.array_split(values[np.argsort(reading, kind="stable")], groups)
    within = float(np.mean([np.var(part, ddof=1) for part in parts]))
    return min(1.0, within / whole)


def _readings(found: Tried, draws: Draws) -> Iterator[tuple[Kind, str, Array]]:
    """Yield what may be measured of each thing that the plan uses, as it is in every try."""
    seen: set[str] = set()
    for course in found.courses:
        way, stove = course.way, course.way.own.stove
        if stove.name not in seen and not way.sunny:
            seen.add(stove.name)
            calm = np.zeros(draws.count)
            into = efficiency(way.own, way.at, calm, draws) * heat(way.store.fuel, way.at, draws)
            yield "weigh_fuel", stove.name, 1 / into
            yield "time_boil", stove.name, 1 / (into * power(way.own, way.at.rules, draws))
        if way.cooker is not None and (name := way.cooker.cooker.name) not in seen:
            seen.add(name)
            yield "test_box", name, draws.factor(f"loss of {name}", way.body.loss_spread)
