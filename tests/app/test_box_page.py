"""The Box page: sizing by slider, packings at hand, two tests written down."""

import pytest

from optimizer.report.layout import TIED
from optimizer.scenario.reading import read

ROWS = [(0, 97), (15, 93.1), (30, 90.3), (60, 85.5), (90, 81.3), (120, 70.1), (180, 70.7),
        (240, 64.9), (300, 59.6)]  # fmt: skip
PASTED = "time_min,temp_c\n" + "\n".join(f"{t},{c}" for t, c in ROWS) + "\n"
START = {
    "Fuel burned": "300 g",
    "Water at the start": "2.0 kg",
    "Water at the end": "1.95 kg",
    "Water from": "12 degC",
    "Water to": "99 degC",
    "It took": "15 min",
}


def field(shown, label):
    found = [each for each in (*shown.text_input, *shown.selectbox, *shown.slider, *shown.toggle,
                               *shown.text_area, *shown.get("button_group"))
             if each.label == label]  # fmt: skip
    assert found, label
    return found[0]


def put(shown, label, value):
    field(shown, label).set_value(value).run()
    assert not shown.exception


def told(shown):
    return " ".join(each.value.replace("\\", "") for each in (*shown.markdown, *shown.caption))


def errors(shown):
    return [each.value.replace("\\", "") for each in shown.error]


def frames(shown):
    return [table.value.to_string().replace("\\", "").replace(TIED, " ") for table in shown.table]


def test_a_cooker_is_sized_by_its_sliders(window, file):
    shown = window("box")
    assert "all round, dry: still above 60 °C for about" in told(shown)
    before = told(shown)
    put(shown, "Gaps, % of the pot that the packing misses", 5)
    assert "The packing is taken to miss 5 % of the pot." in told(shown)
    assert told(shown) != before
    put(shown, "The packing is damp", value=True)
    assert "damp" in told(shown)
    put(shown, "Packing", "straw")
    assert "of straw or hay all round" in told(shown)
    assert file.read_text(encoding="utf-8").count("straw") == 0  # nothing is changed in the file


def test_a_chart_of_hours_has_its_table(window, file):
    shown = window("box")
    assert len(shown.get("vega_lite_chart") or shown.get("arrow_vega_lite_chart")) >= 2
    beside = next(text for text in frames(shown) if "Hot for" in text)
    assert all(name in beside for name in ("crumpled newspaper", "straw or hay", "wool blankets"))
    assert all(f"{n} cm" in beside for n in (2, 4, 6, 8, 10, 12, 15, 20))


def test_any_dish_can_be_asked_for(window, file):
    shown = window("box")
    put(shown, "Dish", "bean_stew")
    assert any("What cooks in it" in text for text in frames(shown))
    assert "not done while it is counted on to be hot" in told(shown)


def test_a_jar_has_no_packing(window, file):
    shown = window("box")
    put(shown, "Cooker", "jar_2l")
    assert "By the rating of the 2 L vacuum jar" in told(shown)
    assert "A bag of packing" not in [each.value for each in shown.header]


def test_a_pot_too_large_is_told(window, file):
    shown = window("box")
    put(shown, "Pot", "pot_30l")
    assert errors(shown) == ["the 30 L pot does not go into it: the packed box takes smaller ones."]


@pytest.mark.parametrize(
    ("amount", "words"),
    [
        ("60", "has no unit"),
        ("60 cm", "is not a volume"),
        ("9000 L", "must be"),
        ("1 L", "1 cm thick"),
    ],
)
def test_a_bag_that_makes_no_sense_is_told_at_its_field(window, file, amount, words):
    shown = window("box")
    put(shown, "Packing there is", amount)
    (reason,) = errors(shown)
    assert words in reason


def test_a_bag_is_spread(window, file):
    shown = window("box")
    put(shown, "Packing there is", "60 L")
    assert not shown.error
    assert "60 L of packing goes" in told(shown)


def test_what_a_house_has_is_laid(window, file):
    shown = window("box")
    put(shown, "Packing 1", "newspaper")
    put(shown, "How much of it (1)", "30")
    assert errors(shown) == ["'30' has no unit; write for example '60 L' or '3 kg'"]
    put(shown, "How much of it (1)", "30 L")
    put(shown, "Packing 2", "wool_blanket")
    put(shown, "How much of it (2)", "2 kg")
    assert not shown.error
    table = next(text for text in frames(shown) if "From what you have" in text)
    assert "of wool blankets, then" in table
    assert "The first is best." in told(shown)


def fill_water(shown):
    put(shown, "Water in it", "2.0 L")
    put(shown, "In which pot", "pot_2_5l")
    put(shown, "Room (if not read each time)", "15 degC")


def type_readings(shown, rows):
    for number, (time, level) in enumerate(rows, start=1):
        put(shown, f"Time {number}", str(time))
        put(shown, f"Water {number}", str(level))


def test_typed_readings_become_the_numbers_of_a_cooker(window, file, press):
    shown = window("box")
    fill_water(shown)
    type_readings(shown, ROWS[:5])
    assert "5 readings over 1 h 30 min" in told(shown)
    press(shown, "Write down for packed box")
    box = read(file).cookers[0].cooker
    assert box.loss_w_k is not None
    assert "# ours" in file.read_text(encoding="utf-8")
    press(shown, "Undo")
    assert read(file).cookers[0].cooker.loss_w_k is None


