"""HiGHS through PuLP, keeping what ``pulp.HiGHS`` loses: status, bound, signs; and taking a start.

PuLP 3.3 calls a solution found at a time limit optimal, reads zeros where there is none, leaves
prices with the sign of a minimisation, offers no start and hides the bound.

Presolve is off for whole numbers: in highspy 1.15.1 its enumeration calls a feasible program
infeasible (4 of 12 000 small trial programs), and together with a start other releases have given a
false optimum and a false bound. Schedules are solved as fast without it.
"""

import math
import time
from collections.abc import Callable, Mapping
from typing import Any, Literal

import highspy
import numpy as np
import pulp

from optimizer.errors import CheckError
from optimizer.planning.program import Outcome, Status

Search = Literal["full", "plain", "presolved"]
Progress = Callable[[float, float | None, float | None], bool | None]
Enough = Callable[[float | None, float | None], bool]  # of the best objective and the bound

_LEAST_LIMIT_S = 0.05
_CALLS_APART_S = 0.1  # HiGHS asks thousands of times a second
_TOLERANCE = 1e-6
_FEASIBLE = 2  # kSolutionStatusFeasible
_GUESSES = tuple(  # searches for solutions beside the search for the proof
    f"mip_heuristic_run_{name}"
    for name in ("feasibility_jump", "rins", "rens", "root_reduced_cost")
)
_FAULTY_RULE = 1 << 16  # enumeration; sub-programs of the search have a presolve of their own


class Highs(pulp.HiGHS):  # type: ignore[misc]  # PuLP has no types
    """``pulp.HiGHS`` that keeps status, bound and signs, and takes a start."""

    def __init__(
        self,
        gap: float,
        time_limit_s: float | None,
        progress: Progress | None = None,
        *,
        most: bool = False,
        whole: bool = True,
        search: Search = "full",
        most_nodes: int | None = None,
        enough: Enough | None = None,
    ) -> None:
        options: dict[str, Any] = {"presolve_rule_off": _FAULTY_RULE}
        if most_nodes is not None:
            options["mip_max_nodes"] = most_nodes
        if search != "full":
            options |= dict.fromkeys(_GUESSES, False)
        if whole and search != "presolved":
            options["presolve"] = "off"
        limit = None if time_limit_s is None else max(_LEAST_LIMIT_S, time_limit_s)
        if progress or enough:
            interrupt = highspy.cb.HighsCallbackType.kCallbackMipInterrupt
            options |= {
                "callbackTuple": (_listener(progress, enough, -1.0 if most else 1.0), None),
                "callbacksToActivate": [interrupt],
            }
        super().__init__(
            mip=whole, msg=False, threads=1, gapRel=gap, timeLimit=limit, random_seed=0, **options
        )
        self.start: Mapping[pulp.LpVariable, float] | None = None
        self.outcome: Outcome

    def buildSolverModel(self, lp: pulp.LpProblem) -> None:
        """Hand all columns over in one call and all rows in another: ten times faster."""
        _hand_over_columns(lp, whole=self.mip)
        _hand_over_rows(lp)

    def callSolver(self, lp: pulp.LpProblem) -> None:
        """Run, from the start if there is one."""
        engine = lp.solverModel
        if self.start:
            numbers = np.zeros(len(lp.variables()))
            for column, number in self.start.items():
                numbers[column.index] = number
            engine.setSolution(len(numbers), np.arange(len(numbers), dtype=np.int32), numbers)
        if engine.run() == highspy.HighsStatus.kError:
            # Another number of threads was used in this process before.
            highspy.Highs.resetGlobalScheduler(True)
            engine.run()

    def findSolutionValues(self, lp: pulp.LpProblem) -> tuple[int, int]:
        """Read the solution, its bound and its prices."""
        engine = lp.solverModel
        if engine.getModelStatus() == highspy.HighsModelStatus.kUnboundedOrInfeasible:
            engine.setOptionValue("presolve", "off")
            engine.run()
        whole = self.mip and any(c.cat == pulp.LpInteger for c in lp.variables())
        self.outcome = _outcome(engine, whole=whole, most=lp.sense == pulp.LpMaximize)
        _fill_in(lp, engine, self.outcome, whole=whole)
        lp.solverModel = None  # many programs are kept, and only one is solved at a time
        return _PULP_STATUS.get(self.outcome.status, _PULP_STATUS["no_solution"])


_PULP_STATUS = {
    "optimal": (pulp.LpStatusOptimal, pulp.LpSolutionOptimal),
    "feasible": (pulp.LpStatusNotSolved, pulp.LpSolutionIntegerFeasible),
    "infeasible": (pulp.LpStatusInfeasible, pulp.LpSolutionInfeasible),
    "unbounded": (pulp.LpStatusUnbounded, pulp.LpSolutionUnbounded),
    "no_solution": (pulp.LpStatusNotSolved, pulp.LpSolutionNoSolutionFound),
}


def _listener(progress: Progress | None, enough: Enough | None, sign: float) -> Callable[..., None]:
    """Call ``progress`` not too often, and ``enough`` each time, so that no clock decides it."""
    last = -math.inf

    def listen(_kind: object, _message: str, out: Any, into: Any, _user: object) -> None:
        nonlocal last
        best, bound = _finite(sign * out.mip_primal_bound), _finite(sign * out.mip_dual_bound)
        if enough is not None and enough(best, bound):
            into.user_interrupt = True
            return
        now = time.perf_counter()
        if progress is None or now - last < _CALLS_APART_S:
            return
        last = now
        if progress(out.running_time, best, bound) is False:
            into.user_interrupt = True

    return listen


