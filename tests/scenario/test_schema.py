"""The JSON Schema that ``check --schema`` prints agrees with what is read."""

import json
from datetime import date
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator
from ruamel.yaml import YAML

from optimizer.scenario.reading import json_schema
from optimizer.shelf import data_folder

EXAMPLES = sorted(Path(str(data_folder() / "scenarios")).glob("*.yaml"))


@pytest.fixture(scope="module")
def validator():
    return Draft202012Validator(json.loads(json.dumps(json_schema(), allow_nan=False)))


def plain(text):
    """Plain data as JSON has it."""

    def turn(node):
        if isinstance(node, dict):
            return {str(key): turn(value) for key, value in node.items()}
        if isinstance(node, list):
            return [turn(value) for value in node]
        return node.isoformat() if isinstance(node, date) else node

    return turn(YAML(typ="safe", pure=True).load(text))


def test_it_is_a_schema() -> None:
    Draft202012Validator.check_schema(json_schema())
    assert json_schema()["$schema"] == "https://json-schema.org/draft/2020-12/schema"


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_the_examples_fit(validator, example) -> None:
    assert [e.message for e in validator.iter_errors(plain(example.read_text("utf-8")))] == []


def test_the_small_scenario_fits(validator, good) -> None:
    assert validator.is_valid(plain(good))


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("people:", "peeple:"),
        ("days: 2", "days: 0"),
        ("days: 2", "days: two"),
        ("600 m", "600"),
        ("where: outdoors", "where: garden"),
        ("count: 1,", "cuont: 1,"),
        ("goal: money", "currency: euros"),
        ("[porridge, tea]", "[]"),
    ],
)
def test_it_refuses_what_it_can_tell(validator, changed, old, new) -> None:
    assert not validator.is_valid(plain(changed((old, new))))


def test_every_top_key_of_the_contract_is_there() -> None:
    schema = json_schema()
    assert set(schema["properties"]) == {
        "title", "people", "households", "diets", "place", "weather", "start", "currency", "days",
        "cook_hours", "cooks", "fuels", "stoves", "pots", "cookers", "foods", "materials",
        "dishes", "menu", "goal", "confidence", "reserve", "shop", "cold",
    }  # fmt: skip
    assert schema["additionalProperties"] is False


def test_no_default_is_null() -> None:
    assert '"default": null' not in json.dumps(json_schema())
