"""The Log page: written down, refused beside its field, left, planned from now, taken out."""

import pytest

from optimizer.report.layout import TIED
from optimizer.scenario.logbook import log_path, read_log

LONG = """\
# ours
title: Two cold days
people: {adults: 4, children: 2}
days: 2
place: {altitude: 100 m, kitchen: 15 degC, outdoors: 10 degC, water: 10 degC}
cook_hours: ["06:00-09:00", "15:00-17:30"]
fuels:
  sticks: {stock: 9 kg, price: 0.50 EUR / kg}
stoves: {stick_stove: 1}
pots: {pot_2_5l: 1, pot_4l: 1}
cookers: {packed_box: {packing: {material: sheep_wool, thickness: 15 cm}}}
menu:
  - {meal: breakfast, at: "07:30", dishes: [porridge]}
  - {meal: lunch, at: "12:30", dishes: [lentil_stew]}
  - {meal: supper, at: "18:00", dishes: [rice]}
"""


@pytest.fixture
def outage(file):
    file.write_text(LONG, encoding="utf-8")
    return file


def put(page, label, value):
    (found,) = [each for each in page.text_input if each.label == label]
    found.set_value(value).run()
    assert not page.exception


def choose(page, label, value):
    (found,) = [each for each in page.selectbox if each.label == label]
    found.select(value).run()
    assert not page.exception


def about(page, kind):
    page.segmented_control[0].set_value(kind).run()
    assert not page.exception


def entries(path):
    return read_log(log_path(path)).entries


def tables(page):
    return " ".join(
        table.value.to_string().replace("\\", "").replace(TIED, " ") for table in page.table
    )


def test_a_weigh_in_is_written_and_what_is_left_is_told(window, outage, press):
    page = window("log")
    put(page, "Clock", "10:00")
    put(page, "How much", "2 x 3 kg + 1.5 kg")
    press(page, "Write it down")
    assert not page.error
    assert "7.5 kg left" in tables(page)
    (entry,) = entries(outage)
    assert (entry.at, entry.left.value) == (600, pytest.approx(7.5))
    assert outage.read_text(encoding="utf-8") == LONG
    assert [t.value for t in page.text_input if t.label == "How much"] == [""]
    assert [t.value for t in page.text_input if t.label == "Clock"] == ["10:00"]


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        ({}, ["say when", "say how much"]),
        ({"Clock": "10:00", "How much": "8"}, ["has no unit"]),
        ({"Clock": "25:00", "How much": "8 kg"}, ["'day 1 25\\:00'"]),
        ({"Clock": "10:00", "How much": "8 kWh"}, ["not by energy"]),
        ({"Clock": "10:00", "How much": "8 kg", "Corrects entry no. (or none)": "7"}, ["entry 7"]),
        ({"Clock": "10:00", "How much": "8 kg", "Corrects entry no. (or none)": "x"}, ["number"]),
    ],
)
def test_what_is_wrong_stands_beside_its_field_and_nothing_is_written(
    window, outage, press, typed, words
):
    page = window("log")
    for label, value in typed.items():
        put(page, label, value)
    press(page, "Write it down")
    told = [error.value for error in page.error]
    assert len(told) == len(words)
    assert all(word in line for word, line in zip(words, told, strict=True)), told
    assert not log_path(outage).exists()
    assert [t.value for t in page.text_input if t.label == "How much"] == [
        typed.get("How much", "")
    ]


def test_every_kind_of_entry_can_be_written(window, outage, press):
    page = window("log")
    put(page, "Clock", "12:30")
    about(page, "Meal")
    choose(page, "Which meal", "lunch")
    choose(page, "It was", "in the cooker")
    choose(page, "In which pot", "pot_4l")
    press(page, "Write it down")
    about(page, "Temperature")
    put(page, "Temperature", "55 degC")
    press(page, "Write it down")
    assert any("read 55 °C" in each.value for each in page.warning)
    assert any("throw the food away" in each.value for each in page.markdown)
    choose(page, "Read", "room")
    put(page, "Temperature", "50 degF")
    press(page, "Write it down")
    about(page, "People")
    page.number_input[0].set_value(5).run()
    press(page, "Write it down")
    about(page, "Sticks")
    put(page, "Until (empty: to the end)", "day 2 12:00")
    press(page, "Write it down")
    assert not page.error
    found = entries(outage)
    assert [e.kind for e in found] == ["meal", "temperature", "temperature", "people", "sticks"]
    assert (found[0].how, found[0].pot, found[0].meal) == ("in the cooker", "pot_4l", "lunch")
    assert found[2].read == pytest.approx(10.0)
    assert (found[3].adults, found[3].children) == (5, 2)
    assert (found[4].wet, found[4].until) == (True, 1440 + 720)


