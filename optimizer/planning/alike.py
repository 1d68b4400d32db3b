"""Dishes that are the same to the kitchen, planned as one dish in more pots.

Two pots of tea for one breakfast may be exchanged in every schedule: a solver that does not know it
proves everything twice, and with three such dishes six times.
"""

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from optimizer.planning.columns import Column, Kitchen


@dataclass(frozen=True, slots=True)
class Alike:
    """Columns and kitchen with one dish for all that are alike, and the way back."""

    columns: Sequence[Column]
    kitchen: Kitchen
    twins: Mapping[int, tuple[int, ...]]  # dish that stands for them -> all of them
    ways: Mapping[int, Sequence[Column]]  # of every dish, in the same order for twins
    batches: Mapping[int, int]

    def apart(self, chosen: Iterable[Column]) -> tuple[Column, ...]:
        """Give every chosen column back to a dish of its own."""
        picked: dict[int, list[Column]] = defaultdict(list)
        for column in chosen:
            picked[column.item].append(column)
        return tuple(each for item, mine in picked.items() for each in self._shared_out(item, mine))

    def _shared_out(self, item: int, chosen: Sequence[Column]) -> Iterable[Column]:
        twins = self.twins[item]
        if len(twins) == 1:
            yield from chosen
            return
        places = {column: place for place, column in enumerate(self.ways[item])}
        owners = (twin for twin in twins for _ in range(self.batches.get(twin, 1)))
        for owner, column in zip(owners, chosen, strict=True):
            yield self.ways[owner][places[column]]

    def together(self, chosen: Collection[Column]) -> tuple[Column, ...]:
        """Return a choice as the columns that stand for it; none if one of them is not known."""
        if len(self.twins) == len(self.ways):
            return tuple(chosen)
        stands = {
            mine: first
            for item, twins in self.twins.items()
            for twin in twins
            for mine, first in zip(self.ways[twin], self.ways[item], strict=True)
        }
        return tuple(stands[c] for c in chosen) if stands.keys() >= set(chosen) else ()


def merge(columns: Sequence[Column], kitchen: Kitchen) -> Alike:
    """Let one dish stand for all that have the same ways at the same times.

    Parameters
    ----------
    columns : sequence of Column
        All that may be chosen.
    kitchen : Kitchen
        What they share.

    Returns
    -------
    Alike
        As they were, if no two dishes are alike.
    """
    ways: dict[int, list[Column]] = {item: [] for item in kitchen.items}
    for column in columns:
        ways[column.item].append(column)
    groups: dict[object, list[int]] = defaultdict(list)
    for item, mine in ways.items():
        groups[_told(mine) or item].append(item)
    twins = {group[0]: tuple(group) for group in groups.values()}
    if len(twins) == len(ways):
        return Alike(columns, kitchen, twins, ways, kitchen.batches)
    pots = {item: sum(map(kitchen.pots_of, group)) for item, group in twins.items()}
    batches = {item: count for item, count in pots.items() if count > 1}
    kept = tuple(column for column in columns if column.item in twins)
    return Alike(
        kept, replace(kitchen, items=tuple(twins), batches=batches), twins, ways, kitchen.batches
    )


def _told(columns: Collection[Column]) -> object:
    """Return all that the columns of a dish say to the kitchen."""
    return tuple((c.stove, c.burns, c.uses, c.fuel, c.fuel_j, c.money, c.tend_min) for c in columns)
