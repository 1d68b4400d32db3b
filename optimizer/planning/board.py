"""The board of a schedule: what the columns of its program mean, and what each goal counts.

Energies stand in megajoules, times in minutes.
"""

from collections import Counter, defaultdict
from collections.abc import Collection, Sequence
from dataclasses import dataclass, field
from typing import Protocol

import pulp

from optimizer.planning.columns import Column, Kitchen, Lighting
from optimizer.planning.ledger import Lit, fires_of
from optimizer.planning.solver import Program, value

MJ = 1e6
Pairs = list[tuple[pulp.LpVariable, float]]


@dataclass(frozen=True, slots=True)
class Fire:
    """Columns about one stove in one window."""

    lighting: Lighting
    lit: pulp.LpVariable  # whether it burns at all
    moments: tuple[int, ...]  # between two of them nothing changes
    burning: tuple[pulp.LpVariable, ...]  # fires from each moment to the next
    starts: tuple[pulp.LpVariable, ...]  # of these, those lit at the moment
    idle: pulp.LpVariable  # minutes without a pot


@dataclass(slots=True)
class Board:
    """A program and what its columns mean."""

    columns: Sequence[Column]
    kitchen: Kitchen
    program: Program = field(default_factory=Program)
    cook: list[pulp.LpVariable] = field(default_factory=list)
    on: dict[tuple[int, str], pulp.LpVariable] = field(default_factory=dict)
    fires: dict[tuple[str, int], Fire] = field(default_factory=dict)
    missed: dict[int, pulp.LpVariable] = field(default_factory=dict)
    short: dict[str, pulp.LpVariable] = field(default_factory=dict)

    def chosen(self) -> tuple[Column, ...]:
        """Columns that the last solve chose."""
        picked = zip(self.columns, self.cook, strict=True)
        return tuple(column for column, y in picked for _ in range(round(value(y))))


def scale(goal: str) -> float:
    """Units of a goal in one of the program's: J where the program counts MJ."""
    return 1.0 if goal in ("money", "tending", "missed") else MJ


def terms(board: Board, goal: str) -> Pairs:
    """Columns of a goal and what one of each counts.

    Parameters
    ----------
    board : Board
        The program.
    goal : str
        "money", "energy", "tending", a fuel's name, "missed" (dishes) or "short" (fuel).

    Returns
    -------
    list of (column, coefficient)
        In money, minutes, dishes, or MJ.
    """
    if goal == "missed":
        return [(missed, 1) for missed in board.missed.values()]
    if goal == "short":
        return [(short, 1) for short in board.short.values()]
    pairs: Pairs = []
    for column, y in zip(board.columns, board.cook, strict=True):
        pairs.append((y, of_column(column, goal)))
    for fire in board.fires.values():
        start, idle = of_fire(fire.lighting, goal)
        pairs += [(lit, start) for lit in fire.starts]
        pairs.append((fire.idle, idle))
    return [(column, factor) for column, factor in pairs if factor]


class Priced(Protocol):
    """Anything with a fuel and what it takes of each goal: a column, or a source of the mix."""

    @property
    def fuel(self) -> str:
        """Fuel's name."""

    @property
    def fuel_j(self) -> float:
        """Fuel burned [J]."""

    @property
    def money(self) -> float:
        """Money."""

    @property
    def tend_min(self) -> float:
        """Minutes of tending."""


def of_column(column: Priced, goal: str) -> float:
    """Return what cooking a column once counts towards a goal: money, minutes, or MJ."""
    if goal == "money":
        return column.money
    if goal == "tending":
        return column.tend_min
    return column.fuel_j / MJ if goal in ("energy", column.fuel) else 0.0


def of_fire(lighting: Lighting, goal: str) -> tuple[float, float]:
    """Say what one lighting counts, and one idle minute."""
    if goal == "tending":
        return float(lighting.start_min), float(lighting.tend)
    minute_j = 60.0 * lighting.idle_w
    if goal == "money":
        return lighting.start_j * lighting.money_j, minute_j * lighting.money_j
    if goal in ("energy", lighting.fuel):
        return lighting.start_j / MJ, minute_j / MJ
    return 0.0, 0.0


def start_of(board: Board, chosen: Collection[Column]) -> dict[pulp.LpVariable, float]:
    """Values of the program's columns for a choice known before; empty if it is not in it."""
    wanted = Counter(chosen)
    numbers: dict[pulp.LpVariable, float] = {}
    for column, y in zip(board.columns, board.cook, strict=True):
        times = min(wanted[column], board.kitchen.pots_of(column.item))
        if times:
            wanted[column] -= times
            numbers[y] = float(times)
            on = board.on.get((column.item, column.stove))
            if on is not None:
                numbers[on] = numbers.get(on, 0.0) + times
    if wanted.total():
        return {}
    fires: dict[tuple[str, int], list[Lit]] = defaultdict(list)
    for lit in fires_of(chosen, board.kitchen):
        fires[lit.stove, lit.window].append(lit)
    for key, group in fires.items():
        numbers |= _start_of_fire(board.fires[key], group)
    return numbers


def _start_of_fire(fire: Fire, group: Sequence[Lit]) -> dict[pulp.LpVariable, float]:
    numbers = {fire.lit: 1.0, fire.idle: sum(lit.idle_min for lit in group)}
    before = 0
    for moment, burning, start in zip(fire.moments, fire.burning, fire.starts, strict=False):
        now = sum(lit.first <= moment < lit.last for lit in group)
        numbers |= {burning: float(now), start: float(max(0, now - before))}
        before = now
    return numbers
