"""Dishes that are drawn on, as the file says them."""

import pytest

from optimizer.scenario.reading import parse

DRAWN = """\
  - {meal: morning, at: "07:00", dishes: [{dish: tea, drawn: {10:00: 0.5 L, 07:30: 250 mL}}]}
"""


@pytest.fixture(name="text")
def _text(good):
    """The good scenario with one more meal."""
    head, menu, rest = good.partition("menu:\n")
    return head + menu + DRAWN + rest


def test_the_amount_is_the_sum_and_it_is_served_at_its_last_draw(text) -> None:
    item = next(item for item in parse(text).items if item.meal == "morning")
    assert item.serve_min == 600
    assert item.first_min == 450
    assert [each.before_min for each in item.drawn] == [150, 0]
    assert [each.share for each in item.drawn] == pytest.approx([1 / 3, 2 / 3])
    # a portion of tea is 3 g of leaves, 8 g of sugar, 350 g of water: 0.361 kg
    assert item.adult_portions == pytest.approx(0.75 / 0.361)


@pytest.mark.parametrize(
    ("old", "new", "code", "words"),
    [
        ("dish: tea", "dish: porridge", "not_drawn", "only hot water and tea"),
        ("dish: tea", "dish: drinking_water", "not_drawn", "only hot water and tea"),
        ("dish: tea", "dish: tea, portions: 2", "contradiction", "either portions or drawn"),
        ('at: "07:00"', 'at: "08:00"', "order", "before the clock time of its meal"),
        ("10:00: 0.5 L", "10:00: 0.5", "unit_missing", "no unit"),
        ("10:00: 0.5 L", "25:00: 0.5 L", "clock", "00:00 to 23:59"),
        ("10:00: 0.5 L, 07:30: 250 mL", "", "too_short", "at least 1"),
    ],
)
def test_a_fault_is_told_where_it_stands(text, told, old, new, code, words) -> None:
    assert old in text
    problems = told(text.replace(old, new, 1))
    assert any(words in problem.message for problem in problems), problems
    assert all(problem.key.startswith("menu") for problem in problems)
    assert code in {problem.code for problem in problems} or code in ("unit_missing", "too_short")
