"""A search for the most dangerous plan that is admitted: none lies outside the printed rules.

The bounds are typed here from print, not taken from the planner's rules; temperatures and times at
the boil are those of the independent checker. Here some households; ``.ci/nightly`` looks at 500.
"""

import os
import random
from collections import Counter
from collections.abc import Iterator
from dataclasses import replace

import pytest

from optimizer import shelf
from optimizer.model.household import DAY_MIN, Cold, Item, OwnStove, Place, Scenario, Store
from optimizer.planning.checks.cases import cases_of
from optimizer.planning.checks.dish import Case
from optimizer.planning.checks.rest import Telling
from optimizer.planning.columns import Column
from optimizer.planning.kitchen import choices, kitchen_of
from tests.planning.conftest import household as any_kitchen
from tests.planning.conftest import told
from tests.planning.test_verify_any_household import any_household

THINGS = shelf.load()
SEEDS = 500 if os.environ.get("FUELTHRIFT_NIGHTLY") else 40
HOT_C = 60.0  # BfR Opinion 037/2020: hot food is eaten at 60 degC at the least
BEAN_BOIL_MIN, BEAN_SOAK_MIN = 30.0, 300.0  # FDA, Bad Bug Book: soak 5 h, boil 30 min
BEAN_PRESSURE_MIN = 10.0  # judgement: the printed 10 min at 100 degC, hotter
WATER_MIN, WATER_HIGH_MIN, HIGH_M = 1.0, 3.0, 1524.0  # Dorris et al. 2025: 3 min above 5,000 ft
PRESSURE_FILL, PRESSURE_SWELLING = 2 / 3, 1 / 2  # general instructions for pressure pots
POULTRY_C = 74.0  # FSIS: 165 degF inside
SLOW_MIN = 120.0  # FSIS: no more than 2 h between 40 and 140 degF
NEAR_K, NEAR_MIN, NEAR_SHARE = 0.2, 0.05, 1e-4  # what the checker's sums are good for
SWELLING = ("bean", "lentil", "pea", "rice", "oat", "barley", "grain", "quinoa", "millet", "pasta",
            "noodle", "semolina", "bulgur", "buckwheat", "flour")  # fmt: skip
RISKY = sorted(
    dish.name
    for dish in THINGS.dishes.values()
    if dish.disinfects or any(i.food.phaseolus or i.food.endpoint_c for i in dish.ingredients)
)


def daring_household(seed: int) -> Scenario:
    """Any household, with flames indoors, risky dishes, cold or hot kitchens, low and high up."""
    draw = random.Random(seed)
    made = any_household(draw)
    stoves = tuple(
        OwnStove(
            own.stove, own.count, draw.choice(("outdoors", "outdoors", "vented hob", "indoors"))
        )
        for own in made.stoves
    )
    pots = {own.pot.name: own for own in made.pots}
    pressure = draw.choice([p for p in THINGS.pots.values() if p.gauge_pa > 0])
    pots[pressure.name] = replace(next(iter(pots.values())), pot=pressure)
    altitude_m = draw.choice((0.0, 400.0, 1500.0, 1524.0, 1600.0, 3000.0))
    place = Place(altitude_m, draw.uniform(-5, 34), 10.0, draw.uniform(1, 25))
    return replace(
        made,
        stoves=stoves,
        pots=tuple(pots.values()),
        place=place,
        items=tuple(_risky(item, draw) for item in made.items),
        cold=(Cold("ice box", 0, made.days * DAY_MIN),),
    )


def _risky(item: Item, draw: random.Random) -> Item:
    return replace(item, dish=THINGS.dishes[draw.choice(RISKY)]) if draw.random() < 0.5 else item


def worst_of(columns: list[Column], scenario: Scenario) -> set[Column]:
    """Pick what looks most dangerous: longest off the fire, shortest on it, in the smallest pot."""
    size = {f"pot:{own.pot.name}": own.pot.volume_m3 for own in scenario.pots}
    pressed = {f"pot:{own.pot.name}" for own in scenario.pots if own.pot.gauge_pa > 0}

    def on_min(column: Column) -> int:
        return column.burns[0].end - column.burns[0].start

    def off_min(column: Column) -> int:
        return scenario.items[column.item].serve_min - column.burns[-1].end

    def room_m3(column: Column) -> float:
        pot = next(use.resource for use in column.uses if use.resource in size)
        return size[pot] - 1.0 * (pot in pressed)

    return {max(columns, key=off_min), min(columns, key=on_min), min(columns, key=room_m3)}


def case_of(column: Column, scenario: Scenario) -> Case:
    """Give one column as the checker sees it, cooked alone with fuel without end."""
    pots = kitchen_of(scenario).pots_of(column.item)
    stores = tuple(replace(s, stock_kg=None, stock_j=None) for s in scenario.stores)
    alone = replace(scenario, items=(scenario.items[column.item],), stores=stores)
    cases, unknown = cases_of(told((column,) * pots, alone), alone)
    assert not list(unknown)
    return next(iter(cases))


