"""What outlives a window: what can be taken back, and the measures; kept beside the working copy.

Nothing here is needed to go on: where it cannot be read or written, it is as if it were not there.
"""

import hashlib
import json
from contextlib import suppress
from pathlib import Path

import platformdirs

from optimizer.errors import InputError, SaveError
from optimizer.report.measures import Units
from optimizer.scenario.file_text import LARGEST_BYTES, read_text
from optimizer.scenario.saving import save_text

Past = list[tuple[str, str]]  # what was done, text before


def state_folder() -> Path:
    """Folder of what this program keeps for this person."""
    return Path(platformdirs.user_state_path("fuelthrift"))


def measures() -> Units:
    """Give the measures that were chosen last, in whatever window."""
    return "us" if _content(_measures_file()).strip() == "us" else "metric"


def keep_measures(units: Units) -> None:
    """Let windows begin with these measures from now on.

    Parameters
    ----------
    units
        The system.
    """
    _write(_measures_file(), units)


def past_of(target: Path, text: str) -> Past:
    """Give what can be taken back in a file; nothing if it was changed elsewhere since.

    Parameters
    ----------
    target
        The file.
    text
        What it holds now.
    """
    try:
        said = json.loads(_content(_past_file(target)))
        if said["text"] != _digest(text):
            return []
        return [(str(what), str(before)) for what, before in said["past"]]
    except (ValueError, TypeError, KeyError):
        return []


def keep_past(target: Path, text: str, past: Past) -> None:
    """Keep what can be taken back in a file.

    Parameters
    ----------
    target
        The file.
    text
        What it holds now.
    past
        What was done to it, and the text before each.
    """
    told = _told(text, past)
    while len(told) > LARGEST_BYTES and past:
        past = past[len(past) // 2 + 1 :]  # the oldest are forgotten
        told = _told(text, past)
    _write(_past_file(target), told)


def _told(text: str, past: Past) -> str:
    return json.dumps({"text": _digest(text), "past": past})


def _measures_file() -> Path:
    return state_folder() / "measures"


def _past_file(target: Path) -> Path:
    return state_folder() / "undo" / f"{_digest(str(target.resolve()))[:32]}.json"


def _digest(text: str) -> str:
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()


def _content(path: Path) -> str:
    try:
        return read_text(path)
    except InputError:
        return ""


def _write(path: Path, text: str) -> None:
    with suppress(OSError, SaveError):
        path.parent.mkdir(parents=True, exist_ok=True)
        save_text(path, text)
