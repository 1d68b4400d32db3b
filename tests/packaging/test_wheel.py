"""The wheel carries the program and its data, and nothing else."""

import subprocess
import sys
from email.parser import Parser
from pathlib import Path
from zipfile import ZipFile

import pytest

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> ZipFile:
    folder = tmp_path_factory.mktemp("wheel")
    words = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)]
    subprocess.run(words, cwd=ROOT, check=True, capture_output=True)
    (made,) = folder.glob("*.whl")
    return ZipFile(made)


def inside(wheel: ZipFile) -> dict[str, bytes]:
    """What the wheel holds beside its own description."""
    return {name: wheel.read(name) for name in wheel.namelist() if ".dist-info/" not in name}


def described(wheel: ZipFile, part: str) -> str:
    (name,) = (name for name in wheel.namelist() if name.endswith(f".dist-info/{part}"))
    return wheel.read(name).decode("utf-8")


def files(folder: str) -> dict[str, bytes]:
    found = (path for path in (ROOT / folder).rglob("*") if path.is_file())
    kept = (path for path in found if "__pycache__" not in path.parts)
    return {path.relative_to(ROOT).as_posix(): path.read_bytes() for path in kept}


def test_every_table_and_scenario_came_along_unchanged(wheel: ZipFile):
    data = {f"optimizer/_{name}": content for name, content in files("data").items()}
    assert "optimizer/_data/tables/fuels.csv" in data
    assert "optimizer/_data/scenarios/outage_weekend.yaml" in data
    assert {n: c for n, c in inside(wheel).items() if n.startswith("optimizer/_data/")} == data


def test_nothing_but_the_program_and_its_data_is_installed(wheel: ZipFile):
    packages = {
        name: content for name in ("optimizer", "app") for name, content in files(name).items()
    }
    program = {n: c for n, c in inside(wheel).items() if not n.startswith("optimizer/_data/")}
    assert program == packages


def test_type_checkers_see_the_types(wheel: ZipFile):
    assert "optimizer/py.typed" in wheel.namelist()


def test_the_command_is_installed(wheel: ZipFile):
    assert "fuelthrift = optimizer.cli:main" in described(wheel, "entry_points.txt").splitlines()


def test_test_libraries_are_asked_for_by_tests_alone(wheel: ZipFile):
    needed = Parser().parsestr(described(wheel, "METADATA")).get_all("Requires-Dist")
    always = " ".join(line for line in needed if "extra ==" not in line).lower()
    assert "pulp" in always
    assert not [name for name in ("pytest", "hypothesis", "ortools", "ruff") if name in always]
