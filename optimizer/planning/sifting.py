"""Columns that cannot be part of a schedule as good as one that is known, left out beforehand.

A linear program of classes (starts merged by half hours, stores included) takes a fraction of the
time of the columns' own, and bounds every schedule. A schedule that holds a column comes to no less
than that bound and the column's reduced cost in it together. So once a schedule is known, found
among the columns that cost least, most of the others need not be looked at, and nothing is lost.
"""

import math
import time
from collections.abc import Sequence
from dataclasses import dataclass

from optimizer.planning.board import MJ, scale
from optimizer.planning.board import terms as true_terms
from optimizer.planning.classes import STRETCH_MIN, classes_of, moments_of
from optimizer.planning.columns import Column, Kitchen
from optimizer.planning.relaxation import Relaxed, relax, terms
from optimizer.planning.rows import build
from optimizer.planning.solver import add_row, reduced_cost, set_goal, solve, solve_linear

_NEAR = (0.002, 0.01, 0.03, 0.1, 1.0)  # of the bound, as a share: columns tried for a schedule
_ROOM = 1e-6


@dataclass(frozen=True, slots=True)
class Sifted:
    """The columns that are left, a schedule of them if one was found, and a bound."""

    columns: Sequence[Column]
    chosen: tuple[Column, ...]
    value: float | None  # of the schedule [program's units]
    bound: float | None  # no schedule of all columns comes to less


def sift(
    columns: Sequence[Column], kitchen: Kitchen, goal: str, *, gap: float, keep: float, until: float
) -> Sifted:
    """Leave out columns of which a schedule as good as one that is known cannot be made.

    Parameters
    ----------
    columns : sequence of Column
        All that may be chosen.
    kitchen : Kitchen
        What they share.
    goal : str
        What is to be least.
    gap : float
        How near to the best a schedule is looked for, as a share.
    keep : float
        Schedules that are worse by this share are wanted too.
    until : float
        Time at which to give up [s, of ``time.perf_counter``]

    Returns
    -------
    Sifted
        All columns, if no schedule was found.
    """
    moments = moments_of(columns, kitchen, STRETCH_MIN)
    made = _with_limits(relax(classes_of(columns, moments), kitchen, moments))
    set_goal(made.program, terms(made, goal))
    bound = solve_linear(made.program).objective
    if bound is None:
        return Sifted(columns, (), None, None)
    near = _Near(columns, made, bound)
    for share in _NEAR:
        few = near.within(share * abs(bound))
        chosen, value = _schedule(few, kitchen, goal, gap, until)
        if value is not None:
            room = max(value, value / (1 - keep) if keep < 1 else math.inf) - bound
            return Sifted(near.within(room), chosen, value, bound)
        if time.perf_counter() > until or len(few) == len(columns):
            break
    return Sifted(columns, (), None, bound)


def _with_limits(made: Relaxed) -> Relaxed:
    kitchen = made.kitchen
    for fuel, stock_j in kitchen.stock_j.items():
        name = f"stock_is_enough[{fuel}]"
        add_row(made.program, name, terms(made, fuel), "<=", stock_j / MJ)
    for goal, most in kitchen.limits.items():
        add_row(made.program, f"no_more[{goal}]", terms(made, goal), "<=", most / scale(goal))
    return made


class _Near:
    """Columns by what they cost at the least beside the bound."""

    def __init__(self, columns: Sequence[Column], made: Relaxed, bound: float) -> None:
        self.columns = columns
        self.costs = {
            id(column): reduced_cost(y)
            for each, y in zip(made.classes, made.cook, strict=True)
            for column in each.members
        }
        self.bound = bound

    def within(self, room: float) -> Sequence[Column]:
        """Return the columns of which a schedule within so much of the bound may be made."""
        most = room + _ROOM * max(1.0, abs(self.bound))
        return [column for column in self.columns if self.costs[id(column)] <= most]


def _schedule(
    columns: Sequence[Column], kitchen: Kitchen, goal: str, gap: float, until: float
) -> tuple[tuple[Column, ...], float | None]:
    if {column.item for column in columns} != set(kitchen.items):
        return (), None
    board = build(columns, kitchen)
    set_goal(board.program, true_terms(board, goal))
    left_s = until - time.perf_counter()
    found = solve(board.program, gap=gap, time_limit_s=left_s, search="plain")
    return (board.chosen(), found.objective) if found.solved else ((), None)
