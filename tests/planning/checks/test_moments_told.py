"""A clock minute, as the checker says it."""

import pytest

from optimizer.planning.checks.clock import told_min


@pytest.mark.parametrize(
    ("minute", "words"),
    [(0, "00:00 of day 1"), (1439, "23:59 of day 1"), (1440 + 65, "01:05 of day 2")],
)
def test_a_minute_is_told_by_the_clock_and_the_day(minute, words):
    assert told_min(minute) == words
