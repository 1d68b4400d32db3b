"""Rests of bodies in round numbers: nothing lost, or all at once."""

from dataclasses import replace

import numpy as np
import pytest

from optimizer import shelf
from optimizer.model.household import Place, Weather
from optimizer.planning.bodies import Body
from optimizer.planning.conditions import Conditions
from optimizer.planning.contents import load_of
from optimizer.planning.drawing import Draw
from optimizer.planning.grid import MINUTES
from optimizer.planning.resting import rest, rests, vessel

THINGS = shelf.load()
RULES = replace(THINGS.rules, air_spread_k=4.0, draw_open_min=0.5)
WEATHER = Weather(10.0, 1.0, rain=False, wet_sticks=False)
AT = Conditions(Place(0.0, 20.0, 10.0, 10.0), WEATHER, RULES, 0.5)  # as likely as not
DISH = replace(THINGS.dishes["rice"], boil_min=50.0, boil_spread=0.2, floor_c=60.0, z_k=20.0)
LOAD = load_of(DISH, 3.2, AT.place)
TIGHT = Body(8000.0, 0.0, 0.0, 0.0, 100.0, 20.0)  # loses nothing
COOLING = replace(TIGHT, loss_w_k=1.0)


def test_no_bodies_have_no_rests():
    assert rests(LOAD, [], AT) == []


def test_what_loses_nothing_cooks_as_on_the_fire():
    found = rest(LOAD, TIGHT, AT)
    assert found.usual_c == pytest.approx(np.full(len(MINUTES), 100.0))
    assert found.careful_c == pytest.approx(found.usual_c)
    assert found.least == pytest.approx(MINUTES / 50)
    assert found.done[:11] == pytest.approx(MINUTES[:11] / 50, abs=1e-5)
    assert found.drawn_c == ()


def test_the_least_is_in_shares_of_the_careful_minutes():
    sure = replace(AT, confidence=0.9)
    assert rest(LOAD, TIGHT, sure).least == pytest.approx(MINUTES / (50 * (1 + sure.done_z * 0.2)))


def test_the_last_portion_has_what_is_left_above_the_room():
    half = replace(TIGHT, shared_out=0.5)
    found = rest(LOAD, half, AT)
    assert found.usual_c[0] == pytest.approx(20 + 80 / 2)
    assert found.careful_c[0] == pytest.approx(16 + 84 / 2)  # in a room 4 K colder
    whole = rest(LOAD, TIGHT, AT)
    assert found.least == pytest.approx(whole.least)  # it is done before it is shared out


def test_the_careful_one_is_off_early_in_a_leaky_box_in_a_cold_room():
    usual = rest(LOAD, COOLING, AT)
    early = rest(LOAD, replace(COOLING, early_min=10.0), AT)
    still = rest(LOAD, COOLING, replace(AT, rules=replace(RULES, air_spread_k=0.0)))
    assert still.careful_c == pytest.approx(still.usual_c)  # nothing varies
    assert early.usual_c == pytest.approx(usual.usual_c)
    assert early.careful_c[:-2] == pytest.approx(usual.careful_c[2:])
    # towards 16 degC instead of 20: after minutes in which a share of the heat is left
    left = (usual.usual_c - 20) / 80
    assert usual.careful_c == pytest.approx(16 + 84 * left)
    leaky = rest(LOAD, replace(COOLING, loss_spread=0.5), AT)
    assert leaky.careful_c == pytest.approx(16 + 84 * left ** (1 + 0.5 * AT.hot_z))


def test_a_leaky_box_cooks_less_at_the_least():
    # at an even chance a box is still looked at half a deviation leaky
    usual, leaky = (rest(LOAD, replace(COOLING, loss_spread=s), AT) for s in (0.0, 1.0))
    half = rest(LOAD, replace(COOLING, loss_w_k=1.5), AT)
    assert leaky.least == pytest.approx(half.least)
    assert leaky.least[-1] < usual.least[-1]


def test_several_rest_as_each_alone():
    both = rests(LOAD, [COOLING, TIGHT], AT)
    for body, found in zip((COOLING, TIGHT), both, strict=True):
        alone = rest(LOAD, body, AT)
        for name in ("usual_c", "careful_c", "done", "least"):
            assert getattr(found, name) == pytest.approx(getattr(alone, name), abs=1e-6)


def test_a_vessel_is_the_body_so_much_leakier_in_so_much_colder_a_room():
    body = Body(8000.0, 500.0, 2.0, 0.1, 95.0, 20.0, mouth_m2=0.01, bare_w_k=3.0)
    found = vessel(LOAD, body, AT, 2.0, 3.0)
    assert (found.contents_j_k, found.load_j_k) == (8000, LOAD.heat_j_k)
    assert (found.packing_j_k, found.start_c) == (500, 95)
    assert found.loss_w_k == pytest.approx(2.0 * 1.2)
    assert found.room_c == found.packing_c == 17
    assert (found.mouth_m2, found.bare_w_k, found.open_s) == (0.01, 3.0, 30)


@pytest.fixture(name="drawn")
def _drawn():
    """Half of it an hour before the other half."""
    return replace(LOAD, draws=(Draw(60, 0.5, None), Draw(0, 0.5, None)))


def test_what_is_drawn_on_is_done_by_the_first_draw(drawn):
    found = rest(drawn, TIGHT, AT)
    assert found.done[:13] == pytest.approx(np.zeros(13), abs=1e-5)
    assert found.done[18] == pytest.approx(30 / 50, abs=1e-5)  # 90 minutes, the last hour less
    assert len(found.drawn_c) == 2
    assert found.usual_c == pytest.approx(found.drawn_c[-1][0])
    assert found.careful_c == pytest.approx(found.drawn_c[-1][1])


def test_a_draw_is_so_hot_as_the_rest_until_then(drawn):
    quick = replace(AT, rules=replace(RULES, draw_open_min=0.0))
    body = replace(COOLING, contents_j_k=LOAD.heat_j_k, early_min=10.0, loss_spread=0.5)
    whole, found = rest(LOAD, body, quick), rest(drawn, body, quick)
    usual, careful = found.drawn_c[0]
    assert usual[12:] == pytest.approx(whole.usual_c[:-12])  # until the last draw an hour more
    assert careful[12:] == pytest.approx(whole.careful_c[:-12])
    # less than an hour before the last draw it is not in the box yet, 50 minutes where it is early
    assert usual[:13] == pytest.approx(np.full(13, 100.0), abs=1e-9)
    assert careful[:11] == pytest.approx(np.full(11, 100.0), abs=1e-9)
    moved = rest(drawn, replace(body, move_min=5.0), quick).drawn_c[0][0]
    assert moved[13:] == pytest.approx(usual[12:-1])  # packed five minutes after the fire
