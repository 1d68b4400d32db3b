"""Programs that are killed: at every step they take on the disk, in the middle of a byte, any time.

A child of this process does the work. It counts what it asks of the disk and dies at the step it
is told, or goes on with an error there; or the system kills it, or refuses, as soon as a file grows
past so many bytes.
"""

import errno
import os
import resource
import signal
import traceback
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any, NoReturn

from optimizer.errors import SaveError

# A close is not among them: all is on the disk before, so it has nothing left to fail at.
DISK = (
    "open", "write", "fsync", "ftruncate", "replace", "rename", "link", "unlink", "remove", "mkdir",
    "chmod", "utime",
)  # fmt: skip
DONE, FAILED = 0, 4
MOST_STEPS = 300


class Steps:
    """What is asked of the disk, counted; something happens at one of the steps."""

    def __init__(self, at: int | None, happens: Callable[[], Any]) -> None:
        self.taken, self.at, self.happens = 0, at, happens

    def watched(self, doing: Callable[..., Any]) -> Callable[..., Any]:
        """Count a call, and let happen what is to happen before it."""

        def step(*given: Any, **named: Any) -> Any:
            self.taken += 1
            if self.taken == self.at:
                self.happens()
            return doing(*given, **named)

        return step


@contextmanager
def steps(at: int | None, happens: Callable[[], Any]) -> Iterator[Steps]:
    """Watch what this process asks of the disk."""
    watch = Steps(at, happens)
    before = {name: getattr(os, name) for name in DISK}
    try:
        for name, doing in before.items():
            setattr(os, name, watch.watched(doing))
        yield watch
    finally:
        for name, doing in before.items():
            setattr(os, name, doing)


def die() -> NoReturn:
    """End at once, as the power does it."""
    os.kill(os.getpid(), signal.SIGKILL)
    raise AssertionError


def full() -> NoReturn:
    """Fail as a disk does that is full."""
    raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


def read_only() -> NoReturn:
    """Fail as a folder does that may only be read."""
    raise OSError(errno.EROFS, os.strerror(errno.EROFS))


def grown_to(size: int, *, kills: bool) -> None:
    """Let no file of this process grow past a size: the system kills it there, or refuses."""
    signal.signal(signal.SIGXFSZ, signal.SIG_DFL if kills else signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, resource.RLIM_INFINITY))


def child(work: Callable[[], Any]) -> int:
    """Do something in a child; give the code it gave, 4 if it raised, or minus the signal."""
    pid = os.fork()
    if pid == 0:
        code = FAILED
        try:
            given = work()
            code = given if isinstance(given, int) else DONE
        except SaveError:
            pass
        except BaseException:
            traceback.print_exc()
        finally:
            os._exit(code)
    _, status = os.waitpid(pid, 0)
    return os.waitstatus_to_exitcode(status)


def ends(work: Callable[[], Any], happens: Callable[[], Any]) -> Iterator[int]:
    """Do something again and again, until it goes through: each time it is hit a step later."""
    for at in range(1, MOST_STEPS):

        def hit(at: int = at) -> Any:
            with steps(at, happens):
                return work()

        code = child(hit)
        yield code
        if code == DONE:
            return
    raise AssertionError(f"it does not go through in {MOST_STEPS} steps")
