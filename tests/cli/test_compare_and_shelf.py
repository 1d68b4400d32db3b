"""``compare`` and ``check --shelf``, as a person and as a program would ask."""

import json
import re

import pytest
from jsonschema import validate
from typer.testing import CliRunner

from optimizer import shelf
from optimizer.cli import app
from optimizer.planning.explain import ABOUT

NUMBER = {"type": "number", "minimum": 0}
MINUTE = {"type": "integer"}
TEXT = {"type": "string", "minLength": 1}
PARTS = ("food", "water", "pot", "boiled_off", "pot_losses", "stove_losses", "start")


def exactly(**properties: object) -> dict[str, object]:
    """An object with these properties, all of them and no others."""
    return {
        "type": "object",
        "additionalProperties": False,
        "required": list(properties),
        "properties": properties,
    }


WAY = exactly(
    stove=TEXT, fuel=TEXT, pot=TEXT, cooker={"type": ["string", "null"]},
    finish={"enum": ["flame", "packed", "vacuum"]}, pressure={"type": "boolean"},
    fuel_mj=NUMBER, fuel_kg={"type": ["number", "null"]}, cost=NUMBER, tending_minutes=NUMBER,
    on=MINUTE, off=MINUTE, ready=MINUTE, done=MINUTE, serve=MINUTE,
    serve_c={"type": "number"}, serve_c_low={"type": "number"},
    heat=exactly(**{f"{part}_mj": NUMBER for part in PARTS}),
)  # fmt: skip
REFUSAL = exactly(
    stove=TEXT, pot=TEXT, cooker={"type": ["string", "null"]},
    code={"enum": sorted(ABOUT)}, reason=TEXT,
)  # fmt: skip
SCHEMA = exactly(
    version={"const": 1}, title=TEXT, dish=TEXT, day=MINUTE, meal=TEXT, serve=MINUTE,
    currency={"type": "string", "pattern": "^[A-Z]{3}$"},
    ways={"type": "array", "items": WAY}, refusals={"type": "array", "items": REFUSAL},
)  # fmt: skip


def run(*arguments: str):
    return CliRunner().invoke(app, list(arguments))


def test_every_way_is_told_with_its_heat_in_hundred_parts():
    said = run("compare", "--dish", "lentil stew")
    assert said.exit_code == 0
    text = " ".join(said.stdout.split())
    heats = text.split("heat: ")[1:]
    assert len(heats) >= 4
    for heat in heats:
        shares = re.match(r"(?:[a-z -]+ \d+ %(?:, )?)+", heat)
        assert shares
        assert sum(int(share) for share in re.findall(r"(\d+) %", shares[0])) == 100
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


@pytest.mark.parametrize("name", ["rice", "bean_stew", "drinking_water", "washing_water"])
def test_a_program_gets_json_and_nothing_else(name):
    said = run("compare", "--dish", name, "--json", "-")
    told = json.loads(said.stdout)
    validate(told, SCHEMA)
    assert told["dish"] == name
    way = told["ways"][0]
    assert sum(way["heat"].values()) == pytest.approx(way["fuel_mj"])
    costs = [way["cost"] for way in told["ways"]]
    assert costs == sorted(costs)


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("compare", "--dish", "bean_stw"), "did you mean bean_stew?"),
        (("compare", "--dish", "Kidny bean stew"), "did you mean bean_stew?"),
        (("compare", "--dish", "xyzzy"), "there are porridge, tea"),
        (("compare", "--dish", "tea", "--day", "9"), "but of day 1, 2, 3"),
        (("check", "--shelf", "xyzzyxyzzy"), "leave the word out for a list"),
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
        ("stick_stove", ["power: 4.44 kW", "efficiency: 0.18", "efficiency_spread", "source: "]),
        ("BEAN_STEW", ["soak: 480 min", "dried red kidney beans 80 g", "seen in print"]),
        ("packed_box", ["crumpled newspaper", "thickness: 102 mm", "gap: 0.25"]),
    ],
)
def test_a_thing_is_told_with_numbers_spread_and_source(word, words):
    said = run("check", "--shelf", word).stdout
    assert all(w in said for w in words)


@pytest.mark.parametrize("name", ["bean_stew", "kidney bean stew", "Kidney Bean Stew"])
def test_a_dish_is_found_by_name_or_label(name):
    assert run("compare", "--dish", name).stdout.startswith("kidney bean stew, supper of Friday")


@pytest.mark.parametrize(("day", "name"), [((), "Friday"), (("--day", "2"), "Saturday")])
def test_the_first_time_counts_or_the_day_that_is_named(day, name):
    said = run("compare", "--dish", "tea", *day).stdout
    assert said.startswith(f"tea, breakfast of {name}")


def test_equal_reasons_stand_in_one_line():
    said = " ".join(run("compare", "--dish", "rice").stdout.split())
    refused = said.partition("Ways that do not work")[2]
    assert refused.count("would be on the fire outside the cook hours") == 1


def test_json_of_a_comparison_goes_into_a_file_beside_the_text(tmp_path):
    path = tmp_path / "ways.json"
    said = run("compare", "--dish", "tea", "--json", str(path))
    assert said.stdout.startswith("tea, ")
    validate(json.loads(path.read_text(encoding="utf-8")), SCHEMA)


def test_a_comparison_that_cannot_be_written_ends_with_four(tmp_path):
    said = run("compare", "--dish", "tea", "--json", str(tmp_path / "no" / "where.json"))
    assert said.exit_code == 4


def test_the_shelf_is_given_to_a_program():
    told = json.loads(run("check", "--shelf", "jar_2l", "--json", "-").stdout)
    assert [thing["name"] for thing in told["things"]] == ["jar_2l"]
