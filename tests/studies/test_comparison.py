"""One dish in every way: heat that adds up, reasons that are told, nothing better than it is."""

import ast
from functools import lru_cache
from pathlib import Path
from types import SimpleNamespace

import pytest

from optimizer.model.household import Scenario
from optimizer.model.plan import Reboil
from optimizer.planning.conditions import burn_ratio
from optimizer.planning.explain import ABOUT, sentence
from optimizer.planning.kitchen import attempts
from optimizer.planning.starts import Cooking
from optimizer.planning.ways import Way
from optimizer.scenario.reading import parse, read
from optimizer.shelf import data_folder
from optimizer.studies import comparison
from optimizer.studies.comparison import Comparison, compare, heat_flow

FILES = ("outage_weekend", "one_person_jar", "mountain_cabin", "street_kitchen")


@lru_cache
def shipped(name: str) -> Scenario:
    return read(data_folder() / "scenarios" / f"{name}.yaml")


@lru_cache
def compared(name: str) -> tuple[Comparison, ...]:
    scenario = shipped(name)
    return tuple(compare(scenario, item) for item in scenario.items)


def ways(name: str) -> list[Way]:
    scenario = shipped(name)
    made = [a.way for item in scenario.items for a in attempts(scenario, item, item.day)]
    return [way for way in made if isinstance(way, Way)]


@pytest.mark.parametrize("name", FILES)
def test_where_the_heat_goes_adds_up_to_the_fuel(name):
    for found in compared(name):
        for way in found.ways:
            assert way.heat.total_j == pytest.approx(way.fuel_mj * 1e6, rel=1e-9)


@pytest.mark.parametrize("name", FILES)
def test_no_part_of_the_heat_is_less_than_nothing(name):
    for found in compared(name):
        for way in found.ways:
            parts = [getattr(way.heat, part) for part in way.heat.__slots__]
            assert min(parts) >= -1e-6


def lost_j(way: Way, on_min: int) -> float:
    """Heat a pot loses to the air, integrated here: heating up at full power, then held."""
    from scipy.integrate import solve_ivp

    stove, boil, weather = way.own.stove, way.boil, way.at.weather
    out = way.own.where == "outdoors"
    calm = 1 - stove.wind_loss * weather.wind_m_s * out
    dry = 1 - way.at.rules.rain_loss * (weather.rain and out)
    into_w = stove.power_w * burn_ratio(way.store.fuel, way.at) * stove.efficiency * calm * dry

    def rates(_: float, state: list[float]) -> tuple[float, float]:
        loss_w = boil.bare_w_k * (state[0] - boil.air_c)
        return (into_w - loss_w) / boil.heat_j_k, loss_w

    def boils(_: float, state: list[float]) -> float:
        return state[0] - boil.top_c

    boils.terminal = True
    start = [boil.start_c, 0.0]
    risen = solve_ivp(rates, (0, 1e6), start, events=boils, rtol=1e-8, atol=1e-6)
    assert risen.status == 1, "it never boils"
    held_s = 60 * max(0.0, way.hold_min(on_min))
    return float(risen.y[1, -1] + held_s * boil.bare_w_k * (boil.top_c - boil.air_c))


@pytest.mark.parametrize("name", FILES)
def test_what_the_pot_loses_is_its_loss_over_the_time_it_is_hot(name):
    boiled = [way for way in ways(name) if way.load.dish.heat_c is None][::7]
    assert boiled
    for way in boiled:
        for on_min in (way.least_on_min, int(way.on_min.max())):
            assert heat_flow(way, on_min).pot_losses_j == pytest.approx(
                lost_j(way, on_min), rel=0.01
            )


def test_water_only_warmed_loses_what_the_least_flame_gives_too_much_as_well():
    warmed = [way for way in ways("outage_weekend") if way.load.dish.heat_c is not None]
    assert warmed
    for way in warmed:
        on_min = way.least_on_min
        assert heat_flow(way, on_min).pot_losses_j > 0.99 * lost_j(way, on_min)


