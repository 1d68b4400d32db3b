"""What remains at a moment: nothing changed at the start, pots under way kept, stores cut."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from optimizer.errors import CheckError
from optimizer.model.household import Scenario
from optimizer.model.now import DayOfSticks, Eaters, Left, Now, Soaking
from optimizer.planning.columns import Column, Use
from optimizer.planning.held import beside, left_of, uses_of
from optimizer.planning.ledger import audit
from optimizer.planning.planner import plan
from optimizer.planning.remaining import remaining
from optimizer.planning.verify import verify
from optimizer.scenario.logbook import Log
from optimizer.scenario.reading import parse
from optimizer.trials.course import Course
from optimizer.trials.replan import course_from, follow, record_from, replanning

TEXT = """\
title: Two cold days
people: {adults: 4, children: 2}
days: 2
place: {altitude: 100 m, kitchen: 15 degC, outdoors: 10 degC, water: 10 degC}
cook_hours: ["06:00-09:00", "15:00-17:30"]
fuels:
  sticks: {stock: 9 kg, price: 0.50 EUR / kg}
  propane: {stock: 1 x 465 g, price: 9.50 EUR / 465 g}
stoves: {stick_stove: 1, gas_burner: 1}
pots: {pot_2_5l: 1, pot_4l: 1}
cookers: {packed_box: {packing: {material: sheep_wool, thickness: 15 cm}}}
reserve: 10 %
menu:
  - {meal: breakfast, at: "07:30", dishes: [porridge]}
  - {meal: lunch, at: "12:30", dishes: [lentil_stew]}
  - {meal: supper, at: "18:00", dishes: [rice]}
  - {meal: water, at: "12:30", on: day 2, dishes: [{dish: drinking_water, portions: {children: 2}}]}
