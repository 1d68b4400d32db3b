"""``record`` and ``plan --from``: written down, read back, planned again, told."""

import json
from pathlib import Path

import pytest

from optimizer.scenario.logbook import log_path, read_log

TWO_DAYS = """\
title: Two cold days
people: {adults: 4, children: 2}
days: 2 # for now
place: {altitude: 100 m, kitchen: 15 degC, outdoors: 10 degC, water: 10 degC}
cook_hours: ["06:00-09:00", "15:00-17:30"]
fuels:
  sticks: {stock: 9 kg, price: 0.50 EUR / kg}
stoves: {stick_stove: 1} # of tin
pots: {pot_2_5l: 1, pot_4l: 1}
cookers: {packed_box: {packing: {material: sheep_wool, thickness: 15 cm}}}
menu:
  - {meal: breakfast, at: "07:30", dishes: [porridge]}
  - {meal: lunch, at: "12:30", dishes: [lentil_stew]}
  - {meal: supper, at: "18:00", dishes: [rice]}
"""


@pytest.fixture
def outage(tmp_path: Path) -> Path:
    path = tmp_path / "outage.yaml"
    path.write_text(TWO_DAYS, encoding="utf-8")
    return path


def test_record_writes_and_so_needs_a_file(run):
    result = run("record", "--left", "sticks=8 kg")
    assert result.exit_code == 2
    assert "FILE: record writes: name the scenario" in result.stderr


def test_a_weigh_in_is_written_and_told(run, outage):
    result = run("record", outage, "--left", "sticks=8.2 kg", "--at", "day 1 10:00")
    assert result.exit_code == 0, result.output
    assert "sticks: 8.2 kg left" in result.stdout
    assert "Left, day 1 10:00" in result.stdout
    assert outage.read_text(encoding="utf-8") == TWO_DAYS
    (entry,) = read_log(log_path(outage)).entries
    assert (entry.n, entry.at, entry.kind) == (1, 600, "fuel")


def test_several_things_at_once_are_entries_of_their_own(run, outage):
    words = ("--left", "sticks=8 kg", "--added", "sticks=2 x 5 kg", "--adults", 3, "--wet")
    result = run("record", outage, *words, "--at", "day 1 supper", "--note", "cousins")
    assert result.exit_code == 0, result.output
    found = read_log(log_path(outage)).entries
    assert [entry.kind for entry in found] == ["fuel", "fuel", "people", "sticks"]
    assert {entry.at for entry in found} == {18 * 60}
    assert {entry.note for entry in found} == {"cousins"}


def test_a_meal_and_its_temperature(run, outage):
    words = ("--meal", "lunch", "--dish", "lentil_stew", "--at", "day 1 12:30")
    result = run("record", outage, *words, "--temp", "131 degF", "--how", "eaten", "--units", "us")
    assert result.exit_code == 0, result.output
    kinds = [entry.kind for entry in read_log(log_path(outage)).entries]
    assert kinds == ["temperature", "meal"]
    assert "read 131 °F; it should read at least 140 °F" in " ".join(result.stdout.split())
    assert "throw the food away" in " ".join(result.stdout.split())


def test_every_problem_at_once_and_nothing_written(run, outage):
    words = ("--left", "stics=8", "--meal", "luch", "--stove", "gas", "--at", "day 1 12:30")
    result = run("record", outage, *words, "--until", "noon", "--wet", "--instead-of", 4)
    assert result.exit_code == 2
    for part in (
        "--until: expected a moment", "--instead-of: corrects one entry by one",
        "left: '8' has no unit", "did you mean 'lunch'", "unknown stove 'gas'",
    ):  # fmt: skip
        assert part in result.stderr, part
    assert "Traceback" not in result.output
    assert not log_path(outage).exists()


def test_when_it_was_has_to_be_said(run, outage):
    result = run("record", outage, "--left", "sticks=8 kg")
    assert result.exit_code == 2
    assert "--at: say when" in result.stderr
    for given in ("yesterday", "day 1 lunchtime", "day 8 supper"):
        told = run("record", outage, "--left", "sticks=8 kg", "--at", given)
        assert told.exit_code == 2
        assert "--at" in told.stderr


