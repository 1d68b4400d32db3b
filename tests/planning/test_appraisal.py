"""What more of everything saves: each number is found again by changing the scenario itself."""

from dataclasses import replace

import pytest

from optimizer.model.household import Window
from optimizer.model.plan import Worth
from optimizer.planning.appraisal import appraised
from optimizer.planning.baseline import Effort
from optimizer.planning.kitchen import choices, kitchen_of
from optimizer.planning.mix import mix
from optimizer.planning.planner import plan
from optimizer.planning.stock import joules_per_kg
from optimizer.scenario.reading import parse

TEXT = """\
title: Two short days at Rowan Row
people: 4
days: 2
place: {altitude: 100 m, kitchen: 10 degC, outdoors: 0 degC, water: 8 degC}
cook_hours: ["06:30-08:00", "16:30-18:00"]
fuels:
  sticks: {stock: 2 x 0.8 kg, price: 0.50 EUR / kg, reserve: 20 %}
  propane: {stock: 2 x 465 g, price: 9.50 EUR / 465 g}
stoves: {stick_stove: 1, gas_burner: 1}
pots: {pot_2_5l: 1, pot_4l: 1}
cookers: {packed_box: 1}
menu:
  - {meal: breakfast, at: "07:45", dishes: [porridge]}
  - {meal: supper, at: "18:00", dishes: [lentil_stew, rice]}
"""
EFFORT = Effort(1e-6, 120.0, "highs")


@pytest.fixture(scope="module")
def household():
    return parse(TEXT)


@pytest.fixture(scope="module")
def made(household):
    return plan(household, gap=1e-6)


@pytest.fixture(scope="module")
def told(household, made) -> dict[str, Worth]:
    return {worth.what: worth for worth in appraised(made, household, EFFORT)}


def mix_of(household, goal="money") -> float | None:
    return mix(choices(household).columns, kitchen_of(household), goal=goal).value


def mixed(household, goal="money") -> float:
    value = mix_of(household, goal)
    assert value is not None
    return value


def with_sticks(household, kg):
    sticks, *others = household.stores
    return replace(household, stores=(replace(sticks, stock_kg=kg), *others))


def with_box(household, count):
    (box,) = household.cookers
    return replace(household, cookers=(replace(box, count=count),))


def test_a_package_of_fuel(household, made, told):
    sticks = told["800 g more of sticks"]
    more = with_sticks(household, 2.4)
    saved = made.goal.value - plan(more, gap=1e-6).goal.value
    assert sticks.unit == "EUR"
    assert sticks.value == pytest.approx(saved, abs=1e-5)
    assert sticks.value > 0.01


def test_a_package_of_fuel_by_the_mix(household, told):
    # a package is counted whole, while a household keeps a share of it in reserve
    sticks = told["800 g more of sticks"]
    kept = 1 - household.stores[0].reserve
    more = with_sticks(household, 1.6 + 0.8 / kept)
    assert sticks.mixed == pytest.approx(mixed(household) - mixed(more), abs=1e-6)


def test_the_price_of_fuel_is_the_slope_of_the_mix(household, told):
    sticks, step = told["800 g more of sticks"], 1e-3
    kept = 1 - household.stores[0].reserve
    slope = (mixed(household) - mixed(with_sticks(household, 1.6 + step / kept))) / step
    assert sticks.dual == pytest.approx(0.8 * slope, rel=1e-3)
    assert sticks.dual > 0


def test_the_price_of_fuel_holds_just_as_far_as_it_says(household, told):
    sticks = told["800 g more of sticks"]
    assert sticks.holds_unit == "kg"
    assert sticks.holds_from <= 1.6 <= sticks.holds_to
    kept = 1 - household.stores[0].reserve
    here = mixed(household)

    def line(kg):
        return here - sticks.dual / 0.8 * (kg - 1.6) * kept

    for share in (0.1, 0.5, 0.9):
        inside = sticks.holds_from + share * (sticks.holds_to - sticks.holds_from)
        assert mixed(with_sticks(household, inside)) == pytest.approx(line(inside), abs=1e-5)
    for beyond in (sticks.holds_from - 0.05, sticks.holds_to + 0.05):
        there = mix_of(with_sticks(household, beyond))
        assert there is None or there > line(beyond) + 1e-6


