"""A study beside the page: whatever becomes of it, nobody waits for ever, and others go on."""

import threading

import pytest

from app.beside import Beside
from app.turns import Turns
from optimizer.errors import LimitError


class Study(Beside):
    """A study that ends as it is told to."""

    def __init__(self, turn: Turns, error: Exception | None) -> None:
        super().__init__(turn)
        self._error = error
        self.begin()

    def study(self) -> None:
        """End."""
        if self._error is not None:
            raise self._error


@pytest.mark.filterwarnings("ignore::pytest.PytestUnhandledThreadExceptionWarning")
@pytest.mark.parametrize(
    ("error", "told"),
    [
        (None, ""),
        (LimitError("time is over"), "time is over"),
        (RuntimeError("odd"), "fault of the program: odd"),
        (ZeroDivisionError(), "fault of the program: it ended without an answer"),
    ],
    ids=["well", "late", "known fault", "unknown fault"],
)
def test_it_ends_and_says_why(error, told):
    turns, before = Turns(1), set(threading.enumerate())
    study = Study(turns, error)
    for thread in {*threading.enumerate()} - before:
        thread.join(60)  # its error belongs to this test
    assert study.made.is_set()
    assert told in study.trouble
    assert bool(study.trouble) == bool(told)
    turns.acquire()  # its place is free
