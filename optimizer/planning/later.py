"""Further goals, block by block, within what the first goal left."""

import time
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from optimizer.planning.board import scale, start_of, terms
from optimizer.planning.columns import Column
from optimizer.planning.ladder import Ladder
from optimizer.planning.ledger import fuel_of, price_of
from optimizer.planning.pricing import Day, promising
from optimizer.planning.rows import build
from optimizer.planning.solver import add_row, set_goal, solve

_NEAR = 0.03  # columns so near to the best of their day, as a share
_NODES = 100  # of one search
_ROUND = 1e-6


def then(ladder: Ladder, goals: Sequence[str], most: float) -> None:
    """Make further goals less, block by block, each with the fuel and the share it has now.

    Parameters
    ----------
    ladder : Ladder
        With a schedule.
    goals : sequence of str
        The next first.
    most : float
        What the first goal may come to in all [program's units]
    """
    if ladder.value is None:
        return
    room = max(0.0, most - ladder.value) / max(1, sum(day.kind.count for day in ladder.days))
    chosen: list[Column] = []
    for day in ladder.days:
        known: dict[tuple[int, ...], tuple[int, ...]] = {}
        for block in day.kind.blocks:
            picks = _picks(block, ladder.chosen)
            if picks not in known:
                known[picks] = _then_block(ladder, day, picks, goals, room)
            chosen += [block[pick] for pick in known[picks]]
    ladder.chosen = tuple(chosen)
    ladder.value = price_of(ladder.chosen, ladder.kitchen, ladder.goal) / scale(ladder.goal)


def _picks(block: Sequence[Column], chosen: Sequence[Column]) -> tuple[int, ...]:
    mine = Counter(id(column) for column in chosen)
    return tuple(n for n, column in enumerate(block) for _ in range(mine[id(column)]))


def _then_block(
    ladder: Ladder, day: Day, picks: tuple[int, ...], goals: Sequence[str], room: float
) -> tuple[int, ...]:
    kind, at = day.kind, ladder.prices
    mine = [kind.columns[pick] for pick in picks]
    near = {*promising(day, ladder.goal, at, _NEAR), *picks}
    few = [kind.columns[place] for place in sorted(near)]
    burnt = dict.fromkeys(ladder.kitchen.stock_j, 0.0) | fuel_of(mine, kind.kitchen)
    kitchen = replace(kind.kitchen, stock_j=burnt)
    board = build(few, kitchen, tending="tending" in goals)
    worth = price_of(mine, kitchen, ladder.goal) / scale(ladder.goal)
    for before, goal in pairwise((ladder.goal, *goals)):
        room_now = room if before == ladder.goal else 0.0
        add_row(
            board.program,
            f"keep[{before}]",
            terms(board, before),
            "<=",
            worth + room_now + _ROUND,
        )
        set_goal(board.program, terms(board, goal))
        outcome = solve(
            board.program,
            gap=ladder.gap,
            time_limit_s=ladder.until - time.perf_counter(),
            start=start_of(board, mine),
            search="plain",
            most_nodes=_NODES,
        )
        if not outcome.solved or outcome.objective is None or not ladder.report(None, None):
            break
        mine, worth = list(board.chosen()), outcome.objective
    return _picks(kind.columns, mine)
