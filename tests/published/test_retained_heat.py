"""Cooling in boxes, cosies and jars against print.

Printed cooling measurements, by the id of their source. A loss is
fitted at the first reading and the later ones are predicted, unless a case says otherwise.
"""

import math
from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import least_squares

from optimizer import shelf
from optimizer.physics.cooling import (
    jar_loss_w_k,
    packed_loss_w_k,
    packing_heat_j_k,
    packing_share,
    two_body_c,
)
from optimizer.physics.heating import cooled_c, pot_loss_w_k

WATER_J_KGK = 4190.0
HOT_Z = 2.33  # 99 % of draws are less leaky
HOUR_S = 3600.0


def alone_c(*, hours, first_h, first_c, start_c, room_c):
    """One body, its loss from the first reading; the heat capacity drops out."""
    body = {"start_c": start_c, "room_c": room_c, "contents_j_k": 1000.0}
    loss = jar_loss_w_k(rated_c=first_c, hours=first_h, **body)
    contents, _ = two_body_c(
        time_s=hours * HOUR_S, packing_j_k=0.0, loss_w_k=loss, packing_start_c=room_c, **body
    )
    return contents


# EN 12546-1, least temperature after 6 h from 95 degC in a room of 20 degC, and the greatest loss
# for each kg of water that it implies, "measured cooling curves"; the
# temperatures S2, the losses D (computed by others). Tolerance 1 %: two digits are printed.
@pytest.mark.parametrize(
    ("rated_c", "loss_w_k"),
    [
        pytest.param(70, 0.079, id="0.4-0.6 L"),
        pytest.param(75, 0.060, id="0.6-0.8 L"),
        pytest.param(78, 0.050, id="0.8-1.2 L"),
        pytest.param(80, 0.043, id="over 1.2 L"),
    ],
)
def test_loss_of_a_jar_from_its_rating(rated_c, loss_w_k):
    found = jar_loss_w_k(
        rated_c=rated_c, hours=6.0, start_c=95.0, room_c=20.0, contents_j_k=WATER_J_KGK
    )
    assert found == pytest.approx(loss_w_k, rel=0.01)


# SALDO_CH: steel flask, best of ten; from 95 degC, 86 at 6 h and 64 at 24 h (laboratory). Room not
# stated: 20 degC assumed, as the standard has it. Tolerance 2 K: printed to whole degrees, and half
# a degree at 6 h is 1.7 K at 24 h.
def test_laboratory_flask_from_6_to_24_hours():
    found = alone_c(hours=24, first_h=6, first_c=86.0, start_c=95.0, room_c=20.0)
    assert found == pytest.approx(64, abs=2)


# VAC2L_2015: 2 L steel bottle from 99.3 degC, 95.0 at 3.5 h, 90.4 at 8 h, 76.3 at 18 h (a personal
# log; its reading at 2 h is not credible, sources.md). Room not stated: 20 degC assumed.
# Tolerance 2 K: the bottle was opened to be read.
@pytest.mark.parametrize(
    ("hours", "printed_c"),
    [
        (8, 90.4),
        pytest.param(
            18,
            76.3,
            marks=pytest.mark.xfail(
                strict=True,
                reason="3 K hotter than print as usual, at 18 h, beyond the 14 h that is ever "
                "planned; each reading opened the bottle; the careful edge below is safe",
            ),
        ),
    ],
)
def test_two_litre_bottle_later_on(hours, printed_c):
    found = alone_c(hours=hours, first_h=3.5, first_c=95.0, start_c=99.3, room_c=20.0)
    assert found == pytest.approx(printed_c, abs=2)


# The same log: a jar planned with the shipped spread is never promised hotter than it was.
@pytest.mark.parametrize(("hours", "printed_c"), [(8, 90.4), (18, 76.3)])
def test_two_litre_bottle_is_above_the_careful_edge(hours, printed_c):
    spread = shelf.load().cookers["jar_2l"].loss_spread
    loss = jar_loss_w_k(rated_c=95.0, hours=3.5, start_c=99.3, room_c=20.0, contents_j_k=8045.0)
    careful, _ = two_body_c(
        time_s=hours * HOUR_S,
        contents_j_k=8045.0,
        packing_j_k=0.0,
        loss_w_k=loss * (1 + HOT_Z * spread),
        start_c=99.3,
        packing_start_c=20.0,
        room_c=20.0,
    )
    assert printed_c - 3 < careful <= printed_c


# KCPB_1988: four 2.5 L table jugs from 95 degC after 24 h (laboratory); JIS_S2006_limits: the least
# for such a jug is 75 degC after 10 h in a room of 20 degC (both typed from print). A loss from the
# limit is that of the worst jug allowed, so all four must be hotter than it predicts.
@pytest.mark.parametrize("printed_c", [73, 69, 64, 71])
def test_a_jug_is_never_colder_than_its_limit_predicts(printed_c):
    found = alone_c(hours=24, first_h=10, first_c=75.0, start_c=95.0, room_c=20.0)
    assert printed_c - 20 < found <= printed_c


