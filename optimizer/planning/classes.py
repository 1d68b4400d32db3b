"""Columns merged into classes: starts that differ in nothing but the minute.

A class promises no more than every member keeps: the least fuel, the moments that all of them
hold a thing, the minutes that each of them burns in a stretch of the cook hours. So whatever a
program of classes cannot do, no schedule can, and its optimum is no more than theirs.
"""

from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from optimizer.planning.columns import Column, Kitchen

Stretch = tuple[int, int, int]  # window, first minute, last minute
STRETCH_MIN = 30  # about the longest, where schedules are looked for
_FUEL_SHARE = 0.003  # members' fuel differs by no more than about this share
_GRID_MIN = 5


@dataclass(frozen=True, slots=True)
class Class:
    """Columns of one dish, stove, pot and cooker whose burns lie in the same stretches."""

    item: int
    stove: str
    fuel: str
    fuel_j: float  # this and the next two: the least of any member
    money: float
    tend_min: float
    windows: tuple[int, ...]
    tended: bool  # holds a cook while it burns
    members: tuple[Column, ...]
    least: tuple[tuple[Stretch, int], ...]  # minutes that every member burns there
    most: tuple[tuple[Stretch, int], ...]  # minutes that some member burns there
    across: tuple[tuple[int, int], ...]  # window and moment at which every member burns
    cores: tuple[tuple[str, int, int], ...]  # resource and span in which every member holds it


Moments = tuple[tuple[int, ...], ...]
"""For each window the moments that cut it into stretches, its ends included."""


def moments_of(columns: Sequence[Column], kitchen: Kitchen, longest_min: int) -> Moments:
    """Cut windows into stretches: at the last minutes a dish may burn, and evenly between.

    Parameters
    ----------
    columns : sequence of Column
        All that may be cooked.
    kitchen : Kitchen
        Its windows are cut.
    longest_min : int
        About the longest stretch [min]

    Returns
    -------
    tuple of tuple of int
        For each window its moments in order.
    """
    last: dict[tuple[int, int], int] = {}
    for column in columns:
        for burn in column.burns:
            key = (burn.window, column.item)
            last[key] = max(last.get(key, 0), burn.end)
    cuts: dict[int, set[int]] = defaultdict(set)
    for (window, _), minute in last.items():
        cuts[window].add(minute)
    return tuple(
        _moments(window.start_min, window.end_min, cuts[number], longest_min)
        for number, window in enumerate(kitchen.windows)
    )


def _moments(start: int, end: int, cuts: set[int], longest_min: int) -> tuple[int, ...]:
    outer = [start]
    for minute in sorted(cuts):  # two cuts close to each other would say the same twice
        if minute - outer[-1] >= longest_min / 2 and end - minute >= longest_min / 2:
            outer.append(minute)
    outer.append(end)
    found = {end}
    for a, b in pairwise(outer):
        pieces = max(1, round((b - a) / longest_min))
        found |= {a + round((b - a) * n / pieces / _GRID_MIN) * _GRID_MIN for n in range(pieces)}
    return tuple(sorted(found))


def classes_of(columns: Sequence[Column], moments: Moments) -> tuple[Class, ...]:
    """Merge columns.

    Parameters
    ----------
    columns : sequence of Column
        All that may be cooked.
    moments : tuple of tuple of int
        Cuts of every window. Columns of a dish left on the flame stay single.

    Returns
    -------
    tuple of Class
        Every column is in one.
    """
    least: dict[int, float] = {}
    for column in columns:
        if column.fuel_j:
            least[column.item] = min(column.fuel_j, least.get(column.item, column.fuel_j))
    groups: dict[object, list[Column]] = defaultdict(list)
    for column in columns:
        step = _FUEL_SHARE * least.get(column.item, 1.0)
        groups[_key(column, moments, step)].append(column)
    return tuple(_class(tuple(group), moments) for group in groups.values())


def _key(column: Column, moments: Moments, step_j: float) -> object:
    held = tuple(u.resource for u in column.uses)
    single = not any(name.startswith("cooker:") for name in held)
    where = tuple(
        (burn.window, burn.start, burn.end)
        if single
        else (
            burn.window,
            bisect_right(moments[burn.window], burn.start),
            bisect_left(moments[burn.window], burn.end),
        )
        for burn in column.burns
    )
    return column.item, column.stove, held, where, round(column.fuel_j / step_j)


def _class(members: tuple[Column, ...], moments: Moments) -> Class:
    first = members[0]
    windows = tuple(dict.fromkeys(burn.window for burn in first.burns))
    told = [_minutes(member, moments) for member in members]
    near = {stretch for each in told for stretch in each}
    minutes = [
        (stretch, [each.get(stretch, 0) for each in told])
        for stretch in _stretches(windows, moments)
        if stretch in near
    ]
    return Class(
        item=first.item,
        stove=first.stove,
        fuel=first.fuel,
        fuel_j=min(m.fuel_j for m in members),
        money=min(m.money for m in members),
        tend_min=min(m.tend_min for m in members),
        windows=windows,
        tended=any(use.resource == "cook" for use in first.uses),
        members=members,
        least=tuple((s, min(each)) for s, each in minutes if min(each)),
        most=tuple((s, max(each)) for s, each in minutes),
        across=tuple(
            (window, minute)
            for window in windows
            for minute in moments[window][1:-1]
            if all(_burns_at(m, minute) for m in members)
        ),
        cores=tuple(_cores(members)),
    )


def _stretches(windows: Sequence[int], moments: Moments) -> Iterator[Stretch]:
    for window in windows:
        for start, end in pairwise(moments[window]):
            yield window, start, end


def _minutes(column: Column, moments: Moments) -> dict[Stretch, int]:
    """Return in which stretches a column burns, and for how many minutes."""
    found: dict[Stretch, int] = {}
    for burn in column.burns:
        cuts = moments[burn.window]
        first, last = bisect_right(cuts, burn.start) - 1, bisect_left(cuts, burn.end)
        for start, end in pairwise(cuts[max(0, first) : last + 1]):
            stretch = (burn.window, start, end)
            minutes = min(end, burn.end) - max(start, burn.start)
            if minutes > 0:
                found[stretch] = found.get(stretch, 0) + minutes
    return found


def _burns_at(column: Column, minute: int) -> bool:
    return any(burn.start < minute < burn.end for burn in column.burns)


def _cores(members: Sequence[Column]) -> Iterator[tuple[str, int, int]]:
    """Yield spans that all members hold; members hold the same things equally often."""
    held = [tuple(use for use in m.uses if use.start < use.end) for m in members]
    if len({tuple(use.resource for use in uses) for uses in held}) > 1:
        return
    for uses in zip(*held, strict=True):
        start, end = max(use.start for use in uses), min(use.end for use in uses)
        if start < end:
            yield uses[0].resource, start, end
