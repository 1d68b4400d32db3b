"""The log beside the plan: what is done, what is under way, what is left, what burned."""

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from optimizer.errors import InputError
from optimizer.model.household import Scenario
from optimizer.model.now import Eaters
from optimizer.model.plan import Fire, Step
from optimizer.planning.remaining import remaining
from optimizer.planning.stock import joules_per_kg
from optimizer.scenario.logbook import Log, parse_log, seal
from optimizer.scenario.reading import parse
from optimizer.trials.burn import burners, measured_values, of_stove, ratios, stretches_of
from optimizer.trials.course import Burnt, Course, course_of, followed
from optimizer.trials.diary import problems_of
from optimizer.trials.moment import MomentError, moment_of
from optimizer.trials.record import Record, left_at, now
from optimizer.trials.remains import paces
from optimizer.trials.replan import record_from, replanning
from optimizer.trials.thermometer import too_cold

TEXT = """\
title: Two days
people: {adults: 2, children: 1}
start: 2027-01-15
days: 2
place: {altitude: 0 m, kitchen: 15 degC, outdoors: 10 degC, water: 10 degC}
cook_hours: ["06:00-09:00", "15:00-17:30"]
fuels:
  sticks: {stock: 9 kg, price: 0.50 EUR / kg}
  propane: {stock: 1 x 465 g, price: 9.50 EUR / 465 g}
stoves: {stick_stove: 1, gas_burner: 1}
pots: {pot_2_5l: 1, pot_4l: 1}
cookers: {packed_box: 1}
reserve: 10 %
menu:
  - {meal: breakfast, at: "07:30", dishes: [porridge, tea]}
  - {meal: lunch, at: "12:30", dishes: [lentil_stew]}
  - {meal: supper, at: "18:00", dishes: [rice]}
"""
WHOLE: Scenario = parse(TEXT)
STICKS = WHOLE.stores[0]
A_KG = joules_per_kg(STICKS.fuel) or 0.0


def cooked(number: int, on: int, off: int, *, kg: float, **more: Any) -> Step:
    """One step of an invented plan; masses of sticks that can be reckoned by head."""
    item = WHOLE.items[number]
    step = Step(
        number=number, day=item.day, meal=item.meal, item=item.dish.label, dish=item.dish.name,
        portions=item.portions, batch=1, serve_rule=item.dish.serve, stove="stick_stove",
        fuel="sticks", pot="pot_4l", pressure=False, finish="flame", cooker=None, soak_from=None,
        light=on, on=on, boil=off, off=off, move=None, reboil=(), serve=item.serve_min,
        hold_minutes=0, ingredients=(), water_kg=1.0, fuel_kg=kg, fuel_mj=kg * A_KG / 1e6,
        cost=0.0, done=1.0, serve_c=75.0, serve_c_low=65.0, fill=0.8,
    )  # fmt: skip
    return replace(step, **more)


PORRIDGE, TEA, STEW, RICE = 0, 1, 2, 3
COURSE = Course(
    steps=(
        cooked(PORRIDGE, 400, 440, kg=0.4),
        cooked(TEA, 410, 430, kg=0.0, fuel_mj=1.0, stove="gas_burner", fuel="propane"),
        cooked(STEW, 450, 500, kg=0.5, cooker="packed_box", move=502, finish="packed"),
        cooked(RICE, 1000, 1020, kg=0.2, cooker="packed_box", move=1022, finish="packed"),
        cooked(4, 1840, 1880, kg=0.4),
    ),
    fires=(Fire("stick_stove", 1, 390, 500, 0.1 * A_KG / 1e6, 0.0),),
)


def log(*said: dict[str, Any]) -> Log:
    return parse_log(b"".join(seal({"n": n, **each}) + b"\n" for n, each in enumerate(said, 1)))


def record(*said: dict[str, Any], course: Course = COURSE) -> Record:
    return record_from(log(*said), WHOLE, course)


def fuel(at: str, left: str, **more: Any) -> dict[str, Any]:
    return {"at": at, "kind": "fuel", "fuel": "sticks", "left": left, **more}


def meal(at: str, name: str, day: int = 1, **more: Any) -> dict[str, Any]:
    return {"at": at, "kind": "meal", "meal": name, "day": day, **more}


# what is left


def test_what_was_never_weighed_is_the_stock_less_what_the_plan_burns():
    found = record()
    assert left_at(found, STICKS, 390) == pytest.approx(9.0)
    assert left_at(found, STICKS, 420) == pytest.approx(9.0 - 0.2 - 0.1 * 30 / 110)
    assert left_at(found, STICKS, 600) == pytest.approx(9.0 - 0.4 - 0.5 - 0.1)
    assert left_at(found, STICKS, 5000) == pytest.approx(9.0 - 0.4 - 0.5 - 0.1 - 0.2 - 0.4)


