"""What practitioners say, held against the ways the planner prices; common practice, no source."""

from dataclasses import replace

import pytest

from optimizer import shelf
from optimizer.model.household import OwnCooker, OwnStove, Place, Store, Weather
from optimizer.planning.conditions import Conditions
from optimizer.planning.contents import load_of
from optimizer.planning.ways import Way, make_way

SHELF = shelf.load()
PLACE = Place(altitude_m=100, kitchen_c=18, outdoors_c=10, water_c=12)
AT = Conditions(PLACE, Weather(10, 0, rain=False, wet_sticks=False), SHELF.rules, 0.9)
STICKS = Store(SHELF.fuels["sticks"], 50, None, None, None, None, 0.0)


def way(
    dish: str,
    portions: float,
    pot: str,
    cooker: str | None,
    stove: str = "stick_stove",
    **changes: object,
) -> Way:
    own = None
    if cooker is not None:
        own = OwnCooker(replace(SHELF.cookers[cooker], **changes), 1)
    made = make_way(
        load_of(SHELF.dishes[dish], portions, PLACE),
        OwnStove(SHELF.stoves[stove], 1, "outdoors"),
        STICKS,
        SHELF.pots[pot],
        own,
        AT,
    )
    assert isinstance(made, Way), made
    return made


def hours_hot(made: Way) -> float:
    """Hours until it may be below 60 degC as usual."""
    return float((made.rest.usual_c >= 60).sum() * 5 / 60)


# common practice, no source: soaked beans cooked at pressure over sticks and finished in a box
# take a small fraction of the fuel of boiling them through. Over an open fire, which cannot burn
# low, it is about two fifths; a thrifty stove simmers cheaply and has less to save: two thirds.
@pytest.mark.parametrize(("stove", "most"), [("open_fire", 0.42), ("stick_stove", 0.67)])
def test_beans_at_pressure_then_boxed_take_a_small_fraction_of_boiling_through(stove, most):
    boxed = way("bean_stew", 5, "pressure_6l", "packed_box", stove)
    through = way("bean_stew", 5, "pot_6l", None, stove)
    least = min(boxed.fuel_j(m) for m in boxed.on_min if m)
    boiled = min(through.fuel_j(m) for m in through.on_min if m)
    assert least < most * boiled


# common practice, no source: fill the pot about 80 %; a half-empty one cools much sooner.
def test_a_pot_four_fifths_full_outlasts_one_two_fifths_full():
    full, half = (way("lentil_soup", portions, "pot_4l", "packed_box") for portions in (5.2, 2.6))
    assert full.load.volume_m3 / 4e-3 == pytest.approx(0.8, abs=0.1)
    assert hours_hot(full) > 1.4 * hours_hot(half)


# common practice, no source: rinse the jar with boiling water first.
def test_a_preheated_jar_outlasts_a_cold_one():
    warm, cold = (
        way("rice", 2.0, "pot_1_5l", "jar_1l", preheated=preheated) for preheated in (True, False)
    )
    assert hours_hot(warm) > hours_hot(cold)


# common practice, no source: damp packing is poor packing.
def test_damp_packing_cools_sooner():
    dry, damp = (
        way("lentil_soup", 5.0, "pot_4l", "packed_box", damp=damp) for damp in (False, True)
    )
    assert hours_hot(damp) < hours_hot(dry)


# common practice, no source: the box does not help a dish that only has to come to the boil.
def test_a_box_saves_more_on_a_long_dish_than_on_a_short_one():
    def saved(dish: str, pot: str) -> float:
        boxed, through = way(dish, 4, pot, "packed_box"), way(dish, 4, pot, None)
        least = min(boxed.fuel_j(m) for m in boxed.on_min if m)
        return 1 - least / min(through.fuel_j(m) for m in through.on_min if m)

    assert saved("beef_stew", "pot_4l") > saved("tea", "pot_2_5l")
