"""A dish off the fire: bare, packed, in a jar."""

from dataclasses import replace

import numpy as np
import pytest

from optimizer import shelf
from optimizer.model.household import OwnStove, Place, Weather
from optimizer.planning.bodies import Body, bare, core_c, insulated, moved_c
from optimizer.planning.boiling import Boil, boil
from optimizer.planning.conditions import Conditions, Refused
from optimizer.planning.contents import Load, load_of
from optimizer.planning.grid import GRID_MIN, MINUTES
from optimizer.planning.losses import jar_loss_w_k, kitchen_loss_w_k, packed_loss_w_k
from optimizer.planning.resting import rest

THINGS = shelf.load()
PLACE = Place(0.0, 18.0, 10.0, 10.0)
AT = Conditions(PLACE, Weather(10.0, 1.0, rain=False, wet_sticks=False), THINGS.rules, 0.9)
GAS = OwnStove(THINGS.stoves["gas_burner"], 1, "outdoors")
BOX, JAR = THINGS.cookers["packed_box"], THINGS.cookers["jar_2l"]


def fired(dish: str = "rice", pot: str = "pot_2_5l", portions: float = 3.2) -> tuple[Load, Boil]:
    load = load_of(THINGS.dishes[dish], portions, PLACE)
    made = boil(load, THINGS.pots[pot], GAS, THINGS.fuels["propane"], AT)
    assert isinstance(made, Boil)
    return load, made


def body(cooker=None, dish: str = "rice", pot: str = "pot_2_5l") -> Body:
    load, made = fired(dish, pot)
    thing = THINGS.pots[pot]
    found = (
        bare(load, thing, made, AT) if cooker is None else insulated(load, thing, cooker, made, AT)
    )
    assert isinstance(found, Body)
    return found


def after(minutes: int, curve) -> float:
    return float(curve[minutes // GRID_MIN])


def test_packing_keeps_what_a_bare_pot_loses():
    packed, alone = body(BOX).curve(0.0), body().curve(0.0)
    assert after(120, packed) > after(120, alone) + 10


def test_the_more_careful_the_colder():
    usual, careful = body(BOX).curve(0.0), body(BOX).curve(AT.hot_z)
    assert careful[0] == pytest.approx(usual[0])
    assert (careful[2:] < usual[2:]).all()


@pytest.mark.parametrize("cooker", [None, BOX, JAR])
def test_food_only_cools_and_never_below_the_room(cooker):
    curve = body(cooker).curve(0.0)
    assert (np.diff(curve) <= 0).all()
    assert curve[-1] > PLACE.kitchen_c


def test_a_jar_holds_what_its_rating_says():
    # from 95 degC to 80 degC in 6 h in a room of 20 degC: EN 12546-1, over 1.2 L
    full = 2.0e-3 * 961.9 * 4190.0 + JAR.liner_j_k  # water at 95 degC: 961.9 kg/m3 (from memory)
    filled = Body(full, 0.0, jar_loss_w_k(JAR), 0.0, 95.0, 20.0)
    assert after(360, filled.curve(0.0)) == pytest.approx(80, abs=0.05)


def test_a_part_filled_jar_falls_faster():
    loss = jar_loss_w_k(JAR)
    full, half = (Body(heat, 0.0, loss, 0.0, 95.0, 20.0) for heat in (8000.0, 4000.0))
    assert after(360, half.curve(0.0)) < after(360, full.curve(0.0)) - 5


def test_a_cold_jar_takes_heat_from_the_food():
    cold = body(replace(JAR, preheated=False))
    assert cold.start_c < body(replace(JAR, preheated=True)).start_c


def test_a_measured_loss_replaces_the_computed_one():
    measured = replace(BOX, loss_w_k=1.25, packing_j_k=777.0)
    pot = THINGS.pots["pot_4l"]
    assert packed_loss_w_k(measured, pot, 100.0, AT) == (1.25, 777.0)
    assert jar_loss_w_k(replace(JAR, loss_w_k=0.3)) == 0.3
    only = replace(measured, material=None, thickness_m=None)
    assert packed_loss_w_k(only, pot, 100.0, AT) == (1.25, 777.0)


def test_damp_packing_loses_more():
    pot = THINGS.pots["pot_4l"]
    dry, damp = (packed_loss_w_k(replace(BOX, damp=d), pot, 100.0, AT)[0] for d in (False, True))
    assert damp > 1.2 * dry


def test_a_pot_packed_loses_much_less_than_bare():
    pot = THINGS.pots["pot_4l"]
    assert packed_loss_w_k(BOX, pot, 100.0, AT)[0] < 0.4 * kitchen_loss_w_k(pot, 100.0, AT)


def test_the_cores_of_pieces_lack_a_little():
    water, pieces = fired("drinking_water", "pot_4l"), fired("vegetable_soup", "pot_4l")
    assert core_c(*water, AT) == water[1].boil_c
    load, made = pieces
    # 95 % of the rise: 5 % of the pieces' share is missing
    lack = 0.05 * load.piece_share * load.heat_j_k / made.heat_j_k * (made.boil_c - made.start_c)
    assert core_c(load, made, AT) == pytest.approx(made.boil_c - lack)


def test_a_pressure_pot_waits_bare_for_the_next_step_of_the_clock():
    load, made = fired("rice", "pressure_6l")
    assert made.fall_min % GRID_MIN > 0.1
    on_time = replace(made, fall_min=GRID_MIN * 2.0)
    assert core_c(load, made, AT) < core_c(load, on_time, AT)


def test_the_move_costs_a_little():
    load, made = fired()
    assert 0.2 < 97.0 - moved_c(load, made, AT, 97.0) < 5


def test_the_move_is_not_counted_as_packed():
    packed = body(BOX)
    assert packed.move_min == AT.rules.move_min == 2
    still = replace(packed, move_min=0.0)
    assert after(60, packed.curve(0.0)) > after(60, still.curve(0.0))
    assert packed.curve(0.0)[0] == pytest.approx(packed.start_c)


@pytest.mark.parametrize(
    "change", [{"greatest_pot_diameter_m": 0.1}, {"greatest_pot_height_m": 0.1}]
)
def test_a_pot_too_large_for_the_box_is_refused(change):
    load, made = fired()
    refused = insulated(load, THINGS.pots["pot_2_5l"], replace(BOX, **change), made, AT)
    assert isinstance(refused, Refused)
    assert refused.code == "cooker_too_small"


def test_more_than_a_jar_holds_is_refused():
    load, made = fired()
    refused = insulated(load, THINGS.pots["pot_2_5l"], replace(JAR, volume_m3=0.5e-3), made, AT)
    assert isinstance(refused, Refused)
    assert refused.code == "cooker_too_small"


def test_food_cooks_on_in_the_box_until_it_is_too_cool():
    load, _ = fired("lentil_stew", "pot_4l")
    done = rest(load, body(BOX, "lentil_stew", "pot_4l"), AT).done
    assert 0 < done[0] < 0.05  # it is planned for a weak stove, so most have it off a little sooner
    assert (np.diff(done) >= -1e-9).all()
    curve = body(BOX, "lentil_stew", "pot_4l").curve(0.0)
    cool = curve < load.dish.floor_c
    assert cool.any()
    assert len(done) == len(MINUTES)
    assert done[cool][0] == pytest.approx(done[-1], abs=0.01)
    assert 0.1 < done[-1] < 5
