"""The things on the shelf make sense together."""

import math

import pytest

from optimizer import shelf
from optimizer.model.things import Rules
from optimizer.physics.one_body import heat_up_s
from optimizer.physics.surface import pot_loss_w_k

SHELF = shelf.load()
# The codes that planning knows how to evaluate.
TRIGGERS = {
    "allergy",
    "carried",
    "diet",
    "diet_pot",
    "diet_unstated",
    "always",
    "flames_outdoors",
    "char_left",
    "charcoal",
    "alcohol_refill",
    "liquid_refill",
    "pressure_pot",
    "pressure_packed",
    "hot_base_on_foam",
    "soot_in_packing",
    "phaseolus",
    "rice",
    "reheat",
    "children_scald",
    "infants",
    "water_altitude",
    "water_chemicals",
    "leftovers",
    "raw_meat",
    "thermometer",
    "part_filled",
    "tablet",
    "tinned",
    "hot_bottle",
}
FAMILY_PORTIONS = 2 + 3 * 0.6  # two adults and three children


def every(things):
    return [pytest.param(thing, id=thing.name) for thing in things.values()]


@pytest.mark.parametrize("food", every(SHELF.foods))
def test_composition_is_the_whole_food(food):
    parts = (food.water, food.protein, food.fat, food.carbohydrate, food.fibre, food.ash)
    assert sum(parts) == pytest.approx(1, abs=0.03)


@pytest.mark.parametrize("food", every(SHELF.foods))
def test_only_a_liquid_has_no_piece(food):
    assert (food.half_size_m == 0) == (food.shape == "liquid")


def test_beans_of_phaseolus_are_marked():
    marked = {name for name, food in SHELF.foods.items() if food.phaseolus}
    beans = {name for name in SHELF.foods if name.endswith("beans")}
    assert marked == beans - {"soybeans", "tinned_beans"}  # another genus; boiled in the tin


def test_raw_meat_and_egg_have_an_endpoint():
    raw = {name for name, food in SHELF.foods.items() if food.endpoint_c is not None}
    assert raw == {"beef_stewing", "chicken_thigh", "cod", "egg"}


@pytest.mark.parametrize("stove", every(SHELF.stoves))
def test_stove_burns_a_fuel_of_the_shelf_and_can_be_turned_down(stove):
    assert stove.fuel in SHELF.fuels
    assert 0 <= stove.low_power_w <= stove.power_w
    fixed = stove.name in {"tablet_burner", "electric_kettle", "solar_box"}
    assert fixed == (stove.low_power_w == stove.power_w)


@pytest.mark.parametrize("name", ["large_stick_stove", "gas_ring"])
def test_a_crowds_pot_boils_within_two_hours_on_a_windy_day(name):
    stove, pot = SHELF.stoves[name], SHELF.pots["pot_30l"]
    loss_w_k = pot_loss_w_k(
        diameter_m=pot.diameter_m,
        height_m=pot.height_m,
        surface_c=100.0,
        air_c=0.0,
        wind_m_s=3.0,
        emissivity=pot.emissivity,
    )
    poor = stove.efficiency * (1 - stove.efficiency_spread) * (1 - 3 * stove.wind_loss)
    boiled_s = heat_up_s(
        heat_capacity_j_k=0.9 * 30 * 4186.0 + pot.mass_kg * pot.specific_heat_j_kgk,
        net_power_w=stove.power_w * poor,
        loss_w_k=loss_w_k,
        start_c=5.0,
        end_c=100.0,
        air_c=0.0,
    )
    assert stove.start_min + boiled_s / 60 <= 120


def test_only_electricity_and_sun_have_no_flame():
    for stove in SHELF.stoves.values():
        assert stove.flame == (SHELF.fuels[stove.fuel].kind not in {"electricity", "sun"})


def test_only_a_kettle_is_for_water_alone_and_only_a_solar_box_has_a_loss_of_its_own():
    assert [s.name for s in SHELF.stoves.values() if s.water_only] == ["electric_kettle"]
    assert [s.name for s in SHELF.stoves.values() if s.loss_w_k is not None] == ["solar_box"]


def test_fires_of_solid_fuel_are_tended():
    solid = {"wood", "charcoal"}
    for stove in SHELF.stoves.values():
        assert stove.tended == (SHELF.fuels[stove.fuel].kind in solid), stove.name


@pytest.mark.parametrize("fuel", every(SHELF.fuels))
def test_what_has_no_mass_has_no_heating_value(fuel):
    weighed = fuel.kind not in {"electricity", "sun"}
    assert (fuel.lhv_j_kg is not None) == weighed
    assert (fuel.vapour is not None) == (fuel.kind == "gas")


def test_vapours_are_known_to_the_property_library():
    from chemicals import CAS_from_any

    assert CAS_from_any(SHELF.fuels["propane"].vapour) == "74-98-6"
    assert CAS_from_any(SHELF.fuels["butane"].vapour) == "106-97-8"
    assert CAS_from_any(SHELF.fuels["isobutane"].vapour) == "75-28-5"


@pytest.mark.parametrize(
    ("kind", "least"),
    [
        ("fuels", 16),
        ("stoves", 14),
        ("pots", 12),
        ("cookers", 12),
        ("materials", 14),
        ("foods", 45),
        ("dishes", 35),
    ],
)
def test_the_shelf_is_broad(kind, least):
    assert len(getattr(SHELF, kind)) >= least


