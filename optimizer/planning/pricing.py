"""One kind of day, planned with fuel at a price.

With a price on each fuel beside the goal the store no longer ties days together. A guess mixes the
day's classes in a linear program; a proof plans it by its columns, less those whose class cannot be
part of a plan as good as one known already (its reduced cost in the guess says so).
"""

import math
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, field

from optimizer.planning.board import MJ, Pairs, scale
from optimizer.planning.cheapest import PROOF_GAP, Bands, Cheapest, Effort, Prices, cheapest
from optimizer.planning.classes import STRETCH_MIN, classes_of, moments_of
from optimizer.planning.days import DayPlan, Kind
from optimizer.planning.relaxation import Relaxed, priced, relax, terms
from optimizer.planning.solver import reduced_cost, set_goal, solve_linear, value

Key = tuple[tuple[str, float], ...]
_NEAR = (0.01, 0.03, 0.1, 1.0)  # of the guess
_NEAR_GAP = 0.003
_ROOM = 1e-6


@dataclass(frozen=True, slots=True)
class Guess:
    """What a kind of day comes to at a price, by its classes."""

    bound: float  # at this price no plan of such a day comes to less [program's units]
    value: float  # of the goal alone
    fuel_mj: Mapping[str, float]
    reduced_costs: tuple[float, ...]  # of every class of the day


@dataclass(slots=True)
class Day:
    """A kind of day with its program of classes, and what is known of it by price."""

    kind: Kind
    relaxed: Relaxed
    members: tuple[tuple[int, ...], ...]  # positions of each class's columns
    guesses: dict[Key, Guess] = field(default_factory=dict)
    proofs: dict[tuple[Key, Bands], float] = field(default_factory=dict)
    sketches: set[Key] = field(default_factory=set)
    exchanged: set[tuple[Key, tuple[int, ...]]] = field(default_factory=set)  # plans, by price
    until: float = math.inf  # time at which no solve goes on


def key_of(at: Prices) -> Key:
    """Return prices in an order of their own."""
    return tuple(sorted(at.items()))


def day_of(kind: Kind) -> Day:
    """Build the program of classes of a kind of day."""
    moments = moments_of(kind.columns, kind.kitchen, STRETCH_MIN)
    classes = classes_of(kind.columns, moments)
    places = {id(column): place for place, column in enumerate(kind.columns)}
    members = tuple(tuple(places[id(column)] for column in c.members) for c in classes)
    return Day(kind, relax(classes, kind.kitchen, moments), members)


def guess(day: Day, goal: str, at: Prices) -> Guess | None:
    """Mix the classes of one kind of day, in a linear program.

    Returns
    -------
    Guess or None
        None if it cannot be cooked at all.
    """
    key, relaxed = key_of(at), day.relaxed
    if key not in day.guesses:
        set_goal(relaxed.program, priced(relaxed, goal, at))
        outcome = solve_linear(relaxed.program)
        if outcome.objective is None:
            return None
        fuel_mj = {fuel: _count(terms(relaxed, fuel)) for fuel in at}
        costs = tuple(reduced_cost(y) for y in relaxed.cook)
        comes_to = _count(terms(relaxed, goal))
        day.guesses[key] = Guess(outcome.objective, comes_to, fuel_mj, costs)
    return day.guesses[key]


def _count(pairs: Pairs) -> float:
    return sum(factor * value(column) for column, factor in pairs)


def prove(
    day: Day,
    goal: str,
    at: Prices,
    bands: Bands = (),
    gap: float = PROOF_GAP,
    most_nodes: int | None = None,
) -> float | None:
    """Plan one kind of day by its columns; the plan is added to the kind's.

    Parameters
    ----------
    day : Day
        What is planned.
    goal : str
        What is to be least.
    at : mapping of str to float
        Prices of fuel.
    bands : tuple of (fuel, least, most)
        What the day may burn [MJ]
    gap : float
        How near to the least the bound has to be.
    most_nodes : int, optional
        Give up coming nearer after so many nodes.

    Returns
    -------
    float or None
        At these prices no such plan comes to less [program's units]; None if there is none.
    """
    key, kind = (key_of(at), bands), day.kind
    if key not in day.proofs:
        guessed = guess(day, goal, at)
        if guessed is None:
            return None
        if not bands:
            sketched(day, goal, at)
        elif not plans_within(kind, bands):
            _place(day, goal, at, guessed.bound, bands)
        start = _best(day, goal, at, bands)
        most = math.inf if start is None else worth(start, goal, at)
        effort = Effort(gap, most_nodes, day.until)
        found = _among(day, goal, at, bands, most, start, effort)
        if found.chosen:
            kind.add(found.chosen, goal)
        bound = max(guessed.bound, min(found.bound, most))
        if found.cut_short:
            return bound
        day.proofs[key] = bound
    bound = day.proofs[key]
    return bound if math.isfinite(bound) else None


