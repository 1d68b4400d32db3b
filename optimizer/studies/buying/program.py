"""The program of what to buy: whole packages and whole things over the mix.

Whatever the household buys, a schedule of its days is also a mix that costs no more fuel. So no
basket that carries the days costs less than the cheapest one with a mix: the program's bound is a
bound of the price. Baskets without a schedule are cut off by what was learned of them.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

import pulp

from optimizer.planning.board import MJ, Pairs
from optimizer.planning.columns import Column, Kitchen
from optimizer.planning.days import Kind, kinds_of
from optimizer.planning.mix import lay_out
from optimizer.planning.otherwise import Otherwise
from optimizer.planning.solver import Outcome, Program, add_column, add_row, set_goal, solve, value
from optimizer.studies.buying.market import LEVEL, Market
from optimizer.studies.buying.offers import MOST_PACKAGES, Basket, Offer

Choice = tuple[int, ...]
"""How many of each offer, then on how many days of a kind each water is not boiled."""


@dataclass(frozen=True, slots=True)
class Skip:
    """Drinking water of one kind of day that is got as it is, on some of these days."""

    kind: int
    item: int  # the dish, on the first day of its kind
    offer: int  # the water that is got
    litres: float
    days: tuple[int, ...]  # the same dish on every day of the kind

    @property
    def most(self) -> int:
        """Days of the kind."""
        return len(self.days)


@dataclass(frozen=True, slots=True)
class Cut:
    """What was learned of a choice that gives no schedule.

    As long as no thing is added and no more water is got, the fuel at these prices has to come to
    so much; without a price, some number has to be larger than it was.
    """

    choice: Choice
    proven: bool  # False: no schedule was found, and there may be one
    by_fuel: Mapping[str, float] | None = None  # prices [1/MJ]; None: fuel is nothing learned
    least: float = 0.0
    fuel_too: bool = True  # more fuel might help


@dataclass(slots=True)
class Shopping:
    """The program, built once; a question changes the bounds of its columns."""

    market: Market
    kinds: tuple[Kind, ...]
    skips: tuple[Skip, ...]
    sure: bool  # cuts off only what is proven; else it also guesses what a day of water saves
    program: Program = field(default_factory=Program)
    numbers: list[pulp.LpVariable] = field(default_factory=list)  # in the order of a choice
    larger: dict[tuple[int, int], pulp.LpVariable] = field(default_factory=dict)
    cuts: list[Cut] = field(default_factory=list)

    @property
    def offers(self) -> tuple[Offer, ...]:
        """What may be bought."""
        return self.market.offers

    def basket(self, choice: Choice) -> Basket:
        """Return what is bought of a choice."""
        return choice[: len(self.offers)]

    def got(self, choice: Choice, offer: int | None = None) -> list[int]:
        """Return the dishes that are water got as it is (of one offer): the first of their kind."""
        taken: dict[tuple[int, int], int] = {}
        found: list[int] = []
        for skip, count in zip(self.skips, choice[len(self.offers) :], strict=True):
            first = taken.get((skip.kind, skip.item), 0)
            if offer in (None, skip.offer):
                found += skip.days[first : first + count]
            taken[skip.kind, skip.item] = first + count
        return found

    def litres(self, choice: Choice, offer: int) -> float:
        """Return how much water of an offer is got."""
        counts = zip(self.skips, choice[len(self.offers) :], strict=True)
        return sum(skip.litres * count for skip, count in counts if skip.offer == offer)

    def learn(self, cut: Cut) -> None:
        """Add a cut."""
        self.cuts.append(cut)
        _cut_off(self, cut)


def shopping_of(market: Market, *, sure: bool = True) -> Shopping:
    """Build the program.

    Parameters
    ----------
    market : Market
        All columns of all baskets.
    sure : bool
        Whether it is to cut off only what is proven.
    """
    kinds = kinds_of(market.careful, market.kitchen)
    made = Shopping(market, kinds, tuple(_skips(market, kinds)), sure)
    most = [offer.most for offer in made.offers] + [skip.most for skip in made.skips]
    for place, high in enumerate(most):
        name = f"number[{place}]"
        made.numbers.append(add_column(made.program, name, high=high, whole=True))
    _fuel_is_enough(made, _lay_out(made))
    _water_is_enough(made)
    set_goal(made.program, _price(made))
    return made


def _skips(market: Market, kinds: Sequence[Kind]) -> Iterator[Skip]:
    """Yield every drinking water that may be got instead of boiled."""
    waters = [place for place, offer in enumerate(market.offers) if offer.kind == "water"]
    for place, kind in enumerate(kinds if waters else ()):
        of_block = [_items(block) for block in kind.blocks]
        for rank, number in enumerate(of_block[0]):
            item = market.scenario.items[number]
            if item.dish.disinfects and item.dish.serve == "any":
                litres = sum(i.kg for i in item.dish.ingredients) * item.adult_portions
                days = tuple(items[rank] for items in of_block)
                yield from (Skip(place, number, water, litres, days) for water in waters)


def _items(block: Sequence[Column]) -> list[int]:
    """Return the dishes of a block in order, whatever their level."""
    return list(dict.fromkeys(column.item % LEVEL for column in block))


def _lay_out(made: Shopping) -> dict[str, Pairs]:
    """Add the mix of every kind of day, and return the fuel that all of them burn."""
    market, burnt = made.market, defaultdict[str, Pairs](list)
    more = {
        offer.resource: (number, offer.places)
        for offer, number in zip(made.offers, made.numbers, strict=False)
        if offer.kind in ("stove", "pot", "cooker")
    }
    had = market.kitchen.capacity
    most = {
        o.resource: had[o.resource] + o.most * o.places for o in made.offers if o.resource in had
    }
    for place, kind in enumerate(made.kinds):
        instead = _instead(made, place, kind.kitchen)
        laid = lay_out(made.program, kind.columns, kind.kitchen, Otherwise(more, most, instead))
        for fuel in market.kitchen.stock_j:
            burnt[fuel] += [(column, kind.count * factor) for column, factor in laid.of(fuel)]
    return burnt


def _instead(made: Shopping, place: int, kitchen: Kitchen) -> dict[int, Pairs]:
    """Say what stands for a level of a dish: another level, or water that is got as it is."""
    found: dict[int, Pairs] = {}
    for item in dict.fromkeys(number % LEVEL for number in kitchen.items):
        numbers = [level for level in made.market.levels[item] if level in kitchen.items]
        got: Pairs = [
            (made.numbers[len(made.offers) + n], 1.0 / skip.most)
            for n, skip in enumerate(made.skips)
            if (skip.kind, skip.item) == (place, item)
        ]
        if len(numbers) == 1:
            found[numbers[0]] = _times(got, kitchen.pots_of(numbers[0]))
            continue
        off = [add_column(made.program, f"other_level[{n}]", high=1) for n in numbers]
        for number, column in zip(numbers, off, strict=True):
            found[number] = [(column, kitchen.pots_of(number))]
        row = [*((column, 1.0) for column in off), *_times(got, -1.0)]
        add_row(made.program, f"one_level[{item}]", row, "==", len(numbers) - 1)
    return found


def _times(pairs: Pairs, factor: float) -> Pairs:
    return [(column, factor * by) for column, by in pairs]


def _fuel_is_enough(made: Shopping, burnt: Mapping[str, Pairs]) -> None:
    bought: dict[str, Pairs] = defaultdict(list)
    for offer, number in zip(made.offers, made.numbers, strict=False):
        if offer.kind == "fuel":
            bought[offer.name].append((number, -offer.usable_j / MJ))
    for fuel, pairs in burnt.items():
        stock = made.market.kitchen.stock_j[fuel] / MJ
        add_row(made.program, f"stock_is_enough[{fuel}]", [*pairs, *bought[fuel]], "<=", stock)


def _water_is_enough(made: Shopping) -> None:
    """Buy the water that is got, and get no more on a kind of day than its days."""
    count = len(made.offers)
    by_item: dict[tuple[int, int], Pairs] = defaultdict(list)
    by_offer: dict[int, Pairs] = defaultdict(list)
    for skip, number in zip(made.skips, made.numbers[count:], strict=True):
        by_item[skip.kind, skip.item].append((number, 1.0))
        by_offer[skip.offer].append((number, skip.litres))
    for (kind, item), pairs in by_item.items():
        add_row(made.program, f"water_of_days[{item}]", pairs, "<=", made.kinds[kind].count)
    for offer, pairs in by_offer.items():
        row = [*pairs, (made.numbers[offer], -made.offers[offer].amount)]
        add_row(made.program, f"water_is_bought[{offer}]", row, "<=", 0)


def _price(made: Shopping) -> Pairs:
    pairs = zip(made.offers, made.numbers, strict=False)
    return [(number, offer.price) for offer, number in pairs]


def _cut_off(made: Shopping, cut: Cut) -> None:
    """Add the rows of a cut."""
    name, numbers = f"cut[{len(made.cuts)}]", range(len(cut.choice))
    if cut.by_fuel is not None:
        _ask_for_fuel(made, cut, cut.by_fuel, name)
    places = [n for n in numbers if cut.fuel_too or not _is_fuel(made, n)]
    add_row(made.program, name, _larger(made, cut, places), ">=", 1)


def _ask_for_fuel(made: Shopping, cut: Cut, by_fuel: Mapping[str, float], name: str) -> None:
    """Let the fuel come to as much as was learned, at its prices."""
    bought: Pairs = [
        (made.numbers[n], by_fuel.get(offer.name, 0.0) * offer.usable_j / MJ)
        for n, offer in enumerate(made.offers)
        if offer.kind == "fuel"
    ]
    stock = made.market.kitchen.stock_j
    needed = cut.least - sum(price * stock[fuel] / MJ for fuel, price in by_fuel.items())
    things, count = _of_things(made), len(made.offers)
    if made.sure:
        things += range(count, len(cut.choice))
    else:
        credits = [_credit(made, skip, by_fuel) for skip in made.skips]
        bought += zip(made.numbers[count:], credits, strict=True)
        needed += sum(n * credit for n, credit in zip(cut.choice[count:], credits, strict=True))
    row = [*bought, *_times(_larger(made, cut, things), cut.least)]
    add_row(made.program, f"{name}:fuel", row, ">=", needed)


def _credit(made: Shopping, skip: Skip, by_fuel: Mapping[str, float]) -> float:
    """Return what a day of water saves at least, its pot alone counted, at prices of fuel."""
    columns = (c for c in made.kinds[skip.kind].columns if c.item % LEVEL == skip.item)
    return min((by_fuel.get(c.fuel, 0.0) * c.fuel_j / MJ for c in columns), default=0.0)


def _of_things(made: Shopping) -> list[int]:
    """Return the places of things: one more may help much; one more day of water helps little."""
    return [n for n, offer in enumerate(made.offers) if offer.kind in ("stove", "pot", "cooker")]


def _is_fuel(made: Shopping, place: int) -> bool:
    return place < len(made.offers) and made.offers[place].kind == "fuel"


def _larger(made: Shopping, cut: Cut, places: Sequence[int]) -> Pairs:
    """Return columns that can be one only where a number is larger than it was."""
    found: Pairs = []
    for place in places:
        least = cut.choice[place] + 1
        if least > (MOST_PACKAGES if _is_fuel(made, place) else _most(made, place)):
            continue
        if (place, least) not in made.larger:
            column = add_column(made.program, f"larger[{place},{least}]", high=1, whole=True)
            made.larger[place, least] = column
            row = [(made.numbers[place], 1.0), (column, -float(least))]
            add_row(made.program, f"larger_by[{place},{least}]", row, ">=", 0)
        found.append((made.larger[place, least], 1.0))
    return found


def _most(made: Shopping, place: int) -> int:
    count = len(made.offers)
    return made.offers[place].most if place < count else made.skips[place - count].most


def ask(made: Shopping, most: Mapping[int, int], time_limit_s: float) -> tuple[Outcome, Choice]:
    """Find the cheapest choice with a mix that no cut is against.

    Parameters
    ----------
    made : Shopping
        The program.
    most : mapping of int to int
        Place of an offer -> how many at most, where that is another number than the offer's.
    time_limit_s : float
        Longest time [s]

    Returns
    -------
    outcome, choice
        The choice is empty where there is none.
    """
    for place, high in most.items():
        made.numbers[place].upBound = high
    try:
        outcome = solve(made.program, gap=1e-6, time_limit_s=time_limit_s)
    finally:
        for place in most:
            made.numbers[place].upBound = _most(made, place)
    if not outcome.solved:
        return outcome, ()
    return outcome, tuple(round(value(number)) for number in made.numbers)
