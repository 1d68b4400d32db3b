"""Entries added to the log of an outage: under a lock, on the disk before it is told, or not there.

What was written before is never touched. A process that is killed loses the line it was writing
and nothing else; the next entry starts on a line of its own.
"""

import os
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from itertools import count
from pathlib import Path
from typing import Any

from optimizer.errors import SaveError
from optimizer.scenario.locking import alone
from optimizer.scenario.logbook import LOST, parse_log, seal, sealed
from optimizer.scenario.saving import sync_folder


def append(path: Path, said: Mapping[str, Any]) -> int:
    """Add one entry to a log.

    Parameters
    ----------
    path
        The log; it is made if it is not there.
    said
        Keys and values, without the entry's number.

    Returns
    -------
    int
        The number the entry has been given.

    Raises
    ------
    InputError
        If what stands in the log is wrong; nothing is added.
    SaveError
        If it cannot be written; nothing is added.
    """
    return append_all(path, [said])[0]


def append_all(path: Path, entries: Iterable[Mapping[str, Any]]) -> list[int]:
    """Add entries to a log: all of them, or none where they cannot be written.

    Parameters
    ----------
    path
        The log; it is made if it is not there.
    entries
        Keys and values of each, without its number.

    Returns
    -------
    list of int
        The numbers the entries have been given.

    Raises
    ------
    InputError
        If what stands in the log is wrong; nothing is added.
    SaveError
        If they cannot be written; nothing is added.
    """
    try:
        with alone(path):
            new = not path.exists()
            with _opened(path) as handle:
                before = _content(handle)
                first = parse_log(before, str(path)).next_number
                numbered = list(enumerate(entries, first))
                lines = (seal({"n": number, **said}) + b"\n" for number, said in numbered)
                _write(handle, _end_of_last(before) + b"".join(lines), len(before))
            if new:
                sync_folder(path.parent)
    except OSError as error:
        raise SaveError(f"{path}: cannot be written: {error.strerror or error}") from error
    return [number for number, _ in numbered]


def put_aside(path: Path) -> Path | None:
    """Put a log aside under a name of its own, so that a new one begins; None where there is none.

    Parameters
    ----------
    path
        The log.

    Raises
    ------
    SaveError
        If it cannot be renamed; it is as it was.
    """
    if not path.exists():
        return None
    stem = path.name.removesuffix(".jsonl")
    names = (path.with_name(f"{stem}.{number}.jsonl") for number in count(1))
    try:
        with alone(path):  # else another might put one aside under the same name
            if not path.exists():
                return None
            kept = next(name for name in names if not name.exists())
            path.rename(kept)
            sync_folder(path.parent)
    except OSError as error:
        raise SaveError(f"{path}: cannot be put aside: {error.strerror or error}") from error
    return kept


@contextmanager
def _opened(path: Path) -> Iterator[int]:
    """Open a log for adding to it."""
    flags = os.O_RDWR | os.O_APPEND | os.O_CREAT | getattr(os, "O_BINARY", 0)
    handle = os.open(path, flags, 0o666)
    try:
        yield handle
    finally:
        os.close(handle)


def _content(handle: int) -> bytes:
    """Read all that stands in an open file."""
    os.lseek(handle, 0, os.SEEK_SET)
    parts = []
    while part := os.read(handle, 1 << 20):
        parts.append(part)
    return b"".join(parts)


def _end_of_last(before: bytes) -> bytes:
    """Give what ends the last line: nothing, or what marks it as lost where it is not whole."""
    tail = before.rpartition(b"\n")[2]
    if not tail:
        return b""
    return b"\n" if sealed(tail) is not None else LOST + b"\n"


def _write(handle: int, content: bytes, size: int) -> None:
    """Write all of it and bring it to the disk, or leave the log as long as it was."""
    try:
        while content:
            content = content[os.write(handle, content) :]
        os.fsync(handle)
    except OSError:
        with suppress(OSError):
            os.ftruncate(handle, size)
        raise