# LUNCHBOX_TABLE_JP: soup jar in an insulated bag from 100 degC, lid opened at each reading, room
# not stated (its 24 h readings suggest 23 degC). Fitted at 3 h, the lid having been opened once.
SOUP_JAR = {"first_h": 3, "first_c": 73.0, "start_c": 100.0, "room_c": 23.0}


@pytest.mark.parametrize(("hours", "printed_c"), [(5, 64), (7, 57), (24, 34)])
def test_soup_jar_is_not_planned_hotter_than_it_was(hours, printed_c):
    assert alone_c(hours=hours, **SOUP_JAR) <= printed_c


# Same rows. Tolerance 3 K: hobby thermometer, room guessed.
@pytest.mark.parametrize(
    ("hours", "printed_c"),
    [
        pytest.param(hours, printed_c, marks=pytest.mark.xfail(strict=True, reason=reason))
        for hours, printed_c, reason in [
            (5, 64, "colder than print, safe: the first fall has the lid opened and a cold liner"),
            (7, 57, "colder than print, safe: the first fall has the lid opened and a cold liner"),
            (24, 34, "colder than print, safe: the first fall has the lid opened, liner cold"),
        ]
    ],
)
def test_soup_jar_later_on(hours, printed_c):
    assert alone_c(hours=hours, **SOUP_JAR) == pytest.approx(printed_c, abs=3)


# POTCOSY_2005: 0.47 kg of water in a small pot in a cosy, from 100 degC in air of 4.4 degC: five
# readings (a hobby log, but water and air are known). As one body, fitted at the first.
COSY = {20: 83.9, 30: 78.9, 40: 75.0, 50: 71.1, 60: 68.3}
COSY_FIT = {"first_h": 1 / 3, "first_c": 83.9, "start_c": 100.0, "room_c": 4.4}


@pytest.mark.parametrize("minutes", [30, 40, 50, 60])
def test_cosy_as_one_body_is_not_planned_hotter_than_it_was(minutes):
    assert alone_c(hours=minutes / 60, **COSY_FIT) <= COSY[minutes]


# Tolerance 2.5 K: the thermometer reads whole degrees Fahrenheit, and the first fall is 16 K.
@pytest.mark.parametrize(
    "minutes",
    [
        30,
        *(
            pytest.param(
                minutes,
                marks=pytest.mark.xfail(
                    strict=True, reason="colder than print, safe: the cosy warms up first"
                ),
            )
            for minutes in (40, 50, 60)
        ),
    ],
)
def test_cosy_as_one_body_later_on(minutes):
    assert alone_c(hours=minutes / 60, **COSY_FIT) == pytest.approx(COSY[minutes], abs=2.5)


def cosy_c(logs, minutes):
    loss, packing = np.exp(logs)
    contents, _ = two_body_c(
        time_s=np.asarray(minutes) * 60.0,
        contents_j_k=0.47 * WATER_J_KGK,
        packing_j_k=packing,
        loss_w_k=loss,
        start_c=100.0,
        packing_start_c=4.4,
        room_c=4.4,
    )
    return contents


# With a second body that warms up, fitted at the first two readings. Tolerance 2 K: half a degree
# Fahrenheit in each of the two readings moves the last one by that much.
@pytest.mark.parametrize("minutes", [40, 50, 60])
def test_cosy_with_its_packing_later_on(minutes):
    def miss(logs):
        return cosy_c(logs, [20, 30]) - [COSY[20], COSY[30]]

    fit = least_squares(miss, np.log([0.2, 300.0]))
    assert np.abs(fit.fun).max() < 0.3
    assert cosy_c(fit.x, minutes) == pytest.approx(COSY[minutes], abs=2)


def box_c(*, hours, spreads, litres, contents_j_k, diameter_m, room_c, packing=None, start_c=None):
    """A pot in the shipped box of crumpled newspaper, as a plan has it: carried, then closed."""
    box, rules = shelf.load().cookers["packed_box"], shelf.load().rules
    material = packing or box.material
    height_m = litres / 1000 / (math.pi / 4 * diameter_m**2)
    size = {"diameter_m": diameter_m, "height_m": height_m}
    bare_w_k = pot_loss_w_k(**size, surface_c=100.0, air_c=room_c, wind_m_s=0.0, emissivity=0.4)
    size["thickness_m"] = box.thickness_m
    through = {
        "conductivity_w_mk": material.conductivity_w_mk,
        "room_film_w_m2k": rules.room_film_w_m2k,
    }
    loss_w_k = packed_loss_w_k(
        **size,
        **through,
        gap=box.gap,
        bare_w_m2k=bare_w_k / (math.pi * diameter_m * (height_m + diameter_m / 2)),
    )
    moved_c = start_c or cooled_c(
        heat_capacity_j_k=contents_j_k,
        loss_w_k=bare_w_k,
        start_c=100.0,
        air_c=room_c,
        time_s=rules.move_min * 60,
    )
    contents, _ = two_body_c(
        time_s=np.asarray(hours) * HOUR_S,
        contents_j_k=contents_j_k,
        packing_j_k=packing_heat_j_k(
            **size,
            density_kg_m3=material.density_kg_m3,
            specific_heat_j_kgk=material.specific_heat_j_kgk,
        )
        * packing_share(**size, **through),
        loss_w_k=loss_w_k * (1 + spreads * box.loss_spread),
        start_c=moved_c,
        packing_start_c=room_c,
        room_c=room_c,
    )
    return contents


