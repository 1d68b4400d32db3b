"""Garbage of looks at pages: looked for now and then, since all windows wait meanwhile.

Streamlit would look through all that there is after every look at a page: with twenty windows
that took a third of the processor's time. Python by itself looks too seldom: it counts things,
and what a page leaves behind is few and large.
"""

import gc
import threading
import time

EVERY_S = 15.0


class Sweeping:
    """Throwing garbage away, not too often.

    Parameters
    ----------
    every_s
        So long it is left alone, however many look at pages [s]
    """

    def __init__(self, every_s: float) -> None:
        self._every_s = every_s
        self._last = time.monotonic()
        self._one = threading.Lock()

    def now_and_then(self) -> bool:
        """Throw garbage away, unless that was done a little while ago; say whether it was done."""
        with self._one:
            due = time.monotonic() - self._last >= self._every_s
            if due:
                self._last = time.monotonic()
        if due:
            gc.collect()
        return due


SWEEPING = Sweeping(EVERY_S)
