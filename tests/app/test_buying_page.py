"""The How long page: what to buy for so many days, watched, stopped and answered."""

import time

import pytest

from app import cached
from app.shopping import Shopping

SHOP = """\
shop:
  fuels:
    sticks: {price: 3 EUR / 2 kg, storage_limit: 5 kg}
  bottled_water: {price: 1.20 EUR / 6 L}
  budget: 20 EUR
"""


@pytest.fixture(autouse=True)
def anew() -> None:
    """Let every test look for itself, the page's other study too."""
    cached.shopping.clear()
    cached.enduring.clear()


@pytest.fixture(name="poor")
def _poor(file):
    """The small household, poor in fuel, with a shop."""
    text = file.read_text("utf-8").replace("stock: 3 kg", "stock: 0.6 kg")
    file.write_text(text.replace("stock: 1 x 465 g", "stock: 0 kg") + SHOP, "utf-8")
    return file


def words(shown) -> str:
    parts = [*shown.subheader, *shown.markdown, *shown.caption, *shown.warning, *shown.error]
    return "\n".join(part.value for part in parts).replace("\\", "")


def asked(shown, press, days, budget=None):
    """Ask what to buy, and wait for the answer."""
    shown.number_input("kept:buy days").set_value(days).run()
    if budget is not None:
        shown.text_input("kept:buy budget").set_value(budget).run()
    press(shown, "Look what to buy")
    for _ in range(200):
        if not [each for each in shown.button if each.label == "Stop looking what to buy"]:
            return shown
        time.sleep(0.1)
        shown.run()
    raise AssertionError("no answer")


def test_it_says_what_to_buy_what_for_and_who_sets_the_limit(window, poor, press):
    shown = asked(window("how_long"), press, 3)
    told = words(shown)
    assert "To last 3 days on this menu, buy for 3.00 EUR." in told
    assert "sticks: porridge" in told
    assert "The file lets the house hold at most: sticks 5 kg." in told
    assert "The real limit is set by the local fire code, not by the file." in told
    assert "Instead of boiling it to drink: bottled water, 6 L for 1.20 EUR." in told
    assert any("without it" in table.value.columns for table in shown.table)


def test_the_budget_of_the_file_is_there_to_begin_with_and_can_be_changed(window, poor, press):
    shown = window("how_long")
    assert shown.text_input("kept:buy budget").value == "20 EUR"
    told = words(asked(shown, press, 3, "1"))
    assert "Nothing that lasts 3 days can be bought within 1.00 EUR." in told
    assert "2.00 EUR more would do: 3.00 EUR in all." in told


def test_a_budget_that_is_no_money_is_told_and_nothing_is_asked(window, poor):
    shown = window("how_long")
    shown.text_input("kept:buy budget").set_value("much").run()
    assert "'much' is no sum of money" in words(shown)
    (button,) = [each for each in shown.button if each.label == "Look what to buy"]
    assert button.disabled


def test_a_stop_before_anything_was_found_says_so_and_looks_again(window, poor, press, monkeypatch):
    monkeypatch.setattr(Shopping, "_tell", lambda self, _: self.stop() or False)
    shown = asked(window("how_long"), press, 3)
    assert "stopped before anything was found" in words(shown)
    monkeypatch.undo()
    press(shown, "Look again")
    assert "Look what to buy" in {each.label for each in shown.button}


def test_an_answer_of_an_older_file_is_not_shown(window, poor, press):
    shown = asked(window("how_long"), press, 3)
    assert "buy for 3.00 EUR" in words(shown)
    shown.number_input("field:people.adults").set_value(2).run()
    assert "buy for" not in words(shown)
    assert "The file was changed since it was asked" in words(shown)


def test_without_a_shop_it_says_where_to_write_one(window, file):
    assert "Say on the Kitchen page, under For sale" in words(window("how_long"))
