"""A quantity in the other system of measures, by the exact definitions of the units.

NIST Special Publication 811 (2008), appendix B: 1 ft = 0.3048 m, 1 in = 25.4 mm, 1 lb =
0.45359237 kg, 1 oz = 28.349523125 g, 1 mi/h = 0.44704 m/s, t/degF = 1.8 t/degC + 32.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from optimizer.units import convert, exchanged


@pytest.mark.parametrize(
    ("written", "us"),
    [
        ("304.8 m", "1000 ft"),
        ("0.254 m", "10 inch"),
        ("10 cm", "3.94 inch"),
        ("0 m", "0 ft"),
        ("45.359237 kg", "100 lb"),
        ("1 x 465 g", "1 x 16.4 oz"),
        ("12 degC", "54 degF"),
        ("-40 degC", "-40 degF"),
        ("4.4704 m/s", "10 mph"),
        ("0.60 EUR / kg", "0.272 EUR / lb"),
        ("9.50 EUR / 465 g", "9.50 EUR / 16.4 oz"),
    ],
)
def test_metric_is_shown_in_us_measures(written, us):
    assert exchanged(written, "us") == us
    assert exchanged(us, "us") == us


@pytest.mark.parametrize(
    ("written", "metric"),
    [("1000 ft", "305 m"), ("4 inch", "102 mm"), ("10 lb", "4.54 kg"), ("212 degF", "100 degC"),
     ("2 x 16 oz", "2 x 454 g"), ("1 EUR / lb", "2.2 EUR / kg"), ("10 mph", "4.47 m/s")],
)  # fmt: skip
def test_us_measures_are_shown_metric(written, metric):
    assert exchanged(written, "metric") == metric
    assert exchanged(metric, "metric") == metric


@pytest.mark.parametrize(
    "text", ["", "12", "unlimited", "1.2 kWh", "600 W/m^2", "5 K", "18 MJ/kg", "0.3 EUR / kWh",
             "12 wombats", "1e400 kg", "hello", "3 m of string",
             "1 EUR /", "1 EUR / a b"],
)  # fmt: skip
def test_what_has_no_other_way_stays(text):
    assert exchanged(text, "us") == exchanged(text, "metric") == text


@given(st.floats(0.01, 1e5), st.sampled_from(["m", "kg", "g", "mm", "L", "m/s"]))
def test_it_is_the_same_quantity_to_three_figures(value, unit):
    written = f"{value:.6g} {unit}"
    base = {"mm": "m", "g": "kg", "L": "m**3"}.get(unit, unit)
    assert convert(exchanged(written, "us"), base) == pytest.approx(
        convert(written, base), rel=6e-3
    )


def test_a_price_of_nothing_is_no_price():
    assert exchanged("1 EUR /  ", "us") == "1 EUR /"


@given(st.text(max_size=30))
def test_no_text_is_too_odd(text):
    assert isinstance(exchanged(text, "us"), str)
