"""Blankets laid over a packed box: less loss, by the checker too; nothing for a measured box."""

from dataclasses import replace

import numpy as np
import pytest

from optimizer import shelf
from optimizer.errors import PhysicsError
from optimizer.model.household import Place, Weather
from optimizer.physics.cooling import covered_film_w_m2k, late_time_constant_s, two_body_c
from optimizer.planning.conditions import Conditions
from optimizer.planning.losses import packed_loss_w_k
from optimizer.planning.planner import plan
from optimizer.scenario.reading import parse

THINGS = shelf.load()
PLACE = Place(0.0, 15.0, 10.0, 10.0)
AT = Conditions(PLACE, Weather(10.0, 0.0, rain=False, wet_sticks=False), THINGS.rules, 0.9)
BOX, POT = THINGS.cookers["packed_box"], THINGS.pots["pot_4l"]
SUPPER = """
title: Blankets
people: 3
days: 1
place: {{altitude: 0 m, kitchen: 12 degC, outdoors: 5 degC, water: 8 degC}}
cook_hours: ["11:00-13:00"]
fuels: {{propane: {{stock: 1 x 465 g, price: 9 EUR / 465 g}}}}
stoves: {{gas_burner: 1}}
pots: {{pot_4l: 1}}
cookers: {{packed_box: {{count: 1, blankets: {blankets}}}}}
menu: [{{meal: supper, at: "14:30", dishes: [lentil_stew]}}]
"""


def test_each_blanket_saves_less_than_the_one_before():
    losses = [packed_loss_w_k(replace(BOX, blankets=n), POT, 100.0, AT)[0] for n in range(5)]
    saved = -np.diff(losses)
    assert (saved > 0).all()
    assert (np.diff(saved) < 0).all()


def test_a_measured_box_has_its_blankets_in_its_number():
    measured = replace(BOX, loss_w_k=0.3, blankets=3)
    assert packed_loss_w_k(measured, POT, 100.0, AT)[0] == 0.3


def test_blankets_and_film_are_in_series():
    assert covered_film_w_m2k(room_film_w_m2k=8.0, cover_m2k_w=0.0) == 8.0
    assert covered_film_w_m2k(room_film_w_m2k=8.0, cover_m2k_w=0.125) == pytest.approx(4.0)
    with pytest.raises(PhysicsError, match="cover_m2k_w"):
        covered_film_w_m2k(room_film_w_m2k=8.0, cover_m2k_w=-0.1)


def test_a_plan_is_hotter_under_blankets_and_the_checker_agrees():
    bare, covered = (plan(parse(SUPPER.format(blankets=n))).steps[0] for n in (0, 3))
    assert bare.cooker == covered.cooker == "packed_box"
    assert covered.serve_c > bare.serve_c + 1  # every plan is recomputed by the checker


@pytest.mark.parametrize("packing_j_k", [0.0, 2000.0, 30_000.0])
def test_the_late_time_constant_is_that_of_the_curve(packing_j_k):
    body = {"contents_j_k": 20_000.0, "packing_j_k": packing_j_k, "loss_w_k": 0.4}
    constant = late_time_constant_s(**body)
    late = np.array([6.0, 7.0]) * constant
    first, then = two_body_c(time_s=late, start_c=100.0, packing_start_c=0.0, room_c=0.0, **body)[0]
    assert then / first == pytest.approx(np.exp(-1), rel=1e-6)
