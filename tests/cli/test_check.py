"""``fuelthrift check``: a scenario read, and told what is wrong with it."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import jsonschema
from click.testing import Result
from ruamel.yaml import YAML

Run = Callable[..., Result]


def test_a_good_file(run: Run, file: Path) -> None:
    told = run("check", file)
    assert told.exit_code == 0
    lines = told.stdout.splitlines()
    assert lines[0] == "One cold morning"
    assert "  days     1, 1 meals, 1 dishes" in lines
    assert lines[-1] == "no problems found"


def test_the_demo(run: Run) -> None:
    told = run("check")
    assert told.exit_code == 0
    assert told.stdout.startswith("Three dark days at Fennel House\n")


def test_every_problem_is_listed(run: Run, bad: Path) -> None:
    told = run("check", bad)
    assert told.exit_code == 2
    assert told.stdout == ""
    assert len(told.stderr.splitlines()) >= 3


def test_problems_as_json(run: Run, bad: Path, parsed: Callable[[str], Any]) -> None:
    told = run("check", bad, "--json", "-")
    assert told.exit_code == 2
    assert len(parsed(told.stdout)["problems"]) >= 3


def test_no_problems_as_json(run: Run, file: Path, parsed: Callable[[str], Any]) -> None:
    told = run("check", file, "--json", "-")
    assert told.exit_code == 0
    assert parsed(told.stdout)["problems"] == []


def test_the_schema_accepts_the_good_and_refuses_the_bad(run: Run, file: Path, bad: Path) -> None:
    told = run("check", "--schema")
    assert told.exit_code == 0
    validator = jsonschema.Draft202012Validator(json.loads(told.stdout))
    yaml = YAML(typ="safe")
    assert validator.is_valid(yaml.load(file))
    assert not validator.is_valid(yaml.load(bad))
