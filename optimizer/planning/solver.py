"""The one door to the solvers: programs with plain row names in, checked outcomes out.

HiGHS runs in this process through PuLP with one thread and a fixed seed, so that the same program
gives the same answer. CBC is a second opinion that is only used when it is asked for. Nothing else
in the package reads what a solver returns: PuLP calls a plan found at a time limit "optimal",
fills in values where there is no plan, and turns the sign of prices when something is maximised.
"""

from collections.abc import Mapping
from typing import Literal

import pulp

from optimizer.errors import CheckError
from optimizer.planning.cbc import second_opinion
from optimizer.planning.highs import Enough, Highs, Progress
from optimizer.planning.highs import Search as Engine
from optimizer.planning.program import Outcome, Program, add_column, add_row, dump, set_goal

__all__ = [
    "Enough",
    "Outcome",
    "Program",
    "Progress",
    "Search",
    "SolverName",
    "add_column",
    "add_row",
    "dump",
    "prices",
    "reduced_cost",
    "set_goal",
    "solve",
    "solve_linear",
    "value",
]

SolverName = Literal["highs", "cbc"]
Search = Engine | Literal["quick", "presolved_first"]

_TOLERANCE = 1e-6
_QUICK_NODES = 1


def value(column: pulp.LpVariable) -> float:
    """Value of a column after a solve that found one.

    Raises
    ------
    CheckError
        If there is none.
    """
    if column.varValue is None:
        raise CheckError("a column was read although the solver gave no solution")
    return float(column.varValue)


def reduced_cost(column: pulp.LpVariable) -> float:
    """How much the goal changes for one more of a column, after a linear solve.

    Raises
    ------
    CheckError
        If there was none, or it found no optimum.
    """
    if column.dj is None:
        raise CheckError("a column has no reduced cost: its program was not solved as a linear one")
    return float(column.dj)


def solve(  # noqa: PLR0913 -- the one door to the solvers: all that may be asked of them
    program: Program,
    *,
    gap: float = 1e-6,
    time_limit_s: float | None = None,
    start: Mapping[pulp.LpVariable, float] | None = None,
    progress: Progress | None = None,
    solver: SolverName = "highs",
    search: Search = "full",
    most_nodes: int | None = None,
    enough: Enough | None = None,
) -> Outcome:
    """Solve a program.

    Parameters
    ----------
    program : Program
        With a goal.
    gap : float
        Stop when the best solution is proven to be within this share of the optimum.
    time_limit_s : float or None
        Stop after so long [s]
    start : mapping of column to value, optional
        A solution to begin with; columns not named are 0. CBC takes none.
    progress : callable, optional
        Called now and then with seconds, best objective and bound; False stops the solve.
        A linear program calls nothing.
    solver : {"highs", "cbc"}
        CBC gives no bound.
    search : {"full", "plain", "presolved", "quick", "presolved_first"}
        Plain does without HiGHS's looking for good solutions beside its proof, which small
        programs do not need. Presolved does so too, and begins with presolve and without a start;
        that it calls a program infeasible is not to be believed. Quick tries it for a node first,
        and believes it only if that is the optimum; presolved first tries it to the end, and
        believes it unless it calls the program infeasible. Then both search plainly.
    most_nodes : int, optional
        Stop after so many nodes of the search: unlike a time limit, the same on every machine.
    enough : callable, optional
        Asked with the best objective and the bound; True stops the solve. CBC asks nothing.

    Returns
    -------
    Outcome
        How it ended. Values are read with `value`, prices with `prices`.

    Raises
    ------
    CheckError
        If the solver misreports the objective, or its values break a row.
    """
    if program.problem.objective is None:
        set_goal(program, ())
    for column in program.columns.values():
        column.varValue = None
    if solver == "cbc":
        return second_opinion(program, gap, time_limit_s)
    if search == "quick" or search == "presolved_first":  # noqa: PLR1714  (mypy narrows by it)
        nodes = _QUICK_NODES if search == "quick" else most_nodes
        first = _highs(program, gap, time_limit_s, progress, "presolved", nodes, enough)
        program.problem.solve(first)
        known = ("optimal",) if search == "quick" else ("optimal", "feasible", "no_solution")
        if first.outcome.status in known:
            return first.outcome
        search = "plain"
    engine = _highs(program, gap, time_limit_s, progress, search, most_nodes, enough)
    engine.start = None if search == "presolved" else start
    program.problem.solve(engine)
    return engine.outcome


def _highs(
    program: Program,
    gap: float,
    time_limit_s: float | None,
    progress: Progress | None,
    search: Engine,
    most_nodes: int | None,
    enough: Enough | None,
) -> Highs:
    return Highs(
        gap,
        time_limit_s,
        progress,
        most=program.most,
        whole=program.whole,
        search=search,
        most_nodes=most_nodes,
        enough=enough,
    )


def solve_linear(program: Program) -> Outcome:
    """Solve a program with whole numbers let be any number between.

    Returns
    -------
    Outcome
        Columns then have a reduced cost (`reduced_cost`).
    """
    engine = Highs(_TOLERANCE, None, most=program.most, whole=False)
    program.problem.solve(engine)
    return engine.outcome


def prices(program: Program) -> dict[str, float]:
    """Price of every row: how much the goal changes for one more on its right-hand side.

    Whole-number columns are held at the values of the last solve and the linear program that is
    left is solved again; those values stay as they were.

    Raises
    ------
    CheckError
        If there are no values to hold, or the linear program cannot be solved.
    """
    held = {column: value(column) for column in program.columns.values()}
    bounds = [
        (column, column.lowBound, column.upBound)
        for column in program.columns.values()
        if column.cat == pulp.LpInteger
    ]
    for column, _, _ in bounds:
        column.lowBound = column.upBound = held[column]
    try:
        engine = Highs(_TOLERANCE, None, whole=False)
        program.problem.solve(engine)
    finally:
        for column, low, high in bounds:
            column.lowBound, column.upBound = low, high
        for column, number in held.items():
            column.varValue = number
    if engine.outcome.status != "optimal":
        raise CheckError(f"no prices: {engine.outcome.reason}")
    return {name: float(row.pi) for name, row in program.rows.items()}
