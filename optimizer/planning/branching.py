"""The gap that prices leave: what a torn day may burn is cut in two, and each half looked at.

At the best prices the linear form mostly gives one kind of day a bit of two plans. Either one such
day burns no more than that mixture, or all of them burn at least as much: in both cases the bound
is higher. The case with the lowest bound is looked at first.
"""

import heapq
import math
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, replace
from functools import cached_property

from optimizer.planning.board import MJ
from optimizer.planning.cheapest import Bands, Effort, Prices, cheapest
from optimizer.planning.combining import combine, next_prices, planned
from optimizer.planning.days import DayPlan
from optimizer.planning.ladder import THREADS, Ladder
from optimizer.planning.pricing import plans_within, promising, prove
from optimizer.planning.walk import Walk

_CASES = 200  # looked at, at most
_WALKS = 3  # prices tried for each
_STEPS = (0.03, 0.06)  # of a price
_GRID = 0.01  # prices are tried on a grid of this share, so that days are met again
_TORN = 1e-4
_NODES = 60
_NEAR = 0.03  # columns so near to the best of their day, as a share


@dataclass(frozen=True)
class Part:
    """Some days of a kind, and what each of them may burn."""

    number: int  # of the kind
    count: int
    bands: Bands = ()


@dataclass(frozen=True)
class Case:
    """One of the cases that together are all there is."""

    parts: tuple[Part, ...]
    bound: float
    at: Prices

    @cached_property
    def counts(self) -> list[int]:
        """How many days there are of each part."""
        return [part.count for part in self.parts]

    def plans(self, ladder: Ladder) -> list[Sequence[DayPlan]]:
        """Return the plans of each part."""
        return [plans_within(ladder.days[p.number].kind, p.bands) for p in self.parts]


def branch(ladder: Ladder) -> None:
    """Look at cases until the gap is closed, time is over, or too many were looked at."""
    if ladder.bound is None or not any(ladder.prices.values()):
        return
    parts = tuple(Part(n, day.kind.count) for n, day in enumerate(ladder.days))
    first = Case(parts, ladder.bound, ladder.prices)
    open_: list[tuple[float, int, Case]] = [(first.bound, 0, first)]
    closed = math.inf  # the lowest bound of a case that nothing more can be made of
    for serial in range(1, _CASES + 1):
        if ladder.over() or not open_:
            return
        _, _, case = heapq.heappop(open_)
        children = _halves(ladder, case)
        looked = [_look(ladder, child) for child in children] or [_at_its_prices(ladder, case)]
        for half, found in enumerate(looked):
            if found is case:
                closed = min(closed, case.bound)
            elif found is not None:
                heapq.heappush(open_, (found.bound, 2 * serial + half, found))
        ladder.better(combine(ladder.days, ladder.goal, ladder.kitchen, ladder.day_gap))
        lowest = min(closed, *(bound for bound, _, _ in open_[:1]), ladder.value or math.inf)
        if math.isfinite(lowest):
            ladder.higher(lowest)


def _at_its_prices(ladder: Ladder, case: Case) -> Case | None:
    """Return a case that is not torn with the bound at its own best prices; itself if no higher."""
    points, fuels = planned(case.plans(ladder), ladder.goal), tuple(case.at)
    wished, _, _ = next_prices(case.counts, points, ladder.kitchen, fuels, Walk(case.at).dear)
    found = _bound(ladder, case, wished)
    if found is None:
        return None
    if found <= case.bound + _TORN * ladder.gap * abs(found):
        return case
    return replace(case, bound=found)


def _halves(ladder: Ladder, case: Case) -> list[Case]:
    """Cut in two what the most torn part may burn; nothing if no part is torn."""
    plans = case.plans(ladder)
    points = planned(plans, ladder.goal)
    fuels, dear = tuple(case.at), Walk(case.at).dear
    _, _, shares = next_prices(case.counts, points, ladder.kitchen, fuels, dear)
    torn = [
        (spread, number, fuel, mean)
        for number, mine in enumerate(shares)
        for fuel in fuels
        for spread, mean in [_spread(mine, plans[number], fuel, case.at[fuel])]
        if spread > _TORN
    ]
    if not torn:
        return []
    _, number, fuel, mean = max(torn)
    part = case.parts[number]
    _fit(ladder, part, fuel, mean)
    low = replace(part, count=1, bands=_cut(part.bands, fuel, most=mean))
    high = replace(part, bands=_cut(part.bands, fuel, least=mean))
    rest = (replace(part, count=part.count - 1),) if part.count > 1 else ()
    others = case.parts[:number], case.parts[number + 1 :]
    return [
        replace(case, parts=(*others[0], low, *rest, *others[1])),
        replace(case, parts=(*others[0], high, *others[1])),
    ]