# USDA_OHE_1918: 5.4 kg of water in a full 6-quart (5.7 L) kettle, crumpled newspaper, the bulletin
# asks for about 4 in; from 100 degC, 77.8 at 4 h and 68.3 at 8 h. Not stated: room (20 degC
# assumed), the kettle's shape (22 cm wide assumed, 20 and 25 as well) and its own heat (0.9 kJ/K
# assumed). Inside the band of the shipped box, whether or not the 2 min of the move count.
@pytest.mark.parametrize(("hours", "printed_c"), [(4, 77.8), (8, 68.3)])
@pytest.mark.parametrize("diameter_m", [0.20, 0.22, 0.25])
@pytest.mark.parametrize("start_c", [None, 100.0], ids=["moved", "closed at the boil"])
def test_the_box_of_1918_lies_inside_the_planned_band(hours, printed_c, diameter_m, start_c):
    test = {"litres": 5.7, "contents_j_k": 5.4 * WATER_J_KGK + 900, "room_c": 20.0}
    careful, high = (
        box_c(hours=hours, spreads=z, diameter_m=diameter_m, start_c=start_c, **test)
        for z in (HOT_Z, -HOT_Z)
    )
    assert careful <= printed_c <= high


# Same rows. Tolerance 3.5 K: the room alone, 15 to 25 degC, is worth 2 K either way at 8 h, and the
# kettle's shape and own heat another. The print falls faster early on and slower later than ours:
# 3.1 K hotter than print at 4 h (2.5 K, when the packing's heat was lumped less well), 0.2 K colder
# at 8 h; what a plan counts on is colder than print at both.
@pytest.mark.parametrize(("hours", "printed_c"), [(4, 77.8), (8, 68.3)])
def test_the_box_of_1918_as_usual(hours, printed_c):
    test = {"litres": 5.7, "contents_j_k": 5.4 * WATER_J_KGK + 900, "room_c": 20.0}
    found = box_c(hours=hours, spreads=0.0, diameter_m=0.22, **test)
    assert found == pytest.approx(printed_c, abs=3.5)


# RHC_DESIGN_2005: a criterion, no measurement: 5 L (4.8 kg) above 90 degC for 90 min asks for at
# least R-7 (US), 1.23 m2 K/W. A box of just so much has to meet it as usual; the shipped one of
# crumpled newspaper has less (0.1016 m / 0.10 = 1.02) and is a little colder.
@pytest.mark.parametrize(("resistance_m2k_w", "meets"), [(1.23, True), (0.6, False)])
def test_a_box_of_the_design_criterion_of_2005_meets_it(resistance_m2k_w, meets):
    box = shelf.load().cookers["packed_box"]
    packing = replace(box.material, conductivity_w_mk=box.thickness_m / resistance_m2k_w)
    pot = {"litres": 5.0, "diameter_m": 0.21, "contents_j_k": 4.8 * WATER_J_KGK + 900}
    found = box_c(hours=1.5, spreads=0.0, room_c=20.0, packing=packing, **pot)
    assert bool(found >= 90) is meets


# Common practice, no source: four inches of dry packing all round a full 6-litre pot keeps food
# above 60 degC for 8 hours. Room 20 degC; the pot holds 6 kg of stew of 3.8 kJ/(kg K).
FULL_POT = {"litres": 6.0, "diameter_m": 0.22, "contents_j_k": 6.0 * 3800 + 900}


@pytest.mark.parametrize("room_c", [12.0, 20.0])
def test_a_full_pot_in_four_inches_of_packing_is_hot_after_8_hours(room_c):
    assert box_c(hours=8, spreads=0.0, room_c=room_c, **FULL_POT) > 60


@pytest.mark.xfail(strict=True, reason="colder than practice, safe: the careful edge plans shorter")
def test_a_full_pot_is_hot_after_8_hours_in_a_cold_kitchen_even_at_the_careful_edge():
    assert box_c(hours=8, spreads=HOT_Z, room_c=12.0, **FULL_POT) > 60


# Common practice, no source: a pot 80 % full outlasts one 40 % full.
def test_a_pot_80_percent_full_outlasts_one_40_percent_full():
    hours = np.linspace(0.5, 12, 24)
    full, half = (
        box_c(
            hours=hours,
            spreads=0.0,
            room_c=12.0,
            litres=6.0,
            diameter_m=0.22,
            contents_j_k=share * 6.0 * 3800 + 900,
        )
        for share in (0.8, 0.4)
    )
    assert (full > half + 1).all()
