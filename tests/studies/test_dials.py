"""Sliders turn the planner's own way the way a cook expects."""

from dataclasses import replace

import pytest

from optimizer import shelf
from optimizer.planning.conditions import Refused
from optimizer.scenario.reading import read
from optimizer.studies.dials import Cooked, Dials, dialled, open_loss_w

STOCK = shelf.load()
HOUSE = read(shelf.data_folder() / "scenarios" / "outage_weekend.yaml")


def made(**changes: object) -> tuple[Cooked, Cooked]:
    dials = Dials(
        dish=STOCK.dishes["lentil_stew"],
        stove=HOUSE.stoves[0],
        store=HOUSE.stores[0],
        pot=STOCK.pots["pot_4l"],
        cooker=STOCK.cookers["packed_box"],
        material=STOCK.materials["wool_blanket"],
        thickness_m=0.08,
        fill=0.6,
        wind_m_s=0.0,
        altitude_m=300.0,
        moisture=0.2,
    )
    answer = dialled(HOUSE, replace(dials, **changes))
    assert isinstance(answer.boxed, Cooked), answer.boxed
    assert isinstance(answer.flame, Cooked), answer.flame
    assert answer.saved == pytest.approx(1 - answer.boxed.fuel_mj / answer.flame.fuel_mj)
    return answer.boxed, answer.flame


def test_the_cooker_saves_fuel_and_stove_time():
    boxed, flame = made()
    assert boxed.fuel_mj < flame.fuel_mj
    assert boxed.stove_min < flame.stove_min
    assert boxed.done_min > boxed.stove_min


def test_heat_adds_up_to_the_fuel():
    for way in made():
        assert way.heat.total_j == pytest.approx(way.fuel_mj * 1e6)


def test_wind_costs_fuel():
    assert made(wind_m_s=3.0)[0].fuel_mj > made()[0].fuel_mj


def test_wet_wood_weighs_more_for_the_same_heat():
    wet, dry = made(moisture=0.35)[0], made(moisture=0.1)[0]
    assert wet.fuel_kg is not None
    assert dry.fuel_kg is not None
    assert wet.fuel_kg > dry.fuel_kg


def test_thicker_packing_and_a_fuller_pot_stay_hot_longer():
    light = STOCK.materials["eps_board"]  # heavy packing takes heat itself, so more is not better
    thin, thick = (made(material=light, thickness_m=t)[0] for t in (0.02, 0.08))
    assert thick.hot_h > thin.hot_h
    assert made(fill=0.75)[0].hot_h > made(fill=0.4)[0].hot_h


def test_the_careful_hours_are_the_shorter():
    boxed, _ = made()
    assert boxed.careful_h < boxed.hot_h


def test_without_its_lid_it_takes_longer_and_burns_more():
    bare, shut = made(lid=False)[0], made()[0]
    assert bare.boil_min > shut.boil_min
    assert bare.fuel_mj > shut.fuel_mj


def test_higher_up_it_cooks_longer():
    assert made(altitude_m=2000.0)[1].stove_min > made()[1].stove_min


def test_a_pot_that_is_too_full_is_refused():
    dials = Dials(
        STOCK.dishes["lentil_stew"], HOUSE.stoves[0], HOUSE.stores[0], STOCK.pots["pot_4l"],
        STOCK.cookers["packed_box"], STOCK.materials["straw"], 0.1, 0.99, 0.0, 300.0, 0.2,
    )  # fmt: skip
    answer = dialled(HOUSE, dials)
    assert isinstance(answer.boxed, Refused)
    assert answer.boxed.code == "pot_too_small"
    assert answer.saved is None


def test_open_water_loses_more_when_hot_and_in_wind():
    assert open_loss_w(0.2, 60, 0.0) < open_loss_w(0.2, 95, 0.0) < open_loss_w(0.2, 95, 2.0)
    assert open_loss_w(0.4, 95, 0.0) == pytest.approx(4 * open_loss_w(0.2, 95, 0.0))
