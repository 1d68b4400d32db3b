"""What a choice of columns truly takes, counted without the program: fires, fuel, goals, clashes.

A fire is kept up from one pot to the next where that takes less fuel than lighting it again. Where
several pots fit over one fire, an empty place idles in proportion: too much fuel, never too little.
"""

import math
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from optimizer.errors import CheckError
from optimizer.planning.columns import Column, Kitchen

SLACK_J = 10.0  # what rounding in a solver may come to; far less than a match
SLACK_SHARE = 1e-5


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
    pots: dict[tuple[str, int], list[tuple[int, int]]] = defaultdict(list)
    for column in chosen:
        for burn in column.burns:
            if burn.stove in kitchen.lightings:
                pots[burn.stove, burn.window].append((burn.start, burn.end))
    lit: list[Lit] = []
    for (stove, window), spans in pots.items():
        lighting = kitchen.lightings[stove]
        fire = (lighting.places, lighting.start_j, lighting.idle_w)
        lit += _fires(stove, window, *fire, tuple(sorted(spans)))
    return tuple(sorted(lit, key=lambda fire: (fire.first, fire.stove, fire.last)))


@lru_cache(maxsize=65536)  # a search asks for the same pots on a stove again and again
def _fires(
    stove: str,
    window: int,
    places: int,
    start_j: float,
    idle_w: float,
    spans: tuple[tuple[int, int], ...],
) -> tuple[Lit, ...]:
    """Return the fires of one stove in one window: the n-th burns whenever n are needed."""
    pots = list(_spans(spans))
    most = max(math.ceil(count / places) for _, _, count in pots)
    found: list[Lit] = []
    for level in range(most):
        run: list[tuple[int, int, float]] = []
        for start, end, count in pots:
            over = min(max(count - level * places, 0), places)
            if not over:
                continue
            if run and (start - run[-1][1]) * 60.0 * idle_w > start_j:
                found.append(_lit(stove, window, start_j, idle_w, run))
                run = []
            run.append((start, end, over / places))
        found.append(_lit(stove, window, start_j, idle_w, run))
    return tuple(found)


def _lit(
    stove: str, window: int, start_j: float, idle_w: float, run: Sequence[tuple[int, int, float]]
) -> Lit:
    first, last = run[0][0], run[-1][1]
    idle_min = last - first - sum([(end - start) * share for start, end, share in run])
    return Lit(stove, window, first, last, start_j, idle_min, idle_min * 60.0 * idle_w)


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


@dataclass(frozen=True, slots=True)
class Tally:
    """What a choice of columns takes, lightings and idle fires included."""

    money: float
    tend_min: float
    fuel_j: dict[str, float]  # by fuel

    def of(self, goal: str) -> float:
        """Return the measure of a goal: money, J or minutes."""
        if goal == "money":
            return self.money
        if goal == "tending":
            return self.tend_min
        return sum(self.fuel_j.values()) if goal == "energy" else self.fuel_j.get(goal, 0.0)


def tally(chosen: Iterable[Column], kitchen: Kitchen) -> Tally:
    """Count what a choice of columns takes.

    Parameters
    ----------
    chosen : iterable of Column
        What is cooked.
    kitchen : Kitchen
        Its lightings say what fires cost.

    Returns
    -------
    Tally
        Tending counts the minutes of lighting, and idle minutes where somebody has to stay with
        the fire.
    """
    chosen = tuple(chosen)
    fires = fires_over(chosen, kitchen)
    used = defaultdict(float, fires.fuel_j)
    for column in chosen:
        used[column.fuel] += column.fuel_j
    return Tally(
        fires.money + sum([c.money for c in chosen]),
        fires.tend_min + sum([c.tend_min for c in chosen]),
        dict(used),
    )


def fires_over(chosen: Iterable[Column], kitchen: Kitchen) -> Tally:
    """Count what lighting and idle fires take alone.

    Parameters
    ----------
    chosen : iterable of Column
        What is cooked.
    kitchen : Kitchen
        Its lightings say what fires cost.
    """
    money = tending = 0.0
    used: dict[str, float] = defaultdict(float)
    for lit in fires_of(chosen, kitchen):
        lighting, burnt = kitchen.lightings[lit.stove], lit.start_j + lit.idle_j
        used[lighting.fuel] += burnt
        money += burnt * lighting.money_j
        tending += lighting.start_min + lighting.tend * lit.idle_min
    return Tally(money, tending, used)


def fuel_of(chosen: Iterable[Column], kitchen: Kitchen) -> dict[str, float]:
    """Count the fuel that a choice of columns burns, by fuel [J]; see `tally`."""
    return tally(chosen, kitchen).fuel_j


def price_of(chosen: Iterable[Column], kitchen: Kitchen, goal: str) -> float:
    """Count what a choice of columns costs in the measure of a goal; see `tally`."""
    return tally(chosen, kitchen).of(goal)


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
