"""The How long page: days in words, what ends, first days, fallbacks, changes, and stopping."""

import pytest

from app import cached
from app.enduring import Enduring


@pytest.fixture(autouse=True)
def anew() -> None:
    """Let every test look for itself."""
    cached.enduring.clear()


def words(shown) -> str:
    parts = [*shown.subheader, *shown.header, *shown.markdown, *shown.caption]
    return "\n".join(part.value for part in parts).replace("\\", "")


def whole(shown, file) -> None:
    """Wait for the study of a file and draw again."""
    study = cached.enduring(file.read_text(encoding="utf-8"))
    assert study.made.wait(120)
    shown.run()
    assert not shown.exception


def test_the_days_are_said_first_and_large(window, file):
    shown = window("how_long")
    whole(shown, file)
    assert shown.subheader[0].value.startswith("The store lasts ")
    told = words(shown)
    for part in (
        "What ends first",
        "The whole stock is burned:",
        "If nobody knows how long it will be",
        "When sticks fail, in rain and wind",
        "What changes it",
        "Other people, weather or stoves",
        "What one more is worth",
        "Mind",
    ):
        assert part in told
    assert shown.get("vega_lite_chart")
    assert not shown.error


def test_us_measures_reach_the_page(window, file):
    shown = window("how_long")
    whole(shown, file)
    assert " oz" not in words(shown)
    shown.toggle[0].set_value(True).run()
    assert " oz" in words(shown)


def test_a_changed_stock_is_looked_at_anew(window, file):
    shown = window("how_long")
    whole(shown, file)
    before = shown.subheader[0].value
    field = next(each for each in shown.text_input if each.label == "How much sticks")
    field.set_value("9 kg").run()
    assert not shown.exception
    whole(shown, file)
    assert shown.subheader[0].value != before


def test_what_would_make_a_day_possible_is_said(window, file):
    text = file.read_text(encoding="utf-8")
    file.write_text(
        text.replace("stock: 3 kg", "stock: 1 g").replace("1 x 465 g", "1 x 1 g", 1),
        encoding="utf-8",
    )
    shown = window("how_long")
    whole(shown, file)
    assert shown.subheader[0].value.startswith("The store does not last one day")
    assert "The least changes that would make one" in words(shown)


def test_a_stop_keeps_what_is_known(window, file, press, monkeypatch):
    monkeypatch.setattr(Enduring, "_tell", lambda self, _: self.known is None)
    shown = window("how_long")
    whole(shown, file)
    assert "Not everything was looked at" in shown.info[0].value
    monkeypatch.undo()
    press(shown, "Look again")
    whole(shown, file)
    assert not shown.info


def test_a_study_without_an_answer_says_why(window, file, monkeypatch):
    monkeypatch.setattr(Enduring, "_tell", lambda *_: False)
    shown = window("how_long")
    whole(shown, file)
    assert "No number of days was found" in shown.warning[0].value
    assert "Look again" in {button.label for button in shown.button}
