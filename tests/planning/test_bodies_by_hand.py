"""What rests off the fire, out of a boil in round numbers."""

import math
from dataclasses import astuple, replace

import pytest

from optimizer import shelf
from optimizer.model.household import Place, Weather
from optimizer.planning.bodies import Body, bare, core_c, insulated, moved_c
from optimizer.planning.boiling import Boil
from optimizer.planning.conditions import Conditions, Refused
from optimizer.planning.contents import load_of
from optimizer.planning.counting import STRENGTHS, Sooner
from optimizer.planning.grid import GRID_MIN
from optimizer.planning.losses import (
    jar_loss_w_k,
    jar_mouth_m2,
    kitchen_loss_w_k,
    mouth_m2,
    packed_loss_w_k,
)

THINGS = shelf.load()
PLACE, WEATHER = Place(0.0, 20.0, 10.0, 10.0), Weather(5.0, 1.0, rain=False, wet_sticks=False)
AT = Conditions(PLACE, WEATHER, replace(THINGS.rules, move_min=2.0, heated_through=0.9), 0.9)
WATER = load_of(THINGS.dishes["drinking_water"], 1.5, PLACE)
POT = replace(THINGS.pots["pot_4l"], diameter_m=0.2)
BOX, JAR = THINGS.cookers["packed_box"], THINGS.cookers["jar_2l"]
SOON = Sooner((1.0,) * len(STRENGTHS), -3.0)
BOILED = Boil(
    heat_j_k=12_000.0,
    start_c=20.0,
    top_c=110.0,
    boil_c=100.0,
    air_c=10.0,
    bare_w_k=1.0,
    net_w=1000.0,
    up_min=10.0,
    up_j=5e5,
    hold_w=500.0,
    steam_kg_min=0.0,
    extra_j_kg=0.0,
    fall_min=0.0,
    free_done=0.0,
    least_hold_min=0.0,
    early_min=7.0,
    sooner=SOON,
)
TWO_MINUTES = 10 + 90 * math.exp(-120 / 12_000)  # bare, from 100 degC in air of 10


def test_a_liquid_leaves_the_fire_at_the_boil():
    assert core_c(WATER, BOILED, AT) == 100


def test_pieces_lack_a_share_of_their_rise():
    # a tenth of 80 K in half of a load that holds two thirds of the heat
    pieces = replace(WATER, piece_share=0.5, heat_j_k=8000.0)
    assert core_c(pieces, BOILED, AT) == pytest.approx(100 - 0.1 * 0.5 * (2 / 3) * 80)


def test_a_pot_under_pressure_cools_until_the_next_step_of_the_clock():
    assert core_c(WATER, replace(BOILED, fall_min=3.0), AT) == pytest.approx(TWO_MINUTES)
    assert core_c(WATER, replace(BOILED, fall_min=5.0), AT) == 100


def test_a_pot_is_moved_through_the_colder_of_kitchen_and_place_of_the_fire():
    assert moved_c(WATER, BOILED, AT, 100.0) == pytest.approx(TWO_MINUTES)
    warm = replace(BOILED, air_c=30.0)
    left = 20 + 80 * math.exp(-120 / 12_000)
    assert moved_c(WATER, warm, AT, 100.0) == pytest.approx(left)


def test_a_bare_pot():
    loss = kitchen_loss_w_k(POT, 100.0, AT)
    found = bare(WATER, POT, BOILED, AT)
    assert astuple(found) == astuple(
        Body(
            contents_j_k=12_000.0,
            packing_j_k=0.0,
            loss_w_k=loss,
            loss_spread=AT.rules.bare_spread,
            start_c=100.0,
            room_c=20.0,
            move_min=0.0,  # it stays where it is
            early_min=7.0,
            sooner=SOON,
            top_c=110.0,
            mouth_m2=mouth_m2(0.2),
        )
    )
    assert found.mouth_m2 == pytest.approx(math.pi * 0.01)


