"""A sweep from the beginning, or from where it was killed, to its table."""

import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import AbstractContextManager, ExitStack, closing, nullcontext
from dataclasses import dataclass, field
from pathlib import Path

from optimizer.errors import SaveError
from optimizer.model.household import Scenario
from optimizer.scenario.locking import alone
from optimizer.studies.sweep.columns import Column, columns_of, whole
from optimizer.studies.sweep.engines import cores, here
from optimizer.studies.sweep.grid import Grid
from optimizer.studies.sweep.outcome import PLANNED, Row
from optimizer.studies.sweep.stream import Stream, number_of

Tell = Callable[[str], bool]
SOON_S, MINUTE_S, HOUR_S = 90, 60, 3600


@dataclass(slots=True)
class Sweep:
    """What is known of a sweep; it grows while the sweep goes on."""

    grid: Grid
    scenario: Scenario  # of the file
    columns: tuple[Column, ...]
    rows: list[Row] = field(default_factory=list)  # in the order of the grid when it is done
    before: int = 0  # rows that an earlier run left
    stopped: bool = False

    @property
    def done(self) -> bool:
        """Whether every point has its row."""
        return len(self.rows) == self.grid.count

    def with_status(self, *wanted: str) -> int:
        """Count the rows of some statuses."""
        return sum(row.get("status") in wanted for row in self.rows)

    @property
    def planned(self) -> int:
        """Count the rows with a plan."""
        return sum(row.get("cost") is not None for row in self.rows if row["status"] in PLANNED)


@dataclass(frozen=True, slots=True)
class Engine:
    """Where points are worked out."""

    jobs: int = 1
    scheduler: str | None = None  # of a Dask cluster

    def rows(self, grid: Grid, numbers: Sequence[int]) -> Iterator[list[Row]]:
        """Yield rows in whatever order they come."""
        if self.scheduler is not None:
            from optimizer.studies.sweep.cluster import cluster  # optional

            return cluster(grid, numbers, self.scheduler)
        return here(grid, numbers) if self.jobs == 1 else cores(grid, numbers, self.jobs)


def sweep(
    grid: Grid,
    scenario: Scenario,
    *,
    engine: Engine | None = None,
    out: Path | None = None,
    afresh: bool = False,
    tell: Tell | None = None,
) -> Sweep:
    """Work out every point of a grid.

    Parameters
    ----------
    grid : Grid
        The scenario and what is varied.
    scenario : Scenario
        The household of the file.
    engine : Engine, optional
        Where points are worked out; None: in this process.
    out : Path, optional
        The table, CSV or Parquet by its name; without it nothing is written.
    afresh : bool
        Whether to drop what an earlier run left.
    tell : callable, optional
        Told how far it is; False stops after what has come.

    Returns
    -------
    Sweep
        The same rows whatever the engine, save those that say that the clock cut them short.

    Raises
    ------
    InputError
        If what is at `out` belongs to another sweep, or the cluster is of no use.
    LimitError
        If a worker died.
    SaveError
        If the table cannot be written; the rows so far are kept beside it.
    """
    columns = columns_of(grid, scenario)
    known = Sweep(grid, scenario, columns)
    stream = None if out is None else stream_of(out, columns)
    with _alone(out):
        finished = False
        if stream is not None:
            known.rows, finished = stream.begin(grid.fingerprint, afresh=afresh)
            known.before = len(known.rows)
        if not finished:
            _go_on(known, engine or Engine(), stream, tell)
        known.rows.sort(key=number_of)
        if known.done and stream is not None and not finished:
            stream.finish(known.rows)
    return known


def stream_of(out: Path, columns: Sequence[Column]) -> Stream:
    """Return the stream of a table, by the end of its name."""
    if out.suffix.casefold() == ".parquet":
        from optimizer.studies.sweep.parquet_rows import ParquetStream  # heavy

        return ParquetStream(out, columns)
    from optimizer.studies.sweep.csv_rows import CsvStream

    return CsvStream(out, columns)


def _alone(out: Path | None) -> AbstractContextManager[object]:
    """Let no other sweep write the same table."""
    if out is None:
        return nullcontext()
    if not out.parent.is_dir():
        raise SaveError(f"{out}: cannot be written: there is no folder {out.parent}")
    stack = ExitStack()
    try:
        stack.enter_context(alone(out))
    except OSError as error:
        told = "another sweep is writing it, or nothing can be written beside it"
        raise SaveError(f"{out}: {told}") from error
    return stack


def _go_on(known: Sweep, engine: Engine, stream: Stream | None, tell: Tell | None) -> None:
    """Work out what is not there yet."""
    there = {row["point"] for row in known.rows}
    left = [number for number in range(1, known.grid.count + 1) if number not in there]
    if not left:
        return
    began = time.monotonic()
    with closing(engine.rows(known.grid, left)) as coming:  # type: ignore[type-var]  # generators
        if _stop(known, began, tell):
            return
        for rows in coming:
            known.rows += [whole(row, known.columns) for row in rows]
            if stream is not None:
                _keep(stream, rows)
            if _stop(known, began, tell):
                return


def _stop(known: Sweep, began: float, tell: Tell | None) -> bool:
    known.stopped = tell is not None and not tell(_how_far(known, time.monotonic() - began))
    return known.stopped


def _keep(stream: Stream, rows: list[Row]) -> None:
    try:
        stream.add(rows)
    except OSError as error:
        raise SaveError(f"{stream.part}: cannot be written: {error.strerror or error}") from error


def _how_far(known: Sweep, seconds: float) -> str:
    """Say how far it is, and how long it will take at the pace so far."""
    done, count = len(known.rows), known.grid.count
    made = done - known.before
    told = f"{done} of {count} points"
    if not made or done == count:
        return told
    return f"{told}, about {_time(seconds * (count - done) / made)} left"


def _time(seconds: float) -> str:
    if seconds < SOON_S:
        return f"{seconds:.0f} s"
    if seconds < SOON_S * MINUTE_S:
        return f"{seconds / MINUTE_S:.0f} min"
    return f"{seconds / HOUR_S:.1f} h"
