"""Measured numbers put into a scenario file: its comments kept, the last version beside it."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from optimizer.errors import InputError, Problem, SaveError
from optimizer.scenario.changes import with_field, with_thing
from optimizer.scenario.file_text import read_text
from optimizer.scenario.locking import alone
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
    write_all_measured(path, section, {name: values}, like)


def write_all_measured(
    path: Path, section: str, found: Mapping[str, Mapping[str, Any]], like: str | None = None
) -> None:
    """Write measured numbers of several things into a scenario file, all of them or none.

    Parameters
    ----------
    path
        The file; a sound scenario, before and after.
    section
        ``cookers`` or ``stoves``.
    found
        Keys of the file and their values, by the name of the thing.
    like
        Thing on the shelf that a new one is like.

    Raises
    ------
    InputError
        If the file, before or with the numbers, is no sound scenario; it is as it was.
    SaveError
        If it cannot be written; it is as it was.
    """
    _with_all(path, section, found, like)  # what is wrong is told before anything is locked
    try:
        with alone(path):  # what another writes between reading and writing would be lost
            save_text(path, _with_all(path, section, found, like))
    except OSError as error:
        raise SaveError(f"{path}: could not be saved, it is as it was: {error}") from error


def _with_all(
    path: Path, section: str, found: Mapping[str, Mapping[str, Any]], like: str | None
) -> str:
    """Give a sound scenario file with the numbers in it, sound as well."""
    text = read_text(path)
    parse(text, str(path))
    for name, values in found.items():
        text = with_measured(text, section, name, values, like)
    parse(text, str(path))
    return text
