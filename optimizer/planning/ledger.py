"""What a choice of columns truly takes, counted without the program: fires, fuel, goals, clashes.

A fire is kept up from one pot to the next where that takes less fuel than lighting it again. Where
several pots fit over one fire, an empty place idles in proportion: too much fuel, never too little.
"""

import math
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from optimizer.errors import CheckError
from optimizer.planning.columns import Burn, Column, Kitchen, Lighting

SLACK_J = 10.0  # what rounding in a solver may come to; far less than a match
SLACK_SHARE = 1e-5
MEASURES = ("money", "energy", "tending")

Costs = tuple[float, float, float]  # in their order: money, J, minutes


@dataclass(frozen=True, slots=True)
class Lit:
    """One fire, from its first pot on to its last pot off."""

    stove: str
    window: int
    first: int
    last: int
    start_j: float
    idle_min: float  # minutes without a pot
    idle_j: float


def fires_of(chosen: Iterable[Column], kitchen: Kitchen) -> tuple[Lit, ...]:
    """List the fires that a choice of columns lights, in order of time.

    Parameters
    ----------
    chosen : iterable of Column
        What is cooked.
    kitchen : Kitchen
        Its lightings say which stoves have to be lit.

    Returns
    -------
    tuple of Lit
        As many for every stove and window as take least fuel.
    """
    burns: dict[tuple[str, int], list[Burn]] = defaultdict(list)
    for column in chosen:
        for burn in column.burns:
            if burn.stove in kitchen.lightings:
                burns[burn.stove, burn.window].append(burn)
    lit = [
        fire
        for (stove, window), group in burns.items()
        for fire in _fires(kitchen.lightings[stove], window, group)
    ]
    return tuple(sorted(lit, key=lambda fire: (fire.first, fire.stove, fire.last)))


def _fires(lighting: Lighting, window: int, burns: Sequence[Burn]) -> Iterator[Lit]:
    """Yield the fires of one stove in one window: the n-th burns whenever n are needed."""
    pots = list(_spans((burn.start, burn.end) for burn in burns))
    most = max(math.ceil(count / lighting.places) for _, _, count in pots)
    for level in range(most):
        run: list[tuple[int, int, float]] = []
        for start, end, count in pots:
            over = min(max(count - level * lighting.places, 0), lighting.places)
            if not over:
                continue
            if run and (start - run[-1][1]) * 60.0 * lighting.idle_w > lighting.start_j:
                yield _lit(lighting, window, run)
                run = []
            run.append((start, end, over / lighting.places))
        yield _lit(lighting, window, run)


def _lit(lighting: Lighting, window: int, run: Sequence[tuple[int, int, float]]) -> Lit:
    first, last = run[0][0], run[-1][1]
    idle_min = last - first - sum((end - start) * share for start, end, share in run)
    return Lit(
        stove=lighting.stove,
        window=window,
        first=first,
        last=last,
        start_j=lighting.start_j,
        idle_min=idle_min,
        idle_j=idle_min * 60.0 * lighting.idle_w,
    )


def _spans(intervals: Iterable[tuple[int, int]]) -> Iterator[tuple[int, int, int]]:
    """Yield spans in which the same number of intervals is open: start, end, number above 0."""
    steps: Counter[int] = Counter()
    for start, end in intervals:
        steps[start] += 1
        steps[end] -= 1
    moments, level = sorted(steps), 0
    for moment, following in pairwise(moments):
        level += steps[moment]
        if level:
            yield moment, following, level


def fuel_of(chosen: Iterable[Column], kitchen: Kitchen) -> dict[str, float]:
    """Count the fuel that a choice of columns burns, lightings and idle fires included.

    Returns
    -------
    dict of str to float
        Fuel's name to energy [J]
    """
    chosen = tuple(chosen)
    used: dict[str, float] = defaultdict(float)
    for column in chosen:
        used[column.fuel] += column.fuel_j
    for lit in fires_of(chosen, kitchen):
        used[kitchen.lightings[lit.stove].fuel] += lit.start_j + lit.idle_j
    return dict(used)


def price_of(chosen: Iterable[Column], kitchen: Kitchen, goal: str) -> float:
    """Count what a choice of columns costs, in the measure of a goal.

    Parameters
    ----------
    chosen : iterable of Column
        What is cooked.
    kitchen : Kitchen
        Its lightings say what fires cost.
    goal : str
        "money", "energy" [J], "tending" [min], or a fuel's name [J]. Tending counts the minutes
        of lighting, and idle minutes where somebody has to stay with the fire.

    Returns
    -------
    float
        In money, J or min.
    """
    if goal in MEASURES:
        return costs_of(chosen, kitchen)[MEASURES.index(goal)]
    return fuel_of(chosen, kitchen).get(goal, 0.0)


