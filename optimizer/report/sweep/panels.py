"""Days lasted laid out for the chart: fuel across, people up, a panel for all else."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

from optimizer.report.sweep.text import days_word, spoken_unit
from optimizer.studies.sweep.axes import Axis
from optimizer.studies.sweep.changing import EATERS
from optimizer.studies.sweep.outcome import Row
from optimizer.studies.sweep.study import Sweep

MOST_PANELS = 12


@dataclass(frozen=True, slots=True)
class Square:
    """One point: where it stands, the days that the store lasts, and how they are written."""

    across: str
    up: str
    days: int | None
    word: str


@dataclass(frozen=True, slots=True)
class Panel:
    """One chart: values across from left to right, and up from below."""

    title: str  # the values of what is neither across nor up
    squares: tuple[Square, ...]


@dataclass(frozen=True, slots=True)
class Panels:
    """All charts of a sweep, and how many were left out."""

    across: Axis
    up: Axis | None
    panels: tuple[Panel, ...]
    left_out: int
    most: int  # days of the darkest square


def panels_of(known: Sweep) -> Panels:
    """Lay a sweep out.

    Parameters
    ----------
    known
        What is known of it.
    """
    across, up, others = _axes(known)
    made = list(_panels(known, across, up, others))
    days = [s.days for panel in made for s in panel.squares if s.days is not None]
    return Panels(
        across, up, tuple(made[:MOST_PANELS]), max(0, len(made) - MOST_PANELS), max(days, default=0)
    )


def _axes(known: Sweep) -> tuple[Axis, Axis | None, list[Axis]]:
    """Choose what goes across: the stock of a fuel if there is one; and up: those who eat."""
    fuels = {store.fuel.name for store in known.scenario.stores}
    axes = list(known.grid.axes)
    people = [axis for axis in axes if axis.key in EATERS]
    stocks = [axis for axis in axes if axis.key in fuels]
    across = next(iter(stocks or [axis for axis in axes if axis not in people] or axes))
    left = [axis for axis in axes if axis != across]
    up = next((axis for axis in left if axis in people), left[0] if left else None)
    return across, up, [axis for axis in left if axis != up]


def _panels(known: Sweep, across: Axis, up: Axis | None, others: list[Axis]) -> Iterator[Panel]:
    by_place: dict[tuple[object, ...], Row] = {
        tuple(row[axis.column] for axis in known.grid.axes): row for row in known.rows
    }
    for fixed in product(*(axis.values for axis in others)):
        at = dict(zip((axis.key for axis in others), fixed, strict=True))
        squares = []
        for high, wide in product(up.values if up else ("",), across.values):
            here = {**at, across.key: wide, **({up.key: high} if up else {})}
            place = tuple(axis.cell(here[axis.key]) for axis in known.grid.axes)
            row = by_place.get(place, {})
            days = row.get("days_lasted")
            known_days = days if isinstance(days, int) else None
            squares.append(Square(_short(wide, across), _short(high, up), known_days, _word(row)))
        title = ", ".join(f"{axis.key} {_spoken(at[axis.key], axis)}" for axis in others)
        yield Panel(title, tuple(squares))


def _short(value: str, axis: Axis | None) -> str:
    """Leave out the unit, which stands beside the axis."""
    unit = axis.unit if axis else None
    return value.removesuffix(unit).strip() if unit else value


def _spoken(value: str, axis: Axis) -> str:
    """Write a value with its unit as it is printed."""
    return f"{_short(value, axis)} {spoken_unit(axis)}".strip()


def _word(row: Row) -> str:
    return days_word(row) if row else "-"
