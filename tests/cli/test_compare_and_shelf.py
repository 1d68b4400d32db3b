"""``compare`` and ``check --shelf``, as a person and as a program would ask."""

import json

import pytest
from jsonschema import validate
from typer.testing import CliRunner

from optimizer import shelf
from optimizer.cli import app

NUMBER = {"type": "number"}
WAY = {
    "type": "object",
    "additionalProperties": False,
    "required": ["stove", "fuel_mj", "cost", "heat", "serve_c", "serve_c_low", "tending_minutes"],
    "properties": {
        **{key: {"type": "string"} for key in ("stove", "fuel", "pot", "finish")},
        "cooker": {"type": ["string", "null"]},
        "pressure": {"type": "boolean"},
        "fuel_kg": {"type": ["number", "null"]},
        **dict.fromkeys(("fuel_mj", "cost", "tending_minutes", "serve_c", "serve_c_low"), NUMBER),
        **{key: {"type": "integer"} for key in ("on", "off", "ready", "serve")},
        "heat": {"type": "object", "additionalProperties": NUMBER, "minProperties": 7},
    },
}
SCHEMA = {
    "type": "object",
    "required": ["version", "dish", "ways", "refusals"],
    "properties": {
        "version": {"const": 1},
        "ways": {"type": "array", "items": WAY},
        "refusals": {"type": "array", "items": {"required": ["code", "reason"]}},
    },
}


def run(*arguments: str):
    return CliRunner().invoke(app, list(arguments))


def test_every_way_is_told_with_its_heat_in_hundred_parts():
    said = run("compare", "--dish", "lentil stew")
    assert said.exit_code == 0
    text = " ".join(said.stdout.split())
    heats = text.split("heat: ")[1:]
    assert len(heats) >= 4
    for heat in heats:
        told = (
            heat.split("lighting")[0] + "lighting" + heat.split("lighting")[1].split("%")[0] + "%"
        )
        assert sum(int(w) for w in told.replace("%", " ").split() if w.isdigit()) == 100
    assert "Ways that do not work" in text


def test_no_line_is_wider_than_a_terminal():
    for arguments in (
        ("compare", "--dish", "bean_stew"),
        ("compare", "--dish", "beef_stew", "--units", "us"),
        ("check", "--shelf"),
        ("check", "--shelf", "e"),
    ):
        said = run(*arguments)
        assert said.exit_code == 0
        assert max(len(line) for line in said.stdout.splitlines()) <= 80


def test_a_program_gets_json_and_nothing_else():
    said = run("compare", "--dish", "rice", "--json", "-")
    told = json.loads(said.stdout)
    validate(told, SCHEMA)
    way = told["ways"][0]
    assert sum(way["heat"].values()) == pytest.approx(way["fuel_mj"])
    costs = [way["cost"] for way in told["ways"]]
    assert costs == sorted(costs)


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("compare", "--dish", "bean_stw"), "did you mean bean_stew?"),
        (("compare", "--dish", "rice", "--day", "3"), "not on the menu of day 3, but of day 1"),
        (("check", "--shelf", "stiks"), "did you mean sticks"),
    ],
)
def test_what_is_not_there_is_told_with_what_is_near(arguments, words):
    said = run(*arguments)
    assert said.exit_code == 2
    assert words in said.stderr


def test_a_dish_without_a_way_ends_with_one(tmp_path):
    file = tmp_path / "cold.yaml"
    text = (shelf.data_folder() / "scenarios" / "outage_weekend.yaml").read_text(encoding="utf-8")
    file.write_text(
        text.replace("bean_stew, rice", "bean_stew")
        .replace("pressure_6l: 1", "")
        .replace("altitude: 320 m", "altitude: 2600 m"),
        encoding="utf-8",
    )
    said = run("compare", str(file), "--dish", "bean_stew")
    assert said.exit_code == 1
    assert "use a pressure pot" in " ".join(said.stdout.split())


def test_the_whole_shelf_is_listed():
    said = run("check", "--shelf").stdout
    for kind in ("fuels", "stoves", "pots", "materials", "cookers", "foods", "dishes"):
        for name in getattr(shelf.load(), kind):
            assert f"  {name}: " in said


@pytest.mark.parametrize(
    ("word", "words"),
    [
        ("stick_stove", ["power: 3.27 kW", "efficiency: 0.25", "efficiency_spread", "source: "]),
        ("BEAN_STEW", ["soak: 480 min", "dried red kidney beans 80 g", "seen in print"]),
        ("packed_box", ["crumpled newspaper", "thickness: 102 mm", "gap: 0.25"]),
    ],
)
def test_a_thing_is_told_with_numbers_spread_and_source(word, words):
    said = run("check", "--shelf", word).stdout
    assert all(w in said for w in words)
