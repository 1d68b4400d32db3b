"""A scenario is saved whole or not at all, comments and order kept, the last version beside it."""

import os
import stat
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from optimizer.errors import InputError, SaveError
from optimizer.scenario import saving
from optimizer.scenario.reading import read
from optimizer.scenario.saving import load_document, save
from optimizer.shelf import data_folder

LOCK = ".two.yaml.lock"
EXAMPLES = sorted(Path(str(data_folder() / "scenarios")).glob("*.yaml"))


@pytest.fixture
def path(tmp_path, good):
    made = tmp_path / "two.yaml"
    made.write_text("# ours\n" + good, encoding="utf-8")
    return made


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_an_example_comes_back_to_the_letter(example, tmp_path) -> None:
    copy = tmp_path / example.name
    copy.write_bytes(example.read_bytes())
    save(copy, load_document(copy))
    assert copy.read_text(encoding="utf-8") == example.read_text(encoding="utf-8")


@pytest.mark.parametrize("dash", ["", "  ", "    "])
def test_lists_stay_set_in_as_they_were(tmp_path, dash) -> None:
    path = tmp_path / "list.yaml"
    text = f"a:\n{dash}- b: 1 # one\n{dash}  c: 2\n{dash}- d\n"
    path.write_text(text, encoding="utf-8")
    save(path, load_document(path))
    assert path.read_text(encoding="utf-8") == text


def test_one_value_changes_one_line(path) -> None:
    before = path.read_text(encoding="utf-8").splitlines()
    document = load_document(path)
    document["fuels"]["sticks"]["stock"] = "9.5 kg"
    save(path, document)
    after = path.read_text(encoding="utf-8").splitlines()
    assert [(a, b) for a, b in zip(before, after, strict=True) if a != b] == [
        ("    stock: 12 kg", "    stock: 9.5 kg")
    ]
    assert read(path).stores[0].stock_kg == 9.5


def test_the_last_version_is_kept(path) -> None:
    first = path.read_bytes()
    document = load_document(path)
    for title in ("Second", "Third"):
        second = path.read_bytes()
        document["title"] = title
        save(path, document)
        assert path.with_name("two.yaml~").read_bytes() == second
    assert second != first
    assert sorted(p.name for p in path.parent.iterdir()) == [LOCK, "two.yaml", "two.yaml~"]


def test_a_new_file_has_no_last_version(path, tmp_path) -> None:
    save(tmp_path / "new.yaml", load_document(path))
    assert read(tmp_path / "new.yaml") == read(path)
    assert not (tmp_path / "new.yaml~").exists()


def test_permissions_are_kept(path) -> None:
    path.chmod(0o640)
    save(path, load_document(path))
    assert stat.S_IMODE(path.stat().st_mode) == 0o640


def test_a_link_is_followed(path, tmp_path) -> None:
    link = tmp_path / "link.yaml"
    link.symlink_to(path)
    document = load_document(link)
    document["title"] = "By the link"
    save(link, document)
    assert link.is_symlink()
    assert read(path).title == "By the link"


@pytest.mark.parametrize("step", ["fsync", "replace"])
def test_a_failure_leaves_what_was_there(path, monkeypatch, step) -> None:
    before = path.read_bytes()
    document = load_document(path)
    document["title"] = "Never"

    def fail(*_args):
        raise OSError(28, "No space left on device")

    if step == "fsync":
        monkeypatch.setattr(os, "fsync", fail)
    else:
        monkeypatch.setattr(Path, "replace", fail)
    with pytest.raises(SaveError, match=r"two\.yaml: could not be saved.*No space left"):
        save(path, document)
    monkeypatch.undo()
    assert path.read_bytes() == before
    assert [p.name for p in path.parent.iterdir() if p.name.startswith(".two.yaml.")] == [LOCK]


def test_an_interruption_leaves_what_was_there(path, monkeypatch) -> None:
    before = path.read_bytes()

    def interrupt(*_args):
        raise KeyboardInterrupt

    monkeypatch.setattr(saving, "_keep_last", interrupt)
    with pytest.raises(KeyboardInterrupt):
        save(path, load_document(path))
    assert path.read_bytes() == before
    assert sorted(p.name for p in path.parent.iterdir()) == [LOCK, "two.yaml"]


def test_a_folder_that_is_not_there(path, tmp_path) -> None:
    with pytest.raises(SaveError, match="could not be saved"):
        save(tmp_path / "none" / "two.yaml", load_document(path))


def test_a_value_that_yaml_cannot_write(path) -> None:
    before = path.read_bytes()
    document = load_document(path)
    document["title"] = object()
    with pytest.raises(SaveError):
        save(path, document)
    assert path.read_bytes() == before


def test_a_broken_file_is_not_loaded(path) -> None:
    path.write_text("a: 1\na: 2\n", encoding="utf-8")
    with pytest.raises(InputError, match="second time"):
        load_document(path)


WORDS = st.text(st.characters(codec="utf-8", exclude_categories=["Cs", "Cc"]), max_size=40)


@given(
    st.dictionaries(
        WORDS.filter(bool), WORDS | st.integers() | st.booleans() | st.none(), min_size=1
    )
)
def test_any_text_comes_back(tmp_path_factory, values) -> None:
    path = tmp_path_factory.getbasetemp() / "any.yaml"
    path.write_text("# kept\nfirst: 1 # and this\n", encoding="utf-8")
    document = load_document(path)
    document.update(values)
    save(path, document)
    again = load_document(path)
    assert dict(again) == {"first": 1, **values}
    text = path.read_text(encoding="utf-8")
    assert text.startswith("# kept\n")
    assert "first" in values or "# and this" in text
