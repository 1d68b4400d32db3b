"""Clock times, hours and days."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic_core import PydanticCustomError

from optimizer.scenario.clock import read_days, read_time, read_window


@given(st.integers(0, 23), st.integers(0, 59))
def test_every_minute_of_a_day_can_be_written(hour, minute) -> None:
    assert read_time(f"{hour:02}:{minute:02}") == read_time(f"{hour}:{minute:02}")
    assert read_time(f"{hour:02}:{minute:02}") == 60 * hour + minute


@pytest.mark.parametrize(
    "given", ["24:00", "12:60", "7", "7:5", "-1:30", "12:30:00", "", "noon", 450, 7.5, None, True]
)
def test_what_is_no_time(given) -> None:
    with pytest.raises(PydanticCustomError, match="clock time"):
        read_time(given)


@pytest.mark.parametrize(
    "given", ["06:00-09:30", "6:00 - 9:30", "06:00 to 09:30", "06:00\u201309:30"]
)
def test_hours(given) -> None:
    assert read_window(given) == (360, 570)


def test_hours_until_midnight() -> None:
    assert read_window("22:00-24:00") == (1320, 1440)


@pytest.mark.parametrize("given", ["06:00", "06:00-06:00", "09:00-06:00", "06:00-25:00", 6, None])
def test_what_is_no_stretch(given) -> None:
    with pytest.raises(PydanticCustomError):
        read_window(given)


@pytest.mark.parametrize(
    ("given", "days"),
    [
        ("every day", None),
        ("Every Day", None),
        (3, (3,)),
        ("3", (3,)),
        ("day 3", (3,)),
        ("days 2-4", (2, 3, 4)),
        ("2 to 4", (2, 3, 4)),
        ([3, 1], (1, 3)),
        (["days 1-2", 2, "day 5"], (1, 2, 5)),
        ("day 366", (366,)),
    ],
)
def test_days(given, days) -> None:
    assert read_days(given) == days


@pytest.mark.parametrize(
    "given", [0, -1, 367, "day 0", "days 4-2", "1-99999", "9" * 50, True, 1.0, None, [], [[1]], {}]
)
def test_what_is_no_day(given) -> None:
    with pytest.raises(PydanticCustomError):
        read_days(given)
