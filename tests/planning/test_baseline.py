"""What boiling the whole time would take where it does not fit: fires shared as if all pots did."""

from dataclasses import replace

import pytest

from optimizer.planning.baseline import _shared_fires, saving
from optimizer.planning.columns import Lighting
from optimizer.planning.planner import plan
from optimizer.scenario.reading import parse
from tests.planning.conftest import cook

STICKS = Lighting("stick", "sticks", 60e3, 5, 100.0, 0.0, tend=True)  # 10 min of idling to light

CROWDED = """\
title: One burner at Rowan Row
people: 4
days: 1
place: {altitude: 100 m, kitchen: 16 degC, outdoors: 8 degC, water: 10 degC}
cook_hours: ["15:00-18:00"]
fuels: {propane: {stock: 4 kg, price: 9.50 EUR / 465 g}}
stoves: {gas_burner: 1}
pots: {pot_4l: 1, pot_2_5l: 1}
cookers: {packed_box: 1}
menu:
  - {meal: supper, at: "18:00", dishes: [lentil_stew, rice]}
"""


def fires(*spans: tuple[int, int]) -> list[tuple[int, int]]:
    """Minutes in all, and minutes without a pot, of each fire."""
    columns = [cook(n, "stick", start, end - start) for n, (start, end) in enumerate(spans)]
    return [(minutes, idle) for _, minutes, idle in _shared_fires(columns, {"stick": STICKS})]


def test_a_fire_is_kept_up_where_that_burns_no_more_than_lighting_it_again():
    assert fires((370, 390), (400, 420)) == [(5 + 50, 10)]
    assert fires((370, 390), (401, 420)) == [(5 + 20, 0), (5 + 19, 0)]


def test_pots_side_by_side_share_a_fire_until_the_last_one_is_off():
    assert fires((370, 420), (380, 400)) == [(5 + 50, 0)]
    assert fires((380, 400), (370, 390), (405, 410)) == [(5 + 40, 5)]


def test_what_is_not_fed_has_no_fire_to_share():
    assert list(_shared_fires([cook(0, "gas", 370, 20)], {"stick": STICKS})) == []


def test_boiling_through_is_told_in_the_units_of_the_plan_even_where_it_does_not_fit():
    made = plan(parse(CROWDED), gap=0.01)
    through = made.boil_all_same_stoves
    assert through.status == "does_not_fit"
    assert through.fuel_mj is not None
    assert through.cost is not None
    assert made.fuel_mj < through.fuel_mj < 3 * made.fuel_mj
    assert through.cost / through.fuel_mj == pytest.approx(made.cost / made.fuel_mj, rel=0.01)
    told = saving(made, through)
    assert told == made.saved
    assert told.fuel_fraction == pytest.approx(told.fuel_mj / through.fuel_mj)


def test_what_is_saved_is_the_difference_and_nothing_where_a_number_is_not_known():
    made = plan(parse(CROWDED), gap=0.01)
    through = replace(made.boil_all_same_stoves, fuel_mj=40.0, cost=3.0, fire_minutes=500.0)
    told = saving(made, through)
    assert told.fire_minutes == pytest.approx(500.0 - made.fire_minutes)
    assert told.cost == pytest.approx(3.0 - made.cost)
    assert told.fuel_mj == pytest.approx(40.0 - made.fuel_mj)
    for name in ("fuel_mj", "cost", "fire_minutes"):
        assert saving(made, replace(through, **{name: None})) is None