def test_a_pasted_table_names_its_outlier_and_makes_a_new_cooker(window, file, press):
    shown = window("box")
    put(shown, "Which cooker", "")
    put(shown, "What you call it", "Ann's box")
    put(shown, "Most like", "hay_box")
    fill_water(shown)
    put(shown, "Readings", "Paste or bring in")
    put(shown, "Or paste it here", PASTED)
    assert not shown.error
    assert "Crosses: left out" in told(shown)
    assert any("left out (line 7)" in text for text in frames(shown))
    press(shown, "Write down for Ann's box")
    made = {own.cooker.name: own.cooker for own in read(file).cookers}
    assert made["ann_s_box"].label == "Ann's box"
    assert made["ann_s_box"].loss_w_k == pytest.approx(0.32, rel=0.2)


def test_a_table_is_brought_in_and_a_large_one_refused(window, file):
    shown = window("box")
    fill_water(shown)
    put(shown, "Readings", "Paste or bring in")
    uploader = next(u for u in shown.get("file_uploader") if "readings" in u.label)
    uploader.set_value(("test.csv", PASTED.encode(), "text/csv")).run()
    assert "9 readings over 5 h" in told(shown)
    uploader = next(u for u in shown.get("file_uploader") if "readings" in u.label)
    uploader.set_value(("test.csv", b"0" * 1_000_001, "text/csv")).run()
    assert not shown.exception
    assert any("1 MB" in reason or "larger" in reason for reason in errors(shown))


def test_faults_of_a_water_test_stand_at_their_fields(window, file):
    shown = window("box")
    type_readings(shown, [(0, 97), (15, "hot"), (30, 90)])
    reasons = errors(shown)
    assert any("how much water was in it" in reason for reason in reasons)
    assert any("how warm was the room" in reason for reason in reasons)
    assert any(reason.startswith("water: expected a temperature") for reason in reasons)
    put(shown, "Water in it", "9 L")
    put(shown, "Room (if not read each time)", "15 degC")
    put(shown, "Water 2", "93")
    assert any("does not go into the" in reason for reason in errors(shown))


def test_too_few_readings_are_told(window, file):
    shown = window("box")
    fill_water(shown)
    type_readings(shown, ROWS[:2])
    assert any("3 is the least" in reason for reason in errors(shown))


def test_readings_that_tell_too_little_are_not_written_down(window, file):
    shown = window("box")
    fill_water(shown)
    type_readings(shown, [(0, 97), (4, 94.6), (8, 95.4)])
    assert any("too uncertain" in each.value for each in shown.warning)
    assert not [b for b in shown.button if b.label.startswith("Write down for")]


def test_more_rows_can_be_had(window, file, press):
    shown = window("box")
    press(shown, "More rows")
    assert field(shown, "Time 9").value == ""


def test_a_boiling_test_becomes_the_numbers_of_a_stove(window, file, press):
    shown = window("box")
    put(shown, "Which pot", "pot_2_5l")
    put(shown, "Air", "15 degC")
    for label, value in START.items():
        put(shown, label, value)
    assert not shown.error, errors(shown)
    assert any("efficiency, before the pot's losses" in text for text in frames(shown))
    press(shown, "Write down for stick stove")
    stove = read(file).stoves[0].stove
    assert stove.source_place.startswith("water boiling test, 1 start")
    press(shown, "Undo")
    assert read(file).stoves[0].stove.efficiency == pytest.approx(0.18)


def test_faults_of_a_boiling_test_stand_at_their_fields(window, file):
    shown = window("box")
    put(shown, "Fuel burned", "300")
    put(shown, "Water at the end", "3 kg")
    reasons = errors(shown)
    assert any("300" in reason and "unit" in reason for reason in reasons)
    missing = [reason for reason in reasons if "is missing" in reason]
    assert {reason.split("'")[1] for reason in missing} == {
        "air", "time", "water", "water_from", "water_to",
    }  # fmt: skip


def test_a_file_of_a_boiling_test_is_read(window, file):
    shown = window("box")
    put(shown, "Measurements", "Bring in a file")
    text = (
        "fuel: sticks\npot: pot_2_5l\nair: 15 degC\ncold: {fuel: 300 g, water: 2.0 kg, "
        "water_left: 1.95 kg, water_from: 12 degC, water_to: 99 degC, time: 15 min}\n"
    )
    uploader = next(u for u in shown.get("file_uploader") if "Boiling" in u.label)
    uploader.set_value(("stove.yaml", text.encode(), "application/yaml")).run()
    assert any("By the protocol" in each for each in frames(shown))
    uploader = next(u for u in shown.get("file_uploader") if "Boiling" in u.label)
    uploader.set_value(("stove.yaml", b"a: [", "application/yaml")).run()
    assert not shown.exception
    assert shown.error


def test_the_page_speaks_in_the_measures_that_are_read(window, file):
    shown = window("box")
    field(shown, "US measures").set_value(True).run()
    assert "still above 140 °F" in told(shown)
    assert any("inch" in text for text in frames(shown))
    type_readings(shown, [(0, 207), (30, 194), (60, 186)])
    put(shown, "Water in it", "2.1 qt")
    put(shown, "In which pot", "pot_2_5l")
    put(shown, "Room (if not read each time)", "59 degF")
    assert not shown.error, errors(shown)
    assert "closed at 207 °F" in told(shown)