def faults_of(case: Case) -> Iterator[str]:
    """Yield every printed rule that a dish breaks, held against the checker's own sums."""
    telling, dish, name = Telling(case), case.item.dish, case.name
    beans = any(food.phaseolus for food, _ in case.foods)
    pressed = case.own_pot.pot.gauge_pa > 0
    if dish.serve == "hot" and telling.legs[-1].careful_c < HOT_C - NEAR_K:
        yield f"{name}: {telling.legs[-1].careful_c:.1f} degC at the table"
    if beans and telling.hold_min < (BEAN_PRESSURE_MIN if pressed else BEAN_BOIL_MIN) - NEAR_MIN:
        yield f"{name}: beans boil {telling.hold_min:.1f} min"
    if beans and case.step.on - (case.step.soak_from or case.step.on) < BEAN_SOAK_MIN:
        yield f"{name}: beans are not soaked"
    high = case.scenario.place.altitude_m >= HIGH_M
    if dish.disinfects and telling.hold_min < (WATER_HIGH_MIN if high else WATER_MIN) - NEAR_MIN:
        yield f"{name}: water boils {telling.hold_min:.1f} min"
    yield from _of_pot_and_fire(case)


def _of_pot_and_fire(case: Case) -> Iterator[str]:
    share = case.volume_m3 / case.own_pot.pot.volume_m3
    swells = "soup" in case.item.dish.label or any(
        food.water < 0.2 and any(word in food.label for word in SWELLING) for food, _ in case.foods
    )
    most = 1.0
    if case.own_pot.pot.gauge_pa > 0:
        most = PRESSURE_SWELLING if swells else PRESSURE_FILL
    if share > most + NEAR_SHARE:
        yield f"{case.name}: {case.own_pot.pot.name} is {share:.0%} full"
    charcoal = case.store.fuel.name == "charcoal"
    if case.own.stove.flame and case.own.where not in {
        "outdoors",
        *([] if charcoal else ["vented hob"]),
    }:
        yield f"{case.name}: {case.own.stove.name} burns {case.own.where}"
    if any("chicken" in food.label for food, _ in case.foods) and case.top_c < POULTRY_C:
        yield f"{case.name}: poultry is brought to {case.top_c:.0f} degC"


def searched(scenario: Scenario, seen: Counter[str]) -> list[str]:
    """List what breaks a rule among the most dangerous ways admitted, counting what was seen."""
    columns, found = choices(scenario).columns, []
    for number in {column.item for column in columns}:
        mine = [column for column in columns if column.item == number]
        for stove in {column.stove for column in mine}:
            alike = [column for column in mine if column.stove == stove]
            for column in worst_of(alike, scenario):
                case = case_of(column, scenario)
                found += faults_of(case)
                seen["hot"] += case.item.dish.serve == "hot"
                seen["beans"] += any(food.phaseolus for food, _ in case.foods)
                seen["water"] += case.item.dish.disinfects
                seen["pressure"] += case.own_pot.pot.gauge_pa > 0
                seen["flame"] += case.own.stove.flame
    return found


def test_the_most_dangerous_ways_admitted_keep_to_the_printed_rules():
    seen: Counter[str] = Counter()
    found = [fault for seed in range(SEEDS) for fault in searched(daring_household(seed), seen)]
    assert found == []
    assert min(seen[kind] for kind in ("hot", "beans", "water", "pressure", "flame")) > 0
    print(dict(seen))


@pytest.mark.parametrize(
    ("stove", "where", "offered"),
    [
        ("gas_hob", "outdoors", True),
        ("gas_hob", "vented hob", True),
        ("gas_hob", "indoors", False),
        ("stick_stove", "indoors", False),
        ("charcoal_brazier", "outdoors", True),
        ("charcoal_brazier", "vented hob", False),  # carbon monoxide, under no hood either
        ("charcoal_brazier", "indoors", False),
        ("electric_plate", "indoors", True),
    ],
)
def test_no_way_is_offered_over_a_flame_that_may_not_burn_there(stove, where, offered):
    own = THINGS.stoves[stove]
    store = Store(THINGS.fuels[own.fuel], None, None, 1.0, 1e-7, None, 0.0)
    scenario = any_kitchen(stoves=(OwnStove(own, 1, where),), stores=(store,))
    found = choices(scenario)
    assert bool(found.columns) is offered
    refused = {refusal.code for refusal in found.refusals}
    assert ("flame_indoors" in refused) is not offered


@pytest.mark.parametrize(
    ("loose", "word"),
    [
        ({"hot_c": 45.0}, "degC at the table"),
        ({"bean_boil_min": 2.0, "bean_pressure_min": 1.0}, "beans boil"),
        ({"water_boil_high_min": 0.0, "water_boil_min": 0.0}, "water boils"),
        ({"fill_pressure": 0.9, "fill_pressure_swelling": 0.9}, "full"),
    ],
)
def test_the_search_finds_what_a_looser_rule_admits(loose, word):
    rules = replace(THINGS.rules, **loose)
    for seed in range(300):
        scenario = replace(daring_household(seed), rules=rules)
        if any(word in fault for fault in searched(scenario, Counter())):
            return
    pytest.fail("nothing was found in 300 households")
