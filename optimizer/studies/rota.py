"""Who cooks when, where several households share a kitchen: turns fair by minutes at the fire.

Three integer programs, one after the other: the largest load as small as it can be; then as few
turns as can be of a household that has just cooked; then the smallest load as large as it can be.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

import pulp

from optimizer.model.household import Scenario, Window
from optimizer.model.plan import Plan, Step
from optimizer.model.sharing import Turn
from optimizer.planning.solver import Program, add_column, add_row, set_goal, solve, value

GAP = 0.003  # so near to the fairest will do: of ten hours two minutes
MOST_NODES = 300  # of a search; unlike a time limit, the same on every machine
LEAST_HOUSES = 2
EVEN = 1e-6


def rota(plan: Plan, scenario: Scenario) -> tuple[Turn, ...]:
    """Share the stretches of cook hours out among the households.

    Parameters
    ----------
    plan
        A plan with steps.
    scenario
        The household it was made for.

    Returns
    -------
    tuple of Turn
        Every stretch in which a pot is on, once, by the clock; none for fewer than two households.
    """
    turns = list(_turns(plan, scenario))
    names = [house.name for house in scenario.houses]
    if len(names) < LEAST_HOUSES or not turns:
        return ()
    cooks = turns_shared([turn.minutes for turn in turns], len(names))
    return tuple(
        Turn(names[cook], turn.day, turn.start, turn.end, turn.minutes, turn.meals)
        for turn, cook in zip(turns, cooks, strict=True)
    )


def _turns(plan: Plan, scenario: Scenario) -> Iterator[Turn]:
    """Yield the cook hours in which something is on, with the minutes of it, for nobody yet."""
    for window in scenario.windows:
        burns = [
            (step, on, off)
            for step in plan.steps
            for on, off in _burns(step)
            if window.start_min <= on < window.end_min
        ]
        if not burns:
            continue
        lit = [(f.start, f.end) for f in plan.fires if _within(f.start, window)]
        handled = [(on, on + int(scenario.rules.handling_min)) for _, on, _ in burns]
        meals = tuple(dict.fromkeys(step.meal for step, _, _ in burns))
        spans = [*lit, *handled]
        ends = [off for *_, off in burns] if lit else [end for _, end in handled]
        start = min(first for first, _ in spans)
        yield Turn("", window.day, start, max(ends), float(covered_min(spans)), meals)


def _burns(step: Step) -> Iterator[tuple[int, int]]:
    yield step.on, step.off
    yield from ((again.on, again.off) for again in step.reboil)


def _within(minute: int, window: Window) -> bool:
    return window.start_min <= minute < window.end_min


def covered_min(spans: Sequence[tuple[int, int]]) -> int:
    """Return the minutes in which there is anything.

    Parameters
    ----------
    spans
        Starts and ends on the clock.
    """
    covered, until = 0, 0
    for start, end in sorted(spans):
        covered += max(0, end - max(start, until))
        until = max(until, end)
    return covered


def turns_shared(minutes: Sequence[float], houses: int) -> list[int]:
    """Say which household takes each turn.

    Parameters
    ----------
    minutes
        A cook's, turn by turn.
    houses
        How many households there are.

    Returns
    -------
    list of int
        A household for each turn, from 0; the first turn is household 0's.
    """
    cooks = _greedy(minutes, houses)
    board = _board(minutes, houses)
    most = add_column(board.program, "largest load", high=sum(minutes))
    for house, load in board.loads.items():
        add_row(board.program, f"load of {house}", [*load, (most, -1.0)], "<=", 0.0)
    cooks = board.solved([(most, 1.0)], cooks)
    most.upBound = max(_loads(cooks, minutes, houses)) + EVEN
    again = list(_again(board, houses, len(minutes)))
    cooks = board.solved([(column, 1.0) for column in again], cooks)
    repeats = sum(one == other for one, other in pairwise(cooks))
    add_row(board.program, "turns again", [(column, 1.0) for column in again], "<=", repeats)
    least = add_column(board.program, "smallest load", high=sum(minutes))
    for house, load in board.loads.items():
        add_row(board.program, f"least of {house}", [*load, (least, -1.0)], ">=", 0.0)
    return board.solved([(least, -1.0)], cooks)


@dataclass
class _Board:
    """A program in which every turn is some household's."""

    program: Program
    takes: Mapping[tuple[int, int], pulp.LpVariable]  # household, turn
    loads: Mapping[int, list[tuple[pulp.LpVariable, float]]] = field(default_factory=dict)

    def solved(self, goal: Sequence[tuple[pulp.LpVariable, float]], before: list[int]) -> list[int]:
        """Return the households for a goal; as before where none better is found."""
        set_goal(self.program, goal)
        outcome = solve(self.program, gap=GAP, most_nodes=MOST_NODES, search="plain")
        if not outcome.solved:
            return before
        turns = {turn: house for (house, turn), x in self.takes.items() if round(value(x))}
        return [turns[turn] for turn in sorted(turns)]


def _board(minutes: Sequence[float], houses: int) -> _Board:
    program = Program()
    takes = {
        (house, turn): add_column(program, f"{house} takes turn {turn}", high=1.0, whole=True)
        for turn in range(len(minutes))
        for house in range(houses)
    }
    for turn in range(len(minutes)):
        whose = [(takes[house, turn], 1.0) for house in range(houses)]
        add_row(program, f"turn {turn}", whose, "==", 1.0)
    add_row(program, "who begins", [(takes[0, 0], 1.0)], "==", 1.0)  # they are all alike
    loads = {
        house: [(takes[house, turn], float(each)) for turn, each in enumerate(minutes)]
        for house in range(houses)
    }
    return _Board(program, takes, loads)


def _again(board: _Board, houses: int, turns: int) -> Iterator[pulp.LpVariable]:
    """Yield columns that are 1 where a household cooks twice in a row."""
    for turn in range(turns - 1):
        again = add_column(board.program, f"same at {turn} and after", high=1.0)
        for house in range(houses):
            pair = [(board.takes[house, turn], 1.0), (board.takes[house, turn + 1], 1.0)]
            add_row(board.program, f"{house} at {turn}, after", [*pair, (again, -1.0)], "<=", 1.0)
        yield again


def _greedy(minutes: Sequence[float], houses: int) -> list[int]:
    """Give each turn to whoever has cooked least so far and not just now."""
    loads, cooks = [0.0] * houses, list[int]()
    for each in minutes:
        free = [house for house in range(houses) if not cooks or house != cooks[-1]]
        cook = min(free, key=lambda house: (loads[house], house))
        loads[cook] += each
        cooks.append(cook)
    return cooks


def _loads(cooks: Sequence[int], minutes: Sequence[float], houses: int) -> list[float]:
    """Return the minutes of each household."""
    loads = [0.0] * houses
    for cook, each in zip(cooks, minutes, strict=True):
        loads[cook] += each
    return loads
