"""Why there is no schedule: the least change that would make one."""

import time
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace

from optimizer.planning.board import MJ, Board, terms
from optimizer.planning.columns import Column, Kitchen
from optimizer.planning.rows import build
from optimizer.planning.solver import Outcome, set_goal, solve, value

_LEAST_J = 1.0
_HALF = 0.5


@dataclass(frozen=True, slots=True)
class Shortage:
    """What is missing; each entry of ``alone_j`` and of ``one_more`` would do by itself."""

    known: bool  # False: time ran out before all of it was proven
    fuels_j: Mapping[str, float]  # least more fuel in all, with the dishes below left out
    dishes: tuple[int, ...]  # one way to leave out as few as can be; fuel does not help them
    no_way: tuple[int, ...]  # dishes without a single column
    alone_j: Mapping[str, float]  # so much more of this fuel only
    one_more: tuple[str, ...]  # one more of this resource only


@dataclass(slots=True)
class _Search:
    """Small solves that share one budget of time."""

    until: float
    gap: float
    known: bool = field(default=True)

    def least(self, board: Board, goal: str | None) -> Outcome:
        """Solve for a goal, or for anything that fits."""
        set_goal(board.program, terms(board, goal) if goal else ())
        left = self.until - time.perf_counter()
        outcome = solve(board.program, gap=0.0 if goal == "missed" else self.gap, time_limit_s=left)
        self.known &= outcome.status in ("optimal", "infeasible")
        return outcome


def least_change(
    columns: Sequence[Column],
    kitchen: Kitchen,
    *,
    resources: Collection[str] | None = None,
    gap: float = 0.01,
    time_limit_s: float = 30.0,
) -> Shortage:
    """Find what would make a schedule possible.

    First as few dishes as can be are left out, with fuel without limit; then as little fuel as can
    be is added for the others. Each fuel, and one more of each resource, is also tried alone.

    Parameters
    ----------
    columns : sequence of Column
        All that may be chosen.
    kitchen : Kitchen
        What they share.
    resources : collection of str, optional
        Of which to try one more; None for all.
    gap : float
        How near to the least added fuel is near enough.
    time_limit_s : float
        For everything together [s]

    Returns
    -------
    Shortage
        Empty where the kitchen is sufficient as it is.

    Raises
    ------
    CheckError
        If the solver misreports.
    """
    search = _Search(time.perf_counter() + time_limit_s, gap)
    some = {column.item for column in columns}
    no_way = tuple(item for item in kitchen.items if item not in some)
    dishes = _left_out(columns, kitchen, search)
    fuels_j = _short(columns, kitchen, set(dishes), kitchen.stock_j, search) or {}
    alone_j: dict[str, float] = {}
    one_more: tuple[str, ...] = ()
    if fuels_j and not dishes:
        alone_j = _each_alone(columns, kitchen, search)
    if (fuels_j or dishes) and not no_way:
        tried = kitchen.capacity if resources is None else resources
        one_more = tuple(name for name in tried if _would_do(columns, kitchen, name, search))
    return Shortage(search.known, fuels_j, dishes, no_way, alone_j, one_more)


def _left_out(columns: Sequence[Column], kitchen: Kitchen, search: _Search) -> tuple[int, ...]:
    board = build(columns, replace(kitchen, stock_j={}), may_miss=True)
    if not search.least(board, "missed").solved:
        return ()
    return tuple(item for item, missed in board.missed.items() if value(missed) > _HALF)


def _short(
    columns: Sequence[Column],
    kitchen: Kitchen,
    left_out: Collection[int],
    fuels: Collection[str],
    search: _Search,
) -> dict[str, float] | None:
    """Least more of some fuels, the dishes left out apart; None if that does not do."""
    kept = [column for column in columns if column.item not in left_out]
    items = tuple(item for item in kitchen.items if item not in left_out)
    board = build(kept, replace(kitchen, items=items), may_be_short=fuels)
    if not search.least(board, "short").solved:
        return None
    more = {fuel: value(short) * MJ for fuel, short in board.short.items()}
    return {fuel: energy_j for fuel, energy_j in more.items() if energy_j > _LEAST_J}


def _each_alone(columns: Sequence[Column], kitchen: Kitchen, search: _Search) -> dict[str, float]:
    alone_j: dict[str, float] = {}
    for fuel in kitchen.stock_j:
        alone_j |= _short(columns, kitchen, (), (fuel,), search) or {}
    return alone_j


def _would_do(columns: Sequence[Column], kitchen: Kitchen, resource: str, search: _Search) -> bool:
    """Whether one more of a resource, and nothing else, makes a schedule possible."""
    capacity = {**kitchen.capacity, resource: kitchen.capacity.get(resource, 0) + 1}
    board = build(columns, replace(kitchen, capacity=capacity))
    return search.least(board, None).solved
