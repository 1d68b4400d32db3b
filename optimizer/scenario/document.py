"""A YAML file as plain data, and the line on which each of its keys stands.

YAML 1.2, plain values only: tags are refused, aliases may not blow a small file up.
"""

import re
import warnings
from dataclasses import dataclass, field
from functools import lru_cache
from io import StringIO
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.comments import CommentedMap
from ruamel.yaml.error import MarkedYAMLError, YAMLError

from optimizer.errors import InputError, Problem
from optimizer.scenario.file_text import LARGEST_BYTES, refused, too_large
from optimizer.scenario.plain_values import MOST_VALUES, PlainValues, line_of
from optimizer.scenario.yaml12 import round_trip

MOST_KEPT = 50_000  # letters of a text whose tree is kept; it takes 40 bytes for each
TEXTS_KEPT = 48  # an edit asks for two texts again and again, and twenty windows may do so at once
MOST_PROBLEMS = 200  # told at once
SIGNS = ("\n", ",", ": ", "[", "{", "- ", "? ")  # of which every value of a file has one

_OF_YAML = frozenset({"tag", "value"})
_OLD_YAML = re.compile(r"^%YAML\s+(?!1\.2)", re.MULTILINE)

Location = tuple[str | int, ...]


@dataclass(frozen=True)
class Document:
    """A file that has been read: the tree with its comments, plain data, and what is wrong."""

    file: str
    tree: CommentedMap
    plain: dict[str, Any]
    problems: list[Problem] = field(default_factory=list)

    def find(self, location: Location) -> tuple[int | None, str]:
        """Line of a key, and the key as it is shown; parts not in the file are left out.

        Parameters
        ----------
        location
            Keys and positions from the top.
        """
        node: Any = self.tree
        line: int | None = None
        shown = ""
        for part in location:
            key = _key_in(node, part)
            if key is None:
                continue
            line = line_of(node, key)
            shown += f"[{key + 1}]" if isinstance(node, list) else f".{key}" if shown else str(key)
            node = node[key]
        return line, shown

    def problem(self, location: Location, code: str, message: str) -> None:
        """Note one thing that is wrong.

        Parameters
        ----------
        location
            Keys and positions from the top.
        code
            Short word for the kind of fault.
        message
            What was expected, what was given.
        """
        line, shown = self.find(location)
        self.note(line, shown, code, message)

    def faulty(self, location: Location) -> bool:
        """Tell whether something is already noted of a key of the file, or of what is in it.

        Parameters
        ----------
        location
            Keys and positions from the top.
        """
        _, shown = self.find(location)
        _, above = self.find(location[:-1])
        return shown != above and any(p.key.startswith(shown) for p in self.problems)

    def note(self, line: int | None, shown: str, code: str, message: str) -> None:
        """Note one thing that is wrong on a line; what follows from a fault of the YAML is not.

        Parameters
        ----------
        line
            Line, from 1.
        shown
            Key as it is shown.
        code
            Short word for the kind of fault.
        message
            What was expected, what was given.

        Raises
        ------
        InputError
            If so much is wrong that nobody would read on.
        """
        found = Problem(self.file, line, shown, code, message)
        follows = any(p.key == shown and p.code in _OF_YAML for p in self.problems)
        if found not in self.problems and (not follows or code in _OF_YAML):
            self.problems.append(found)
        if len(self.problems) > MOST_PROBLEMS:
            raise too_many(self.file, self.problems)


def _key_in(node: Any, part: str | int) -> Any:
    """Key of a node that a part of a location means, or None."""
    if isinstance(node, dict):
        return next((key for key in node if str(key) == str(part)), None)
    if isinstance(node, list) and isinstance(part, int) and part < len(node):
        return part
    return None


def too_many(file: str, problems: list[Problem]) -> InputError:
    """Give the first of very many problems, and say that there are more.

    Parameters
    ----------
    file
        Its name, for messages.
    problems
        More than are told.
    """
    message = f"more than {MOST_PROBLEMS} things are wrong; these are the first"
    return InputError([Problem(file, None, "", "too_many", message), *problems[:MOST_PROBLEMS]])


def parse_document(
    text: str, file: str, holds: str = "people, fuels, a menu", *, own: bool = False
) -> Document:
    """Parse a text; what is wrong inside the tree is noted in ``problems``.

    A change on a page asks for the same text several times, and reading YAML is slow: the trees of
    the last few texts are kept.

    Parameters
    ----------
    text
        The whole file.
    file
        Its name, for messages.
    holds
        What such a file holds, for messages.
    own
        Whether the caller gets a tree of its own, to change it; else it is shared and only read.

    Raises
    ------
    InputError
        If there is no tree: broken YAML, empty, not a mapping, too large.
    """
    if len(text) > LARGEST_BYTES:
        raise too_large(file)
    if sum(map(text.count, SIGNS)) > MOST_VALUES:
        raise refused(file, None, "too_large", f"has more than {MOST_VALUES} lines and entries")
    if old := _OLD_YAML.search(text):
        line = text.count("\n", 0, old.start()) + 1
        raise refused(file, line, "yaml", "is read as YAML 1.2; leave this line out")
    tree, repeated = (_loaded if own or len(text) > MOST_KEPT else _kept)(text, file)
    if tree is None:
        raise refused(file, None, "empty", f"is empty; it should say {holds} ...")
    if not isinstance(tree, CommentedMap):
        message = f"expected lines such as 'key: value' at the top, for {holds} ..."
        raise refused(file, 1, "not_a_mapping", message)
    document = Document(file, tree, {})
    for line, key in repeated[:MOST_PROBLEMS]:
        document.problems.append(
            Problem(file, line, key, "duplicate_key", f"the key '{key}' stands here a second time")
        )
    document.plain.update(PlainValues(document).mapping(tree, ()))
    return document


def _loaded(text: str, file: str) -> tuple[Any, tuple[tuple[int, str], ...]]:
    """Tree of a text, and the keys that stand twice."""
    yaml = round_trip()
    tree = _tree(yaml, text, file)
    return tree, tuple(yaml.constructor.repeated)


_kept = lru_cache(maxsize=TEXTS_KEPT)(_loaded)


def _tree(yaml: YAML, text: str, file: str) -> Any:
    """Tree of a text."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            return yaml.load(StringIO(text))
    except MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        line = mark.line + 1 if mark else None
        told = error.problem or error.context or "cannot be understood"
        raise refused(file, line, "yaml", f"broken YAML: {told}") from error
    except RecursionError as error:
        raise refused(file, None, "too_deep", "is nested too deeply") from error
    except (YAMLError, ValueError, TypeError, AttributeError, LookupError) as error:
        told = str(error).splitlines()[0] if str(error) else type(error).__name__
        raise refused(file, None, "yaml", f"broken YAML: {told:.200}") from error
