"""The schedule: one way and one start for every dish, fires lit per window, nothing used twice.

One integer program over all columns (see `rows`), solved for the first goal; what lies within the
gap of the proven bound is then as good, and among that the next goal is made least, and so on.
Where there are many columns on many days, two levels (see `levels`) do the same in less time.
"""

import time
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import partial
from typing import Literal

from optimizer.planning.alike import merge
from optimizer.planning.board import Board, scale, start_of, terms
from optimizer.planning.columns import Column, Kitchen
from optimizer.planning.days import Kind, kinds_of
from optimizer.planning.ladder import Ladder
from optimizer.planning.later import then
from optimizer.planning.levels import climb
from optimizer.planning.memory import Memory
from optimizer.planning.result import PROVEN, Result, result
from optimizer.planning.rows import build
from optimizer.planning.settling import settle
from optimizer.planning.sifting import sift
from optimizer.planning.solver import (
    Outcome,
    Progress,
    Search,
    SolverName,
    add_row,
    set_goal,
    solve,
)

Found = Literal["optimal", "feasible", "no_solution"]
FEW = 6000  # columns; as many are solved whole, at once
MANY_TO_SIFT = 1600  # columns; with fewer it takes as long as it spares
FEW_DAYS = 3  # fewer blocks than this gain nothing from two levels


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

    def report(self, best: float | None, bound: float | None) -> bool:
        """Report from between two solves."""
        return self(0.0, best, bound)


def schedule(
    columns: Sequence[Column],
    kitchen: Kitchen,
    *,
    goals: Sequence[str],
    gap: float = 0.01,
    time_limit_s: float = 30.0,
    progress: Progress | None = None,
    solver: SolverName = "highs",
    memory: Memory | None = None,
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
    memory : Memory, optional
        What is known from schedules of the same household; what is found now is added.

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
    watch, alike = _Watch(progress), merge(columns, kitchen)
    until = watch.begin + time_limit_s
    task = _Task(alike.columns, alike.kitchen, tuple(goals), gap, until, solver)
    memory = memory or Memory()
    chosen, outcomes = _search(task, watch, memory, alike.together(memory.chosen))
    settled = settle(alike.apart(chosen), columns, kitchen)
    return result(settled, kitchen, goals[0], outcomes, watch.seconds, stopped=watch.stopped)


_Found = tuple[tuple[Column, ...], Sequence[Outcome]]  # what is chosen; of each goal


@dataclass(frozen=True, slots=True)
class _Task:
    """What `schedule` was asked."""

    columns: Sequence[Column]
    kitchen: Kitchen
    goals: tuple[str, ...]
    gap: float
    until: float
    solver: SolverName

    @property
    def left_s(self) -> float:
        """Seconds left."""
        return self.until - time.perf_counter()


def _search(task: _Task, watch: _Watch, memory: Memory, start: tuple[Column, ...]) -> _Found:
    """Search in two levels where that gains something, or else all columns at once."""
    apart = task.solver == "highs" and len(task.columns) > FEW and not task.kitchen.limits
    kinds = kinds_of(task.columns, task.kitchen) if apart else ()
    if sum(kind.count for kind in kinds) < FEW_DAYS:
        return _whole(task, watch, start)
    return _by_days(task, watch, kinds, memory)


def _whole(
    task: _Task, watch: _Watch, start: tuple[Column, ...] = (), known: float | None = None
) -> _Found:
    """Solve one program over all columns; a bound known before is in the program's units."""
    chosen: tuple[Column, ...] = ()
    if len(task.columns) > MANY_TO_SIFT and task.solver == "highs":
        goal, later = task.goals[0], task.gap if task.goals[1:] else 0.0
        left = sift(task.columns, task.kitchen, goal, gap=task.gap, keep=later, until=task.until)
        task = replace(task, columns=left.columns)
        chosen = left.chosen
        known = max((b for b in (known, left.bound) if b is not None), default=None)
    board = build(task.columns, task.kitchen, tending="tending" in task.goals)
    outcomes: list[Outcome] = []
    start = chosen or start
    for goal in task.goals:
        watch.factor = scale(goal)
        set_goal(board.program, terms(board, goal))
        outcome = solve(
            board.program,
            gap=task.gap,
            time_limit_s=task.left_s,
            start=start_of(board, start) if start else {},
            progress=watch if watch.progress else None,
            enough=None if outcomes or known is None else partial(_enough, known, task.gap),
            solver=task.solver,
            search=_search_of(task, started=bool(start)),
        )
        if not outcomes and known is not None:
            outcome = _raised(outcome, known, task.gap)
        outcomes.append(outcome)
        if outcome.solved:
            chosen = start = board.chosen()
        if outcome.status != "optimal":
            break
        watch.fixed = True
        _keep(board, goal, outcome, task.gap)
    return chosen, outcomes


def _search_of(task: _Task, *, started: bool) -> Search:
    """Say how one program is searched: presolve spares time where dishes fill several pots."""
    if len(task.columns) > FEW:
        return "quick"
    several = any(task.kitchen.pots_of(item) > 1 for item in task.kitchen.items)
    return "presolved_first" if several and not started else "plain"


def _enough(known: float, gap: float, best: float | None, bound: float | None) -> bool:
    """Tell whether what was found is within the gap of a bound that was proven elsewhere."""
    proven = known if bound is None else max(bound, known)
    return best is not None and best - proven <= gap * abs(best)


def _raised(outcome: Outcome, known: float, gap: float) -> Outcome:
    """Return an outcome with a bound that was proven elsewhere, if that is higher."""
    if outcome.objective is None:
        return outcome
    proven = known if outcome.bound is None else max(outcome.bound, known)
    near = _enough(known, gap, outcome.objective, outcome.bound)
    left = (outcome.objective - proven) / abs(outcome.objective) if outcome.objective else 0.0
    status = "optimal" if near else outcome.status
    return replace(outcome, bound=proven, gap=left, status=status)


def _by_days(
    task: _Task,
    watch: _Watch,
    kinds: tuple[Kind, ...],
    memory: Memory,
) -> _Found:
    """Search in two levels; what they leave open is left to the whole program, if that is small."""
    goal = task.goals[0]
    watch.factor = scale(goal)
    ladder = Ladder(
        task.columns, task.kitchen, goal, task.gap, task.until, watch.report, kinds, memory
    )
    climb(ladder)
    open_ = not ladder.done and not watch.stopped
    if open_ and not ladder.chosen:
        return _whole(task, watch, known=ladder.bound)
    if ladder.value is not None and ladder.bound is not None and ladder.done:
        watch.fixed = True
        then(ladder, task.goals[1:], max(ladder.value, ladder.bound / (1 - task.gap)))
    found: Found = "feasible" if ladder.chosen else "no_solution"
    status: Found = "optimal" if ladder.done else found
    told = Outcome(status, "two levels", ladder.value, ladder.bound, None, watch.seconds, 0)
    return ladder.chosen, [told]


def _keep(board: Board, goal: str, outcome: Outcome, gap: float) -> None:
    """Let the next goal have what lies within the gap of the bound, and no more."""
    best = outcome.objective or 0.0
    most = best if outcome.bound is None or gap >= 1 else max(best, outcome.bound / (1 - gap))
    room = PROVEN * max(1.0, abs(most))
    add_row(board.program, f"keep[{goal}]", terms(board, goal), "<=", most + room)
