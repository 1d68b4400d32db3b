"""What reads files, given any bytes: the scenario, the readings of a water test, the log."""

import json
from collections.abc import Callable

from optimizer.errors import InputError
from optimizer.scenario.logbook import parse_log, seal, sealed
from optimizer.scenario.reading import parse
from optimizer.shelf import data_folder
from optimizer.trials.readings import parse_log as parse_readings

READINGS = "# water: 4.8 L\n# room: 18 degC\n# closed: 18:05\ntime_h, temp_c\n0, 96\n1:30, 91.5\n"
SAID = (
    {"n": 1, "at": "day 1 19:00", "kind": "fuel", "fuel": "sticks", "left": "8.4 kg"},
    {"n": 2, "at": "day 2 07:00", "kind": "people", "adults": 3, "children": 1, "instead_of": 1},
    {"n": 3, "at": "day 2 07:10", "kind": "meal", "day": 2, "meal": "supper", "how": "left out"},
    {"n": 4, "at": "day 2 08:00", "kind": "temperature", "when": "serving", "read": "61 degC"},
)


def read_scenario(data: bytes) -> None:
    """Read bytes as a scenario; anything but a scenario or its faults is a crash."""
    try:
        parse(data.decode("utf-8", "surrogateescape"), "f.yaml")
    except InputError as error:
        _check(error)


def read_readings(data: bytes) -> None:
    """Read bytes as the table of a water test."""
    try:
        problems = parse_readings(data.decode("utf-8", "replace"), "f.csv").problems
    except InputError as error:
        _check(error)
    else:
        assert all(problem.message for problem in problems)


def read_log(data: bytes) -> None:
    """Read bytes as a log, and once more with every line sealed, so that it is looked at."""
    for content in (data, _sealed(data)):
        try:
            log = parse_log(content, "f.jsonl")
        except InputError as error:
            _check(error)
        else:
            assert len(log.standing) <= len(log.entries)


def _check(error: InputError) -> None:
    assert error.problems
    assert all(problem.message for problem in error.problems)


def _sealed(data: bytes) -> bytes:
    """Close each line of a log by its right sum, where it is JSON."""
    lines = []
    for line in data.split(b"\n"):
        try:
            said = json.loads(line)
            lines.append(seal(said if isinstance(said, dict) else {}))
        except (ValueError, RecursionError):  # no JSON, or a number that JSON does not have
            lines.append(line)
    return b"\n".join(lines)


def seeds(target: str) -> list[bytes]:
    """Give files to begin with."""
    if target == "scenario":
        shipped = (data_folder() / "scenarios").glob("*.yaml")
        return [path.read_bytes() for path in sorted(shipped)]
    if target == "readings":
        return [READINGS.encode(), READINGS.replace(",", ";").encode()]
    whole = [seal(said) for said in SAID]
    assert all(sealed(line) for line in whole)
    return [b"\n".join(whole) + b"\n", b"\n".join(line.replace(b'", "sum', b'"') for line in whole)]


TARGETS: dict[str, Callable[[bytes], None]] = {
    "scenario": read_scenario,
    "readings": read_readings,
    "log": read_log,
}
