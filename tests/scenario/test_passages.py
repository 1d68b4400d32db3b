"""Changing one passage of a file: every other letter stays."""

from datetime import date

import pytest

from optimizer.errors import InputError
from optimizer.scenario.letters import flow
from optimizer.scenario.passages import plain_of, put, remove, value_of

TEXT = """\
# above
title: A house # its name
people: {adults: 2, children: 1} # who
empty:
none: {}
# before the fuels
fuels:
  sticks: # split
    stock: 12 kg # under a roof
    price: 0.60 EUR / kg

  # about gas
  gas: {stock: 1 kg}
# before the list
hours:
  - a # first
  # between
  - b
flowing: [a, b, c] # all
many: [
  one, # of one
  two, # of two
  three # of three
]
said: |
  two
  lines
# at the end
"""


def lines_changed(before: str, after: str) -> tuple[list[str], list[str]]:
    """Give the lines that went and the lines that came."""
    old, new = before.splitlines(), after.splitlines()
    return [line for line in old if line not in new], [line for line in new if line not in old]


@pytest.mark.parametrize(
    ("at", "value", "gone", "come"),
    [
        (("title",), "B", "title: A house # its name", "title: B # its name"),
        (("people", "adults"), 3, None, "people: {adults: 3, children: 1} # who"),
        (("people", "guests"), 3, None, "people: {adults: 2, children: 1, guests: 3} # who"),
        (("people",), 4, None, "people: 4 # who"),
        (("empty",), "x", "empty:", "empty: x"),
        (("empty", "a"), 1, "empty:", "empty: {a: 1}"),
        (("none", "a"), "1 kg", "none: {}", "none: {a: 1 kg}"),
        (("fuels", "sticks", "stock"), "5 kg", None, "    stock: 5 kg # under a roof"),
        (("fuels", "sticks", "reserve"), 0.1, False, "    reserve: 0.1"),
        (("fuels", "oil"), {"stock": "2 L"}, False, "  oil: {stock: 2 L}"),
        (("fuels", "gas", "price"), "1 EUR / kg", None, "  gas: {stock: 1 kg, price: 1 EUR / kg}"),
        (("hours", 0), "z", "  - a # first", "  - z # first"),
        (("hours", 2), "c", False, "  - c"),
        (("flowing", 3), "d", None, "flowing: [a, b, c, d] # all"),
        (("new",), "18:30", False, 'new: "18:30"'),
        (("new", "deep", "er"), True, False, "new: {deep: {er: true}}"),
        (("day",), date(2027, 1, 16), False, "day: 2027-01-16"),
        (("said",), "short", "said: |", "said: short"),
    ],
)
def test_one_line_changes(at, value, gone, come):
    after = put(TEXT, at, value)
    went, came = lines_changed(TEXT, after)
    assert came == [come]
    if gone is False:
        assert went == []
    elif gone is not None:
        assert gone in went
    comments = [line for line in TEXT.splitlines() if line.lstrip().startswith("#")]
    assert [line for line in after.splitlines() if line.lstrip().startswith("#")] == comments


@pytest.mark.parametrize(
    ("at", "gone"),
    [
        (("title",), ["title: A house # its name"]),
        (("fuels", "sticks", "stock"), ["    stock: 12 kg # under a roof"]),
        (
            ("fuels", "sticks"),
            ["  sticks: # split", "    stock: 12 kg # under a roof", "    price: 0.60 EUR / kg"],
        ),
        (("fuels", "gas"), ["  gas: {stock: 1 kg}"]),
        (("hours", 0), ["  - a # first"]),
        (("hours", 1), ["  - b"]),
        (("empty",), ["empty:"]),
        (("said",), ["said: |", "  two", "  lines"]),
    ],
)
def test_lines_are_cut(at, gone):
    after = remove(TEXT, at)
    assert lines_changed(TEXT, after) == (gone, [])


@pytest.mark.parametrize(
    ("at", "come"),
    [
        (("people", "adults"), "people: {children: 1} # who"),
        (("people", "children"), "people: {adults: 2} # who"),
        (("fuels", "gas", "stock"), "  gas: {}"),
        (("flowing", 1), "flowing: [a, c] # all"),
        (("flowing", 2), "flowing: [a, b] # all"),
    ],
)
def test_what_stands_between_brackets_is_cut_with_its_comma(at, come):
    assert lines_changed(TEXT, remove(TEXT, at))[1] == [come]