def test_the_last_weigh_in_counts_and_what_burned_since():
    found = record(fuel("day 1 10:00", "7.5 kg"), fuel("day 1 07:00", "8.8 kg"))
    assert left_at(found, STICKS, 10 * 60) == pytest.approx(7.5)
    assert left_at(found, STICKS, 20 * 60) == pytest.approx(7.5 - 0.2)
    assert left_at(found, STICKS, 7 * 60) == pytest.approx(8.8)


def test_empty_packages_do_not_count_and_what_came_in_does():
    came = {"at": "day 1 11:00", "kind": "fuel", "fuel": "sticks", "added": "2 x 5 kg"}
    found = record(fuel("day 1 10:00", "8.5 kg", empty="1 kg"), came)
    assert left_at(found, STICKS, 600) == pytest.approx(7.5)
    assert left_at(found, STICKS, 700) == pytest.approx(17.5)


def test_a_corrected_weigh_in_counts_once():
    said = [fuel("day 1 10:00", "4 kg"), fuel("day 1 10:00", "7.4 kg", instead_of=1)]
    assert left_at(record(*said), STICKS, 600) == pytest.approx(7.4)


@given(st.floats(0, 9), st.integers(0, 2879), st.integers(0, 2879))
def test_never_more_is_left_than_was_weighed(kg, first, later):
    at = f"day {first // 1440 + 1} {first % 1440 // 60:02}:{first % 60:02}"
    found = record(fuel(at, f"{kg:.3f} kg"))
    minute = max(first, later)
    left = {each.fuel: each.kg for each in now(found, minute).left}
    assert 0 <= left["sticks"] <= float(f"{kg:.3f}")


def test_a_pot_on_the_fire_has_its_rest_of_fuel_put_by():
    stands = now(record(), 475)
    left = {each.fuel: each.kg for each in stands.left}
    burned = 0.4 + 0.25 + 0.1 * 85 / 110
    assert left["sticks"] == pytest.approx(9.0 - burned - 0.25)
    assert [each.step.number for each in stands.under_way] == [STEW]


# what is done, and what is under way


def test_meals_that_are_over_are_not_planned_again():
    left = remaining(WHOLE, now(record(), 600))
    assert [(i.day, i.dish.name) for i in left.items] == [
        (1, "rice"), (2, "porridge"), (2, "tea"), (2, "lentil_stew"), (2, "rice"),
    ]  # fmt: skip
    assert [each.item.dish.name for each in left.under_way] == ["lentil_stew"]


def test_a_meal_eaten_early_frees_its_box():
    found = record(meal("day 1 11:30", "lunch"))
    stands = now(found, 11 * 60 + 40)
    assert stands.under_way == ()
    assert STEW in stands.done
    assert now(found, 11 * 60).under_way  # it was not eaten yet then


def test_a_meal_left_out_is_not_cooked():
    left = remaining(WHOLE, now(record(meal("day 1 10:00", "supper", how="left out")), 600))
    assert (1, "rice") not in {(item.day, item.dish.name) for item in left.items}
    assert left_at(record(meal("day 1 10:00", "supper", how="left out")), STICKS, 1400) == (
        pytest.approx(9.0 - 0.4 - 0.5 - 0.1)
    )


def test_a_dish_not_begun_is_planned_again():
    said = meal("day 1 08:30", "lunch", how="not begun", dish="lentil_stew")
    found = record(said)
    left = remaining(WHOLE, now(found, 9 * 60))
    assert left.under_way == ()
    assert left.items[0].dish.name == "lentil_stew"
    assert left_at(found, STICKS, 600) == pytest.approx(9.0 - 0.4 - 0.1)


def test_a_dish_packed_otherwise_than_planned_holds_its_box():
    said = meal("day 1 15:30", "supper", how="in the cooker", pot="pot_2_5l", cooker="packed_box")
    (under_way,) = now(record(said), 16 * 60).under_way
    assert (under_way.step.pot, under_way.step.cooker) == ("pot_2_5l", "packed_box")
    assert (under_way.step.on, under_way.step.move) == (910, 930)
    assert under_way.step.serve == 18 * 60
    assert under_way.step.serve_c == 0  # in another pot than planned: not known
    late = meal("day 1 17:02", "supper", how="in the cooker")
    assert now(record(late), 17 * 60 + 5).under_way[0].step.serve_c == 75


