"""Energy of whole dishes against print: what a box saves, and what a meal takes.

A gas burner chosen beforehand, on a hob without wind, usual efficiency, no margins.
"""

from dataclasses import replace
from statistics import mean

import pytest

from optimizer import shelf
from optimizer.model.household import OwnStove, Place, Weather
from optimizer.model.things import Ingredient
from optimizer.planning.boiling import Boil, boil
from optimizer.planning.conditions import Conditions
from optimizer.planning.contents import load_of

SHELF = shelf.load()
PLACE = Place(altitude_m=50, kitchen_c=20, outdoors_c=20, water_c=15)
AT = Conditions(PLACE, Weather(20, 0, rain=False, wet_sticks=False), SHELF.rules, 0.5)
HOB = OwnStove(SHELF.stoves["gas_burner"], 1, "vented hob")


def heated(dish: str, pot: str, stove: OwnStove = HOB, **kg: float) -> Boil:
    """So much of some foods brought to the boil."""
    made = replace(
        SHELF.dishes[dish],
        ingredients=tuple(Ingredient(SHELF.foods[name], amount) for name, amount in kg.items()),
    )
    fired = boil(load_of(made, 1.0, PLACE), SHELF.pots[pot], stove, SHELF.fuels["propane"], AT)
    assert isinstance(fired, Boil), fired
    return fired


def saved(fired: Boil, boiled_min: float, simmered_min: float) -> float:
    """Fuel saved by boiling so long and boxing, against simmering so long, in per cent."""

    def fuel_j(minutes: float) -> float:
        steam = minutes * fired.steam_kg_min * fired.extra_j_kg
        return fired.up_j + minutes * 60 * fired.hold_w + steam

    return 100 * (1 - fuel_j(boiled_min) / fuel_j(simmered_min))


# A French table in the press: dish, amounts, minutes boiled before the box, minutes of simmering it
# is compared with, energy saved in per cent.
FRENCH = {
    "cut potatoes 2 kg": (heated("potatoes", "pot_6l", potatoes=2.0, water=2.0), 1, 25, 50),
    "leeks 2 kg": (heated("vegetable_soup", "pot_6l", cabbage=2.0, water=2.5), 1, 25, 50),
    "carrots 0.3 kg": (heated("vegetable_soup", "pot_1_5l", carrots=0.3, water=0.5), 1, 30, 50),
    "semi-brown rice 0.5 kg": (
        heated("brown_rice", "pot_2_5l", rice_brown=0.5, water=1.0),
        1,
        20,
        40,
    ),
    "green lentils 0.25 kg": (
        heated("lentil_stew", "pot_2_5l", lentils_brown=0.25, water=1.0),
        5,
        45,
        70,
    ),
    "dry white beans 0.5 kg": (
        heated("white_bean_soup", "pot_4l", white_beans=0.5, water=1.5),
        15,
        90,
        50,
    ),
    "beef bourguignon 3 kg": (
        heated("beef_stew", "pot_4l", beef_stewing=1.5, carrots=0.5, onions=0.3, water=0.7),
        5,
        120,
        75,
    ),
}
LESS = "less saved than in print, safe: a large pot of roots is mostly heating up"


@pytest.mark.parametrize(
    "dish",
    [
        pytest.param(dish, marks=pytest.mark.xfail(strict=True, reason=LESS))
        if dish in ("cut potatoes 2 kg", "leeks 2 kg")
        else dish
        for dish in FRENCH
    ],
)
def test_what_the_box_saves_is_within_twenty_points_of_print(dish):
    fired, boiled, simmered, printed = FRENCH[dish]
    assert saved(fired, boiled, simmered) == pytest.approx(printed, abs=20)


@pytest.mark.parametrize("dish", FRENCH)
def test_the_box_never_saves_twenty_points_more_than_in_print(dish):
    fired, boiled, simmered, printed = FRENCH[dish]
    assert saved(fired, boiled, simmered) <= printed + 20


def test_what_the_box_saves_on_the_mean_is_within_ten_points_of_print():
    ours = [saved(fired, boiled, simmered) for fired, boiled, simmered, _ in FRENCH.values()]
    assert mean(ours) == pytest.approx(mean(row[3] for row in FRENCH.values()), abs=10)


