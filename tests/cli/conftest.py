"""A small scenario in a file, and the command line run in this process."""

import json
import signal
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from click.testing import Result
from typer.testing import CliRunner

from optimizer.cli import app
from optimizer.report.result import json_schema

SMALL = """\
title: One cold morning
people: 2
days: 1
place: {altitude: 100 m, kitchen: 15 degC, outdoors: 10 degC, water: 10 degC}
cook_hours: ["06:00-08:00"]
fuels:
  sticks: {stock: 3 kg, price: 0.50 EUR / kg}
  propane: {stock: 1 x 465 g, price: 9.50 EUR / 465 g}
stoves: {stick_stove: 1, gas_burner: 1}
pots: {pot_2_5l: 1}
cookers: {packed_box: 1}
menu:
  - {meal: breakfast, at: "07:30", dishes: [porridge]}
"""


@pytest.fixture
def run() -> Iterator[Callable[..., Result]]:
    """Run one command; the handler of Ctrl-C must be the same afterwards."""
    runner, before = CliRunner(), signal.getsignal(signal.SIGINT)
    yield lambda *words: runner.invoke(app, [str(word) for word in words])
    assert signal.getsignal(signal.SIGINT) is before


@pytest.fixture
def file(tmp_path: Path) -> Path:
    """Give a scenario file without a fault."""
    path = tmp_path / "morning.yaml"
    path.write_text(SMALL, encoding="utf-8")
    return path


@pytest.fixture
def bad(tmp_path: Path) -> Path:
    """Give a scenario file with three faults."""
    path = tmp_path / "bad.yaml"
    text = SMALL.replace("days: 1", "days: one").replace("stock: 3 kg", "stock: 3")
    path.write_text(text.replace("title:", "titel:"), encoding="utf-8")
    return path


@pytest.fixture(scope="session")
def parsed() -> Callable[[str], Any]:
    """Read a result and hold it against the schema."""
    validator = jsonschema.Draft202012Validator(json_schema())

    def read(text: str) -> Any:
        result = json.loads(text)
        validator.validate(result)
        return result

    return read
