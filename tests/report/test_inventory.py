"""The shelf on view: every thing found, every number with its unit, every source told."""

import json
import re

import pytest

from optimizer import shelf
from optimizer.report.inventory import (
    KINDS,
    SEEN,
    json_text,
    list_text,
    near,
    things_text,
    things_with,
)
from optimizer.report.layout import WIDTH

ALL = [(kind, thing) for kind in KINDS for thing in getattr(shelf.load(), kind).values()]


def words(text: str) -> str:
    return " ".join(text.split())


@pytest.mark.parametrize(("kind", "thing"), ALL, ids=[f"{k}-{t.name}" for k, t in ALL])
def test_a_thing_is_told_with_its_source_within_the_width(kind, thing):
    text = things_text([(kind, thing)])
    source = shelf.load().sources[thing.source_id]
    assert max(map(len, text.splitlines())) <= WIDTH
    assert words(f"source: {source.citation} ({SEEN[source.confidence]})") in words(text)
    assert words(thing.source_place) in words(text)
    assert not re.search(r"(?m)^  (?!source)\w+: (True|False|None)\b", text)


def test_the_list_has_every_thing_once():
    lines = list_text().splitlines()
    assert max(map(len, lines)) <= WIDTH
    for _, thing in ALL:
        assert any(line.startswith(f"  {thing.name}: ") for line in lines)


@pytest.mark.parametrize("kind", ["fuels", "stoves", "pots", "materials", "cookers"])
def test_every_spread_is_told(kind):
    table = getattr(shelf.load(), kind)
    spreads = [field for (of, field) in shelf.load().columns if of == kind and "spread" in field]
    text = things_text([(kind, next(iter(table.values())))])
    assert all(f"  {field}: " in text for field in spreads)


@pytest.mark.parametrize(
    ("word", "pieces"),
    [
        ("pressure_6l", ["volume: 6 L", "mass: 3 kg", "gauge: 80 kPa"]),
        ("propane", ["package: 0.465 kg", "density: "]),
        ("jar_1l", ["rated: ", "degC - vacuum: still so hot", "rated_after: 6 h"]),
        # the keys that a scenario file has for these columns
        ("stick_stove", ["start_fuel: 1.5 MJ", "start_time: 5 min"]),
        ("washing_water", ["serve_at: 45 degC", "heat_to: 60 degC"]),
    ],
)
def test_numbers_have_a_unit_that_people_read(word, pieces):
    text = things_text(things_with(word))
    assert [piece for piece in pieces if piece not in text] == []


@pytest.mark.parametrize(
    ("word", "rule"),
    [
        # FDA, Bad Bug Book, kidney-bean lectin: soak at least 5 h, boil at least 30 min
        (
            "bean_stew",
            "dried red kidney beans: soak at least 5 h, pour that water off, and keep at a full "
            "boil for at least 30 min",
        ),
        ("lentil_soup", "it foams and could block the vent: never in a pressure pot"),
        # Dorris et al. (2025), table: CDC and EPA 1 min, 3 min; EPA above 5,000 ft (1524 m)
        ("drinking_water", "a rolling boil of 1 min, above 1524 m of 3 min"),
        ("beef_stew", "stewing beef, in cubes of 2.5 cm: its centre has to reach 63 degC"),
    ],
)
def test_the_rules_of_a_dish_are_told(word, rule):
    (found,) = [f for f in things_with(word) if f == ("dishes", shelf.load().dishes[word])]
    assert f"rule: {rule}" in words(things_text([found]))


def test_no_rule_is_told_of_a_dish_that_has_none():
    text = things_text([("dishes", shelf.load().dishes["washing_water"])])
    assert "rule:" not in text
    assert "foams: no\n" in text


@pytest.mark.parametrize(
    ("word", "name"),
    [("STICK STOVE", "stick_stove"), ("Kidney Bean", "bean_stew"), ("k_st", "stick_stove")],
)
def test_names_and_labels_are_found_in_any_case(word, name):
    assert name in [thing.name for _, thing in things_with(word)]


@pytest.mark.parametrize(
    ("word", "name"),
    [("stiks", "sticks"), ("Kidny bean stew", "bean_stew"), ("crumpled newspapers", "newspaper")],
)
def test_near_names_and_labels(word, name):
    assert not things_with(word)
    assert name in near(word)


def test_nothing_is_near_nonsense():
    assert near("xyzzyxyzzy") == []


def test_json_holds_the_thing_and_its_source():
    told = json.loads(json_text(things_with("bean_stew")))
    bean = next(thing for thing in told["things"] if thing["name"] == "bean_stew")
    assert (told["version"], bean["table"], bean["soak_min"]) == (1, "dishes", 480)
    assert bean["ingredients"][0]["food"]["phaseolus"] is True
    assert bean["source"]["citation"]
