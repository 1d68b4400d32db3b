"""Whether a choice of things to buy really has a schedule, and what is learned if it has none."""

import math
from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, field, replace

from optimizer.model.household import Scenario
from optimizer.model.plan import Plan
from optimizer.planning.board import MJ
from optimizer.planning.cheapest import Prices
from optimizer.planning.columns import Column, Kitchen
from optimizer.planning.days import Kind, kinds_of
from optimizer.planning.ledger import fuel_of
from optimizer.planning.memory import Memory
from optimizer.planning.pricing import Day, guess, prove
from optimizer.planning.schedule import FEW, schedule
from optimizer.planning.share import least_share
from optimizer.planning.starts import Cooking
from optimizer.studies.buying.choice import Choice, Cut
from optimizer.studies.buying.market import LEVEL, Market
from optimizer.studies.buying.offers import Basket, with_bought
from optimizer.studies.buying.program import Shopping
from optimizer.studies.endurance.days import ANY_GAP, checked_plan
from optimizer.studies.endurance.pool import DAY_GAP, NO_MONEY, SURE, Trial
from optimizer.studies.endurance.watch import Watch

Bound = Callable[[Day, Prices], float]
WHOLE_S = 6.0
STEP, MOST_STEP = 0.01, 0.08  # of the fuel, asked for where no schedule was found: doubled


@dataclass(frozen=True, slots=True)
class Carried:
    """A choice that carries the days: the household with it, and its checked plan."""

    choice: Choice
    scenario: Scenario  # with what is bought, without the water that is not boiled
    plan: Plan
    careful_j: Mapping[str, float]  # fuel burned at the margin [J]
    usable_j: Mapping[str, float]  # in the house, the reserve kept; without limit: absent [J]


@dataclass(slots=True)
class Counter:
    """Tries choices; days that are planned once are known again."""

    shopping: Shopping
    watch: Watch
    memory: Memory = field(default_factory=Memory)
    known: dict[Choice, Carried | Cut] = field(default_factory=dict)
    passed_over: int = 0  # choices without a schedule and without a proof

    def attempt(self, choice: Choice) -> Carried | Cut:
        """Schedule all days with what a choice buys, or say what is learned."""
        if choice not in self.known:
            self.known[choice] = _Attempt(self, choice).made()
        return self.known[choice]


class _Attempt:
    """One choice: its household, its columns with and without the margin."""

    def __init__(self, counter: Counter, choice: Choice) -> None:
        self.counter, self.choice = counter, choice
        self.market: Market = counter.shopping.market
        self.basket: Basket = counter.shopping.basket(choice)
        self.got = set(counter.shopping.got(choice))
        longer = with_bought(self.market.scenario, self.market.offers, self.basket)
        left = [item for item in longer.items if item.number not in self.got]
        self.numbers = {item.number: number for number, item in enumerate(left)}
        items = tuple(replace(item, number=self.numbers[item.number]) for item in left)
        self.scenario = replace(longer, items=items)
        self.kitchen = self._kitchen()
        self.true: dict[int, Column] = {}
        self.careful = tuple(self._columns())

    def _kitchen(self) -> Kitchen:
        """Return the kitchen with what is bought, fuel to be counted with its margin."""
        had, capacity = self.market.kitchen, dict(self.market.kitchen.capacity)
        stock_j, batches = dict(had.stock_j), {}
        for offer, count in zip(self.market.offers, self.basket, strict=True):
            if offer.kind == "fuel":
                stock_j[offer.name] += count * offer.usable_j
            elif offer.kind != "water":
                capacity[offer.resource] += count * offer.places
        for item, number in self.numbers.items():
            pots = had.pots_of(self.market.level_of(item, self.basket))
            if pots > 1:
                batches[number] = pots
        return replace(
            had,
            items=tuple(self.numbers.values()),
            capacity=capacity,
            stock_j=stock_j,
            batches=batches,
        )

    def _columns(self) -> list[Column]:
        """Return what can be cooked now; the true columns are kept by their careful ones."""
        made, capacity = [], self.kitchen.capacity
        levels = {self.market.level_of(item, self.basket) for item in self.numbers}
        for true, careful in zip(self.market.columns, self.market.careful, strict=True):
            if true.item in levels and all(capacity[use.resource] for use in true.uses):
                number = self.numbers[true.item % LEVEL]
                mine = replace(careful, item=number)
                self.true[id(mine)] = self._numbered(true, number)
                made.append(mine)
        return made

    def _numbered(self, column: Column, number: int) -> Column:
        """Return a column of the household without the water that is got as it is."""
        cooking = column.way
        assert isinstance(cooking, Cooking)
        way = replace(cooking, item=self.scenario.items[number])
        return replace(column, item=number, way=way)

    def made(self) -> Carried | Cut:
        """Schedule it."""
        if len({column.item for column in self.careful}) < len(self.numbers):
            return Cut(self.choice, proven=True, fuel_helps=False)
        kinds = kinds_of(self.careful, self.kitchen)
        least = least_share(kinds, self.kitchen.stock_j)
        if least.value is None:
            some = least_share(kinds, {}).value is not None
            return Cut(self.choice, proven=True, fuel_helps=some)
        return self._scheduled(kinds, least.prices)

    def _scheduled(self, kinds: tuple[Kind, ...], prices: Mapping[str, float]) -> Carried | Cut:
        """Put plans of days together; search the whole where that does not do."""
        watch = self.counter.watch.within(self.counter.watch.most_s)
        trial = Trial(self.days(kinds, watch), self.kitchen.stock_j, watch)
        trial.at = {fuel: price * MJ for fuel, price in prices.items()}
        proof = trial.run()
        if proof == "found":
            return self._carried(trial.chosen)
        if proof == "unknown" and len(self.careful) <= FEW and watch.going():
            chosen, none = self._whole()
            if chosen:
                return self._carried(chosen)
            if none and trial.bound <= 1 + SURE:
                return Cut(self.choice, proven=True)
        return Lesson(self, trial.best).learned(proven=trial.bound > 1 + SURE)

    def days(self, kinds: Sequence[Kind], watch: Watch) -> tuple[Day, ...]:
        """Return kinds of day with what is known of them."""
        days = tuple(self.counter.memory.day(kind, NO_MONEY) for kind in kinds)
        for day in days:
            day.until = watch.until
        return days

    def _whole(self) -> tuple[tuple[Column, ...], bool]:
        """Search all days at once; also tell whether it is proven that there is no schedule."""
        watch = self.counter.watch.within(WHOLE_S)
        found = schedule(
            self.careful,
            self.kitchen,
            goals=("energy",),
            gap=ANY_GAP,
            time_limit_s=max(0.1, watch.left_s),
            progress=lambda *_: watch.going(),
        )
        return found.chosen, found.status == "infeasible"

    def _carried(self, chosen: tuple[Column, ...]) -> Carried:
        true = tuple(self.true[id(column)] for column in chosen)
        plan = checked_plan(self.scenario, true)
        burned = fuel_of(chosen, self.kitchen)
        return Carried(self.choice, self.scenario, plan, burned, self.kitchen.stock_j)


