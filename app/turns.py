"""Whose turn it is: so many search at once, and whoever has no plan yet comes first."""

import heapq
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from itertools import count

Wanted = Callable[[], bool]


def _always() -> bool:
    return True


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

    def acquire(self, *, first: bool = False, wanted: Wanted = _always) -> bool:
        """Wait for a place; say whether there is one, which is so unless nobody wants it any more.

        Parameters
        ----------
        first
            Before all that only work out more of what is there already.
        wanted
            Asked whenever something has changed (``look_again``).
        """
        with self._changed:
            mine, kept = (not first, next(self._came)), 0 if first else self._kept
            heapq.heappush(self._waiting, mine)
            self._changed.wait_for(
                lambda: not wanted() or (self._free > kept and self._waiting[0] == mine)
            )
            self._waiting.remove(mine)
            heapq.heapify(self._waiting)
            has = wanted()
            self._free -= has
            self._changed.notify_all()  # there may be another place
        return has

    def look_again(self) -> None:
        """Let those who wait see whether anybody wants it still."""
        with self._changed:
            self._changed.notify_all()

    def release(self) -> None:
        """Give the place back."""
        with self._changed:
            self._free += 1
            self._changed.notify_all()

    @contextmanager
    def taken(self, *, first: bool = False, wanted: Wanted = _always) -> Iterator[bool]:
        """Have a place, unless nobody wants it any more.

        Parameters
        ----------
        first, wanted
            As of ``acquire``.
        """
        has = self.acquire(first=first, wanted=wanted)
        try:
            yield has
        finally:
            if has:
                self.release()
