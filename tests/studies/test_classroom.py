"""Class tests: what differs in one thing differs the right way; the place counts."""

from dataclasses import replace

import pytest

from optimizer.model.household import Scenario
from optimizer.studies.classroom import ClassTest, Setup, class_stove, class_tests


@pytest.fixture(scope="module")
def tests(scenario: Scenario) -> dict[str, ClassTest]:
    return {test.name: test for test in class_tests(scenario)}


@pytest.fixture(scope="module")
def scenario() -> Scenario:
    from optimizer.scenario.reading import read
    from optimizer.shelf import data_folder

    return read(data_folder() / "scenarios" / "outage_weekend.yaml")


def setup(test: ClassTest, name: str) -> Setup:
    (found,) = [each for each in test.setups if each.name == name]
    return found


def test_the_five_tests(tests):
    assert list(tests) == ["lid", "wind", "box", "filling", "holding"]
    assert all(len(test.setups) >= 2 for test in tests.values())


def test_eight_of_ten_lie_around_the_usual(tests):
    for test in tests.values():
        for each in test.setups:
            assert bool(each.expected) != bool(each.why_not)
            assert all(e.little <= e.usual <= e.much for e in each.expected)


def test_wind_takes_time(tests):
    (calm,) = setup(tests["wind"], "shielded").expected
    (windy,) = setup(tests["wind"], "in_the_wind").expected
    assert windy.usual > calm.usual
    assert windy.much > calm.much


def test_without_a_lid_the_planner_expects_nothing(tests):
    assert "lid" in setup(tests["lid"], "lid_off").why_not


def test_what_is_packed_stays_hotter_and_all_of_it_cools(tests):
    bare = setup(tests["box"], "bare").expected
    assert [e.minute for e in bare] == [0, 30, 60, 120]
    for packed in ("in_blankets", "in_paper"):
        found = setup(tests["box"], packed).expected
        assert all(p.usual > b.usual for p, b in zip(found[1:], bare[1:], strict=True))
        assert [e.usual for e in found] == sorted((e.usual for e in found), reverse=True)


def test_a_full_pot_stays_hotter_than_a_half_empty_one(tests):
    little = setup(tests["filling"], "two_fifths").expected
    much = setup(tests["filling"], "four_fifths").expected
    assert all(m.usual > few.usual for m, few in zip(much, little, strict=True))


def test_fuel_for_the_boil_is_that_of_the_heat_it_takes(tests, scenario):
    # 1 L from 8 degC to the boil takes 4.19 kJ/K x 1 kg x 91 K = 381 kJ, the pot of 0.5 kg
    # aluminium 0.88 x 0.5 x 87 = 38 kJ: at least 419 kJ / 0.54 / 46.34 MJ/kg = 16.7 g of propane
    (burned,) = setup(tests["holding"], "to_the_boil").expected
    assert class_stove(scenario)[1].name == "propane"
    assert 0.0167 < burned.usual < 1.25 * 0.0167


def test_high_up_water_is_cooler_when_it_boils(scenario):
    high = replace(scenario, place=replace(scenario.place, altitude_m=2500.0))
    sea = replace(scenario, place=replace(scenario.place, altitude_m=0.0))
    at_once = [
        setup({t.name: t for t in class_tests(each)}["box"], "bare").expected[0].usual
        for each in (sea, high)
    ]
    # printed tables of boiling points: 100.0 degC at sea level, 91.5 to 92 at 2500 m (from memory)
    assert at_once[0] == pytest.approx(100.0, abs=0.3)
    assert at_once[1] == pytest.approx(91.7, abs=0.5)


def test_gas_that_does_not_feed_there_is_left_at_home(scenario):
    gas, sticks = (
        next(own for own in scenario.stoves if own.stove.name == name)
        for name in ("gas_burner", "stick_stove")
    )
    butane = replace(scenario.stores[1].fuel, name="butane", vapour="butane")
    cold = replace(
        scenario,
        place=replace(scenario.place, outdoors_c=-10.0),
        stoves=(replace(gas, stove=replace(gas.stove, fuel="butane")), sticks),
        stores=(replace(scenario.stores[1], fuel=butane), scenario.stores[0]),
    )
    assert class_stove(cold)[0].stove.name == "stick_stove"


def test_where_nothing_burns_there_is_a_reason_and_no_number(scenario):
    arctic = replace(scenario, stoves=(), place=replace(scenario.place, outdoors_c=-50.0))
    for test in class_tests(arctic):
        assert all(each.why_not and not each.expected for each in test.setups)


def test_without_a_flame_of_its_own_a_gas_burner_is_lent(scenario):
    own, fuel = class_stove(replace(scenario, stoves=()))
    assert (own.stove.name, fuel.name) == ("gas_burner", "propane")
