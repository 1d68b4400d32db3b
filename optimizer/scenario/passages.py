"""Changing one passage of a scenario file and leaving every other letter of it as it is.

A passage is found by the places that the YAML reader notes of keys and values. Each change is
checked: the new text must say what the old one said, with the change made. Where it does not (rare
forms such as aliases), the file is written anew from its tree, which keeps most comments.
"""

from collections.abc import Callable
from contextlib import suppress
from copy import deepcopy
from io import StringIO
from typing import Any

from ruamel.yaml.nodes import CollectionNode, MappingNode, Node, ScalarNode
from ruamel.yaml.scalarstring import DoubleQuotedScalarString

from optimizer.errors import InputError
from optimizer.scenario.document import Location, parse_document
from optimizer.scenario.saving import text_of
from optimizer.scenario.yaml12 import round_trip

Entry = tuple[Node | None, Node]  # key and value; an item of a list has no key

_WIDE = 1_000_000
_LEAST = -1
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
    return _changed(text, at, lambda: _put(text, at, value), lambda plain: _set(plain, at, value))


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
    return _changed(text, at, lambda: _cut(text, at), lambda plain: _unset(plain, at))


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
    return parse_document(text, "scenario").plain


# the change, checked


def _changed(
    text: str, at: Location, write: Callable[[], str], change: Callable[[Any], None]
) -> str:
    """Write a change, and check that the text says just that."""
    wanted = deepcopy(plain_of(text))
    change(wanted)
    try:
        made = write()
        if _says(made, wanted):
            return made
    except (InputError, IndexError, KeyError, LookupError, ValueError, AttributeError):
        pass
    tree = parse_document(text, "scenario").tree
    change(tree)
    made = text_of(tree)
    if not _says(made, wanted):
        raise ValueError(f"{'.'.join(map(str, at))} cannot be changed here; change it in the file")
    return made


def _says(text: str, wanted: Any) -> bool:
    return _same(plain_of(text), wanted)


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


# the letters


def _put(text: str, at: Location, value: Any) -> str:
    """Write a value over another, or after the last of its mapping or list."""
    root = round_trip().compose(StringIO(text))
    node: Node = root
    above: Entry | None = None
    for place, part in enumerate(at):
        entries = _entries(node)
        found = next((e for n, e in enumerate(entries) if _means(e, n, part)), None)
        if found is None:
            return _added(text, node, above, at[place:], value)
        above, node = found, found[1]
        if place + 1 < len(at) and isinstance(node, ScalarNode):
            return _over(text, above, _nested(at[place + 1 :], value))
    return _over(text, above, value) if above else text


def _entries(node: Node) -> list[Entry]:
    if isinstance(node, ScalarNode):
        return []
    return list(node.value) if isinstance(node, MappingNode) else [(None, n) for n in node.value]


def _means(entry: Entry, number: int, part: str | int) -> bool:
    key = entry[0]
    return number == part if key is None else str(key.value) == str(part)


def _nested(at: Location, value: Any) -> Any:
    """Wrap a value in the mappings and lists that lead to it."""
    for part in reversed(at):
        value = [value] if isinstance(part, int) else {part: value}
    return value


def _over(text: str, entry: Entry, value: Any) -> str:
    """Write a value in the place of another."""
    start, end = _start(entry[1]), _end(text, entry)
    if entry[0] is not None and (start >= end or not _one_line(entry)):
        start = _colon(text, entry[0])
        return f"{text[:start]} {flow(value)}{text[max(start, end) :]}"
    return f"{text[:start]}{flow(value)}{text[end:]}"


def _one_line(entry: Entry) -> bool:
    """Tell whether a value begins on the line of its key."""
    key, value = entry
    return key is None or int(key.start_mark.line) == int(value.start_mark.line)


def _added(text: str, node: Node, above: Entry | None, at: Location, value: Any) -> str:
    """Write a new entry after the last one of a mapping or list."""
    entries = _entries(node)
    if isinstance(at[0], int) and at[0] != len(entries):
        raise KeyError(at[0])
    new = _nested(at[1:], value)
    words = flow(new) if isinstance(at[0], int) else f"{flow(at[0])}: {flow(new)}"
    if not entries or (isinstance(node, ScalarNode) and above):
        return _over(text, above, _nested(at, value)) if above else text
    end = _end(text, entries[_LEAST])
    if _in_brackets(node):
        return f"{text[:end]}, {words}{text[end:]}"
    first = entries[0][0] or entries[0][1]
    column = int(first.start_mark.column)
    if entries[0][0] is None:
        words, column = f"- {words}", _line_start_column(text, _start(first))
    line_end = _line_end(text, end)
    return f"{text[:line_end]}\n{' ' * column}{words}{text[line_end:]}"


