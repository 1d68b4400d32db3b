"""Who works the points out on this machine: this process, or workers on several cores."""

import signal
import threading
import warnings
from collections.abc import Generator, Iterator, Sequence

from optimizer.errors import LimitError
from optimizer.studies.sweep.grid import Grid
from optimizer.studies.sweep.outcome import Row, row_of

Batch = tuple[int, ...]
BATCH = 4  # points that a worker takes at once: neighbours share what is known of a household
AHEAD = 2  # batches that wait for each worker


def batches(numbers: Sequence[int], workers: int) -> list[Batch]:
    """Divide points into batches of neighbours; small ones where there are few."""
    size = max(1, min(BATCH, len(numbers) // (4 * workers)))
    return [tuple(numbers[n : n + size]) for n in range(0, len(numbers), size)]


def work(grid: Grid, batch: Batch) -> list[Row]:
    """Work out the points of a batch, in a worker."""
    if threading.current_thread() is threading.main_thread():
        signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is for the one who gives out work
    return [row_of(grid, number) for number in batch]


def here(grid: Grid, numbers: Sequence[int]) -> Iterator[list[Row]]:
    """Yield the rows one by one, worked out in this process."""
    for number in numbers:
        yield [row_of(grid, number)]


def cores(grid: Grid, numbers: Sequence[int], jobs: int) -> Iterator[list[Row]]:
    """Yield rows as they come from workers on this machine.

    Raises
    ------
    LimitError
        If a worker died; memory ran out, as a rule.
    """
    from joblib import Parallel, delayed, parallel_config  # only where wanted
    from joblib.externals.loky import get_reusable_executor
    from joblib.externals.loky.process_executor import (
        TerminatedWorkerError,
    )

    made: Iterator[list[Row]] = iter(())
    try:
        with parallel_config(backend="loky", n_jobs=jobs, inner_max_num_threads=1):
            pool = Parallel(
                return_as="generator_unordered", batch_size=1, pre_dispatch=f"{AHEAD}*n_jobs"
            )
            made = pool(delayed(work)(grid, batch) for batch in batches(numbers, jobs))
        for rows in made:  # noqa: UP028  (so that it is closed below, where its warning is quiet)
            yield rows
    except TerminatedWorkerError as error:
        told = "a worker ended by itself, as they do when memory runs out; take fewer --jobs"
        raise LimitError(told) from error
    finally:
        _closed(made)
        get_reusable_executor().shutdown(wait=True, kill_workers=True)


def _closed(made: Iterator[list[Row]]) -> None:
    """Take back what was given out; that it is not finished is no news."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        if isinstance(made, Generator):
            made.close()
