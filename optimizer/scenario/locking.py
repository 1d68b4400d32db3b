"""One writer at a time: a lock that other programs and other threads of this one wait for.

The lock is a hidden file beside the one that is written. It stays there when the lock is given
back, since taking it away would let two programs lock two files of the same name.
"""

import os
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

PATIENCE_S = 10.0  # a file is written in far less; whoever holds it longer hangs
AGAIN_S = 0.005

_ONE = threading.RLock()  # threads of this program come one after the other
_HELD: set[Path] = set()


@contextmanager
def alone(path: Path) -> Iterator[None]:
    """Have a file to oneself; within, the same may be asked for again.

    Parameters
    ----------
    path
        The file; it need not be there, its folder has to be.

    Raises
    ------
    OSError
        If the lock cannot be made, or somebody else does not give it back.
    """
    target = path.resolve()
    with _ONE:
        if target in _HELD:
            yield
            return
        handle = os.open(target.with_name(f".{target.name}.lock"), os.O_RDWR | os.O_CREAT, 0o666)
        try:
            lock(handle)
            _HELD.add(target)
            yield
        finally:
            _HELD.discard(target)
            os.close(handle)  # gives the lock back as well


def lock(handle: int) -> None:
    """Wait until nobody else has an open file; it is given back when the file is closed.

    Parameters
    ----------
    handle
        Of the open file.

    Raises
    ------
    OSError
        If somebody else does not give it back.
    """
    until = time.monotonic() + PATIENCE_S
    while True:
        try:
            _try(handle)
        except OSError:
            if time.monotonic() > until:
                raise
            time.sleep(AGAIN_S)
        else:
            return


def _try(handle: int) -> None:
    """Lock an open file, or fail at once."""
    if sys.platform == "win32":
        import msvcrt  # is there on Windows only

        os.lseek(handle, 2**30, os.SEEK_SET)  # a byte that never is: only the lock is wanted
        msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
    else:
        import fcntl  # is there everywhere but on Windows

        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
