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


def test_what_the_box_saves_on_the_mean_is_within_ten_points_of_print():
    ours = [saved(fired, boiled, simmered) for fired, boiled, simmered, _ in FRENCH.values()]
    assert mean(ours) == pytest.approx(mean(row[3] for row in FRENCH.values()), abs=10)


# Cimini, Cibelli and Moresi: dry pasta, water to pasta 12 to 2 L/kg: 1.93 to 0.39 Wh for a gram, on
# an induction plate; scaled to the water alone, the ratio between the two is what is checked.
def test_pasta_in_little_water_takes_a_fraction_of_the_energy():
    def wh_per_g(litres: float) -> float:
        fired = heated("pasta_tomato", "pot_10l", pasta=0.5, water=0.5 * litres)
        minutes = SHELF.dishes["pasta_tomato"].boil_min
        return (fired.up_j + minutes * 60 * fired.hold_w) * 0.54 / 0.81 / 3600 / 500

    assert wh_per_g(12) / wh_per_g(2) == pytest.approx(1.93 / 0.39, rel=0.35)


# Computed from the same rows of a planning table: 465 g of propane boil about 32 L at 50 %.
def test_a_cylinder_boils_as_much_water_as_the_planning_table_says():
    half = OwnStove(replace(SHELF.stoves["gas_burner"], efficiency=0.5), 1, "vented hob")
    fired = heated("drinking_water", "pot_6l", half, water=5.0)
    boiled_l = 5.0 * 0.465 * 46.34e6 / fired.up_j
    assert 32 * 0.80 <= boiled_l <= 32  # pot and losses come on top of the table's bare water
