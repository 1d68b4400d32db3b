"""An insulated cooker on its own: the planner's numbers, and what a cook would expect of them."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from optimizer import shelf
from optimizer.errors import PhysicsError
from optimizer.model.household import Place, Weather
from optimizer.planning.conditions import Conditions, Refused
from optimizer.planning.grid import MINUTES
from optimizer.planning.losses import packed_loss_w_k
from optimizer.studies.box import BoxQuestion, answer
from optimizer.studies.designs import (
    NEARLY,
    bag,
    changes,
    materials,
    rebuilt,
    thickness_of,
    thicknesses,
)
from optimizer.studies.finishing import finish
from optimizer.studies.insulation import FullPot, filled, holding, hours_above, round_pot_m3

THINGS = shelf.load()
PLACE = Place(0.0, 15.0, 10.0, 10.0)
AT = Conditions(PLACE, Weather(10.0, 0.0, rain=False, wet_sticks=False), THINGS.rules, 0.9)
BOX, JAR, POT = THINGS.cookers["packed_box"], THINGS.cookers["jar_2l"], THINGS.pots["pot_6l"]
WATER = THINGS.dishes["drinking_water"]
LOAD = filled(WATER, 0.8 * POT.volume_m3, AT)
FULL = FullPot(POT, LOAD, AT)


def held(cooker=BOX, pot=POT, load=LOAD, at=AT):
    found = holding(cooker, pot, load, at)
    assert not isinstance(found, Refused)
    return found


def test_a_filling_has_the_volume_that_was_asked_for():
    assert LOAD.volume_m3 == pytest.approx(0.8 * 6.0e-3)
    assert LOAD.heat_j_k == pytest.approx(4.8 * 4180, rel=0.02)


def test_the_loss_is_the_planners_own():
    loss, packing = packed_loss_w_k(BOX, POT, AT.boil_c, AT)
    assert (held().loss_w_k, held().packing_j_k) == (loss, packing)


def test_a_measured_cooker_is_taken_at_its_word():
    measured = replace(BOX, loss_w_k=0.2, packing_j_k=1000.0)
    assert (held(measured).loss_w_k, held(measured).packing_j_k) == (0.2, 1000.0)
    assert held(measured).usual_h > held().usual_h
    assert held(rebuilt(measured, gap=BOX.gap)).loss_w_k == held().loss_w_k


def test_the_band_lies_round_the_usual_and_a_plan_below_it():
    found = held()
    assert found.planned_h < found.low_h < found.usual_h < found.high_h


@pytest.mark.parametrize("limit_c", [90.0, 60.0, 45.0])
def test_hours_are_where_the_curve_crosses(limit_c):
    curve = 20 + 78 * np.exp(-MINUTES / 600)
    exact_h = 10 * math.log(78 / (limit_c - 20))
    assert hours_above(curve, limit_c) == pytest.approx(exact_h, abs=0.005)


def test_hours_at_the_ends():
    curve = np.linspace(90, 70, len(MINUTES))
    assert hours_above(curve, 95.0) == 0
    assert math.isinf(hours_above(curve, 60.0))


@given(st.floats(0.02, 0.10), st.floats(1.05, 1.5))
def test_thicker_packing_loses_less(thick_m, times):
    thin, thick = thicknesses(BOX, FULL, [thick_m, times * thick_m])
    assert thick.loss_w_k < thin.loss_w_k
    assert thick.packing_m3 > thin.packing_m3


def test_each_centimetre_is_worth_less_than_the_one_before():
    found = [each.usual_h for each in thicknesses(BOX, FULL, np.arange(2, 12) / 100)]
    assert (np.diff(np.diff(found)) < 0).all()


def test_changes_go_the_way_a_cook_expects():
    found = {each.name: each.holding.usual_h for each in changes(BOX, POT, WATER, 0.8, AT)}
    now = held().usual_h
    assert found["no gaps"] > now > found["gaps"]
    assert found["blanket"] > now > found["damp"]
    assert found["half full"] < now
    damp = {each.name for each in changes(replace(BOX, damp=True), POT, WATER, 0.8, AT)}
    assert "dry" in damp
    assert "damp" not in damp


def test_packings_are_sorted_and_never_better_damp():
    found = materials(BOX, FULL, THINGS.materials.values())
    hours = [dry.usual_h for dry, _ in found]
    assert hours == sorted(hours, reverse=True)
    assert len(found) == len(THINGS.materials)
    assert all(damp.usual_h <= dry.usual_h for dry, damp in found)


@given(st.floats(0.005, 0.5))
def test_a_bag_is_all_used_by_its_thickness(volume_m3):
    assert round_pot_m3(POT, thickness_of(POT, volume_m3)) == pytest.approx(volume_m3, rel=1e-3)


@pytest.mark.parametrize("litres", [10, 60, 400])
def test_the_best_thickness_of_a_bag_beats_every_other(litres):
    found = bag(BOX, FULL, litres / 1000)
    tried = np.linspace(0.01, found.most_m, 60)
    best = max(each.usual_h for each in thicknesses(BOX, FULL, tried))
    assert found.best.usual_h == pytest.approx(best, rel=0.005)
    assert found.best.usual_h * NEARLY <= found.enough.usual_h <= found.best.usual_h
    assert found.enough.cooker.thickness_m <= found.best.cooker.thickness_m <= found.most_m


def test_a_bag_too_small_is_refused():
    with pytest.raises(PhysicsError, match="do not go 1 cm thick"):
        bag(BOX, FULL, 0.001)


def test_a_size_outside_the_tested_range_says_so():
    assert held().exact
    assert not held(rebuilt(BOX, thickness_m=0.30)).exact
    assert held(JAR, load=filled(WATER, 1.9e-3, AT)).exact


def test_a_pot_too_large_is_refused():
    found = holding(BOX, THINGS.pots["pot_30l"], LOAD, AT)
    assert isinstance(found, Refused)
    question = BoxQuestion(BOX, THINGS.pots["pot_30l"], WATER, 0.8, AT)
    assert isinstance(answer(question), Refused)


def test_a_jar_has_no_designs():
    dishes = (THINGS.dishes["rice"],)
    found = answer(BoxQuestion(JAR, POT, WATER, 0.95, AT, dishes=dishes, bag_m3=0.06))
    assert (found.thicknesses, found.changes, found.materials, found.bag) == ((), (), (), None)
    assert found.dishes[0].done_h is not None


def finished(name, boil_min=0.0, cooker=BOX, at=AT):
    return finish(THINGS.dishes[name], cooker, POT, 0.8 * POT.volume_m3, at, boil_min)


def test_the_longer_it_boils_the_sooner_it_is_done():
    found = [finished("lentil_stew", minutes).done_h for minutes in (15, 20, 30)]
    assert found[0] > found[1] > found[2] > 0


@pytest.mark.parametrize("name", ["split_pea_soup", "bean_stew", "beef_stew"])
def test_enough_minutes_at_the_boil_are_enough(name):
    short = finished(name)
    again = finished(name, short.enough_min)
    assert again.in_time
    if not short.in_time:
        assert not finished(name, short.enough_min - 10).in_time


def test_a_dish_never_boils_less_than_is_safe():
    assert finished("bean_stew", 5.0).boil_min == 30  # FDA_BAD_BUG_BOOK: at least 30 min
    high = replace(AT, place=replace(PLACE, altitude_m=2600.0))
    assert finished("bean_stew", at=high).refused.code == "bean_boil"
    assert finish(THINGS.dishes["rice"], BOX, THINGS.pots["pot_30l"], 5e-3, AT).refused is not None
