"""A table with its title and a note: in lines for a terminal, in rows for a page."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from optimizer.report.layout import GAP, table, wrap


@dataclass(frozen=True, slots=True)
class Block:
    """One table of an answer; the first column has the title for its head."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    notes: tuple[str, ...] = ()

    @property
    def lines(self) -> list[str]:
        """Lines of at most 80 columns."""
        told = table(self.title, self.heads, self.rows) if self.rows else [self.title]
        hanging = 2 * GAP if len(self.notes) > 1 else GAP
        return [*told, *(line for note in self.notes for line in wrap(note, GAP, hanging))]

    @property
    def mappings(self) -> list[dict[str, str]]:
        """Rows of a page, with the heads as keys."""
        keys = (self.title, *self.heads)
        return [dict(zip(keys, row, strict=True)) for row in self.rows]


def block(title: str, heads: Sequence[str], rows: Iterable[Sequence[str]], *notes: str) -> Block:
    """Make a table; notes that say nothing are left out.

    Parameters
    ----------
    title
        Head of the first column.
    heads
        Heads of the others.
    rows
        As many cells in each as there are heads, and one more.
    notes
        Sentences below it.
    """
    cells = tuple(tuple(row) for row in rows)
    return Block(title, tuple(heads), cells, tuple(note for note in notes if note))
