"""Hours against thickness, and a water test with its band: what is drawn, in both measures."""

import pytest
import vl_convert

from app.figures.fitted import fitted_chart, fitted_data
from app.figures.hours import DASHES, hours_chart, hours_data, key_words
from app.figures.look import DARK, LIGHT
from optimizer import shelf
from optimizer.model.household import Place, Weather
from optimizer.planning.conditions import Conditions
from optimizer.report.kitchen import LONGEST_H
from optimizer.report.measures import Metric, Us
from optimizer.studies.box import BoxQuestion, answer
from optimizer.trials.readings import parse_log
from optimizer.trials.water_test import water_test

THINGS = shelf.load()
AT = Conditions(
    Place(0.0, 15.0, 10.0, 10.0),
    Weather(10.0, 0.0, rain=False, wet_sticks=False),
    THINGS.rules,
    0.9,
)
STRAW, WOOL = THINGS.materials["straw"], THINGS.materials["wool_blanket"]
FOUND = answer(
    BoxQuestion(
        THINGS.cookers["packed_box"],
        THINGS.pots["pot_6l"],
        THINGS.dishes["drinking_water"],
        0.8,
        AT,
        thick_m=(0.02, 0.06, 0.12),
        beside=(STRAW, WOOL),
    )
)
DRAWN = (FOUND.thicknesses, FOUND.beside, FOUND.holding)
TABLE = """\
# water: 2.0 L
# pot: pot_2_5l
time_min,temp_c,room_c
0,97.0,15
15,93.1,15
30,90.3,14
60,85.5,14
90,81.3,15
120,70.1,15
180,70.7,15
240,64.9,15
300,59.6,15
"""
TESTED = water_test(
    parse_log(TABLE, "test.csv"), {}, THINGS.pots, THINGS.cookers, THINGS.cookers["packed_box"]
)


@pytest.mark.parametrize(("system", "cm"), [(Metric(), 1.0), (Us(), 2.54)])
def test_a_line_for_each_packing_with_the_chosen_first(system, cm):
    data = hours_data(*DRAWN, system)
    assert [name for name, _ in data.lines] == ["crumpled newspaper", STRAW.label, WOOL.label]
    for _, points in data.lines:
        assert [cm * p["thick"] for p in points] == pytest.approx([2, 6, 12])
        assert all(0 < p["low"] <= p["usual"] <= p["high"] <= LONGEST_H for p in points)
    assert data.lines[0][1][1]["usual"] == pytest.approx(FOUND.thicknesses[1].usual_h)
    assert cm * data.now["thick"] == pytest.approx(10.16)


def test_lines_differ_without_colour_and_the_key_names_them():
    assert len({tuple(dash) for dash in DASHES}) == len(DASHES)
    told = key_words(hours_data(*DRAWN, Metric()))
    assert told[0] == "full line, and its band: crumpled newspaper"
    assert len(told) == 3


def test_the_band_holds_the_curve_and_the_outlier_is_apart():
    data = fitted_data(TESTED, Metric())
    assert [row["hours"] for row in data.left_out] == [2.0]
    assert len(data.kept) == 8
    assert all(row["low"] < row["usual"] < row["high"] for row in data.curve)
    assert data.curve[0]["hours"] == 0
    assert data.curve[-1]["hours"] == pytest.approx(5.0)
    assert data.curve[-1]["usual"] == pytest.approx(float(TESTED.fit.fitted_c[-1]), abs=0.1)
    inside = [row["low"] - 1 < row["usual"] < row["high"] + 1 for row in data.curve]
    assert all(inside)


def test_a_test_in_fahrenheit_is_the_same_test():
    metric, us = (fitted_data(TESTED, system) for system in (Metric(), Us()))
    assert us.kept[0]["read"] == pytest.approx(1.8 * 97.0 + 32)
    assert us.curve[30]["usual"] == pytest.approx(1.8 * metric.curve[30]["usual"] + 32)


@pytest.mark.parametrize("look", [LIGHT, DARK], ids=["light", "dark"])
def test_both_charts_can_be_drawn_and_say_what_they_show(look):
    charts = [hours_chart(*DRAWN, Us(), look), fitted_chart(TESTED, Metric(), look)]
    for chart, word in zip(charts, ("Hours hot against thickness", "1 left out"), strict=True):
        spec = chart.to_dict()
        assert word in spec["description"]
        assert "<svg" in vl_convert.vegalite_to_svg({**spec, "width": 350})
