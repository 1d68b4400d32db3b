"""Rows as lines of CSV: text that a spreadsheet would take for a formula is guarded."""

import csv
import os
from collections.abc import Iterable, Iterator
from io import StringIO
from pathlib import Path

from optimizer.studies.sweep.columns import in_columns
from optimizer.studies.sweep.outcome import Cell, Row
from optimizer.studies.sweep.stream import Rows, Stream

FORMULA = ("=", "+", "-", "@")
GUARD = "'"


def guarded(cell: Cell) -> Cell:
    """Put text on one line, and a mark before it if it would begin a formula."""
    if not isinstance(cell, str):
        return cell
    words = " ".join(cell.split())
    return f"{GUARD}{words}" if words.startswith(FORMULA) else words


def bare(text: str) -> str:
    """Take that mark away again."""
    return text[1:] if text.startswith(tuple(GUARD + sign for sign in FORMULA)) else text


class CsvStream(Stream):
    """A CSV file."""

    def kept(self) -> Rows:
        """Return the whole lines; one that was torn is cut off the file."""
        content = self.part.read_bytes()
        whole = content[: content.rfind(b"\n") + 1]
        if len(whole) < len(content):
            with self.part.open("r+b") as opened:
                opened.truncate(len(whole))
        return list(self._rows(whole.decode("utf-8").split("\n")))

    def add(self, rows: Rows) -> None:
        """Append lines, and bring them to the disk."""
        begun = self.part.exists() and self.part.stat().st_size
        text = "" if begun else self._header()
        with self.part.open("a", encoding="utf-8", newline="") as opened:
            opened.write(text + self._lines(rows))
            opened.flush()
            os.fsync(opened.fileno())

    def read(self) -> Rows:
        """Return the rows of the finished table; none if it is no table of a sweep."""
        text = self.path.read_text(encoding="utf-8", errors="replace")
        return list(self._rows(text.split("\n")))

    def write(self, rows: Rows, target: Path) -> None:
        """Write all lines."""
        with target.open("w", encoding="utf-8", newline="") as opened:
            opened.write(self._header() + self._lines(rows))
            opened.flush()
            os.fsync(opened.fileno())

    def _header(self) -> str:
        return _line(guarded(column.name) for column in self.columns)

    def _lines(self, rows: Rows) -> str:
        return "".join(_line(map(guarded, in_columns(row, self.columns))) for row in rows)

    def _rows(self, lines: list[str]) -> Iterator[Row]:
        header, *others = list(csv.reader(line for line in lines if line)) or [[]]
        named = [bare(name) for name in header] == [column.name for column in self.columns]
        for cells in others:
            if named and len(cells) == len(self.columns):
                pairs = zip(self.columns, cells, strict=True)
                yield {
                    c.name: c.read(bare(cell) if c.kind == "text" else cell) for c, cell in pairs
                }
            else:
                yield {"sweep": None}


def _line(cells: Iterable[Cell]) -> str:
    out = StringIO()
    csv.writer(out, lineterminator="\n").writerow(cells)
    return out.getvalue()
