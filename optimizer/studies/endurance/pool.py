"""Plans of single days put together to many days, so that no fuel is used beyond its store.

Every joule has a price, the whole store being worth one. At such prices each kind of day is
planned for itself: what the days come to together is proven, and above one they cannot be had. The
plans found on the way are put together; where they fit into the store, the days can be had. Prices
beside the best ones give plans that burn more of one fuel and less of another.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field, replace
from functools import partial
from typing import Literal

import pulp

from optimizer.model.household import Scenario
from optimizer.planning.board import MJ, Pairs
from optimizer.planning.cheapest import Prices
from optimizer.planning.columns import Column, Kitchen
from optimizer.planning.days import kinds_of, spread
from optimizer.planning.kitchen import Known, household_of
from optimizer.planning.ladder import THREADS
from optimizer.planning.memory import Memory
from optimizer.planning.pricing import Day, guess, prove, sketched
from optimizer.planning.solver import Program, add_column, add_row, prices, set_goal, solve, value
from optimizer.studies.endurance.watch import Watch

Proof = Literal["found", "none", "unknown"]
NO_MONEY = "money"  # columns carry none here; only the price of fuel counts
SURE = 1e-4  # share by which a bound has to be above the store
EVEN = 1e-6
ROUNDS = 4  # of proofs
DAY_GAP = 2e-3
SETTLED = 5e-3  # plans so near to the bound leave nothing to be gained by other prices
FOLLOWED = 3  # prices that the plans found so far ask for
BESIDE = (0.8, 1.25)  # of the prices, fuel by fuel
WHOLE_S = 1.0  # for putting plans together


@dataclass(slots=True)
class Pool:
    """What is worked out once: ways of households, and plans of kinds of day.

    A day is known again by all that its columns say, so that one pool serves a household and all
    that it might be.
    """

    memory: Memory = field(default_factory=Memory)
    known: dict[object, Known] = field(default_factory=dict)  # ways by household
    at: Prices = field(default_factory=dict)  # the best prices so far [share of store per MJ]

    def ways(self, scenario: Scenario) -> Known:
        """Return the ways of a household that are known, to be added to."""
        return self.known.setdefault(household_of(scenario), {})

    def days_of(
        self,
        columns: Sequence[Column],
        kitchen: Kitchen,
        prices_j: Mapping[str, float],
        watch: Watch,
    ) -> tuple[tuple[Column, ...], Proof]:
        """Return a schedule within the store, or whether it is proven that there is none.

        Parameters
        ----------
        columns : sequence of Column
            All that may be chosen, over all days.
        kitchen : Kitchen
            What the dishes share, with the store.
        prices_j : mapping of str to float
            Prices to begin with [share of the store per J]
        watch : Watch
            How long to look.
        """
        bare, room = _without_money(columns, kitchen)
        kinds = kinds_of(bare, room)
        trial = Trial(tuple(self.memory.day(k, NO_MONEY) for k in kinds), kitchen.stock_j, watch)
        for day in trial.days:
            day.until = watch.until
        trial.at = self.at or {fuel: price * MJ for fuel, price in prices_j.items()}
        proof = trial.run()
        self.at = trial.best
        true = {id(mine): column for mine, column in zip(bare, columns, strict=True)}
        return tuple(true[id(column)] for column in trial.chosen), proof


def _without_money(
    columns: Sequence[Column], kitchen: Kitchen
) -> tuple[tuple[Column, ...], Kitchen]:
    lit = {name: replace(each, money_j=0.0) for name, each in kitchen.lightings.items()}
    bare = tuple(replace(column, money=0.0) for column in columns)
    return bare, replace(kitchen, lightings=lit)


@dataclass(slots=True)
class Trial:
    """One number of days."""

    days: tuple[Day, ...]
    stock_j: Mapping[str, float]
    watch: Watch
    at: Prices = field(default_factory=dict)
    best: Prices = field(default_factory=dict)
    bound: float = 0.0  # share of the store that no schedule takes less of
    chosen: tuple[Column, ...] = ()
    settled: bool = False  # other prices gain nothing

    def run(self) -> Proof:
        """Look for the days at one price after another, until found or proven to be too many."""
        self.best = self.at
        if not self.guess():
            return "none" if self.bound > 1 + SURE else "unknown"
        if self.together():
            return "found"
        for step in self.steps():
            if step():
                return "found"
            if self.bound > 1 + SURE:
                return "none"
            if self.settled or not self.watch.going():
                break
        return "unknown"

    def steps(self) -> "Iterator[Callable[[], bool]]":
        """Yield what to do next: plans at good prices first, proofs last."""
        first = self.at
        yield partial(self.sketch, first)
        for _ in range(FOLLOWED if len(self.stock_j) > 1 else 0):
            _, wished = self.mixed()
            yield partial(self.sketch, _between(first, wished))
        for share in BESIDE if len(self.stock_j) > 1 else ():
            for fuel in self.stock_j:
                yield partial(
                    self.sketch, {f: p * (share if f == fuel else 1.0) for f, p in first.items()}
                )
        yield from [self.prove] * ROUNDS

    def guess(self) -> bool:
        """Find a bound without plans; False if that is above the store, or a day has none."""
        made = [guess(day, NO_MONEY, self.at) for day in self.days]
        if any(each is None for each in made):
            return False
        counts = [day.kind.count for day in self.days]
        self.bound = sum(n * each.bound for n, each in zip(counts, made, strict=True) if each)
        return self.bound <= 1 + SURE

    def sketch(self, at: Prices) -> bool:
        """Add a good plan of every kind of day at some prices, and put all plans together."""
        self.each(partial(sketched, goal=NO_MONEY, at=at))
        return self.together()

    def prove(self) -> bool:
        """Plan every kind of day at the best prices, and put all plans together."""
        found = self.each(partial(prove, goal=NO_MONEY, at=self.at, gap=DAY_GAP))
        if found is not None and found > self.bound:
            self.bound, self.best = found, self.at
        if self.together():
            return True
        taken, wished = self.mixed()
        self.settled = taken - self.bound <= SETTLED
        self.at = _between(self.best, wished)
        return False

    def each(self, work: "partial[float | None]") -> float | None:
        """Do some work for every kind of day, and return what the days come to."""
        with ThreadPoolExecutor(THREADS) as pool:
            made = list(pool.map(work, self.days))
        if any(bound is None for bound in made):
            return None
        counts = (day.kind.count for day in self.days)
        return sum(n * bound for n, bound in zip(counts, made, strict=True) if bound is not None)

    def mixed(self) -> tuple[float, Prices]:
        """Return the share of the store that a mix of the plans takes, and its prices."""
        program, _ = self._master(whole=False)
        if not solve(program).solved:
            return float("inf"), self.at
        by_row = prices(program)
        at = {fuel: max(0.0, -by_row[f"stock_is_enough[{fuel}]"]) for fuel in self.stock_j}
        return value(program.columns["share"]), at

    def together(self) -> bool:
        """Give every day a plan so that the least of the store is taken; True if it lasts."""
        if any(not day.kind.plans for day in self.days):
            return False
        program, used = self._master(whole=True)
        left_s = max(0.05, min(WHOLE_S, self.watch.left_s))
        if not solve(program, gap=DAY_GAP, time_limit_s=left_s).solved:
            return False
        if value(program.columns["share"]) > 1 + EVEN:
            return False
        chosen: list[Column] = []
        for day, columns in zip(self.days, used, strict=True):
            times = [round(value(column)) for column in columns]
            plans = [p for p, n in zip(day.kind.plans, times, strict=True) for _ in range(n)]
            chosen += spread(day.kind, plans)
        self.chosen = tuple(chosen)
        return True

    def _master(self, *, whole: bool) -> tuple[Program, list[list[pulp.LpVariable]]]:
        """Build the program that gives every day one of its kind's plans."""
        program, used = Program(), []
        share = add_column(program, "share")
        burnt: dict[str, Pairs] = {fuel: [(share, -j / MJ)] for fuel, j in self.stock_j.items()}
        for number, day in enumerate(self.days):
            names = (f"days[{number},{n}]" for n in range(len(day.kind.plans)))
            columns = [add_column(program, name, whole=whole) for name in names]
            used.append(columns)
            row = [(column, 1.0) for column in columns]
            add_row(program, f"every_day[{number}]", row, "==", day.kind.count)
            for column, plan in zip(columns, day.kind.plans, strict=True):
                for fuel, fuel_j in plan.fuel_j:
                    if fuel in burnt and fuel_j:
                        burnt[fuel].append((column, fuel_j / MJ))
        for fuel, pairs in burnt.items():
            add_row(program, f"stock_is_enough[{fuel}]", pairs, "<=", 0)
        set_goal(program, [(share, 1.0)])
        return program, used


def _between(one: Prices, other: Prices) -> Prices:
    """Return prices half way between two."""
    fuels = dict.fromkeys([*one, *other])
    return {fuel: (one.get(fuel, 0.0) + other.get(fuel, 0.0)) / 2 for fuel in fuels}
