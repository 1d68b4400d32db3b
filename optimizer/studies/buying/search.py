"""The cheapest choice that has a checked plan, and how sure it is that nothing is cheaper."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from optimizer.studies.buying.choice import Cut
from optimizer.studies.buying.market import Market
from optimizer.studies.buying.offers import cost_of
from optimizer.studies.buying.program import Shopping, ask, shopping_of
from optimizer.studies.buying.trial import Carried, Counter

NO_MORE: Mapping[int, int] = {}
EVEN = 1e-6


@dataclass(frozen=True, slots=True)
class Answer:
    """The cheapest choice found for a question."""

    carried: Carried | None
    cost: float | None
    bound: float | None  # nothing that carries the days costs less; None: nothing carries them

    @property
    def known(self) -> bool:
        """Whether it is proven that nothing is cheaper, or that nothing carries the days."""
        if self.cost is None or self.bound is None:
            return self.cost is None and self.bound is None
        return self.bound >= self.cost - EVEN

    def near(self, gap: float) -> bool:
        """Tell whether the cost is within a share of what is proven."""
        if self.cost is None or self.bound is None:
            return self.known
        return self.bound >= self.cost * (1 - gap) - EVEN

    @property
    def impossible(self) -> bool:
        """Whether it is proven that nothing carries the days."""
        return self.bound is None


@dataclass(slots=True)
class Search:
    """Asks the program and tries what it says, until a choice is carried.

    First a program that passes over what was not settled leads to a choice that is carried. Then
    one that knows only of what is proven tells whether anything is cheaper, and that is tried too.
    """

    market: Market
    counter: Counter
    gap: float = 0.0  # so near to the bound is near enough
    quick: Shopping = field(init=False)
    sure: Shopping = field(init=False)

    def __post_init__(self) -> None:
        self.quick = shopping_of(self.market)
        self.sure = self.counter.shopping

    def cheapest(self, most: Mapping[int, int] = NO_MORE) -> Answer:
        """Find the cheapest choice.

        Parameters
        ----------
        most : mapping of int to int
            Place of an offer -> how many at most, where that is another number than the offer's.
        """
        carried = self._first(most)
        bound: float | None = 0.0
        while True:
            outcome, choice = ask(self.sure, most, max(1.0, self.counter.watch.left_s))
            bound = None if outcome.status == "infeasible" else outcome.bound or 0.0
            answer = self._answer(carried, bound)
            if answer.near(self.gap) or not choice or not self.counter.watch.going():
                return answer
            tried = self.counter.attempt(choice)
            if isinstance(tried, Carried):
                carried = tried
            elif tried.proven:
                self._learn(tried)
            else:
                return answer

    def _first(self, most: Mapping[int, int]) -> Carried | None:
        """Find a choice that is carried, and cheap, if any."""
        watch = self.counter.watch
        while watch.going("what to buy"):
            _, choice = ask(self.quick, most, max(0.1, watch.left_s))
            if not choice:
                return None
            tried = self.counter.attempt(choice)
            if isinstance(tried, Carried):
                return tried
            self._learn(tried)
        return None

    def _answer(self, carried: Carried | None, bound: float | None) -> Answer:
        if carried is None:
            return Answer(None, None, bound)
        cost = cost_of(self.market.offers, self.sure.basket(carried.choice))
        return Answer(carried, cost, cost if bound is None else min(bound, cost))

    def _learn(self, cut: Cut) -> None:
        self.quick.learn(cut)
        if cut.proven:
            self.sure.learn(cut)
