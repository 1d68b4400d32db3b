"""A linear or integer program with names a person can read, and how a solve of it ended.

PuLP sees numbered columns and rows, because it rewrites names and so may mix them up.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Literal

import pulp

Status = Literal["optimal", "feasible", "infeasible", "unbounded", "no_solution", "error"]
Sense = Literal["<=", "==", ">="]

_SENSE = {
    "<=": pulp.LpConstraintLE,
    "==": pulp.LpConstraintEQ,
    ">=": pulp.LpConstraintGE,
}


@dataclass(frozen=True, slots=True)
class Outcome:
    """How a solve ended; what does not exist is None, never a made-up number."""

    status: Status
    reason: str  # the solver's own words
    objective: float | None
    bound: float | None  # proven: no solution is better
    gap: float | None  # (objective - bound) / objective
    seconds: float
    nodes: int

    @property
    def solved(self) -> bool:
        """Whether there are values to read."""
        return self.status in ("optimal", "feasible")


class _Problem(pulp.LpProblem):  # type: ignore[misc]  # PuLP has no types
    """A problem that knows its columns, in the order they were added, which is that of their names.

    PuLP looks for them in the goal and in every row, and sorts them, six times a solve: that takes
    longer than a small program takes to be solved.
    """

    def add_variable(self, *given: object) -> pulp.LpVariable:
        column = super().add_variable(*given)
        self._add_variables((column,))
        return column

    def variables(self) -> list[pulp.LpVariable]:
        self._add_variables(self.objective or ())  # PuLP adds one where a goal has none
        known: list[pulp.LpVariable] = self._variables
        return known


@dataclass(slots=True)
class Program:
    """A linear or integer program; rows and columns have plain names, PuLP sees numbered ones."""

    most: bool = False
    columns: dict[str, pulp.LpVariable] = field(default_factory=dict)
    rows: dict[str, pulp.LpConstraint] = field(default_factory=dict)
    problem: pulp.LpProblem = field(init=False)

    def __post_init__(self) -> None:
        self.problem = _Problem("program", pulp.LpMaximize if self.most else pulp.LpMinimize)

    @property
    def whole(self) -> bool:
        """Whether any column is a whole number."""
        return any(column.cat == pulp.LpInteger for column in self.columns.values())


def add_column(
    program: Program,
    name: str,
    *,
    low: float | None = 0.0,
    high: float | None = None,
    whole: bool = False,
) -> pulp.LpVariable:
    """Add a column.

    Parameters
    ----------
    program : Program
        Gets the column.
    name : str
        Plain words, not used before.
    low, high : float or None
        Bounds; None where there is none.
    whole : bool
        Whether only whole numbers will do.

    Returns
    -------
    pulp.LpVariable
        To be used in rows and in the goal.

    Raises
    ------
    ValueError
        If the name is used already.
    """
    if name in program.columns:
        raise ValueError(f"column {name}: the name is used already")
    kind = pulp.LpInteger if whole else pulp.LpContinuous
    column = program.problem.add_variable(f"c{len(program.columns):07d}", low, high, kind)
    program.columns[name] = column
    return column


def add_row(
    program: Program,
    name: str,
    pairs: Iterable[tuple[pulp.LpVariable, float]],
    sense: Sense,
    rhs: float,
) -> None:
    """Add the row ``sum of pairs sense rhs``.

    Parameters
    ----------
    program : Program
        Gets the row.
    name : str
        Plain words, not used before.
    pairs : iterable of (column, coefficient)
        Every column at most once.
    sense : {"<=", "==", ">="}
        How the two sides compare.
    rhs : float
        Right-hand side.

    Raises
    ------
    ValueError
        If the name is used already, or a column stands in the row twice (PuLP would keep one).
    """
    pairs = list(pairs)
    terms = pulp.LpAffineExpression(pairs)
    if name in program.rows:
        raise ValueError(f"row {name}: the name is used already")
    if len(terms) != len(pairs):
        raise ValueError(f"row {name}: a column stands in it twice")
    row = pulp.LpConstraint(terms, _SENSE[sense], f"r{len(program.rows):07d}", rhs)
    program.problem.addConstraint(row)
    program.rows[name] = row


def set_goal(program: Program, pairs: Iterable[tuple[pulp.LpVariable, float]]) -> None:
    """Say what is to be least (or most); columns that are not named count nothing.

    Raises
    ------
    ValueError
        If a column is named twice.
    """
    pairs = list(pairs)
    goal = dict(pairs)
    if len(goal) != len(pairs):
        raise ValueError("the goal names a column twice")
    every = [(column, goal.get(column, 0.0)) for column in program.columns.values()]
    program.problem.setObjective(pulp.LpAffineExpression(every))


def dump(program: Program) -> str:
    """Text of a program, the same whatever order it was built in."""
    names = {column.name: name for name, column in program.columns.items()}
    rows = [
        f"{name}: {_terms(row.items(), names)} {_sign(row.sense)} {0.0 - row.constant:.9g}"
        for name, row in program.rows.items()
    ]
    goal = program.problem.objective
    head = f"{'most' if program.most else 'least'}: {_terms(goal.items() if goal else (), names)}"
    bounds = [
        f"{name} in [{column.lowBound}, {column.upBound}]"
        f"{' whole' if column.cat == pulp.LpInteger else ''}"
        for name, column in program.columns.items()
    ]
    return "\n".join([head, *sorted(rows), *sorted(bounds)]) + "\n"


def _terms(pairs: Iterable[tuple[pulp.LpVariable, float]], names: Mapping[str, str]) -> str:
    return " ".join(sorted(f"{factor:+.9g} {names[c.name]}" for c, factor in pairs if factor))


def _sign(sense: int) -> str:
    return next(sign for sign, code in _SENSE.items() if code == sense)
