"""``fuelthrift plan``: what it prints, what it writes, how it ends."""

import json
import os
import signal
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from click.testing import Result
from typer.testing import CliRunner

from optimizer import errors
from optimizer.cli import app
from optimizer.model.household import Scenario
from optimizer.model.plan import Goal, Plan
from optimizer.shelf import data_folder

Run = Callable[..., Result]
Parsed = Callable[[str], Any]


class Planner:
    """Stands in for the planner: keeps what it was asked, and answers as it is told."""

    def __init__(self, answer: Callable[..., Plan]) -> None:
        self.answer = answer
        self.scenario: Scenario | None = None
        self.options: dict[str, Any] = {}

    def __call__(self, scenario: Scenario, **options: Any) -> Plan:
        self.scenario, self.options = scenario, options
        return self.answer(options["progress"])


def nothing(status: Any = "infeasible") -> Plan:
    return Plan(
        "One cold morning", None, status, None, Goal("money", None, None), changes=("wait",)
    )


@pytest.fixture
def planner(monkeypatch: pytest.MonkeyPatch) -> Planner:
    """Put a planner in place that finds no plan."""
    stand_in = Planner(lambda progress: nothing())
    monkeypatch.setattr("optimizer.planning.planner.plan", stand_in)
    return stand_in


def test_a_plan_for_a_small_file(run: Run, file: Path) -> None:
    told = run("plan", file)
    assert told.exit_code == 0
    assert told.stderr == ""
    assert told.stdout.startswith("One cold morning\n2 people, 100 m above the sea")
    assert "  07:30  porridge  Breakfast. Serve 2 portions" in told.stdout
    assert max(map(len, told.stdout.splitlines())) <= 80


def test_us_measures(run: Run, file: Path) -> None:
    told = run("plan", file, "--units", "us")
    assert "2 people, 328 ft above the sea, kitchen 59 °F" in told.stdout


def test_json_alone_on_standard_output(run: Run, file: Path, parsed: Parsed) -> None:
    told = run("plan", file, "--json", "-")
    result = parsed(told.stdout)
    assert told.exit_code == 0
    assert told.stderr == ""
    assert result["title"] == "One cold morning"
    assert [step["serve"] for step in result["steps"]] == [450]
    assert result["status"] in {"optimal", "within_gap"}


def test_json_in_a_file_beside_the_text(
    run: Run, file: Path, tmp_path: Path, parsed: Parsed
) -> None:
    target = tmp_path / "result.json"
    told = run("plan", file, "--json", target)
    assert told.stdout.startswith("One cold morning\n")
    assert parsed(target.read_text(encoding="utf-8"))["problems"] == []


def test_without_a_file_the_demo_is_planned(run: Run, planner: Planner) -> None:
    told = run("plan")
    assert planner.scenario is not None
    assert told.stdout.startswith(planner.scenario.title)
    assert planner.scenario.title == "Three dark days at Fennel House"


def test_options_reach_the_planner(run: Run, file: Path, planner: Planner) -> None:
    words = "--goal energy,sticks --goal tending --confidence 0.95 --gap 0.05 --time-limit 7"
    run("plan", file, *words.split(), "--solver", "cbc")
    assert planner.scenario is not None
    assert planner.scenario.goals == ("energy", "sticks", "tending")
    assert planner.scenario.confidence == 0.95
    assert planner.options.pop("progress") is not None
    assert planner.options == {"gap": 0.05, "time_limit_s": 7.0, "solver": "cbc"}


def test_the_file_decides_what_no_option_says(run: Run, file: Path, planner: Planner) -> None:
    file.write_text(file.read_text() + "goal: tending\nconfidence: 0.8\n", encoding="utf-8")
    run("plan", file)
    assert planner.scenario is not None
    assert (planner.scenario.goals, planner.scenario.confidence) == (("tending",), 0.8)
    assert planner.options["gap"] == 0.01
    assert planner.options["solver"] == "highs"


