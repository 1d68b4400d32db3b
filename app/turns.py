"""Whose turn it is: so many search at once, and whoever has no plan yet comes first."""

import heapq
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import count


class Turns:
    """Some places for many searches; first those that are waited for, then in the order they came.

    Of several places one is kept for those that are waited for: a study may need its place for
    many seconds.

    Parameters
    ----------
    places
        How many search at once.
    """

    def __init__(self, places: int) -> None:
        self._free = places
        self._kept = min(1, places - 1)
        self._changed = threading.Condition()
        self._came = count()
        self._waiting: list[tuple[bool, int]] = []  # a heap; the first one is next

    def acquire(self, *, first: bool = False) -> None:
        """Wait for a place.

        Parameters
        ----------
        first
            Before all that only work out more of what is there already.
        """
        with self._changed:
            mine, kept = (not first, next(self._came)), 0 if first else self._kept
            heapq.heappush(self._waiting, mine)
            self._changed.wait_for(lambda: self._free > kept and self._waiting[0] == mine)
            heapq.heappop(self._waiting)
            self._free -= 1
            self._changed.notify_all()  # there may be another place

    def release(self) -> None:
        """Give the place back."""
        with self._changed:
            self._free += 1
            self._changed.notify_all()

    @contextmanager
    def taken(self, *, first: bool = False) -> Iterator[None]:
        """Have a place.

        Parameters
        ----------
        first
            Before all that only work out more of what is there already.
        """
        self.acquire(first=first)
        try:
            yield
        finally:
            self.release()
