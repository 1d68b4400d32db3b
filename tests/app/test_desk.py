"""What a window works on: changes, refusals, undo, two windows, files that cannot be written."""

from pathlib import Path

import pytest

from app.desk import Desk, working_copy
from optimizer.cli.outlet import demo_file
from optimizer.errors import InputError, SaveError
from optimizer.scenario.changes import with_field

SOUND = "stock: 3 kg"


def stocked(text: str, stock: str) -> str:
    return with_field(text, "fuels", "sticks", "stock", stock)


def test_the_demo_is_only_read():
    desk = Desk.open(None)
    assert desk.text == demo_file().read_text(encoding="utf-8")
    assert not working_copy().exists()
    assert desk.apply(stocked(desk.text, "5 kg"), "stock") == ()
    assert "5 kg" in working_copy().read_text(encoding="utf-8")
    assert "5 kg" not in demo_file().read_text(encoding="utf-8")


def test_the_copy_comes_back():
    first = Desk.open(None)
    first.apply(stocked(first.text, "5 kg"), "stock")
    assert "stock: 5 kg # split" in Desk.open(None).text


def test_a_change_is_in_the_file_at_once_and_the_version_before_beside_it(file: Path):
    desk = Desk.open(file)
    before = desk.text
    desk.apply(stocked(desk.text, "5 kg"), "stock")
    assert file.read_text(encoding="utf-8") == desk.text
    assert file.with_name("morning.yaml~").read_text(encoding="utf-8") == before
    assert desk.keeping == "saved"


@pytest.mark.parametrize("stock", ["5", "-1 kg", "5 furlongs"])
def test_what_would_be_wrong_is_refused_with_its_place(file: Path, stock: str):
    desk = Desk.open(file)
    (problem,) = desk.apply(stocked(desk.text, stock), "stock")
    assert problem.key == "fuels.sticks.stock"
    assert SOUND in desk.text
    assert SOUND in file.read_text(encoding="utf-8")
    assert desk.can_undo is None


def test_a_wrong_file_can_be_mended_step_by_step(file: Path):
    bad = file.read_text(encoding="utf-8").replace("3 kg", "3").replace("465 g,", "465,")
    file.write_text(bad, encoding="utf-8")
    desk = Desk.open(file)
    assert desk.apply(stocked(desk.text, "4 kg"), "stock") == ()
    assert "4 kg" in file.read_text(encoding="utf-8")
    assert desk.apply(stocked(desk.text, "4"), "stock")


def test_undo_takes_several_steps_back_in_the_file_too(file: Path):
    desk = Desk.open(file)
    texts = [desk.text]
    for stock in ("4 kg", "5 kg", "6 kg"):
        desk.apply(stocked(desk.text, stock), f"stock {stock}")
        texts.append(desk.text)
    for text, what in zip(reversed(texts[:-1]), ("6 kg", "5 kg", "4 kg"), strict=True):
        assert desk.undo() == f"stock {what}"
        assert desk.text == file.read_text(encoding="utf-8") == text
    assert desk.undo() is None


def test_no_change_is_no_step(file: Path):
    desk = Desk.open(file)
    desk.apply(desk.text, "nothing")
    assert desk.can_undo is None


# two windows


def test_the_second_window_overwrites_nothing_silently(file: Path):
    one, two = Desk.open(file), Desk.open(file)
    one.apply(stocked(one.text, "4 kg"), "stock")
    two.apply(stocked(two.text, "5 kg"), "stock")
    assert two.keeping == "elsewhere"
    assert "4 kg" in file.read_text(encoding="utf-8")
    assert "5 kg" in two.text


def test_the_other_version_can_be_taken_and_mine_had_back(file: Path):
    one, two = Desk.open(file), Desk.open(file)
    one.apply(stocked(one.text, "4 kg"), "stock")
    two.apply(stocked(two.text, "5 kg"), "stock")
    two.take_other()
    assert (two.text, two.keeping) == (one.text, "saved")
    two.undo()
    assert "5 kg" in file.read_text(encoding="utf-8")


def test_mine_can_be_kept_and_the_other_stays_beside_it(file: Path):
    one, two = Desk.open(file), Desk.open(file)
    one.apply(stocked(one.text, "4 kg"), "stock")
    two.apply(stocked(two.text, "5 kg"), "stock")
    two.save(over=True)
    assert "5 kg" in file.read_text(encoding="utf-8")
    assert "4 kg" in file.with_name("morning.yaml~").read_text(encoding="utf-8")


def test_a_window_without_changes_follows_the_file(file: Path):
    one, two = Desk.open(file), Desk.open(file)
    one.apply(stocked(one.text, "4 kg"), "stock")
    assert two.look() is True
    assert two.text == one.text
    assert two.look() is False


def test_a_window_with_changes_does_not_lose_them_by_looking(file: Path):
    one, two = Desk.open(file), Desk.open(file)
    one.apply(stocked(one.text, "4 kg"), "stock")
    two.apply(stocked(two.text, "5 kg"), "stock")
    assert two.look() is False
    assert "5 kg" in two.text


def test_two_windows_that_say_the_same_agree(file: Path):
    one, two = Desk.open(file), Desk.open(file)
    for desk in (one, two):
        desk.apply(stocked(desk.text, "4 kg"), "stock")
    assert two.keeping == "saved"


def test_two_windows_on_the_demo(home: Path):
    one, two = Desk.open(None), Desk.open(None)
    one.apply(stocked(one.text, "4 kg"), "stock")
    two.apply(stocked(two.text, "5 kg"), "stock")
    assert two.keeping == "elsewhere"


# files


def test_a_folder_that_cannot_be_written_loses_nothing(file: Path):
    desk = Desk.open(file)
    desk.target = file / "below a file" / "x.yaml"
    desk.on_disk = None
    desk.apply(stocked(desk.text, "4 kg"), "stock")
    assert desk.keeping == "failed"
    assert desk.trouble
    assert "4 kg" in desk.text
    desk.target, desk.on_disk = file, file.read_text(encoding="utf-8")
    desk.save()
    assert desk.keeping == "saved"
    assert "4 kg" in file.read_text(encoding="utf-8")


def test_a_deleted_file_is_written_again_only_when_asked(file: Path):
    desk = Desk.open(file)
    file.unlink()
    desk.apply(stocked(desk.text, "4 kg"), "stock")
    assert desk.keeping == "elsewhere"
    desk.save(over=True)
    assert "4 kg" in file.read_text(encoding="utf-8")


def test_saved_as_another_file_goes_on_there(file: Path, tmp_path: Path):
    desk = Desk.open(None)
    desk.save_as(tmp_path / "outage.yaml")
    desk.apply(stocked(desk.text, "4 kg"), "stock")
    assert desk.own
    assert "4 kg" in (tmp_path / "outage.yaml").read_text(encoding="utf-8")
    with pytest.raises(SaveError, match="there already"):
        desk.save_as(file)
    assert SOUND in file.read_text(encoding="utf-8")


def test_a_file_that_is_not_there_is_told(tmp_path: Path):
    with pytest.raises(InputError, match="no such file"):
        Desk.open(tmp_path / "nothing.yaml")