def plans_within(kind: Kind, bands: Bands) -> list[DayPlan]:
    """Return the plans of a kind that burn what they may."""
    return [plan for plan in kind.plans if _is_within(dict(plan.fuel_j), bands)]


def _is_within(fuel_j: Mapping[str, float], bands: Bands) -> bool:
    burnt = ((fuel_j.get(fuel, 0.0) / MJ, least, most) for fuel, least, most in bands)
    return all(least - _ROOM <= mj <= most + _ROOM for mj, least, most in burnt)


def worth(plan: DayPlan, goal: str, at: Prices) -> float:
    """Return what a plan comes to with fuel at a price [program's units]."""
    burnt = sum(at.get(fuel, 0.0) * fuel_j / MJ for fuel, fuel_j in plan.fuel_j)
    return plan.value / scale(goal) + burnt


def sketched(day: Day, goal: str, at: Prices) -> float | None:
    """Add a good plan of one kind of day at a price, and return its bound, unproven by columns."""
    guessed = guess(day, goal, at)
    if guessed is None:
        return None
    if key_of(at) not in day.sketches:
        _place(day, goal, at, guessed.bound)
        day.sketches.add(key_of(at))
    return guessed.bound


def _place(day: Day, goal: str, at: Prices, bound: float, bands: Bands = ()) -> None:
    """Add the best plan among columns that come near to the bound, as near as there is one."""
    start, effort = _best(day, goal, at, bands), Effort(_NEAR_GAP, None, day.until)
    for share in _NEAR:
        found = _among(day, goal, at, bands, bound + share * abs(bound), start, effort)
        if found.chosen:
            day.kind.add(found.chosen, goal)
            return


def _best(day: Day, goal: str, at: Prices, bands: Bands) -> DayPlan | None:
    """Return the plan that comes to least of those known within the bands."""
    known = plans_within(day.kind, bands)
    return min(known, key=lambda plan: worth(plan, goal, at), default=None)


def _among(
    day: Day,
    goal: str,
    at: Prices,
    bands: Bands,
    most: float,
    start: DayPlan | None,
    effort: Effort,
) -> Cheapest:
    """Plan a day by what may be in a plan that comes to no more than that, from one known."""
    columns, picks = day.kind.columns, () if start is None else start.picks
    few = [columns[n] for n in sorted({*_promising(day, goal, at, most), *picks})]
    begin = [columns[n] for n in picks]
    return cheapest(few, day.kind.kitchen, goal, at, bands, effort, begin)


def _promising(day: Day, goal: str, at: Prices, most: float) -> Collection[int]:
    """Return positions of columns that may be part of a plan that comes to no more than that."""
    guessed = guess(day, goal, at)
    if guessed is None or not math.isfinite(most):
        return range(len(day.kind.columns))
    room = most - guessed.bound + _ROOM * max(1.0, abs(most))
    kept = {
        place
        for places, cost in zip(day.members, guessed.reduced_costs, strict=True)
        if cost <= room
        for place in places
    }
    return sorted(kept)


def promising(day: Day, goal: str, at: Prices, slack: float) -> Sequence[int]:
    """Return positions of columns that come near to the best of their day at a price.

    Parameters
    ----------
    day : Day
        With plans.
    goal : str
        What is to be least.
    at : mapping of str to float
        Prices at which it was guessed.
    slack : float
        How near, as a share of the best.

    Returns
    -------
    sequence of int
        Positions in each block of the kind, those of its plans included.
    """
    best = min(worth(plan, goal, at) for plan in day.kind.plans)
    near = _promising(day, goal, at, best + slack * abs(best))
    return sorted({*near, *(place for plan in day.kind.plans for place in plan.picks)})
