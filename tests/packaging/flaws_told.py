"""Ask the packages themselves: which security fixes came after the lowest version that we take?

``python -m tests.packaging.flaws_told`` fetches the newest source of each direct dependency from
the package index and reads the notes on its changes. It stands in for an advisory service where
none can be reached, and finds less: a package that keeps no notes in its source is told of as not
asked. Fails where a fix is told of in a version above our lowest.
"""

import io
import re
import sys
import tarfile
import tomllib
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import NamedTuple
from urllib.parse import urljoin
from urllib.request import urlopen

from packaging.requirements import Requirement
from packaging.utils import InvalidSdistFilename, canonicalize_name, parse_sdist_filename
from packaging.version import Version

INDEX = "https://pypi.org/simple/"
TIMEOUT_S = 300
LONGEST_NOTE = 5_000_000
NOTES = re.compile(r"chang|news|release|history|whats", re.IGNORECASE)
FIX = re.compile(
    r"CVE-\d|GHSA-\w|vulnerab|insecure|security (fix|issue|release)|\(SEC\)", re.IGNORECASE
)
NO_FIX = re.compile(r"\b(CI|DOC|MAINT, CI|build\(deps\)):?\s")  # of their workshop, not of theirs
HEADING = re.compile(r"^\W*(?:\w+ )?v?(\d+\.\d+(?:\.\d+)*)(?:$|[\s,(\]])", re.MULTILINE)
IN_NAME = re.compile(r"(\d+\.\d+\.\d+)-(?:notes|changelog)")


class Told(NamedTuple):
    """A line of a package's notes that speaks of a flaw, and the version it stands under."""

    version: Version
    line: str


def lowest(project: Path) -> dict[str, Version]:
    """Give the lowest version we take of each direct dependency, from ``pyproject.toml``."""
    told = tomllib.loads(project.read_text(encoding="utf-8"))["project"]
    groups = [told["dependencies"], *told["optional-dependencies"].values()]
    needs = [Requirement(text) for group in groups for text in group]
    return {
        canonicalize_name(need.name): Version(bound.version)
        for need in needs
        for bound in need.specifier
        if bound.operator in {">=", "=="}
    }


def fixes(name: str, text: str) -> Iterator[Told]:
    """Give what the notes in one file tell of flaws; ``name`` may carry the version itself."""
    of_file = IN_NAME.search(name)
    version = Version(of_file[1]) if of_file else None
    for line in text.splitlines():
        heading = HEADING.match(line)
        if heading and not of_file:
            version = Version(heading[1])
        if version and FIX.search(line) and not NO_FIX.search(line):
            yield Told(version, line.strip())


def newest_source(package: str) -> str | None:
    """Give the address of a package's newest source that is no trial version."""
    page = f"{INDEX}{package}/"
    with urlopen(page, timeout=TIMEOUT_S) as answer:
        links = re.findall(r'href="([^"#]+)', answer.read().decode())
    found: dict[Version, str] = {}
    for link in links:
        try:
            version = parse_sdist_filename(link.rsplit("/", 1)[-1])[1]
        except InvalidSdistFilename:
            continue
        if not version.is_prerelease:
            found[version] = urljoin(page, link)
    return found[max(found)] if found else None


def notes(package: str) -> dict[str, str]:
    """Give the notes on changes in a package's newest source, by file."""
    address = newest_source(package)
    if address is None or not address.endswith(".tar.gz"):
        return {}
    with urlopen(address, timeout=TIMEOUT_S) as answer:
        packed = io.BytesIO(answer.read())
    with tarfile.open(fileobj=packed) as source:
        wanted = [m for m in source.getmembers() if is_note(m)]
        files = {m.name: source.extractfile(m) for m in wanted}
        return {n: f.read().decode("utf-8", "replace") for n, f in files.items() if f is not None}


def is_note(member: tarfile.TarInfo) -> bool:
    """Say whether a file of a source tells of changes, by its name."""
    named = NOTES.search(member.name) and not member.name.endswith(".py")
    return bool(named) and member.isfile() and member.size < LONGEST_NOTE


def main() -> int:
    """Tell of every fix above our lowest version, and of who told nothing; 1 if there is a fix."""
    bounds = lowest(Path("pyproject.toml"))
    with ThreadPoolExecutor(4) as pool:
        told = dict(zip(bounds, pool.map(notes, bounds), strict=True))
    late = {
        (package, fix)
        for package, files in told.items()
        for name, text in files.items()
        for fix in fixes(name, text)
        if fix.version > bounds[package]
    }
    for package, fix in sorted(late):
        print(f"{package} {fix.version} (we take {bounds[package]}): {fix.line}")
    asked = [package for package, files in told.items() if any(map(HEADING.search, files.values()))]
    print("asked:", *asked)
    print("tell of nothing, not asked:", *(package for package in bounds if package not in asked))
    return 1 if late else 0


if __name__ == "__main__":
    sys.exit(main())
