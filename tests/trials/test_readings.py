"""The table of a water test, as a person writes it; every problem with its line."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from optimizer.errors import InputError
from optimizer.trials import readings
from optimizer.trials.columns import Column, clock_min
from optimizer.trials.readings import parse_log, read_log

GOOD = "time_min,temp_c,room_c\n0,97,18\n30,93.5,18\n90,88,17.5\n"


def rows(text):
    log = parse_log(text, "test.csv")
    assert log.problems == []
    return [(row.time_min, round(row.temp_c, 1), row.room_c) for row in log.rows]


@pytest.mark.parametrize(
    "text",
    [
        GOOD,
        "time_min;temp_c;room_c\n0;97;18\n30;93,5;18\n90;88;17,5\n",
        "Time (min)\tWater [°C]\tRoom °C\n0\t97\t18\n30\t93.5\t18\n90\t88\t17.5\n",
        "time (h) | temp degC | kitchen degC\n0 | 97 | 18\n0.5 | 93.5 | 18\n1.5 | 88 | 17.5\n",
        "hours temp_c room_c\n0 97 18\n0.5 93.5 18\n1.5 88 17.5\n",
        "time,temp,room\n0 min,97 C,18 °C\n30 min,93.5 degC,18 C\n1.5 h,88 C,17.5 C\n",
        "clock,temp_c,room_c\n18:10,97,18\n18:40,93.5,18\n19:40,88,17.5\n",
        "room_c,remarks,clock,temp_c\n18,,11:10 pm,97\n18,,11:40 pm,93.5\n17.5,x,12:40 am,88\n",
        "\n# our box\n" + GOOD.replace("\n", "\r\n"),
        "time_s,temp_f,room_f\n0,206.6,64.4\n1800,200.3,64.4\n5400,190.4,63.5\n",
    ],
)
def test_the_same_readings_in_many_hands(text):
    found = rows(text)
    assert [row[:2] for row in found] == [(0, 97), (30, 93.5), (90, 88)]
    assert [row[2] for row in found] == pytest.approx([18, 18, 17.5])


def test_notes_stand_above_the_table_with_or_without_a_mark():
    log = parse_log("# Water: 4.8 L\npot: pot_6l\n#room = 18 degC\n" + GOOD, "test.csv")
    assert {key: (note.value, note.line) for key, note in log.notes.items()} == {
        "water": ("4.8 L", 1),
        "pot": ("pot_6l", 2),
        "room": ("18 degC", 3),
    }
    assert [row.line for row in log.rows] == [5, 6, 7]


def test_times_on_the_clock_count_from_when_it_was_closed():
    text = "# closed: 22:50\nclock,temp_c\n23:00,95\n0:30,85\n7:00,60\n"
    assert [row[0] for row in rows(text)] == [10, 100, 490]


def test_a_room_may_be_read_now_and_then():
    assert [row[2] for row in rows("time_h,temp_c,room_c\n0,97,18\n1,90,\n2,85\n")] == [
        18,
        None,
        None,
    ]


def problems(text):
    return [
        (p.line, p.key, p.code, p.message) for p in sorted(parse_log(text, "test.csv").problems)
    ]


@pytest.mark.parametrize(
    ("text", "line", "code", "words"),
    [
        ("time_min,tmp\n0,97\n", 1, "unknown_key", "unknown column 'tmp'; did you mean 'temp'?"),
        ("temp_c\n97\n", 1, "missing", "no column of time; expected columns such as"),
        ("time_min,temp_c,temp_f\n0,97,1\n", 1, "duplicate_key", "two columns of temperature"),
        ("time,temp_c\n0,97\n", 2, "number", "minutes or hours? name the column time_min"),
        ("time_min,temp\n0,97\n", 2, "number", "which degrees? name the column temp_c"),
        ("time_min,temp_c\n0,hot\n", 2, "number", "expected a temperature such as 92.5"),
        ("time_min,temp_c\nnoon,97\n", 2, "number", "expected a time such as 45"),
        ("time_min,temp_c\n0,\n", 2, "missing", "is empty"),
        ("time_min,temp_c\n0,197\n", 2, "number", "must be -5 to 115 degC"),
        ("time_min,temp_c,room_c\n0,97,99\n", 2, "number", "must be -40 to 60 degC"),
        ("time_min,temp_c\n9,97\n5,90\n", 3, "order", "earlier than the reading above"),
        ("time_min,temp_c\n-9,97\n", 2, "order", "before 0"),
        ("time_h,temp_c\n0,97\n999,90\n", 3, "bounds", "at most 100 h"),
        ("time_min,temp_c\n0,97,5\n", 2, "columns", "3 columns, the header 2"),
        ("# closed: noon\nclock,temp_c\n18:00,97\n", 1, "time", "such as 18:05"),
    ],
)
def test_what_is_wrong_is_told_where_it_stands(text, line, code, words):
    found = problems(text)
    assert [(p[0], p[2]) for p in found] == [(line, code)]
    assert words in found[0][3]


def test_everything_wrong_is_told_at_once():
    text = "time_min,temp_c,room_c\n0,97,300\nx,9,1\n10,,2\n5,90,20\n3,90,20\n"
    assert [p[0] for p in problems(text)] == [2, 3, 4, 6]


@pytest.mark.parametrize("text", ["", "\n\n", "# only a remark\n"])
def test_an_empty_file_says_what_it_should_hold(text):
    with pytest.raises(InputError, match="time_min, temp_c, room_c"):
        parse_log(text, "test.csv")


def test_too_many_readings_are_refused(monkeypatch):
    monkeypatch.setattr(readings, "MOST_ROWS", 2)
    with pytest.raises(InputError, match="more than 2 readings"):
        parse_log(GOOD, "test.csv")


def test_a_file_over_a_megabyte_is_not_read(tmp_path):
    path = tmp_path / "long.csv"
    path.write_text("0,97\n" * 250_000, encoding="utf-8")
    with pytest.raises(InputError, match="larger than 1 MB"):
        read_log(path)


@given(st.text(max_size=300))
def test_any_text_is_read_or_refused_with_words(text):
    try:
        log = parse_log(text, "test.csv")
    except InputError:
        return
    assert log.rows or log.problems or "\n" not in text.strip()


@given(st.floats(0, 100), st.sampled_from(["c", "f"]))
def test_degrees_come_back(level_c, unit):
    written = level_c if unit == "c" else level_c * 1.8 + 32
    found = Column.headed(0, f"temp_{unit}").read(f"{written:.6f}")
    assert found == pytest.approx(level_c, abs=1e-5)


@given(st.integers(0, 23), st.integers(0, 59))
def test_a_time_of_day_comes_back(hour, minute):
    assert clock_min(f"{hour}:{minute:02d}") == 60 * hour + minute
    half = f"{hour % 12 or 12}:{minute:02d} {'pm' if hour >= 12 else 'am'}"
    assert clock_min(half) == 60 * hour + minute


@pytest.mark.parametrize("hours", ["9" * 8, "9" * 30, "-" + "9" * 30])
def test_a_time_far_off_among_times_on_the_clock_is_told_and_leaves_the_others(hours):
    # found by coverage-guided fuzz: midnights were counted one by one up to it
    log = parse_log(f"time_h,temp_c\n18:05,90\n{hours},89\n18:35,88\n", "box.csv")
    assert [(row.line, row.time_min) for row in log.rows] == [(2, 0.0), (4, 30.0)]
    assert [problem.line for problem in log.problems] == [3]


def test_times_on_the_clock_go_on_past_several_midnights():
    text = "time,temp_c\n18:00,90\n05:30,80\n17:00,70\n04:30,60\n"
    minutes = [row.time_min for row in parse_log(text, "box.csv").rows]
    assert minutes == [0.0, 690.0, 1380.0, 2070.0]
