"""What a schedule is chosen from: columns (one dish, one way, one start) and their kitchen.

All times are clock minutes since 00:00 of day 1; an interval holds its start and not its end.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

from optimizer.model.household import Window


@dataclass(frozen=True, slots=True)
class Use:
    """One of a resource, held over ``[start, end)``."""

    resource: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Burn:
    """A pot over one lit fire, ``[start, end)``; ``window`` counts in ``Kitchen.windows``."""

    stove: str
    window: int
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Column:
    """One dish, cooked one way from one start; the uses hold stove, pot, cooker and cook."""

    item: int
    stove: str
    burns: tuple[Burn, ...]
    uses: tuple[Use, ...]
    fuel: str
    fuel_j: float
    money: float
    tend_min: float
    way: object = field(default=None, compare=False)
    served_c: float = field(default=0.0, compare=False)  # careful; only parts what is equal


@dataclass(frozen=True, slots=True)
class Lighting:
    """What it takes to light one stove once; stoves that need no lighting have none."""

    stove: str
    fuel: str
    start_j: float
    start_min: int
    idle_w: float  # fuel burned to keep the fire up between pots
    money_j: float  # money per J of that fuel
    tend: bool  # somebody has to stay with the fire between pots
    places: int = 1  # pots over one fire


@dataclass(frozen=True, slots=True)
class Kitchen:
    """What all dishes of one schedule share."""

    items: tuple[int, ...]
    capacity: Mapping[str, int]  # "stove:x", "pot:x", "cooker:x", "cook" -> how many
    lightings: Mapping[str, Lighting]
    stock_j: Mapping[str, float]  # after the reserve; a fuel that is absent has no limit
    windows: tuple[Window, ...]
    batches: Mapping[int, int] = field(default_factory=dict)  # dish -> pots of it; absent: one
    limits: Mapping[str, float] = field(default_factory=dict)  # goal -> most: money, J or minutes

    def pots_of(self, item: int) -> int:
        """Return in how many pots a dish is cooked."""
        return self.batches.get(item, 1)
