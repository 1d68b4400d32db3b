"""Hours, lengths, volumes and losses, rounded to what is known."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from optimizer.report.kitchen import hours, hours_band, length, loss, volume
from optimizer.report.measures import measures

METRIC, US = measures("metric"), measures("us")


@pytest.mark.parametrize(
    ("value_h", "written"),
    [
        (0.0, "0 min"),
        (0.4, "20 min"),
        (0.7, "40 min"),
        (1.0, "1 h"),
        (5.3, "5 1/2 h"),
        (5.2, "5 h"),
        (11.6, "12 h"),
        (math.inf, "over 14 h"),
    ],
)
def test_hours_to_half_an_hour(value_h, written):
    assert hours(value_h) == written


@pytest.mark.parametrize(
    ("value_h", "written"), [(0.99, "50 min"), (5.9, "5 1/2 h"), (11.9, "11 h")]
)
def test_promised_hours_are_rounded_down(value_h, written):
    assert hours(value_h, down=True) == written


@given(st.floats(0, 20))
def test_no_more_is_promised_than_there_is(value_h):
    text = hours(value_h, down=True).removesuffix(" h").replace(" 1/2", ".5")
    told = float(text.removesuffix(" min")) / 60 if "min" in text else float(text)
    assert told <= value_h + 1e-9


def test_a_band_stands_behind_its_middle():
    assert hours_band(6.1, 4.9, 7.6) == "about 6 h (5 to 7 1/2)"
    assert hours_band(math.inf, 12.2, math.inf) == "over 14 h (12 to over 14)"


def test_lengths_volumes_and_losses_in_both_measures():
    assert (length(0.1016, METRIC), length(0.1016, US)) == ("10 cm", "4 inch")
    assert (volume(0.0465, METRIC), volume(0.0465, US)) == ("46 L", "12 gal")
    # 1 W/K is 1.896 BTU/h for each degree Fahrenheit
    assert (loss(1.0, METRIC), loss(1.0, US)) == ("1 W per °C", "1.9 BTU/h per °F")
