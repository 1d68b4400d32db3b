"""What ``import optimizer`` offers, and what it does not load."""

import json
import subprocess
import sys

import pytest

import optimizer

ERRORS = {"CheckError", "FuelthriftError", "InputError", "LimitError", "PhysicsError", "SaveError"}
OPEN = {*ERRORS, "Plan", "Problem", "Scenario", "plan", "read"}


def loaded(code: str) -> set[str]:
    """Top names of the libraries that a fresh interpreter loads for some code."""
    watched = (
        "import sys, json; before = set(sys.modules)\n"
        f"{code}\n"
        "print(json.dumps([name.split('.')[0] for name in set(sys.modules) - before]))"
    )
    words = [sys.executable, "-c", watched]
    told = subprocess.run(words, capture_output=True, text=True, check=True)
    return set(json.loads(told.stdout.splitlines()[-1])) - {*sys.stdlib_module_names, "optimizer"}


def test_the_open_names_are_these():
    assert set(optimizer.__all__) == OPEN
    assert set(dir(optimizer)) >= OPEN


@pytest.mark.parametrize("name", sorted(OPEN))
def test_every_open_name_is_the_thing_itself(name: str):
    thing = getattr(optimizer, name)
    assert thing.__name__ == name
    assert vars(sys.modules[thing.__module__])[name] is thing


def test_another_name_is_no_attribute():
    with pytest.raises(AttributeError, match="no attribute 'plam'"):
        optimizer.plam  # noqa: B018  (reading it is the test)


def test_all_errors_are_one_family():
    assert all(issubclass(getattr(optimizer, name), optimizer.FuelthriftError) for name in ERRORS)


def test_import_optimizer_loads_no_library():
    assert loaded("import optimizer") == set()


def test_an_error_is_caught_without_loading_a_library():
    assert loaded("from optimizer import InputError") == set()


def test_the_parser_of_the_command_line_comes_alone():
    there = loaded("import optimizer.cli")
    assert "typer" in there
    assert not there & {"pandas", "streamlit", "pint", "pulp", "highspy", "numpy", "pydantic"}


def test_the_demonstration_loads_neither_pandas_nor_a_front_end():
    code = "from optimizer.cli import app\napp(['plan'], standalone_mode=False)"
    there = loaded(code)
    assert there >= {"highspy", "pulp", "chemicals"}
    assert not there & {"pandas", "streamlit", "altair", "CoolProp", "iapws", "pytest"}
