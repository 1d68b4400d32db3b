"""``fuelthrift sweep`` as a person and as a program would ask."""

import json
import os
import signal
import subprocess
import sys
import time

import pytest

from optimizer.cli import sweeping
from optimizer.studies.sweep import study

TINY = """\
title: One cold morning
people: 2
days: 1
place: {altitude: 100 m, kitchen: 15 degC, outdoors: 10 degC, water: 10 degC}
cook_hours: ["06:00-08:00"]
fuels: {sticks: {stock: 2 kg, price: 0.50 EUR / kg}}
stoves: {stick_stove: 1}
pots: {pot_2_5l: 1}
cookers: {packed_box: 1}
menu:
  - {meal: breakfast, at: "07:30", dishes: [porridge]}
"""
VARIED = ("--vary", "people=1..2", "--vary", "sticks=0.05,2 kg", "--vary", "stick_stove=0..1")
ONE = ("--jobs", 1)


@pytest.fixture
def tiny(tmp_path):
    path = tmp_path / "tiny.yaml"
    path.write_text(TINY, encoding="utf-8")
    return path


def test_a_row_for_each_point_and_what_was_wrong_with_some(run, tiny):
    said = run("sweep", tiny, *VARIED, *ONE)
    assert said.exit_code == 0
    lines = said.stdout.splitlines()
    assert lines[0] == "One cold morning: people x sticks x stick_stove"
    assert sum(line.startswith("  people ") and "kg" in line for line in lines) >= 8
    assert "8 points: 2 planned, 2 without a plan, 4 bad input." in lines
    assert "no stove" in said.stdout
    assert "more would do" in " ".join(said.stdout.split())
    assert "flames outdoors only" in " ".join(lines)
    assert max(map(len, lines)) <= 80


def test_json_alone_is_json(run, tiny):
    said = run("sweep", tiny, *VARIED, *ONE, "--json", "-")
    told = json.loads(said.stdout)
    assert (told["version"], told["points"], len(told["rows"])) == (1, 8, 8)
    assert told["varied"][1] == {"name": "sticks", "values": ["0.05 kg", "2 kg"]}
    assert {row["status"] for row in told["rows"]} == {"optimal", "infeasible", "bad_input"}
    assert [row["point"] for row in told["rows"]] == list(range(1, 9))
    assert all(len(row) == len(told["rows"][0]) for row in told["rows"])


def test_the_chart_is_a_page_of_its_own(run, tiny, tmp_path):
    page = tmp_path / "chart.html"
    said = run("sweep", tiny, "--vary", "people=1..2", "--vary", "sticks=1,2 kg", *ONE,
               "--chart", page, "--json", "-")  # fmt: skip
    assert said.exit_code == 0
    days = [row["days_lasted"] for row in json.loads(said.stdout)["rows"]]
    content = page.read_text(encoding="utf-8")
    assert "<svg" in content
    assert "Days lasted against sticks, kg and people" in content
    for number in days:
        assert f">{number}</text>" in content
    for strange in ("<script", "src=", 'href="http', "@import"):
        assert strange not in content


def test_every_fault_is_told_at_once(run, tiny, tmp_path):
    said = run(
        "sweep", tiny, "--vary", "stiks=4", "--vary", "people=0", "--vary", "sticks=4 m",
        "--out", tmp_path / "table.xls", "--jobs", 0, "--engine", "dask", "--no-days",
        "--chart", tmp_path / "c.html", "--goal", "mony", "--gap", 3,
    )  # fmt: skip
    assert said.exit_code == 2
    for key in ("--vary stiks", "--vary people", "--vary sticks", "--out", "--jobs", "--scheduler",
                "--chart", "--goal", "--gap"):  # fmt: skip
        assert f"{key}:" in said.stderr
    assert "Traceback" not in said.output


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ((), "nothing is varied"),
        (("--vary", "people=2", "--scheduler", "tcp://x:1"), "for --engine dask only"),
        (
            ("--vary", "people=2", "--engine", "dask", "--scheduler", "x", "--jobs", 2),
            "its workers",
        ),
    ],
)
def test_options_that_do_not_go_together(run, tiny, words, says):
    said = run("sweep", tiny, *words)
    assert said.exit_code == 2
    assert says in said.stderr


def test_a_cluster_that_is_not_there_is_bad_input(run, tiny, monkeypatch):
    monkeypatch.setattr("optimizer.studies.sweep.cluster.CONNECT_S", 0.2)
    words = ("--engine", "dask", "--scheduler", "tcp://127.0.0.1:9")
    said = run("sweep", tiny, "--vary", "people=2", *words)
    assert said.exit_code == 2
    assert "no scheduler answers at 'tcp://127.0.0.1:9'" in said.stderr
    assert "Traceback" not in said.output


