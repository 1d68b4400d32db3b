"""Points worked out by the workers of a Dask cluster that exists."""

from collections.abc import Iterator, Mapping, Sequence
from contextlib import suppress
from itertools import islice
from typing import TYPE_CHECKING

from optimizer.errors import InputError, Problem
from optimizer.studies.sweep.engines import AHEAD, Batch, batches, work
from optimizer.studies.sweep.grid import Grid, program_version
from optimizer.studies.sweep.outcome import Row, unworked

if TYPE_CHECKING:
    from distributed import Client

CONNECT_S = 10


def cluster(grid: Grid, numbers: Sequence[int], address: str) -> Iterator[list[Row]]:
    """Yield rows as they come from the workers of a cluster.

    Parameters
    ----------
    grid : Grid
        What is worked out.
    numbers : sequence of int
        Which points.
    address : str
        Of the scheduler.

    Raises
    ------
    InputError
        If there is no cluster, it has no workers, or they have another version of this program.
    """
    client = _client(address)
    try:
        workers = _workers(client, address)
        yield from _given_out(client, grid, batches(numbers, workers), AHEAD * workers)
    finally:
        with suppress(OSError, TimeoutError):
            client.close()


def _client(address: str) -> "Client":
    """Find the scheduler."""
    try:
        from distributed import Client  # only where a cluster is wanted
    except ImportError as error:
        told = "needs the package 'distributed': pip install 'fuelthrift[cluster]'"
        raise _wrong("--engine", "missing_package", told) from error
    try:
        return Client(address, timeout=CONNECT_S, set_as_default=False)
    except (OSError, ValueError, TypeError) as error:
        told = f"no scheduler answers at '{address}'; write for example tcp://127.0.0.1:8786"
        raise _wrong("--scheduler", "no_scheduler", told) from error


def _workers(client: "Client", address: str) -> int:
    """Count the workers; all of them must have this version of this program."""
    try:
        versions = client.run(program_version)
    except Exception as error:  # whatever a worker without this program says
        told = f"the workers at {address} cannot run fuelthrift; install it there ({error})"
        raise _wrong("--scheduler", "workers", told) from error
    return same_version(versions, address)


def same_version(versions: Mapping[str, str], address: str) -> int:
    """Count workers by their versions, which must all be that of this program.

    Parameters
    ----------
    versions : mapping of str to str
        Version by address of the worker.
    address : str
        Of the scheduler, for messages.

    Raises
    ------
    InputError
        If there are no workers, or others than this version.
    """
    if not versions:
        raise _wrong("--scheduler", "no_workers", f"there are no workers at {address}")
    here = program_version()
    others = sorted({each for each in versions.values() if each != here})
    if others:
        told = f"the workers have version {', '.join(others)}, this is {here}; install the same"
        raise _wrong("--scheduler", "version", told)
    return len(versions)


def _given_out(
    client: "Client", grid: Grid, tasks: Sequence[Batch], ahead: int
) -> Iterator[list[Row]]:
    """Give out a few batches at a time, so that memory is bounded however large the grid is."""
    from distributed import as_completed

    left = iter(tasks)
    grid_there = client.scatter(grid, broadcast=True)
    under_way = {
        client.submit(work, grid_there, batch, pure=False): batch for batch in islice(left, ahead)
    }
    done = as_completed(list(under_way), loop=client.loop)
    for future in done:
        batch = under_way.pop(future)
        failed = future.exception()
        yield future.result() if failed is None else [unworked(grid, n, failed) for n in batch]
        for following in islice(left, 1):
            new = client.submit(work, grid_there, following, pure=False)
            under_way[new] = following
            done.add(new)


def _wrong(option: str, code: str, message: str) -> InputError:
    return InputError([Problem("command line", None, option, code, message)])
