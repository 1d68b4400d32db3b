"""Invented households of any kind with one dish, and a plan of one way to cook it."""

import random
from collections.abc import Callable
from dataclasses import replace
from functools import lru_cache

import pytest

from optimizer import shelf
from optimizer.model.household import (
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
from optimizer.model.plan import Plan
from optimizer.planning.columns import Column
from optimizer.planning.kitchen import Choices, choices, kitchen_of
from optimizer.planning.planner import as_plan, plan
from optimizer.planning.result import Result
from optimizer.scenario.reading import read

THINGS = shelf.load()
BURNING = sorted(name for name, each in THINGS.stoves.items() if each.fuel != "sun")
POTS = ("pot_2_5l", "pot_4l", "pot_6l", "pressure_6l")


def any_household(seed: int) -> Scenario:
    """One dish for some people, four stoves, four cookers, any weather."""
    draw = random.Random(seed)
    stoves = draw.sample(BURNING, 4)
    return Scenario(
        title="Trial at Sorrel Row",
        adults=2,
        children=0,
        place=Place(
            draw.choice((0.0, 320.0, 1500.0)), draw.uniform(5, 25), 8.0, draw.uniform(4, 20)
        ),
        weather=(
            Weather(
                outdoors_c=draw.uniform(-10, 25),
                wind_m_s=draw.choice((0.0, 1.0, 2.0, 4.0)),
                rain=draw.random() < 0.2,
                wet_sticks=draw.random() < 0.3,
            ),
        ),
        start=None,
        currency="EUR",
        days=1,
        windows=(Window(360, 1200),),
        cooks=1,
        stores=tuple(
            Store(THINGS.fuels[name], None, None, 1.0, None, None, 0.0)
            for name in sorted({THINGS.stoves[stove].fuel for stove in stoves})
        ),
        stoves=tuple(
            OwnStove(THINGS.stoves[name], 1, draw.choice(("outdoors", "vented hob")))
            for name in stoves
        ),
        pots=tuple(OwnPot(THINGS.pots[name], 2) for name in POTS),
        cookers=tuple(
            OwnCooker(THINGS.cookers[name], 1) for name in draw.sample(sorted(THINGS.cookers), 4)
        ),
        items=(
            Item(
                number=0,
                day=1,
                meal="supper",
                dish=THINGS.dishes[draw.choice(sorted(THINGS.dishes))],
                adults=draw.choice((1, 2, 4)),
                children=draw.choice((0, 2)),
                serve_min=60 * draw.choice((13, 18, 19)),
            ),
        ),
        goals=("energy",),
        confidence=draw.choice((0.8, 0.9, 0.95)),
        rules=THINGS.rules,
    )


def plan_of(chosen: tuple[Column, ...], scenario: Scenario, options: Choices) -> Plan:
    """A plan made of columns, without a search."""
    found = Result("within_gap", chosen, None, None, None, 0.0, ())
    return as_plan(scenario, options, kitchen_of(scenario), found)


def plans_of(scenario: Scenario, seed: int, most: int) -> list[Plan]:
    """Ways of cooking the one dish there is, each a plan of its own, drawn from all there are."""
    options = choices(scenario)
    columns = list(options.columns)
    drawn = random.Random(seed).sample(columns, min(most, len(columns)))
    return [plan_of((column,), scenario, options) for column in drawn]


@lru_cache
def demo() -> tuple[Scenario, Plan]:
    """The weekend that is shipped, planned."""
    scenario = read(shelf.data_folder() / "scenarios" / "outage_weekend.yaml")
    return scenario, plan(scenario, gap=0.05)


@pytest.fixture(name="any_household", scope="session")
def _any_household() -> Callable[[int], Scenario]:
    return any_household


@pytest.fixture(name="plans_of", scope="session")
def _plans_of() -> Callable[[Scenario, int, int], list[Plan]]:
    return plans_of


@pytest.fixture(name="demo", scope="session")
def _demo() -> tuple[Scenario, Plan]:
    return demo()


@pytest.fixture(name="boiled_again", scope="session")
def _boiled_again() -> tuple[Scenario, Plan]:
    """A soup from the morning for lunch, boiled again in between."""
    house = any_household(0)
    scenario = replace(
        house,
        place=Place(0.0, 12.0, 8.0, 12.0),
        weather=(Weather(8.0, 0.0, rain=False, wet_sticks=False),),
        stoves=(OwnStove(THINGS.stoves["gas_burner"], 1, "outdoors"),),
        stores=(Store(THINGS.fuels["propane"], None, None, 1.0, None, None, 0.0),),
        windows=(Window(360, 420), Window(720, 780)),
        cookers=(OwnCooker(THINGS.cookers["cushion_basket"], 1),),
        cold=(Cold("ice box", 0, 1440),),
        items=(
            replace(
                house.items[0],
                dish=THINGS.dishes["chicken_soup"],
                adults=4,
                children=2,
                serve_min=780,
            ),
        ),
    )
    options = choices(scenario)
    again = next(column for column in options.columns if len(column.burns) > 1)
    return scenario, plan_of((again,), scenario, options)
