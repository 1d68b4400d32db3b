"""Files that would do harm: refused in a moment, with nothing run and nothing else opened."""

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from app.desk import Desk
from optimizer.errors import InputError, Problem
from optimizer.scenario.file_text import LARGEST_BYTES
from optimizer.scenario.logbook import content_of, seal
from optimizer.scenario.logbook import parse_log as parse_entries
from optimizer.scenario.reading import json_schema, parse
from optimizer.trials.boiling_test import parse_test
from optimizer.trials.readings import parse_log
from optimizer.units import QuantityError, convert, exchanged, read_money, read_price, read_stock

RUNS = """
import sys
from pathlib import Path
from typer.testing import CliRunner
from optimizer.cli import app
FILE = Path(sys.argv[1])
for word in ("check", "plan"):
    CliRunner().invoke(app, [word, str(FILE)])  # all is loaded
DID = []
def watch(event, given):
    if event in {"open", "os.listdir", "os.scandir"} and given and "evil" in str(given[0]):
        DID.append((event, str(given[0])))
    if event in {"os.system", "subprocess.Popen", "os.exec", "socket.connect", "urllib.Request",
                 "compile", "exec", "pickle.find_class", "ctypes.dlopen", "socket.getaddrinfo"}:
        DID.append((event, str(given)[:200]))
sys.addaudithook(watch)
for word in ("check", "plan"):
    print(CliRunner().invoke(app, [word, str(FILE)]).exit_code)
print(DID)
"""
TOWERS = [
    "9**9**9 kg", "9**9**9**9", "1 kg**9**9**9", "1 kg^999999", "1 (kg**4)**4", "1e400 kg",
    "1" * 95 + " kg", "-" * 99, "1 " + "kg*" * 32 + "kg", "1 " + "(" * 48 + ")" * 48,
    "1 " + "kg/m " * 19, "9" * 5000 + " kg", "1 kg" + " " * 90 + "x", "1 __import__('os').getcwd()",
    "1 " + "_" * 95, "0x1p9999 kg", "1 kg if 1 else 2", "1 x 1 x 1 x 1 kg", "999999 x " + "9" * 80,
    "1 EUR / " + "kg " * 25, "1 EUR / 9**9**9 kg", "\N{ROMAN NUMERAL ONE THOUSAND C D} kg",
    "\N{ARABIC-INDIC DIGIT FOUR} kg", "1" + "\u00b2" * 90 + " kg", "1 EUR / " + "kg*" * 40_000,
]  # fmt: skip


@pytest.mark.parametrize("text", TOWERS, ids=range(len(TOWERS)))
def test_no_quantity_is_worked_out(text):
    """In a process that is ended should it take long: a tower of powers never ends."""
    for read in (lambda t: convert(t, "kg"), read_stock, lambda t: read_price(t, "EUR"),
                 lambda t: read_money(t, "EUR")):  # fmt: skip
        try:
            found = read(text)
        except QuantityError:
            continue
        value = getattr(found, "value", found)
        assert 0 <= value < float("inf")
        assert "**" not in text
    assert isinstance(exchanged(text, "us"), str)


def bombs(small: str) -> dict[str, str]:
    """Give texts that grow, nest, repeat or name code."""
    grown = "\n".join(
        f"a{n}: &a{n} {{<<: [{', '.join([f'*a{n - 1}'] * 9)}]}}" for n in range(1, 30)
    )
    return {
        "merged": "a0: &a0 {x: 1}\n" + grown,
        "nested mappings": "{a: " * 300_000,
        "nested keys": "? " * 400_000,
        "nested lists": "- " * 490_000,
        "anchors": "".join(f"a{n}: &b{n} *b{n - 1}\n" for n in range(1, 40_000)),
        "one long word": "title: " + "x" * 990_000,
        "quotes": "title: '" + "''" * 490_000 + "'",
        "comments": "#" * 990_000,
        "colons": ": " * 490_000,
        "blanks": small + " " * 900_000,
        "folded": "title: >\n" + "  x\n" * 49_000,
        "keys": "".join(f"a{n}: 1\n" for n in range(9_000)),
        "one key": "a: 1\n" * 9_000,
        "hash": "a: !!python/object/new:os.system [touch evil]",
        "name": "a: !!python/name:os.system",
        "module": "a: !!python/module:evil",
        "set": "!!set {a, b}",
        "omap": "!!omap [a: 1]",
        "include": "title: !include /etc/passwd",
        "tag": "%TAG ! tag:yaml.org,2002:python/\n---\na: !object/apply:os.system ['true']",
        "number": "days: " + "9" * 400_000,
        "float": "days: 1e999999999",
        "sexagesimal": "days: " + "59:" * 9000 + "59",
        "binary": "days: 0b" + "1" * 900_000,
    }


