"""The least share of the store that so many days take: the linear program of how long it lasts.

Blocks of days that are alike are worked out once and counted. Of every fuel no more is burned than
one share of what may be used of it, and that share is made least: at one, the store just lasts.
The price of a fuel is the part of the endurance of the store that a joule of it carries. Over the
whole store the prices come to one: days whose fuel comes to more at them cannot be had.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from optimizer.planning.board import MJ, Pairs
from optimizer.planning.days import Kind
from optimizer.planning.mix import lay_out
from optimizer.planning.solver import Program, add_column, add_row, prices, set_goal, solve, value

_ROUNDING = 1e-12


@dataclass(frozen=True, slots=True)
class Share:
    """What the cheapest mix takes of the store; no days can be had above one."""

    value: float | None  # None: the dishes cannot be cooked, whatever the store
    prices: Mapping[str, float]  # share of the store for a joule of each fuel


def least_share(kinds: Sequence[Kind], stock_j: Mapping[str, float]) -> Share:
    """Find the mix that takes the least share of the store.

    Parameters
    ----------
    kinds : sequence of Kind
        Blocks of days, each kind with its count.
    stock_j : mapping of str to float
        What may be burned of each fuel; one that is absent has no limit [J]

    Returns
    -------
    Share
        A schedule of these days takes as much of some fuel, or more.

    Raises
    ------
    CheckError
        If the solver misreports.
    """
    program, burnt = Program(), {fuel: Pairs() for fuel in stock_j}
    least = add_column(program, "share_of_the_store")
    for kind in kinds:
        laid = lay_out(program, kind.columns, kind.kitchen)
        for fuel, pairs in burnt.items():
            pairs += [(column, kind.count * factor) for column, factor in laid.of(fuel)]
    for fuel, pairs in burnt.items():
        row = [*pairs, (least, -stock_j[fuel] / MJ)]
        add_row(program, f"stock_is_enough[{fuel}]", row, "<=", 0)
    set_goal(program, [(least, 1.0)])
    if not solve(program).solved:
        return Share(None, {})
    by_row = prices(program)
    at = {fuel: max(0.0, -by_row[f"stock_is_enough[{fuel}]"]) / MJ for fuel in burnt}
    return Share(value(least), {fuel: price for fuel, price in at.items() if price > _ROUNDING})
