"""Households for the tests of what must never happen."""

from pathlib import Path

import pytest

SMALL = """\
# ours
title: One cold morning
people: {adults: 1, children: 1}
days: 1
place: {altitude: 100 m, kitchen: 15 degC, outdoors: 10 degC, water: 10 degC}
cook_hours: ["06:00-08:00"] # early
fuels:
  sticks: {stock: 3 kg, price: 0.50 EUR / kg}
  propane: {stock: 1 x 465 g, price: 9.50 EUR / 465 g}
stoves: {stick_stove: 1, gas_burner: 1}
pots: {pot_2_5l: 1}
cookers: {packed_box: 1}
menu:
  - {meal: breakfast, at: "07:30", dishes: [porridge]}
"""


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Keep what the front end keeps in a folder of this test."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    return tmp_path / "state"


@pytest.fixture(scope="session")
def small() -> str:
    """Give a household that is planned at once: one dish, one morning."""
    return SMALL