def test_a_dish_that_no_plan_had_can_be_in_the_box():
    said = meal("day 1 08:00", "lunch", how="in the cooker")
    (under_way,) = now(record(said, course=Course()), 9 * 60).under_way
    assert under_way.step.cooker == "packed_box"
    assert under_way.item.dish.name == "lentil_stew"


def test_what_was_put_to_soak_soaks():
    stands = now(record(meal("day 1 09:00", "supper", how="soaking"), course=Course()), 600)
    assert [(each.item, each.since) for each in stands.soaking] == [(RICE, 540)]


def test_another_stove_burns_another_fuel():
    found = record(meal("day 1 07:30", "breakfast", dish="porridge", stove="gas_burner"))
    stick, gas = (own.stove.efficiency for own in WHOLE.stoves)
    step = next(step for step in found.course.steps if step.number == PORRIDGE)
    assert (step.stove, step.fuel) == ("gas_burner", "propane")
    assert step.fuel_mj == pytest.approx(0.4 * A_KG / 1e6 * stick / gas)


def test_people_and_a_cold_room_are_in_the_state():
    people = {"at": "day 2 07:00", "kind": "people", "adults": 5, "children": 0}
    rooms = [
        {"at": f"day 1 0{hour}:00", "kind": "temperature", "when": "room", "read": f"{hour} degC"}
        for hour in (8, 9)
    ]
    stands = now(record(people, *rooms), 600)
    assert stands.eaters == (Eaters(1440 + 420, 5, 0),)
    assert stands.kitchen_c == pytest.approx(9.0)
    assert now(record(people, *rooms), 500).kitchen_c == pytest.approx(8.0)


def test_wet_sticks_burn_more_from_then_on():
    wet = {"at": "day 1 08:00", "kind": "sticks", "wet": True, "until": "day 1 20:00"}
    dry, found = record(), record(wet)
    assert [(each.day, each.wet) for each in now(found, 600).sticks] == [(1, True)]
    assert left_at(found, STICKS, 445) == left_at(dry, STICKS, 445)  # burned before
    rice_dry = (left_at(dry, STICKS, 900) or 0) - (left_at(dry, STICKS, 1100) or 0)
    rice_wet = (left_at(found, STICKS, 900) or 0) - (left_at(found, STICKS, 1100) or 0)
    assert rice_wet > rice_dry == pytest.approx(0.2)
    assert left_at(found, STICKS, 5000) == pytest.approx(
        (left_at(dry, STICKS, 5000) or 0) - (rice_wet - rice_dry)
    )  # dry again on day 2


# a plan that is followed


def test_a_plan_that_is_followed_goes_into_the_log_and_comes_out_as_it_was():
    said = {"at": "day 1 00:00", "kind": "plan", **followed(_plan(COURSE), Course(), WHOLE, 0)}
    entry = log(said).entries[0]
    back = course_of(entry, WHOLE)
    assert [replace(s, fuel_kg=None, water_kg=0.0, fill=1.0) for s in COURSE.steps] == [
        replace(s, fuel_mj=t.fuel_mj) for s, t in zip(back.steps, COURSE.steps, strict=True)
    ]
    assert [s.fuel_mj for s in back.steps] == pytest.approx([s.fuel_mj for s in COURSE.steps])
    assert [(f.start, f.end) for f in back.fires] == [(390, 500)]


def _plan(course: Course) -> Any:
    from optimizer.model.plan import Goal, Plan

    return Plan("x", None, "optimal", 0.0, Goal("money", 0.0, 0.0), course.steps, course.fires)


def test_what_was_written_before_a_plan_is_in_it_already():
    """A dish not begun at ten and planned again at eleven is not taken away once more."""
    late = Course((cooked(STEW, 900, 950, kg=0.5),))
    said = [
        meal("day 1 08:30", "lunch", how="not begun", dish="lentil_stew"),
        {"at": "day 1 09:00", "kind": "plan", **followed(_plan(late), Course(), WHOLE, 540)},
    ]
    assert [step.number for step in record(*said).course.steps] == [STEW]


# measured against predicted


def test_measured_against_predicted_by_hand():
    found = record(fuel("day 1 06:00", "9.0 kg"), fuel("day 1 10:00", "7.8 kg"))
    (stretch,) = stretches_of(found, STICKS)
    assert (stretch.measured, stretch.predicted) == (pytest.approx(1.2), pytest.approx(1.0))
    assert stretch.stoves == ("stick_stove",)
    (ratio,) = [each for each in ratios(found) if each.fuel == "sticks"]
    assert ratio.value == pytest.approx(1.2)
    assert ratio.half is None
    assert "too few" in ratio.why_not
    assert burners(ratios(found)) == []


