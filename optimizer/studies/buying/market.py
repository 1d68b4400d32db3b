"""What a household could cook if it had bought everything, so many days long.

A dish may need fewer pots once a larger pot is bought. Each number of pots that it may come to is a
level, with columns and a number of its own.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from optimizer.model.household import Item, OwnPot, Scenario
from optimizer.planning.columns import Column, Kitchen
from optimizer.planning.contents import pots_needed
from optimizer.planning.kitchen import choices, kitchen_of
from optimizer.studies.buying.margin import careful, careful_fire, margins
from optimizer.studies.buying.offers import Basket, Offer, offers_of, with_bought
from optimizer.studies.endurance.repeat import repeated

LEVEL = 1_000_000  # between the numbers of a dish's levels


@dataclass(frozen=True, slots=True)
class Market:
    """All columns that any basket may give, fuel counted with a margin."""

    scenario: Scenario  # of so many days, nothing bought
    offers: tuple[Offer, ...]
    columns: tuple[Column, ...]  # true ones; the item is the number of a level
    careful: tuple[Column, ...]  # the same with the margin, in the same order
    kitchen: Kitchen  # with what the household has; 0 of what it may only buy
    levels: Mapping[int, tuple[int, ...]]  # dish -> numbers of its levels
    pots: Mapping[int, frozenset[str]]  # number of a level -> pots that may be in the house then
    margins: Mapping[str, float]  # by stove

    def level_of(self, item: int, basket: Basket) -> int:
        """Return the level of a dish once a basket is bought."""
        had = {own.pot.name for own in self.scenario.pots}
        had |= {o.name for o, n in zip(self.offers, basket, strict=True) if n and o.kind == "pot"}
        return next(level for level in self.levels[item] if had <= self.pots[level])


def market_of(scenario: Scenario, days: int) -> Market:
    """Return all that a household may cook on a number of days, whatever it buys.

    Parameters
    ----------
    scenario : Scenario
        The household; its days are one round of the menu.
    days : int
        As many as are wanted.
    """
    offers = offers_of(scenario)
    longer = repeated(scenario, days)
    every = tuple(min(1, o.most) if o.kind == "fuel" else o.most for o in offers)
    whole = with_bought(longer, offers, every)
    by_stove = margins(whole)
    columns: list[Column] = []
    levels: dict[int, list[int]] = defaultdict(list)
    pots: dict[int, frozenset[str]] = {}
    batches: dict[int, int] = {}
    for there, members in _levels(longer, whole).items():
        mine = {}
        for item, count in members:
            number = mine[item] = item + LEVEL * len(levels[item])
            levels[item].append(number)
            pots[number] = there
            if count > 1:
                batches[number] = count
        part = replace(whole, pots=tuple(own for own in whole.pots if own.pot.name in there))
        columns += [
            replace(column, item=mine[column.item])
            for column in choices(part).columns
            if column.item in mine
        ]
    return Market(
        scenario=longer,
        offers=offers,
        columns=tuple(columns),
        careful=tuple(careful(column, by_stove) for column in columns),
        kitchen=_kitchen(longer, whole, by_stove, tuple(pots), batches),
        levels={item: _tightest_first(numbers, pots) for item, numbers in levels.items()},
        pots=pots,
        margins=by_stove,
    )


def _tightest_first(numbers: list[int], pots: Mapping[int, frozenset[str]]) -> tuple[int, ...]:
    return tuple(sorted(numbers, key=lambda number: len(pots[number])))


def _levels(longer: Scenario, whole: Scenario) -> dict[frozenset[str], list[tuple[int, int]]]:
    """Gather dishes and numbers of pots by the pots that may be in the house with them."""
    found: dict[frozenset[str], list[tuple[int, int]]] = defaultdict(list)
    own = {each.pot.name for each in longer.pots}
    extra = [each for each in whole.pots if each.pot.name not in own]
    for item in longer.items:
        needs = dict(_needs(longer, item, extra))
        first = _need(longer, item, ())
        for count in sorted({first, *needs.values()}):
            there = frozenset({*own, *(name for name, n in needs.items() if n >= count)})
            found[there].append((item.number, count))
    return found


def _needs(longer: Scenario, item: Item, extra: list[OwnPot]) -> Iterator[tuple[str, int]]:
    for each in extra:
        yield each.pot.name, _need(longer, item, (each,))


def _need(longer: Scenario, item: Item, more: tuple[OwnPot, ...]) -> int:
    pots = (own.pot for own in (*longer.pots, *more))
    return pots_needed(item, longer.place, longer.rules, pots)


def _kitchen(
    longer: Scenario,
    whole: Scenario,
    by_stove: Mapping[str, float],
    numbers: tuple[int, ...],
    batches: Mapping[int, int],
) -> Kitchen:
    had, all_of_it = kitchen_of(longer), kitchen_of(whole)
    return replace(
        had,
        items=numbers,
        capacity={name: had.capacity.get(name, 0) for name in all_of_it.capacity},
        lightings={n: careful_fire(each, by_stove) for n, each in all_of_it.lightings.items()},
        stock_j={name: had.stock_j.get(name, 0.0) for name in all_of_it.stock_j},
        batches=dict(batches),
    )
