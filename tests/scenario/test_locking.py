"""Two programs that write the same file never mix what they write, nor lose it."""

import subprocess
import sys
import threading

import pytest

from optimizer.scenario import locking
from optimizer.scenario.locking import alone
from optimizer.scenario.saving import save_text

TIMES = 50
WRITE = f"""
import sys
from pathlib import Path
from optimizer.scenario.saving import save_text
path, word = Path(sys.argv[1]), sys.argv[2]
for number in range({TIMES}):
    save_text(path, f"{{word}} {{number}}\\n" * 2000)
"""
COUNT = f"""
import sys
from pathlib import Path
from optimizer.scenario.locking import alone
from optimizer.scenario.saving import save_text
path = Path(sys.argv[1])
for _ in range({TIMES}):
    with alone(path):
        save_text(path, str(int(path.read_text()) + 1))
"""


def both(code, path):
    words = [[sys.executable, "-c", code, str(path), word] for word in ("one", "other")]
    started = [subprocess.Popen(each, stderr=subprocess.PIPE, text=True) for each in words]
    told = [each.communicate(timeout=120)[1] for each in started]
    assert [each.returncode for each in started] == [0, 0], told


def test_two_programs_write_and_every_version_is_whole(tmp_path):
    path = tmp_path / "two.yaml"
    both(WRITE, path)
    for kept in (path, tmp_path / "two.yaml~"):
        lines = kept.read_text(encoding="utf-8").splitlines()
        assert len(lines) == 2000
        assert len(set(lines)) == 1
    assert path.read_text(encoding="utf-8").split("\n")[0] in {f"one {TIMES - 1}",
                                                               f"other {TIMES - 1}"}  # fmt: skip
    assert not list(tmp_path.glob("*.part"))


def test_what_is_read_and_written_under_one_lock_is_not_lost(tmp_path):
    path = tmp_path / "count.yaml"
    save_text(path, "0")
    both(COUNT, path)
    assert path.read_text() == str(2 * TIMES)
    assert (tmp_path / "count.yaml~").read_text() == str(2 * TIMES - 1)


def test_the_same_may_ask_again_and_another_thread_waits(tmp_path):
    path, order = tmp_path / "two.yaml", []

    def other():
        with alone(path):
            order.append("other")

    waiting = threading.Thread(target=other)
    with alone(path):
        waiting.start()
        with alone(path):
            waiting.join(0.1)
            order.append("one")
    waiting.join(10)
    assert order == ["one", "other"]


def test_a_lock_that_is_not_given_back_is_told(tmp_path, monkeypatch):
    def taken(_handle):
        raise BlockingIOError("taken")

    path = tmp_path / "two.yaml"
    monkeypatch.setattr(locking, "PATIENCE_S", 0.02)
    monkeypatch.setattr(locking, "_try", taken)
    with pytest.raises(OSError, match="taken"), alone(path):
        pytest.fail("it had the file although another has it")
    monkeypatch.undo()
    with alone(path):
        assert not path.exists()
