"""How an outage stands at a moment: what is left, what is eaten, what is on the fire or packed."""

from dataclasses import dataclass

from optimizer.model.household import UnderWay


@dataclass(frozen=True, slots=True)
class Left:
    """What is left of one fuel; kilograms, or joules where there is no mass."""

    fuel: str
    kg: float | None
    j: float | None


@dataclass(frozen=True, slots=True)
class Eaters:
    """Who eats from a minute on."""

    since: int
    adults: int
    children: int


@dataclass(frozen=True, slots=True)
class Soaking:
    """A dish of the menu that was put to soak."""

    item: int  # Item.number
    since: int


@dataclass(frozen=True, slots=True)
class DayOfSticks:
    """Whether sticks are wet on one day, whatever the scenario says."""

    day: int
    wet: bool
    since: int  # minute from which it was found so


@dataclass(frozen=True, slots=True)
class Now:
    """The state of an outage at one moment, in minutes since 00:00 of day 1."""

    minute: int
    left: tuple[Left, ...] = ()
    done: frozenset[int] = frozenset()  # Item.number: eaten, or left out
    under_way: tuple[UnderWay, ...] = ()
    soaking: tuple[Soaking, ...] = ()
    eaters: tuple[Eaters, ...] = ()  # in order of time
    sticks: tuple[DayOfSticks, ...] = ()
    kitchen_c: float | None = None  # last reading