def test_no_plan_is_an_answer(run: Run, file: Path, parsed: Parsed, planner: Planner) -> None:
    told = run("plan", file)
    assert told.exit_code == 1
    assert "No plan is possible with what there is." in told.stdout
    assert "  - wait" in told.stdout
    told = run("plan", file, "--json", "-")
    assert (told.exit_code, parsed(told.stdout)["status"]) == (1, "infeasible")
    assert parsed(told.stdout)["changes"] == ["wait"]


def test_too_little_fuel_is_found_by_the_real_planner(run: Run, file: Path) -> None:
    text = file.read_text().replace("3 kg", "10 g").replace("1 x 465 g", "1 x 1 g")
    file.write_text(text, encoding="utf-8")
    told = run("plan", file)
    assert told.exit_code == 1
    assert "No plan is possible with what there is." in told.stdout


def test_every_problem_of_file_and_options_at_once(run: Run, bad: Path) -> None:
    told = run("plan", bad, "--gap", "nan", "--time-limit", "0", "--confidence", "1")
    assert told.exit_code == 2
    assert told.stdout == ""
    lines = told.stderr.splitlines()
    assert [line for line in lines if line.startswith(f"{bad}:1: titel: unknown key")]
    assert [line for line in lines if line.startswith(f"{bad}:3: days: ")]
    assert [line for line in lines if line.startswith(f"{bad}:7: fuels.sticks.stock: ")]
    options = [line for line in lines if line.startswith("command line: --")]
    assert len(options) == 3


def test_problems_as_json(run: Run, bad: Path, parsed: Parsed) -> None:
    told = run("plan", bad, "--json", "-")
    result = parsed(told.stdout)
    assert told.exit_code == 2
    assert (result["status"], result["title"], result["steps"]) == (None, None, [])
    assert {problem["line"] for problem in result["problems"]} >= {1, 3, 7}
    assert "Traceback" not in told.stderr


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (["--goal", "mony"], "--goal: 'mony' is not a goal; did you mean money?"),
        (["--goal", "xyzzy"], "it can be money, energy, tending, sticks, propane"),
        (["--goal", "money,money"], "--goal: a goal is named twice"),
        (["--goal", ""], "--goal: '' is not a goal"),
    ],
)
def test_goals_are_checked(run: Run, file: Path, words: list[str], message: str) -> None:
    told = run("plan", file, *words)
    assert told.exit_code == 2
    assert message in told.stderr


@pytest.mark.parametrize(
    "words",
    [["--units", "metre"], ["--gap", "little"], ["--solver", "best"], ["--nonsense"], ["a", "b"]],
)
def test_usage(run: Run, words: list[str]) -> None:
    told = run("plan", *words)
    assert told.exit_code == 2
    assert "Usage:" in told.stderr


def test_missing_file_and_folder(run: Run, tmp_path: Path) -> None:
    for path in (tmp_path / "none.yaml", tmp_path):
        told = run("plan", path)
        assert told.exit_code == 2
        assert told.stderr.startswith(str(path))


def test_the_scenario_is_never_written_over(run: Run, file: Path) -> None:
    before = file.read_bytes()
    told = run("plan", file, "--json", file)
    assert told.exit_code == 2
    assert "is the scenario; it is kept" in told.stderr
    assert file.read_bytes() == before


def test_a_limit(run: Run, file: Path, planner: Planner, parsed: Parsed) -> None:
    def late(progress: object) -> Plan:
        raise errors.LimitError("no plan after 30 s; allow more time")

    planner.answer = late
    told = run("plan", file, "--json", "-")
    result = parsed(told.stdout)
    assert told.exit_code == 3
    assert "no plan after 30 s" in told.stderr
    assert (result["status"], result["gap"]) == ("time_limit", None)


def test_a_value_no_formula_holds_for(run: Run, file: Path, planner: Planner) -> None:
    def beyond(progress: object) -> Plan:
        raise errors.PhysicsError("altitude_m must lie in -430..9000, given 12000")

    planner.answer = beyond
    told = run("plan", file)
    assert told.exit_code == 2
    assert "altitude_m must lie in -430..9000, given 12000" in told.stderr


