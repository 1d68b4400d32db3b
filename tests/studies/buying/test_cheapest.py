"""The cheapest basket is the one that trying every basket finds."""

import random
from dataclasses import replace
from functools import partial

import pytest

from optimizer.model.household import Shop
from optimizer.studies.buying.study import what_to_buy

CROWD = (("drinking_water", 1110), ("tea", 460))
SOUP = (("lentil_soup", 1110),)
STEW = (("lentil_stew", 1140), ("porridge", 450))
THIRSTY = (("porridge", 450), ("drinking_water", 1080), ("drinking_water", 1100))


def shops(stall):
    """Shops by what decides in them: a menu, people, sticks in the house."""
    sticks = stall.fuel("sticks", 1.0, 0.6)
    gas = stall.fuel("propane", 2.0, 0.06)
    burner = stall.stove("gas_burner", 3.0)
    kettle = stall.stove("electric_kettle", 1.0)
    return {
        "sticks only": (Shop(fuels=(sticks,)), {}),
        "small bundles": (Shop(fuels=(stall.fuel("sticks", 0.5, 0.25),)), {}),
        "nothing needed": (Shop(fuels=(sticks,)), {"sticks_kg": 8.0}),
        "gas cheaper": (
            Shop(fuels=(stall.fuel("sticks", 9.0, 0.6), gas), things=(burner,)),
            {},
        ),
        "stove too dear": (
            Shop(fuels=(sticks, gas), things=(replace(burner, price=50.0),)),
            {},
        ),
        "box cheaper than fuel": (
            Shop(fuels=(stall.fuel("sticks", 5.0, 0.3),), things=(stall.box(1.0),)),
            {"menu": STEW, "sticks_kg": 0.8},
        ),
        "limit on sticks": (
            Shop(fuels=(stall.fuel("sticks", 1.0, 0.2, limit=0.65), gas), things=(burner,)),
            {},
        ),
        "larger pot": (
            Shop(fuels=(stall.fuel("sticks", 2.0, 0.5),), things=(stall.pot("pot_8l", 1.0),)),
            {"menu": SOUP, "people": 5},
        ),
        "larger pot too dear": (
            Shop(fuels=(stall.fuel("sticks", 2.0, 0.5),), things=(stall.pot("pot_8l", 30.0),)),
            {"menu": CROWD, "people": 4},
        ),
        "bottled water": (
            Shop(fuels=(stall.fuel("sticks", 3.0, 0.5),), water=(stall.bottles(1.0, 2.0),)),
            {"menu": THIRSTY, "sticks_kg": 0.9},
        ),
        "bottled water too dear": (
            Shop(fuels=(stall.fuel("sticks", 1.0, 0.5),), water=(stall.bottles(4.0, 2.0),)),
            {"menu": THIRSTY, "sticks_kg": 0.9},
        ),
        "nothing will do": (Shop(things=(stall.box(1.0),)), {}),
        "a fuel that no stove burns": (Shop(fuels=(gas,)), {}),
        "a stove without fuel": (Shop(things=(kettle,)), {}),
    }


NAMES = [
    "sticks only", "small bundles", "nothing needed", "gas cheaper", "stove too dear",
    "box cheaper than fuel", "limit on sticks", "larger pot", "larger pot too dear",
    "bottled water", "bottled water too dear", "nothing will do", "a fuel that no stove burns",
    "a stove without fuel",
]  # fmt: skip


def test_every_shop_is_tried(stall):
    assert list(shops(stall)) == NAMES


@pytest.mark.parametrize("name", NAMES)
def test_no_basket_is_cheaper(name, small, stall, least_cost):
    shop, other = shops(stall)[name]
    scenario = small(shop, **other)
    found = what_to_buy(scenario, 1, gap=0.0, savings=False)
    least = least_cost(scenario)
    assert (found.cost is None) == (least is None)
    if least is not None:
        assert found.cost == pytest.approx(least)
        assert found.bound is not None
        assert found.bound <= least + 1e-6
        assert found.cost == pytest.approx(sum(each.cost for each in found.bought))


@pytest.mark.parametrize("seed", range(25))
def test_no_basket_of_a_random_shop_is_cheaper(seed, small, stall, least_cost):
    chance = random.Random(seed)
    price = partial(chance.uniform, 0.5, 5.0)
    shop = Shop(
        fuels=(
            stall.fuel("sticks", price(), chance.choice((0.15, 0.3, 0.5)), limit=1.6),
            stall.fuel("propane", price(), chance.choice((0.02, 0.05)), limit=0.1),
        ),
        things=(stall.stove("gas_burner", price()), stall.box(price())),
        water=(stall.bottles(price(), chance.choice((2.0, 3.0)), most=2),),
    )
    menu = chance.choice((THIRSTY, STEW, (*STEW, THIRSTY[1])))
    scenario = small(shop, menu=menu, sticks_kg=chance.uniform(0.0, 0.8))
    found = what_to_buy(scenario, 1, gap=0.0, savings=False)
    least = least_cost(scenario, most=10)
    assert found.cost == (None if least is None else pytest.approx(least))
    assert found.known


@pytest.mark.parametrize("seed", range(15))
def test_no_basket_is_cheaper_where_pots_change_how_many_are_needed(seed, small, stall, least_cost):
    chance = random.Random(seed)
    price = partial(chance.uniform, 0.5, 5.0)
    shop = Shop(
        fuels=(stall.fuel("sticks", price(), chance.choice((0.15, 0.3))),),
        things=(stall.pot("pot_6l", price()), stall.pot("pot_4l", price()), stall.box(price())),
        water=(stall.bottles(price(), 4.0, most=2),),
    )
    menu = chance.choice((CROWD, (*CROWD, SOUP[0]), SOUP))
    people = chance.choice((3, 4, 5))
    scenario = small(shop, menu=menu, people=people, sticks_kg=chance.uniform(0.2, 0.9))
    found = what_to_buy(scenario, 1, gap=0.0, savings=False)
    least = least_cost(scenario, most=8)
    assert found.cost == (None if least is None else pytest.approx(least))


@pytest.mark.parametrize("name", ["sticks only", "gas cheaper", "bottled water"])
def test_the_same_over_two_days(name, small, stall, least_cost):
    shop, other = shops(stall)[name]
    found = what_to_buy(small(shop, **other), 2, gap=0.0, savings=False)
    assert found.cost == pytest.approx(least_cost(small(shop, days=2, **other), most=6))


@pytest.mark.parametrize("name", ["gas cheaper", "box cheaper than fuel", "bottled water"])
def test_doing_without_a_thing_is_solved_again(name, small, stall, least_cost):
    shop, other = shops(stall)[name]
    scenario = small(shop, **other)
    found = what_to_buy(scenario, 1, gap=0.0)
    assert found.bought
    for each in found.bought:
        left = Shop(
            tuple(f for f in shop.fuels if f.store.fuel.name != each.offer.name),
            tuple(t for t in shop.things if t is not each.offer.source),
            tuple(w for w in shop.water if w is not each.offer.source),
        )
        without = least_cost(replace(scenario, shop=left))
        if each.without_known:
            assert each.without == (None if without is None else pytest.approx(without))
        elif without is not None:
            assert each.without is not None
            assert each.without <= without + 1e-6
