"""What was typed of a test is the file that the command line reads, and faults find their field."""

from app.typed import boiling_text, key_problems, readings_text, row_problems
from optimizer.errors import Problem
from optimizer.trials.boiling_test import parse_test
from optimizer.trials.readings import parse_log


def test_typed_readings_are_read_as_a_file_is():
    text = readings_text([("0", "97", "15"), ("18", "", ""), ("1 h", "85,5", "")], "metric")
    log = parse_log(text, "x")
    assert [(p.line, p.key, p.code) for p in log.problems] == [(3, "temp_c", "missing")]
    assert [(row.line, row.time_min, row.temp_c, row.room_c) for row in log.rows] == [
        (2, 0.0, 97.0, 15.0),
        (4, 60.0, 85.5, None),
    ]


def test_readings_are_in_the_measures_that_are_read():
    (row,) = parse_log(readings_text([("0", "212", "59")], "us"), "x").rows
    assert (row.temp_c, round(row.room_c, 9)) == (100.0, 15.0)


def test_a_row_keeps_its_number_where_one_before_it_is_empty():
    text = readings_text([("0", "97", ""), ("", " ", ""), ("15", "hot", ""), ("9", "90", "")], "us")
    assert row_problems(parse_log(text, "x").problems) == {
        2: ["water: expected a temperature such as 92.5, given 'hot'"]
    }


def test_a_fault_of_time_is_told_as_one():
    text = readings_text([("15", "97", ""), ("9", "90", ""), ("20", "85", "")], "metric")
    assert row_problems(parse_log(text, "x").problems) == {
        1: ["time: the time is earlier than the reading above it"]
    }


def test_a_sign_that_parts_columns_does_no_harm():
    log = parse_log(readings_text([("0", "97;5", "")], "metric"), "x")
    assert [row.temp_c for row in log.rows] == [97.5]


def test_a_typed_boiling_test_is_read_as_a_file_is():
    cold = {"fuel": "300 g", "char": " ", "water": "2.5 kg", "water_left": "2.45 kg"}
    cold |= {"water_from": "15 degC", "water_to": "100 degC", "time": "15 min"}
    text = boiling_text(
        {"fuel": "sticks", "pot": "pot_4l", "air": "15 degC", "scale": "", "char_kept": False,
         "cold": cold, "hot": {"fuel": ""}, "simmer": {}}
    )  # fmt: skip
    document, test = parse_test(text, "x")
    assert document.problems == []
    assert (test.cold[0].char, test.hot, test.simmer, test.char_kept) == (0.0, [], [], False)


def test_what_is_wrong_with_a_boiling_test_is_sorted_by_field():
    text = boiling_text({"fuel": "sticks", "pot": "pot_4l", "air": "15", "cold": {"fuel": "300"}})
    document, _ = parse_test(text, "x")
    found = key_problems(document.problems)
    assert "has no unit" in found["air"][0]
    assert "cold.fuel" in found
    assert "cold.water" in found
    two = [Problem("x", 1, "a", "b", "first"), Problem("x", 1, "a", "b", "second")]
    assert key_problems(two) == {"a": ["first", "second"]}
