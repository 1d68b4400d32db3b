"""The file of a water test: a table of readings, and what was in the cooker, as a person notes it.

Commas, semicolons, tabs or bars between columns; units in the header or beside each number; times
as minutes, hours or on the clock; lines such as ``# water: 4.8 L`` above the table.
"""

import csv
import math
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from io import StringIO
from pathlib import Path
from typing import Final

from optimizer.errors import InputError, Problem
from optimizer.scenario.faults import near
from optimizer.scenario.file_text import read_text
from optimizer.trials.columns import WORDS, Column, clock_min

MOST_ROWS: Final = 5000
MOST_COLUMNS: Final = 20
LONGEST_H: Final = 100.0
EXPECTED: Final = (
    "expected columns such as 'time_min, temp_c, room_c' (time also time_h or clock, temperatures "
    "also in _f; room may stand above instead, as '# room: 18 degC')"
)
NOTES: Final = ("water", "pot", "jar", "room", "closed")

_NOTE = re.compile(r"#?\s*([a-z]+)\s*[:=]\s*(\S.*?)\s*", re.IGNORECASE)
_DAY_MIN = 1440


@dataclass(frozen=True, slots=True)
class Note:
    """What a line above the table says, and where."""

    value: str
    line: int


@dataclass(frozen=True, slots=True)
class Reading:
    """One line of the table; a room not read there is None."""

    line: int
    time_min: float  # since the first reading, or since the hour it was closed
    temp_c: float
    room_c: float | None


@dataclass(slots=True)
class BoxLog:
    """A file that has been read, and what is wrong with it."""

    file: str
    notes: dict[str, Note] = field(default_factory=dict)
    rows: list[Reading] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)

    def wrong(self, line: int | None, key: str, code: str, message: str) -> None:
        """Note what is wrong on a line."""
        self.problems.append(Problem(self.file, line, key, code, message))


def read_log(path: Path) -> BoxLog:
    """Read the file of a water test.

    Parameters
    ----------
    path : Path
        The file [-]

    Returns
    -------
    BoxLog
        Readings in order, notes, and the problems of both [-]

    Raises
    ------
    InputError
        If it is no readable text, or larger than 1 MB.

    References
    ----------
    .. [1] definition, p 1, a table with its units.
    """
    return parse_log(read_text(path), str(path))


def parse_log(text: str, file: str) -> BoxLog:
    """Read the text of a water test.

    Parameters
    ----------
    text : str
        The whole file [-]
    file : str
        Its name, for messages [-]

    Returns
    -------
    BoxLog
        Readings in order, notes, and the problems of both [-]

    Raises
    ------
    InputError
        If there is no table in it, or too much.

    References
    ----------
    .. [1] definition, p 1, a table with its units.
    """
    log = BoxLog(file)
    lines = list(_table_lines(text, log))
    if not lines:
        log.wrong(None, "", "empty", f"has no readings; {EXPECTED}")
        raise InputError(log.problems)
    if len(lines) - 1 > MOST_ROWS:
        log.wrong(None, "", "too_large", f"has more than {MOST_ROWS} readings; keep one in ten")
        raise InputError(log.problems)
    separator = _separator(lines[0][1])
    columns = _columns(lines[0], separator, log)
    kinds = [column.kind for column in columns]
    if {"time", "temp"} <= set(kinds) and len(set(kinds)) == len(kinds):
        width = len(_cells(lines[0][1], separator))
        _read_rows(lines[1:], separator, columns, width, log)
    return log


def _table_lines(text: str, log: BoxLog) -> Iterator[tuple[int, str]]:
    """Give the lines of the table with their numbers; notes are taken out."""
    begun = False
    for number, line in enumerate(text.splitlines(), start=1):
        found = _NOTE.fullmatch(line)
        said = found[1].casefold() if found else ""
        if found and said in NOTES and (line.lstrip().startswith("#") or not begun):
            log.notes[said] = Note(found[2], number)
        elif line.strip() and not line.lstrip().startswith("#"):
            begun = True
            yield number, line


def _separator(header: str) -> str | None:
    """Find what stands between the columns; None: spaces."""
    return next((mark for mark in "\t;|," if mark in header), None)