# Cimini, Cibelli and Moresi: dry pasta, 12 and 2 L of water to the kilogram, Wh for a gram on an
# induction plate (0.81 of the heat into the pot, ENARGAS_2020, where ours has the gas burner's
# 0.54). The amount is not in the copy: half a kilogram. Tolerance 10 %.
def pasta_wh_g(litres: float) -> float:
    fired = heated("pasta_tomato", "pot_10l", pasta=0.5, water=0.5 * litres)
    minutes = SHELF.dishes["pasta_tomato"].boil_min
    return (fired.up_j + minutes * 60 * fired.hold_w) * 0.54 / 0.81 / 3600 / 500


@pytest.mark.parametrize(("litres", "printed_wh"), [(12, 1.93), (2, 0.39)])
def test_pasta_hardly_takes_less_than_in_print(litres, printed_wh):
    assert pasta_wh_g(litres) >= 0.95 * printed_wh


@pytest.mark.parametrize(
    ("litres", "printed_wh"),
    [
        (12, 1.93),
        pytest.param(
            2,
            0.39,
            marks=pytest.mark.xfail(
                strict=True, reason="more than in print, safe: a large pot for so little"
            ),
        ),
    ],
)
def test_pasta_takes_the_energy_of_its_water(litres, printed_wh):
    assert pasta_wh_g(litres) == pytest.approx(printed_wh, rel=0.10)


# Carlsson-Kanyama and Bostrom-Carlsson 2001, table 1: boiled on a hotplate, MJ for each portion of
# 1 and of 4. The size of a portion is not in the copy; ours are the shelf's, for a hungry adult.
PLATE = OwnStove(SHELF.stoves["electric_plate"], 1, "indoors")
HOTPLATE = [
    ("potatoes", 1, 0.70),
    ("potatoes", 4, 0.30),
    ("rice", 1, 0.34),
    ("rice", 4, 0.12),
    ("bulgur", 1, 0.29),  # printed as wheat
    ("bulgur", 4, 0.11),
]
MORE = "more than in print, safe: larger portions, and the plate's warming up is counted"


def mj_a_portion(dish: str, portions: int) -> float:
    made, pot = SHELF.dishes[dish], SHELF.pots["pot_1_5l" if portions == 1 else "pot_4l"]
    load = load_of(made, float(portions), PLACE)
    fired = boil(load, pot, PLATE, SHELF.fuels["electricity"], AT)
    assert isinstance(fired, Boil), fired
    steam_j = made.boil_min * fired.steam_kg_min * fired.extra_j_kg
    held_j = 60 * made.boil_min * fired.hold_w + steam_j
    return (PLATE.stove.start_j + fired.up_j + held_j) / portions / 1e6


@pytest.mark.parametrize(("dish", "portions", "printed_mj"), HOTPLATE)
def test_a_boiled_dish_never_takes_less_than_in_print(dish, portions, printed_mj):
    assert mj_a_portion(dish, portions) >= printed_mj


@pytest.mark.parametrize(
    ("dish", "portions", "printed_mj"),
    [
        HOTPLATE[0],
        *(
            pytest.param(*row, marks=pytest.mark.xfail(strict=True, reason=MORE))
            for row in HOTPLATE[1:]
        ),
    ],
)
def test_a_boiled_dish_takes_what_is_printed(dish, portions, printed_mj):
    assert mj_a_portion(dish, portions) == pytest.approx(printed_mj, rel=0.25)


# The same table, which does not need the size of a portion: one cooked alone takes a multiple.
@pytest.mark.parametrize(("dish", "printed"), [("potatoes", 0.70 / 0.30), ("rice", 0.34 / 0.12)])
def test_a_dish_for_one_takes_more_for_each_portion(dish, printed):
    assert 1.4 < mj_a_portion(dish, 1) / mj_a_portion(dish, 4) < printed


# A computation of others (D), not a measurement: 465 g of propane boil about 32 L at 50 %.
def test_a_cylinder_boils_as_much_water_as_the_planning_table_says():
    half = OwnStove(replace(SHELF.stoves["gas_burner"], efficiency=0.5), 1, "vented hob")
    fired = heated("drinking_water", "pot_6l", half, water=5.0)
    boiled_l = 5.0 * 0.465 * 46.34e6 / fired.up_j
    assert 32 * 0.80 <= boiled_l <= 32  # pot and losses come on top of the table's bare water
