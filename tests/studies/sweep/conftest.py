"""A household so small that a point takes a fraction of a second."""

from collections.abc import Callable

import pytest

from optimizer.studies.sweep.grid import Effort, Grid, grid_of

TINY = """\
title: One cold morning
people: 2
days: 1
place: {altitude: 100 m, kitchen: 15 degC, outdoors: 10 degC, water: 10 degC}
weather: [{outdoors: 8 degC, wind: 1 m/s}]
cook_hours: ["06:00-08:00"]
fuels:
  sticks: {stock: 2 kg, price: 0.50 EUR / kg}
stoves: {stick_stove: 1}
pots: {pot_2_5l: 1}
cookers: {packed_box: 1}
menu:
  - {meal: breakfast, at: "07:30", dishes: [porridge]}
"""


@pytest.fixture
def grid() -> Callable[..., Grid]:
    """Make a grid of the tiny household."""

    def made(*texts: str, text: str = TINY, effort: Effort | None = None) -> Grid:
        return grid_of("morning.yaml", text, texts, effort or Effort())

    return made
