"""A better order of dishes: which to swap to which day, so that what spoils first is eaten first.

Nothing is moved by itself: what is found here is only suggested. A dish stays at a meal of the
same name; as few dishes as can be change their day.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from optimizer.model.household import Item, Scenario
from optimizer.planning.kitchen import Known, choices

PAIR = 2  # of dishes that change places
MOST_PLACES = 10  # meals of one name that are looked at
NEVER = 1e6


@dataclass(frozen=True, slots=True)
class Move:
    """One dish eaten at the place of another."""

    item: Item
    to: Item  # whose day it takes

    @property
    def told(self) -> str:
        """The dish and its new day."""
        return f"{self.item.dish.label} to day {self.to.day}"


def better_order(
    scenario: Scenario, spoiled: Sequence[int], known: Known | None = None
) -> tuple[Move, ...]:
    """Find which dishes to swap so that none of them spoils.

    Parameters
    ----------
    scenario : Scenario
        The household.
    spoiled : sequence of int
        Items that are refused where they stand.
    known : dict, optional
        Attempts of the same household, found before.

    Returns
    -------
    tuple of Move
        As few as can be; none for a meal of which no order helps.
    """
    known = {} if known is None else known
    meals = dict.fromkeys(scenario.items[number].meal for number in spoiled)
    return tuple(move for meal in meals for move in _of_meal(scenario, meal, set(spoiled), known))


def _of_meal(scenario: Scenario, meal: str, spoiled: set[int], known: Known) -> Iterator[Move]:
    """Yield the moves among meals of one name: an assignment of dishes to places."""
    from scipy.optimize import linear_sum_assignment  # only where a menu is refused

    places = _places(scenario, meal, spoiled)
    cost = [[_cost(scenario, item, to, spoiled, known) for to in places] for item in places]
    rows, columns = linear_sum_assignment(cost)
    chosen = [(places[r], places[c], cost[r][c]) for r, c in zip(rows, columns, strict=True)]
    if all(price < NEVER for *_, price in chosen):
        yield from (Move(item, to) for item, to, _ in chosen if item.number != to.number)


def _places(scenario: Scenario, meal: str, spoiled: set[int]) -> list[Item]:
    """Return the meals looked at: those refused, then the earliest."""
    there = [item for item in scenario.items if item.meal == meal]
    first = sorted(there, key=lambda i: (i.number not in spoiled, i.serve_min, i.number))
    return sorted(first[:MOST_PLACES], key=lambda i: i.number)


def _cost(scenario: Scenario, item: Item, to: Item, spoiled: set[int], known: Known) -> float:
    """Return 0 for a dish that stays, a little for one that moves, much where it cannot be."""
    if item.number == to.number:
        return NEVER if item.number in spoiled else 0.0
    if item.dish.name == to.dish.name and item.number in spoiled:
        return NEVER  # the same dish there is in time already: moving it helps nobody
    return 1.0 + abs(item.day - to.day) / 1000 if _fits(scenario, item, to, known) else NEVER


def _fits(scenario: Scenario, item: Item, to: Item, known: Known) -> bool:
    moved = replace(item, number=0, day=to.day, serve_min=to.serve_min)
    return bool(choices(replace(scenario, items=(moved,)), known=known).columns)


def reordered(scenario: Scenario, moves: Sequence[Move]) -> Scenario:
    """Return the household with its menu in the order that is suggested.

    Parameters
    ----------
    scenario : Scenario
        The household.
    moves : sequence of Move
        Of ``better_order``.

    Returns
    -------
    Scenario
        Its items numbered in the order of serving.
    """
    to: Mapping[int, Item] = {move.item.number: move.to for move in moves}
    items = [
        replace(i, day=to[i.number].day, serve_min=to[i.number].serve_min) if i.number in to else i
        for i in scenario.items
    ]
    ordered = sorted(items, key=lambda i: (i.serve_min, i.number))
    return replace(scenario, items=tuple(replace(i, number=n) for n, i in enumerate(ordered)))


def told(moves: Sequence[Move]) -> list[str]:
    """Say each round of moves in a sentence.

    Parameters
    ----------
    moves : sequence of Move
        Of ``better_order``.

    Returns
    -------
    list of str
        A sentence for dishes that change places with each other.
    """
    left = {move.item.number: move for move in moves}
    sentences = []
    while left:
        number = next(iter(left))
        round_ = []
        while number in left:
            move = left.pop(number)
            round_.append(move)
            number = move.to.number
        sentences.append(_sentence(round_))
    return sentences


def _sentence(moves: Sequence[Move]) -> str:
    if len(moves) == PAIR:
        other, one = sorted((move.item for move in moves), key=lambda item: item.day)
        return f"Swap {_named(one)} with {_named(other)}."
    steps = ", ".join(move.told for move in moves)
    return f"Change days at {moves[0].item.meal}: {steps}."


def _named(item: Item) -> str:
    return f"{item.dish.label} ({item.meal}, day {item.day})"
