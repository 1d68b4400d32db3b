"""Which lines of a package's notes count as a flaw mended after the version we take."""

import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from packaging.version import Version

from tests.packaging.flaws_told import fixes, lowest

NOTES = """\
# Changes

## Version 2.1.0, 2026-11-18

- Mended a hole (CVE-2026-00001)
- CI: address vulnerabilities in what we build with

v2.0.1
------

- Faster by 1.5 times

### Security (SEC)
"""


def test_a_fix_is_told_with_the_version_it_stands_under() -> None:
    assert [(str(told.version), told.line) for told in fixes("CHANGES.md", NOTES)] == [
        ("2.1.0", "- Mended a hole (CVE-2026-00001)"),
        ("2.0.1", "### Security (SEC)"),
    ]


def test_a_file_that_carries_its_version_in_its_name_needs_no_heading() -> None:
    (told,) = fixes("doc/1.16.3-notes.rst", "2.0 is far off\n* patched for a security fix\n")
    assert told.version == Version("1.16.3")


@pytest.mark.parametrize("line", ["DOC: report a vulnerability here", "security policy", "secure"])
def test_talk_about_security_is_no_fix(line: str) -> None:
    assert not list(fixes("NEWS", f"1.2.3\n{line}\n"))


def test_every_direct_dependency_has_a_lowest_version(pytestconfig: pytest.Config) -> None:
    project = Path(pytestconfig.rootpath) / "pyproject.toml"
    told = tomllib.loads(project.read_text(encoding="utf-8"))["project"]
    groups = [told["dependencies"], *told["optional-dependencies"].values()]
    named = {canonicalize_name(Requirement(need).name) for group in groups for need in group}
    bounds = lowest(project)
    assert bounds.keys() == named
    assert bounds["pypdf"] >= Version("7.1.1"), "image sizes and work without limit before"
    assert bounds["scipy"] >= Version("1.16.3"), "a flaw in its hulls before"
