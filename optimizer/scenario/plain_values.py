"""A YAML tree as plain values, within bounds; tags and odd keys are noted."""

from collections.abc import Iterator
from datetime import date, datetime
from typing import Any, Protocol

from ruamel.yaml.comments import CommentedMap, CommentedSeq

from optimizer.errors import InputError, Problem

MOST_VALUES = 50_000
DEEPEST = 12
_PLAIN_TAGS = frozenset({"str", "int", "float", "bool", "null", "map", "seq"})

At = tuple[str | int, ...]  # keys and positions from the top


class Noted(Protocol):
    """A document in which faults are noted."""

    @property
    def file(self) -> str:
        """Its name."""

    def find(self, location: At) -> tuple[int | None, str]:
        """Line of a key, and the key as it is shown."""

    def problem(self, location: At, code: str, message: str) -> None:
        """Note one thing that is wrong."""

    def note(self, line: int | None, shown: str, code: str, message: str) -> None:
        """Note one thing that is wrong on a line."""


def line_of(node: Any, key: Any) -> int | None:
    """Line of a key or an item, from 1; None where it has none.

    Parameters
    ----------
    node
        A mapping or list of the tree.
    key
        Key or position in it.
    """
    try:
        where = node.lc.item(key) if isinstance(node, CommentedSeq) else node.lc.key(key)
        return int(where[0]) + 1
    except (AttributeError, KeyError, TypeError, IndexError):
        return None


class PlainValues:
    """Turns a tree into dict, list, str, int, float, bool, date and None, within bounds."""

    def __init__(self, document: Noted) -> None:
        self.document = document
        self.count = 0

    def mapping(self, node: CommentedMap, at: At) -> dict[str, Any]:
        """Plain copy of a mapping."""
        return dict(self._pairs(node, at))

    def _pairs(self, node: CommentedMap, at: At) -> Iterator[tuple[str, Any]]:
        for key, value in node.items():
            if isinstance(key, bool) or not isinstance(key, str | int | float):
                _, shown = self.document.find(at)
                message = f"expected a plain word as a key, given {key!r:.60}"
                self.document.note(line_of(node, key), shown, "key", message)
                continue
            yield str(key), self.value(value, (*at, str(key)))

    def value(self, node: Any, at: At) -> Any:
        """Plain copy of anything."""
        self.count += 1
        if len(at) > DEEPEST or self.count > MOST_VALUES:
            message = "is nested too deeply, or aliases make it too large"
            raise InputError(
                [Problem(self.document.file, *self.document.find(at[:2]), "too_deep", message)]
            )
        tag = str(getattr(getattr(node, "tag", None), "value", None) or "")
        if tag and tag.removeprefix("tag:yaml.org,2002:") not in _PLAIN_TAGS:
            self.document.problem(at, "tag", f"tags such as '{tag:.60}' are not allowed")
            return None
        if isinstance(node, CommentedMap):
            return self.mapping(node, at)
        if isinstance(node, CommentedSeq):
            return [self.value(item, (*at, place)) for place, item in enumerate(node)]
        return self._scalar(node, at)

    def _scalar(self, node: Any, at: At) -> Any:
        """Plain copy of a single value."""
        if node is None or isinstance(node, bool):
            return node
        for kind in (str, int, float):
            if isinstance(node, kind):
                return kind(node)
        if isinstance(node, date) and not isinstance(node, datetime):
            return node
        self.document.problem(at, "value", f"expected text or a number, given {str(node)!r:.60}")
        return None
