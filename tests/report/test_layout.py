"""Lines fit a terminal of 80 columns, and keep a number with what it counts."""

from hypothesis import given
from hypothesis import strategies as st

from optimizer.report.layout import WIDTH, beside, table, wrap

words = st.text(st.characters(codec="ascii", categories=["L", "N"]), min_size=1, max_size=90)
texts = st.lists(words, min_size=1, max_size=30).map(" ".join)


@given(texts, st.integers(0, 10))
def test_no_line_is_too_long_and_no_word_is_lost(text: str, indent: int) -> None:
    lines = wrap(text, " " * indent, " " * (indent + 2))
    assert max(map(len, lines)) <= WIDTH
    assert "".join("".join(lines).split()) == "".join(text.split())


def test_a_number_stays_with_its_unit() -> None:
    lines = wrap("x" * 76 + " 12 kg of sticks")
    assert lines == ["x" * 76, "12 kg of sticks"]


def test_texts_stand_side_by_side() -> None:
    assert beside(("06:05", "oat porridge", "on the fire, lid on"), (5, 8, 12)) == [
        "06:05  oat       on the fire,",
        "       porridge  lid on",
    ]


@given(st.lists(st.tuples(texts, st.just("12 MJ"), st.just("3.10 EUR")), min_size=1, max_size=5))
def test_a_table_with_long_labels_fits(rows: list[tuple[str, str, str]]) -> None:
    lines = table("Compared", ("fuel", "money"), rows)
    assert max(map(len, lines)) <= WIDTH
    assert sum("12 MJ" in line for line in lines) >= len(rows)


def test_a_table_is_aligned() -> None:
    assert table("Fuel", ("used",), [("sticks", "1.8 kg"), ("butane", "31 g")]) == [
        "Fuel      used",
        "  sticks  1.8 kg",
        "  butane  31 g",
    ]