SUNNY = """
title: Sun
people: 2
place: {altitude: 320 m, kitchen: 12 degC, outdoors: 30 degC, water: 8 degC}
weather: [{sun: 1000 W/m^2}]
days: 1
cook_hours: ["07:00-18:30"]
fuels: {sun: , electricity: {stock: 2 kWh}}
stoves: {solar_box: 1, electric_plate: 1}
pots: {pot_2_5l: 1, pot_4l: 1}
cookers: {hay_box: 1}
menu: [{meal: dinner, at: "14:00", dishes: [rice, washing_water, bean_stew]}]
"""


# A regression: stronger sunshine than the standard's once gave heat "past the pot" below nothing.
def test_sunshine_is_no_fuel_and_its_heat_adds_up():
    scenario = parse(SUNNY)
    sunny = [w for item in scenario.items for w in compare(scenario, item).ways if w.fuel == "sun"]
    assert len(sunny) >= 4
    for way in sunny:
        assert (way.fuel_mj, way.cost) == (0, 0)
        assert min(getattr(way.heat, part) for part in way.heat.__slots__) >= 0
        # 100 W at 700 W/m2 (ASAE S580, as in stoves.csv), so 143 W at 1000 W/m2
        sunshine_j = 100 / 700 * 1000 * 60 * (way.off - way.on)
        assert way.heat.total_j <= sunshine_j * 1.01


def test_soaking_from_before_the_first_hours_is_told_as_that():
    scenario = parse(SUNNY)
    beans = next(item for item in scenario.items if item.dish.name == "bean_stew")
    found = compare(scenario, beans)
    assert not found.ways
    assert {r.reason for r in found.refusals} == {
        "has to soak 8 h, from before the first cook hours on"
    }


@pytest.mark.parametrize("name", FILES)
def test_a_dish_is_done_between_the_fire_and_the_table(name):
    for found in compared(name):
        for way in found.ways:
            assert way.on < way.off <= way.ready <= way.done <= way.serve
            assert way.serve_c_low <= way.serve_c


@pytest.mark.parametrize("name", ["outage_weekend", "mountain_cabin", "street_kitchen"])
def test_every_refusal_is_a_sentence(name):
    scenario = shipped(name)
    refusals = [refusal for found in compared(name) for refusal in found.refusals]
    assert refusals
    for refusal in refusals:
        about, _, reason = sentence(refusal, scenario).partition(": ")
        assert about
        assert len(reason) > 10


def test_every_code_of_a_refusal_has_the_things_it_is_about():
    root = Path(__file__).parents[2] / "optimizer"
    trees = [ast.parse(file.read_text(encoding="utf-8")) for file in root.rglob("*.py")]
    calls = [
        node
        for tree in trees
        for node in ast.walk(tree)
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "Refused"
    ]
    codes = {call.args[0].value for call in calls if isinstance(call.args[0], ast.Constant)}
    assert all(isinstance(call.args[0], ast.Constant) for call in calls)
    assert codes == set(ABOUT)
    assert all(set(about) <= {"stove", "pot", "cooker"} for about in ABOUT.values())


@pytest.mark.parametrize("name", FILES)
def test_a_box_never_needs_more_time_at_the_fire_than_cooking_through(name):
    flame, boxed = {}, []
    for way in ways(name):
        key = (way.load, way.at.weather, way.own.stove.name, way.pot.name)
        least = int(way.on_min[way.on_min > 0].min())
        if way.cooker is None:
            flame[key] = least
        else:
            boxed.append((key, least))
    both = [(flame[key], least) for key, least in boxed if key in flame]
    assert both
    assert all(least <= through for through, least in both)


def test_a_way_that_only_works_boiled_again_is_told_as_that(monkeypatch):
    def only_again(item, way, windows, today):
        made = Cooking(way, item, 900, 930, Reboil(1000, 1010, 1015), 61.0)
        return [SimpleNamespace(way=made)]

    monkeypatch.setattr(comparison, "columns_of", only_again)
    scenario = shipped("outage_weekend")
    found = compare(scenario, scenario.items[0])
    assert not found.ways
    again = [r for r in found.refusals if r.code == "boil_again"]
    assert again
    assert all("boiled again before the meal" in r.reason for r in again)
