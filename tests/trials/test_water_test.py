"""A water test put together: what was filled, in what; what goes into the scenario."""

from dataclasses import replace

import pytest

from optimizer import shelf
from optimizer.errors import InputError
from optimizer.trials.readings import parse_log
from optimizer.trials.water_test import water_test

THINGS = shelf.load()
BOX, JAR = THINGS.cookers["packed_box"], THINGS.cookers["jar_1l"]
NOTES = "# water: 4.8 L\n# pot: pot_6l\n# room: 12 degC\n"
# A box of 0.40 W/K, packing 3000 J/K, from 97 degC, to a tenth of a degree (by scipy's solver).
TABLE = (
    "time_min,temp_c\n0,97.0\n15,94.4\n30,92.4\n60,89.1\n90,86.3\n120,83.8\n180,79.1\n240,74.8\n"
    "300,70.8\n360,67.0\n420,63.5\n480,60.2\n"
)
JAR_TABLE = "time_h,temp_c\n0,94.0\n2,87.2\n4,80.9\n6,75.2\n8,69.9\n"  # 0.050 W/K


def made(text=NOTES + TABLE, options=None, cooker=BOX, household=()):
    log = parse_log(text, "test.csv")
    return water_test(log, options or {}, THINGS.pots, THINGS.cookers, cooker, household)


def problems(text, **more):
    with pytest.raises(InputError) as refused:
        made(text, **more)
    return [(p.file, p.line, p.key, p.code) for p in refused.value.problems]


def test_heat_is_that_of_water_and_pot():
    found = made()
    assert found.fit.readings.contents_j_k == pytest.approx(4.8 * 0.998 * 4190 + 2.0 * 460)
    assert found.fit.kind == "packed"


def test_a_box_is_found_again():
    found = made().fit
    assert found.loss_w_k.low < 0.40 < found.loss_w_k.high
    assert found.packing_j_k.low < 3000 < found.packing_j_k.high


def test_what_goes_into_the_file():
    values = made().values
    loss, unit = values["loss"].split()
    assert (float(loss), unit) == (pytest.approx(0.40, rel=0.03), "W/K")
    assert values["packing_heat"].endswith(" J/K")
    assert 0.1 <= values["loss_spread"] < 0.15
    assert values["source"] == "water test, 12 readings over 8.0 h, 4.8 kg of water in pot_6l"


def test_a_larger_pot_of_the_household_raises_what_goes_into_the_file():
    pots = [THINGS.pots[name] for name in ("pot_4l", "pot_8l", "pot_30l")]
    plain, raised = made(), made(household=pots)
    assert raised.largest is not None
    assert raised.largest.pot.name == "pot_8l"  # the 30 L pot does not go in
    times = float(raised.values["loss"].split()[0]) / float(plain.values["loss"].split()[0])
    assert times == pytest.approx(raised.largest.loss_times, rel=0.01)
    assert 1.05 < times < 1.5
    assert raised.values["source"].endswith("reckoned up for pot_8l")
    assert made(household=pots[:1]).largest is None


def test_without_a_test_a_plan_takes_the_computed_loss():
    before = replace(BOX, loss_w_k=9.0)
    assert made(cooker=before).computed_w_k == pytest.approx(made().computed_w_k)
    assert 0.3 < made().computed_w_k < 0.6


def test_a_jar_is_one_body_with_its_liner():
    found = made("# water: 0.95 kg\n# room: 12 degC\n" + JAR_TABLE, cooker=JAR)
    assert (found.fit.kind, found.jar, found.pot) == ("vacuum", JAR, None)
    assert found.fit.readings.contents_j_k == pytest.approx(0.95 * 4190 + JAR.liner_j_k)
    assert "packing_heat" not in found.values
    assert found.fit.loss_w_k.value == pytest.approx(0.050, rel=0.01)
    named = made("# water: 0.95 kg\n# jar: jar_1l\n# room: 12 degC\n" + JAR_TABLE, cooker=None)
    assert named.fit.loss_w_k == found.fit.loss_w_k


def test_an_option_goes_before_a_note():
    found = made(options={"water": "2.5 kg", "room": "10 degC", "pot": "pot_4l", "jar": None})
    assert (found.water_kg, found.pot.name) == (2.5, "pot_4l")
    assert set(found.fit.readings.room_c) == {10.0}


def test_rooms_read_now_and_then_are_joined_up():
    text = NOTES + "time_min,temp_c,room_c\n0,97,18\n60,90,\n120,84,14\n180,79,\n"
    assert list(made(text).fit.readings.room_c) == [18, 16, 14, 14]


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (TABLE, {("water", "missing"), ("pot", "missing"), ("room", "missing")}),
        (NOTES.replace("4.8 L", "4.8") + TABLE, {("water", "unit_missing")}),
        (NOTES.replace("4.8 L", "480 L") + TABLE, {("water", "bounds")}),
        (NOTES.replace("4.8 L", "7 L") + TABLE, {("water", "contradiction")}),
        (NOTES.replace("pot_6l", "pott_6l") + TABLE, {("pot", "unknown_name")}),
        (NOTES.replace("12 degC", "112 degC") + TABLE, {("room", "bounds")}),
        (NOTES.replace("12 degC", "12 kg") + TABLE, {("room", "unit_wrong")}),
        ("# jar: jar_1l\n" + NOTES + TABLE, {("jar", "contradiction")}),
        (NOTES + "time_min,temp_c\n0,97\n60,90\n", {("", "too_few")}),
        (NOTES + "time_min,temp_c\n0,97\n60,98\n120,99\n", {("", "out_of_range")}),
    ],
)
def test_what_is_wrong_is_told(text, told):
    assert {(key, code) for _, _, key, code in problems(text)} == told


def test_problems_of_notes_have_their_line_and_options_have_none():
    text = NOTES.replace("pot_6l", "pan").replace("4.8 L", "x") + TABLE.replace("97.0", "hot")
    assert problems(text, options={"room": "cold"}) == [
        ("command line", None, "--room", "quantity"),
        ("test.csv", 1, "water", "quantity"),
        ("test.csv", 2, "pot", "unknown_name"),
        ("test.csv", 5, "temp_c", "number"),
    ]


def test_a_pot_does_not_go_with_a_jar():
    assert problems(NOTES + TABLE, cooker=JAR) == [("test.csv", 2, "pot", "contradiction")]
    text = NOTES.replace("pot: pot_6l", "jar: jar_1l") + TABLE
    assert ("test.csv", 2, "jar", "contradiction") in problems(text)


def test_a_full_pot_goes_in_and_more_does_not():
    assert made(NOTES.replace("4.8 L", "6 L") + TABLE).water_kg == pytest.approx(5.988)
    jar = "# water: 1.4 kg\n# room: 12 degC\n" + JAR_TABLE
    assert problems(jar, cooker=JAR) == [("test.csv", 1, "water", "contradiction")]