def _hand_over_columns(lp: pulp.LpProblem, *, whole: bool) -> None:
    columns, sign = lp.variables(), (-1.0 if lp.sense == pulp.LpMaximize else 1.0)
    for number, column in enumerate(columns):
        column.index = number
    none = np.zeros(0, np.int32)
    lp.solverModel.addCols(
        len(columns),
        np.array([sign * lp.objective.get(column, 0.0) for column in columns]),
        np.array([_or(column.lowBound, -highspy.kHighsInf) for column in columns]),
        np.array([_or(column.upBound, highspy.kHighsInf) for column in columns]),
        0,
        none,
        none,
        np.zeros(0),
    )
    integers = [c.index for c in columns if whole and c.cat == pulp.LpInteger]
    kinds = np.full(len(integers), int(highspy.HighsVarType.kInteger), np.uint8)
    lp.solverModel.changeColsIntegrality(len(integers), np.array(integers, np.int32), kinds)


def _hand_over_rows(lp: pulp.LpProblem) -> None:
    rows = lp.constraints()
    for number, row in enumerate(rows):
        row.index = number
    sizes = [len(row) for row in rows]
    starts = np.concatenate(([0], np.cumsum(sizes, dtype=np.int32)[:-1])) if rows else np.zeros(0)
    lp.solverModel.addRows(
        len(rows),
        np.array([_or(row.getLb(), -highspy.kHighsInf) for row in rows]),
        np.array([_or(row.getUb(), highspy.kHighsInf) for row in rows]),
        sum(sizes),
        starts.astype(np.int32),
        np.array([column.index for row in rows for column in row], np.int32),
        np.array([factor for row in rows for factor in row.values()], float),
    )


def _or(number: float | None, otherwise: float) -> float:
    return otherwise if number is None else number


def _finite(number: float) -> float | None:
    return float(number) if math.isfinite(number) else None


def _word(engine: Any) -> Status:
    """Status in our words; values count only if HiGHS itself calls them feasible."""
    model = highspy.HighsModelStatus
    known: dict[Any, Status] = {
        model.kOptimal: "optimal",
        model.kModelEmpty: "optimal",
        model.kInfeasible: "infeasible",
        model.kUnbounded: "unbounded",
    }
    broken = (model.kLoadError, model.kModelError, model.kPresolveError, model.kSolveError)
    status = engine.getModelStatus()
    if status in known:
        return known[status]
    if status in (*broken, model.kPostsolveError, model.kNotset):
        return "error"
    return "feasible" if engine.getInfo().primal_solution_status == _FEASIBLE else "no_solution"


def _outcome(engine: Any, *, whole: bool, most: bool) -> Outcome:
    info, word, sign = engine.getInfo(), _word(engine), (-1.0 if most else 1.0)
    found = word in ("optimal", "feasible")
    if whole:
        bound = _finite(sign * info.mip_dual_bound)
    else:
        bound = sign * info.objective_function_value if word == "optimal" else None
    objective = sign * info.objective_function_value if found else None
    return Outcome(
        status=word,
        reason=engine.modelStatusToString(engine.getModelStatus()),
        objective=objective,
        bound=bound,
        gap=_gap(objective, bound),
        seconds=engine.getRunTime(),
        nodes=max(0, int(info.mip_node_count)),
    )


def _gap(objective: float | None, bound: float | None) -> float | None:
    """Share of the objective that the bound leaves open."""
    if objective is None or bound is None:
        return None
    apart = abs(objective - bound)
    if apart <= _TOLERANCE * 1e-3:
        return 0.0
    return apart / abs(objective) if objective else math.inf


def _fill_in(lp: pulp.LpProblem, engine: Any, outcome: Outcome, *, whole: bool) -> None:
    """Give columns and rows their values, or None, in the sense of the problem."""
    solution, sign = engine.getSolution(), (-1.0 if lp.sense == pulp.LpMaximize else 1.0)
    numbers = list(solution.col_value) if outcome.solved else None
    priced = not whole and outcome.status == "optimal"
    duals = list(solution.row_dual) if priced else None
    if numbers is not None:
        _agree(lp, numbers, outcome)
    reduced = list(solution.col_dual) if priced else None
    for column in lp.variables():
        number = None if numbers is None else numbers[column.index]
        if number is not None and whole and column.cat == pulp.LpInteger:
            number = float(round(number))
        column.varValue = number
        column.dj = None if reduced is None else sign * reduced[column.index]
    for row in lp.constraints():
        row.pi = None if duals is None else sign * duals[row.index]


def _agree(lp: pulp.LpProblem, numbers: list[float], outcome: Outcome) -> None:
    """Solvers have lost part of an objective in presolve: count it again."""
    counted = sum(factor * numbers[column.index] for column, factor in lp.objective.items())
    told = outcome.objective
    if told is None or abs(counted - told) > _TOLERANCE * max(1.0, abs(counted)):
        raise CheckError(f"the solver says the goal comes to {told}, its values say {counted}")
