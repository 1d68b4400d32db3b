"""Shares of households, against sums made by hand, and over random households."""

import random
from dataclasses import replace
from itertools import pairwise

import pytest

from optimizer.model.eaters import Brought, Group, Helping, House
from optimizer.model.plan import Fire, FuelUse, Goal, Plan
from optimizer.planning.planner import plan
from optimizer.scenario.reading import parse, read
from optimizer.shelf import data_folder
from optimizer.studies.households import apportioned, portions_of, shares, with_households

TWO = """\
title: One supper for two houses
people: {adults: 3, children: 2}
households:
  mill: {adults: 2, brings: {sticks: 1 kg}}
  weir: {adults: 1, children: 2, brings: {sticks: 3 kg}}
days: 1
place: {altitude: 100 m, kitchen: 15 degC, outdoors: 10 degC, water: 10 degC}
cook_hours: ["15:00-19:00"]
fuels:
  sticks: {stock: 5 kg, price: 0.50 EUR / kg}
stoves: {stick_stove: 1}
pots: {pot_4l: 2}
cookers: {packed_box: 1}
dishes:
  stew: {like: lentil_stew, child_share: 0.5}
menu:
  - {meal: supper, at: "18:30", dishes: [stew, {dish: rice, for: mill}]}
"""


@pytest.fixture(scope="module")
def two():
    """A plan of two pots on one fire, its figures set by hand."""
    scenario = parse(TWO)
    made = plan(scenario)
    stew = next(step for step in made.steps if step.number == 0)
    rice = replace(next(step for step in made.steps if step.number == 1), stove=stew.stove)
    steps = (
        replace(stew, on=950, off=980, fuel_mj=20.0, fuel="sticks"),
        replace(rice, on=980, off=1000, fuel_mj=10.0, fuel="sticks"),
    )
    return scenario, Plan(
        title="by hand",
        start=None,
        status="optimal",
        gap=0.0,
        goal=Goal("money", 1.65, 1.65),
        steps=steps,
        fires=(Fire(stew.stove, 1, 940, 1000, 1.0, 2.0),),
        fuels=(FuelUse("sticks", 3.3, 33.0, 5.0, 50.0, 1.7, 1.65),),
        cost=1.65,
    )


def test_a_dish_by_portions_and_a_fire_by_its_pots(two):
    """Stew 20 MJ: 2 portions against 1 + 2 x 0.5; rice 10 MJ: mill's; fire 3 MJ as 20 to 10."""
    scenario, made = two
    mill, weir = shares(made, scenario)
    assert (mill.portions, weir.portions) == (4.0, 2.0)
    assert mill.fuels[0].used == pytest.approx(2.2)  # (10 + 10 + 2) of 33 MJ, of 3.3 kg
    assert weir.fuels[0].used == pytest.approx(1.1)  # (10 + 1) of 33
    assert (mill.cost, weir.cost) == (pytest.approx(1.10), pytest.approx(0.55))


def test_who_burned_of_whose(two):
    """Of 5 kg nobody is said to have brought 1 kg: it is burned first, so 2.3 kg of theirs.

    Mill burned 2.2 / 3.3 of that, 1.533 kg, and brought 1; 1.7 kg is left, all of it weir's.
    """
    mill, weir = (share.fuels[0] for share in shares(two[1], two[0]))
    assert (mill.back, mill.owed) == (0.0, pytest.approx(1 - 4.6 / 3))
    assert (weir.back, weir.owed) == (pytest.approx(1.7), pytest.approx(4.6 / 3 - 1))
    mill_share, weir_share = shares(two[1], two[0])
    assert mill_share.settlement == pytest.approx(-0.5 * (4.6 / 3 - 1))
    assert mill_share.settlement + weir_share.settlement == pytest.approx(0.0)


def test_where_nothing_is_said_to_be_brought_nothing_is_settled(two):
    scenario, made = two
    houses = tuple(replace(house, brings=()) for house in scenario.houses)
    for share in shares(made, replace(scenario, houses=houses)):
        assert (share.settlement, share.fuels[0].back) == (0.0, 0.0)
        assert share.cost > 0


