"""Measured numbers go into a scenario: comments kept, the last version beside it."""

import re

import pytest

from optimizer.errors import InputError, SaveError
from optimizer.scenario import saving
from optimizer.scenario.measured import with_measured, write_measured
from optimizer.scenario.reading import parse, read

VALUES = {"loss": "0.31 W/K", "packing_heat": "2500 J/K", "loss_spread": 0.12, "source": "a test"}


@pytest.fixture
def path(tmp_path, good):
    made = tmp_path / "two.yaml"
    made.write_text("# ours\n" + good, encoding="utf-8")
    return made


def cooker(scenario, name="packed_box"):
    return next(own for own in scenario.cookers if own.cooker.name == name)


FLOW = "cookers: {packed_box: 2, jar_2l: 1} # in the pantry\n"
BLOCK = "cookers:\n  # grandmother's\n  packed_box: {count: 2}  # dry\n  jar_2l: 1\n"
LONG = "cookers:\n  packed_box: # dry\n    count: 2\n    loss: 0.5 W/K # last year\n"


@pytest.mark.parametrize("section", [FLOW, BLOCK, LONG])
def test_numbers_go_in_and_everything_else_stays(good, section):
    whole, count = re.subn(r"(?ms)^cookers:.*?(?=^\S)", section, good)
    assert count == 1
    text = with_measured(whole, "cookers", "packed_box", VALUES)
    found = cooker(parse(text))
    assert (found.cooker.loss_w_k, found.cooker.packing_j_k) == (0.31, 2500)
    assert (found.cooker.loss_spread, found.cooker.source_place) == (0.12, "a test")
    assert found.count == 2
    for line in section.splitlines():
        if "#" in line:
            assert line[line.index("#") :] in text


def test_what_is_not_known_any_more_goes(good):
    once = with_measured(good, "cookers", "packed_box", VALUES)
    text = with_measured(once, "cookers", "packed_box", {"loss": "0.4 W/K", "packing_heat": None})
    assert cooker(parse(text)).cooker.packing_j_k is None


def test_a_new_thing_says_what_it_is_like(good):
    text = with_measured(good, "cookers", "tea_box", VALUES, like="hay_box")
    found = cooker(parse(text), "tea_box").cooker
    assert (found.loss_w_k, found.material.name) == (0.31, "straw")


def test_a_thing_of_the_shelf_needs_no_like(good):
    text = with_measured(good, "cookers", "blanket_chest", VALUES)
    assert cooker(parse(text), "blanket_chest").cooker.loss_w_k == 0.31


def test_a_thing_that_is_nothing_is_refused(good):
    with pytest.raises(InputError, match="--like NAME which cooker"):
        with_measured(good, "cookers", "tea_box", VALUES)


def test_the_file_is_written_and_the_last_version_kept(path):
    before = path.read_bytes()
    write_measured(path, "cookers", "packed_box", VALUES)
    assert cooker(read(path)).cooker.loss_w_k == 0.31
    assert path.read_text(encoding="utf-8").startswith("# ours\n")
    assert path.with_name("two.yaml~").read_bytes() == before


@pytest.mark.parametrize("values", [{"loss": "0.31"}, {"loss": "99 W/K"}, {"los": "1 W/K"}])
def test_numbers_that_are_no_sound_scenario_are_not_written(path, values):
    before = path.read_bytes()
    with pytest.raises(InputError):
        write_measured(path, "cookers", "packed_box", values)
    assert path.read_bytes() == before
    assert [each.name for each in path.parent.iterdir()] == ["two.yaml"]


def test_a_file_that_cannot_be_written_is_as_it_was(path, monkeypatch):
    before = path.read_bytes()

    def full(*_given):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(saving.os, "fsync", full)
    with pytest.raises(SaveError, match="No space left"):
        write_measured(path, "cookers", "packed_box", VALUES)
    assert path.read_bytes() == before
