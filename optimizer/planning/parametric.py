"""How far a price of a linear program holds: its optimum as a function of one quantity.

The quantity is a column that is held at a number; its reduced cost is the price. The optimum is
convex and made of straight pieces (concave where something is made most). From the far end the
line of the present piece is met by that of the piece there; where they meet is looked at next.
Each step drops at least one piece, so that the end of the present piece is found exactly.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass

import pulp

from optimizer.planning.solver import Program, reduced_cost, set_goal, solve_linear, value

EVEN = 1e-7
MOST_STEPS = 60


@dataclass(frozen=True, slots=True)
class Piece:
    """The optimum where the quantity is at a number, and the price there."""

    at: float
    optimum: float
    price: float  # of one more of the quantity

    def line(self, at: float) -> float:
        """Return what the optimum would be elsewhere if the price held."""
        return self.optimum + self.price * (at - self.at)


@dataclass(frozen=True, slots=True)
class Held:
    """A price, and the numbers of the quantity between which it holds."""

    piece: Piece
    low: float
    high: float


Optimum = Callable[[float], Piece | None]


def optimum_of(program: Program, quantity: pulp.LpVariable) -> Optimum:
    """Return the optimum of a linear program as a function of one of its columns.

    Parameters
    ----------
    program : Program
        With a goal; whole numbers are let be any number between.
    quantity : pulp.LpVariable
        Its bounds are put back after every solve.

    Returns
    -------
    callable
        From a number to the piece there; None where there is no solution.
    """

    def solved(at: float) -> Piece | None:
        before = quantity.lowBound, quantity.upBound
        quantity.lowBound = quantity.upBound = at
        try:
            outcome = solve_linear(program)
            if outcome.objective is None:
                return None
            return Piece(at, outcome.objective, reduced_cost(quantity))
        finally:
            quantity.lowBound, quantity.upBound = before

    return solved


def ends_of(
    program: Program, quantity: pulp.LpVariable, least: float, most: float
) -> tuple[float, float] | None:
    """Return the least and the largest number of a column with which there is a solution.

    Parameters
    ----------
    program : Program
        Its goal is put back.
    quantity : pulp.LpVariable
        Between the bounds below.
    least, most : float
        Further is not looked.
    """
    goal = list(program.problem.objective.items())
    before, found = (quantity.lowBound, quantity.upBound), []
    quantity.lowBound, quantity.upBound = least, most
    try:
        for sign in (1.0, -1.0):
            set_goal(program, [(quantity, -sign if program.most else sign)])
            if not solve_linear(program).solved:
                return None
            found.append(value(quantity))
    finally:
        quantity.lowBound, quantity.upBound = before
        set_goal(program, goal)
    return found[0], found[1]


def held(
    program: Program, quantity: pulp.LpVariable, *, at: float, least: float, most: float
) -> Held | None:
    """Find the price of a quantity and between which numbers it holds.

    Parameters
    ----------
    program : Program
        With a goal.
    quantity : pulp.LpVariable
        A column of it.
    at : float
        Where the price is wanted.
    least, most : float
        Further is not looked.

    Returns
    -------
    Held or None
        None where there is no solution at that number. Where two pieces meet there, the price is
        that of one of them, and it holds to one side only.
    """
    optimum = optimum_of(program, quantity)
    here, ends = optimum(at), ends_of(program, quantity, least, most)
    if here is None or ends is None:
        return None
    low, high = ends
    return Held(here, _end(optimum, here, min(low, at)), _end(optimum, here, max(high, at)))


def _end(optimum: Optimum, here: Piece, far: float) -> float:
    """Return how far towards an end the price holds."""
    for _ in range(MOST_STEPS):
        if math.isclose(far, here.at, abs_tol=EVEN):
            return here.at
        there = optimum(far)
        if there is None:  # the very end, missed by rounding
            far += EVEN * (here.at - far)
            continue
        line = here.line(far)
        if abs(there.optimum - line) <= EVEN * max(1.0, abs(line)) or there.price == here.price:
            return far
        far = (there.optimum - there.price * far - here.line(0.0)) / (here.price - there.price)
    return far
