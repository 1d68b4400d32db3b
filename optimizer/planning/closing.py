"""The gap that prices leave, closed by one program over the columns that may still matter.

At any prices that were tried, a schedule that holds a column comes to no less than the bound there
with the day's share of it exchanged for what the day's classes come to with that column. What is
more than the schedule known is left out; about half of a week's columns are.
"""

import time
from collections.abc import Sequence

from optimizer.planning.board import terms
from optimizer.planning.cheapest import Prices
from optimizer.planning.columns import Column
from optimizer.planning.ladder import Ladder
from optimizer.planning.pricing import Day, key_of, worth
from optimizer.planning.rows import build
from optimizer.planning.solver import set_goal, solve

MOST = 15_000  # columns left; more are not looked at together
_ROOM = 1e-6


def close(ladder: Ladder) -> bool:
    """Solve what is left whole, if it is not too much.

    Parameters
    ----------
    ladder : Ladder
        With a schedule, and prices that were tried.

    Returns
    -------
    bool
        Whether it was looked at; plan and bound are then the ladder's.
    """
    if ladder.value is None or not ladder.tried:
        return False
    columns = left(ladder, ladder.value)
    if len(columns) > MOST:
        return False
    board = build(columns, ladder.kitchen)
    set_goal(board.program, terms(board, ladder.goal))
    outcome = solve(
        board.program,
        gap=ladder.gap,
        time_limit_s=ladder.until - time.perf_counter(),
        progress=lambda _seconds, best, bound: ladder.report(*_both(ladder, best, bound)),
        search="presolved",
        enough=lambda best, bound: _near(ladder, *_both(ladder, best, bound)),
    )
    if outcome.solved:
        ladder.better(board.chosen())
    if outcome.bound is not None and outcome.status in ("optimal", "feasible", "no_solution"):
        ladder.higher(min(outcome.bound, ladder.value))
    return True


def _both(
    ladder: Ladder, best: float | None, bound: float | None
) -> tuple[float | None, float | None]:
    """Return the better of two values, and of two bounds."""
    values = [each for each in (best, ladder.value) if each is not None]
    bounds = [each for each in (bound, ladder.bound) if each is not None]
    return min(values, default=None), max(bounds, default=None)


def _near(ladder: Ladder, value: float | None, bound: float | None) -> bool:
    return value is not None and bound is not None and value - bound <= ladder.gap * abs(value)


def left(ladder: Ladder, most: float) -> Sequence[Column]:
    """Return the columns of which a schedule that comes to no more than that may be made.

    Parameters
    ----------
    ladder : Ladder
        With prices that were tried.
    most : float
        What it may come to [program's units]

    Returns
    -------
    sequence of Column
        In the order of all.
    """
    kept: set[int] = set()
    for day in ladder.days:
        places = set(range(len(day.kind.columns)))
        for bound, at in ladder.tried:
            places &= _within(day, ladder.goal, at, most - bound)
        kept |= {id(block[place]) for block in day.kind.blocks for place in places}
    return [column for column in ladder.columns if id(column) in kept]


def _within(day: Day, goal: str, at: Prices, room: float) -> set[int]:
    """Return positions of columns that make a day dearer than its bound by so much at most."""
    key = key_of(at)
    guessed = day.guesses[key]
    proven = day.proofs.get((key, ()), min(worth(plan, goal, at) for plan in day.kind.plans))
    most = room + proven - guessed.bound
    most += _ROOM * max(1.0, abs(most))
    return {
        place
        for places, cost in zip(day.members, guessed.reduced_costs, strict=True)
        if cost <= most
        for place in places
    }
