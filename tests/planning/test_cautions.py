"""Every caution is said when it must be, and only then."""

from dataclasses import replace

import pytest

from optimizer import shelf
from optimizer.model.household import (
    DAY_MIN,
    Cold,
    Item,
    OwnCooker,
    OwnPot,
    OwnStove,
    Place,
    Scenario,
    Store,
    Weather,
    Window,
)
from optimizer.planning.cautions import GENERAL, RULES, cautions_of
from optimizer.planning.kitchen import choices, kitchen_of
from optimizer.planning.steps import fires_told, steps_of

SHELF = shelf.load()


def said(
    *,
    dish: str = "lentil_soup",
    stove: str = "stick_stove",
    where: str = "outdoors",
    fuel: str | None = None,
    pot: str = "pot_4l",
    cooker: str | None = None,
    children: int = 0,
    altitude_m: float = 100.0,
    adults: int = 5,
    pressure_allowed: bool = False,
) -> set[str]:
    """Codes said for one dish, cooked the one way this household can."""
    made = replace(SHELF.stoves[stove], fuel=fuel or SHELF.stoves[stove].fuel)
    scenario = Scenario(
        title="Trial at Alder Row",
        adults=adults,
        children=children,
        place=Place(altitude_m, 15.0, 15.0, 10.0),
        weather=(Weather(15.0, 0.0, rain=False, wet_sticks=False),),
        start=None,
        currency="EUR",
        days=1,
        windows=(Window(360, 1200),),
        cooks=1,
        stores=(Store(SHELF.fuels[made.fuel], 50.0, None, 1.0, None, 1.0, 0.0),),
        stoves=(OwnStove(made, 1, where),),
        pots=(OwnPot(SHELF.pots[pot], 1),),
        cookers=(OwnCooker(SHELF.cookers[cooker], 1, pressure_allowed),) if cooker else (),
        items=(Item(0, 1, "supper", SHELF.dishes[dish], float(adults), float(children), 1110),),
        goals=("money",),
        confidence=0.9,
        cold=(Cold("ice box", 0, DAY_MIN),),
        rules=SHELF.rules,
    )
    columns = choices(scenario).columns
    wanted = [c for c in columns if any(u.resource.startswith("cooker") for u in c.uses)]
    column = (wanted if cooker else columns)[-1]
    fires = fires_told([column], kitchen_of(scenario), scenario)
    return {caution.code for caution in cautions_of(steps_of([column], fires, scenario), scenario)}


BOXED = {"cooker": "packed_box"}
PRESSED = {"dish": "beef_stew", "pot": "pressure_6l", "cooker": "packed_box", "adults": 3}
CASES = {
    "makers_word": ({}, None),
    "flames_outdoors": ({}, {"stove": "gas_hob", "where": "vented hob"}),
    "char_left": ({}, {"stove": "charcoal_brazier"}),
    "charcoal": ({"stove": "charcoal_brazier"}, {}),
    "alcohol_refill": ({"stove": "alcohol_burner", "pot": "pot_4l"}, {"stove": "kerosene_wick"}),
    "liquid_refill": ({"stove": "kerosene_wick"}, {"stove": "alcohol_burner"}),
    "pressure_pot": ({"dish": "beef_stew", "pot": "pressure_6l", "adults": 3}, {}),
    "pressure_packed": ({**PRESSED, "pressure_allowed": True}, PRESSED),
    "hot_base_on_foam": ({"cooker": "foam_box"}, BOXED),
    "soot_in_packing": (BOXED, {"cooker": "jar_2l", "adults": 2}),
    "phaseolus": ({"dish": "white_bean_soup"}, {"dish": "tinned_beans_hot"}),
    "rice": ({"dish": "rice"}, {"dish": "bulgur"}),
    "reheat": (BOXED, {}),
    "children_scald": ({"children": 1}, {}),
    "infants": (
        {"dish": "bottle_water", "pot": "pot_1_5l"},
        {"dish": "drinking_water", "adults": 3},
    ),
    "water_altitude": (
        {"dish": "drinking_water", "adults": 3, "altitude_m": 2000.0},
        {"dish": "drinking_water", "adults": 3},
    ),
    "water_chemicals": ({"dish": "drinking_water", "adults": 3}, {"dish": "rice"}),
    "leftovers": ({}, {"dish": "drinking_water", "adults": 3}),
    "raw_meat": ({"dish": "beef_stew"}, {"dish": "tinned_stew_hot"}),
    "thermometer": (BOXED, {}),
    "part_filled": ({**BOXED, "adults": 3}, {**BOXED, "adults": 5}),
    "tablet": ({"stove": "gas_burner", "fuel": "tablets"}, {"stove": "gas_burner"}),
    "tinned": ({"dish": "tinned_stew_hot"}, {"dish": "beef_stew"}),
    "hot_bottle": ({"dish": "hot_bottles", "adults": 3}, {"dish": "washing_water", "adults": 2}),
}

OF_EATERS = {"separate_pots", "allergy", "pot_before", "contents_unstated", "carried"}
"""Said of diets and of what is carried: cases in test_diets.py and test_carried.py."""


def test_every_caution_of_the_table_has_its_cases_and_its_rule():
    assert set(CASES) | OF_EATERS == set(SHELF.cautions)
    assert {notice.trigger for notice in SHELF.cautions.values()} == set(RULES)
    assert set(RULES) >= GENERAL


@pytest.mark.parametrize("code", CASES)
def test_a_caution_is_said_when_it_must_be(code):
    assert code in said(**CASES[code][0])


@pytest.mark.parametrize("code", [code for code, (_, other) in CASES.items() if other is not None])
def test_a_caution_is_not_said_when_there_is_no_need(code):
    assert code not in said(**CASES[code][1])


def test_a_plain_pot_of_soup_calls_for_little():
    assert said() == {"makers_word", "flames_outdoors", "char_left", "leftovers"}


@pytest.mark.parametrize("stove", ["kerosene_wick", "kerosene_pressure", "white_gas_stove"])
def test_every_stove_with_a_tank_of_liquid_fuel_is_filled_cold(stove):
    assert "liquid_refill" in said(stove=stove)


@pytest.mark.parametrize("stove", ["stick_stove", "gas_burner", "electric_plate"])
def test_no_other_stove_speaks_of_a_tank(stove):
    assert not {"liquid_refill", "alcohol_refill"} & said(stove=stove, where="outdoors")


@pytest.mark.parametrize("stove", ["gas_burner", "charcoal_brazier", "electric_plate"])
def test_what_burns_no_wood_leaves_no_char_to_speak_of(stove):
    assert "char_left" not in said(stove=stove)
