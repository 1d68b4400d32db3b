"""The log: read back as written, torn at any byte, killed at any moment, written by two."""

import json
import os
import random
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from optimizer.errors import InputError, SaveError
from optimizer.scenario.appending import append, put_aside
from optimizer.scenario.clock import moment_written, read_moment
from optimizer.scenario.log_entries import Came, Read, Sticks, Weighed
from optimizer.scenario.logbook import (
    log_path,
    parse_log,
    read_log,
    seal,
    sealed,
)

FUEL = {"at": "day 1 19:00", "kind": "fuel", "fuel": "sticks", "left": "8.4 kg", "note": "süß, 5 °"}
PEOPLE = {"at": "day 2 07:00", "kind": "people", "adults": 3, "children": 1}
WRITER = """
import sys
from pathlib import Path
from optimizer.scenario.appending import append
path, word, times = Path(sys.argv[1]), sys.argv[2], int(sys.argv[3])
for number in range(times):
    said = {"at": "day 1 10:00", "kind": "people", "adults": 1, "children": number}
    print(append(path, {**said, "note": word * 150}), flush=True)
"""


@pytest.fixture
def log(tmp_path: Path) -> Path:
    return tmp_path / "outage.log.jsonl"


def test_the_log_stands_beside_its_scenario(tmp_path):
    (tmp_path / "outage.yaml").touch()
    (tmp_path / "link.yaml").symlink_to(tmp_path / "outage.yaml")
    assert log_path(tmp_path / "outage.yaml") == tmp_path / "outage.log.jsonl"
    assert log_path(tmp_path / "link.yaml") == tmp_path / "outage.log.jsonl"
    assert log_path(tmp_path / "plain") == tmp_path / "plain.log.jsonl"


@given(st.integers(0, 366 * 1440 - 1))
def test_a_moment_is_written_and_read_back(minute):
    assert read_moment(moment_written(minute)) == minute


words = st.text(st.characters(codec="utf-8", exclude_categories=["Cs"]), max_size=60)
entries = st.one_of(
    st.fixed_dictionaries(
        {
            "at": st.integers(0, 99999).map(moment_written),
            "kind": st.just("fuel"),
            "fuel": words.filter(bool),
            "left": st.integers(0, 10**6).map(lambda grams: f"{grams} g"),
            "note": words,
        }
    ),
    st.fixed_dictionaries(
        {
            "at": st.integers(0, 99999).map(moment_written),
            "kind": st.just("sticks"),
            "wet": st.booleans(),
        }
    ),
)


@given(st.lists(entries, max_size=6))
def test_what_is_written_is_read_back(said):
    numbered = [{"n": n, **each} for n, each in enumerate(said, 1)]
    log = parse_log(b"".join(seal(each) + b"\n" for each in numbered))
    assert [line.plain for line in log.lines] == numbered
    assert [entry.at for entry in log.entries] == [read_moment(each["at"]) for each in said]
    assert log.lost == ()


@given(st.binary(max_size=300))
def test_no_bytes_make_a_traceback(content):
    told = []
    try:
        found = parse_log(content)
    except InputError as error:
        told = [problem.line for problem in error.problems]
    else:
        assert found.entries == ()  # no chance line has its own sum
    assert all(told)


def test_entries_are_numbered_and_typed(log):
    assert [append(log, FUEL), append(log, PEOPLE)] == [1, 2]
    weighed, came = read_log(log).entries
    assert isinstance(weighed, Weighed)
    assert isinstance(came, Came)
    assert (weighed.at, weighed.left.value, weighed.left.grain) == (1140, 8.4, pytest.approx(0.1))
    assert weighed.note == "süß, 5 °"
    first = json.loads(log.read_text(encoding="utf-8").splitlines()[0])
    assert {key: first[key] for key in FUEL} == FUEL  # a person can read it


@pytest.mark.parametrize(
    ("text", "kg", "grain"),
    [
        ("8.4 kg", 8.4, 0.1),
        ("8 kg", 8.0, 1.0),
        ("312 g", 0.312, 0.001),
        ("2 x 465 g", 0.93, 0.0),
        ("1 x 465 g + 312 g", 0.777, 0.001),
    ],
)
def test_full_and_part_packages(log, text, kg, grain):
    append(log, {**FUEL, "left": text})
    (entry,) = read_log(log).entries
    assert isinstance(entry, Weighed)
    assert entry.left.value == pytest.approx(kg)
    assert entry.left.grain == pytest.approx(grain)


def test_cut_at_every_byte_only_the_line_being_written_is_lost(log):
    for said in (FUEL, PEOPLE, FUEL):
        append(log, said)
    whole = log.read_bytes()
    ends = [place for place, byte in enumerate(whole) if byte == ord("\n")]
    for size in range(len(whole) + 1):
        log.write_bytes(whole[:size])
        kept = sum(end <= size for end in ends)  # a line that lacks only its end is whole
        torn = size > 0 and size - 1 not in ends and size not in ends
        found = read_log(log)
        assert len(found.entries) == kept, size
        assert bool(found.lost) == torn, size
        assert append(log, PEOPLE) == kept + 1
        again = read_log(log)
        assert len(again.entries) == kept + 1, size
        assert again.entries[-1].kind == "people"
        assert again.entries[:kept] == found.entries
        assert bool(again.lost) == torn


def test_torn_twice_in_one_place(log):
    append(log, FUEL)
    whole = log.read_bytes()
    log.write_bytes(whole[:40])
    append(log, PEOPLE)
    for size in range(40, len(log.read_bytes())):
        log.write_bytes((whole[:40] + b" #lost\n" + whole)[:size])
        assert append(log, PEOPLE) >= 1
        assert read_log(log).entries[-1].kind == "people"


