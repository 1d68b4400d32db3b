"""Changing one passage of a scenario file and leaving every other letter of it as it is.

A passage is found by the places that the YAML reader notes of keys and values. Each change is
checked: the new text must say what the old one said, with the change made. Where it does not (rare
forms such as aliases), the file is written anew from its tree, which keeps most comments.
"""

from collections.abc import Callable
from contextlib import suppress
from copy import deepcopy
from functools import lru_cache
from typing import Any

from ruamel.yaml.error import YAMLError

from optimizer.errors import InputError
from optimizer.scenario.document import TEXTS_KEPT, Location, parse_document
from optimizer.scenario.letters import cut, written
from optimizer.scenario.saving import text_of

_YES_NO = {"yes": True, "true": True, "no": False, "false": False}


def put(text: str, at: Location, value: Any) -> str:
    """Set a value, or add it with its key where there is none yet.

    Parameters
    ----------
    text
        The whole file.
    at
        Keys and positions from the top; a position one past the end of a list adds to it.
    value
        Plain value: text, number, yes or no, list, mapping.

    Returns
    -------
    str
        The whole file with the value.

    Raises
    ------
    InputError
        If the text is no readable YAML.
    KeyError
        If a list on the way has no such position.
    """
    return _changed(
        text, at, lambda: written(text, at, value), lambda plain: _set(plain, at, value)
    )


def remove(text: str, at: Location) -> str:
    """Take a key or an item out; a mapping or list left empty stays as ``{}`` or ``[]``.

    Parameters
    ----------
    text
        The whole file.
    at
        Keys and positions from the top.

    Returns
    -------
    str
        The whole file without it; comments on lines of their own stay.

    Raises
    ------
    InputError
        If the text is no readable YAML.
    KeyError
        If there is no such key or position.
    """
    _value_at(parse_document(text, "scenario").plain, at)
    return _changed(text, at, lambda: cut(text, at), lambda plain: _unset(plain, at))


def plain_of(text: str) -> dict[str, Any]:
    """Give what a text says as plain values.

    Parameters
    ----------
    text
        The whole file.

    Raises
    ------
    InputError
        If it is no readable YAML.
    """
    return deepcopy(_plain(text))


@lru_cache(maxsize=TEXTS_KEPT)
def _plain(text: str) -> dict[str, Any]:
    """Read a text; the next change asks again for what the last one has written."""
    return parse_document(text, "scenario").plain


# the change, checked


def _changed(
    text: str, at: Location, write: Callable[[], str], change: Callable[[Any], None]
) -> str:
    """Write a change, and check that the text says just that."""
    said, wanted = _plain(text), plain_of(text)
    change(wanted)
    if _same(said, wanted):
        return text

    def by_tree() -> str:
        tree = parse_document(text, "scenario", own=True).tree
        change(tree)
        return text_of(tree)

    def by_section() -> str:
        return written(text, at[:1], wanted[str(at[0])])

    for way in (write, by_tree, by_section):
        with suppress(InputError, LookupError, ValueError, AttributeError, TypeError, YAMLError):
            made = way()
            if _says(made, wanted):
                return made
    raise ValueError(f"{'.'.join(map(str, at))} cannot be changed here; change it in the file")


def _says(text: str, wanted: Any) -> bool:
    return _same(_plain(text), wanted)


def _same(one: Any, other: Any) -> bool:
    """Compare plain values; 1, 1.0 and true are three things."""
    if isinstance(one, dict) and isinstance(other, dict):
        return list(one) == list(other) and all(_same(one[key], other[key]) for key in one)
    if isinstance(one, list) and isinstance(other, list):
        return len(one) == len(other) and all(map(_same, one, other))
    return type(one) is type(other) and bool(one == other)


def _value_at(plain: Any, at: Location) -> Any:
    for part in at:
        if isinstance(plain, list) and not (isinstance(part, int) and 0 <= part < len(plain)):
            raise KeyError(part)
        plain = plain[_key(plain, part)]
    return plain


def _key(plain: Any, part: str | int) -> Any:
    """Give the key of a tree that a part of a location means; in plain data it is itself."""
    if isinstance(plain, dict):
        return next((key for key in plain if str(key) == str(part)), str(part))
    return part


def _set(plain: Any, at: Location, value: Any) -> None:
    """Set a value in plain data or in a tree."""
    for place, part in enumerate(at[:-1]):
        key = _key(plain, part)
        if isinstance(plain, dict) and not isinstance(plain.get(key), dict | list):
            plain[key] = [] if isinstance(at[place + 1], int) else {}
        plain = plain[key]
    last = _key(plain, at[-1])
    if isinstance(plain, list) and last == len(plain):
        plain.append(value)
    else:
        plain[last] = value


def _unset(plain: Any, at: Location) -> None:
    holder = _value_at(plain, at[:-1])
    del holder[_key(holder, at[-1])]


def value_of(words: str) -> Any:
    """Read what a person typed as the plain value it would be in a file.

    Parameters
    ----------
    words
        Such as ``3 kW``, ``0.3``, ``yes``.

    Returns
    -------
    Any
        True, False, a number or the text; text that only looks like YAML stays text.
    """
    plain = words.strip()
    if plain.casefold() in _YES_NO:
        return _YES_NO[plain.casefold()]
    for kind in (int, float):
        with suppress(ValueError):
            return kind(plain)
    return plain
