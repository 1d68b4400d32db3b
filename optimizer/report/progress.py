"""How a long search is getting on, on a terminal's error stream."""

import signal
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from types import FrameType, TracebackType
from typing import TYPE_CHECKING, Self

if TYPE_CHECKING:
    from rich.status import Status

QUIET_S = 1.0  # a search this short is not worth a word


def progress_line(seconds: float, best: float | None, bound: float | None) -> str:
    """Say in one line how far a search has come.

    Parameters
    ----------
    seconds
        Time spent [s].
    best
        Value of the best plan so far.
    bound
        Value that no plan can beat.

    Returns
    -------
    str
        The line.
    """
    if best is None:
        return f"planning, {seconds:.0f} s: no plan yet"
    text = f"planning, {seconds:.0f} s: best so far {best:.4g}"
    if bound is None or best <= 0:
        return text
    gap = max(0.0, (best - bound) / best)
    return f"{text}, none below {bound:.4g}, gap {100 * gap:.1f} %"


class Progress:
    """Shows a search that takes longer than a second, and passes on that it should stop."""

    def __init__(self, *, shown: bool | None = None) -> None:
        self.stop = False
        self._shown = sys.stderr.isatty() if shown is None else shown
        self._status: Status | None = None
        self._began = time.monotonic()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        if self._status is not None:
            self._status.stop()

    def __call__(self, seconds: float, best: float | None, bound: float | None) -> bool:
        """Take note of how far the search has come; False asks it to stop.

        Parameters
        ----------
        seconds
            Time spent [s].
        best
            Value of the best plan so far.
        bound
            Value that no plan can beat.

        Returns
        -------
        bool
            Whether to go on.
        """
        if self._shown and seconds >= QUIET_S:
            self._show(progress_line(seconds, best, bound))
        return not self.stop

    def tell(self, doing: str) -> bool:
        """Take note of what a long study looks at; False asks it to stop.

        Parameters
        ----------
        doing
            What it looks at, in a few words.

        Returns
        -------
        bool
            Whether to go on.
        """
        seconds = time.monotonic() - self._began
        if self._shown and seconds >= QUIET_S:
            self._show(f"{seconds:.0f} s: {doing}")
        return not self.stop

    def _show(self, text: str) -> None:
        """Show a line in place of the last one."""
        if self._status is None:
            from rich.console import Console  # a short search never needs it

            self._status = Console(stderr=True).status(text)
            self._status.start()
        self._status.update(text)


@contextmanager
def interrupts(progress: Progress) -> Iterator[None]:
    """Let Ctrl-C stop the search once, and the program when it comes again.

    Parameters
    ----------
    progress
        What the search asks whether to go on.
    """

    def stop(number: int, frame: FrameType | None) -> None:
        progress.stop = True
        signal.signal(signal.SIGINT, signal.SIG_DFL)

    before = signal.signal(signal.SIGINT, stop)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, before)