def test_an_entry_is_corrected_and_withdrawn_and_stays_in_the_file(run, outage):
    run("record", outage, "--left", "sticks=3 kg", "--at", "day 1 10:00")
    words = ("--at", "day 1 10:00", "--instead-of", 1)
    assert run("record", outage, "--left", "sticks=8.3 kg", *words).exit_code == 0
    result = run("record", outage, "--withdraw", 2, "--at", "day 1 11:00")
    assert "does not count any more" in result.stdout
    result = run("record", outage, "--json", "-")
    told = json.loads(result.stdout)
    assert [entry["counts"] for entry in told["entries"]] == [False, False, False]
    assert "3 kg" in log_path(outage).read_text(encoding="utf-8")
    assert run("record", outage, "--withdraw", 9, "--at", "day 1 11:00").exit_code == 2


def test_a_torn_line_is_told_and_the_rest_kept(run, outage):
    for kg in (8, 7):
        run("record", outage, "--left", f"sticks={kg}.0 kg", "--at", "day 1 10:00")
    log = log_path(outage)
    log.write_bytes(log.read_bytes()[:-20])
    result = run("record", outage, "--left", "sticks=6.5 kg", "--at", "day 1 11:00")
    assert result.exit_code == 0, result.output
    assert "line 2 of the log was lost" in result.stdout
    assert [e.left.value for e in read_log(log).entries] == [8.0, 6.5]  # type: ignore[attr-defined]  # all are weighings


def test_a_log_that_was_changed_is_told_with_its_line(run, outage):
    run("record", outage, "--left", "sticks=8 kg", "--at", "day 1 10:00")
    log = log_path(outage)
    log.write_bytes(log.read_bytes().replace(b"8 kg", b"9 kg"))
    for words in (("record", outage), ("plan", outage, "--from", "day 1 11:00")):
        result = run(*words)
        assert result.exit_code == 2
        assert f"{log}:1:" in result.stderr


def test_a_new_log_begins(run, outage):
    run("record", outage, "--left", "sticks=8 kg", "--at", "day 1 10:00")
    result = run("record", outage, "--new")
    assert result.exit_code == 0
    assert "outage.log.1.jsonl" in result.stdout
    assert "Nothing yet." in result.stdout


def test_where_the_log_cannot_be_written(run, outage):
    log_path(outage).mkdir()
    result = run("record", outage, "--left", "sticks=8 kg", "--at", "day 1 10:00")
    assert result.exit_code == 2
    assert "is not a plain file" in result.stderr


def test_the_plan_from_now_with_what_is_left(run, outage, parsed):
    run("record", outage, "--left", "sticks=6 kg", "--at", "day 1 10:00")
    result = run("plan", outage, "--from", "day 1 10:00")
    assert result.exit_code == 0, result.output
    first, second = result.stdout.splitlines()[:2]
    assert first == "From Day 1, 10:00 on, with 6 kg of sticks."
    assert second == "Under way: lentil stew in the packed box, for 12:30."
    assert "Counted anew" in result.stdout or "this is the pace of the plan" in result.stdout
    assert "12:30  lentil stew  Lunch. Serve 6 portions" in result.stdout
    assert "porridge" in result.stdout  # of day 2
    told = parsed(run("plan", outage, "--from", "day 1 10:00", "--json", "-").stdout)
    assert told["begins"] == 600
    assert [step["item"] for step in told["under_way"]] == ["lentil stew"]
    assert all(step["on"] >= 600 for step in told["steps"])
    assert told["fuels"][0]["stock_kg"] == pytest.approx(6.0)


def test_the_sheet_from_now_has_what_is_under_way(run, outage, tmp_path):
    sheet = tmp_path / "sheet.html"
    assert run("plan", outage, "--from", "day 1 10:00", "--sheet", sheet).exit_code == 0
    text = sheet.read_text(encoding="utf-8")
    assert "lentil stew" in text
    assert text.count("porridge") > 0


