"""What was typed of a test, put together as the text of the file that the command line reads.

So that page and command line read the same things the same way. No Streamlit here.
"""

import json
import re
from collections.abc import Mapping, Sequence
from typing import Any

from optimizer.errors import Problem
from optimizer.report.measures import Units

MISSING = re.compile(r"'(\w+)' is missing")
COLUMNS = {"time": "time", "temp": "water", "room": "room"}
Row = tuple[str, str, str]  # time, water, room


def readings_text(rows: Sequence[Row], units: Units) -> str:
    """Write typed readings as a table; a bare number is in minutes, and in the measures read.

    Parameters
    ----------
    rows
        Time, water and room; an empty row stays an empty line, so that lines keep their numbers.
    units
        The measures.
    """
    sign = "f" if units == "us" else "c"
    lines = [
        ";".join(cell.replace(";", ",") for cell in row) if any(c.strip() for c in row) else ""
        for row in rows
    ]
    return "\n".join([f"time_min;temp_{sign};room_{sign}", *lines]) + "\n"


def row_problems(problems: Sequence[Problem]) -> dict[int, list[str]]:
    """Sort problems of readings that were typed by row, from 0.

    Parameters
    ----------
    problems
        As they were told of the table.
    """
    found: dict[int, list[str]] = {}
    for problem in problems:
        if problem.line is not None and problem.line > 1:
            word = COLUMNS.get(problem.key.partition("_")[0], "")
            told = f"{word}: {problem.message}" if word else problem.message
            found.setdefault(problem.line - 2, []).append(told)
    return found


def boiling_text(said: Mapping[str, Any]) -> str:
    """Write a typed boiling test as its file; empty fields and empty phases are left out.

    Parameters
    ----------
    said
        Keys of the file; a phase is a mapping of its own.
    """
    kept: dict[str, Any] = {}
    for key, value in said.items():
        if isinstance(value, Mapping):
            phase = {name: each for name, each in value.items() if str(each).strip()}
            kept |= {key: phase} if phase else {}
        elif isinstance(value, bool) or str(value).strip():
            kept[key] = value
    return json.dumps(kept, ensure_ascii=False, indent=1)  # JSON is YAML, too


def key_problems(problems: Sequence[Problem]) -> dict[str, list[str]]:
    """Sort problems by their key; what is missing counts for the field that it is missing from.

    Parameters
    ----------
    problems
        As they were told of a file.
    """
    found: dict[str, list[str]] = {}
    for problem in problems:
        lacks = MISSING.match(problem.message)
        key = ".".join(part for part in (problem.key, lacks and lacks[1]) if part)
        found.setdefault(key, []).append(problem.message)
    return found
