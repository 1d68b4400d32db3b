"""One day as lanes: what stands where, and from when until when.

All minutes are those of the plan, since 00:00 of day 1.
"""

from dataclasses import dataclass
from typing import Literal

Kind = Literal["stove", "cooker", "side"]
Does = Literal["soak", "fire", "boil", "wait", "cooker"]


@dataclass(frozen=True, slots=True)
class Piece:
    """One thing that one pot does."""

    does: Does
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Stay:
    """One pot in one place; its pieces follow one another without a gap."""

    dish: str
    step: int  # position among the plan's steps
    row: int  # among the pots that are there at the same time
    pieces: tuple[Piece, ...]

    @property
    def start(self) -> int:
        """Minute at which it comes."""
        return self.pieces[0].start

    @property
    def end(self) -> int:
        """Minute at which it leaves."""
        return self.pieces[-1].end


@dataclass(frozen=True, slots=True)
class Lane:
    """One place for pots."""

    kind: Kind
    label: str
    stays: tuple[Stay, ...]
    fires: tuple[tuple[int, int], ...]  # stoves: lit from, until

    @property
    def rows(self) -> int:
        """Pots there are at most at once."""
        return max((stay.row for stay in self.stays), default=0) + 1


@dataclass(frozen=True, slots=True)
class Move:
    """A pot carried from one place to another."""

    dish: str
    left: int
    came: int
    from_lane: int
    from_row: int
    to_lane: int
    to_row: int


@dataclass(frozen=True, slots=True)
class Served:
    """A dish that comes to the table, out of a lane."""

    minute: int
    meal: str
    dish: str
    lane: int
    row: int


@dataclass(frozen=True, slots=True)
class DayLanes:
    """One day."""

    day: int
    first: int  # of the clock shown, the same hours on every day of a plan
    last: int
    lanes: tuple[Lane, ...]
    moves: tuple[Move, ...]
    served: tuple[Served, ...]
    cook_hours: tuple[tuple[int, int], ...]