def test_from_the_start_is_the_ordinary_plan(run, outage, parsed):
    plain = parsed(run("plan", outage, "--json", "-").stdout)
    again = parsed(run("plan", outage, "--from", "day 1 00:00", "--json", "-").stdout)
    assert again == plain


def test_after_the_last_meal_nothing_is_left_to_plan(run, outage):
    result = run("plan", outage, "--from", "day 2 18:30")
    assert result.exit_code == 2
    assert "after the last meal" in result.stderr
    for wrong in ("soon", "day 2", "day 2 elevenses", "2027-01-16 12:00", "now"):
        told = run("plan", outage, "--from", wrong)
        assert told.exit_code == 2
        assert "--from" in told.stderr


def test_the_demo_can_be_planned_from_a_moment_and_not_followed(run):
    assert run("plan", "--from", "day 3 13:00").exit_code == 0
    result = run("plan", "--from", "day 3 13:00", "--follow")
    assert result.exit_code == 2
    assert "--follow writes into the log" in result.stderr


def test_a_plan_that_is_followed_is_what_burns_from_then_on(run, outage):
    result = run("plan", outage, "--from", "day 1 10:00", "--follow")
    assert "this plan is followed" in result.stdout
    entry = read_log(log_path(outage)).entries[0]
    assert (entry.kind, entry.at) == ("plan", 600)
    before = run("record", outage, "--json", "-")
    assert json.loads(before.stdout)["left"][0]["left_kg"] < 9
    again = run("plan", outage, "--from", "day 1 11:00")
    assert "lentil stew in the packed box" in again.stdout


def test_measured_numbers_are_taken_only_when_asked_for(run, outage):
    run("plan", outage, "--from", "day 1 00:00", "--follow")
    planned = json.loads(run("record", outage, "--json", "-").stdout)["left"][0]["left_kg"]
    assert planned == pytest.approx(9.0)
    moments = ("day 1 06:00", "day 1 12:00", "day 1 20:00", "day 2 12:00", "day 2 20:00")
    left = 9.0
    weigh = {"day 1 06:00": 0.0}
    for moment in moments[1:]:
        told = run("record", outage, "--meal", "supper", "--at", moment, "--json", "-")
        before = json.loads(told.stdout)
        weigh[moment] = before["left"][0]["left_kg"]
    for number in range(2, 6):
        run("record", outage, "--withdraw", number, "--at", "day 2 20:00")
    for moment in moments:
        burned = 0.0 if moment == moments[0] else 1.2 * (9.0 - weigh[moment])
        kg = f"sticks={left - burned:.3f} kg"
        assert run("record", outage, "--left", kg, "--at", moment).exit_code == 0
    (ratio,) = json.loads(run("record", outage, "--json", "-").stdout)["burned"]
    assert ratio["ratio"] == pytest.approx(1.2, rel=2e-3)
    assert ratio["why_not"] is None
    assert outage.read_text(encoding="utf-8") == TWO_DAYS
    result = run("record", outage, "--take", "stick_stove")
    assert result.exit_code == 0, result.output
    (again,) = json.loads(run("record", outage, "--json", "-").stdout)["burned"]
    assert again["ratio"] == pytest.approx(1.0, abs=0.05)  # lighting is not scaled
    text = outage.read_text(encoding="utf-8")
    assert "efficiency:" in text
    assert "# for now" in text
    assert outage.with_name("outage.yaml~").read_text(encoding="utf-8") == TWO_DAYS


def test_too_little_is_known_to_be_taken(run, outage):
    for stove, words in (("stick_stove", "weigh before and after"), ("gas", "gas")):
        result = run("record", outage, "--take", stove)
        assert result.exit_code == 2
        assert words in result.stderr
    for moment, kg in (("day 1 06:00", "9 kg"), ("day 1 12:00", "8 kg")):
        run("record", outage, "--left", f"sticks={kg}", "--at", moment)
    result = run("record", outage, "--take", "stick_stove")
    assert result.exit_code == 2
    assert "too few weigh-ins" in result.stderr
    assert outage.read_text(encoding="utf-8") == TWO_DAYS