def test_two_stretches_have_a_band_that_holds_the_truth():
    said = [
        fuel("day 1 06:00", "9.000 kg"),
        fuel("day 1 10:00", "7.900 kg"),  # 1.1 times 1.0 kg
        fuel("day 1 20:00", "7.680 kg"),  # 1.1 times 0.2 kg
        fuel("day 2 10:00", "7.240 kg"),  # 1.1 times 0.4 kg
    ]
    (ratio,) = [each for each in ratios(record(*said)) if each.stove == "stick_stove"]
    assert ratio.value == pytest.approx(1.1)
    assert ratio.half is not None
    assert 0 < ratio.half < 0.01
    values = measured_values(ratio, WHOLE)
    assert values["efficiency"] == pytest.approx(WHOLE.stoves[0].stove.efficiency / 1.1, rel=5e-3)
    assert ratio.why_not == ""


def test_the_band_by_hand_of_two_stretches():
    """90 % band of a ratio of sums with one degree of freedom: t = 6.314 (Student's table)."""
    said = [
        fuel("day 1 06:00", "9.0000 kg"),
        fuel("day 1 10:00", "8.1000 kg"),  # 0.9 for 1.0
        fuel("day 1 20:00", "7.8000 kg"),  # 0.3 for 0.2
    ]
    (ratio,) = [each for each in ratios(record(*said)) if each.stove == "stick_stove"]
    assert ratio.value == pytest.approx(1.0)
    scatter = ((0.1**2 + 0.1**2) * 2) ** 0.5 / 1.2
    assert ratio.half == pytest.approx(6.314 * scatter, rel=1e-3)
    assert "too uncertain" in ratio.why_not


def test_coarse_readings_are_not_taken():
    said = [fuel("day 1 06:00", "9 kg"), fuel("day 1 10:00", "8 kg"), fuel("day 2 10:00", "7 kg")]
    (ratio,) = [each for each in ratios(record(*said)) if each.stove == "stick_stove"]
    assert "too uncertain" in ratio.why_not


def test_several_stoves_share_what_was_weighed():
    both = record(
        meal("day 1 07:30", "breakfast", dish="tea", stove="stick_stove"),
        fuel("day 1 06:00", "9.0 kg"),
        fuel("day 1 10:00", "7.8 kg"),
    )
    assert of_stove(ratios(both), "stick_stove") is not None
    course = replace(COURSE, steps=(*COURSE.steps, cooked(RICE, 460, 470, kg=0.1, stove="other")))
    shared = Record(WHOLE, both.entries, course)
    (ratio,) = [each for each in ratios(shared) if each.fuel == "sticks"]
    assert ratio.stove is None
    assert "several stoves" in ratio.why_not


def test_whole_packages_are_known_without_a_scale_and_loose_sticks_are_not():
    gas = {"at": "day 1 10:00", "kind": "fuel", "fuel": "propane", "left": "440 g"}
    found = record(gas, fuel("day 1 10:00", "8 kg"))
    assert [(r.fuel, r.stove) for r in ratios(found)] == [("propane", "gas_burner")]
    assert ratios(found)[0].measured == pytest.approx(0.025)


@given(st.integers(0, 500), st.integers(1, 60), st.integers(0, 600), st.integers(0, 600))
def test_what_burns_is_burned_once(on, minutes, start, end):
    burnt = Burnt("s", "f", 7.0, ((on, on + minutes), (on + 100, on + 110)))
    first, last = min(start, end), max(start, end)
    parts = burnt.between(-1, first) + burnt.between(first, last) + burnt.between(last, 10**6)
    assert parts == pytest.approx(7.0)


def test_the_pace_is_that_of_the_plan_and_leaves_the_reserve():
    found = {each.fuel: each.days for each in paces(record(fuel("day 1 10:00", "5 kg")), 600)}
    assert found["sticks"] == pytest.approx((5 - 0.9) / ((0.4 + 0.5 + 0.1 + 0.2 + 0.4) / 2))


# readings


def read(temp: str, when: str = "serving", dish: str = "lentil_stew") -> dict[str, Any]:
    return {
        "at": "day 1 12:30", "kind": "temperature", "when": when, "read": temp, "day": 1,
        "meal": "lunch" if dish == "lentil_stew" else "supper", "dish": dish,
    }  # fmt: skip


