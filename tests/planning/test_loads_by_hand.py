"""What goes into the pot, of foods that are all as heavy and as slow to warm as water."""

from dataclasses import replace

import pytest

from optimizer import shelf
from optimizer.model.household import Carrying, Drawing, Item, Place, Steep
from optimizer.model.plan import Amount
from optimizer.model.things import Ingredient
from optimizer.planning.contents import (
    draws_of,
    fill,
    goes_into,
    heat_of,
    load,
    load_of,
    most_fill,
    pots_needed,
    poured_on,
    room_in,
    through_min,
)
from optimizer.planning.drawing import Draw

THINGS = shelf.load()
WATER = THINGS.foods["water"]
PIECES = replace(WATER, name="pieces", label="pieces", shape="sphere", half_size_m=0.01)
MILK = replace(WATER, name="milk", label="milk")
PLACE = Place(0.0, 20.0, 5.0, 10.0)
RULES = replace(THINGS.rules, fill_most=0.5, fill_pressure=0.4, fill_pressure_swelling=0.25)
LITRE = 1 / load_of(THINGS.dishes["drinking_water"], 1.0, PLACE).volume_m3 / 1000  # kg


def dish(*parts, **other):
    """A stew of so many kilograms of each food for one."""
    ingredients = tuple(Ingredient(food, kg) for food, kg in parts)
    return replace(THINGS.dishes["potatoes"], ingredients=ingredients, label="stew", **other)


def item(of, portions=1.0, **other):
    return Item(0, 1, "supper", of, portions, 0, 1140, **other)


def test_a_load_is_the_sum_of_its_parts():
    made = load_of(dish((WATER, 0.2), (PIECES, 0.5), (MILK, 0.3)), 2.0, PLACE)
    assert made.amounts == (Amount("pieces", 1.0), Amount("milk", 0.6))
    assert (made.mass_kg, made.water_kg) == pytest.approx((2.0, 0.4))
    assert made.volume_m3 == pytest.approx(2.0 * LITRE**-1 / 1000)
    assert made.heat_j_k == pytest.approx(2.0 * heat_of(WATER))
    assert made.piece_share == pytest.approx(0.5)  # milk is no piece
    assert made.start_c == pytest.approx(0.2 * 10 + 0.8 * 20)  # only water is from the tap
    assert (made.adult_portions, made.carried_min, made.draws) == (2.0, 0, ())


@pytest.mark.parametrize(
    ("ends", "most"), [((None, None), None), ((63.0, None), 63.0), ((63.0, 74.0), 74.0)]
)
def test_the_hottest_endpoint_counts(ends, most):
    parts = [(replace(PIECES, name=str(n), endpoint_c=end), 0.1) for n, end in enumerate(ends)]
    assert load_of(dish(*parts, (WATER, 0.1)), 1.0, PLACE).endpoint_c == most


def test_one_part_makes_a_dish_frozen_or_one_of_beans():
    plain = load_of(dish((PIECES, 0.1), (WATER, 0.1)), 1.0, PLACE)
    assert (plain.frozen, plain.phaseolus) == (False, False)
    for name in ("frozen", "phaseolus"):
        made = load_of(dish((replace(PIECES, **{name: True}), 0.1), (WATER, 0.1)), 1.0, PLACE)
        assert getattr(made, name) is True


@pytest.mark.parametrize(
    ("parts", "label", "swells"),
    [
        (((WATER, 0.5), (PIECES, 0.5)), "stew", False),  # no more than half of it
        (((WATER, 0.8), (PIECES, 1.2)), "stew", False),
        (((WATER, 0.2), (PIECES, 0.1)), "stew", True),
        (((WATER, 0.3), (MILK, 0.21), (PIECES, 0.49)), "stew", True),
        (((WATER, 0.1), (PIECES, 0.9)), "Thick Soup", True),
        (((replace(PIECES, water=0.2, carbohydrate=0.8), 0.5),), "stew", False),
        (((replace(PIECES, water=0.19, carbohydrate=0.81), 0.5),), "stew", True),
        (
            ((replace(MILK, water=0.0, fat=1.0), 0.1), (PIECES, 0.9)),
            "stew",
            False,
        ),  # oil is dry, but runs
    ],
)
def test_what_swells(parts, label, swells):
    made = replace(dish(*parts), label=label)
    assert load_of(made, 1.0, PLACE).swelling is swells


def test_water_is_poured_on_the_rest_in_proportion():
    made = dish((WATER, 0.2), (WATER, 0.2), (PIECES, 0.1), (MILK, 0.04))
    assert poured_on(made, 1.0) == (
        Amount("pieces", pytest.approx(0.25)),
        Amount("milk", pytest.approx(0.1)),
    )


def test_an_item_is_shared_among_its_pots():
    made = load(item(dish((WATER, 1.0)), 6.0), PLACE, 3)
    assert made.adult_portions == 2.0
    assert load(item(dish((WATER, 1.0)), 6.0), PLACE).adult_portions == 6.0


