"""Turns at the fire, against every way there is."""

import random
from itertools import pairwise, product

import pytest

from optimizer.studies.rota import covered_min, turns_shared


def judged(cooks, minutes, houses):
    """Give what is made least: largest load, turns again, smallest load below 0."""
    loads = [sum(m for c, m in zip(cooks, minutes, strict=True) if c == h) for h in range(houses)]
    return max(loads), sum(a == b for a, b in pairwise(cooks)), -min(loads)


@pytest.mark.parametrize("seed", range(12))
def test_no_other_rota_is_fairer(seed):
    draw = random.Random(seed)
    houses = draw.choice([2, 3])
    minutes = [5 * draw.randint(1, 30) for _ in range(draw.randint(1, 7))]
    best = min(
        judged(cooks, minutes, houses) for cooks in product(range(houses), repeat=len(minutes))
    )
    assert judged(turns_shared(minutes, houses), minutes, houses) == best


def test_three_equal_days_of_two_households_by_hand():
    """Twelve turns of 60 min: six each, and never the same twice in a row."""
    cooks = turns_shared([60.0] * 12, 2)
    assert cooks == [0, 1] * 6


def test_the_first_of_the_file_begins():
    assert turns_shared([10.0, 500.0], 3)[0] == 0


def test_two_fires_at_once_are_minded_together():
    assert covered_min([(0, 60), (30, 90), (120, 130)]) == 100  # 90 and 10
    assert covered_min([]) == 0
