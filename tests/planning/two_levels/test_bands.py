"""What a torn day may burn, cut again and again: how the bands narrow."""

import pytest

from optimizer.planning.branching import _cut, _spread
from optimizer.planning.days import DayPlan


@pytest.mark.parametrize(
    ("cut", "left"),
    [
        ({"most": 3.0}, ("sticks", 0.0, 3.0)),
        ({"least": 3.0}, ("sticks", 3.0, 1e9)),
        ({}, ("sticks", 0.0, 1e9)),
    ],
)
def test_a_first_cut_leaves_one_side(cut, left):
    assert _cut((), "sticks", **cut) == (left,)


@pytest.mark.parametrize(
    ("cut", "left"),
    [
        ({"most": 3.0}, (2.0, 3.0)),
        ({"most": 9.0}, (2.0, 5.0)),
        ({"least": 3.0}, (3.0, 5.0)),
        ({"least": 1.0}, (2.0, 5.0)),
    ],
)
def test_a_second_cut_narrows_and_never_widens(cut, left):
    gas = ("propane", 0.5, 1.0)
    bands = (gas, ("sticks", 2.0, 5.0))
    assert _cut(bands, "sticks", **cut) == (gas, ("sticks", *left))


def test_how_far_a_torn_day_lies_apart():
    plans = [DayPlan((n,), 1.0, (("sticks", 1e6 * mj),)) for n, mj in enumerate((1.0, 4.0, 9.0))]
    # a quarter of a day at 1 MJ and three quarters at 4; whole days at 9 are no tear
    assert _spread((0.25, 0.75, 2.0), plans, "sticks", 0.5) == pytest.approx((1.5, 3.25))
    assert _spread((1.0, 3.0, 2.0), plans, "sticks", 0.5) == (0.0, 0.0)
    with pytest.raises(ValueError, match="zip"):
        _spread((0.25, 0.75), plans, "sticks", 0.5)