def test_half_an_hour_more(household, made, told):
    longer = [name for name in told if name.startswith("half an hour more to cook")]
    assert longer
    for name in longer:
        clock = name.removeprefix("half an hour more to cook, ")
        shift = {
            "from 06:00": (390, -30, 0), "until 08:30": (390, 0, 30),
            "from 16:00": (990, -30, 0), "until 18:30": (990, 0, 30),
        }[clock]  # fmt: skip
        windows = tuple(
            Window(w.start_min + shift[1], w.end_min + shift[2])
            if w.start_min % 1440 == shift[0]
            else w
            for w in household.windows
        )
        again = plan(replace(household, windows=windows), gap=1e-6)
        assert told[name].value == pytest.approx(made.goal.value - again.goal.value, abs=1e-5)
        assert told[name].dual is None


def test_warmth(household, made, told):
    place = replace(household.place, kitchen_c=15.0)
    again = plan(replace(household, place=place), gap=1e-6)
    saved = made.goal.value - again.goal.value
    assert told["a kitchen 5 K warmer"].value == pytest.approx(max(0.0, saved), abs=1e-5)
    days = tuple(replace(day, outdoors_c=day.outdoors_c + 5) for day in household.weather)
    again = plan(replace(household, weather=days), gap=1e-6)
    saved = made.goal.value - again.goal.value
    assert told["weather 5 K warmer"].value == pytest.approx(saved, abs=1e-5)


def test_one_more_box_where_it_is_scarce(household):
    # one fifth of the sticks: the box is what saves gas
    poor = with_sticks(household, 0.4)
    made = plan(poor, gap=1e-6)
    told = {worth.what: worth for worth in appraised(made, poor, EFFORT)}
    for name, worth in told.items():
        if name.startswith("one more"):
            assert worth.holds_unit == "pieces"
            assert worth.holds_from <= 1.0
    box = told.get("one more packed box")
    saved = mixed(poor) - mixed(with_box(poor, 2))
    assert (box.mixed if box else 0.0) == pytest.approx(saved, abs=1e-6)


@pytest.mark.parametrize("goal", ["energy", "tending", "sticks"])
def test_for_other_goals(household, goal):
    aim = replace(household, goals=(goal,))
    made = plan(aim, gap=1e-6)
    units = {"energy": "MJ", "tending": "min", "sticks": "MJ"}
    told = appraised(made, aim, EFFORT)
    assert all(worth.unit == units[goal] for worth in told)
    warm = next((w for w in told if w.what == "weather 5 K warmer"), None)
    days = tuple(replace(day, outdoors_c=day.outdoors_c + 5) for day in household.weather)
    scale = 1.0 if goal == "tending" else 1e6
    again = mixed(replace(aim, weather=days), goal)
    saved = (mixed(aim, goal) - again) / scale
    assert (warm.mixed if warm else 0.0) == pytest.approx(max(0.0, saved), abs=1e-5)


def test_the_most_is_told_first(told):
    values = [worth.value for worth in told.values()]
    assert values == sorted(values, reverse=True)


def test_without_a_plan_nothing_is_worth_anything(household):
    none = plan(replace(household, windows=household.windows[:1]), gap=1e-6)
    assert none.status == "infeasible"
    assert appraised(none, household, EFFORT) == ()


def test_nobody_waits_for_it(household, made):
    assert appraised(made, household, replace(EFFORT, wanted=lambda: False)) == ()


def test_the_heat_of_a_package_is_that_of_its_mass(household):
    sticks = household.stores[0]
    assert sticks.package_kg == pytest.approx(0.8)
    assert joules_per_kg(sticks.fuel) is not None