def costs_of(chosen: Iterable[Column], kitchen: Kitchen) -> Costs:
    """Count what a choice of columns costs in all measures: money, J and minutes.

    Parameters
    ----------
    chosen : iterable of Column
        What is cooked.
    kitchen : Kitchen
        Its lightings say what fires cost.
    """
    chosen = tuple(chosen)
    money, energy, tending = fire_costs(chosen, kitchen)
    return (
        money + sum(c.money for c in chosen),
        energy + sum(c.fuel_j for c in chosen),
        tending + sum(c.tend_min for c in chosen),
    )


def fire_costs(chosen: Iterable[Column], kitchen: Kitchen) -> Costs:
    """Count what lighting and idle fires cost alone: money, J and minutes.

    Parameters
    ----------
    chosen : iterable of Column
        What is cooked.
    kitchen : Kitchen
        Its lightings say what fires cost.
    """
    money = energy = tending = 0.0
    for lit in fires_of(chosen, kitchen):
        lighting, burnt = kitchen.lightings[lit.stove], lit.start_j + lit.idle_j
        money += burnt * lighting.money_j
        energy += burnt
        tending += lighting.start_min + lighting.tend * lit.idle_min
    return money, energy, tending


def audit(chosen: Iterable[Column], kitchen: Kitchen) -> None:
    """Check a choice of columns against the kitchen, without the program.

    Raises
    ------
    CheckError
        Naming everything that is wrong: a dish left out or cooked twice, more of a resource used
        than there is, a pot on a fire outside its window or on no stove, a fuel overdrawn.
    """
    chosen = tuple(chosen)
    wrong = [
        *_miscounted(chosen, kitchen),
        *_clashes(chosen, kitchen),
        *_stray_burns(chosen, kitchen),
        *_overdrawn(fuel_of(chosen, kitchen), kitchen.stock_j),
    ]
    if wrong:
        raise CheckError("; ".join(wrong))


def _miscounted(chosen: Sequence[Column], kitchen: Kitchen) -> Iterator[str]:
    cooked = Counter(column.item for column in chosen)
    for item in kitchen.items:
        if cooked[item] != kitchen.pots_of(item):
            yield f"dish {item} is cooked {cooked[item]} times"
    for item in sorted(set(cooked) - set(kitchen.items)):
        yield f"dish {item} is not on the menu"


def _clashes(chosen: Sequence[Column], kitchen: Kitchen) -> Iterator[str]:
    held: dict[str, list[tuple[int, int]]] = defaultdict(list)
    for column in chosen:
        for use in column.uses:
            held[use.resource].append((use.start, use.end))
    for resource, spans in sorted(held.items()):
        room = kitchen.capacity.get(resource, 0)
        minute, most = max(_levels(spans), key=lambda level: level[1], default=(0, 0))
        if most > room:
            yield f"{resource} is used {most} times at minute {minute}, there are {room}"


def _levels(spans: Iterable[tuple[int, int]]) -> Iterator[tuple[int, int]]:
    """Every minute at which something starts, and how many are held then."""
    moments = [moment for a, b in spans if a < b for moment in ((a, 1), (b, -1))]
    level = 0
    for minute, step in sorted(moments):  # an end comes before a start of the same minute
        level += step
        if step > 0:
            yield minute, level


def _stray_burns(chosen: Sequence[Column], kitchen: Kitchen) -> Iterator[str]:
    for column in chosen:
        for burn in column.burns:
            window = kitchen.windows[burn.window]
            if not window.start_min <= burn.start <= burn.end <= window.end_min:
                yield f"dish {column.item} is on {burn.stove} outside window {burn.window}"
            name = f"stove:{burn.stove}"
            if not any(
                use.resource == name and use.start <= burn.start and burn.end <= use.end
                for use in column.uses
            ):
                yield f"dish {column.item} burns on {burn.stove} without holding it"


def _overdrawn(used: Mapping[str, float], stock_j: Mapping[str, float]) -> Iterator[str]:
    for fuel, stock in sorted(stock_j.items()):
        over = used.get(fuel, 0.0) - stock
        if over > SLACK_J + SLACK_SHARE * stock:
            yield f"{fuel} is overdrawn by {over:.0f} J"
