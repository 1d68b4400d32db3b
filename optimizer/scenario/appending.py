"""Entries added to the log of an outage: under a lock, on the disk before it is told, or not there.

What was written before is never touched. A process that is killed loses the line it was writing
and nothing else; the next entry starts on a line of its own.
"""

import os
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from optimizer.errors import SaveError
from optimizer.scenario.locking import lock
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
        If it cannot be written.
    """
    try:
        new = not path.exists()
        with _locked(path) as handle:
            before = _content(handle)
            number = parse_log(before, str(path)).next_number
            _write(handle, _end_of_last(before) + seal({"n": number, **said}) + b"\n")
        if new:
            sync_folder(path.parent)
    except OSError as error:
        raise SaveError(f"{path}: cannot be written: {error.strerror or error}") from error
    return number


@contextmanager
def _locked(path: Path) -> Iterator[int]:
    """Open a log for adding to it, for this process alone."""
    flags = os.O_RDWR | os.O_APPEND | os.O_CREAT | getattr(os, "O_BINARY", 0)
    handle = os.open(path, flags, 0o666)
    try:
        lock(handle)
        yield handle
    finally:
        os.close(handle)  # gives the lock back as well


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


def _write(handle: int, content: bytes) -> None:
    """Write all of it, and bring it to the disk."""
    while content:
        content = content[os.write(handle, content) :]
    os.fsync(handle)
