"""What may be chosen: so many of each offer, drinking water got as it is; and what was learned."""

from collections.abc import Mapping
from dataclasses import dataclass

Choice = tuple[int, ...]
"""How many of each offer, then on how many days of a kind each drinking water is not boiled."""


@dataclass(frozen=True, slots=True)
class Skip:
    """Drinking water of one kind of day that is got as it is, on some of these days."""

    kind: int
    item: int  # the dish, on the first day of its kind
    litres: float
    days: tuple[int, ...]  # the same dish on every day of the kind

    @property
    def most(self) -> int:
        """Days of the kind."""
        return len(self.days)


@dataclass(frozen=True, slots=True)
class Cut:
    """What was learned of a choice that gives no schedule.

    As long as no thing is added, the fuel at these prices has to come to so much, less what each
    day of water that is not boiled saves. Without prices, something has to be added.
    """

    choice: Choice
    proven: bool  # False: no schedule was found, and there may be one
    by_fuel: Mapping[str, float] | None = None  # prices [1/MJ]
    least: float = 0.0  # with all water boiled
    saved: tuple[float, ...] = ()  # by a day of each water
    fuel_helps: bool = True  # without prices: more fuel may be what is added
