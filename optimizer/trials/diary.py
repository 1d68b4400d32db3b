"""An entry on its way into the log: checked as it would be read, then written."""

from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import Any

from ruamel.yaml.comments import CommentedMap

from optimizer.errors import Problem
from optimizer.model.household import Scenario
from optimizer.scenario.appending import append_all
from optimizer.scenario.logbook import Line, entry_of, read_log
from optimizer.trials.log_check import check_entry

HERE = "this entry"


def problems_of(
    path: Path, entries: Iterable[Mapping[str, Any]], scenario: Scenario
) -> list[Problem]:
    """Say everything that is wrong with entries that are to be written.

    Parameters
    ----------
    path
        The log.
    entries
        Keys and values of each.
    scenario
        The household.

    Raises
    ------
    InputError
        If the log itself is wrong.
    """
    log = read_log(path)
    known = {entry.n for entry in log.entries}
    found: list[Problem] = []
    for said in entries:
        line = line_of({"n": log.next_number, **said})
        entry = entry_of(line)
        if entry is not None:
            check_entry(entry, line, scenario)
            if entry.instead_of is not None and entry.instead_of not in known:
                there = f"there are 1 to {max(known)}" if known else "the log is empty"
                line.problem(
                    ("instead_of",),
                    "unknown_entry",
                    f"there is no entry {entry.instead_of}; {there}",
                )
        found += [each for each in line.problems if each not in found]
    return found


def line_of(said: Mapping[str, Any]) -> Line:
    """Give the line that an entry would be.

    Parameters
    ----------
    said
        Keys and values; what is None is left out.
    """
    plain = {key: value for key, value in said.items() if value is not None}
    return Line(HERE, CommentedMap(plain), plain)


def write(path: Path, said: Mapping[str, Any]) -> int:
    """Add an entry to the log, and give its number.

    Parameters
    ----------
    path
        The log.
    said
        Keys and values; what is None is left out.

    Raises
    ------
    InputError
        If the log is wrong.
    SaveError
        If it cannot be written.
    """
    return write_all(path, [said])[0]


def write_all(path: Path, entries: Iterable[Mapping[str, Any]]) -> list[int]:
    """Add entries to the log, all of them or none, and give their numbers.

    Parameters
    ----------
    path
        The log.
    entries
        Keys and values of each; what is None is left out.

    Raises
    ------
    InputError
        If the log is wrong.
    SaveError
        If they cannot be written.
    """
    return append_all(path, [line_of(said).plain for said in entries])
