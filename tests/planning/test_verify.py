"""A good plan passes; whatever is changed in it, the checker says what."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from optimizer import shelf
from optimizer.errors import CheckError
from optimizer.model.household import Scenario
from optimizer.model.plan import Plan, Step
from optimizer.planning.kitchen import choices, kitchen_of
from optimizer.planning.schedule import schedule
from optimizer.planning.verify import verify

WANTED = {  # dish: stove, pot, cooker, boiled again
    "porridge": ("gas_burner", "pot_2_5l", None, False),
    "tea": ("stick_stove", "pot_4l", "jar_2l", False),
    "drinking_water": ("gas_burner", "pot_6l", None, False),
    "lentil_soup": ("stick_stove", "pot_4l", "packed_box", True),
    "rice": ("stick_stove", "pressure_6l", "cushion_basket", False),
    "bean_stew": ("gas_burner", "pot_6l", "cushion_basket", False),
    "beef_stew": ("stick_stove", "pressure_6l", "packed_box", False),
    "washing_water": ("stick_stove", "pot_6l", None, False),
}
Change = dict[str, object]


@pytest.fixture(scope="module", name="home")
def _home(household) -> Scenario:
    return household()


@pytest.fixture(scope="module", name="good")
def _good(home, told) -> Plan:
    """One of every kind of way, in a schedule."""
    found = []
    for column in choices(home).columns:
        way, again = column.way.way, column.way.reboil is not None
        cooker = way.cooker.cooker.name if way.cooker else None
        wanted = WANTED[home.items[column.item].dish.name]
        if wanted == (column.stove, way.pot.name, cooker, again):
            found.append(column)
    made = schedule(found, kitchen_of(home), goals=("money",), gap=0.05)
    return told(made.chosen, home)


def step_of(plan: Plan, dish: str) -> Step:
    return next(step for step in plan.steps if step.dish == dish)


def changed(plan: Plan, dish: str, change: Callable[[Step], Change] | Change) -> Plan:
    old = step_of(plan, dish)
    new = replace(old, **(change(old) if callable(change) else change))
    return replace(plan, steps=tuple(new if step is old else step for step in plan.steps))


def complaint(plan: Plan, scenario: Scenario) -> str:
    with pytest.raises(CheckError) as caught:
        verify(plan, scenario)
    return str(caught.value)


def test_a_good_plan_passes(good, home):
    assert {step.finish for step in good.steps} == {"flame", "packed", "vacuum", "boiled_again"}
    assert any(step.pressure and step.cooker for step in good.steps)
    assert any(fire.start_mj > 0 for fire in good.fires)
    verify(good, home)


LATER = 10


def again(step: Step, **moved: int) -> Change:
    first = step.reboil[0]
    return {"reboil": (replace(first, **{k: getattr(first, k) + v for k, v in moved.items()}),)}


STEPS = {
    # what a step says of its dish
    "another day": ("rice", {"day": 2}, "day is 2, must be 1"),
    "another meal": ("rice", {"meal": "supper"}, "meal is supper, must be lunch"),
    "another label": ("rice", {"item": "gruel"}, "item is gruel, must be rice"),
    "another name": ("rice", {"dish": "tea"}, "dish is tea, must be rice"),
    "fewer portions": ("rice", {"portions": 3}, "portions is 3, must be 4"),
    "another rule": ("rice", {"serve_rule": "any"}, "serve rule is any, must be hot"),
    "another fuel": ("rice", {"fuel": "propane"}, "fuel is propane, must be sticks"),
    "no pressure": ("rice", {"pressure": False}, "pressure is False, must be True"),
    "another finish": ("rice", {"finish": "flame"}, "finish is flame, must be packed"),
    "served late": ("rice", {"serve": 755}, "serve time is 755, must be 750"),
    "served early": ("porridge", {"serve": 445}, "serve time is 445, must be 450"),
    "unknown stove": ("rice", {"stove": "hearth"}, "there is no stove hearth"),
    "unknown pot": ("rice", {"pot": "kettle"}, "there is no pot kettle"),
    "unknown cooker": ("rice", {"cooker": "pit"}, "there is no cooker pit"),
    "unknown dish": ("rice", {"number": 99}, "there is no dish number 99"),
    # the clock
    "on later": ("porridge", lambda s: {"on": s.on + LATER}, "fuel is"),
    "off earlier": ("porridge", lambda s: {"off": s.off - LATER}, "is not done"),
    "off before on": ("porridge", lambda s: {"off": s.on - 5}, "boil at"),
    "boils sooner": ("porridge", lambda s: {"boil": s.boil - 2}, "before it leaves the fire, not"),
    "never lit": ("rice", lambda s: {"light": s.on}, "the fire is lit too late"),
    "lit at night": ("tea", {"light": 100}, "not in its cook hours"),
    "cooked at night": (
        "tea",
        lambda s: {"on": s.on - 120, "off": s.off - 120, "light": s.light - 120},
        "is outside the cook hours",
    ),
    "not moved": ("tea", {"move": None}, "the time of the move does not go with the cooker"),
    "moved though bare": (
        "porridge",
        lambda s: {"move": s.off + 2},
        "the time of the move does not go with the cooker",
    ),
    "moved before off": ("tea", lambda s: {"move": s.off - 1}, "off at"),
    "packed under pressure": ("rice", lambda s: {"move": s.off + 2}, "too early, under pressure"),
    "hold shortened": ("rice", lambda s: {"hold_minutes": s.hold_minutes - 3}, "hold is"),
    "waits bare": ("washing_water", lambda s: {"on": s.on - 60, "off": s.off - 60}, "waits"),
    # soaking, beans, water
    "no soak": ("bean_stew", {"soak_from": None}, "is soaked 0 min, 480 is the least"),
    "soak too short": ("bean_stew", lambda s: {"soak_from": s.on - 240}, "is soaked 240 min"),
    "soak before day 1": ("bean_stew", {"soak_from": -5}, "soak is before day 1"),
    "beans off early": ("bean_stew", lambda s: {"off": s.boil + 25}, "beans boil"),
    "water off early": (
        "drinking_water",
        lambda s: {"off": s.boil - 5},
        "litres to drink boil",
    ),
    "water off cold": ("drinking_water", lambda s: {"off": s.boil - 5}, "before it is at"),
    "pieces still cold": ("beef_stew", lambda s: {"off": s.boil + 1}, "is heated through by"),
    # the second boil
    "boiled again too late": ("lentil_soup", lambda s: again(s, on=20, boil=20, off=20), "serve_c"),
    "boiled again too short": ("lentil_soup", lambda s: again(s, off=-8), "does not boil again"),
    "boils again sooner": ("lentil_soup", lambda s: again(s, boil=-2), "after it goes on, not"),
    "not boiled again": ("lentil_soup", {"reboil": ()}, "finish is boiled_again, must be packed"),
    "falls before it boils again": (
        "lentil_soup",
        lambda s: {"on": s.on - 40, "off": s.off - 40, "move": s.move - 40},
        "degC before it is boiled again",
    ),
    "boiled again from the table": (
        "lentil_soup",
        {"cooker": None, "move": None},
        "is boiled again without a cooker between",
    ),
    # pots and cookers
    "a pot too small": ("drinking_water", {"pot": "pot_2_5l"}, "of pot_2_5l, 90% is the most"),
    "another pot": ("tea", {"pot": "pot_6l"}, "fill is"),
    "foams under pressure": (
        "porridge",
        {"pot": "pressure_6l", "pressure": True},
        "foams, and is in a pressure pot",
    ),
    "a jar too small": ("tea", {"cooker": "jar_1l"}, "do not go into the cooker jar_1l"),
    "another cooker": ("rice", {"cooker": "packed_box"}, "cooker packed_box: 2 in use"),
    "fuller": ("rice", lambda s: {"fill": s.fill + 0.01}, "fill is"),
    "less of a food": (
        "rice",
        lambda s: {"ingredients": (replace(s.ingredients[0], kg=0.1), *s.ingredients[1:])},
        "ingredients are not those of the dish",
    ),
    "less water": ("rice", lambda s: {"water_kg": s.water_kg - 0.1}, "water is"),
    # fuel and money
    "fuel understated": ("rice", lambda s: {"fuel_mj": s.fuel_mj * 0.97}, "fuel is"),
    "fuel overstated": ("rice", lambda s: {"fuel_mj": s.fuel_mj * 1.03}, "fuel is"),
    "kilograms understated": ("rice", lambda s: {"fuel_kg": s.fuel_kg * 0.99}, "fuel_kg is"),
    "cost understated": ("rice", lambda s: {"cost": s.cost * 0.99}, "cost is"),
    # at the table
    "hotter": ("rice", lambda s: {"serve_c": s.serve_c + 0.3}, "serve_c is"),
    "surely hotter": ("tea", lambda s: {"serve_c_low": s.serve_c_low + 0.3}, "serve_c_low is"),
    "more done": ("rice", lambda s: {"done": s.done * 1.05}, "done is"),
    "told as raw": ("rice", {"done": 0.9}, "is not done"),
}


@pytest.mark.parametrize("case", STEPS)
def test_a_change_in_a_step_is_named(case, good, home):
    dish, change, words = STEPS[case]
    wrong = changed(good, dish, change)
    said = complaint(wrong, home)
    label = step_of(good, dish).item
    assert any(words in line for line in said.splitlines()), said
    assert label in said or "gruel" in said or "in use" in words


def first_fire(plan: Plan, **change: float) -> Plan:
    fed = next(fire for fire in plan.fires if fire.start_mj)
    new = replace(fed, **{name: getattr(fed, name) + by for name, by in change.items()})
    return replace(plan, fires=tuple(new if fire is fed else fire for fire in plan.fires))


def first_fuel(plan: Plan, **change: float) -> Plan:
    new = replace(
        plan.fuels[0], **{name: getattr(plan.fuels[0], name) + by for name, by in change.items()}
    )
    return replace(plan, fuels=(new, *plan.fuels[1:]))


PLANS = {
    "a dish left out": (lambda p: replace(p, steps=p.steps[1:]), "is cooked in no pot"),
    "a dish twice": (lambda p: replace(p, steps=(*p.steps, p.steps[0])), "is cooked in pots 1, 1"),
    "no fire": (lambda p: replace(p, fires=p.fires[1:]), "no fire is lit for it"),
    "a fire in vain": (
        lambda p: replace(p, fires=(*p.fires, replace(p.fires[0], start=600, end=610))),
        "no step needs it so early",
    ),
    "a fire in a stove nothing is on": (
        lambda p: replace(p, fires=(*p.fires, replace(p.fires[0], stove="hearth"))),
        "fire in hearth at",
    ),
    "a fire lit late": (lambda p: first_fire(p, start=1), "no fire is lit for it"),
    "a fire put out early": (lambda p: first_fire(p, end=-1), "no fire is lit for it"),
    "a fire of tomorrow": (lambda p: first_fire(p, day=1), "is not of day 2"),
    "lighting for less": (lambda p: first_fire(p, start_mj=-0.1), "lighting takes"),
    "idling for more": (lambda p: first_fire(p, idle_mj=0.1), "burning idle takes"),
    "less used": (lambda p: first_fuel(p, used_mj=-0.01), "used_mj is"),
    "fewer kilograms used": (lambda p: first_fuel(p, used_kg=-0.01), "used_kg is"),
    "a greater stock": (lambda p: first_fuel(p, stock_kg=1), "stock_kg is"),
    "a greater stock of heat": (lambda p: first_fuel(p, stock_mj=1), "stock_mj is"),
    "more left": (lambda p: first_fuel(p, left_kg=0.01), "left_kg is"),
    "cheaper fuel": (lambda p: first_fuel(p, cost=-0.01), "cost is"),
    "a fuel not told of": (lambda p: replace(p, fuels=p.fuels[1:]), "is not told of"),
    "an unknown fuel": (
        lambda p: replace(p, fuels=(*p.fuels, replace(p.fuels[0], name="peat"))),
        "fuel peat: there is none",
    ),
    "a cheaper plan": (lambda p: replace(p, cost=p.cost - 0.01), "cost of the plan is"),
    "less time at the fire": (lambda p: replace(p, fire_minutes=1.0), "minutes of fire are"),
    "less tending": (lambda p: replace(p, tending_minutes=1.0), "minutes of tending are"),
    "a better goal": (
        lambda p: replace(p, goal=replace(p.goal, value=0.1)),
        "goal money: is",
    ),
    "a goal beyond its bound": (
        lambda p: replace(p, goal=replace(p.goal, bound=p.goal.value + 1)),
        "is better than its bound",
    ),
    "steps without a plan": (lambda p: replace(p, status="infeasible"), "there is no plan"),
}


@pytest.mark.parametrize("case", PLANS)
def test_a_change_in_the_plan_is_named(case, good, home):
    change, words = PLANS[case]
    said = complaint(change(good), home)
    assert words in said


def one_fewer(things, name: str, kind: str):
    return tuple(
        replace(own, count=own.count - 1) if getattr(own, kind).name == name else own
        for own in things
    )


def with_stove(home: Scenario, name: str, **change: object) -> Scenario:
    return replace(
        home,
        stoves=tuple(
            replace(own, **change) if own.stove.name == name else own for own in home.stoves
        ),
    )


def with_dish(home: Scenario, name: str, **change: object) -> Scenario:
    return replace(
        home,
        items=tuple(
            replace(item, dish=replace(item.dish, **change)) if item.dish.name == name else item
            for item in home.items
        ),
    )


def with_rules(home: Scenario, **change: float) -> Scenario:
    return replace(home, rules=replace(home.rules, **change))


def with_store(home: Scenario, **change: object) -> Scenario:
    return replace(home, stores=(replace(home.stores[0], **change), *home.stores[1:]))


def with_packing(home: Scenario, name: str, **change: object) -> Scenario:
    return replace(
        home,
        cookers=tuple(
            replace(own, cooker=replace(own.cooker, **change)) if own.cooker.name == name else own
            for own in home.cookers
        ),
    )


def with_kind(home, kind):
    """The same household with a propane that is of another kind."""
    stores = (
        replace(s, fuel=replace(s.fuel, kind=kind)) if s.fuel.name == "propane" else s
        for s in home.stores
    )
    return replace(home, stores=tuple(stores))


HOMES = {
    "flame indoors": (
        lambda h: with_stove(h, "gas_burner", where="indoors"),
        "flame indoors, gas_burner is not a vented hob",
    ),
    "charcoal under a hood": (
        lambda h: with_kind(with_stove(h, "gas_burner", where="vented hob"), "charcoal"),
        "charcoal burns outdoors only, gas_burner is vented hob",
    ),
    "no such pot left": (
        lambda h: replace(h, pots=one_fewer(h.pots, "pressure_6l", "pot")),
        None,  # one of two is enough: rice and beef are hours apart
    ),
    "no pressure pot": (
        lambda h: replace(
            h, pots=one_fewer(one_fewer(h.pots, "pressure_6l", "pot"), "pressure_6l", "pot")
        ),
        "pot pressure_6l: 1 in use",
    ),
    "no box": (
        lambda h: replace(h, cookers=one_fewer(h.cookers, "packed_box", "cooker")),
        "cooker packed_box: 1 in use",
    ),
    "no cook": (lambda h: replace(h, cooks=0), "cook: 1 needed"),
    "no stove": (lambda h: with_stove(h, "stick_stove", count=0), "stove stick_stove: 1 in use"),
    "less stock": (lambda h: with_store(h, stock_kg=1.0), "is overdrawn by"),
    "more reserve": (lambda h: with_store(h, reserve=0.99), "is overdrawn by"),
    "dearer": (lambda h: with_store(h, price_kg=0.3), "cost is"),
    "dearer boil": (
        lambda h: with_dish(h, "rice", boil_min=40),
        "rice, lunch of day 1: is not done",
    ),
    "wider spread": (lambda h: replace(h, confidence=0.999), "fuel is"),
    "hotter wanted": (lambda h: with_rules(h, hot_c=90), "degC at the table, not 90"),
    "warmer washing": (
        lambda h: with_dish(h, "washing_water", serve_c=70),
        "at the table, not 70",
    ),
    "colder between": (lambda h: with_rules(h, hot_c=90), "before it is boiled again"),
    "longer soak": (lambda h: with_rules(h, bean_soak_min=1000), "1000 is the least"),
    "longer bean boil": (lambda h: with_rules(h, bean_boil_min=500), "500 is the least"),
    "longer water boil": (lambda h: with_rules(h, water_boil_min=500), "500 is the least"),
    "higher up": (
        lambda h: replace(h, place=replace(h.place, altitude_m=1600.0)),
        "beans boil at 94",  # about 94.7 degC: steam tables at the standard atmosphere
    ),
    "quicker through": (lambda h: with_rules(h, slow_max_min=1), "to get hot, 1 is the most"),
    "a smaller fill": (lambda h: with_rules(h, fill_most=0.5), "50% is the most"),
    "a smaller fill of grains": (
        lambda h: with_rules(h, fill_pressure_swelling=0.1),
        "10% is the most",
    ),
    "a narrow box": (
        lambda h: with_packing(h, "packed_box", greatest_pot_diameter_m=0.1),
        "pot pressure_6l does not go into the cooker packed_box",
    ),
    "a low box": (
        lambda h: with_packing(h, "packed_box", greatest_pot_height_m=0.1),
        "pot pot_4l does not go into the cooker packed_box",
    ),
    "a thin box": (lambda h: with_packing(h, "cushion_basket", thickness_m=0.01), "serve_c is"),
    "a damp box": (lambda h: with_packing(h, "cushion_basket", damp=True), "serve_c is"),
    "beans only warmed": (
        lambda h: with_dish(h, "bean_stew", heat_c=60.0),
        "beans are warmed and not boiled",
    ),
    "meat only warmed": (
        lambda h: with_dish(h, "beef_stew", heat_c=55.0),
        "degC inside when it leaves the fire",
    ),
    "beyond the air that is known": (
        lambda h: replace(h, place=replace(h.place, altitude_m=9000.0)),
        "altitude_m",
    ),
    "gas in the cold": (
        lambda h: replace(
            h,
            stores=(
                h.stores[0],
                replace(h.stores[1], fuel=replace(h.stores[1].fuel, vapour="butane")),
            ),
            weather=(replace(h.weather[0], outdoors_c=-5.0),),
        ),
        "propane will not feed at -5 degC",
    ),
    "wind": (lambda h: replace(h, weather=(replace(h.weather[0], wind_m_s=6.0),)), "fuel is"),
    "wet sticks": (
        lambda h: replace(h, weather=(replace(h.weather[0], wet_sticks=True),)),
        "fuel is",
    ),
    "all the wind": (
        lambda h: replace(h, weather=(replace(h.weather[0], wind_m_s=24.9),)),
        "before it is at",
    ),
    "a shorter evening": (
        lambda h: replace(h, windows=h.windows[:-1]),
        "is outside the cook hours",
    ),
}


@pytest.mark.parametrize("case", HOMES)
def test_a_plan_for_another_household_is_not_one_for_this(case, good, home):
    change, words = HOMES[case]
    if words is None:
        verify(good, change(home))
        return
    assert words in complaint(good, change(home))


def test_everything_wrong_is_named_at_once(good, home):
    wrong = changed(changed(good, "rice", {"portions": 3}), "tea", {"meal": "lunch"})
    said = complaint(first_fuel(wrong, stock_kg=1), home)
    for words in ("portions is 3", "meal is lunch", "stock_kg is"):
        assert words in said


def test_no_plan_is_no_fault(good, home):
    nothing = replace(
        good, status="infeasible", steps=(), fires=(), fuels=(), cost=0.0, fire_minutes=0.0
    )
    verify(nothing, home)


def test_the_checker_knows_no_planner():
    """It may not lean on what it checks."""
    import ast
    from importlib.util import find_spec
    from pathlib import Path

    entry = Path(find_spec("optimizer.planning.verify").origin)
    for file in (entry, *(entry.parent / "checks").glob("*.py")):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.ImportFrom) and node.module.startswith("optimizer.planning"):
                assert node.module.startswith("optimizer.planning.checks"), file
            if isinstance(node, ast.Attribute | ast.Name):
                name = node.attr if isinstance(node, ast.Attribute) else node.id
                assert name not in ("heat_up_s", "two_body_c", "cooled_c", "cooled_s"), file
    assert shelf.load().rules.hot_c == 60  # BfR opinion 037/2020: hot food at 60 degC or more
