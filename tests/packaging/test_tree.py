"""The tree of the repository: its top, its words, the libraries it says it needs."""

import ast
import re
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
TOP = {"README.md", "DEVELOPERS.md", "pyproject.toml", "optimizer", "app", "data", "tests"}
PARTS = ["README.md", "DEVELOPERS.md", "pyproject.toml", ".ci", "optimizer", "app", "data", "tests"]
# Written with a class of one letter, so that this file does not find itself.
LEFT_OVER = re.compile(r"\b(TOD[O]|FIXM[E]|XX[X])\b")
SOMEBODYS_MACHINE = re.compile(r"(?<![\w.:/])/(work|home|root|Users|tmp)[/]\w")
# What pydantic's own types are made of, and what jinja2 gives; they always bring them.
COME_ALONG = {
    "markupsafe": "jinja2",
    "annotated_types": "pydantic",
    "pydantic_core": "pydantic",
    "typing_extensions": "pydantic",
}
NAMED_OTHERWISE = {"ruamel": "ruamel.yaml", "vl_convert": "vl-convert-python"}


def files(part: str) -> Iterator[Path]:
    whole = ROOT / part
    found = whole.rglob("*") if whole.is_dir() else [whole]
    yield from (p for p in found if p.is_file() and "__pycache__" not in p.parts)


def test_the_top_is_what_it_should_be():
    there = {path.name for path in ROOT.iterdir() if not path.name.startswith(".")}
    assert there - {"build", "dist"} == TOP


@pytest.mark.parametrize("pattern", [LEFT_OVER, SOMEBODYS_MACHINE], ids=["left over", "machine"])
def test_no_forbidden_word(pattern: re.Pattern[str]):
    texts = [(path, path.read_text(encoding="utf-8")) for part in PARTS for path in files(part)]
    assert len(texts) > 100
    found = [f"{p.relative_to(ROOT)}: {m[0]}" for p, text in texts for m in pattern.finditer(text)]
    assert found == []


@pytest.mark.parametrize(
    ("pattern", "text", "found"),
    [
        (LEFT_OVER, "# TO" + "DO: later", True),
        (LEFT_OVER, "MASTODON", False),
        (SOMEBODYS_MACHINE, 'open("/' + 'work/file")', True),
        (SOMEBODYS_MACHINE, "see /" + "tmp/x", True),
        (SOMEBODYS_MACHINE, "https://example.org/home/page", False),
        (SOMEBODYS_MACHINE, "optimizer/" + "work/x", False),
    ],
)
def test_the_patterns_find_what_they_should(pattern: re.Pattern[str], text: str, found: bool):
    assert bool(pattern.search(text)) is found


def imported(folder: str) -> set[str]:
    """Top names of all that a package imports, wherever in a module."""
    names: set[str] = set()
    for path in files(folder):
        if path.suffix == ".py":
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                if isinstance(node, ast.Import):
                    names |= {alias.name.split(".")[0] for alias in node.names}
                elif isinstance(node, ast.ImportFrom) and node.module:
                    names.add(node.module.split(".")[0])
    return names - {*sys.stdlib_module_names, "optimizer", "app"}


def test_every_library_that_is_imported_is_named_and_every_named_one_imported():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    lines = [*project["dependencies"], *project["optional-dependencies"]["cluster"]]
    named = {re.match(r"[\w.-]+", line)[0].lower() for line in lines}
    imports = imported("optimizer") | imported("app")
    used = {COME_ALONG.get(n, NAMED_OTHERWISE.get(n, n)) for n in imports}
    assert used == named