def test_a_defect_is_not_hidden(run: Run, file: Path, planner: Planner) -> None:
    def defect(progress: object) -> Plan:
        raise errors.CheckError("two pots on one stove")

    planner.answer = defect
    assert isinstance(run("plan", file).exception, errors.CheckError)


def test_what_cannot_be_written(run: Run, file: Path, tmp_path: Path, planner: Planner) -> None:
    told = run("plan", file, "--json", tmp_path / "missing" / "result.json")
    assert told.exit_code == 4
    assert told.stdout.startswith("One cold morning")  # the plan is not lost
    assert "cannot be written" in told.stderr


def test_interrupted_with_a_plan(run: Run, file: Path, planner: Planner) -> None:
    def stopped(progress: Callable[..., bool]) -> Plan:
        os.kill(os.getpid(), signal.SIGINT)
        assert progress(2.0, 1.0, 0.5) is False
        return nothing("stopped")

    planner.answer = stopped
    told = run("plan", file)
    assert told.exit_code == 130
    assert "Stopped early." in told.stdout


def test_interrupted_without_a_plan(run: Run, file: Path, planner: Planner, parsed: Parsed) -> None:
    def stopped(progress: Callable[..., bool]) -> Plan:
        os.kill(os.getpid(), signal.SIGINT)
        assert progress(2.0, None, None) is False
        raise errors.LimitError("no plan")

    planner.answer = stopped
    told = run("plan", file, "--json", "-")
    assert told.exit_code == 130
    assert parsed(told.stdout)["status"] == "stopped"
    assert "stopped before there was a plan" in told.stderr


def test_the_demo_as_a_cook_and_as_a_program_sees_it(
    run: Run, tmp_path: Path, parsed: Parsed
) -> None:
    target = tmp_path / "demo.json"
    told = run("plan", "--json", target)
    result = parsed(target.read_text(encoding="utf-8"))
    lines = told.stdout.splitlines()
    assert told.exit_code == 0
    assert max(map(len, lines)) <= 80
    assert lines[0] == result["title"]
    assert sum("Serve " in line or "Ready:" in line for line in lines) == len(result["steps"])
    assert sum("  Light the " in line for line in lines) == len(result["fires"])


def test_a_sheet_is_written_beside_the_text(tmp_path):
    sheet = tmp_path / "plan.html"
    told = CliRunner().invoke(app, ["plan", "--sheet", str(sheet), "--gap", "0.05"])
    assert told.exit_code == 0
    assert sheet.read_text(encoding="utf-8").startswith("<!doctype html>")


def test_a_sheet_never_replaces_the_scenario(tmp_path):
    file = tmp_path / "mine.yaml"
    text = (data_folder() / "scenarios" / "one_person_jar.yaml").read_text(encoding="utf-8")
    file.write_text(text, encoding="utf-8")
    told = CliRunner().invoke(app, ["plan", str(file), "--sheet", str(file)])
    assert told.exit_code == 2
    assert file.read_text(encoding="utf-8") == text


def test_a_sheet_that_cannot_be_written_ends_with_four(tmp_path):
    told = CliRunner().invoke(app, ["plan", "--sheet", str(tmp_path / "no" / "plan.html")])
    assert told.exit_code == 4


SHARED = """\
households: {mill: {adults: 1, brings: {sticks: 2 kg}}, weir: 1}
"""


def test_shares_of_households(run, file) -> None:
    file.write_text(file.read_text(encoding="utf-8") + SHARED, encoding="utf-8")
    words = run("plan", file, "--shares").stdout
    assert "Who cooks" in words
    assert "cost of its fuel" in words
    assert "cost of its fuel" not in run("plan", file).stdout
    result = json.loads(run("plan", file, "--json", "-").stdout)
    assert [share["household"] for share in result["shares"]] == ["mill", "weir"]
    assert sum(share["cost"] for share in result["shares"]) == pytest.approx(
        sum(fuel["cost"] for fuel in result["fuels"])
    )


def test_shares_of_nobody_are_told_so(run, file) -> None:
    assert "the scenario names no households" in run("plan", file, "--shares").stdout
