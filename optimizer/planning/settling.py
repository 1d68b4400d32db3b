"""Ties: of columns that cost no more, each pot takes the preferred one.

A solver ends with any of the schedules that are equally good. Here one pot after the other is moved
where that costs no more money, fuel and minutes: to what costs less of one of them, to a later time
off the stove, so that food stands least between fire and table; to no cooker, so that nothing is
carried; to what keeps it hotter; or else to what comes first in the file. It ends when no pot can
be moved alone: which of equal schedules it is then follows a stated preference.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence

from optimizer.model.household import DAY_MIN
from optimizer.planning.columns import Column, Kitchen, Use
from optimizer.planning.ledger import fires_over

_NEAR = 1e-9  # as a share: what rounding may come to
_MOST_ROUNDS = 50  # two to four are enough; this only bounds them

Costs = tuple[float, float, float]  # money, J, minutes
Fire = tuple[str, int]  # stove and window
Rank = tuple[int, bool, float, int]  # the less the better
Span = tuple[int, int]  # minutes
Ranked = Sequence[tuple[Rank, Column]]


def settle(
    chosen: Iterable[Column], columns: Sequence[Column], kitchen: Kitchen
) -> tuple[Column, ...]:
    """Move single pots to what is preferred and costs no more.

    Parameters
    ----------
    chosen : iterable of Column
        A schedule that fits the kitchen, of these columns.
    columns : sequence of Column
        All that may be chosen, in the order of the file.
    kitchen : Kitchen
        What they share.

    Returns
    -------
    tuple of Column
        A schedule that fits and takes no more of anything. No pot of it can be moved alone to a
        column of the same fuel that takes no more by itself and is preferred.
    """
    table = _Table(chosen, kitchen)
    ranked = _ranked(columns, {(column.item, column.fuel) for column in table.chosen})
    mine = [ranked[column.item, column.fuel] for column in table.chosen]
    spans = [_span((column for _, column in others), kitchen) for others in mine]
    open_ = set(range(len(mine)))
    for _ in range(_MOST_ROUNDS):
        for place in sorted(open_):
            open_.remove(place)
            old = table.chosen[place]
            if table.move(place, mine[place]):
                hours = _span((old, table.chosen[place]), kitchen)
                open_ |= {other for other, span in enumerate(spans) if _meet(hours, span)}
    return tuple(table.chosen)


def _span(columns: Iterable[Column], kitchen: Kitchen) -> Span:
    """Return the hours in which columns may be in the way of others."""
    columns = tuple(columns)
    uses = [(use.start, use.end) for column in columns for use in column.uses]
    hours = {kitchen.windows[burn.window] for column in columns for burn in column.burns}
    both = [*uses, *((window.start_min, window.end_min) for window in hours)]
    return min(start for start, _ in both), max(end for _, end in both)


def _meet(first: Span, second: Span) -> bool:
    return first[0] < second[1] and second[0] < first[1]


def _ranked(
    columns: Sequence[Column], wanted: set[tuple[int, str]]
) -> dict[tuple[int, str], Ranked]:
    """Sort the columns of these dishes and fuels, the preferred first."""
    found: dict[tuple[int, str], list[tuple[Rank, Column]]] = defaultdict(list)
    for place, column in enumerate(columns):
        if (column.item, column.fuel) not in wanted:
            continue
        rank = (-_off(column), _in_cooker(column), -column.served_c, place)
        found[column.item, column.fuel].append((rank, column))
    return {key: sorted(mine, key=lambda each: each[0]) for key, mine in found.items()}


def _off(column: Column) -> int:
    """Return the minute at which a pot is off its stove for good."""
    last = column.burns[-1]
    if last.start < last.end:
        return last.end
    return max(use.end for use in column.uses if use.resource.startswith("stove:"))


def _in_cooker(column: Column) -> bool:
    return any(use.resource.startswith("cooker:") for use in column.uses)


def _no_more(first: Costs, second: Costs) -> bool:
    return all(a <= b + _NEAR * (1 + abs(b)) for a, b in zip(first, second, strict=True))


def _own(column: Column) -> Costs:
    return (column.money, column.fuel_j, column.tend_min)


def _over(column: Column) -> frozenset[Fire]:
    return frozenset((burn.stove, burn.window) for burn in column.burns)


class _Table:
    """A schedule from which one pot is taken and put elsewhere."""

    def __init__(self, chosen: Iterable[Column], kitchen: Kitchen) -> None:
        self.chosen, self._kitchen = list(chosen), kitchen
        self._held: dict[tuple[str, int], list[Use]] = defaultdict(list)  # by day
        self._beside: dict[Fire, set[int]] = defaultdict(set)  # places in what is chosen
        for place in range(len(self.chosen)):
            self._put(place)

    def move(self, place: int, others: Ranked) -> bool:
        """Move one pot to the first column that is better; False if it is well where it is."""
        old = self.chosen[place]
        self._take(place)
        self.chosen[place] = new = self._better(old, others)
        self._put(place)
        return new is not old

    def _put(self, place: int) -> None:
        column = self.chosen[place]
        for use, days in _by_day(column):
            for day in days:
                self._held[use.resource, day].append(use)
        for fire in _over(column):
            self._beside[fire].add(place)

    def _take(self, place: int) -> None:
        column = self.chosen[place]
        for use, days in _by_day(column):
            for day in days:
                self._held[use.resource, day].remove(use)
        for fire in _over(column):
            self._beside[fire].remove(place)

    def _better(self, old: Column, others: Ranked) -> Column:
        before = next(rank for rank, column in others if column == old)
        known: dict[object, Costs] = {}
        for rank, new in others:
            if new == old or not _no_more(_own(new), _own(old)) or not self._fits(new):
                continue
            fires = _over(old) | _over(new)
            was, would = (self._costs(each, fires, known) for each in (old, new))
            if _no_more(would, was) and (rank < before or not _no_more(was, would)):
                return new
        return old

    def _fits(self, new: Column) -> bool:
        room = self._kitchen.capacity
        return all(
            _has_room(use, self._held[use.resource, day], room.get(use.resource, 0))
            for use, days in _by_day(new)
            for day in days
        )

    def _costs(self, column: Column, fires: frozenset[Fire], known: dict[object, Costs]) -> Costs:
        """Count what a pot takes, with these fires and all that stand over them."""
        key = (column.burns, fires)
        if key not in known:
            beside = {place for fire in fires for place in self._beside[fire]}
            pots = (column, *(self.chosen[place] for place in beside))
            fires_take = fires_over(pots, self._kitchen)
            known[key] = (fires_take.money, fires_take.of("energy"), fires_take.tend_min)
        money, energy, tending = known[key]
        return money + column.money, energy + column.fuel_j, tending + column.tend_min


def _by_day(column: Column) -> Iterator[tuple[Use, range]]:
    """Yield what a column holds, and the days on which it does."""
    for use in column.uses:
        yield use, range(use.start // DAY_MIN, use.end // DAY_MIN + 1)


def _has_room(use: Use, held: Sequence[Use], room: int) -> bool:
    """Tell whether one more of a resource can be held while it is used."""
    over = [other for other in held if other.start < use.end and use.start < other.end]
    if len(over) < room:
        return True
    moments = (use.start, *(other.start for other in over if other.start > use.start))
    return all(sum(other.start <= at < other.end for other in over) < room for at in moments)
