"""README's example is what the program really says, and its commands are those that are run."""

import re
import shlex
from pathlib import Path

from typer.testing import CliRunner

from optimizer.cli import app

README = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"```\n(.*?)```", README, re.DOTALL)


def said(*arguments: str) -> list[str]:
    return CliRunner().invoke(app, list(arguments)).stdout.splitlines()


def test_the_worked_example_is_the_real_output():
    example = next(block for block in BLOCKS if block.startswith("Three dark days"))
    lines = said("plan")
    for line in example.splitlines():
        assert line == "..." or line in lines


def test_the_least_change_is_the_real_output():
    example = next(block for block in BLOCKS if "No plan is possible" in block)
    file = Path(__file__).parents[2] / "data" / "scenarios" / "short_of_fuel.yaml"
    lines = said("plan", str(file))
    assert all(line in lines for line in example.splitlines())


def test_the_days_are_the_real_output():
    example = next(block for block in BLOCKS if block.startswith("The store lasts"))
    lines = said("days", "--only-days", "--time-limit", "120")
    assert all(line == "..." or line in lines for line in example.splitlines())


def test_the_shopping_list_is_the_real_output():
    example = next(block for block in BLOCKS if block.startswith("To last 7 days"))
    lines = said("buy", "--days", "7")
    assert all(line in lines for line in example.splitlines())


def test_the_sweep_is_the_real_output():
    command = next(block for block in BLOCKS if block.startswith("fuelthrift sweep"))
    example = next(block for block in BLOCKS if block.startswith("Two days alone"))
    lines = said(*shlex.split(command)[1:], "--jobs", "1")
    assert all(line in lines for line in example.splitlines())


def test_the_readme_begins_with_the_job_in_one_paragraph():
    title, job, *_ = README.split("\n\n")
    assert title == "# fuelthrift"
    assert "hot, safe" in job


def test_the_two_commands_set_themselves_up():
    commands = [block.strip() for block in BLOCKS if block.startswith("python3 -m venv")]
    assert [command.split()[-1] for command in commands] == ["plan", ".venv/bin/pytest"]


def test_the_licence_is_there_in_full():
    assert "MIT License" in README
    assert 'THE SOFTWARE IS PROVIDED "AS IS"' in README