def test_the_plan_from_now_shows_what_is_under_way_and_can_be_followed(window, outage, press):
    page = window("log")
    press(page, "Plan from now")
    assert any("what the clock is" in error.value for error in page.error)
    put(page, "Clock", "10:00")
    press(page, "Plan from now")
    assert not page.error
    told = [line.value.replace("\\", "") for line in page.markdown]
    assert any(line.startswith("From Day 1, 10:00 on") for line in told)
    assert "Under way: lentil stew in the packed box, for 12:30." in told
    assert "12:30" in tables(page)
    assert "07:30  porridge" not in tables(page)
    press(page, "Follow this plan")
    (entry,) = entries(outage)
    assert (entry.kind, entry.at) == ("plan", 600)


def test_after_the_last_meal_it_says_so(window, outage, press):
    page = window("log")
    choose(page, "Day", 2)
    put(page, "Clock", "18:30")
    press(page, "Plan from now")
    assert any("after the last meal" in line.value for line in page.info)


def test_an_entry_is_taken_out_and_a_new_log_begins(window, outage, press):
    page = window("log")
    put(page, "Clock", "10:00")
    put(page, "How much", "3 kg")
    press(page, "Write it down")
    press(page, "It does not count")
    assert "no, corrected" in tables(page)
    assert [entry.kind for entry in entries(outage)] == ["fuel", "withdrawn"]
    press(page, "Begin a new log (the old one is kept)")
    assert entries(outage) == ()
    assert len(read_log(log_path(outage).with_name("morning.log.1.jsonl")).entries) == 2


def test_a_log_that_cannot_be_read_is_told_with_its_lines(window, outage, press):
    log_path(outage).write_text('{"n": 1}\nwhat\n', encoding="utf-8")
    page = window("log")
    told = [line.value.replace("\\", "") for line in page.markdown]
    assert any("line 1" in line for line in told)
    assert any("line 2" in line for line in told)
    press(page, "Begin a new log (the old one is kept)")
    assert not page.error


def test_entries_that_do_not_go_with_the_scenario_are_told(window, outage, press):
    page = window("log")
    put(page, "Clock", "10:00")
    put(page, "How much", "3 kg")
    press(page, "Write it down")
    outage.write_text(LONG.replace("sticks", "propane").replace("stick_stove", "gas_burner"))
    page = window("log")
    assert any("do not go with this scenario" in error.value for error in page.error)
    press(page, "It does not count")
    assert not any("do not go with" in error.value for error in page.error)


def test_what_is_measured_is_taken_when_asked_and_can_be_undone(window, outage, press):
    page = window("log")
    page.session_state["kept"] = {**page.session_state["kept"], "log day": 1}
    for day, clock, left in ((1, "06:00", "9.000"), (1, "12:00", None), (2, "12:00", None)):
        choose(page, "Day", day)
        put(page, "Clock", clock)
        put(page, "How much", f"{left or _left(page, outage, day, clock)} kg")
        press(page, "Write it down")
        assert not page.error
    press(page, "Take the measured number of the stick stove")
    assert "efficiency:" in outage.read_text(encoding="utf-8")
    press(page, "Undo")
    assert outage.read_text(encoding="utf-8") == LONG


def _left(page, outage, day, clock):
    """Weigh what would be left if each meal took a tenth more than planned."""
    from optimizer.scenario.clock import read_moment
    from optimizer.scenario.logbook import Log
    from optimizer.scenario.reading import parse
    from optimizer.trials.record import left_at
    from optimizer.trials.replan import follow, record_from

    scenario = parse(LONG)
    record = record_from(Log("log"), scenario, follow(scenario))
    left = left_at(record, scenario.stores[0], read_moment(f"day {day} {clock}"))
    return f"{9 - 1.1 * (9 - left):.3f}"
