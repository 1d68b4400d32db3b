"""Whatever the household, every way the planner offers and every plan it makes passes."""

import random
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from optimizer import shelf
from optimizer.model.eaters import Carrying
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
from optimizer.planning.verify import verify

THINGS = shelf.load()
MEALS = (("breakfast", 8), ("lunch", 13), ("supper", 19))
HOURS = ((6, 9), (11, 14), (16, 20))
SOLO = 12  # ways tried alone in each household


def weather(draw: random.Random) -> Weather:
    return Weather(
        outdoors_c=draw.uniform(-15, 25),
        wind_m_s=draw.choice((0.0, 2.0, 5.0, 8.0)),
        rain=draw.random() < 0.3,
        wet_sticks=draw.random() < 0.3,
    )


def store(name: str, draw: random.Random) -> Store:
    fuel = THINGS.fuels[name]
    reserve = draw.choice((0.0, 0.1, 0.2))
    if fuel.lhv_j_kg is None:
        return Store(fuel, None, 200e6, None, 1e-7, None, reserve)
    return Store(fuel, draw.choice((None, 8.0, 50.0)), None, 2.0, None, None, reserve)


def cooker(name: str, draw: random.Random) -> OwnCooker:
    thing = THINGS.cookers[name]
    mine = replace(thing, damp=draw.random() < 0.2, preheated=draw.random() < 0.5)
    return OwnCooker(mine, draw.choice((1, 2)), thing.kind == "packed" and draw.random() < 0.3)


def stove(name: str, draw: random.Random) -> OwnStove:
    mine = replace(THINGS.stoves[name], places=draw.choice((1, 1, 2)))
    return OwnStove(mine, draw.choice((1, 2)), draw.choice(("outdoors", "vented hob")))


def windows(days: int, draw: random.Random) -> tuple[Window, ...]:
    return tuple(
        Window(day * DAY_MIN + 60 * a + draw.choice((0, 0, 7)), day * DAY_MIN + 60 * b)
        for day in range(days)
        for a, b in sorted(draw.sample(HOURS, draw.choice((2, 3))))
    )


def item(number: int, days: int, draw: random.Random) -> Item:
    day, (meal, hour) = draw.randrange(days), draw.choice(MEALS)
    return Item(
        number=number,
        day=day + 1,
        meal=meal,
        dish=THINGS.dishes[draw.choice(sorted(THINGS.dishes))],
        adults=draw.choice((1, 2, 4)),
        children=draw.choice((0, 2)),
        serve_min=day * DAY_MIN + 60 * hour + draw.choice((0, 15, 30, 33)),
    )


def any_household(draw: random.Random) -> Scenario:
    days = draw.choice((1, 2, 3))
    stoves = tuple(stove(n, draw) for n in draw.sample(sorted(THINGS.stoves), draw.choice((1, 2))))
    fuels = sorted({own.stove.fuel for own in stoves})
    return Scenario(
        title="Any household",
        adults=4,
        children=2,
        place=Place(
            altitude_m=draw.choice((0.0, 200.0, 900.0, 1600.0, 2600.0)),
            kitchen_c=draw.uniform(8, 24),
            outdoors_c=10.0,
            water_c=draw.uniform(5, 18),
        ),
        weather=tuple(weather(draw) for _ in range(days)),
        start=None,
        currency="EUR",
        days=days,
        windows=windows(days, draw),
        cooks=draw.choice((1, 2)),
        stores=tuple(store(name, draw) for name in fuels),
        stoves=stoves,
        pots=tuple(
            OwnPot(THINGS.pots[name], draw.choice((1, 2)))
            for name in draw.sample(sorted(THINGS.pots), draw.choice((2, 4)))
        ),
        cookers=tuple(
            cooker(name, draw) for name in draw.sample(sorted(THINGS.cookers), draw.randrange(4))
        ),
        items=tuple(item(number, days, draw) for number in range(draw.choice((1, 3, 5)))),
        goals=(draw.choice(("money", "energy", "tending", fuels[0])),),
        confidence=draw.choice((0.5, 0.9, 0.95)),
        rules=THINGS.rules,
    )


SLOW = settings(
    max_examples=25,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.function_scoped_fixture],
)


@SLOW
@given(seed=st.integers(0, 10**6))
def test_every_plan_passes(told, seed):
    scenario = any_household(random.Random(seed))
    made = schedule(
        choices(scenario).columns,
        kitchen_of(scenario),
        goals=scenario.goals,
        gap=0.05,
        time_limit_s=5,
    )
    if made.chosen:
        verify(told(made.chosen, scenario), scenario)


@SLOW
@given(seed=st.integers(0, 10**6))
def test_every_way_passes_alone(told, seed):
    draw = random.Random(seed)
    ways_pass_alone(told, any_household(draw), draw)


@settings(SLOW, max_examples=10)
@given(seed=st.integers(0, 10**6))
def test_every_way_of_what_is_carried_passes_alone(told, seed):
    draw = random.Random(seed)
    scenario = any_household(draw)
    cookers = tuple(
        replace(own, cooker=replace(own.cooker, portable=True)) for own in scenario.cookers
    )
    carried = [Carrying(draw.choice((5, 20, 47)), 60) for _ in scenario.items]
    items = tuple(replace(i, carried=c) for i, c in zip(scenario.items, carried, strict=True))
    ways_pass_alone(told, replace(scenario, cookers=cookers, items=items), draw)


def ways_pass_alone(told, scenario, draw):
    """Check a plan of each of some ways, with as much of everything as that one takes."""
    columns, kitchen = choices(scenario).columns, kitchen_of(scenario)
    endless = tuple(replace(s, stock_kg=None, stock_j=None) for s in scenario.stores)
    for column in draw.sample(columns, min(SOLO, len(columns))):
        alone = replace(scenario, items=(scenario.items[column.item],), stores=endless)
        pots = kitchen.pots_of(column.item)
        many = {
            "stoves": tuple(replace(own, count=own.count * pots) for own in scenario.stoves),
            "pots": tuple(replace(own, count=own.count * pots) for own in scenario.pots),
            "cookers": tuple(replace(own, count=own.count * pots) for own in scenario.cookers),
            "cooks": scenario.cooks * pots,
        }
        alone = replace(alone, **many)
        verify(told((column,) * pots, alone), alone)


@pytest.mark.parametrize(
    ("finish", "pressure"),
    [
        ("flame", False),
        ("flame", True),
        ("packed", False),
        ("packed", True),
        ("vacuum", False),
        ("vacuum", True),
        ("boiled_again", False),
    ],
)
def test_these_households_have_every_kind_of_way(finish, pressure):
    for seed in range(200):
        for column in choices(any_household(random.Random(seed))).columns:
            way = column.way.way
            kind = "boiled_again" if column.way.reboil else way.finish
            if kind == finish and (way.pot.gauge_pa > 0) == pressure:
                return
    pytest.fail("no such way in 200 households")
