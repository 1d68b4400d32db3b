"""A small scenario without a fault, and what is told of one with faults."""

from collections.abc import Callable

import pytest

from optimizer.errors import InputError, Problem
from optimizer.scenario.reading import parse

GOOD = """\
title: Two days
people: {adults: 2, children: 3}
days: 2
place: {altitude: 600 m, kitchen: 12 degC, outdoors: -3 degC, water: 8 degC}
cook_hours: ["06:00-09:00", "16:00-19:00"]
fuels:
  sticks:
    stock: 12 kg
    price: 0.25 EUR / kg
  propane: {stock: 2 x 465 g, price: 9.50 EUR / 465 g}
stoves:
  stick_stove: {count: 1, where: outdoors}
  gas_burner: 1
pots:
  pot_4l: 2
  pot_6l: 1
cookers:
  packed_box: {packing: {material: newspaper, thickness: 4 inch}}
menu:
  - meal: breakfast
    at: "07:30"
    dishes: [porridge, tea]
  - meal: supper
    at: "18:30"
    on: [2]
    dishes: [lentil_stew]
goal: money
"""


@pytest.fixture(scope="session")
def good() -> str:
    return GOOD


@pytest.fixture(scope="session")
def changed() -> Callable[..., str]:
    """Replace pieces of the good scenario; each piece has to be there."""

    def change(*pairs: tuple[str, str]) -> str:
        text = GOOD
        for old, new in pairs:
            assert old in text, f"not in the good scenario: {old!r}"
            text = text.replace(old, new, 1)
        return text

    return change


@pytest.fixture(scope="session")
def told() -> Callable[[str], list[Problem]]:
    """Problems of a text that has some."""

    def tell(text: str) -> list[Problem]:
        with pytest.raises(InputError) as caught:
            parse(text, "f.yaml")
        assert caught.value.problems, "an InputError that says nothing"
        return caught.value.problems

    return tell
