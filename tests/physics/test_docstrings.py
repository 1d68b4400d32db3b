"""Every public function of physics and trials states its units, its errors and its source."""

import importlib
import inspect
import pkgutil
import re

import pytest

from optimizer import physics, trials

SUFFIX_UNITS = {
    "_j": "J",
    "_j_k": "J/K",
    "_j_kg": "J/kg",
    "_j_kgk": "J/(kg K)",
    "_j_mol": "J/mol",
    "_w": "W",
    "_w_k": "W/K",
    "_w_mk": "W/(m K)",
    "_w_m2k": "W/(m2 K)",
    "_m2k_w": "m2 K/W",
    "_kg": "kg",
    "_kg_m3": "kg/m3",
    "_m": "m",
    "_m2": "m2",
    "_m3": "m3",
    "_m_s": "m/s",
    "_m2_s": "m2/s",
    "_s": "s",
    "_min": "min",
    "_h": "h",
    "_pa": "Pa",
    "_c": "degC",
    "_k": "K",
}
WORD_UNITS = {"hours": "h", "minutes": "min"}
BOOKKEEPING = {  # what was written down of an outage, and what remains of it: no physics
    f"optimizer.trials.{name}"
    for name in (
        *("burn", "course", "diary", "log_check", "moment"),
        *("record", "remains", "replan", "thermometer", "otherwise"),
    )
}
MODULES = [
    name
    for package in (physics, trials)
    for module in pkgutil.iter_modules(package.__path__)
    if (name := f"{package.__name__}.{module.name}") not in BOOKKEEPING
]


def public_functions(module):
    """Names and functions; a cached function counts as what it wraps."""
    for name, member in inspect.getmembers(importlib.import_module(module), callable):
        function = inspect.unwrap(member)
        own = getattr(function, "__module__", None) == module
        if inspect.isfunction(function) and own and not name.startswith("_"):
            yield name, function


FUNCTIONS = [
    pytest.param(function, id=f"{module}.{name}")
    for module in MODULES
    for name, function in public_functions(module)
]


def unit_of(name):
    endings = [suffix for suffix in SUFFIX_UNITS if name.endswith(suffix)]
    return SUFFIX_UNITS[max(endings, key=len)] if endings else WORD_UNITS.get(name, "-")


def test_the_functions_are_found():
    names = {parameter.id.rsplit(".", 1)[-1] for parameter in FUNCTIONS}
    assert {"boiling_point_c", "specific_heat_j_kgk", "heated_through_s", "credit"} <= names


@pytest.mark.parametrize("function", FUNCTIONS)
def test_each_parameter_states_its_unit(function):
    text = inspect.getdoc(function)
    for name in inspect.signature(function).parameters:
        entry = re.search(rf"^{name} : .*\n(?:    .*\n)*?    .*\[(.+)\]$", text, re.MULTILINE)
        assert entry, f"{name} has no [unit]"
        assert entry[1] == unit_of(name), f"{name} says [{entry[1]}]"


@pytest.mark.parametrize("function", FUNCTIONS)
def test_what_comes_back_states_its_unit(function):
    unit = re.escape(unit_of(function.__name__))
    pattern = rf"Returns\n-+\n.*\n(?:    .*\n)*?    .*\[{unit}\]"
    assert re.search(pattern, inspect.getdoc(function))


@pytest.mark.parametrize("function", FUNCTIONS)
def test_errors_and_source_are_stated(function):
    text = inspect.getdoc(function)
    assert "Raises\n------\n" in text
    assert re.search(r"References\n-+\n\.\. \[1\] [A-Za-z0-9_.-]+, (table|eq|fig|p)", text)
