"""CBC as a second opinion, used only when it is asked for.

The CBC that comes with PuLP has lost solutions in its own preprocessing, so that is switched off.
It proves nothing it tells: there is no bound.
"""

import time
import warnings

import pulp

from optimizer.errors import CheckError
from optimizer.planning.program import Outcome, Program, Status

_TOLERANCE = 1e-5


_WORDS: dict[tuple[int, int], Status] = {
    (pulp.LpStatusOptimal, pulp.LpSolutionOptimal): "optimal",
    (pulp.LpStatusOptimal, pulp.LpSolutionIntegerFeasible): "feasible",
    (pulp.LpStatusInfeasible, pulp.LpSolutionInfeasible): "infeasible",
    (pulp.LpStatusInfeasible, pulp.LpSolutionNoSolutionFound): "infeasible",  # whole numbers only
    (pulp.LpStatusUnbounded, pulp.LpSolutionUnbounded): "unbounded",
}


def second_opinion(program: Program, gap: float, time_limit_s: float | None) -> Outcome:
    """Solve with CBC, whose own preprocessing has been seen to lose solutions."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", DeprecationWarning)
        engine = pulp.PULP_CBC_CMD(
            msg=False, gapRel=gap, timeLimit=time_limit_s, options=["preprocess off"]
        )
    begin = time.perf_counter()
    lp = program.problem
    lp.solve(engine)
    word = _WORDS.get((lp.status, lp.sol_status), "no_solution")
    for column in program.columns.values():
        _tidy(column, keep=word in ("optimal", "feasible"))
    objective = _recount(program) if word in ("optimal", "feasible") else None
    seconds = time.perf_counter() - begin
    return Outcome(word, pulp.LpSolution[lp.sol_status], objective, None, None, seconds, 0)


def _tidy(column: pulp.LpVariable, *, keep: bool) -> None:
    if not keep:
        column.varValue = None
    elif column.cat == pulp.LpInteger:
        column.varValue = float(round(column.varValue))


def _recount(program: Program) -> float:
    """Objective of the values found, once they are seen to keep every row."""
    for name, row in program.rows.items():
        size = max([1.0, abs(row.constant), *(abs(factor) for factor in row.values())])
        if not row.valid(_TOLERANCE * size):
            raise CheckError(f"the solver's values break the row {name}")
    return float(program.problem.objective.value())
