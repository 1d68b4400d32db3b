"""Undo and the measures outlive a window; what cannot be read is as if it were not there."""

from pathlib import Path

import pytest

from app import remembered
from app.desk import Desk
from optimizer.scenario.changes import with_field


def stocked(text: str, stock: str) -> str:
    return with_field(text, "fuels", "sticks", "stock", stock)


def edited(file: Path, *stocks: str) -> Desk:
    desk = Desk.open(file)
    for stock in stocks:
        desk.apply(stocked(desk.text, stock), f"stock {stock}")
    return desk


def test_undo_goes_on_after_a_restart(file: Path):
    first = file.read_text(encoding="utf-8")
    edited(file, "4 kg", "5 kg")
    again = Desk.open(file)
    assert again.undo() == "stock 5 kg"
    last = Desk.open(file)
    assert last.undo() == "stock 4 kg"
    assert file.read_text(encoding="utf-8") == first
    assert Desk.open(file).can_undo is None


def test_undo_of_the_working_copy_goes_on_too():
    desk = Desk.open(None)
    first = desk.text
    desk.apply(stocked(first, "4 kg"), "stock")
    again = Desk.open(None)
    assert again.undo() == "stock"
    assert again.text == first


def test_after_a_change_elsewhere_nothing_is_taken_back_blindly(file: Path):
    desk = edited(file, "4 kg")
    file.write_text(desk.text + "# by hand\n", encoding="utf-8")
    assert Desk.open(file).can_undo is None


def test_of_two_windows_a_reload_takes_back_what_was_written_last(file: Path):
    one, two = Desk.open(file), Desk.open(file)
    one.apply(stocked(one.text, "4 kg"), "one")
    assert two.look()
    assert Desk.open(file).can_undo == "one"
    two.apply(stocked(two.text, "5 kg"), "two")
    assert one.look()
    again = Desk.open(file)
    assert again.can_undo == "two"
    again.undo()
    assert again.text == stocked(again.text, "4 kg")


def test_two_files_have_two_pasts(file: Path, tmp_path: Path):
    desk = edited(file, "4 kg")
    desk.save_as(tmp_path / "other.yaml")
    desk.apply(stocked(desk.text, "5 kg"), "stock 5 kg")
    assert Desk.open(file).can_undo == "stock 4 kg"
    assert Desk.open(tmp_path / "other.yaml").can_undo == "stock 5 kg"


def test_the_oldest_go_where_it_grows_too_large(file: Path, monkeypatch):
    monkeypatch.setattr(remembered, "LARGEST_BYTES", 4000)
    desk = edited(file, *(f"{number} kg" for number in range(4, 14)))
    kept = Desk.open(file).past
    assert 1 <= len(kept) < len(desk.past)
    assert kept == desk.past[-len(kept) :]


@pytest.mark.parametrize("broken", ["", "{", "[]", "7", '{"text": 1}', '{"past": []}'])
def test_what_cannot_be_read_is_not_there(file: Path, broken: str):
    edited(file, "4 kg")
    (kept,) = (remembered.state_folder() / "undo").glob("*.json")
    kept.write_text(broken, encoding="utf-8")
    assert Desk.open(file).can_undo is None


def test_a_state_folder_that_cannot_be_written_stops_nothing(file: Path, tmp_path: Path):
    (tmp_path / "state").write_text("a file in its place")
    desk = edited(file, "4 kg")
    assert desk.keeping == "saved"
    assert desk.can_undo == "stock 4 kg"
    assert remembered.measures() == "metric"


def test_a_new_window_has_the_measures_chosen_last_and_an_open_one_keeps_its_own(window, file):
    one, two = window("kitchen"), window("kitchen")
    one.toggle[0].set_value(True).run()
    assert two.run().toggle[0].value is False
    assert window("menu").toggle[0].value is True
    one.toggle[0].set_value(False).run()
    assert window("menu").toggle[0].value is False
