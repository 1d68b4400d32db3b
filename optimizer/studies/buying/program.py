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
from optimizer.studies.buying.choice import Choice, Cut, Skip
from optimizer.studies.buying.market import LEVEL, Market
from optimizer.studies.buying.offers import MOST_PACKAGES, Basket, Offer


@dataclass(slots=True)
class Shopping:
    """The program, built once; a question changes the bounds of its columns."""

    market: Market
    kinds: tuple[Kind, ...]
    skips: tuple[Skip, ...]
    program: Program = field(default_factory=Program)
    numbers: list[pulp.LpVariable] = field(default_factory=list)  # in the order of a choice
    larger: dict[tuple[int, int], pulp.LpVariable] = field(default_factory=dict)  # or fewer: -had
    cuts: list[Cut] = field(default_factory=list)

    @property
    def offers(self) -> tuple[Offer, ...]:
        """What may be bought."""
        return self.market.offers

    def basket(self, choice: Choice) -> Basket:
        """Return what is bought of a choice."""
        return choice[: len(self.offers)]

    def got(self, choice: Choice) -> list[int]:
        """Return the dishes that are water got as it is: on the first days of their kind."""
        counts = zip(self.skips, choice[len(self.offers) :], strict=True)
        return [item for skip, count in counts for item in skip.days[:count]]

    def litres(self, choice: Choice, place: int) -> float:
        """Return how much water of an offer is got: the first offer is used up first."""
        counts = zip(self.skips, choice[len(self.offers) :], strict=True)
        left = sum(skip.litres * count for skip, count in counts)
        for offer, count in zip(self.offers[:place], choice, strict=False):
            left -= offer.amount * count if offer.kind == "water" else 0.0
        return min(max(0.0, left), self.offers[place].amount * choice[place])

    def learn(self, cut: Cut) -> None:
        """Add a cut."""
        self.cuts.append(cut)
        _cut_off(self, cut)


def shopping_of(market: Market) -> Shopping:
    """Build the program.

    Parameters
    ----------
    market : Market
        All columns of all baskets.
    """
    kinds = kinds_of(market.careful, market.kitchen)
    made = Shopping(market, kinds, tuple(_skips(market, kinds)))
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
    sold = any(offer.kind == "water" for offer in market.offers)
    for place, kind in enumerate(kinds if sold else ()):
        of_block = [_items(block) for block in kind.blocks]
        for rank, number in enumerate(of_block[0]):
            item = market.scenario.items[number]
            if item.dish.disinfects and item.dish.serve == "any":
                litres = sum(i.kg for i in item.dish.ingredients) * item.adult_portions
                days = tuple(items[rank] for items in of_block)
                yield Skip(place, number, litres, days)


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
    """Buy the water that is got."""
    offers, got = zip(made.offers, made.numbers, strict=False), made.numbers[len(made.offers) :]
    pairs = [(number, -offer.amount) for offer, number in offers if offer.kind == "water"]
    row = [*pairs, *zip(got, (skip.litres for skip in made.skips), strict=True)]
    if made.skips:
        add_row(made.program, "water_is_bought", row, "<=", 0)


def _price(made: Shopping) -> Pairs:
    pairs = zip(made.offers, made.numbers, strict=False)
    return [(number, offer.price) for offer, number in pairs]


def _cut_off(made: Shopping, cut: Cut) -> None:
    """Add the row of a cut."""
    name, count = f"cut[{len(made.cuts)}]", len(made.offers)
    things = [*_larger(made, cut, _of_things(made)), *_without_pots(made, cut)]
    if cut.by_fuel is None:
        fuels = [n for n in range(count) if made.offers[n].kind == "fuel" and cut.fuel_helps]
        others = _larger(made, cut, [*fuels, *range(count, len(cut.choice))])
        add_row(made.program, name, [*things, *others], ">=", 1)
        return
    bought: Pairs = [
        (number, cut.by_fuel.get(offer.name, 0.0) * offer.usable_j / MJ)
        for offer, number in zip(made.offers, made.numbers, strict=False)
        if offer.kind == "fuel"
    ]
    stock = made.market.kitchen.stock_j
    needed = cut.least - sum(price * stock[fuel] / MJ for fuel, price in cut.by_fuel.items())
    saved = zip(made.numbers[count:], cut.saved, strict=True)
    add_row(made.program, name, [*bought, *saved, *_times(things, cut.least)], ">=", needed)


def _of_things(made: Shopping) -> list[int]:
    """Return the places of stoves, pots and cookers."""
    return [n for n, offer in enumerate(made.offers) if offer.kind in ("stove", "pot", "cooker")]


def _larger(made: Shopping, cut: Cut, places: Sequence[int]) -> Pairs:
    """Return columns that can be one only where a number is larger than it was."""
    found: Pairs = []
    for place in places:
        least = cut.choice[place] + 1
        if least > _most_ever(made, place):
            continue
        if (place, least) not in made.larger:
            column = add_column(made.program, f"larger[{place},{least}]", high=1, whole=True)
            made.larger[place, least] = column
            row = [(made.numbers[place], 1.0), (column, -float(least))]
            add_row(made.program, f"larger_by[{place},{least}]", row, ">=", 0)
        found.append((made.larger[place, least], 1.0))
    return found


def _without_pots(made: Shopping, cut: Cut) -> Pairs:
    """Return columns that can be one only where a large pot is not bought.

    Without it a dish is cooked in more pots, and that may even take less fuel.
    """
    found: Pairs = []
    some = any(len(levels) > 1 for levels in made.market.levels.values())
    for place, offer in enumerate(made.offers if some else ()):
        had = cut.choice[place]
        if offer.kind != "pot" or not had:
            continue
        if (place, -had) not in made.larger:
            column = add_column(made.program, f"fewer[{place},{had}]", high=1, whole=True)
            made.larger[place, -had] = column
            row = [(made.numbers[place], 1.0), (column, offer.most - had + 1.0)]
            add_row(made.program, f"fewer_than[{place},{had}]", row, "<=", offer.most)
        found.append((made.larger[place, -had], 1.0))
    return found


def _most_ever(made: Shopping, place: int) -> int:
    """Return how many there can be where no limit is set on fuel."""
    fuel = place < len(made.offers) and made.offers[place].kind == "fuel"
    return MOST_PACKAGES if fuel else _most(made, place)


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
