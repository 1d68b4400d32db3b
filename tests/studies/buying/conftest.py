"""Tiny households with tiny shops, and an exhaustive search over all that could be bought."""

import itertools
import math
from collections.abc import Callable
from dataclasses import replace
from statistics import NormalDist

import pytest

from optimizer import shelf
from optimizer.model.household import (
    DAY_MIN,
    FuelOffer,
    Item,
    OwnCooker,
    OwnPot,
    OwnStove,
    Place,
    Scenario,
    Shop,
    Store,
    ThingOffer,
    WaterOffer,
    Weather,
    Window,
)
from optimizer.planning.kitchen import choices, kitchen_of
from optimizer.planning.schedule import schedule
from optimizer.studies.buying.offers import cost_of, offers_of, with_bought

THINGS = shelf.load()
MENU = (("porridge", 450), ("lentil_soup", 1110))


def store(fuel: str, kg: float) -> Store:
    return Store(THINGS.fuels[fuel], kg, None, 0.5, None, None, 0.0)


def fuel(name: str, price: float, package: float, limit: float | None = None) -> FuelOffer:
    return FuelOffer(store(name, 0.0), price, package, limit)


def box(price: float, most: int = 1) -> ThingOffer:
    return ThingOffer(OwnCooker(THINGS.cookers["packed_box"], most), price)


def pot(name: str, price: float, most: int = 1) -> ThingOffer:
    return ThingOffer(OwnPot(THINGS.pots[name], most), price)


def stove(name: str, price: float) -> ThingOffer:
    return ThingOffer(OwnStove(THINGS.stoves[name], 1, "outdoors"), price)


def bottles(price: float, litres: float, most: int = 20) -> WaterOffer:
    return WaterOffer("bottled", price, litres, most)


def small(
    shop: Shop | None, menu=MENU, sticks_kg=0.4, people=2, pots=("pot_2_5l",), days=1, **other
) -> Scenario:
    """Some people with a stick stove and two pots; the menu on every day."""
    items = [
        Item(0, day + 1, "meal", THINGS.dishes[dish], people, 0, day * DAY_MIN + at)
        for day in range(days)
        for dish, at in menu
    ]
    made = Scenario(
        title="Trial at Hazel Row",
        adults=people,
        children=0,
        place=Place(100.0, 16.0, 10.0, 10.0),
        weather=(Weather(10.0, 0.0, rain=False, wet_sticks=False),) * days,
        start=None,
        currency="EUR",
        days=days,
        windows=tuple(
            Window(day * DAY_MIN + 60 * a, day * DAY_MIN + 60 * b)
            for day in range(days)
            for a, b in ((6, 8), (17, 19))
        ),
        cooks=1,
        stores=(store("sticks", sticks_kg),),
        stoves=(OwnStove(THINGS.stoves["stick_stove"], 1, "outdoors"),),
        pots=tuple(OwnPot(THINGS.pots[name], 2) for name in pots),
        cookers=(),
        items=tuple(replace(item, number=number) for number, item in enumerate(items)),
        goals=("money",),
        confidence=0.9,
        rules=THINGS.rules,
        shop=shop,
    )
    return replace(made, **other)


def carried(scenario: Scenario) -> bool:
    """Search all of it at once, with fuel at the margin, to the end."""
    z = NormalDist().inv_cdf(scenario.confidence)
    more = {
        own.stove.name: math.exp(
            z
            * math.sqrt(
                own.stove.efficiency_spread**2 + THINGS.fuels[own.stove.fuel].lhv_spread ** 2
            )
        )
        for own in scenario.stoves
    }
    columns = [replace(c, fuel_j=c.fuel_j * more[c.stove]) for c in choices(scenario).columns]
    kitchen = kitchen_of(scenario)
    if {column.item for column in columns} != set(kitchen.items):
        return False
    lit = {
        name: replace(each, start_j=each.start_j * more[name], idle_w=each.idle_w * more[name])
        for name, each in kitchen.lightings.items()
    }
    found = schedule(
        columns, replace(kitchen, lightings=lit), goals=("energy",), gap=0.9, time_limit_s=60
    )
    assert found.status in ("optimal", "within_gap", "infeasible")
    return bool(found.chosen)


def least_cost(scenario: Scenario, most: int = 4) -> float | None:
    """Try every basket and every set of drinking waters that it can stand for, cheapest first."""
    offers = offers_of(scenario)
    counts = [range(min(offer.most, most) + 1) for offer in offers]
    baskets = sorted(itertools.product(*counts), key=lambda basket: cost_of(offers, basket))
    waters = [i for i in scenario.items if i.dish.disinfects and i.dish.serve == "any"]
    for basket in baskets:
        got = sum(n * o.amount for o, n in zip(offers, basket, strict=True) if o.kind == "water")
        bought = with_bought(scenario, offers, basket)
        for size in range(len(waters) + 1):
            for left_out in itertools.combinations(waters, size):
                if sum(item.adult_portions for item in left_out) > got + 1e-9:
                    continue  # a portion is a litre
                items = [item for item in scenario.items if item not in left_out]
                numbered = tuple(replace(item, number=n) for n, item in enumerate(items))
                if carried(replace(bought, items=numbered)):
                    return cost_of(offers, basket)
    return None


@pytest.fixture(name="small", scope="session")
def _small() -> Callable[..., Scenario]:
    return small


@pytest.fixture(name="least_cost", scope="session")
def _least_cost() -> Callable[..., float | None]:
    return least_cost


class Stall:
    """What shops are made of."""

    fuel, box, pot, stove, bottles = map(staticmethod, (fuel, box, pot, stove, bottles))


@pytest.fixture(name="stall", scope="session")
def _stall() -> type[Stall]:
    return Stall
