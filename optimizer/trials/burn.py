"""Fuel that was weighed against fuel that was to be burned: stretch by stretch, stove by stove.

A weigh-in tells of a fuel. What one stove burns is known where it alone burned that fuel between
two weigh-ins; else it is shared, and said so.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from optimizer.model.household import Scenario, Store
from optimizer.planning.stock import joules_per_kg
from optimizer.trials.record import Record, amount_in, weighed

EVEN = 1e-6
GRAIN_SD = 1 / math.sqrt(12)  # of a reading, in grains: anywhere within the last digit
Z90 = 1.645
FEWEST = 2  # stretches, below which nothing is known of how far it varies
MOST_HALF = 0.25  # of the ratio: a wider band is too uncertain to be taken
LOOSE = frozenset({"wood", "charcoal"})  # what the scenario says of its stock is a guess
LEAST_BURN = 1e-9


@dataclass(frozen=True, slots=True)
class Stretch:
    """What was burned of a fuel from one weigh-in to the next; kilograms, or joules."""

    start: int
    end: int
    measured: float
    predicted: float
    grain: float  # standard deviation of the two readings together
    stoves: tuple[str, ...]  # that burned it, by the course


@dataclass(frozen=True, slots=True)
class Ratio:
    """Measured over predicted burn, with how sure that is."""

    fuel: str
    stove: str | None  # None: of several stoves together
    stretches: tuple[Stretch, ...]

    @property
    def measured(self) -> float:
        """All that was measured."""
        return sum(each.measured for each in self.stretches)

    @property
    def predicted(self) -> float:
        """All that was predicted."""
        return sum(each.predicted for each in self.stretches)

    @property
    def value(self) -> float:
        """How many times as much was burned as predicted."""
        return self.measured / self.predicted

    @property
    def half(self) -> float | None:
        """Half the width of the 90 % band of the ratio; None where it cannot be known yet."""
        count = len(self.stretches)
        if count < FEWEST:
            return None
        weighing = math.sqrt(sum(each.grain**2 for each in self.stretches)) / self.predicted
        off = sum((s.measured - self.value * s.predicted) ** 2 for s in self.stretches)
        scatter = math.sqrt(off * count / (count - 1)) / self.predicted
        return max(Z90 * weighing, _student(count - 1) * scatter)

    @property
    def why_not(self) -> str:
        """Why it is not to be taken yet; empty where it may."""
        if self.stove is None:
            return "several stoves burned it between weigh-ins; weigh before and after one of them"
        if len(self.stretches) < FEWEST:
            more = FEWEST + 1 - len(self.stretches)
            return f"too few weigh-ins: {more} more, with this stove burning between them"
        half = self.half or 0.0
        if not self.value > 0 or half > MOST_HALF * self.value:
            return "too uncertain yet: weigh in more often, or on a finer scale"
        return ""


def _student(freedom: int) -> float:
    """Return the deviation that nine in ten of few samples keep within."""
    from scipy.special import stdtrit  # takes long to load

    return float(stdtrit(freedom, 0.95))


def stretches_of(record: Record, store: Store) -> list[Stretch]:
    """Return what was measured of one fuel, from weigh-in to weigh-in.

    Parameters
    ----------
    record
        The log beside its scenario.
    store
        The store of the fuel.
    """
    return [
        stretch
        for (start, before), (end, after) in pairwise(_readings(record, store))
        if end > start and (stretch := _stretch(record, store, (start, end), (before, after)))
    ]


Reading = tuple[float, float]  # amount, standard deviation


def _readings(record: Record, store: Store) -> Iterator[tuple[int, Reading]]:
    """Yield what is known of a stock and when: whole packages at the start, then weigh-ins."""
    whole = (store.stock_kg or 0.0) / store.package_kg if store.package_kg else 0.0
    if store.fuel.kind not in LOOSE and whole and abs(whole - round(whole)) < EVEN:
        yield 0, (store.stock_kg or 0.0, 0.0)
    for entry in weighed(record, store.fuel.name):
        if entry.left is not None:
            amount = amount_in(entry.left, store) - (entry.empty or 0.0)
            one = amount_in(entry.left, store) / entry.left.value if entry.left.value else 1.0
            yield entry.at, (amount, entry.left.grain * one * GRAIN_SD)


def _stretch(
    record: Record, store: Store, span: tuple[int, int], readings: tuple[Reading, Reading]
) -> Stretch | None:
    """Return one stretch, or None where nothing was to burn in it."""
    start, end = span
    came = sum(
        amount_in(entry.added, store)
        for entry in weighed(record, store.fuel.name)
        if entry.added is not None and start < entry.at <= end
    )
    by_stove: dict[str, float] = {}
    for burnt in record.burnt:
        if burnt.fuel == store.fuel.name:
            joules = by_stove.get(burnt.stove, 0.0) + burnt.between(start, end)
            by_stove[burnt.stove] = joules
    predicted = sum(by_stove.values()) / (joules_per_kg(store.fuel) or 1.0)
    if predicted <= LEAST_BURN:
        return None
    (before, before_sd), (after, after_sd) = readings
    stoves = tuple(name for name, joules in by_stove.items() if joules > 0)
    grain = math.hypot(before_sd, after_sd)
    return Stretch(start, end, before + came - after, predicted, grain, stoves)


def ratios(record: Record) -> tuple[Ratio, ...]:
    """Return measured against predicted burn: of each stove alone, else of its fuel.

    Parameters
    ----------
    record
        The log beside its scenario.
    """
    found: list[Ratio] = []
    for store in record.scenario.stores:
        mine = stretches_of(record, store)
        alone = {each.stoves[0]: None for each in mine if len(each.stoves) == 1}
        for stove in alone:
            own = tuple(each for each in mine if each.stoves == (stove,))
            found.append(Ratio(store.fuel.name, stove, own))
        shared = tuple(each for each in mine if len(each.stoves) > 1)
        if shared:
            found.append(Ratio(store.fuel.name, None, shared))
    return tuple(found)


def measured_values(ratio: Ratio, scenario: Scenario) -> dict[str, object]:
    """Return what is written of a stove in a scenario file, as it was measured.

    Parameters
    ----------
    ratio
        Of one stove.
    scenario
        The household.
    """
    stove = next(own.stove for own in scenario.stoves if own.stove.name == ratio.stove)
    count = len(ratio.stretches)
    return {
        "efficiency": float(f"{stove.efficiency / ratio.value:.3g}"),
        "source": f"burned {ratio.value:.2f} times the plan's fuel in {count} stretches between "
        "weigh-ins of the log",
    }


def of_stove(found: Iterable[Ratio], stove: str) -> Ratio | None:
    """Return the ratio of one stove, or None.

    Parameters
    ----------
    found
        All of them.
    stove
        Its name.
    """
    return next((ratio for ratio in found if ratio.stove == stove), None)


def burners(found: Sequence[Ratio]) -> list[str]:
    """Return the stoves that are measured well enough for their numbers to be taken.

    Parameters
    ----------
    found
        All ratios.
    """
    return [ratio.stove for ratio in found if ratio.stove is not None and not ratio.why_not]
