"""Equal days torn between two plans, and the state of a search of them, in round numbers."""

import time
from math import inf

from optimizer.planning.days import kinds_of
from optimizer.planning.ladder import Ladder
from optimizer.planning.memory import Memory
from optimizer.planning.pricing import day_of


def torn(cook, days_of, days=4, stock_mj=6.9, more=()):
    """Equal days of two plans: 3 MJ for 1, or 1 MJ for 4; the stock lies between two multiples."""
    day = [
        cook(0, "gas", 400, 20, fuel_mj=3.0, money=1.0),
        cook(0, "gas", 430, 20, fuel_mj=1.0, money=4.0, pot="pot:small"),
        *more,
    ]
    return days_of([day] * days, stock_j={"butane": stock_mj * 1e6})


def ladder_of(case, goal="money", gap=1e-3, heard=None):
    """Return the state of a search that has not begun."""

    def report(value, bound):
        if heard is not None:
            heard.append((value, bound))
        return True

    kinds = kinds_of(case.columns, case.room)
    room = case.room
    return Ladder(case.columns, room, goal, gap, inf, report, kinds, Memory())


def with_plans(case, **more):
    """Return the state of a search that knows every plan of one dish, a column each."""
    ladder = ladder_of(case, **more)
    ladder.days = tuple(day_of(kind) for kind in ladder.kinds)
    for kind in ladder.kinds:
        for column in kind.columns:
            kind.add([column], "money")
    ladder.until = time.perf_counter() + 100
    return ladder
