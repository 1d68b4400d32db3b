"""The log of an outage, beside the scenario: read, with everything that is wrong told at once.

One entry is one line of JSON, written as a person would say it, and closed by a sum over the line.
A line that was being written when the power went is known by its missing or wrong sum at the end
of the file; the next entry marks it as lost. Nothing else is ever taken for lost.
"""

import json
import re
import zlib
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from pydantic import ValidationError
from ruamel.yaml.comments import CommentedMap

from optimizer.errors import InputError, Problem
from optimizer.scenario.document import MOST_PROBLEMS, Document, Location, too_many
from optimizer.scenario.faults import near, note
from optimizer.scenario.log_entries import KINDS, Entry

LARGEST_BYTES = 10_000_000
LOST = b" #lost"
_SEALED = re.compile(rb'(\{.*), "sum": "([0-9a-f]{8})"\}', re.DOTALL)


def log_path(scenario: Path) -> Path:
    """Give the place of the log of a scenario: ``outage.log.jsonl`` beside ``outage.yaml``.

    Parameters
    ----------
    scenario
        The scenario file; a link is followed.
    """
    real = scenario.resolve()
    stem = real.stem if real.suffix in {".yaml", ".yml"} else real.name
    return real.with_name(f"{stem}.log.jsonl")


@dataclass(frozen=True)
class Line(Document):
    """One line of the log, for the problems in it."""

    number: int = 0

    def find(self, location: Location) -> tuple[int | None, str]:
        """Give the line in the log, and the key as it is shown."""
        shown = ""
        for part in location:
            shown += f"[{part + 1}]" if isinstance(part, int) else f".{part}" if shown else part
        return self.number or None, shown


@dataclass(frozen=True, slots=True)
class Log:
    """What a log holds."""

    file: str
    entries: tuple[Entry, ...] = ()
    lines: tuple[Line, ...] = ()  # of the entries
    lost: tuple[int, ...] = ()  # lines that were being written when something went wrong

    @property
    def standing(self) -> tuple[tuple[Entry, Line], ...]:
        """Entries that count: neither corrected nor withdrawn; in the order of their time."""
        gone = {entry.instead_of for entry in self.entries}
        kept = [
            (entry, line)
            for entry, line in zip(self.entries, self.lines, strict=True)
            if entry.n not in gone and entry.kind != "withdrawn"
        ]
        return tuple(sorted(kept, key=lambda pair: (pair[0].at, pair[0].n)))

    @property
    def next_number(self) -> int:
        """Number of the next entry."""
        return max((entry.n for entry in self.entries), default=0) + 1


@dataclass(slots=True)
class _Reading:
    """What was read so far."""

    file: str
    entries: list[Entry] = field(default_factory=list)
    lines: list[Line] = field(default_factory=list)
    lost: list[int] = field(default_factory=list)
    problems: list[Problem] = field(default_factory=list)


def read_log(path: Path) -> Log:
    """Read a log; one that is not there is empty.

    Parameters
    ----------
    path
        The log.

    Raises
    ------
    InputError
        If a line is wrong; all of them at once.
    """
    return parse_log(content_of(path), str(path))


def content_of(path: Path) -> bytes:
    """Read the bytes of a log; none where there is no log.

    Parameters
    ----------
    path
        The log.

    Raises
    ------
    InputError
        If it is no plain file, too large, or cannot be read.
    """
    message = "cannot be read"
    try:
        if not path.exists():
            return b""
        if not path.is_file():
            message = "is not a plain file"
        elif path.stat().st_size > LARGEST_BYTES:
            message = f"is larger than {LARGEST_BYTES // 10**6} MB; not read"
        else:
            return path.read_bytes()
    except OSError as error:
        message = f"cannot be read: {error.strerror or error}"
    raise InputError([Problem(str(path), None, "", "unreadable", message)])


def parse_log(content: bytes, file: str = "log") -> Log:
    """Read the bytes of a log.

    Parameters
    ----------
    content
        All of it.
    file
        Its name, for messages.

    Raises
    ------
    InputError
        If a line is wrong; all of them at once.
    """
    found = _Reading(file)
    *whole, tail = content.split(b"\n")
    for number, line in enumerate(whole, 1):
        if len(found.problems) > MOST_PROBLEMS:
            break
        if line.endswith(LOST):
            found.lost.append(number)
        elif line.strip():
            _take(line, number, found)
    if tail and sealed(tail) is None:
        found.lost.append(len(whole) + 1)
    elif tail:
        _take(tail, len(whole) + 1, found)
    _check_numbers(found)
    if found.problems:
        many = len(found.problems) > MOST_PROBLEMS
        raise too_many(file, found.problems) if many else InputError(found.problems)
    return Log(file, tuple(found.entries), tuple(found.lines), tuple(found.lost))


def sealed(line: bytes) -> dict[str, Any] | None:
    """Give what a line says if it is whole; None if its sum does not agree.

    Parameters
    ----------
    line
        Without its end.
    """
    found = _SEALED.fullmatch(line)
    if found is None or f"{zlib.crc32(found[1] + b'}'):08x}".encode() != found[2]:
        return None
    try:
        said = json.loads(found[1] + b"}")
    except (ValueError, RecursionError):
        return None
    return said if isinstance(said, dict) else None


def seal(said: dict[str, Any]) -> bytes:
    """Write what an entry says as a line, closed by its sum.

    Parameters
    ----------
    said
        Keys and values.
    """
    body = json.dumps(said, ensure_ascii=False, allow_nan=False).encode()
    return body[:-1] + f', "sum": "{zlib.crc32(body):08x}"}}'.encode()


def _take(raw: bytes, number: int, found: _Reading) -> None:
    """Read one line."""
    said = sealed(raw)
    if said is None:
        message = (
            "this line is not as it was written (its sum does not agree); the log is only added "
            "to: take your change back and correct the entry with a new one"
        )
        found.problems.append(Problem(found.file, number, "", "changed", message))
        return
    line = Line(found.file, CommentedMap(said), said, number=number)
    entry = entry_of(line)
    found.problems += line.problems
    if entry is not None:
        found.entries.append(entry)
        found.lines.append(line)


def entry_of(line: Line) -> Entry | None:
    """Make the entry that a line says; None, and noted in the line, if it is none.

    Parameters
    ----------
    line
        The line.
    """
    kind = str(line.plain.get("kind"))
    model = KINDS.get(kind)
    if model is None:
        line.problem(("kind",), "choice", f"unknown kind of entry '{kind:.60}'{near(kind, KINDS)}")
        return None
    try:
        return model.model_validate(line.plain)
    except ValidationError as error:
        note(line, model, error.errors(include_url=False))
        return None


def _check_numbers(found: _Reading) -> None:
    """Note numbers that stand twice, and corrections of what is not there."""
    seen: set[int] = set()
    for entry, line in zip(found.entries, found.lines, strict=True):
        if entry.n in seen:
            line.problem(("n",), "twice", f"entry {entry.n} stands twice")
        elif entry.instead_of is not None and entry.instead_of not in seen:
            message = f"there is no earlier entry {entry.instead_of} to be corrected"
            line.problem(("instead_of",), "unknown_entry", message)
        seen.add(entry.n)
        found.problems += [p for p in line.problems if p not in found.problems]