def test_draws_and_the_way_belong_to_a_load():
    tea = Steep(THINGS.dishes["tea"], 2.0, THINGS.cookers["jar_1l"], 30)
    drawn = Drawing(60, 0.4, need_c=80.0), Drawing(0, 0.6, steep=tea)
    of = item(dish((WATER, 1.0)), drawn=drawn)
    assert draws_of(of) == (Draw(60, 0.4, 80.0), Draw(0, 0.6, None, tea))
    assert load(of, PLACE).draws == draws_of(of)


@pytest.mark.parametrize(("serve", "minutes"), [("hot", 25), ("at", 25), ("any", 0)])
def test_what_is_eaten_cold_need_not_be_kept_hot_on_its_way(serve, minutes):
    of = item(dish((WATER, 1.0), serve=serve), carried=Carrying(25, 60, "Mill Lane"))
    assert load(of, PLACE).carried_min == minutes


def pot(litres, **other):
    return replace(THINGS.pots["pot_4l"], volume_m3=litres / 1000, **other)


def test_a_pot_is_filled_as_far_as_its_kind_and_the_dish_allow():
    still = load_of(dish((WATER, 0.2), (PIECES, 0.8)), 1.0, PLACE)
    soup = load_of(dish((WATER, 0.8), (PIECES, 0.2)), 1.0, PLACE)
    plain, pressure = pot(4), replace(pot(4), gauge_pa=8e4)
    fills = [most_fill(made, each, RULES) for made in (still, soup) for each in (plain, pressure)]
    assert fills == [0.5, 0.4, 0.5, 0.25]
    assert fill(still, plain) == pytest.approx(LITRE**-1 / 4)


@pytest.mark.parametrize(
    ("litres", "pots", "needed"),
    [
        (1.9, (4,), 1),
        (2.0, (4,), 1),  # half of 4 L, just so
        (2.1, (4,), 2),
        (2.1, (4, 6), 1),  # the largest counts
        (9.1, (4, 6), 4),
        (2.1, (), 1),  # no pot at all is told elsewhere
    ],
)
def test_as_few_pots_as_the_volume_allows(litres, pots, needed):
    of = item(dish((PIECES, LITRE)), litres)
    assert pots_needed(of, PLACE, RULES, [pot(each) for each in pots]) == needed


def test_what_is_carried_has_to_go_into_what_it_is_carried_in():
    of = item(dish((PIECES, LITRE)), 3.0, carried=Carrying(25, 60, "Mill Lane"))
    jar = replace(THINGS.cookers["jar_1l"], volume_m3=0.75e-3, portable=True)
    assert pots_needed(of, PLACE, RULES, [pot(8)]) == 1  # nothing to carry it in: told elsewhere
    assert pots_needed(of, PLACE, RULES, [pot(8)], [jar]) == 4
    fixed = replace(jar, volume_m3=3e-3, portable=False)
    assert pots_needed(of, PLACE, RULES, [pot(8)], [jar, fixed]) == 4
    assert pots_needed(of, PLACE, RULES, [pot(4)], [replace(fixed, portable=True)]) == 2
    box = replace(THINGS.cookers["packed_box"], greatest_pot_diameter_m=0.2, portable=True)
    slim, wide = pot(2, diameter_m=0.2), pot(8, diameter_m=0.3)  # the larger one does not go in
    assert pots_needed(of, PLACE, RULES, [slim, wide], [box]) == 3
    here = replace(of, carried=None)
    assert pots_needed(here, PLACE, RULES, [pot(8)], [jar]) == 1


@pytest.mark.parametrize(
    ("wide", "high", "goes"),
    [
        (None, None, True),
        (0.2, 0.1, True),
        (0.19, 0.1, False),
        (0.2, 0.09, False),
        (None, 0.09, False),
        (0.19, None, False),
    ],
)
def test_a_pot_goes_into_a_cooker_as_wide_and_high_as_it_is(wide, high, goes):
    box = replace(
        THINGS.cookers["packed_box"], greatest_pot_diameter_m=wide, greatest_pot_height_m=high
    )
    small = pot(4, diameter_m=0.2, height_m=0.1)
    assert goes_into(small, box) is goes
    assert room_in(small, [box]) == (4e-3 if goes else 0.0)
    jar = replace(THINGS.cookers["jar_2l"], volume_m3=2e-3)
    assert room_in(small, [jar, box]) == (4e-3 if goes else 2e-3)
    assert room_in(small, []) == 0


def test_the_slowest_piece_counts_and_never_a_liquid():
    thick = replace(PIECES, name="thick", half_size_m=0.02)
    both = dish((PIECES, 0.1), (thick, 0.1), (replace(MILK, half_size_m=0.1), 0.1))
    alone = dish((PIECES, 0.1))
    # twice as thick, four times as long
    assert through_min(both, RULES, 0.0) == pytest.approx(4 * through_min(alone, RULES, 0.0))
    assert through_min(dish((MILK, 0.1)), RULES, 0.0) == 0
