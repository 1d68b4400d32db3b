"""A study beside the page: whatever becomes of it, nobody waits for ever, and others go on."""

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
    turns = Turns(1)
    study = Study(turns, error)
    assert study.made.wait(60)
    assert told in study.trouble
    assert bool(study.trouble) == bool(told)
    turns.acquire()  # its place is free
