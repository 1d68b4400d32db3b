"""A table of an answer: the same cells in lines and in rows, notes below."""

import pytest

from optimizer.report.blocks import block

TABLE = block("What", ["hot for", "loses"], [["hay", "8 h", "0.4 W"]], "Keep it dry.", "")


def test_rows_of_a_page_have_the_heads_as_keys():
    assert TABLE.mappings == [{"What": "hay", "hot for": "8 h", "loses": "0.4 W"}]


def test_lines_hold_the_same_cells_with_the_notes_below():
    head, row, note = TABLE.lines
    assert head.split() == ["What", "hot", "for", "loses"]
    assert row.split() == ["hay", "8", "h", "0.4", "W"]
    assert note == "  Keep it dry."
    assert TABLE.notes == ("Keep it dry.",)


def test_a_table_without_rows_is_its_title_and_its_notes():
    assert block("Your bag", [], [], "60 L goes round.").lines == ["Your bag", "  60 L goes round."]


def test_a_row_too_short_is_a_mistake():
    with pytest.raises(ValueError, match="zip"):
        block("What", ["hot for"], [["hay"]]).mappings  # noqa: B018  (reading it is the test)
