"""How quantities are written."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from optimizer.report.measures import (
    Metric,
    Us,
    duration,
    energy_figures,
    figures,
    fuel_in_measures,
    in_measures,
    kilowatt_hours,
    measures,
    quarters,
    served_at,
)


@pytest.mark.parametrize(
    ("value", "count", "text"),
    [
        (0.0, 2, "0"),
        (0.0314, 2, "0.031"),
        (0.70, 2, "0.7"),
        (9.96, 2, "10"),
        (314.0, 2, "310"),
        (11.31, 3, "11.3"),
        (-2.26, 2, "-2.3"),
        (123456.0, 2, "120000"),
    ],
)
def test_figures(value: float, count: int, text: str) -> None:
    assert figures(value, count) == text


@given(st.floats(1e-6, 1e9), st.integers(1, 6))
def test_figures_are_near_and_have_no_exponent(value: float, count: int) -> None:
    text = figures(value, count)
    assert "e" not in text
    assert float(text) == pytest.approx(value, rel=0.5 * 10 ** (1 - count) + 1e-9)


def test_a_leading_one_has_a_third_figure() -> None:
    assert [energy_figures(v) for v in (124.3, 1.27, 94.6, 246.0)] == ["124", "1.27", "95", "250"]


@pytest.mark.parametrize(
    ("minutes", "text"),
    [(0, "0 min"), (7.4, "7 min"), (43, "45 min"), (58, "1 h"), (162, "2 h 40 min")],
)
def test_duration(minutes: float, text: str) -> None:
    assert duration(minutes) == text


# 1 kWh is 3.6 MJ, 1 lb is 0.45359237 kg, 1 ft is 0.3048 m, all by definition; 1 US quart is
# 0.946 352 946 L by definition; 0 degC is 32 degF and 100 degC is 212 degF.
def test_electricity_is_told_as_it_is_sold() -> None:
    assert kilowatt_hours(3.6) == "1 kWh"


@pytest.mark.parametrize(
    ("kg", "text"),
    [(0.0061, "6.1 g"), (0.0234, "25 g"), (0.4, "400 g"), (0.9999, "1 kg"), (1.254, "1.25 kg")],
)
def test_metric_food(kg: float, text: str) -> None:
    assert Metric().food(kg) == text


@pytest.mark.parametrize(
    ("kg", "text"),
    [(0.001, "10 mL"), (0.65, "650 mL"), (0.999, "1 L"), (1.62, "1.6 L"), (4.57, "4.55 L")],
)
def test_metric_water(kg: float, text: str) -> None:
    assert Metric().water(kg) == text


def test_the_rest_in_metric() -> None:
    metric = Metric()
    assert metric.fuel(0.0314) == "31 g"
    assert metric.fuel(1.83) == "1.8 kg"
    assert metric.fuel(11.31, 3) == "11.3 kg"
    assert metric.energy(31.4) == "31 MJ"
    assert metric.temperature(84.6) == "85 °C"
    assert metric.height(600.0) == "600 m"


@pytest.mark.parametrize(
    ("kg", "text"),
    [(0.02835, "1 oz"), (0.4, "14 oz"), (0.4536, "1 lb"), (0.9979, "2 lb 3 oz")],
)
def test_us_food(kg: float, text: str) -> None:
    assert Us().food(kg) == text


@pytest.mark.parametrize(
    ("kg", "text"),
    [
        (0.01, "1/4 cup"),
        (0.2366, "1 cup"),
        (0.355, "1 1/2 cups"),
        (0.9464, "4 cups"),
        (1.893, "2 qt"),
        (2.6, "2 3/4 qt"),
    ],
)
def test_us_water(kg: float, text: str) -> None:
    assert Us().water(kg) == text


def test_the_rest_in_us() -> None:
    us = Us()
    assert us.fuel(0.45359237) == "1 lb"
    assert us.fuel(0.1) == "3.5 oz"
    assert us.energy(1.0) == "0.95 thousand BTU"
    assert us.temperature(100.0) == "212 °F"
    assert us.temperature(0.0) == "32 °F"
    assert us.height(304.8) == "1000 ft"


def test_quarters_never_vanish() -> None:
    assert quarters(0.01) == "1/4"
    assert quarters(2.0) == "2"


def test_temperatures_in_a_text() -> None:
    text = "Hot food should read at least 60 degC; not -4.0 degC."
    assert in_measures(text, measures("metric")) == (
        "Hot food should read at least 60 °C; not -4 °C."
    )
    assert in_measures(text, measures("us")) == "Hot food should read at least 140 °F; not 25 °F."


# 0.45359237 kg and 16 oz to the pound, exactly (international avoirdupois pound)
@pytest.mark.parametrize(
    ("text", "nearest", "up"),
    [
        ("454 g more of butane", "1 lb more of butane", "1.1 lb more of butane"),
        ("227 g more of butane", "8.01 oz more of butane", "9 oz more of butane"),
        ("2.9 kg of sticks more", "6.39 lb of sticks more", "6.4 lb of sticks more"),
        ("one more 2.5 L pot", "one more 2.5 L pot", "one more 2.5 L pot"),
        ("0.50 kWh of current", "0.50 kWh of current", "0.50 kWh of current"),
    ],
)
def test_weights_in_a_text(text: str, nearest: str, up: str) -> None:
    assert fuel_in_measures(text, Us()) == nearest
    assert fuel_in_measures(text, Us(), up=True) == up
    assert fuel_in_measures(text, Metric()) == text


@pytest.mark.parametrize(
    ("rule", "usual", "careful", "words"),
    [
        ("hot", 85.0, 78.9, "about 85 °C, perhaps only 78"),
        ("hot", 85.0, 83.5, "about 85 °C"),
        ("hot", 60.5, 59.4, "about 60 °C, perhaps only 59"),
        ("at", 50.0, 45.0, "about 50 °C, perhaps only 45"),
        ("any", 50.0, 20.0, "about 50 °C"),
    ],
)
def test_how_hot_it_is_served(rule: str, usual: float, careful: float, words: str) -> None:
    assert served_at(Metric(), rule, usual, careful, 60.0) == words