def test_food_below_the_safe_line_has_its_caution():
    """60 degC: BfR Opinion 037/2020; what to do: FSIS "Danger Zone" (data/tables/cautions.csv)."""
    (cold,) = too_cold(record(read("59.9 degC")))
    assert cold.least_c == 60
    assert [caution.code for caution in cold.cautions] == ["reheat"]
    assert "throw the food away" in cold.cautions[0].text
    assert too_cold(record(read("60 degC"))) == ()
    assert too_cold(record(read("140 degF"))) == ()
    rice = too_cold(record(read("50 degC", dish="rice")))[0]
    assert [caution.code for caution in rice.cautions] == ["rice", "reheat"]


def test_a_reading_at_the_move_foretells_the_table():
    """15 degC room, boiling at 100: the careful 65 degC at the table are 50/85 of the rise."""
    hot = record(read("99 degC", "move"))
    assert too_cold(hot) == ()
    (cold,) = too_cold(record(read("85 degC", "move")))
    assert cold.at_table_c == pytest.approx(15 + 50 * 70 / 85, abs=0.1)


# entries held against the scenario


@pytest.mark.parametrize(
    ("said", "key", "words"),
    [
        (fuel("day 1 10:00", "8 kg") | {"fuel": "stics"}, "fuel", "did you mean 'sticks'"),
        (fuel("day 1 10:00", "8 kWh"), "left", "not by energy"),
        (fuel("day 1 10:00", "1 kg", empty="2 kg"), "empty", "weigh more"),
        ({"at": "day 1 10:00", "kind": "fuel", "fuel": "sticks"}, "left", "'added'"),
        (fuel("day 9 10:00", "8 kg"), "at", "2 days"),
        (meal("day 1 10:00", "luch"), "meal", "did you mean 'lunch'"),
        (meal("day 1 10:00", "lunch", day=7), "day", "day 7"),
        (meal("day 1 10:00", "lunch", dish="rise"), "dish", "known: lentil_stew"),
        (meal("day 1 10:00", "lunch", stove="gas_burer"), "stove", "gas_burner"),
        (meal("day 1 10:00", "lunch", pot="big"), "pot", "pot_4l"),
        (meal("day 1 10:00", "lunch", cooker="packed_box"), "cooker", "in the cooker"),
        (meal("day 1 10:00", "lunch", how="eatn"), "how", "did you mean 'eaten'"),
        (read("61 degC") | {"meal": "dinner"}, "meal", "dinner"),
        ({"at": "day 1 10:00", "kind": "temperature", "when": "move", "read": "61 degC"},
         "day", "missing"),
        ({"at": "day 1 10:00", "kind": "people", "adults": 0, "children": 0}, "adults", "1 to"),
        ({"at": "day 2 10:00", "kind": "sticks", "wet": True, "until": "day 1 10:00"},
         "until", "later"),
    ],
)  # fmt: skip
def test_an_entry_that_cannot_be_is_told(said, key, words, tmp_path):
    (problem,) = problems_of(tmp_path / "x.log.jsonl", [said], WHOLE)
    assert problem.key == key
    assert words in problem.message
    with pytest.raises(InputError) as caught:
        record(said)
    assert [(p.line, p.key) for p in caught.value.problems] == [(1, key)]


def test_after_the_last_meal_nothing_is_left_to_plan():
    for minute in (1440 + 18 * 60, 5000):
        with pytest.raises(InputError, match="last meal") as caught:
            replanning(record(), minute)
        assert caught.value.problems[0].key == "--from"


# moments


@pytest.mark.parametrize(
    ("said", "minute"),
    [
        ("day 2 12:05", 1440 + 725),
        ("Day 2, 12:05", 1440 + 725),
        ("day 2 supper", 1440 + 1080),
        ("2027-01-16 12:05", 1440 + 725),
        ("2027-01-14 12:00", -720),
    ],
)
def test_a_moment_can_be_said_in_several_ways(said, minute):
    assert moment_of(said, WHOLE) == minute


@pytest.mark.parametrize(
    "said", ["", "noon", "day 0 10:00", "day 2 25:00", "day 2 brunch", "day 9 supper",
             "2027-02-30 10:00", "2027-01-16 99:00", "12:00"],
)  # fmt: skip
def test_what_is_no_moment_is_told(said):
    with pytest.raises(MomentError):
        moment_of(said, WHOLE)


def test_now_needs_a_date():
    with pytest.raises(MomentError, match="'start' date"):
        moment_of("now", replace(WHOLE, start=None))
    assert isinstance(moment_of("now", WHOLE), int)
