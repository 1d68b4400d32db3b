"""Measured numbers put into a scenario file: its comments kept, the last version beside it."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from optimizer.errors import InputError, Problem
from optimizer.scenario.changes import with_field, with_thing
from optimizer.scenario.document import read_text
from optimizer.scenario.passages import plain_of
from optimizer.scenario.reading import parse
from optimizer.scenario.saving import save_text
from optimizer.shelf import load


def with_measured(
    text: str, section: str, name: str, values: Mapping[str, Any], like: str | None = None
) -> str:
    """Give a scenario with measured numbers of one thing in it.

    Parameters
    ----------
    text
        The whole file.
    section
        ``cookers`` or ``stoves``.
    name
        Name of the thing, in the file or to be added to it.
    values
        Keys of the file and their values; None takes a key out.
    like
        Thing on the shelf that a new one is like.

    Returns
    -------
    str
        The whole file.

    Raises
    ------
    InputError
        If the thing is neither in the file nor on the shelf, and no ``like`` says what it is.
    """
    there = plain_of(text).get(section) or {}
    if name not in there:
        known = getattr(load(), section)
        if like is None and name not in known:
            raise InputError([_unknown(section, name)])
        first = {"like": like} if like is not None else {}
        said = {key: value for key, value in values.items() if value is not None}
        return with_thing(text, section, name, {**first, **said})
    for key, value in values.items():
        text = with_field(text, section, name, key, value)
    return text


def _unknown(section: str, name: str) -> Problem:
    thing = section.removesuffix("s")
    message = (
        f"'{name}' is neither in the file nor on the shelf; say with --like NAME which {thing} on "
        "the shelf it is like"
    )
    return Problem("command line", None, "--as", "unknown_name", message)


def write_measured(
    path: Path, section: str, name: str, values: Mapping[str, Any], like: str | None = None
) -> None:
    """Write measured numbers of one thing into a scenario file.

    Parameters
    ----------
    path
        The file; a sound scenario, before and after.
    section
        ``cookers`` or ``stoves``.
    name
        Name of the thing, in the file or to be added to it.
    values
        Keys of the file and their values; None takes a key out.
    like
        Thing on the shelf that a new one is like.

    Raises
    ------
    InputError
        If the file, before or with the numbers, is no sound scenario; it is as it was.
    SaveError
        If it cannot be written; it is as it was.
    """
    text = read_text(path)
    parse(text, str(path))
    changed = with_measured(text, section, name, values, like)
    parse(changed, str(path))
    save_text(path, changed)
