"""The sliders say the same in both systems of measures."""

import pytest

from optimizer.report.slides import slides


@pytest.mark.parametrize("units", ["metric", "us"])
def test_a_slider_stands_within_its_ends_on_a_step(units):
    for slide in slides(units).values():
        for value in (-5.0, 0.0, 3.3, 17.0, 1e6):
            shown = slide.shown(value)
            assert slide.low <= shown <= slide.high
            assert (shown / slide.step) == pytest.approx(round(shown / slide.step))


# Exact definitions: 1 inch = 2.54 cm, 1 mile = 1609.344 m, 1 foot = 0.3048 m (NIST SP 811).
@pytest.mark.parametrize(
    ("name", "shown", "value"), [("thick", 4, 10.16), ("wind", 10, 4.4704), ("high", 1000, 304.8)]
)
def test_us_sliders_by_their_definitions(name, shown, value):
    slide = slides("us")[name]
    assert slide.value(shown) == pytest.approx(value, rel=1e-12)
    assert slide.shown(value) == shown


def test_both_have_the_same_sliders_and_the_unit_is_written_on_them():
    assert slides("us").keys() == slides("metric").keys()
    assert [slides("us")[name].label.split(", ")[1] for name in ("thick", "wind", "high")] == [
        "inches",
        "mph",
        "ft",
    ]