def test_killed_while_it_writes(log):
    chance = random.Random(7)
    told = 0
    for _ in range(12):
        writer = subprocess.Popen(
            [sys.executable, "-c", WRITER, str(log), "ä", "100000"],
            stdout=subprocess.PIPE,
            text=True,
        )
        assert writer.stdout is not None
        told = int(writer.stdout.readline())
        time.sleep(chance.uniform(0, 0.05))
        os.kill(writer.pid, signal.SIGKILL)
        rest = writer.stdout.read().split("\n")
        writer.stdout.close()
        writer.wait()
        told = max([told, *(int(line) for line in rest[:-1])])
        found = read_log(log)
        assert [entry.n for entry in found.entries] == list(range(1, len(found.entries) + 1))
        assert len(found.entries) in {told, told + 1}  # written, and not yet told
    assert append(log, FUEL) == len(read_log(log).entries)


def test_two_programs_at_once_do_not_mix_their_lines(log):
    times = 60
    writers = [
        subprocess.Popen(
            [sys.executable, "-c", WRITER, str(log), word, str(times)], stdout=subprocess.PIPE
        )
        for word in "xy"
    ]
    numbers = [int(n) for writer in writers for n in writer.communicate(timeout=120)[0].split()]
    assert sorted(numbers) == list(range(1, 2 * times + 1))
    found = read_log(log)
    assert [entry.n for entry in found.entries] == list(range(1, 2 * times + 1))
    assert {entry.note for entry in found.entries} == {"x" * 150, "y" * 150}
    assert found.lost == ()


def test_a_changed_line_is_told_and_not_taken_for_lost(log):
    append(log, FUEL)
    append(log, PEOPLE)
    log.write_bytes(log.read_bytes().replace(b"8.4 kg", b"9.4 kg"))
    with pytest.raises(InputError) as caught:
        read_log(log)
    (problem,) = caught.value.problems
    assert (problem.line, problem.code) == (1, "changed")
    with pytest.raises(InputError):
        append(log, PEOPLE)  # nothing is added to what is wrong


def test_every_problem_is_told_at_once_with_line_key_expected_and_given(log):
    wrong = [
        {"n": 1, **FUEL, "left": "8.4"},
        {"n": 2, **FUEL, "at": "noon"},
        {"n": 3, **PEOPLE, "adults": "three"},
        {"n": 4, "at": "day 1 10:00", "kind": "fule", "fuel": "sticks"},
        {"n": 5, **FUEL, "leftt": "8.4 kg"},
        {"n": 6, **PEOPLE, "instead_of": 99},
        {"n": 6, **PEOPLE},
        {"n": 7, "at": "day 1 10:00", "kind": "temperature", "read": "400 degC", "when": "move"},
    ]
    log.write_bytes(b"".join(seal(each) + b"\n" for each in wrong))
    with pytest.raises(InputError) as caught:
        read_log(log)
    told = {(p.line, p.key): p.message for p in caught.value.problems}
    assert all(problem.file == str(log) for problem in caught.value.problems)
    assert set(told) == {
        (1, "left"), (2, "at"), (3, "adults"), (4, "kind"), (5, "leftt"), (6, "instead_of"),
        (7, "n"), (8, "read"),
    }  # fmt: skip
    assert "has no unit" in told[1, "left"]
    assert "'noon'" in told[2, "at"]
    assert "given 'three'" in told[3, "adults"]
    assert "did you mean 'fuel'" in told[4, "kind"]
    assert "did you mean 'left'" in told[5, "leftt"]
    assert "99" in told[6, "instead_of"]
    assert "130" in told[8, "read"]


def test_a_correction_stands_for_what_it_corrects(log):
    append(log, FUEL)
    append(log, PEOPLE)
    append(log, {**FUEL, "left": "8.1 kg", "instead_of": 1})
    append(log, {"at": "day 2 08:00", "kind": "withdrawn", "instead_of": 2})
    found = read_log(log)
    assert [entry.n for entry, _ in found.standing] == [3]
    assert len(found.entries) == 4  # nothing is rewritten


def test_entries_stand_in_the_order_of_their_time(log):
    append(log, PEOPLE)
    append(log, {"at": "day 1 09:00", "kind": "sticks", "wet": True})
    append(log, {"at": "day 1 10:00", "kind": "temperature", "read": "9 degC", "when": "room"})
    kinds = [type(entry) for entry, _ in read_log(log).standing]
    assert kinds == [Sticks, Read, Came]


def test_a_log_that_is_not_there_is_empty(log):
    assert read_log(log).entries == ()


def test_no_log_is_made_where_none_can_be(tmp_path):
    with pytest.raises(SaveError):
        append(tmp_path / "none" / "x.log.jsonl", FUEL)
    (tmp_path / "folder").mkdir()
    with pytest.raises(InputError):
        read_log(tmp_path / "folder")


def test_a_new_log_begins_and_the_old_one_is_kept(log):
    assert put_aside(log) is None
    append(log, FUEL)
    first = put_aside(log)
    append(log, PEOPLE)
    second = put_aside(log)
    assert first is not None
    assert second is not None
    assert [path.name for path in (first, second)] == ["outage.log.1.jsonl", "outage.log.2.jsonl"]
    assert [read_log(path).entries[0].kind for path in (first, second)] == ["fuel", "people"]
    assert append(log, FUEL) == 1


def test_a_seal_is_that_of_its_line():
    line = seal({"a": '}, "sum": "00000000"}'})
    assert sealed(line) == {"a": '}, "sum": "00000000"}'}
    assert sealed(line[:-1]) is None
    assert sealed(line.replace(b"a", b"b")) is None
