"""Plans of a day that differ from a good one in a single dish.

At a price all the best plans of a day burn much or little of a scarce fuel, and the store is seldom
just enough for one of them: what lies between is one dish moved to another fire.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence

from optimizer.planning.board import MJ, of_column
from optimizer.planning.cheapest import Prices
from optimizer.planning.columns import Column, Use
from optimizer.planning.days import DayPlan, Kind
from optimizer.planning.pricing import Day, key_of, worth

_WORSE = 0.05  # a plan is kept if it comes so near to the best at the price, as a share
_LOOKED_AT = 300  # exchanges of one plan
Held = dict[str, list[tuple[int, int]]]


def exchange(day: Day, plan: DayPlan, goal: str, at: Prices) -> None:
    """Add plans that differ from a plan in one dish, if they may be of use beside it.

    Parameters
    ----------
    day : Day
        The plan's kind of day gets the new plans; what was exchanged once is not again.
    plan : DayPlan
        Where to start.
    goal : str
        What is to be least.
    at : mapping of str to float
        Prices of fuel; other plans are kept if one of these fuels is spared, or the goal is.
    """
    done = (key_of(at), plan.picks)
    if done in day.exchanged:
        return
    day.exchanged.add(done)
    kind, best = day.kind, worth(plan, goal, at)
    room = _WORSE * abs(best)
    swaps = sorted(_swaps(kind, plan, goal, at, room))[:_LOOKED_AT]
    made = [kind.plan_of(picks, goal) for _, picks in swaps]
    near = [each for each in made if worth(each, goal, at) <= best + room]
    for each in _not_beaten([plan, *near], [fuel for fuel, price in at.items() if price]):
        kind.keep(each)


def _swaps(
    kind: Kind, plan: DayPlan, goal: str, at: Prices, room: float
) -> Iterator[tuple[float, tuple[int, ...]]]:
    """Yield what an exchange costs beside fires, and the positions of the plan it makes."""
    ways: dict[int, list[int]] = defaultdict(list)
    for place, column in enumerate(kind.columns):
        ways[column.item].append(place)
    for number, out in enumerate(plan.picks):
        rest = plan.picks[:number] + plan.picks[number + 1 :]
        held = _held(kind.columns[place] for place in rest)
        old = kind.columns[out]
        before = _comes_to(old, goal, at)
        for place in ways[old.item]:
            column = kind.columns[place]
            more = _comes_to(column, goal, at) - before
            if place != out and more <= room and _fits(column.uses, held, kind.kitchen.capacity):
                yield more, tuple(sorted((*rest, place)))


def _comes_to(column: Column, goal: str, at: Prices) -> float:
    return of_column(column, goal) + at.get(column.fuel, 0.0) * column.fuel_j / MJ


def _held(columns: Iterable[Column]) -> Held:
    held: Held = defaultdict(list)
    for column in columns:
        for use in column.uses:
            held[use.resource].append((use.start, use.end))
    return held


def _fits(uses: Sequence[Use], held: Held, capacity: Mapping[str, int]) -> bool:
    """Whether there is room even if all that is ever held during a use were held at once."""
    for use in uses:
        mine = [(u.start, u.end) for u in uses if u.resource == use.resource]
        spans = [*held.get(use.resource, ()), *mine]
        if sum(a < use.end and use.start < b for a, b in spans) > capacity[use.resource]:
            return False
    return True


def _not_beaten(plans: Sequence[DayPlan], fuels: Sequence[str]) -> Iterator[DayPlan]:
    """Yield plans that no other beats in the goal and in each of those fuels."""
    kept: list[tuple[float, ...]] = []
    for plan in sorted(plans, key=lambda plan: plan.value):
        burnt = dict(plan.fuel_j)
        told = (plan.value, *(burnt.get(fuel, 0.0) for fuel in fuels))
        if not any(all(a <= b for a, b in zip(other, told, strict=True)) for other in kept):
            kept.append(told)
            yield plan
