"""Cups and spoons: what is measured out is near to what is weighed."""

import re
from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from optimizer import shelf
from optimizer.report.cups import CUP_L, Cups, measured

ML = {"tsp": 5.0, "tbsp": 15.0, "cup": 240.0, "cups": 240.0}  # a household cup, exact by its rule


def millilitres(text: str) -> float:
    """Read back what is measured out."""
    total = 0.0
    for part in text.split(" + "):
        found = re.fullmatch(r"((?:\d+ ?)?(?:\d/\d)?|\d+) (tsp|tbsp|cups?)", part)
        assert found, text
        total += float(sum(Fraction(each) for each in found[1].split())) * ML[found[2]]
    return total


@given(st.floats(0.005, 60))
def test_what_is_measured_out_is_near_to_what_is_meant(cups: float) -> None:
    meant = 1000 * CUP_L * cups
    assert millilitres(measured(cups)) == pytest.approx(meant, rel=0.13, abs=0.7)


@example(2.125)  # between two measures
@given(st.floats(1, 60))
def test_a_cup_and_more_is_within_a_twentieth(cups: float) -> None:
    meant = 1000 * CUP_L * cups
    assert millilitres(measured(cups)) == pytest.approx(meant, rel=0.05)


@pytest.mark.parametrize(
    ("cups", "told"),
    [
        (1 / 48, "1 tsp"),
        (1 / 16, "1 tbsp"),
        (0.25, "1/4 cup"),
        (0.34, "1/3 cup"),
        (3 / 16, "3 tbsp"),
        (0.499, "1/2 cup"),
        (9 / 16, "1/2 cup + 1 tbsp"),
        (0.99, "1 cup"),
        (1.125, "1 cup + 2 tbsp"),
        (1.34, "1 1/3 cups"),
        (2.125, "2 cups + 2 tbsp"),
        (2.84, "2 3/4 cups"),
        (12.5, "12 1/2 cups"),
        (19.6, "20 cups"),
    ],
)
def test_told_as_a_cook_says_it(cups: float, told: str) -> None:
    assert measured(cups) == told


def test_foods_are_known_by_name_and_by_label(scenario) -> None:
    cups = Cups(scenario)
    (oats,) = [i.food for i in scenario.items[0].dish.ingredients if i.food.name == "oats"]
    kg = shelf.load().measures["oats"].kg
    assert cups.food(oats.name, 2 * kg) == cups.food(oats.label, 2 * kg) == "2 cups"
    assert cups.food("nothing of the kind", 1.0) == ""
    assert cups.food(oats.name, 0.0) == ""


def test_much_water_is_measured_by_the_jug(scenario) -> None:
    assert Cups(scenario).water(0.24) == "1 cup"
    assert Cups(scenario).water(20.0) == ""