def test_what_is_left_of_what_they_brought_counts_from_a_moment_on(two):
    """Of the 4 kg they brought 3.5 kg is left: 0.875 and 2.625; 3.3 kg of it is burned."""
    scenario, made = two
    less = replace(made.fuels[0], stock_kg=3.5, left_kg=0.2)
    mill, weir = (s.fuels[0] for s in shares(replace(made, fuels=(less,)), scenario))
    assert (mill.brought, weir.brought) == (pytest.approx(0.875), pytest.approx(2.625))
    assert mill.owed == pytest.approx(0.875 - 2.2)
    assert (mill.back, weir.back) == (0.0, pytest.approx(0.2))


def test_others_may_be_there_than_in_the_file(two):
    item = replace(two[0].items[0], adults=6.0, children=4.0)  # twice as many, in the same way
    assert portions_of(item, two[0]) == {"mill": 4.0, "weir": 4.0}


def test_nobody_shares_an_ordinary_kitchen(two):
    scenario = replace(two[0], houses=(), groups=())
    assert with_households(two[1], scenario) == two[1]


@pytest.mark.parametrize(
    ("amounts", "total", "shared"),
    [
        ([1, 1, 1], 100, [34, 33, 33]),
        ([47, 16, 15.8, 12, 6.1, 3.1], 10, [5, 2, 1, 1, 1, 0]),  # 4.7 1.6 1.58 1.2 0.61 0.31
        ([0, 0], 3, [2, 1]),
        ([5], 7, [7]),
        ([2, 0], 3, [3, 0]),
    ],
)
def test_the_largest_remainder(amounts, total, shared):
    assert apportioned(amounts, total) == shared


# over random households


@pytest.fixture(scope="module")
def weekend():
    scenario = read(data_folder() / "scenarios" / "outage_weekend.yaml")
    return scenario, plan(scenario, gap=0.05)


def any_houses(scenario, seed):
    """Draw households, what they bring, and who eats of which dish."""
    draw = random.Random(seed)
    count = draw.randint(2, 5)
    groups = tuple(
        Group(f"house {n}", (), draw.randint(0, 4), draw.randint(1, 3)) for n in range(count)
    )
    bring = [store for store in scenario.stores if store.stock_kg]
    houses = tuple(
        House(
            group.house,
            group.adults,
            group.children,
            tuple(
                Brought(store.fuel.name, draw.random() * store.stock_kg / count, None)
                for store in draw.sample(bring, draw.randint(0, len(bring)))
            ),
        )
        for group in groups
    )
    items = []
    for item in scenario.items:
        eating = draw.sample(range(count), draw.randint(1, count))
        items.append(
            replace(item, helpings=tuple(Helping(n, draw.randint(0, 3), 1) for n in eating))
        )
    return replace(scenario, houses=houses, groups=groups, items=tuple(items))


@pytest.mark.parametrize("seed", range(40))
def test_shares_come_to_all_that_is_used(weekend, seed):
    scenario = any_houses(weekend[0], seed)
    made = with_households(weekend[1], scenario)
    assert sum(share.cost for share in made.shares) == pytest.approx(made.cost)
    assert sum(share.settlement for share in made.shares) == pytest.approx(0.0, abs=1e-9)
    for place, use in enumerate(made.fuels):
        parts = [share.fuels[place] for share in made.shares]
        used = use.used_mj if use.used_kg is None else use.used_kg
        assert sum(part.used for part in parts) == pytest.approx(used)
        assert sum(part.owed for part in parts) == pytest.approx(0.0, abs=1e-9)
        assert min(part.used for part in parts) >= 0
        assert min(part.back for part in parts) >= 0
        left = use.left_kg if use.left_kg is not None else float("inf")
        assert sum(part.back for part in parts) <= left + 1e-9


@pytest.mark.parametrize("seed", range(5))
def test_the_rota_covers_every_fire_once(weekend, seed):
    scenario = any_houses(weekend[0], seed)
    made = with_households(weekend[1], scenario)
    for fire in made.fires:
        turns = [turn for turn in made.rota if turn.start <= fire.start < turn.end]
        assert len(turns) == 1
        assert fire.end <= turns[0].end
    assert all(one.end <= other.start for one, other in pairwise(made.rota))
    assert {turn.household for turn in made.rota} <= {house.name for house in scenario.houses}