def test_a_packed_pot():
    loss, packing = packed_loss_w_k(BOX, POT, 100.0, AT)
    found = insulated(WATER, POT, BOX, BOILED, AT)
    assert found == Body(
        contents_j_k=12_000.0,
        packing_j_k=packing,
        loss_w_k=loss,
        loss_spread=BOX.loss_spread,
        start_c=moved_c(WATER, BOILED, AT, 100.0),
        room_c=20.0,
        move_min=2.0,
        early_min=7.0,
        sooner=SOON,
        top_c=110.0,
        mouth_m2=mouth_m2(0.2),
        bare_w_k=kitchen_loss_w_k(POT, 100.0, AT),  # its walls, when the box is opened
    )


def test_a_pot_too_wide_for_the_box_is_named():
    refused = insulated(WATER, POT, replace(BOX, greatest_pot_diameter_m=0.19), BOILED, AT)
    assert refused == Refused("cooker_too_small", f"the {POT.label} does not go into it")


def test_a_body_cools_from_the_end_of_its_move_on():
    body = Body(6000.0, 0.0, 1.0, 0.5, 100.0, 20.0, move_min=10.0)
    curve = body.curve(2.0)  # 1 W/K and twice a spread of 0.5
    assert curve[:3] == pytest.approx([100, 100, 100])  # until ten minutes
    assert curve[60 // GRID_MIN] == pytest.approx(20 + 80 * math.exp(-2 * 3000 / 6000))


@pytest.mark.parametrize("preheated", [True, False])
def test_a_jar_is_filled_without_the_pot(preheated):
    jar = replace(JAR, liner_j_k=WATER.heat_j_k / 4, preheated=preheated)
    found = insulated(WATER, POT, jar, BOILED, AT)
    filled = TWO_MINUTES if preheated else (4 * TWO_MINUTES + 20) / 5  # a cold liner is warmed
    assert isinstance(found, Body)
    assert found.start_c == pytest.approx(filled)
    assert replace(found, start_c=0.0) == Body(
        contents_j_k=WATER.heat_j_k * 1.25,
        packing_j_k=0.0,
        loss_w_k=jar_loss_w_k(jar),
        loss_spread=jar.loss_spread,
        start_c=0.0,
        room_c=20.0,
        move_min=2.0,
        early_min=7.0,
        sooner=SOON,
        top_c=110.0,
        mouth_m2=jar_mouth_m2(jar.volume_m3),
    )


def test_a_jar_takes_what_just_fills_it():
    full = replace(JAR, volume_m3=WATER.volume_m3)
    assert isinstance(insulated(WATER, POT, full, BOILED, AT), Body)
    less = replace(JAR, volume_m3=1.4e-3)
    refused = insulated(WATER, POT, less, BOILED, AT)
    assert refused == Refused("cooker_too_small", "1.5 L does not go into it")


@pytest.mark.parametrize(("outdoors_c", "room_c"), [(5.0, 5.0), (25.0, 20.0)])
def test_what_is_carried_stands_in_the_cold_and_is_ladled_out_half_empty(outdoors_c, room_c):
    rules = replace(AT.rules, carry_spread=0.4, open_loss=2.0, share_out_min=10.0)
    at = replace(AT, rules=rules, weather=replace(AT.weather, outdoors_c=outdoors_c))
    box = replace(BOX, loss_spread=0.3)
    still = insulated(WATER, POT, box, BOILED, at)
    found = insulated(replace(WATER, carried_min=20), POT, box, BOILED, at)
    assert isinstance(still, Body)
    assert isinstance(found, Body)
    # ten minutes at twice the loss of a pot in the kitchen, out of half of its heat
    left = math.exp(-2 * kitchen_loss_w_k(POT, 100.0, at) * 600 / 6000)
    assert found.loss_spread == pytest.approx(0.5)  # 0.3 and 0.4 by their squares
    assert found.shared_out == pytest.approx(left)
    assert found == replace(
        still, room_c=room_c, loss_spread=found.loss_spread, shared_out=found.shared_out
    )
