"""Invented households and hand-made plans: no figure here was computed."""

from dataclasses import replace
from datetime import date
from typing import TypeVar

import pytest

from optimizer import shelf
from optimizer.model.household import (
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
from optimizer.model.plan import (
    Amount,
    BoilAll,
    Caution,
    Fire,
    FuelUse,
    Goal,
    Plan,
    Reboil,
    Refusal,
    Saving,
    Step,
    Worth,
)
from optimizer.model.things import Cooker, Fuel, Pot, Stove

Thing = TypeVar("Thing", Fuel, Stove, Pot, Cooker)

DISHES = (
    (1, "breakfast", "porridge", 5, 0, 450),
    (1, "drinking water", "drinking_water", 3, 2, 720),
    (1, "supper", "bean_stew", 3, 2, 1110),
    (1, "washing", "washing_water", 3, 2, 1125),
    (2, "breakfast", "chickpea_stew", 3, 2, 1890),
    (2, "supper", "lentil_stew", 3, 2, 2552),
)


LABELS = {
    "sticks": "sticks, air-dry",
    "butane": "butane",
    "electricity": "stored electricity",
    "stick_stove": "stick stove",
    "gas_burner": "gas burner (butane)",
    "electric_plate": "plate",
    "pot_2_5l": "small pot",
    "pot_4l": "middle pot",
    "pot_6l": "large pot",
    "pressure_6l": "pressure pot",
    "packed_box": "packed box",
    "jar_2l": "jar",
}
"""Labels of these tests, so that the shelf may change its words."""


def _labelled(thing: Thing) -> Thing:
    return replace(thing, label=LABELS[thing.name])


def made_scenario() -> Scenario:
    stock = shelf.load()
    stores = (
        Store(_labelled(stock.fuels["sticks"]), 12.0, None, 0.0, None, None, 0.0),
        Store(_labelled(stock.fuels["butane"]), 0.454, None, 8.0, None, 0.227, 0.1),
        Store(_labelled(stock.fuels["electricity"]), None, 4.3e6, None, 1e-7, None, 0.0),
    )
    return Scenario(
        title="Three dark days at Fennel House",
        adults=3,
        children=2,
        place=Place(600.0, 12.0, 4.0, 8.0),
        weather=(Weather(4.0, 2.0, False, False),) * 2,
        start=date(2027, 1, 15),
        currency="EUR",
        days=2,
        windows=(Window(360, 480), Window(960, 1200), Window(1800, 1920), Window(2400, 2640)),
        cooks=1,
        stores=stores,
        stoves=(
            OwnStove(_labelled(stock.stoves["stick_stove"]), 1, "outdoors"),
            OwnStove(replace(_labelled(stock.stoves["gas_burner"]), fuel="butane"), 1, "outdoors"),
            OwnStove(_labelled(stock.stoves["electric_plate"]), 1, "indoors"),
        ),
        pots=tuple(
            OwnPot(_labelled(stock.pots[name]), 1)
            for name in ("pot_2_5l", "pot_4l", "pot_6l", "pressure_6l")
        ),
        cookers=(
            OwnCooker(_labelled(stock.cookers["packed_box"]), 1),
            OwnCooker(_labelled(stock.cookers["jar_2l"]), 1),
        ),
        items=tuple(
            Item(n, day, meal, stock.dishes[dish], adults, children, serve)
            for n, (day, meal, dish, adults, children, serve) in enumerate(DISHES)
        ),
        goals=("money",),
        confidence=0.9,
        rules=stock.rules,
    )


BASE = Step(
    number=0,
    day=1,
    meal="breakfast",
    item="porridge of rolled oats",
    dish="porridge",
    portions=5,
    batch=1,
    serve_rule="hot",
    stove="stick_stove",
    fuel="sticks",
    pot="pot_2_5l",
    pressure=False,
    finish="packed",
    cooker="packed_box",
    soak_from=None,
    light=361,
    on=366,
    boil=381,
    off=383,
    move=385,
    reboil=(),
    serve=450,
    hold_minutes=2,
    ingredients=(Amount("rolled oats", 0.4), Amount("salt", 0.006)),
    water_kg=1.6,
    fuel_kg=0.31,
    fuel_mj=4.6,
    cost=0.0,
    done=1.1,
    serve_c=85.2,
    serve_c_low=78.6,
    fill=0.75,
)
BEANS = (Amount("dried red kidney beans", 0.4), Amount("onions, chopped", 0.15))
PULSES = (Amount("dried chickpeas", 0.4), Amount("salt", 0.006))


def _steps() -> tuple[Step, ...]:
    return (
        BASE,
        replace(
            BASE, number=1, meal="drinking water", item="drinking water, boiled",
            dish="drinking_water", serve_rule="any", stove="gas_burner", fuel="butane",
            pot="pot_4l", finish="vacuum", cooker="jar_2l", light=390, on=391, boil=405, off=406,
            move=408, serve=720, hold_minutes=1, ingredients=(), water_kg=2.0, fuel_kg=0.031,
            fuel_mj=1.4, cost=0.25, serve_c=83.0, serve_c_low=80.0,
        ),
        replace(
            BASE, number=2, meal="supper", item="red kidney bean stew", dish="bean_stew",
            pot="pot_6l", finish="boiled_again", soak_from=-60, light=961, on=966, boil=990,
            off=1022, move=1024, reboil=(Reboil(1092, 1101, 1106),), serve=1110, hold_minutes=32,
            ingredients=BEANS, water_kg=1.2, fuel_mj=5.9, fuel_kg=0.4, serve_c=95.0,
            serve_c_low=94.0,
        ),
        replace(
            BASE, number=3, meal="washing", item="warm washing water", dish="washing_water",
            serve_rule="at", stove="electric_plate", fuel="electricity", finish="flame",
            cooker=None, light=1090, on=1090, boil=1120, off=1121, move=None, serve=1125,
            hold_minutes=0, ingredients=(), water_kg=0.8, fuel_kg=None, fuel_mj=0.9, cost=0.09,
            serve_c=55.0, serve_c_low=54.8,
        ),
        replace(
            BASE, number=4, day=2, meal="breakfast", item="chickpea stew", dish="chickpea_stew",
            pot="pressure_6l", pressure=True, soak_from=1200, light=1801, on=1806, boil=1822,
            off=1837, move=1852, serve=1890, hold_minutes=15, ingredients=PULSES, water_kg=1.0,
        ),
        replace(
            BASE, number=5, day=2, meal="supper", item="brown lentils with potatoes",
            dish="lentil_stew", pot="pot_4l", finish="flame", cooker=None, light=2462, on=2467,
            boil=2483, off=2525, move=None, serve=2552, hold_minutes=42, serve_c=90.0,
            serve_c_low=85.5, ingredients=(Amount("brown lentils", 0.35),),
        ),
    )  # fmt: skip


def made_plan() -> Plan:
    return Plan(
        title="Three dark days at Fennel House",
        start=date(2027, 1, 15),
        status="within_gap",
        gap=0.0041,
        goal=Goal("money", 0.34, 0.3386),
        steps=_steps(),
        fires=(
            Fire("stick_stove", 1, 361, 383, 1.5, 0.0),
            Fire("gas_burner", 1, 390, 406, 0.02, 0.0),
            Fire("stick_stove", 1, 961, 1106, 1.5, 0.3),
            Fire("electric_plate", 1, 1090, 1121, 0.2, 0.0),
            Fire("stick_stove", 2, 1801, 1837, 1.5, 0.0),
            Fire("stick_stove", 2, 2462, 2525, 1.5, 0.0),
        ),
        fuels=(
            FuelUse("sticks", 1.83, 26.4, 12.0, 173.0, 10.17, 0.0),
            FuelUse("butane", 0.031, 1.42, 0.454, 20.8, 0.423, 0.25),
            FuelUse("electricity", None, 0.9, None, 4.3, None, 0.09),
        ),
        cost=0.34,
        fire_minutes=280.0,
        tending_minutes=250.0,
        boil_all=BoilAll("within_gap", 71.0, 3.44, 523.0, None),
        boil_all_same_stoves=BoilAll("does_not_fit", 79.0, 0.11, 610.0, "35 minutes too long"),
        saved=Saving(50.28, 0.636, -0.23, 330.0),
        saved_any_stove=Saving(42.28, 0.595, 3.10, 243.0),
        worth=(
            Worth("one more 227 g canister of butane", 0.0, "EUR"),
            Worth("one more box packed with crumpled newspaper", 0.85, "EUR"),
        ),
        cautions=tuple(
            Caution(code, shelf.load().cautions[code].text, items)
            for code, items in (
                ("makers_word", ()),
                ("flames_outdoors", ()),
                ("phaseolus", ("red kidney bean stew",)),
                ("thermometer", ()),
            )
        ),
    )


def _impossible() -> Plan:
    return Plan(
        title="Three dark days at Fennel House",
        start=None,
        status="infeasible",
        gap=None,
        goal=Goal("money", None, None),
        changes=("1.3 kg more sticks", "breakfast on day 1 served 20 minutes later"),
        refusals=(
            Refusal(0, "stick_stove", "pot_6l", None, "never_done", "not done by 07:30"),
            Refusal(0, "stick_stove", "pot_4l", None, "never_done", "not done by 07:30"),
            Refusal(2, "gas_burner", "pot_6l", "jar_2l", "cold", "falls to 54 degC by 18:30"),
        ),
    )


@pytest.fixture(scope="session")
def scenario() -> Scenario:
    """Five people, two winter days."""
    return made_scenario()


@pytest.fixture(scope="session")
def plan() -> Plan:
    """Every way of finishing a dish, soaking, boiling again, pressure, electricity."""
    return made_plan()


@pytest.fixture(scope="session")
def impossible() -> Plan:
    """No plan, and what would make one."""
    return _impossible()


@pytest.fixture(scope="session")
def dearer() -> Plan:
    """Fuel saved, but money and minutes lost."""
    return replace(
        made_plan(),
        status="time_limit",
        gap=None,
        saved=Saving(42.28, 0.595, -0.40, -65.0),
        boil_all_same_stoves=None,
    )
