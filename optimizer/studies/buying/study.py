"""What to buy so that the household is carried so many days: the whole study."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from optimizer.errors import LimitError
from optimizer.model.household import FuelOffer, Scenario
from optimizer.studies.buying.market import LEVEL, Market, market_of
from optimizer.studies.buying.minding import minding
from optimizer.studies.buying.offers import MOST_PACKAGES, Offer
from optimizer.studies.buying.program import shopping_of
from optimizer.studies.buying.purchase import Bought, Change, Held, Purchase
from optimizer.studies.buying.search import Answer, Search
from optimizer.studies.buying.trial import Carried, Counter
from optimizer.studies.endurance.watch import Tell, Watch

MAIN_SHARE = 0.7  # of the time; the rest is for what each thing saves
LEAST_S = 0.5
EVEN = 1e-6
MJ = 1e6


def what_to_buy(
    scenario: Scenario,
    days: int,
    *,
    budget: float | None = None,
    gap: float = 0.01,
    time_limit_s: float = 30.0,
    tell: Tell | None = None,
    savings: bool = True,
) -> Purchase:
    """Find the cheapest things to buy so that the household is carried so many days.

    Whole packages of fuel, stoves, pots, cookers and water of ``scenario.shop`` are added to what
    there is; every number of days then has a schedule, checked by the independent checker, that
    burns no fuel below its reserve even with the fuel counted at the household's confidence.

    Parameters
    ----------
    scenario : Scenario
        The household; its days are one round of the menu.
    days : int
        As many as it is to last.
    budget : float, optional
        Money that may be spent; None: as much as it takes.
    gap : float
        Look no further once the cost is proven to be within this share of the least.
    time_limit_s : float
        For all of it [s]
    tell : callable, optional
        Told now and then what is looked at; False stops.
    savings : bool
        Whether to find what each thing saves, by solving again without it.

    Returns
    -------
    Purchase
        With ``plan`` None where it cannot be done, and then ``changes`` that would make it
        possible.

    Raises
    ------
    LimitError
        If time ran out, or it was stopped, before anything was found.
    CheckError
        If a plan fails the independent checker: a defect of this program.
    """
    whole = Watch(time_limit_s, tell)
    market = market_of(scenario, days)
    shopping = shopping_of(market)
    counter = Counter(shopping, whole.within(MAIN_SHARE * time_limit_s))
    study = _Study(scenario, days, budget, market, Search(market, counter, gap), whole)
    return study.told(savings=savings)


@dataclass(slots=True)
class _Study:
    """One purchase in the making."""

    scenario: Scenario
    days: int
    budget: float | None
    market: Market
    search: Search
    watch: Watch

    def told(self, *, savings: bool) -> Purchase:
        """Answer the question."""
        answer = self.search.cheapest()
        main, self.search.counter.watch = self.search.counter.watch, self.watch
        if answer.carried is None and not answer.known and main.over:
            raise LimitError("nothing that lasts so long was found in the time; allow more time")
        if answer.carried is None or not self._affordable(answer.cost):
            return self._refused(answer)
        return self._bought(answer, answer.carried, savings=savings)

    def _affordable(self, cost: float | None) -> bool:
        return cost is not None and (self.budget is None or cost <= self.budget + EVEN)

    def _bought(self, answer: Answer, carried: Carried, *, savings: bool) -> Purchase:
        basket = self.search.sure.basket(carried.choice)
        things = [
            self._one(place, count, answer, carried, savings=savings)
            for place, count in enumerate(basket)
            if count
        ]
        return Purchase(
            self.scenario,
            self.days,
            self.budget,
            answer.cost,
            answer.bound,
            answer.known,
            bought=tuple(things),
            fuels=tuple(_held(carried)),
            margins=_margins(self.market, carried),
            household=carried.scenario,
            plan=carried.plan,
            cautions=minding(self.market.offers, basket),
            complete=not savings or all(thing.without_known for thing in things),
        )

    def _one(
        self, place: int, count: int, answer: Answer, carried: Carried, *, savings: bool
    ) -> Bought:
        offer = self.market.offers[place]
        without = self._without(place) if savings else Answer(None, None, answer.cost)
        least = without.bound if without.cost is None else without.cost
        litres = self.search.sure.litres(carried.choice, place)
        return Bought(
            offer,
            count,
            count * offer.price,
            self._dishes(offer, place, carried),
            litres if offer.kind == "water" else None,
            None if without.impossible else max(least or 0.0, answer.cost or 0.0),
            without.known,
        )

    def _without(self, place: int) -> Answer:
        """Solve again without any of one thing, in a part of the time that is left."""
        counter = self.search.counter
        counter.watch = self.watch.within(max(LEAST_S, self.watch.left_s / 2))
        return self.search.cheapest({place: 0})

    def _dishes(self, offer: Offer, place: int, carried: Carried) -> tuple[str, ...]:
        """Return the dishes that something is for."""
        if offer.kind == "water":
            items = self.search.sure.got(carried.choice)
            labels = [self.market.scenario.items[item].dish.label for item in items]
        else:
            labels = [
                step.item for step in carried.plan.steps if offer.name == getattr(step, offer.kind)
            ]
        return tuple(dict.fromkeys(labels))

    def _refused(self, answer: Answer) -> Purchase:
        """Say what would make it possible."""
        return Purchase(
            self.scenario,
            self.days,
            self.budget,
            None,
            answer.bound,
            answer.known,
            changes=tuple(self._changes(answer)),
            stuck=self._stuck(),
        )

    def _changes(self, answer: Answer) -> Iterator[Change]:
        """Yield more money, then more room for one fuel, then for all of them."""
        if answer.cost is not None and self.budget is not None:
            yield Change("money", answer.cost, answer.cost - self.budget)
        limited = [
            place
            for place, offer in enumerate(self.market.offers)
            if isinstance(offer.source, FuelOffer) and offer.source.limit is not None
        ]
        found = [change for place in limited for change in self._more_room((place,), answer)]
        if not found and len(limited) > 1:
            found = list(self._more_room(limited, answer))
        yield from found

    def _more_room(self, places: Sequence[int], answer: Answer) -> Iterator[Change]:
        """Yield what more room for some fuels would do, if it does anything."""
        if not self.watch.going("more room"):
            return
        again = self.search.cheapest(dict.fromkeys(places, MOST_PACKAGES))
        if again.carried is None or again.cost is None:
            return
        if answer.cost is not None and again.cost >= answer.cost - EVEN:
            return
        basket = self.search.sure.basket(again.carried.choice)
        limits = tuple(
            (offer, _in_house(offer, basket[place]))
            for place, offer in enumerate(self.market.offers)
            if place in places and basket[place] > offer.most
        )
        short = 0.0 if self.budget is None else max(0.0, again.cost - self.budget)
        yield Change("both" if short else "limit", again.cost, short, limits)

    def _stuck(self) -> tuple[str, ...]:
        """Return dishes that have no way, whatever is bought."""
        some = {column.item % LEVEL for column in self.market.columns}
        items = self.market.scenario.items
        return tuple(dict.fromkeys(i.dish.label for i in items if i.number not in some))


def _in_house(offer: Offer, count: int) -> float:
    """Return how much of a fuel the house would hold [kg or J]."""
    assert isinstance(offer.source, FuelOffer)
    store = offer.source.store
    return (store.stock_kg or store.stock_j or 0.0) + count * offer.amount


def _held(carried: Carried) -> Iterator[Held]:
    """Yield what is burned of every fuel."""
    used = {use.name: use.used_mj for use in carried.plan.fuels}
    for store in carried.scenario.stores:
        name = store.fuel.name
        usable = carried.usable_j.get(name)
        yield Held(
            store,
            used.get(name, 0.0),
            carried.careful_j.get(name, 0.0) / MJ,
            None if usable is None else usable / MJ,
        )


def _margins(market: Market, carried: Carried) -> dict[str, float]:
    used = {step.stove for step in carried.plan.steps}
    return {name: more for name, more in market.margins.items() if name in used}