def _cells(line: str, separator: str | None) -> list[str]:
    if separator is None:
        return line.split(maxsplit=MOST_COLUMNS)[:MOST_COLUMNS]
    row = next(csv.reader(StringIO(line), delimiter=separator, skipinitialspace=True), [])
    return [cell.strip() for cell in row][:MOST_COLUMNS]


def _columns(header: tuple[int, str], separator: str | None, log: BoxLog) -> list[Column]:
    """Understand the header; what is missing or not understood is noted."""
    line, text = header
    cells = _cells(text, separator)
    found = [Column.headed(place, cell) for place, cell in enumerate(cells)]
    for column in found:
        if column.kind == "unknown":
            hint = near(column.shown, WORDS)
            hint = hint if "mean" in hint else ""
            message = f"unknown column '{column.shown:.40}'{hint}; {EXPECTED}"
            log.wrong(line, column.shown[:40], "unknown_key", message)
    kinds = [column.kind for column in found]
    for kind, name in (("time", "time"), ("temp", "temperature"), ("room", "the room")):
        if kinds.count(kind) > 1:
            log.wrong(line, name, "duplicate_key", f"there are two columns of {name}")
        if kind not in {*kinds, "room"} and "unknown" not in kinds:
            log.wrong(line, name, "missing", f"there is no column of {name}; {EXPECTED}")
    return [column for column in found if column.kind in {"time", "temp", "room"}]


def _read_rows(
    lines: list[tuple[int, str]],
    separator: str | None,
    columns: list[Column],
    width: int,
    log: BoxLog,
) -> None:
    """Read the lines below the header; times count from the first, or from when it was closed."""
    by_kind = {column.kind: column for column in columns}
    before, zero = None, _closed_min(log)
    clock = False
    for number, line in lines:
        cells = _cells(line, separator)
        if len(cells) > width:
            message = f"has {len(cells)} columns, the header {width}; decimals need a point here"
            log.wrong(number, "", "columns", message)
            continue
        values = {kind: _value(cells, column, number, log) for kind, column in by_kind.items()}
        minutes, temp_c, room_c = (values.get(kind) for kind in ("time", "temp", "room"))
        if minutes is None or temp_c is None:
            continue
        clock = clock or ":" in cells[by_kind["time"].place]
        if clock and zero is None:
            zero = minutes
        minutes -= zero or 0.0 if clock else 0.0
        if ":" in cells[by_kind["time"].place]:
            minutes += _DAY_MIN * _midnights(minutes, before or 0.0)
        if _in_order(number, minutes, before, log):
            log.rows.append(Reading(number, minutes, temp_c, room_c))
        if minutes <= LONGEST_H * 60:  # a slip of the pen does not make the next ones wrong
            before = minutes


def _midnights(minutes: float, before: float) -> int:
    """Count the midnights between a time on the clock and the one above it."""
    return max(0, math.ceil((before - _DAY_MIN / 2 - minutes) / _DAY_MIN))


def _in_order(number: int, minutes: float, before: float | None, log: BoxLog) -> bool:
    if minutes < 0 or (before is not None and minutes < before):
        message = "is earlier than the reading above it" if before is not None else "is before 0"
        log.wrong(number, "time", "order", f"the time {message}")
        return False
    if minutes > LONGEST_H * 60:
        log.wrong(number, "time", "bounds", f"must be at most {LONGEST_H:g} h after the first")
        return False
    return True


def _closed_min(log: BoxLog) -> float | None:
    note = log.notes.get("closed")
    if note is None:
        return None
    minutes = clock_min(note.value)
    if minutes is None:
        message = f"expected a time on the clock such as 18:05, given '{note.value:.40}'"
        log.wrong(note.line, "closed", "time", message)
    return minutes


def _value(cells: list[str], column: Column, line: int, log: BoxLog) -> float | None:
    """Read one cell: minutes or degC; None (and noted) if it is neither, or no room."""
    cell = cells[column.place] if column.place < len(cells) else ""
    if not cell:
        if column.kind != "room":
            log.wrong(line, column.shown, "missing", "is empty")
        return None
    found = column.read(cell)
    if isinstance(found, str):
        log.wrong(line, column.shown, "number", found)
        return None
    return found
