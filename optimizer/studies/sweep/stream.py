"""Rows as they come, kept so that a sweep which was killed goes on; at the end one sorted table.

While a sweep goes on its rows stand in ``TABLE.part``: lines of a CSV file, or a folder of small
Parquet files. Each row carries the fingerprint of its sweep, so that rows are never mixed.
"""

import os
import shutil
from abc import ABC, abstractmethod
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path

from optimizer.errors import InputError, Problem, SaveError
from optimizer.scenario.saving import sync_folder
from optimizer.studies.sweep.columns import Column
from optimizer.studies.sweep.outcome import Row

Rows = list[Row]


class Stream(ABC):
    """The rows of one sweep on the disk, in one format."""

    def __init__(self, path: Path, columns: Sequence[Column]) -> None:
        self.path = path
        self.part = path.with_name(f"{path.name}.part")
        self.columns = tuple(columns)

    @abstractmethod
    def kept(self) -> Rows:
        """Return the rows that an earlier run wrote whole; what it tore is dropped."""

    @abstractmethod
    def add(self, rows: Rows) -> None:
        """Write rows to the disk, one after the other."""

    @abstractmethod
    def read(self) -> Rows:
        """Return the rows of the finished table."""

    @abstractmethod
    def write(self, rows: Rows, target: Path) -> None:
        """Write a whole table."""

    def begin(self, fingerprint: str, *, afresh: bool) -> tuple[Rows, bool]:
        """Find what there is of this sweep.

        Parameters
        ----------
        fingerprint : str
            Of the sweep.
        afresh : bool
            Whether to begin anew, whatever there is.

        Returns
        -------
        tuple
            The rows that are there, and whether that is the finished table.

        Raises
        ------
        InputError
            If what is there is of another sweep.
        SaveError
            If it cannot be read.
        """
        try:
            if afresh:
                self._drop()
                return [], False
            if self.part.exists():
                return self._own(self.part, self.kept(), fingerprint), False
            if self.path.exists():
                return self._own(self.path, self.read(), fingerprint), True
        except OSError as error:
            raise SaveError(f"{self.path}: cannot be read: {error.strerror or error}") from error
        return [], False

    def _own(self, found: Path, rows: Rows, fingerprint: str) -> Rows:
        if any(row.get("sweep") != fingerprint for row in rows) or (
            found == self.path and not rows
        ):
            told = (
                "is there already and belongs to another sweep (another file, grid or goal, or "
                "another version of this program); name another table, or begin with --afresh "
                f"(a finished table is kept as {self.path.name}~)"
            )
            raise InputError([Problem(str(found), None, "", "another_sweep", told)])
        return rows

    def _drop(self) -> None:
        if self.part.is_dir():
            shutil.rmtree(self.part)
        else:
            self.part.unlink(missing_ok=True)

    def finish(self, rows: Rows) -> None:
        """Put the whole table in its place, in the order of the grid; an older one is kept."""
        target = self.path.with_name(f".{self.path.name}.{os.getpid()}.new")
        try:
            self.write(sorted(rows, key=number_of), target)
            if self.path.exists():
                kept = self.path.with_name(f"{self.path.name}~")
                self.path.replace(kept)
            target.replace(self.path)
            sync_folder(self.path.parent)
            self._drop()
        except OSError as error:
            with suppress(OSError):
                target.unlink(missing_ok=True)
            raise SaveError(f"{self.path}: cannot be written: {error.strerror or error}") from error


def number_of(row: Row) -> int:
    """Return which point a row is, from 1."""
    number = row["point"]
    assert isinstance(number, int)
    return number