def _line_start_column(text: str, place: int) -> int:
    """Give the column of the dash that stands before an item."""
    start = text.rfind("\n", 0, place) + 1
    return text.rindex("-", start, place) - start


def _cut(text: str, at: Location) -> str:
    """Cut an entry out of its mapping or list."""
    node: Node = round_trip().compose(StringIO(text))
    above: Entry | None = None
    for part in at[:-1]:
        above = next(e for n, e in enumerate(_entries(node)) if _means(e, n, part))
        node = above[1]
    entries = _entries(node)
    place = next(n for n, e in enumerate(entries) if _means(e, n, at[-1]))
    if _in_brackets(node):
        return _cut_flow(text, entries, place)
    return _cut_block(text, entries, place, above)


def _cut_flow(text: str, entries: list[Entry], place: int) -> str:
    """Cut an entry from between brackets, with one comma."""
    start, end = _start(entries[place][0] or entries[place][1]), _end(text, entries[place])
    if place + 1 < len(entries):
        after = entries[place + 1]
        gap = text[end : _start(after[0] or after[1])]
        return text[:start] + (text[end + len(gap) :] if "#" not in gap else _no_comma(text[end:]))
    if place:
        before = _end(text, entries[place - 1])
        gap = text[before:start]
        return text[:before] + (_no_comma(gap) if "#" in gap else "") + text[end:]
    return text[:start] + text[end:]


def _no_comma(text: str) -> str:
    """Leave out the first comma, which stands before any comment."""
    return text.replace(",", "", 1)


def _cut_block(text: str, entries: list[Entry], place: int, above: Entry | None) -> str:
    """Cut the lines of an entry; the comment at their end goes too, others stay."""
    first = _start(entries[place][0] or entries[place][1])
    line = text.rfind("\n", 0, first) + 1
    end = min(_line_end(text, _end(text, entries[place])) + 1, len(text))
    lead = text[line:first].strip()
    if entries[place][0] is not None and lead:  # it stands after the dash of its list
        return text[:first].rstrip(" ") + text[end - 1 :]
    left = text[:line] + text[end:]
    if len(entries) > 1 or above is None or above[0] is None:
        return left
    colon = _colon(text, above[0])
    empty = " {}" if entries[place][0] is not None else " []"
    return left[:colon] + empty + left[colon:]


def _in_brackets(node: Node) -> bool:
    """Tell whether a mapping or list stands between brackets rather than on lines."""
    return isinstance(node, CollectionNode) and bool(node.flow_style)


def _start(node: Node) -> int:
    return int(node.start_mark.index)


def _end(text: str, entry: Entry) -> int:
    """Give where the last letter of an entry stands, before comments and empty lines."""
    key, node = entry
    if isinstance(node, CollectionNode) and not _in_brackets(node) and node.value:
        return _end(text, _entries(node)[_LEAST])
    start, end = _start(node), int(node.end_mark.index)
    if start == end and key is not None:  # nothing after the colon
        return _colon(text, key)
    return start + len(text[start:end].rstrip()) if isinstance(node, ScalarNode) else end


def _colon(text: str, key: Node) -> int:
    """Give the place after the colon of a key."""
    return text.index(":", int(key.end_mark.index)) + 1


def _line_end(text: str, place: int) -> int:
    found = text.find("\n", place)
    return len(text) if found < 0 else found


def flow(value: Any) -> str:
    """Write a value on one line as it may stand anywhere in a file.

    Parameters
    ----------
    value
        Plain value: text, number, yes or no, list, mapping.
    """
    yaml = round_trip()
    yaml.default_flow_style = True
    yaml.width = _WIDE
    written = StringIO()
    yaml.dump({"x": _quoted(value)}, written)
    return written.getvalue().strip().removeprefix("{x:").removesuffix("}").strip()


def _quoted(value: Any) -> Any:
    """Put clock times and the like in quotes, since older readers take them for numbers."""
    if isinstance(value, dict):
        return {key: _quoted(each) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [_quoted(each) for each in value]
    if isinstance(value, str) and ":" in value:
        return DoubleQuotedScalarString(value)
    return value


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