def _fit(ladder: Ladder, part: Part, fuel: str, most_mj: float) -> None:
    """Add the best plan of a torn day that burns no more than the mixture: it fits the store."""
    day, bands = ladder.days[part.number], _cut(part.bands, fuel, most=most_mj)
    near = [day.kind.columns[n] for n in promising(day, ladder.goal, ladder.prices, _NEAR)]
    found = cheapest(near, day.kind.kitchen, ladder.goal, {}, bands, Effort(ladder.gap, _NODES))
    if found.chosen:
        day.kind.add(found.chosen, ladder.goal)


def _spread(
    shares: Sequence[float], plans: Sequence[DayPlan], fuel: str, price: float
) -> tuple[float, float]:
    """Return how far the plans of a torn part lie apart in a fuel, and what it burns of it [MJ].

    Whole shares of several plans are no tear.
    """
    parts = [(s, dict(p.fuel_j).get(fuel, 0.0) / MJ) for s, p in zip(shares, plans, strict=True)]
    torn = [(share % 1.0, burnt) for share, burnt in parts if _TORN < share % 1.0 < 1 - _TORN]
    if not torn:
        return 0.0, 0.0
    burnt = [each for _, each in torn]
    mean = sum(share * each for share, each in torn) / sum(share for share, _ in torn)
    return price * (max(burnt) - min(burnt)), mean


def _cut(bands: Bands, fuel: str, least: float = 0.0, most: float = 1e9) -> Bands:
    kept = [band for band in bands if band[0] != fuel]
    for name, low, high in bands:
        if name == fuel:
            least, most = max(least, low), min(most, high)
    return tuple(sorted([*kept, (fuel, least, most)]))


def _look(ladder: Ladder, case: Case) -> Case | None:
    """Return a case with the highest bound found for it; None if there is nothing in it."""
    walk, bound, best = Walk(case.at, steps=_STEPS), case.bound, case.at
    for _ in range(_WALKS):
        found = _bound(ladder, case, walk.at)
        if found is None:
            return None
        if found > bound:
            bound, best = found, walk.at
        if ladder.over() or (ladder.value is not None and bound > ladder.value):
            break
        points = planned(case.plans(ladder), ladder.goal)
        fuels = tuple(case.at)
        wished, most, _ = next_prices(case.counts, points, ladder.kitchen, fuels, walk.dear)
        if walk.settled(found, most, ladder.gap):
            break
        walk.on(wished)
        walk.at = _on_grid(walk.at, ladder.prices)
    return replace(case, bound=bound, at=best)


def _on_grid(at: Prices, around: Prices) -> Prices:
    return {
        fuel: around[fuel] * (1 + _GRID * round((price / around[fuel] - 1) / _GRID))
        if around[fuel]
        else price
        for fuel, price in at.items()
    }


def _bound(ladder: Ladder, case: Case, at: Prices) -> float | None:
    """Return what a case comes to at least; None if a part of it cannot be cooked."""
    gap = ladder.day_gap
    total = -sum(price * ladder.kitchen.stock_j[fuel] / MJ for fuel, price in at.items())
    alike: dict[int, list[Part]] = {}
    for part in case.parts:
        alike.setdefault(part.number, []).append(part)

    def prove_all(parts: list[Part]) -> list[float | None]:
        """Prove the parts of one kind, one after the other: they share what is known of it."""
        day = ladder.days[parts[0].number]
        return [prove(day, ladder.goal, at, part.bands, gap) for part in parts]

    with ThreadPoolExecutor(THREADS) as pool:
        made = list(pool.map(prove_all, alike.values()))
    for parts, bounds in zip(alike.values(), made, strict=True):
        for part, bound in zip(parts, bounds, strict=True):
            if bound is None:
                return None
            total += part.count * bound
    return total
