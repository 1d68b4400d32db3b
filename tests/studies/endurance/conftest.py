"""Tiny households whose days can be counted by hand."""

from collections.abc import Callable
from dataclasses import replace
from functools import lru_cache

import pytest

from optimizer import shelf
from optimizer.model.household import (
    DAY_MIN,
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
from optimizer.planning.kitchen import choices, kitchen_of
from optimizer.planning.schedule import schedule
from optimizer.scenario.reading import read

MENU = (("porridge", 450), ("lentil_soup", 1110))
THINGS = shelf.load()


def small(menu=MENU, days=1, gas_kg=None, sticks_kg=3.0, **other) -> Scenario:
    """Two people, a stick stove, perhaps a gas burner, a box; the menu on every day."""
    items = [
        Item(0, day + 1, "meal", THINGS.dishes[dish], 2, 0, day * DAY_MIN + at)
        for day in range(days)
        for dish, at in menu
    ]
    stores = [Store(THINGS.fuels["sticks"], sticks_kg, None, 0.5, None, 1.0, 0.0)]
    stoves = [OwnStove(THINGS.stoves["stick_stove"], 1, "outdoors")]
    if gas_kg is not None:
        stores.append(Store(THINGS.fuels["propane"], gas_kg, None, 20.0, None, 0.465, 0.0))
        stoves.append(OwnStove(THINGS.stoves["gas_burner"], 1, "outdoors"))
    made = Scenario(
        title="Trial at Hazel Row",
        adults=2,
        children=0,
        place=Place(100.0, 16.0, 10.0, 10.0),
        weather=(Weather(10.0, 0.0, rain=False, wet_sticks=False),) * days,
        start=None,
        currency="EUR",
        days=days,
        windows=tuple(
            Window(day * DAY_MIN + 60 * a, day * DAY_MIN + 60 * b)
            for day in range(days)
            for a, b in ((6, 8), (16, 19))
        ),
        cooks=1,
        stores=tuple(stores),
        stoves=tuple(stoves),
        pots=(OwnPot(THINGS.pots["pot_2_5l"], 2),),
        cookers=(OwnCooker(THINGS.cookers["packed_box"], 1),),
        items=tuple(replace(item, number=number) for number, item in enumerate(items)),
        goals=("money",),
        confidence=0.9,
        rules=THINGS.rules,
    )
    return replace(made, **other)


def with_stock(scenario: Scenario, reserve: float = 0.0, **kg: float) -> Scenario:
    stores = (
        replace(s, stock_kg=kg.get(s.fuel.name, s.stock_kg), reserve=reserve)
        for s in scenario.stores
    )
    return replace(scenario, stores=tuple(stores))


@lru_cache
def of_one_day(scenario: Scenario) -> float:
    """Least kilograms of sticks that one day takes, where there is nothing else to burn."""
    free = replace(scenario, stores=(replace(scenario.stores[0], stock_kg=None),))
    found = schedule(choices(free).columns, kitchen_of(free), goals=("energy",), gap=1e-6)
    assert found.status == "optimal"
    heat = THINGS.fuels["sticks"]
    from optimizer.planning.stock import joules_per_kg

    return found.value / joules_per_kg(heat)


@pytest.fixture(name="small", scope="session")
def _small() -> Callable[..., Scenario]:
    return small


@pytest.fixture(name="with_stock", scope="session")
def _with_stock() -> Callable[..., Scenario]:
    return with_stock


@pytest.fixture(name="day_kg", scope="session")
def _day_kg() -> float:
    return of_one_day(small())


@pytest.fixture(name="demo", scope="session")
def _demo() -> Scenario:
    return read(shelf.data_folder() / "scenarios" / "outage_weekend.yaml")
