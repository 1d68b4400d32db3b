"""Small invented kitchens for the schedule, and an exhaustive search to hold it against."""

import itertools
import random
from collections.abc import Callable, Sequence
from dataclasses import replace

import pytest

from optimizer import shelf
from optimizer.errors import CheckError
from optimizer.model.household import (
    DAY_MIN,
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
from optimizer.model.plan import Goal, Plan, Step
from optimizer.planning.columns import Burn, Column, Kitchen, Lighting, Use
from optimizer.planning.kitchen import kitchen_of
from optimizer.planning.ledger import audit, price_of
from optimizer.planning.steps import fire_minutes, fires_told, fuels_used, steps_of

WINDOWS = (Window(360, 480), Window(1020, 1140))
STICK_MJ, GAS_MJ = 1e6, 1e6


def cook(
    item: int,
    stove: str,
    start: int,
    minutes: int,
    *,
    fuel_mj: float = 1.0,
    money: float = 0.0,
    tend_min: float = 0.0,
    pot: str = "pot:big",
    held: int | None = None,
    cooker: str | None = None,
    again: tuple[int, int] | None = None,
) -> Column:
    """One column in round numbers: on the flame, then perhaps in a box, perhaps boiled again."""
    spans = [(start, start + minutes), *([again] if again else [])]
    window = next(n for n, w in enumerate(WINDOWS) if w.start_min <= start < w.end_min)
    last = held or max(end for _, end in spans)
    uses = [Use(f"stove:{stove}", a, b) for a, b in spans] + [Use(pot, start, last)]
    if cooker:
        uses.append(Use(cooker, start + minutes, last))
    return Column(
        item=item,
        stove=stove,
        burns=tuple(Burn(stove, window, a, b) for a, b in spans),
        uses=tuple(uses),
        fuel={"stick": "sticks", "gas": "butane"}[stove],
        fuel_j=fuel_mj * 1e6,
        money=money,
        tend_min=tend_min,
    )


def kitchen(
    *items: int,
    stick: int = 1,
    gas: int = 1,
    big: int = 2,
    small: int = 2,
    box: int = 1,
    idle_w: float = 500.0,
    places: int = 1,
    tend: bool = False,
    stock_j: dict[str, float] | None = None,
) -> Kitchen:
    """A kitchen with a stick stove that has to be lit and a gas stove that has not."""
    lighting = Lighting("stick", "sticks", 1.5e6, 5, idle_w, 0.08e-6, tend, places)
    return Kitchen(
        items=items,
        capacity={
            "stove:stick": stick,
            "stove:gas": gas,
            "pot:big": big,
            "pot:small": small,
            "cooker:box": box,
        },
        lightings={"stick": lighting},
        stock_j=stock_j or {},
        windows=WINDOWS,
    )


def _random_column(item: int, chance: random.Random) -> Column:
    stove = chance.choice(("stick", "stick", "gas"))
    opens = chance.choice(WINDOWS).start_min
    minutes = chance.choice((10, 20, 30))
    start = opens + 10 * chance.randrange(0, 10 - minutes // 10)
    boxed = chance.random() < 0.5
    again = None
    if chance.random() < 0.25 and start + minutes + 20 <= opens + 120:
        again = (opens + 110, opens + 120)
    fuel_mj = round(chance.uniform(0.5, 3.0), 2) / (1.6 if boxed else 1.0)
    return cook(
        item,
        stove,
        start,
        minutes,
        fuel_mj=fuel_mj,
        money=round(fuel_mj * (0.08 if stove == "stick" else 0.18), 3),
        tend_min=float(minutes if stove == "stick" else 5),
        pot=chance.choice(("pot:big", "pot:small")),
        held=opens + 130 if boxed or again else None,
        cooker="cooker:box" if boxed else None,
        again=again,
    )


def random_case(seed: int) -> tuple[tuple[Column, ...], Kitchen]:
    """Three or four dishes, two to six columns each, stocks tight, one or two of everything."""
    chance = random.Random(seed)
    items = tuple(range(chance.choice((3, 4))))
    columns = tuple(
        _random_column(item, chance) for item in items for _ in range(chance.randint(2, 6))
    )
    stock_j = {
        "sticks": chance.uniform(3.0, 9.0) * 1e6,
        "butane": chance.uniform(0.5, 3.0) * 1e6,
    }
    one_or_two = [chance.choice((1, 2)) for _ in range(5)]
    return columns, kitchen(
        *items,
        stick=one_or_two[0],
        gas=1,
        big=one_or_two[1],
        small=one_or_two[2],
        box=one_or_two[3],
        places=one_or_two[4],
        idle_w=chance.choice((0.0, 300.0, 800.0)),
        tend=chance.random() < 0.5,
        stock_j=stock_j,
    )


def exhaustive(columns: tuple[Column, ...], room: Kitchen, goal: str) -> float | None:
    """Least of a goal over every choice there is, judged by the audit alone."""
    ways = [[column for column in columns if column.item == item] for item in room.items]
    best = None
    for chosen in itertools.product(*ways):
        try:
            audit(chosen, room)
        except CheckError:
            continue
        price = price_of(chosen, room, goal)
        best = price if best is None else min(best, price)
    return best


@pytest.fixture(name="cook", scope="session")
def _cook() -> Callable[..., Column]:
    return cook


@pytest.fixture(name="kitchen", scope="session")
def _kitchen() -> Callable[..., Kitchen]:
    return kitchen


@pytest.fixture(name="random_case", scope="session")
def _random_case() -> Callable[[int], tuple[tuple[Column, ...], Kitchen]]:
    return random_case


@pytest.fixture(name="exhaustive", scope="session")
def _exhaustive() -> Callable[[tuple[Column, ...], Kitchen, str], float | None]:
    return exhaustive


MENU = (
    ("porridge", "breakfast", 450),
    ("tea", "breakfast", 450),
    ("drinking_water", "lunch", 750),
    ("lentil_soup", "lunch", 750),
    ("rice", "lunch", 750),
    ("bean_stew", "supper", 1140),
    ("beef_stew", "supper", 1140),
    ("washing_water", "supper", 1140),
)


def household(menu: Sequence[tuple[str, str, int]] = MENU, days: int = 1, **other) -> Scenario:
    """Four people with sticks and a little gas, four cookers and eight pots, in mild weather."""
    things = shelf.load()
    items = tuple(
        Item(number, serve // DAY_MIN + 1, meal, things.dishes[dish], 2, 2, serve)
        for number, (dish, meal, serve) in enumerate(menu)
    )
    made = Scenario(
        title="Trial at Alder Row",
        adults=2,
        children=2,
        place=Place(250.0, 16.0, 8.0, 10.0),
        weather=(Weather(8.0, 1.0, rain=False, wet_sticks=False),) * days,
        start=None,
        currency="EUR",
        days=days,
        windows=tuple(
            Window(DAY_MIN * day + 60 * a, DAY_MIN * day + 60 * b)
            for day in range(days)
            for a, b in ((6, 9), (11, 13), (16, 20))
        ),
        cooks=2,
        stores=(
            Store(things.fuels["sticks"], 30.0, None, 0.2, None, 1.0, 0.1),
            Store(things.fuels["propane"], 1.0, None, 10.0, None, 0.465, 0.0),
        ),
        stoves=(
            OwnStove(things.stoves["stick_stove"], 1, "outdoors"),
            OwnStove(things.stoves["gas_burner"], 1, "outdoors"),
        ),
        pots=tuple(
            OwnPot(things.pots[name], 2) for name in ("pot_2_5l", "pot_4l", "pot_6l", "pressure_6l")
        ),
        cookers=tuple(
            OwnCooker(things.cookers[name], 1)
            for name in ("packed_box", "cushion_basket", "jar_1l", "jar_2l")
        ),
        items=items,
        goals=("money",),
        confidence=0.9,
        rules=things.rules,
        cold=(Cold("ice box", 0, days * DAY_MIN),),
    )
    return replace(made, **other)


def told(chosen: Sequence[Column], scenario: Scenario) -> Plan:
    """A plan made of columns, without a search, a comparison or a check."""
    room = kitchen_of(scenario)
    fires = fires_told(chosen, room, scenario)
    goal = scenario.goals[0]
    return Plan(
        title=scenario.title,
        start=None,
        status="within_gap",
        gap=None,
        goal=Goal(goal, price_of(chosen, room, goal), None),
        steps=steps_of(chosen, fires, scenario),
        fires=fires,
        fuels=fuels_used(chosen, room, scenario),
        cost=price_of(chosen, room, "money"),
        fire_minutes=fire_minutes(fires),
        tending_minutes=price_of(chosen, room, "tending"),
    )


@pytest.fixture(name="household", scope="session")
def _household() -> Callable[..., Scenario]:
    return household


@pytest.fixture(name="told", scope="session")
def _told() -> Callable[[Sequence[Column], Scenario], Plan]:
    return told


@pytest.fixture(name="soup_step", scope="session")
def _soup_step() -> Step:
    """A soup boiled from 400 to 430, packed at 433 and served from the box at 750."""
    return Step(
        number=7,
        day=1,
        meal="lunch",
        item="lentil soup",
        dish="lentil_soup",
        portions=4.0,
        batch=1,
        serve_rule="hot",
        stove="stick_stove",
        fuel="sticks",
        pot="pot_4l",
        pressure=False,
        finish="packed",
        cooker="packed_box",
        soak_from=None,
        light=395,
        on=400,
        boil=420,
        off=430,
        move=433,
        reboil=(),
        serve=750,
        hold_minutes=300,
        ingredients=(),
        water_kg=2.0,
        fuel_kg=0.5,
        fuel_mj=8.0,
        cost=0.25,
        done=1.0,
        serve_c=70.0,
        serve_c_low=65.0,
        fill=0.7,
    )
