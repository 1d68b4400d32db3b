"""A long schedule in two levels: days at a price, then all days together.

First every kind of day is planned for itself, with each fuel at a price: that gives the bound, and
plans to combine. Then the whole program is solved over the columns that may still matter, or, if
there are too many, cases of what a torn day may burn are looked at. A schedule that is one block
gains nothing by it.
"""

from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from functools import partial

from optimizer.planning.board import MJ, scale
from optimizer.planning.branching import branch
from optimizer.planning.cheapest import Prices
from optimizer.planning.closing import close
from optimizer.planning.combining import combine, guessed, next_prices, planned
from optimizer.planning.days import DayPlan
from optimizer.planning.exchange import exchange
from optimizer.planning.ladder import THREADS, Ladder
from optimizer.planning.mix import mix
from optimizer.planning.pricing import Day, guess, prove, sketched, worth
from optimizer.planning.walk import Walk

_GUESSES, _PROOFS = 8, 6  # prices tried at most
_AROUND = (0.97, 1.03, 0.9, 1.1)  # of the best prices
_EXCHANGES = 6  # rounds of them
_NODES = 20  # of a proof at a price that may not stay
_DEAR = (2.0, 10.0)  # where the store is so small that no plans fit yet
_ROUNDING = 1e-9


def climb(ladder: Ladder) -> None:
    """Search in two levels until the gap is closed, time is over, or nothing more is gained."""
    first = mix(ladder.columns, ladder.kitchen, goal=ladder.goal)
    if first.value is None:
        return
    ladder.days = tuple(ladder.memory.day(kind, ladder.goal) for kind in ladder.kinds)
    for day in ladder.days:
        day.until = ladder.until
    known = ladder.memory.prices.get(ladder.goal, {})
    start = _first_prices(ladder, first.prices)
    met = bool(known) and known.keys() == start.keys()  # the same fuels have a limit
    at = _guess(ladder, known if met else start)
    if at is None or ladder.over():
        return
    first_at = known if met else at
    if _each(ladder, sketched, first_at) is not None:
        _put_together(ladder, first_at)  # a plan to have, should time run out in the proof
    _prove(ladder, first_at)
    ladder.memory.prices[ladder.goal] = ladder.prices
    if not ladder.chosen:
        _look_around(ladder, _DEAR)
    if not ladder.over() and not close(ladder):
        _look_around(ladder, _AROUND)
        branch(ladder)


def _first_prices(ladder: Ladder, by_row: Mapping[str, float]) -> Prices:
    """Return the prices of the linear program of sources, 0 where a fuel is not short there."""
    unit = MJ / scale(ladder.goal)
    rows = {fuel: f"stock_is_enough[{fuel}]" for fuel in ladder.kitchen.stock_j}
    at = {fuel: -by_row.get(row, 0.0) * unit for fuel, row in rows.items()}
    return {fuel: price if price > _ROUNDING else 0.0 for fuel, price in at.items()}


def _each(
    ladder: Ladder, work: Callable[[Day, str, Prices], float | None], at: Prices
) -> float | None:
    """Do some work for every kind of day, two at a time, and return the bound it makes.

    None if a day cannot be cooked, or the search is to stop.
    """
    bound = -sum(price * ladder.kitchen.stock_j[fuel] / MJ for fuel, price in at.items())
    with ThreadPoolExecutor(THREADS) as pool:
        made = pool.map(lambda day: work(day, ladder.goal, at), ladder.days)
        for day, each in zip(ladder.days, made, strict=True):
            if each is None or ladder.over():
                pool.shutdown(cancel_futures=True)
                return None
            bound += day.kind.count * each
    return bound


def _guessed(day: Day, goal: str, at: Prices) -> float | None:
    made = guess(day, goal, at)
    return None if made is None else made.bound


def _guess(ladder: Ladder, at: Prices) -> Prices | None:
    """Find good prices by the classes; None if a day cannot be cooked."""
    walk, counts = Walk(at), [day.kind.count for day in ladder.days]
    for _ in range(_GUESSES):
        bound = _each(ladder, _guessed, walk.at)
        if bound is None:
            return None
        ladder.higher(bound)
        points = guessed(ladder.days)
        wished, most, _ = next_prices(counts, points, ladder.kitchen, tuple(at), walk.dear)
        if walk.settled(bound, most, ladder.gap) or not at or ladder.over():
            break
        walk.on(wished)
    return walk.best


def _prove(ladder: Ladder, at: Prices) -> None:
    """Plan the days by their columns at those prices and near to them."""
    walk = Walk(at)
    for _ in range(_PROOFS):
        bound = _each(ladder, partial(prove, gap=ladder.day_gap, most_nodes=_NODES), walk.at)
        if bound is None:
            return
        ladder.tried.append((bound, walk.at))
        ladder.higher(bound)
        _put_together(ladder, walk.at)
        wished, most = _wished(ladder, walk)
        settled = walk.settled(bound, most, ladder.gap)
        if ladder.over() or settled:
            break
        walk.on(wished)


def _wished(ladder: Ladder, walk: Walk) -> tuple[Prices, float]:
    """Return the prices that the plans known make the best of, and how high a bound they allow."""
    counts = [day.kind.count for day in ladder.days]
    points = planned((day.kind.plans for day in ladder.days), ladder.goal)
    wished, most, _ = next_prices(counts, points, ladder.kitchen, tuple(walk.at), walk.dear)
    return wished, most


def _put_together(ladder: Ladder, at: Prices) -> None:
    """Combine the plans known, and others that differ from those chosen in one dish."""
    ladder.better(combine(ladder.days, ladder.goal, ladder.kitchen, ladder.day_gap))
    for _ in range(_EXCHANGES):
        before = ladder.value
        if ladder.over():
            return
        for day in ladder.days:
            for plan in _to_change(ladder, day, at):
                exchange(day, plan, ladder.goal, at)
        ladder.better(combine(ladder.days, ladder.goal, ladder.kitchen, ladder.day_gap))
        if ladder.value == before:
            return


def _to_change(ladder: Ladder, day: Day, at: Prices) -> list[DayPlan]:
    """Return the plans of a day that are chosen, or best at those prices."""
    best = min(day.kind.plans, key=lambda plan: worth(plan, ladder.goal, at))
    return [best, *day.kind.chosen(ladder.chosen)]


def _look_around(ladder: Ladder, shares: Sequence[float]) -> None:
    """Plan the days at prices a little higher and lower, to have more plans to combine."""
    prices = ladder.prices
    for share in shares:
        if ladder.over():
            return
        _each(ladder, sketched, {fuel: share * price for fuel, price in prices.items()})
        _put_together(ladder, prices)