class Lesson:
    """What fuel has to come to at some prices, with the things of a choice.

    A day on which water is boiled comes to its bound; one on which it is not, to its own. So the
    bound of all days falls by their difference for every day of water that is got.
    """

    def __init__(self, tried: _Attempt, at: Prices) -> None:
        self.tried, self.at = tried, at
        self.shopping = tried.counter.shopping
        self.kitchen = replace(tried.kitchen, batches=tried.market.kitchen.batches)
        self.watch = tried.counter.watch.within(tried.counter.watch.most_s)
        stock = tried.kitchen.stock_j
        self.worth = sum(at.get(fuel, 0.0) * joules / MJ for fuel, joules in stock.items())

    def learned(self, *, proven: bool) -> Cut:
        """Return a cut that the choice breaks."""
        choice = self.tried.choice
        if not proven:
            least, saved = self._bounds(_guessed)
            lacks = self.worth * (1 + self._step()) - self._at_choice(least, saved)
            return Cut(choice, False, self.at, least + lacks, saved)
        for bound in (_guessed, _proven):
            least, saved = self._bounds(bound)
            if self._at_choice(least, saved) > self.worth * (1 + SURE):
                return Cut(choice, True, self.at, least, saved)
        return Cut(choice, proven=True)

    def _step(self) -> float:
        """Return by how much more to ask for, where none was found and nothing is proven."""
        counter = self.tried.counter
        counter.passed_over += 1
        return float(min(MOST_STEP, STEP * 2.0 ** (counter.passed_over - 1)))

    def _at_choice(self, least: float, saved: Sequence[float]) -> float:
        days = self.tried.choice[len(self.shopping.offers) :]
        return least - math.fsum(n * each for n, each in zip(days, saved, strict=True))

    def _bounds(self, bound: Bound) -> tuple[float, tuple[float, ...]]:
        """Return what all days come to, and what a day of each water saves."""
        least, saves = 0.0, []
        for place, kind in enumerate(self.shopping.kinds):
            waters = {skip.item for skip in self.shopping.skips if skip.kind == place}
            dry = self._of_day(kind, waters, bound)
            full = max(dry, self._of_day(kind, set(), bound) if waters else dry)
            least += kind.count * full
            saves.append(full - dry)
        return least, tuple(saves[skip.kind] for skip in self.shopping.skips)

    def _of_day(self, kind: Kind, without: Collection[int], bound: Bound) -> float:
        """Return what one day of a kind comes to without some water; 0 where it has no plan."""
        market, capacity = self.tried.market, self.kitchen.capacity
        items = {column.item % LEVEL for column in kind.columns} - {*without}
        levels = {market.level_of(item, self.tried.basket) for item in items}
        columns = tuple(
            column
            for column in kind.columns
            if column.item in levels and all(capacity[use.resource] for use in column.uses)
        )
        if len({column.item for column in columns}) < len(levels):
            return 0.0
        kinds = kinds_of(columns, self.kitchen)
        days = self.tried.days(kinds, self.watch)
        return sum(k.count * bound(day, self.at) for k, day in zip(kinds, days, strict=True))


def _guessed(day: Day, at: Prices) -> float:
    found = guess(day, NO_MONEY, at)
    return found.bound if found else 0.0


def _proven(day: Day, at: Prices) -> float:
    found = prove(day, NO_MONEY, at, gap=DAY_GAP)
    return _guessed(day, at) if found is None else max(found, _guessed(day, at))
