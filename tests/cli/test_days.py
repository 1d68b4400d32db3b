"""``fuelthrift days`` as a person and as a program would ask."""

import json
import os
import signal

import pytest

from optimizer.studies.endurance import study

SHORT = "data/scenarios/short_of_fuel.yaml"


def test_the_days_come_first_and_each_part_once(run, file):
    said = run("days", file, "--only-days")
    assert said.exit_code == 0
    lines = said.stdout.splitlines()
    assert lines[0].startswith("The store lasts ")
    assert "One cold morning" in lines
    for part in ("What ends first", "If nobody knows", "When sticks fail", "Mind"):
        assert len([line for line in lines if line.startswith(part)]) == 1
    assert max(map(len, lines)) <= 80


def test_json_alone_is_json(run, file, tmp_path):
    said = run("days", file, "--only-days", "--json", "-")
    told = json.loads(said.stdout)
    assert told["days"] >= 1
    path = tmp_path / "days.json"
    also = run("days", file, "--only-days", "--json", path)
    assert also.stdout.startswith("The store lasts")
    assert json.loads(path.read_text(encoding="utf-8"))["days"] == told["days"]


@pytest.mark.slow
def test_changes_and_cases_are_looked_at(run, file):
    said = run("days", file, "--json", "-")
    told = json.loads(said.stdout)
    assert {each["sort"] for each in told["cases"]} == {"people", "weather", "stoves"}
    assert {"cooker", "held"} <= {each["sort"] for each in told["changes"]}
    assert told["low_days"] <= told["days"] <= told["high_days"]


def test_up_to(run, file):
    said = run("days", file, "--only-days", "--up-to", "2")
    assert said.exit_code == 0
    assert said.stdout.startswith("The store lasts beyond the 2 days")


def test_a_store_for_less_than_a_day_has_exit_code_one_and_the_least_change(run):
    said = run("days", SHORT)
    assert said.exit_code == 1
    assert said.stdout.startswith("The store does not last one day")
    assert "more would do" in said.stdout
    told = json.loads(run("days", SHORT, "--json", "-").stdout)
    assert told["days"] == 0
    assert told["plan"]["status"] == "infeasible"


def test_bad_input_is_told_at_once(run, bad, file):
    said = run("days", bad)
    assert said.exit_code == 2
    assert "titel" in said.stderr
    assert "stock" in said.stderr
    for words, key in (
        (("--up-to", "0"), "--up-to"),
        (("--up-to", "999"), "--up-to"),
        (("--gap", "2"), "--gap"),
        (("--time-limit", "0"), "--time-limit"),
        (("--goal", "mony"), "--goal"),
    ):
        said = run("days", file, *words)
        assert said.exit_code == 2
        assert key in said.stderr
        assert "Traceback" not in said.output


def test_a_limit_before_any_number(run, file):
    said = run("days", file, "--time-limit", "1e-9")
    assert said.exit_code == 3
    assert "allow more time" in said.stderr


def test_a_file_that_cannot_be_written(run, file, tmp_path):
    said = run("days", file, "--only-days", "--json", tmp_path / "no" / "days.json")
    assert said.exit_code == 4
    assert said.stdout.startswith("The store lasts")


def test_ctrl_c_keeps_what_was_found(run, file, monkeypatch):
    first = study._first

    def then_stop(*given) -> None:
        first(*given)
        os.kill(os.getpid(), signal.SIGINT)

    monkeypatch.setattr(study, "_first", then_stop)
    said = run("days", file)
    assert said.exit_code == 130
    assert said.stdout.startswith("The store lasts")
    assert "Not everything was looked at" in said.stdout


def test_ctrl_c_before_any_number(run, file, monkeypatch):
    whole = study.how_long

    def stop(*given, **more):
        os.kill(os.getpid(), signal.SIGINT)
        return whole(*given, **more)

    monkeypatch.setattr(study, "how_long", stop)
    said = run("days", file)
    assert said.exit_code == 130
    assert "stopped before" in said.stderr
