"""Plans of single days put together within the store, and the prices that fit it best."""

import math
from collections.abc import Iterable, Mapping, Sequence

import pulp

from optimizer.planning.board import MJ, Pairs, scale
from optimizer.planning.cheapest import Prices
from optimizer.planning.columns import Column, Kitchen
from optimizer.planning.days import DayPlan, spread
from optimizer.planning.pricing import Day
from optimizer.planning.solver import (
    Program,
    Search,
    add_column,
    add_row,
    prices,
    set_goal,
    solve,
    value,
)

Point = tuple[float, Mapping[str, float]]  # what a plan of a day comes to, and its fuel [MJ]
_FEW_KINDS = 14  # of more, presolve takes longer than it spares


def guessed(days: Sequence[Day]) -> list[list[Point]]:
    """Return what the guesses of every kind come to."""
    return [[(g.value, g.fuel_mj) for g in day.guesses.values()] for day in days]


def planned(plans: Iterable[Sequence[DayPlan]], goal: str) -> list[list[Point]]:
    """Return what plans come to."""
    return [
        [(p.value / scale(goal), {fuel: j / MJ for fuel, j in p.fuel_j}) for p in mine]
        for mine in plans
    ]


def next_prices(
    counts: Sequence[int],
    points: Sequence[Sequence[Point]],
    kitchen: Kitchen,
    fuels: Sequence[str],
    dear: float,
) -> tuple[Prices, float, list[list[float]]]:
    """Return the prices at which the known points make the best of the store.

    Parameters
    ----------
    counts : sequence of int
        How many days there are of each kind.
    points : sequence of sequence of Point
        What is known of each.
    kitchen : Kitchen
        Its stocks.
    fuels : sequence of str
        Those that have a price.
    dear : float
        Price above which no fuel is tried [goal's unit per MJ]

    Returns
    -------
    prices : mapping of str to float
        Of each fuel [goal's unit per MJ]
    most : float
        No price gives a higher bound, unless better points are found.
    shares : list of list of float
        How many days have each point; whole numbers but for a few kinds.
    """
    program, used = _master(counts, points, kitchen, fuels, dear)
    outcome = solve(program)
    if outcome.objective is None:
        return dict.fromkeys(fuels, 0.0), math.inf, []
    shares = [[value(column) for column in columns] for columns in used]
    by_row = prices(program)
    at = {fuel: max(0.0, -by_row[f"stock_is_enough[{fuel}]"]) for fuel in fuels}
    return at, outcome.objective, shares


def combine(
    days: Sequence[Day], goal: str, kitchen: Kitchen, gap: float = 1e-4
) -> tuple[Column, ...]:
    """Give every block one of its kind's plans, within the store, at least cost.

    Parameters
    ----------
    days : sequence of Day
        With plans.
    goal : str
        What is to be least.
    kitchen : Kitchen
        Its stocks.
    gap : float
        How near to the least, as a share.

    Returns
    -------
    tuple of Column
        Empty if the plans there are do not fit.
    """
    points = planned((day.kind.plans for day in days), goal)
    counts = [day.kind.count for day in days]
    program, used = _master(counts, points, kitchen, tuple(kitchen.stock_j), None)
    search: Search = "presolved_first" if len(days) <= _FEW_KINDS else "full"
    if not solve(program, gap=gap, search=search).solved:
        return ()
    chosen: list[Column] = []
    for day, columns in zip(days, used, strict=True):
        times = [round(value(column)) for column in columns]
        plans = [p for p, n in zip(day.kind.plans, times, strict=True) for _ in range(n)]
        chosen += spread(day.kind, plans)
    return tuple(chosen)


def _master(
    counts: Sequence[int],
    points: Sequence[Sequence[Point]],
    kitchen: Kitchen,
    fuels: Sequence[str],
    dear: float | None,
) -> tuple[Program, list[list[pulp.LpVariable]]]:
    """Build the program that mixes points of each kind; fuel beyond the stock is dear, or none."""
    program, used = Program(), []
    cost: Pairs = []
    stock: dict[str, Pairs] = {fuel: [] for fuel in fuels}
    for number, (count, mine) in enumerate(zip(counts, points, strict=True)):
        names = (f"days[{number},{n}]" for n in range(len(mine)))
        columns = [add_column(program, name, whole=dear is None) for name in names]
        used.append(columns)
        add_row(program, f"every_day[{number}]", [(c, 1) for c in columns], "==", count)
        for column, (comes_to, fuel_mj) in zip(columns, mine, strict=True):
            cost.append((column, comes_to))
            for fuel in stock.keys() & fuel_mj.keys():
                stock[fuel].append((column, fuel_mj[fuel]))
    for fuel, pairs in stock.items():
        if dear is not None:
            short = add_column(program, f"short[{fuel}]")
            cost.append((short, dear))
            pairs.append((short, -1))
        add_row(program, f"stock_is_enough[{fuel}]", pairs, "<=", kitchen.stock_j[fuel] / MJ)
    set_goal(program, cost)
    return program, used
