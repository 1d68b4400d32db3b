"""The schedule: one way and one start for every dish, fires lit per window, nothing used twice.

One integer program over all columns (see `rows`), solved for the first goal; what lies within the
gap of the proven bound is then as good, and among that the next goal is made least, and so on.
"""

import time
from collections.abc import Collection, Sequence
from dataclasses import dataclass, field
from typing import Literal

from optimizer.errors import CheckError
from optimizer.planning.board import Board, scale, start_of, terms
from optimizer.planning.columns import Column, Kitchen
from optimizer.planning.ledger import audit, fires_of, price_of
from optimizer.planning.rows import build
from optimizer.planning.shortage import Shortage, least_change
from optimizer.planning.solver import Outcome, Progress, SolverName, add_row, set_goal, solve

__all__ = ["Result", "Shortage", "audit", "least_change", "price_of", "schedule"]

Status = Literal["optimal", "within_gap", "stopped", "time_limit", "infeasible", "no_plan"]
_PROVEN = 1e-6


@dataclass(frozen=True, slots=True)
class Result:
    """A schedule and how good it is proven to be; value and bound are of the first goal."""

    status: Status
    chosen: tuple[Column, ...]
    value: float | None  # money, J or minutes
    bound: float | None
    gap: float | None
    seconds: float
    lit: tuple[tuple[str, int], ...]  # stove and window


@dataclass(slots=True)
class _Watch:
    """Passes progress on, in the units and seconds of the whole search."""

    progress: Progress | None
    begin: float = field(default_factory=time.perf_counter)
    factor: float = 1.0
    best: float | None = None  # known once the first goal is done
    bound: float | None = None
    fixed: bool = False
    stopped: bool = False

    @property
    def seconds(self) -> float:
        """Seconds since the search began."""
        return time.perf_counter() - self.begin

    def __call__(self, _seconds: float, best: float | None, bound: float | None) -> bool:
        """Report, and say whether to go on."""
        if self.progress is None:
            return True
        if not self.fixed:
            self.best = None if best is None else best * self.factor
            self.bound = None if bound is None else bound * self.factor
        self.stopped |= self.progress(self.seconds, self.best, self.bound) is False
        return not self.stopped


def schedule(
    columns: Sequence[Column],
    kitchen: Kitchen,
    *,
    goals: Sequence[str],
    gap: float = 0.01,
    time_limit_s: float = 30.0,
    progress: Progress | None = None,
    solver: SolverName = "highs",
    start: Collection[Column] | None = None,
) -> Result:
    """Choose one column for every dish.

    Parameters
    ----------
    columns : sequence of Column
        All that may be chosen.
    kitchen : Kitchen
        What they share.
    goals : sequence of str
        "money", "energy", "tending" or a fuel's name, the first first.
    gap : float
        Stop when a goal is proven to be within this share of the least.
    time_limit_s : float
        For all goals together [s]
    progress : callable, optional
        Called now and then with seconds, best value and bound of the first goal; False stops.
    solver : {"highs", "cbc"}
        CBC proves no bound.
    start : collection of Column, optional
        A choice to begin with.

    Returns
    -------
    Result
        Status "no_plan" if time ran out, or the search was stopped, before there was one.

    Raises
    ------
    CheckError
        If the solver fails, or its choice breaks a limit of the kitchen.
    ValueError
        If there is no goal.
    """
    if not goals:
        raise ValueError("a schedule needs at least one goal")
    watch = _Watch(progress)
    board = build(columns, kitchen, tending="tending" in goals)
    numbers = start_of(board, start) if start else {}
    chosen: tuple[Column, ...] = ()
    outcomes: list[Outcome] = []
    for goal in goals:
        watch.factor = scale(goal)
        set_goal(board.program, terms(board, goal))
        outcome = solve(
            board.program,
            gap=gap,
            time_limit_s=time_limit_s - watch.seconds,
            start=numbers,
            progress=watch if progress else None,
            solver=solver,
        )
        outcomes.append(outcome)
        if outcome.solved:
            chosen = board.chosen()
        if outcome.status != "optimal":
            break
        watch.fixed = True
        _keep(board, goal, outcome, gap)
        numbers = start_of(board, chosen)
    return _result(chosen, kitchen, goals[0], outcomes, watch)


def _keep(board: Board, goal: str, outcome: Outcome, gap: float) -> None:
    """Let the next goal have what lies within the gap of the bound, and no more."""
    best = outcome.objective or 0.0
    most = best if outcome.bound is None or gap >= 1 else max(best, outcome.bound / (1 - gap))
    room = _PROVEN * max(1.0, abs(most))
    add_row(board.program, f"keep[{goal}]", terms(board, goal), "<=", most + room)


def _result(
    chosen: tuple[Column, ...],
    kitchen: Kitchen,
    goal: str,
    outcomes: Sequence[Outcome],
    watch: _Watch,
) -> Result:
    if not chosen and kitchen.items:
        status: Status = "infeasible" if outcomes[0].status == "infeasible" else "no_plan"
        _expect(outcomes[0], "infeasible", "no_solution")
        return Result(status, (), None, None, None, watch.seconds, ())
    audit(chosen, kitchen)
    value, bound = price_of(chosen, kitchen, goal), outcomes[0].bound
    if bound is not None:
        bound = min(value, bound * scale(goal))
    gap = None if bound is None else (value - bound) / abs(value) if value else 0.0
    lit = tuple((fire.stove, fire.window) for fire in fires_of(chosen, kitchen))
    return Result(_status(outcomes[-1], gap, watch), chosen, value, bound, gap, watch.seconds, lit)


def _status(last: Outcome, gap: float | None, watch: _Watch) -> Status:
    if last.status != "optimal":
        _expect(last, "feasible", "no_solution")
        return "stopped" if watch.stopped else "time_limit"
    return "optimal" if gap is not None and gap <= _PROVEN else "within_gap"


def _expect(outcome: Outcome, *statuses: str) -> None:
    if outcome.status not in statuses:
        raise CheckError(f"the solver fails: {outcome.status}, {outcome.reason}")
