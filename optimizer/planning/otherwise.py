"""What a mix may have beside cooking everything with what there is: more of a thing, or no need."""

from collections.abc import Mapping
from dataclasses import dataclass, field

import pulp

from optimizer.planning.board import Pairs


@dataclass(frozen=True, slots=True)
class Otherwise:
    """Columns of a program that add room, or stand for dishes that are not cooked."""

    more: Mapping[str, tuple[pulp.LpVariable, int]] = field(default_factory=dict)
    """Resource -> how many more of it, and the places that one of them has."""
    most: Mapping[str, int] = field(default_factory=dict)
    """Resource -> places that there can be in all."""
    instead: Mapping[int, Pairs] = field(default_factory=dict)
    """Dish -> what stands for pots of it that are not cooked."""

    def room(self, resource: str, factor: float) -> Pairs:
        """Return what more of a resource adds to the room of a row, on its left side."""
        if resource not in self.more:
            return []
        column, places = self.more[resource]
        return [(column, -factor * places)]
