"""Saving and recording hit at every step they take on the disk: all is whole, nothing is lost."""

import os
import random
import shutil
import signal
import subprocess
import tempfile
from collections.abc import Callable, Iterator
from functools import partial
from itertools import count
from pathlib import Path

import pytest
from typer.testing import CliRunner

from app.desk import Desk
from optimizer.cli import app as command
from optimizer.errors import SaveError
from optimizer.scenario.appending import append, append_all, put_aside
from optimizer.scenario.logbook import read_log
from optimizer.scenario.measured import write_all_measured, write_measured
from optimizer.scenario.passages import plain_of
from optimizer.scenario.saving import save_text, write_whole
from tests.safety.crashing import DONE, FAILED, child, die, ends, full, grown_to, read_only

KILLED = -signal.SIGKILL
OLDER, OLD, NEW = ("".join(f"{word} {n}\n" for n in range(900)) for word in ("a", "bb", "ccc"))
PEOPLE = {"at": "day 1 07:00", "kind": "people", "adults": 2, "children": 1}
STICKS = {"at": "day 1 07:30", "kind": "fuel", "fuel": "sticks", "left": "2.8 kg"}
pytestmark = [
    pytest.mark.skipif(not hasattr(os, "fork"), reason="children are made in another way there"),
    pytest.mark.filterwarnings("ignore:.*fork:DeprecationWarning"),
]


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Give a file with a version before it."""
    made = tmp_path / "shed.yaml"
    for text in (OLDER, OLD):
        save_text(made, text)
    return made


@pytest.fixture
def log(tmp_path: Path) -> Path:
    """Give a log with two entries."""
    made = tmp_path / "shed.log.jsonl"
    append_all(made, [PEOPLE, STICKS])
    return made


def before(path: Path) -> str:
    return path.with_name(f"{path.name}~").read_text(encoding="utf-8")


def sizes(most: int) -> list[int]:
    """Give places in a file: its ends, and some between."""
    chance = random.Random(8)
    return [0, 1, most - 1, *(chance.randrange(most) for _ in range(9))]


def test_a_save_killed_at_any_step_leaves_whole_versions(path):
    codes = []
    for code in ends(lambda: save_text(path, NEW), die):
        codes.append(code)
        assert path.read_text(encoding="utf-8") in {OLD, NEW}
        assert before(path) in {OLDER, OLD}
        assert before(path) == OLD or path.read_text(encoding="utf-8") == OLD
        for each, text in ((path, OLD), (path.with_name("shed.yaml~"), OLDER)):
            each.write_text(text, encoding="utf-8")
    assert set(codes) == {KILLED, DONE}
    assert len(codes) > 10  # so many steps were hit
    save_text(path, NEW)
    assert not list(path.parent.glob(".*.part"))  # what was left lying about is gone


@pytest.mark.parametrize("happens", [full, read_only])
def test_a_save_that_fails_at_any_step_loses_nothing(path, happens):
    codes = []
    for code in ends(lambda: save_text(path, NEW), happens):
        codes.append(code)
        if code == FAILED:
            assert path.read_text(encoding="utf-8") == OLD
            assert before(path) in {OLDER, OLD}
            assert not list(path.parent.glob(".*.part"))
    assert codes.count(FAILED) >= 5
    assert (path.read_text(encoding="utf-8"), before(path)) == (NEW, OLD)


@pytest.mark.parametrize("kills", [True, False])
def test_a_save_cut_at_any_byte(path, kills):
    for size in sizes(len(NEW)):
        code = child(partial(cut_save, path, size, kills=kills))
        assert code == (-signal.SIGXFSZ if kills else FAILED), size
        assert (path.read_text(encoding="utf-8"), before(path)) == (OLD, OLDER)
        assert kills or not list(path.parent.glob(".*.part"))
    save_text(path, NEW)
    assert (path.read_text(encoding="utf-8"), before(path)) == (NEW, OLD)


def cut_save(path: Path, size: int, *, kills: bool) -> None:
    grown_to(size, kills=kills)
    save_text(path, NEW)


def test_an_answer_hit_at_any_step_is_whole(tmp_path):
    path = tmp_path / "result.json"
    for happens in (die, full):
        path.write_text(OLD, encoding="utf-8")
        for _ in ends(lambda: write_whole(path, NEW), happens):
            assert path.read_text(encoding="utf-8") in {OLD, NEW}
        assert path.read_text(encoding="utf-8") == NEW


def test_an_answer_goes_through_a_link_and_into_a_pipe(tmp_path):
    (tmp_path / "real.json").write_text(OLD, encoding="utf-8")
    link = tmp_path / "link.json"
    link.symlink_to(tmp_path / "real.json")
    write_whole(link, NEW)
    assert link.is_symlink()
    assert (tmp_path / "real.json").read_text(encoding="utf-8") == NEW
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    reading = os.open(pipe, os.O_RDONLY | os.O_NONBLOCK)
    write_whole(pipe, "told")
    assert os.read(reading, 100) == b"told"
    os.close(reading)
    assert pipe.is_fifo()  # a device such as /dev/null is not replaced either


def test_entries_killed_at_any_step_are_whole(log):
    at_first = log.read_bytes()
    for _ in ends(lambda: append_all(log, [PEOPLE] * 3), die):
        assert len(read_log(log).entries) in {2, 5}
        assert log.read_bytes().startswith(at_first)
        assert append(log, STICKS) == len(read_log(log).entries)
        log.write_bytes(at_first)


@pytest.mark.parametrize("kills", [True, False])
def test_entries_cut_at_any_byte(log, kills):
    at_first = log.read_bytes()
    whole = append_size(log)
    for size in sizes(whole - len(at_first)):
        code = child(partial(cut_append, log, len(at_first) + size, kills=kills))
        assert code == (-signal.SIGXFSZ if kills else FAILED), size
        if not kills:
            assert log.read_bytes() == at_first  # all that was asked, or nothing
        assert 2 <= len(read_log(log).entries) <= 5  # one that lacks only its end is whole
        append(log, STICKS)
        assert read_log(log).entries[-1].kind == "fuel"
        log.write_bytes(at_first)


def append_size(log: Path) -> int:
    """Give how long the log is with three more entries; it is then as it was."""
    at_first = log.read_bytes()
    append_all(log, [PEOPLE] * 3)
    size = log.stat().st_size
    log.write_bytes(at_first)
    return size


def cut_append(log: Path, size: int, *, kills: bool) -> None:
    grown_to(size, kills=kills)
    append_all(log, [PEOPLE] * 3)


def test_entries_that_fail_at_any_step_are_none(log):
    at_first = log.read_bytes()
    failed = 0
    for code in ends(lambda: append_all(log, [PEOPLE] * 3), full):
        if code == FAILED:
            failed += 1
            assert log.read_bytes() == at_first
    assert failed >= 3
    assert len(read_log(log).entries) == 5


def test_a_log_put_aside_at_any_step_is_somewhere(log):
    for _ in ends(lambda: put_aside(log), die):
        found = [read_log(each) for each in log.parent.glob("*.jsonl")]
        assert [len(each.entries) for each in found] == [2]
    assert not log.exists()


def test_two_that_put_a_log_aside_at_once_lose_none(tmp_path):
    log = tmp_path / "shed.log.jsonl"

    def work() -> None:
        for _ in range(40):
            append(log, PEOPLE)
            put_aside(log)

    assert at_once(work, work) == [DONE, DONE]
    found = [read_log(each) for each in tmp_path.glob("*.jsonl")]
    assert sum(len(each.entries) for each in found) == 80


def at_once(*works: Callable[[], None]) -> list[int]:
    """Do things at the same time, each in a child."""
    pids = []
    for work in works:
        pid = os.fork()
        if pid == 0:
            os._exit(child(work))
        pids.append(pid)
    return [os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1]) for pid in pids]


def test_numbers_that_two_write_at_once_are_both_there(tmp_path, small):
    path = tmp_path / "two.yaml"
    path.write_text(small, encoding="utf-8")

    def work(stove: str, key: str) -> None:
        for n in range(1, 9):
            write_measured(path, "stoves", stove, {key: f"{2 + n / 10} kW"})
            assert plain_of(path.read_text(encoding="utf-8"))["stoves"][stove][key].startswith("2.")

    one, other = (partial(work, stove, "power") for stove in ("stick_stove", "gas_burner"))
    assert at_once(one, other) == [DONE, DONE]
    stoves = plain_of(path.read_text(encoding="utf-8"))["stoves"]
    assert {name: each["power"] for name, each in stoves.items()} == {
        "stick_stove": "2.8 kW", "gas_burner": "2.8 kW",
    }  # fmt: skip


def test_numbers_of_several_stoves_are_written_together_or_not(tmp_path, small):
    path = tmp_path / "two.yaml"
    path.write_text(small, encoding="utf-8")
    found = {name: {"power": "2.5 kW"} for name in ("stick_stove", "gas_burner")}
    for _ in ends(lambda: write_all_measured(path, "stoves", found), die):
        assert path.read_text(encoding="utf-8").count("2.5 kW") in {0, 2}
        path.write_text(small, encoding="utf-8")
    assert before(path) == small


def test_the_work_of_a_window_hit_at_any_step(tmp_path, small):
    path = tmp_path / "morning.yaml"
    path.write_text(small, encoding="utf-8")
    other = small.replace("3 kg", "4 kg")
    for happens in (die, full):
        desk = Desk.open(path)
        for _ in ends(partial(kept, desk, other), happens):
            assert path.read_text(encoding="utf-8") in {small, other}
        assert path.read_text(encoding="utf-8") == other
        path.write_text(small, encoding="utf-8")


def kept(desk: Desk, text: str) -> int:
    """Make a change in a window; say whether it is told as not saved."""
    desk.apply(text, "stock of sticks")
    on_disk = desk.target.read_text(encoding="utf-8")
    assert (desk.keeping == "saved") == (on_disk == text)
    assert desk.text == text  # what was typed is not lost, saved or not
    return DONE if desk.keeping == "saved" else FAILED


# exit codes of the command line


@pytest.fixture
def kitchen(small: str, boiling: str) -> Iterator[Path]:
    """Give a folder that another user may look into, with a scenario and a log."""
    folder = Path(tempfile.mkdtemp())
    folder.chmod(0o755)
    (folder / "morning.yaml").write_text(small, encoding="utf-8")
    (folder / "stove.yaml").write_text(boiling, encoding="utf-8")
    append(folder / "morning.log.jsonl", PEOPLE)
    (folder / "results").mkdir()
    yield folder
    folder.chmod(0o755)
    shutil.rmtree(folder)


def words(folder: Path) -> dict[str, list[str]]:
    """Give commands that write, by what they write."""
    file, results = folder / "morning.yaml", folder / "results"
    stove = folder / "stove.yaml"
    return {
        "log": ["record", str(file), "--at", "day 1 07:40", "--left", "sticks=2.7 kg"],
        "scenario": ["test-stove", str(stove), "--into", str(file), "--as", "gas_burner"],
        "json": ["plan", str(file), "--json", str(results / "plan.json")],
        "sheet": ["plan", str(file), "--sheet", str(results / "sheet.html")],
        "followed": ["plan", str(file), "--follow"],
    }


LOCKED = {"log", "scenario", "followed"}


def run(given: list[str]) -> int:
    """Run a command; give its exit code, 99 for a traceback."""
    found = CliRunner().invoke(command, given)
    unforeseen = found.exception is not None and not isinstance(found.exception, SystemExit)
    return 99 if unforeseen else found.exit_code


def files(folder: Path) -> dict[str, bytes]:
    return {
        str(each.relative_to(folder)): each.read_bytes()
        for each in folder.rglob("*")
        if each.is_file() and not each.name.endswith(".lock")
    }


@pytest.mark.parametrize("what", ["log", "scenario", "json", "sheet", "followed"])
def test_a_full_disk_is_exit_4_and_nothing_is_lost(kitchen, what):
    given = words(kitchen)[what]
    at_first = files(kitchen)

    def work() -> int:
        grown_to(0, kills=False)
        return run(given)

    assert child(work) == 4
    assert files(kitchen) == at_first
    assert run(given) == 0
    assert files(kitchen) != at_first


@pytest.mark.parametrize("what", ["log", "scenario", "json", "sheet", "followed"])
def test_a_folder_that_may_only_be_read_is_exit_4(kitchen, what):
    given = words(kitchen)[what]
    assert run([given[0], "--help"]) == 0
    assert run(["plan", given[1] if what != "scenario" else given[3]]) == 0  # all is loaded
    at_first = files(kitchen)
    for folder in (kitchen, kitchen / "results"):
        folder.chmod(0o555)

    def work() -> int:
        if os.geteuid() == 0:
            os.setuid(65534)  # root may write anywhere
        return run(given)

    assert child(work) == 4
    assert files(kitchen) == at_first


def test_a_disk_that_fails_at_any_step_of_record_is_exit_4_or_told(kitchen):
    given = words(kitchen)["log"]
    at_first = files(kitchen)
    codes = []
    for code in ends(lambda: run(given), full):
        codes.append(code)
        if code:
            assert files(kitchen) == at_first
    assert set(codes) == {0, 4}


def test_a_disk_that_is_really_full(small):
    """Needs a system that lets this process mount one."""
    folder = Path(tempfile.mkdtemp())
    mount = ["mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", str(folder)]
    if (
        not shutil.which("mount")
        or subprocess.run(mount, capture_output=True, check=False).returncode
    ):
        folder.rmdir()
        pytest.skip("no small disk can be mounted here")
    try:
        path = folder / "shed.yaml"
        save_text(path, small)
        for n in count():
            try:
                (folder / f"junk{n}").write_bytes(b"x" * 4096)
            except OSError:
                break
        at_first = path.read_bytes()
        with pytest.raises(SaveError, match="No space left"):
            save_text(path, small + "#" * 9000)
        assert path.read_bytes() == at_first
        assert not list(folder.glob(".*.part"))
        assert run(["record", str(path), "--at", "day 1 07:40", "--left", "sticks=2.7 kg"]) == 4
        (folder / "junk0").unlink()
        (folder / "junk1").unlink()
        save_text(path, small)
        assert path.read_bytes() == at_first
    finally:
        subprocess.run(["umount", str(folder)], check=True)
        folder.rmdir()