def test_the_scenario_is_never_written_over(run, tiny):
    link = tiny.with_name("link.csv")
    link.symlink_to(tiny)
    said = run("sweep", tiny, "--vary", "people=2", "--out", link)
    assert said.exit_code == 2
    assert tiny.read_text(encoding="utf-8") == TINY


def test_a_bad_file_is_told_by_itself(run, bad):
    said = run("sweep", bad, "--vary", "people=2")
    assert said.exit_code == 2
    assert "titel" in said.stderr


def test_no_plan_at_any_point_has_exit_code_one(run, tiny):
    assert run("sweep", tiny, "--vary", "sticks=0.01,0.02 kg", *ONE).exit_code == 1


def test_a_table_that_cannot_be_written(run, tiny, tmp_path):
    said = run("sweep", tiny, "--vary", "people=2", *ONE, "--out", tmp_path / "no" / "table.csv")
    assert said.exit_code == 4
    assert "no folder" in said.stderr


def test_an_edited_file_is_not_mixed_with_what_there_is(run, tiny, tmp_path):
    out = ("--out", tmp_path / "table.csv")
    assert run("sweep", tiny, "--vary", "people=1..2", *ONE, *out).exit_code == 0
    again = run("sweep", tiny, "--vary", "people=1..2", *ONE, *out)
    assert "2 points (2 of them from before)" in again.stdout
    tiny.write_text(TINY.replace("stock: 2 kg", "stock: 1 kg"), encoding="utf-8")
    said = run("sweep", tiny, "--vary", "people=1..2", *ONE, *out)
    assert said.exit_code == 2
    assert "--afresh" in said.stderr
    assert run("sweep", tiny, "--vary", "people=1..2", *ONE, *out, "--afresh").exit_code == 0
    assert (tmp_path / "table.csv~").exists()


def test_ctrl_c_keeps_what_there_is(run, tiny, tmp_path, monkeypatch):
    made = study.here

    def then_stop(grid, numbers):
        for count, rows in enumerate(made(grid, numbers)):
            if count == 1:
                os.kill(os.getpid(), signal.SIGINT)
            yield rows

    monkeypatch.setattr(study, "here", then_stop)
    out = tmp_path / "table.csv"
    said = run("sweep", tiny, *VARIED, *ONE, "--out", out)
    assert said.exit_code == 130
    assert "2 of 8 points" in said.stdout
    assert "run it again to go on" in said.stdout
    assert not out.exists()
    monkeypatch.undo()
    again = run("sweep", tiny, *VARIED, *ONE, "--out", out)
    assert again.exit_code == 0
    assert "8 points (2 of them from before)" in again.stdout


@pytest.mark.slow
def test_killed_and_started_again_it_goes_on(run, tiny, tmp_path):
    out, whole = tmp_path / "killed.csv", tmp_path / "whole.csv"
    part = out.with_name("killed.csv.part")
    varied = ("--vary", "people=1..2", "--vary", "sticks=1..10 kg", "--no-days")
    words = ["sweep", tiny, *varied, *ONE, "--out", out]
    begun = subprocess.Popen([sys.executable, "-m", "optimizer.cli", *map(str, words)])
    until = time.monotonic() + 60
    while time.monotonic() < until and not (part.exists() and part.read_bytes().count(b"\n") > 2):
        time.sleep(0.02)
    begun.kill()
    assert begun.wait() == -signal.SIGKILL
    there = part.read_bytes().count(b"\n") - 1
    assert 0 < there < 20
    said = run(*words)
    assert said.exit_code == 0
    assert f"20 points ({there} of them from before)" in said.stdout
    assert run("sweep", tiny, *varied, *ONE, "--out", whole).exit_code == 0
    assert out.read_bytes() == whole.read_bytes()
    assert not part.exists()


def test_as_many_workers_as_cores_but_no_more_than_points(run, tiny, monkeypatch):
    asked = []
    monkeypatch.setattr(os, "cpu_count", lambda: 64)
    monkeypatch.setattr(
        study, "cores", lambda g, numbers, jobs: asked.append(jobs) or study.here(g, numbers)
    )
    assert run("sweep", tiny, "--vary", "people=1..3").exit_code == 0
    assert asked == [3]
    assert sweeping.MOST_JOBS >= 64