"""


@pytest.fixture(scope="module")
def whole() -> Scenario:
    return parse(TEXT)


@pytest.fixture(scope="module")
def course(whole) -> Course:
    return follow(whole)


@pytest.fixture(scope="module")
def at_ten(whole, course) -> Scenario:
    return replanning(record_from(Log("log"), whole, course), 10 * 60).scenario


def test_at_the_start_with_nothing_written_all_remains(whole, course):
    assert remaining(whole, Now(0)) == whole
    for minute in (-500, 0):
        assert replanning(record_from(Log("log"), whole, course), minute).scenario == whole


def test_the_plan_from_the_start_is_the_plan(whole, course):
    again = replanning(record_from(Log("log"), whole, course), 0)
    assert course_from(plan(again.scenario)) == course


@given(st.integers(1, 2 * 1440))
@settings(max_examples=60)
def test_nothing_that_remains_is_over(whole, minute):
    left = remaining(whole, Now(minute))
    assert [item.number for item in left.items] == list(range(len(left.items)))
    assert all(item.serve_min > minute for item in left.items)
    assert len(left.items) == sum(item.serve_min > minute for item in whole.items)
    assert all(minute <= window.start_min < window.end_min for window in left.windows)
    before = sum(max(0, w.end_min - max(w.start_min, minute)) for w in whole.windows)
    assert sum(w.end_min - w.start_min for w in left.windows) == before


@given(st.floats(0, 20), st.floats(0, 2))
def test_a_reserve_stays_as_large_as_it_was(whole, sticks_kg, gas_kg):
    found = (Left("sticks", sticks_kg, None), Left("propane", gas_kg, None))
    stores = remaining(whole, Now(600, found)).stores
    for store, kg, first in zip(stores, (sticks_kg, gas_kg), (9.0, 0.465), strict=True):
        assert store.stock_kg == kg
        assert store.reserve <= 1
        usable = kg * (1 - store.reserve)
        assert usable == pytest.approx(max(0.0, kg - 0.1 * first), abs=1e-9)


def test_who_comes_later_eats_from_then_on(whole):
    noon = 1440 + 12 * 60
    left = remaining(whole, Now(0, eaters=(Eaters(noon, 6, 3),)))
    heads = {(item.day, item.dish.name): (item.adults, item.children) for item in left.items}
    assert heads[1, "rice"] == (4, 2)
    assert heads[2, "porridge"] == (4, 2)
    assert heads[2, "lentil_stew"] == (6, 3)
    assert heads[2, "drinking_water"] == (0, 3)  # of the children only, all of them
    gone = remaining(whole, Now(0, eaters=(Eaters(noon, 4, 0),)))
    assert "drinking_water" not in {item.dish.name for item in gone.items if item.day == 2}


def test_a_cold_kitchen_counts_and_a_warm_one_does_not(whole):
    assert remaining(whole, Now(0, kitchen_c=9.0)).place.kitchen_c == 9.0
    assert remaining(whole, Now(0, kitchen_c=19.0)).place.kitchen_c == 15.0


def test_wet_sticks_count_on_their_days(whole):
    left = remaining(whole, Now(0, sticks=(DayOfSticks(2, wet=True, since=1440),)))
    assert [day.wet_sticks for day in left.weather] == [False, True]


def test_the_stew_in_the_box_stays_in_it_until_lunch(at_ten):
    (under_way,) = at_ten.under_way
    assert under_way.item.dish.name == "lentil_stew"
    assert under_way.step.cooker == "packed_box"
    assert under_way.step.number == len(at_ten.items)
    held = {use.resource: (use.start, use.end) for use in uses_of(at_ten)}
    assert held["cooker:packed_box"] == (600, 750)
    assert held[f"pot:{under_way.step.pot}"] == (600, 750 + at_ten.rules.turn_min)


@pytest.mark.parametrize("minute", [6 * 60 + 40, 7 * 60 + 20, 600, 750, 16 * 60 + 10, 1440 + 700])
def test_a_plan_from_any_moment_passes_the_checker(whole, course, minute):
    again = replanning(record_from(Log("log"), whole, course), minute)
    made = plan(again.scenario)
    assert made.status in {"optimal", "within_gap"}
    verify(made, again.scenario)
    assert made.begins == minute
    assert len(made.under_way) == len(again.scenario.under_way)
    assert all(step.light >= minute and step.on >= minute for step in made.steps)
    assert {step.number for step in made.steps} == {item.number for item in again.scenario.items}
    for use, store in zip(made.fuels, again.scenario.stores, strict=True):
        assert use.left_kg is not None
        assert store.stock_kg is not None
        assert use.left_kg >= store.stock_kg * store.reserve - 1e-6


def test_the_checker_sees_a_pot_put_where_one_is(at_ten):
    made = plan(at_ten)
    taken = at_ten.under_way[0].step
    first = made.steps[0]
    bad = replace(first, cooker="packed_box", move=610, on=600, off=605, boil=604, serve=700)
    with pytest.raises(CheckError, match=r"cooker packed_box: 2 in use"):
        verify(replace(made, steps=(bad, *made.steps[1:])), at_ten)
    worse = replace(first, pot=taken.pot, on=610)
    with pytest.raises(CheckError, match=rf"pot {taken.pot}: 2 in use"):
        verify(replace(made, steps=(worse, *made.steps[1:])), at_ten)


def test_the_checker_sees_a_step_before_the_plan_begins(whole):
    made = plan(whole)
    with pytest.raises(CheckError, match="before the plan begins"):
        verify(made, replace(whole, begins=7 * 60))


def test_what_soaks_already_need_not_soak_again():
    text = TEXT.replace("dishes: [rice]", "dishes: [chickpea_stew]")
    text = text.replace("pot_4l: 1}", "pot_4l: 1, pressure_6l: 1}").replace("17:30", "17:55")
    long = parse(text.replace("{adults: 4, children: 2}", "{adults: 3, children: 2}"))
    number = next(i.number for i in long.items if i.dish.name == "chickpea_stew")
    noon = Now(15 * 60, soaking=(Soaking(number, 7 * 60),))
    left = remaining(long, noon)
    assert left.items[0].soaked_from == 7 * 60
    made = plan(left)
    assert made.status in {"optimal", "within_gap"}
    assert made.steps[0].soak_from == 7 * 60
    assert plan(remaining(long, replace(noon, soaking=()))).status == "infeasible"


spans = st.tuples(st.integers(0, 60), st.integers(1, 40)).map(lambda t: (t[0], t[0] + t[1]))


@given(st.lists(st.integers(1, 60), max_size=3), st.lists(spans, max_size=5), st.integers(1, 3))
def test_columns_beside_what_is_held_are_those_there_is_room_for(ends, taken, count):
    """Hold the rows of single resources against counting every minute."""
    held = tuple(Use("pot:x", 0, end) for end in ends[:count])
    capacity = {"pot:x": count}
    columns = [
        Column(n, "s", (), (Use("pot:x", start, end),), "f", 0.0, 0.0, 0.0)
        for n, (start, end) in enumerate(taken)
    ]
    kept = beside(columns, held, capacity)
    whole_capacity = capacity | left_of(held, capacity)
    fits = len(kept) == len(columns) and _fits(kept, whole_capacity)
    truly = all(
        sum(a <= minute < b for a, b in taken) + sum(minute < use.end for use in held) <= count
        for minute in range(110)
        if any(a <= minute < b for a, b in taken)
    )
    assert fits == truly


def _fits(columns: list[Column], capacity: dict[str, int]) -> bool:
    from optimizer.planning.columns import Kitchen

    items = tuple(column.item for column in columns)
    try:
        audit(columns, Kitchen(items, capacity, {}, {}, ()))
    except CheckError:
        return False
    return True