def problems(read: Callable[[str], Any], text: str) -> list[Problem]:
    """Give what a reader says is wrong; those of tests note it and go on."""
    try:
        found = read(text)
    except InputError as error:
        return list(error.problems)
    return list(getattr(found[0] if isinstance(found, tuple) else found, "problems", ()))


@pytest.mark.parametrize("kind", sorted(bombs("")))
def test_a_file_that_grows_or_runs_is_refused_in_time(small, kind, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    text = bombs(small)[kind]
    if kind == "blanks":
        assert parse(text).items
        return
    for read in (parse, lambda text: parse_test(text, "test"), lambda text: parse_log(text, "log")):
        assert problems(read, text)
    assert list(tmp_path.iterdir()) == []


def test_a_file_names_no_other_file_and_runs_nothing(tmp_path, small):
    text = small.replace("One cold morning", "'../evil'").replace("breakfast", "'/evil/passwd'")
    text = text.replace("gas_burner: 1", "'file:///evil': {like: gas_burner, label: '~/evil'}")
    text = text.replace("{packed_box: 1}", "{'/evil/box': {like: packed_box}}")
    file = tmp_path / "shed.yaml"
    file.write_text(text, encoding="utf-8")
    words = [sys.executable, "-c", RUNS, str(file)]
    done = subprocess.run(words, capture_output=True, text=True, check=False)
    assert done.stdout.splitlines() == ["0", "0", "[]"], done.stderr


def test_a_log_of_wrong_lines_is_refused_in_time():
    """Each line costs little, however many there are."""
    lines = b"".join(seal({"n": 1, "kind": "people", "at": "noon"}) + b"\n" for _ in range(90_000))
    with pytest.raises(InputError) as caught:
        parse_entries(lines)
    assert len(caught.value.problems) == 201
    assert caught.value.problems[0].code == "too_many"


def test_no_key_of_a_file_is_a_path():
    """Were there one, a file could name another file; then where it may lie has to be checked."""
    words = {"path", "file", "folder", "include", "import", "url", "href", "src"}
    found: set[str] = set()

    def look(schema: object) -> None:
        if isinstance(schema, dict):
            found.update(map(str, schema.get("properties", {})))
            for each in schema.values():
                look(each)
        elif isinstance(schema, list):
            for each in schema:
                look(each)

    look(json_schema())
    assert {"title", "fuels", "stock"} <= found
    assert found & words == set()


def test_what_is_too_large_is_not_read(tmp_path):
    """A file with a hole: read whole, it would take more than the machine has."""
    file = tmp_path / "shed.yaml"
    with file.open("wb") as opened:
        opened.truncate(10**13)
    log = tmp_path / "shed.log.jsonl"
    log.symlink_to(file)
    for read in (Desk.open, content_of):
        with pytest.raises(InputError, match="larger than"):
            read(file if read is Desk.open else log)


def test_an_upload_that_is_too_large_is_told(tmp_path, monkeypatch, small):
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))
    main = Path(__file__).parents[2] / "app" / "main.py"
    window = AppTest.from_file(main, default_timeout=60)
    window.switch_page("views/kitchen.py")
    window.run()
    large = small.encode() + b"#" * LARGEST_BYTES
    window.get("file_uploader")[0].set_value(("large.yaml", large, "application/yaml")).run()
    assert not window.exception
    assert any("larger than 1 MB" in each.value for each in window.markdown)
    assert not [each for each in window.button if each.label.startswith("Open it")]


@pytest.mark.skipif(not hasattr(os, "symlink"), reason="there are no links")
def test_links_that_go_round_are_told(tmp_path):
    one, other = tmp_path / "one.yaml", tmp_path / "other.yaml"
    one.symlink_to(other)
    other.symlink_to(one)
    with pytest.raises(InputError, match="cannot be read"):
        Desk.open(one)
