"""A long schedule in two levels: days at a price, then all days together.

First every kind of day is planned for itself, with each fuel at a price: that gives the bound, and
plans to combine. Then the whole program is solved over the few columns that come near to the best
of their day. A schedule that is one block gains nothing by it.
"""

from collections.abc import Callable, Mapping
from concurrent.futures import ThreadPoolExecutor

from optimizer.planning.board import MJ, scale
from optimizer.planning.combining import combine, guessed, next_prices, planned
from optimizer.planning.ladder import Ladder
from optimizer.planning.mix import mix
from optimizer.planning.pricing import Day, Prices, day_of, guess, prove, sketched
from optimizer.planning.refilling import improve
from optimizer.planning.walk import Walk

THREADS = 2
_GUESSES, _PROOFS = 8, 6  # prices tried at most
_AROUND = (0.97, 1.03, 0.9, 1.1)  # of the best prices
_ROUNDING = 1e-9


def climb(ladder: Ladder) -> None:
    """Search in two levels until the gap is closed, time is over, or nothing more is gained."""
    first = mix(ladder.columns, ladder.kitchen, goal=ladder.goal)
    if first.value is None:
        return
    ladder.days = tuple(day_of(kind) for kind in ladder.kinds)
    at = _guess(ladder, _first_prices(ladder, first.prices))
    if at is None or ladder.over():
        return
    _prove(ladder, at)
    for share in _AROUND:
        if ladder.over():
            return
        _look_around(ladder, share)
    if ladder.chosen:
        improve(ladder)


def _first_prices(ladder: Ladder, by_row: Mapping[str, float]) -> Prices:
    """Return the prices of the linear program of sources, of fuels that are short there."""
    unit = MJ / scale(ladder.goal)
    rows = {fuel: f"stock_is_enough[{fuel}]" for fuel in ladder.kitchen.stock_j}
    at = {fuel: -by_row.get(row, 0.0) * unit for fuel, row in rows.items()}
    return {fuel: price for fuel, price in at.items() if price > _ROUNDING}


def _each(
    ladder: Ladder, work: Callable[[Day, str, Prices], float | None], at: Prices
) -> float | None:
    """Do some work for every kind of day, two at a time, and return the bound it makes."""
    with ThreadPoolExecutor(THREADS) as pool:
        least = list(pool.map(lambda day: work(day, ladder.goal, at), ladder.days))
    bound = -sum(price * ladder.kitchen.stock_j[fuel] / MJ for fuel, price in at.items())
    for day, each in zip(ladder.days, least, strict=True):
        if each is None:
            return None
        bound += day.kind.count * each
    return bound


def _guessed(day: Day, goal: str, at: Prices) -> float | None:
    made = guess(day, goal, at)
    return None if made is None else made.bound


def _guess(ladder: Ladder, at: Prices) -> Prices | None:
    """Find good prices by the classes; None if a day cannot be cooked."""
    walk = Walk(at)
    for _ in range(_GUESSES):
        bound = _each(ladder, _guessed, walk.at)
        if bound is None:
            return None
        ladder.higher(bound)
        wished, most = next_prices(
            ladder.days, guessed(ladder.days), ladder.kitchen, tuple(at), walk.dear
        )
        if walk.settled(bound, most, ladder.gap) or not at or ladder.over():
            break
        walk.on(wished)
    return walk.best


def _prove(ladder: Ladder, at: Prices) -> None:
    """Plan the days by their columns at those prices and near to them."""
    walk = Walk(at)
    for _ in range(_PROOFS):
        bound = _each(ladder, prove, walk.at)
        if bound is None:
            return
        ladder.tried.append((bound, walk.at))
        ladder.higher(bound)
        ladder.better(combine(ladder.days, ladder.goal, ladder.kitchen))
        points = planned(ladder.days, ladder.goal)
        wished, most = next_prices(ladder.days, points, ladder.kitchen, tuple(at), walk.dear)
        settled = walk.settled(bound, most, ladder.gap)
        if ladder.over() or settled:
            break
        walk.on(wished)


def _look_around(ladder: Ladder, share: float) -> None:
    """Plan the days at prices a little higher or lower, to have more plans to combine."""
    at = {fuel: share * price for fuel, price in ladder.prices.items()}
    _each(ladder, sketched, at)
    ladder.better(combine(ladder.days, ladder.goal, ladder.kitchen))