def test_two_of_the_pots_hold_pressure():
    held = [pot.name for pot in SHELF.pots.values() if pot.gauge_pa]
    assert held == ["pressure_6l", "pressure_4l"]


@pytest.mark.parametrize("pot", every(SHELF.pots))
def test_pot_is_as_large_outside_as_it_holds(pot):
    outside = math.pi / 4 * pot.diameter_m**2 * pot.height_m
    assert pot.volume_m3 < outside < 1.25 * pot.volume_m3


@pytest.mark.parametrize("cooker", every(SHELF.cookers))
def test_cooker_is_packed_or_rated(cooker):
    nest = (
        cooker.material,
        cooker.thickness_m,
        cooker.greatest_pot_diameter_m,
        cooker.greatest_pot_height_m,
    )
    jar = (
        cooker.volume_m3,
        cooker.rated_c,
        cooker.rated_h,
        cooker.rated_start_c,
        cooker.rated_room_c,
    )
    packed = cooker.kind == "packed"
    assert [part is not None for part in nest] == [packed] * 4
    assert [part is not None for part in jar] == [not packed] * 5


@pytest.mark.parametrize("cooker", every(SHELF.cookers))
def test_no_cooker_is_better_than_its_rating_or_packing_allows(cooker):
    # The shelf is for a household that has measured nothing.
    assert cooker.loss_w_k is None
    assert cooker.packing_j_k is None
    assert not cooker.damp
    if cooker.kind == "packed":
        assert cooker.gap > 0


def test_every_pot_of_a_family_goes_into_the_packed_box_and_a_crowds_into_the_carrier():
    for pot in SHELF.pots.values():
        box = SHELF.cookers["packed_box" if pot.volume_m3 <= 10e-3 else "crowd_carrier"]
        assert pot.diameter_m <= box.greatest_pot_diameter_m
        assert pot.height_m <= box.greatest_pot_height_m


@pytest.mark.parametrize("dish", every(SHELF.dishes))
def test_dish_is_served_as_it_says(dish):
    assert (dish.serve_c is not None) == (dish.serve == "at")
    if dish.heat_c is not None:
        assert dish.serve_c < dish.heat_c
        assert not dish.disinfects


@pytest.mark.parametrize("dish", every(SHELF.dishes))
def test_dish_has_water_to_cook_in(dish):
    names = [ingredient.food.name for ingredient in dish.ingredients]
    assert "water" in names


@pytest.mark.parametrize("dish", every(SHELF.dishes))
def test_a_family_of_five_fits_a_pot(dish):
    kg = FAMILY_PORTIONS * sum(ingredient.kg for ingredient in dish.ingredients)
    assert kg / 1000 <= (6e-3 if dish.name in {"washing_water", "drinking_water"} else 4e-3) * 0.96


def test_all_that_is_soaked_is_a_hard_pulse_and_every_phaseolus_dish_is_soaked_long_enough():
    soaked = {food for food in SHELF.foods if food.endswith(("beans", "peas"))}
    soaked -= {"tinned_beans", "split_peas"}
    soaked |= {"chickpeas", "cowpeas"}
    for dish in SHELF.dishes.values():
        foods = {ingredient.food.name for ingredient in dish.ingredients}
        assert bool(dish.soak_min) == bool(foods & soaked), dish.name
        if any(ingredient.food.phaseolus for ingredient in dish.ingredients):
            assert dish.soak_min >= SHELF.rules.bean_soak_min
            assert dish.boil_min >= SHELF.rules.bean_boil_min


def test_food_is_served_hot_and_only_water_otherwise():
    for dish in SHELF.dishes.values():
        only_water = [ingredient.food.name for ingredient in dish.ingredients] == ["water"]
        assert only_water == (dish.serve != "hot"), dish.name


def test_what_blocks_a_vent_foams():
    # Pot-maker instructions: split peas, oatmeal, pasta are not for pressure.
    for name in ("split_pea_soup", "porridge", "pasta_tomato"):
        assert SHELF.dishes[name].foams


def test_cautions_are_those_that_planning_evaluates():
    assert {notice.trigger for notice in SHELF.cautions.values()} == TRIGGERS


@pytest.mark.parametrize("notice", [pytest.param(n, id=n.code) for n in SHELF.cautions.values()])
def test_caution_is_a_few_plain_sentences(notice):
    assert notice.text.endswith(".")
    assert len(notice.text) < 400
    for word in ("guarantee", "is safe", "are safe", "no risk", "completely"):
        assert word not in notice.text.replace("cannot promise that food is safe", "")


def test_general_caution_defers_and_promises_nothing():
    text = SHELF.cautions["makers_word"].text
    for words in ("maker's instructions", "codes", "cannot promise"):
        assert words in text


@pytest.mark.parametrize(
    ("code", "field", "words"),
    [
        ("phaseolus", "bean_boil_min", "at least {:.0f} minutes"),
        ("water_altitude", "water_boil_high_min", "for {:.0f} minutes"),
        ("thermometer", "hot_c", "at least {:.0f} degC"),
        ("reheat", "hot_c", "below {:.0f} degC"),
    ],
)
def test_figures_in_a_caution_are_those_of_the_rules(code, field, words):
    assert words.format(getattr(SHELF.rules, field)) in SHELF.cautions[code].text


def test_rules_are_the_record():
    assert isinstance(SHELF.rules, Rules)
