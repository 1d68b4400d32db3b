"""The columns of the table, known before there is a row."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from optimizer.model.household import Scenario
from optimizer.studies.sweep.grid import Grid
from optimizer.studies.sweep.outcome import Cell, Row, used_column

Kind = Literal["whole", "number", "text"]


@dataclass(frozen=True, slots=True)
class Column:
    """A column: its name, and what is in it."""

    name: str
    kind: Kind

    def read(self, text: str) -> Cell:
        """Return a cell that was written as text; empty is None."""
        if not text:
            return None
        if self.kind == "text":
            return text
        return int(text) if self.kind == "whole" else float(text)


def columns_of(grid: Grid, scenario: Scenario) -> tuple[Column, ...]:
    """Return the columns of a sweep.

    Parameters
    ----------
    grid : Grid
        What is varied.
    scenario : Scenario
        The household of the file, whose fuels have a column each.
    """
    fuels = [
        used_column(store.fuel.name, weighed=store.fuel.lhv_j_kg is not None)
        for store in scenario.stores
    ]
    return (
        Column("point", "whole"),
        *(Column(axis.column, _kind([axis.cell(v) for v in axis.values])) for axis in grid.axes),
        Column("status", "text"),
        Column("gap", "number"),
        Column("cost", "number"),
        Column("fuel_mj", "number"),
        *(Column(name, "number") for name in fuels),
        Column("fire_min", "number"),
        Column("saved_share", "number"),
        Column("days_lasted", "whole"),
        Column("days_at_most", "whole"),
        Column("days_status", "text"),
        Column("report", "text"),
        Column("sweep", "text"),
    )


def _kind(cells: Sequence[Cell]) -> Kind:
    if any(isinstance(cell, str) for cell in cells):
        return "text"
    return "whole" if all(isinstance(cell, int) for cell in cells) else "number"


def in_columns(row: Row, columns: Sequence[Column]) -> list[Cell]:
    """Return the cells of a row in the order of the columns."""
    return [row.get(column.name) for column in columns]


def whole(row: Row, columns: Sequence[Column]) -> Row:
    """Return a row with all columns, None where nothing is known."""
    return {column.name: row.get(column.name) for column in columns}
