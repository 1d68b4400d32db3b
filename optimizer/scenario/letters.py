"""Writing and cutting in the letters of a YAML file, by the places its reader notes.

What comes out is not checked here; ``passages`` holds it against what it ought to say.
"""

import re
from io import StringIO
from typing import Any

from ruamel.yaml.nodes import CollectionNode, MappingNode, Node, ScalarNode
from ruamel.yaml.scalarstring import DoubleQuotedScalarString

from optimizer.scenario.document import Location
from optimizer.scenario.yaml12 import round_trip

Entry = tuple[Node | None, Node]  # key and value; an item of a list has no key

_WIDE = 1_000_000
_LEAST = -1
_ALIAS = re.compile(r"\s*\*[^\s,\]}]+")


def written(text: str, at: Location, value: Any) -> str:
    """Write a value over another, or after the last of its mapping or list.

    Parameters
    ----------
    text
        The whole file.
    at
        Keys and positions from the top.
    value
        Plain value.

    Raises
    ------
    KeyError
        If a list on the way has no such position.
    """
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
    if entry[0] is not None and start < _start(entry[0]):  # an alias: the node stands elsewhere
        start = _colon(text, entry[0])
        alias = _ALIAS.match(text, start)
        end = alias.end() if alias else start
        return f"{text[:start]} {flow(value)}{text[end:]}"
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


def cut(text: str, at: Location) -> str:
    """Cut an entry out of its mapping or list.

    Parameters
    ----------
    text
        The whole file.
    at
        Keys and positions from the top; it has to be there.
    """
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
    yaml.brace_single_entry_mapping_in_flow_sequence = True
    yaml.width = _WIDE
    out = StringIO()
    yaml.dump({"x": _quoted(value)}, out)
    return out.getvalue().strip().removeprefix("{x:").removesuffix("}").strip()


def _quoted(value: Any) -> Any:
    """Put clock times and the like in quotes, since older readers take them for numbers."""
    if isinstance(value, dict):
        return {key: _quoted(each) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [_quoted(each) for each in value]
    if isinstance(value, str) and ":" in value:
        return DoubleQuotedScalarString(value)
    return value
