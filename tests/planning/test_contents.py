"""What is in the pot."""

from dataclasses import replace

import pytest

from optimizer import shelf
from optimizer.model.household import Place
from optimizer.model.things import Dish
from optimizer.planning.contents import (
    fill,
    heat_of,
    load,
    load_of,
    pot_heat_j_k,
    round_up,
    through_min,
)

THINGS = shelf.load()
PLACE = Place(0.0, 18.0, 5.0, 8.0)


def dish(name: str) -> Dish:
    return THINGS.dishes[name]


def test_water_has_the_heat_and_volume_of_water():
    litres = load_of(dish("drinking_water"), 4.0, PLACE)
    # water at 60 degC, steam tables (from memory): 4.185 kJ/(kg K), 983.2 kg/m3
    assert litres.heat_j_k == pytest.approx(4 * 4185, rel=0.005)
    assert litres.volume_m3 == pytest.approx(4 / 983.2, rel=0.005)
    assert litres.water_kg == litres.mass_kg == 4
    assert litres.start_c == PLACE.water_c
    assert litres.piece_share == 0
    assert litres.amounts == ()


def test_amounts_are_those_of_the_portions(household):
    item = next(i for i in household().items if i.dish.name == "rice")
    rice = load(item, PLACE)
    # 0.09 kg for each of two grown-ups, 0.6 of that for each of two children
    assert rice.amounts[0].kg == pytest.approx(0.288)
    assert rice.water_kg == pytest.approx(0.2 * 3.2)
    assert rice.adult_portions == pytest.approx(3.2)


def test_food_starts_between_tap_and_kitchen():
    soup = load_of(dish("vegetable_soup"), 3.0, PLACE)
    assert PLACE.water_c < soup.start_c < PLACE.kitchen_c
    assert 0.3 < soup.piece_share < 0.9


@pytest.mark.parametrize(
    ("name", "swells"),
    [
        ("rice", True),
        ("bean_stew", True),
        ("tea", True),
        ("vegetable_soup", True),
        ("pumpkin_soup", True),  # thick: a third of it is water
        ("potatoes", False),
        ("beef_stew", False),
    ],
)
def test_grains_pulses_and_soups_swell(name, swells):
    assert load_of(dish(name), 1.0, PLACE).swelling is swells


@pytest.mark.parametrize(
    ("name", "lectin"), [("bean_stew", True), ("lentil_soup", False), ("chickpea_stew", False)]
)
def test_only_beans_with_the_lectin_count_as_such(name, lectin):
    assert load_of(dish(name), 1.0, PLACE).phaseolus is lectin


def test_raw_meat_has_an_endpoint():
    assert load_of(dish("beef_stew"), 1.0, PLACE).endpoint_c is not None
    assert load_of(dish("porridge"), 1.0, PLACE).endpoint_c is None


def test_fat_takes_less_heat_than_water():
    assert heat_of(THINGS.foods["oil"]) < 0.6 * heat_of(THINGS.foods["water"])


def test_a_piece_is_given_less_than_the_greatest_conductivity_of_a_mixture():
    greatest = replace(THINGS.rules, diffusivity_share=1.0)
    quick, given = (through_min(dish("potatoes"), r, 0.0) for r in (greatest, THINGS.rules))
    assert 0.8 <= THINGS.rules.diffusivity_share < 1
    assert given == pytest.approx(quick / THINGS.rules.diffusivity_share)


def test_a_liquid_is_through_at_once_and_a_piece_is_not():
    assert through_min(dish("drinking_water"), THINGS.rules, 600.0) == 0
    assert through_min(dish("potatoes"), THINGS.rules, 600.0) > 1


def test_a_slow_rise_heats_a_piece_already():
    quick, slow = (through_min(dish("potatoes"), THINGS.rules, s) for s in (60.0, 1800.0))
    assert slow < quick


def test_a_piece_twice_as_thick_takes_four_times_as_long():
    thick = tuple(
        replace(part, food=replace(part.food, half_size_m=2 * part.food.half_size_m))
        for part in dish("potatoes").ingredients
    )
    once = through_min(dish("potatoes"), THINGS.rules, 0.0)
    assert through_min(replace(dish("potatoes"), ingredients=thick), THINGS.rules, 0.0) == (
        pytest.approx(4 * once)
    )


def test_a_pot_holds_its_mass_times_its_specific_heat():
    pot = replace(THINGS.pots["pot_4l"], mass_kg=2.0, specific_heat_j_kgk=500.0)
    assert pot_heat_j_k(pot) == 1000


def test_fill_is_cooked_volume_over_pot():
    litres = load_of(dish("drinking_water"), 2.0, PLACE)
    pot = THINGS.pots["pot_4l"]
    assert fill(litres, pot) == pytest.approx(litres.volume_m3 / 4.0e-3)


@pytest.mark.parametrize(
    ("minutes", "step", "up"), [(0, 5, 0), (0.1, 5, 5), (5, 5, 5), (5 + 1e-12, 5, 5), (11, 10, 20)]
)
def test_minutes_are_rounded_up_to_the_step(minutes, step, up):
    assert round_up(minutes, step) == up
