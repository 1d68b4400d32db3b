"""Households for the tests of what must never happen."""

from pathlib import Path

import pytest


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Keep what the front end keeps in a folder of this test."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    return tmp_path / "state"


EVIL = "![p](http://evil.example/p.png)"  # a picture asked of another machine, in Markdown
HOSTILE = f"{EVIL} <script>alert(1)</script> \"' onload=alert(2) x='"
HOSTILE_TEXT = f"""\
title: '{HOSTILE.replace("'", "''")}'
people: {{adults: 1, children: 1}}
days: 2
place: {{altitude: 100 m, kitchen: 15 degC, outdoors: 10 degC, water: 10 degC}}
cook_hours: ["06:00-08:00", "16:00-18:00"]
fuels:
  '{EVIL} f': {{like: sticks, label: '=1+1 {EVIL} <b>fuel', stock: 6 kg, price: 0.50 EUR / kg}}
  propane: {{stock: 1 x 465 g, price: 9.50 EUR / 465 g}}
stoves:
  '{EVIL} s': {{like: stick_stove, label: '{EVIL} <b>stove', fuel: '{EVIL} f'}}
  gas_burner: 1
pots: {{'{EVIL} p': {{like: pot_2_5l, label: '{EVIL} <b>pot'}}}}
cookers: {{'{EVIL} c': {{like: packed_box, label: '{EVIL} <b>box'}}}}
dishes: {{'{EVIL} d': {{like: porridge, label: '{EVIL} <b>dish'}}}}
menu:
  - {{meal: '@SUM(1) {EVIL} <b>meal', at: "07:30", dishes: ['{EVIL} d']}}
  - {{meal: supper, at: "17:30", dishes: [lentil_soup]}}
"""


@pytest.fixture(scope="session")
def hostile() -> str:
    """Give a household all of whose words would do harm in a page, a table or a picture."""
    return HOSTILE_TEXT


BOILING = """\
fuel: propane
pot: pot_2_5l
air: 15 degC
altitude: 100 m
cold: {fuel: 30 g, water: 2 kg, water_left: 1.95 kg, water_from: 12 degC, water_to: 99 degC,
  time: 12 min}
"""


@pytest.fixture(scope="session")
def boiling() -> str:
    """Give a boiling test of a gas burner."""
    return BOILING