@pytest.mark.parametrize("place", [0, 1, 2])
def test_comments_between_brackets_stay(place):
    after = remove(TEXT, ("many", place))
    assert plain_of(after)["many"] == [
        w for n, w in enumerate(("one", "two", "three")) if n != place
    ]
    assert all(comment in after for comment in ("# of one", "# of two", "# of three"))


def test_the_last_thing_of_a_section_leaves_it_empty():
    after = remove(remove(TEXT, ("fuels", "sticks")), ("fuels", "gas"))
    assert "fuels: {}\n" in after
    assert "  # about gas\n" in after
    again = put(after, ("fuels", "oil"), {"stock": "1 L"})
    assert plain_of(again)["fuels"] == {"oil": {"stock": "1 L"}}


def test_the_first_key_after_a_dash_can_go():
    text = "list:\n  - a: 1 # first\n    b: 2 # second\n  - c: 3\n"
    assert plain_of(remove(text, ("list", 0, "a"))) == {"list": [{"b": 2}, {"c": 3}]}
    assert "# second" in remove(text, ("list", 0, "a"))
    assert plain_of(remove(text, ("list", 1, "c"))) == {"list": [{"a": 1, "b": 2}, {}]}


@pytest.mark.parametrize("text", ["a: 1", "a: 1 # no new line at the end", "{a: 1}", "a: {b: 1}"])
def test_short_files(text):
    assert plain_of(put(text, ("z",), "new"))["z"] == "new"


def test_an_alias_is_written_out_rather_than_changed_in_two_places():
    text = "one: &x {a: 1}\ntwo: *x # same\n"
    after = plain_of(put(text, ("two", "a"), 2))
    assert after["two"] == {"a": 2}


@pytest.mark.parametrize(
    "value",
    ["a, b", "a: b", "#x", "- x", "", "true", "12", "1.5", "null", "é", "x # y", "}", "]", "'", '"',
     "a\nb", "2027-01-15", "*x", "&x", "!x", "%x", "@x", " lead", "?", "|"],
)  # fmt: skip
@pytest.mark.parametrize("at", [("title",), ("people", "who"), ("flowing", 0), ("fuels", "x")])
def test_any_text_is_read_as_the_text_it_is(value, at):
    found = plain_of(put(TEXT, at, value))
    for part in at:
        found = found[part]
    assert found == value


def test_windows_line_ends_are_kept():
    text = TEXT.replace("\n", "\r\n")
    after = put(text, ("fuels", "sticks", "stock"), "5 kg")
    assert plain_of(after)["fuels"]["sticks"]["stock"] == "5 kg"
    assert "# under a roof" in after


def test_a_place_that_is_not_there():
    with pytest.raises(KeyError):
        remove(TEXT, ("nothing",))
    with pytest.raises(KeyError):
        remove(TEXT, ("hours", 7))
    with pytest.raises((KeyError, ValueError, IndexError)):
        put(TEXT, ("hours", 7), "x")


def test_broken_yaml_is_told():
    with pytest.raises(InputError):
        put("a: [1", ("b",), 1)


@pytest.mark.parametrize(
    ("words", "value"),
    [("yes", True), ("No", False), ("3", 3), ("0.3", 0.3), ("3 kW", "3 kW"), (" x ", "x")],
)
def test_what_is_typed_is_read_as_a_file_would(words, value):
    assert value_of(words) == value
    assert type(value_of(words)) is type(value)


def test_flow_stands_on_one_line():
    assert flow({"a": ["b", {"c": "d: e"}]}) == '{a: [b, {c: "d: e"}]}'


def test_a_change_to_what_is_said_already_leaves_every_letter():
    assert put(TEXT, ("people", "adults"), 2) == TEXT
    assert put(TEXT, ("fuels", "gas"), {"stock": "1 kg"}) == TEXT
    assert "adults: 2.0" in put(TEXT, ("people", "adults"), 2.0)


def test_what_a_text_says_does_not_hang_on_what_others_made_of_it():
    plain_of(TEXT)["people"]["adults"] = 7
    aliased = "a: &one {b: 1}\nc: *one\n"
    put(aliased, ("c", "b"), 2)
    assert plain_of(TEXT)["people"] == {"adults": 2, "children": 1}
    assert plain_of(aliased) == {"a": {"b": 1}, "c": {"b": 1}}
