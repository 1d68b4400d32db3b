"""What households that share a kitchen owe each other, and who cooks when."""

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class FuelPart:
    """One household's part of one fuel, all in one unit: kg, or MJ where there is no mass."""

    name: str
    unit: Literal["kg", "MJ"]
    used: float
    brought: float  # into the store
    back: float  # of what is left, given back to it
    owed: float  # the others burned so much of its own; below 0: it burned of theirs
    cost: float  # of what it used


@dataclass(frozen=True, slots=True)
class Share:
    """One household's share of a plan, by the portions its people eat."""

    household: str
    adults: float
    children: float
    portions: float  # in adult size
    fuels: tuple[FuelPart, ...]
    cost: float
    settlement: float  # money it gets from the others for what it is owed; below 0: it pays


@dataclass(frozen=True, slots=True)
class Turn:
    """One stretch of cook hours with a fire in it, and the household that cooks then."""

    household: str
    day: int
    start: int  # first pot or fire, minutes since 00:00 of day 1
    end: int
    minutes: float  # in which there is a fire, or a pot is put into the sun
    meals: tuple[str, ...]  # for which something is on the fire
