"""Settings that hold for every test."""

import sys
from collections.abc import Iterator

import pytest
from hypothesis import settings

# No deadline: the first call of a function loads its library, and machines differ.
settings.register_profile("fuelthrift", deadline=None)
settings.load_profile("fuelthrift")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Leave out what takes minutes, unless it is asked for by its mark."""
    if "nightly" not in config.option.markexpr:
        left_out = [item for item in items if item.get_closest_marker("nightly")]
        config.hook.pytest_deselected(items=left_out)
        items[:] = [item for item in items if item not in left_out]


@pytest.fixture(autouse=True)
def _own_main() -> Iterator[None]:
    """Put the main module back: a page that is tested takes its place, and new processes run it."""
    main = sys.modules["__main__"]
    yield
    sys.modules["__main__"] = main


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


@pytest.fixture(scope="session")
def small() -> str:
    """Give a household that is planned at once: one dish, one morning."""
    return SMALL
