"""The result file is version 1 of the contract, and nothing that is not passes for it."""

import copy
import json
import math
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from optimizer.errors import Problem, SaveError
from optimizer.model.plan import FuelUse, Goal, Plan
from optimizer.report.result import json_schema, json_text, to_json
from optimizer.scenario.saving import write_whole

# The keys of version 1, typed from the contract.
TOP = (
    "version title start status gap goal steps fires fuels boil_all boil_all_same_stoves saved "
    "worth cautions problems"
)
STEP = (
    "day meal item portions batch serve_rule stove fuel pot pressure finish cooker soak_from light "
    "on boil off move reboil serve hold_minutes ingredients water_kg fuel_kg fuel_mj cost done "
    "serve_c serve_c_low chance_done chance_hot drawn"
)
FUEL = "name used_kg used_mj stock_kg stock_mj left_kg cost p10_mj p90_mj"
EXTRA = {"saved_any_stove", "changes", "begins", "under_way", "chances", "shares", "rota"}
PROBLEM = Problem("shed.yaml", 3, "fuels.sticks", "unit", "'12' has no unit; write '12 kg'")


@pytest.fixture(scope="session")
def valid() -> Callable[[Any], bool]:
    """Tell whether a result fits the schema."""
    schema = json_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    return jsonschema.Draft202012Validator(schema).is_valid


def test_keys_are_those_of_the_contract(plan: Plan) -> None:
    result = to_json(plan)
    assert set(result) == set(TOP.split()) | EXTRA
    assert all(list(step) == STEP.split() for step in result["steps"])
    assert all(list(fuel) == FUEL.split() for fuel in result["fuels"])
    assert list(result["fires"][0]) == ["stove", "day", "from", "to", "start_mj"]
    assert list(result["goal"]) == ["name", "value", "bound"]
    assert result["boil_all"] is not None
    assert list(result["boil_all"]) == ["status", "fuel_mj", "cost", "fire_minutes", "short"]
    assert result["saved"] is not None
    assert list(result["saved"]) == ["fuel_mj", "fuel_fraction", "cost", "fire_minutes"]
    assert list(result["worth"][0])[:3] == ["what", "value", "unit"]
    assert list(result["worth"][0])[3:] == ["dual", "mixed", "holds_from", "holds_to", "holds_unit"]
    assert list(result["cautions"][0]) == ["code", "text", "items"]


def test_values(plan: Plan) -> None:
    result = to_json(plan)
    assert result["start"] == "2027-01-15"
    assert result["fires"][0]["from"] == 361
    assert result["fires"][0]["to"] == 383
    stew = result["steps"][2]
    assert stew["soak_from"] == -60
    assert stew["reboil"] == [{"on": 1092, "boil": 1101, "off": 1106}]
    assert stew["ingredients"][0] == {"food": "dried red kidney beans", "kg": 0.4}
    assert result["fuels"][2]["used_kg"] is None
    assert result["problems"] == []


@pytest.mark.parametrize("name", ["plan", "dearer", "impossible"])
def test_plans_are_valid(
    request: pytest.FixtureRequest, valid: Callable[[Any], bool], name: str
) -> None:
    assert valid(json.loads(json_text(to_json(request.getfixturevalue(name)))))


def test_no_plan_at_all_is_valid(valid: Callable[[Any], bool]) -> None:
    bad = json.loads(json_text(to_json(None, [PROBLEM])))
    assert valid(bad)
    assert bad["status"] is None
    assert bad["problems"] == [
        {
            "file": "shed.yaml",
            "line": 3,
            "key": "fuels.sticks",
            "code": "unit",
            "message": "'12' has no unit; write '12 kg'",
        }
    ]
    late = json.loads(json_text(to_json(None, [], "time_limit")))
    assert valid(late)
    assert (late["status"], late["gap"], late["steps"]) == ("time_limit", None, [])


def _without(*path: str | int) -> Callable[[Any], None]:
    def mangle(result: Any) -> None:
        for key in path[:-1]:
            result = result[key]
        del result[path[-1]]

    return mangle


def _with(value: Any, *path: str | int) -> Callable[[Any], None]:
    def mangle(result: Any) -> None:
        for key in path[:-1]:
            result = result[key]
        result[path[-1]] = value

    return mangle


@pytest.mark.parametrize(
    "mangle",
    [
        _without("problems"),
        _without("changes"),
        _without("steps", 0, "chance_hot"),
        _without("fires", 0, "from"),
        _without("goal", "bound"),
        _with(2, "version"),
        _with("fine", "status"),
        _with("15 January", "start"),
        _with(1, "surprise"),
        _with(1, "steps", 0, "surprise"),
        _with(1, "fires", 0, "surprise"),
        _with(1, "boil_all", "surprise"),
        _with(366.5, "steps", 0, "on"),
        _with("06:05", "steps", 0, "serve"),
        _with(None, "steps", 0, "move_"),
        _with("boiled", "steps", 0, "finish"),
        _with("warm", "steps", 0, "serve_rule"),
        _with(-0.1, "steps", 0, "fuel_mj"),
        _with(1.2, "steps", 0, "chance_done"),
        _with(0, "steps", 0, "day"),
        _with(-1.0, "gap"),
        _with(None, "fuels", 0, "used_mj"),
        _with("3", "worth", 0, "value"),
        _with("all", "cautions", 0, "items"),
        _with("unknown", "boil_all", "status"),
    ],
)
def test_what_is_mangled_is_refused(
    plan: Plan, valid: Callable[[Any], bool], mangle: Callable[[Any], None]
) -> None:
    result = copy.deepcopy(json.loads(json_text(to_json(plan))))
    assert valid(result)
    mangle(result)
    assert not valid(result)


def test_what_is_not_known_is_null(plan: Plan) -> None:
    told = replace(plan, gap=math.inf, goal=Goal("money", 0.3, -math.inf))
    result = to_json(told)
    assert (result["gap"], result["goal"]["bound"]) == (None, None)


def test_what_is_not_a_number_never_gets_out(plan: Plan) -> None:
    use = FuelUse("sticks", math.nan, 1.0, 2.0, 3.0, 4.0, 5.0)
    with pytest.raises(ValueError, match="JSON compliant"):
        json_text(to_json(replace(plan, fuels=(use,))))


def test_a_file_is_written_whole(tmp_path: Path) -> None:
    path = tmp_path / "result.json"
    path.write_text("before", encoding="utf-8")
    write_whole(path, "{°}\n")
    assert path.read_text(encoding="utf-8") == "{°}\n"
    assert list(tmp_path.iterdir()) == [path]


def test_what_cannot_be_written_leaves_what_was_there(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "result.json"
    path.write_text("before", encoding="utf-8")

    def full(self: Path, target: Path) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    with pytest.raises(SaveError, match=r"result.json: cannot be written: No space"):
        write_whole(path, "after")
    assert path.read_text(encoding="utf-8") == "before"
    assert list(tmp_path.iterdir()) == [path]


@pytest.mark.parametrize("target", ["missing/result.json", "."])
def test_no_such_place(tmp_path: Path, target: str) -> None:
    with pytest.raises(SaveError, match="cannot be written"):
        write_whole(tmp_path / target, "{}")
    assert list(tmp_path.iterdir()) == []
