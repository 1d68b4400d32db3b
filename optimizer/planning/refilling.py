"""Blocks planned again within what the others leave: of fuel, and of the first goal."""

import time
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from itertools import combinations, pairwise

from optimizer.planning.board import scale, start_of, terms
from optimizer.planning.columns import Column
from optimizer.planning.combining import combine, split
from optimizer.planning.ladder import Ladder
from optimizer.planning.ledger import fuel_of, price_of
from optimizer.planning.pricing import Day, promising
from optimizer.planning.rows import build
from optimizer.planning.solver import add_row, set_goal, solve

Place = tuple[int, int]  # kind, and block of that kind
_NEAR = 0.03  # columns so near to the best of their day, as a share
_GAP = 1e-3
_LIMIT_S = 3.0  # for one solve
_ROUND = 1e-6
_ROUNDS = 12  # blocks or pairs of them


def improve(ladder: Ladder) -> None:
    """Plan one block again, then two together, until the gap is closed or all were tried.

    Blocks of kinds that the linear form splits between two plans come first.
    """
    torn = split(ladder.days, ladder.goal, ladder.kitchen)
    places = [(n, 0) for n in torn] + [(n, 0) for n in range(len(ladder.days)) if n not in torn]
    rounds = [[place] for place in places]
    rounds += [[(n, 0), (n, 1)] for n in torn if ladder.days[n].kind.count > 1]
    rounds += [list(pair) for pair in combinations(places, 2)]
    for freed in rounds[:_ROUNDS]:
        if ladder.over():
            return
        _refill(ladder, freed)
        ladder.better(combine(ladder.days, ladder.goal, ladder.kitchen))


def _refill(ladder: Ladder, freed: Sequence[Place]) -> None:
    """Plan some blocks again with all the fuel that the others leave."""
    items: list[int] = []
    few: list[Column] = []
    for number, block in freed:
        kind = ladder.days[number].kind
        few += [
            kind.blocks[block][n]
            for n in promising(ladder.days[number], ladder.goal, ladder.prices, _NEAR)
        ]
        items += dict.fromkeys(column.item for column in kind.blocks[block])
    kept = tuple(c for c in ladder.chosen if c.item not in set(items))
    used = fuel_of(kept, ladder.kitchen)
    left = {fuel: j - used.get(fuel, 0.0) for fuel, j in ladder.kitchen.stock_j.items()}
    board = build(few, replace(ladder.kitchen, items=tuple(items), stock_j=left))
    set_goal(board.program, terms(board, ladder.goal))
    before = [column for column in ladder.chosen if column.item in set(items)]
    outcome = solve(
        board.program,
        gap=_GAP,
        time_limit_s=min(_LIMIT_S, ladder.until - time.perf_counter()),
        start=start_of(board, before),
        guess=False,
    )
    if outcome.solved:
        found = board.chosen()
        ladder.better(kept + found)
        for number, block in freed:
            ladder.days[number].kind.add_at(block, found, ladder.goal)


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
    kitchen = replace(kind.kitchen, stock_j=fuel_of(mine, kind.kitchen))
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
        left = ladder.until - time.perf_counter()
        start = start_of(board, mine)
        limit = min(_LIMIT_S, left)
        outcome = solve(board.program, gap=ladder.gap, time_limit_s=limit, start=start, guess=False)
        if not outcome.solved or outcome.objective is None or not ladder.report(None, None):
            break
        mine, worth = list(board.chosen()), outcome.objective
    return _picks(kind.columns, mine)
