"""No wording promises safety: every string a person may read is scanned for words that could."""

import ast
import csv
import re
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path

import pytest

TOP = Path(__file__).parents[2]
PROMISING = re.compile(
    r"\b(un)?safe(ly|ty|r|st)?\b|guarant|promis|assur|harmless|fool-?proof"
    r"|\b(no|without) (risk|danger)"
    r"|risk-free|danger-free|\bsecure|never fails|cannot fail|nothing can (go wrong|happen)"
    r"|(completely|absolutely|perfectly|always) (done|hot|clean|sterile|pure)"
    r"|free (of|from) (germs|bacteria|danger)|\bsterile|\bhealthy",
    re.IGNORECASE,
)
# What may be said: that nothing is promised, that something is not safe, or the household's need.
SAID = (
    "it cannot promise that food is safe to eat or air safe to breathe",
    "none of this says that food is safe to eat or air safe to breathe",
    "it cannot promise that any dish is free of anything",
    "it cannot promise that a pot is free of anything",
    "degc, too long to be safe",  # a reason to refuse a way
    "this mark of safety cannot be taken off",
    "style-src 'unsafe-inline'",  # a rule for the browser
    "hot, safe food on the table",  # README: what a household needs
)
COLUMNS = ("label", "text", "description", "measure")


def strings_of(path: Path) -> Iterator[str]:
    """Give the strings of a module that are not docstrings; parts of one text are joined."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    passed = {id(n.value) for n in ast.walk(tree) if isinstance(n, ast.Expr)}
    for node in ast.walk(tree):
        if isinstance(node, ast.JoinedStr):
            parts = [v for v in node.values if isinstance(v, ast.Constant)]
            passed |= {id(part) for part in parts}
            yield "\N{HORIZONTAL ELLIPSIS}".join(str(part.value) for part in parts)
    for node in ast.walk(tree):
        if (
            isinstance(node, ast.Constant)
            and isinstance(node.value, str)
            and id(node) not in passed
        ):
            yield node.value


@lru_cache
def texts() -> tuple[tuple[str, str], ...]:
    """Give everything that a person may read, with its place."""
    return tuple(_texts())


def _texts() -> Iterator[tuple[str, str]]:
    for folder in ("optimizer", "app"):
        for path in sorted((TOP / folder).rglob("*.py")):
            yield from ((f"{path.relative_to(TOP)}", text) for text in strings_of(path))
        for path in sorted((TOP / folder).rglob("*.html")):
            yield path.name, re.sub(r"<[^>]*>|\s+", " ", path.read_text(encoding="utf-8"))
    for path in sorted((TOP / "data/tables").glob("*.csv")):
        with path.open(encoding="utf-8", newline="") as rows:
            for row in csv.DictReader(rows):
                yield from ((path.name, row[column] or "") for column in COLUMNS if column in row)
    for path in sorted((TOP / "data/scenarios").glob("*.yaml")):
        yield path.name, path.read_text(encoding="utf-8")
    prose = (TOP / "README.md").read_text(encoding="utf-8").splitlines()
    yield "README.md", " ".join(line.strip() for line in prose if not line.startswith("|"))


def promises(text: str) -> list[str]:
    """List the promising words of a text that are not among what may be said."""
    plain = " ".join(text.split()).lower()
    for said in SAID:
        plain = plain.replace(said, "")
    return [found[0] for found in PROMISING.finditer(plain)]


def test_nothing_that_is_read_promises_safety():
    assert [(place, found) for place, text in texts() if (found := promises(text))] == []


def test_every_exception_is_still_said():
    whole = " ".join(" ".join(text.split()).lower() for _, text in texts())
    assert [said for said in SAID if said not in whole] == []


def test_all_kinds_of_text_are_looked_at():
    places = {Path(place).suffix for place, _ in texts()}
    assert places == {".py", ".html", ".csv", ".yaml", ".md"}
    assert len(texts()) > 3000


@pytest.mark.parametrize(
    "text",
    [
        "After this the beans are safe.",
        "Safely hot until supper",
        "We guarantee 60 degC.",
        "There is no danger of fumes.",
        "It cannot fail.",
        "Your water is free of germs.",
        "It cannot promise that food is safe to eat or air safe to breathe, but this box is safe.",
    ],
)
def test_a_promise_is_found(text):
    assert promises(text)
