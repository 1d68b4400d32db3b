"""A long search shows how it gets on, and can be stopped."""

import os
import signal

import pytest

from optimizer.report.progress import Progress, interrupts, progress_line


@pytest.mark.parametrize(
    ("seconds", "best", "bound", "text"),
    [
        (2.2, None, 1.0, "planning, 2 s: no plan yet"),
        (3.0, 9.142, None, "planning, 3 s: best so far 9.142"),
        (3.0, 0.0, 0.0, "planning, 3 s: best so far 0"),
        (12.0, 10.0, 9.75, "planning, 12 s: best so far 10, none below 9.75, gap 2.5 %"),
    ],
)
def test_line(seconds: float, best: float | None, bound: float | None, text: str) -> None:
    assert progress_line(seconds, best, bound) == text


def test_a_short_search_is_not_worth_a_word(capsys: pytest.CaptureFixture[str]) -> None:
    with Progress(shown=True) as progress:
        assert progress(0.9, 1.0, 0.5)
    assert capsys.readouterr().err == ""


def test_a_long_search_is_shown(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("FORCE_COLOR", "1")  # as on a terminal
    with Progress(shown=True) as progress:
        assert progress(1.5, 10.0, 9.75)
    told = capsys.readouterr()
    assert "best so far 10" in told.err
    assert told.out == ""


def test_nothing_is_shown_where_there_is_no_terminal(capsys: pytest.CaptureFixture[str]) -> None:
    with Progress() as progress:
        assert progress(5.0, 10.0, 9.75)
    assert capsys.readouterr().err == ""


def test_interrupted_once_the_search_stops_twice_the_program() -> None:
    before = signal.getsignal(signal.SIGINT)
    progress = Progress(shown=False)
    with interrupts(progress):
        assert progress(1.0, 1.0, 0.5)
        os.kill(os.getpid(), signal.SIGINT)
        assert progress(1.1, 1.0, 0.5) is False
        assert signal.getsignal(signal.SIGINT) is signal.SIG_DFL
    assert signal.getsignal(signal.SIGINT) is before
