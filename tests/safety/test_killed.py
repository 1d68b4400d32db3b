"""Killed with signal 9 at random moments, with everything going on at once in one folder.

One program saves the scenario, one is a window of the front end that edits and plans it, one writes
into the log, one plans and writes its answers. All four are killed. Then every file is whole, the
version before is there, and everybody can go on.
"""

import json
import os
import random
import signal
import sys
import threading
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from typer.testing import CliRunner

from app import searching
from app.cached import GAP
from app.desk import Desk
from app.searching import Search
from app.turns import Turns
from optimizer.cli import app as command
from optimizer.scenario.appending import append
from optimizer.scenario.logbook import read_log
from optimizer.scenario.reading import parse
from optimizer.scenario.saving import save_text

PEOPLE = {"at": "day 1 07:00", "kind": "people", "adults": 2, "children": 1}
LONG = 400  # lines of comment, so that a version takes a while to write
pytestmark = [
    pytest.mark.skipif(not hasattr(os, "fork"), reason="children are made in another way there"),
    pytest.mark.filterwarnings("ignore:.*fork:DeprecationWarning"),
]


@pytest.fixture(autouse=True)
def _nothing_else_goes_on() -> None:
    """End searches of tests before: a child would wait for what their threads hold for ever."""
    searching._end()
    for thread in threading.enumerate():
        if thread.name.endswith("(_run)"):  # of app/searching.py and app/beside.py
            thread.join(60)
            assert not thread.is_alive(), thread


def version(small: str, name: str, number: int) -> str:
    """Give a scenario that says in its first and last line which one it is."""
    mark = f"# {name} {number}\n"
    stock = f"stock: {3 + number % 50 / 100:.2f} kg"
    return mark + small.replace("stock: 3 kg", stock) + mark * LONG


def is_whole(text: str) -> bool:
    lines = text.splitlines()
    return bool(parse(text).items) and lines.count(lines[0]) == LONG + 1 and lines[-1] == lines[0]


class Worker:
    """A process that does something again and again, and tells each time that it is done."""

    def __init__(self, doing: Callable[[int], object]) -> None:
        self.told, tell = os.pipe()
        self.pid = os.fork()
        if self.pid == 0:
            with open(os.devnull, "w") as nowhere:  # noqa: PTH123  (a device)
                os.dup2(nowhere.fileno(), sys.stderr.fileno())
            number = 0
            while True:
                number += 1
                doing(number)
                os.write(tell, b".")
        os.close(tell)

    def begun(self) -> None:
        """Wait until it has done it once."""
        assert os.read(self.told, 1) == b"."

    def killed(self) -> int:
        """Kill it; give how often it had done it."""
        os.kill(self.pid, signal.SIGKILL)
        os.waitpid(self.pid, 0)
        done = 1
        while said := os.read(self.told, 1 << 16):
            done += len(said)
        os.close(self.told)
        return done


def edited(file: Path, small: str, number: int) -> None:
    """Edit and plan in a window of the front end, as its pages do."""
    desk = Desk.open(file)
    desk.apply(version(small, "window", number), "stock of sticks")
    search = Search(desk.text, GAP, 30.0, Turns(2))
    search.wait(0.05 if number > 1 else 60, whole=False)
    desk.undo()
    search.drop()


def rounds(folder: Path, small: str, count: int, seed: int) -> None:
    chance = random.Random(seed)
    file, log, results = folder / "shed.yaml", folder / "shed.log.jsonl", folder / "results"
    results.mkdir()
    for n in (1, 2):
        save_text(file, version(small, "first", n))
    assert CliRunner().invoke(command, ["plan", str(file)]).exit_code == 0
    words = ["plan", str(file), "--json", str(results / "plan.json"), "--sheet",
             str(results / "sheet.html")]  # fmt: skip
    for _ in range(count):
        written = len(read_log(log).entries)
        workers = [
            Worker(lambda n: save_text(file, version(small, "saver", n))),
            Worker(lambda n: edited(file, small, n)),
            Worker(lambda _: append(log, {**PEOPLE, "note": "n" * 150})),
            Worker(lambda _: CliRunner().invoke(command, words)),
        ]
        for worker in workers:
            worker.begun()
        time.sleep(chance.uniform(0, 0.05))
        done = [worker.killed() for worker in workers]
        for each in (file, file.with_name("shed.yaml~")):
            assert is_whole(each.read_text(encoding="utf-8")), each
        entries = read_log(log).entries
        assert [entry.n for entry in entries] == list(range(1, len(entries) + 1))
        assert len(entries) - written in {done[2], done[2] + 1}  # written, and not yet told
        assert json.loads((results / "plan.json").read_text(encoding="utf-8"))["steps"]
        assert (results / "sheet.html").read_text(encoding="utf-8").endswith("</html>\n")
    save_text(file, version(small, "last", 1))
    assert append(log, PEOPLE) == len(read_log(log).entries)
    assert not list(folder.glob(".shed*.part"))


def test_a_few_times(tmp_path, small):
    rounds(tmp_path, small, 2, seed=1)


@pytest.mark.nightly
@pytest.mark.parametrize("seed", range(10))
def test_hundreds_of_times(tmp_path, small, seed):
    rounds(tmp_path, small, 40, seed=100 + seed)
