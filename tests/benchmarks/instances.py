"""Seeded trial households for the benchmark of schedules: invented, sized by the rows of its table.

An instance is written as a scenario file's text, so that a row starts where a user starts. Sticks
are cheap and short, gas is dear: what is hard is which dish gets the sticks.
"""

import random
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

Day = list[tuple[str, str]]  # meal and dish

MEALS = {"breakfast": "07:30", "lunch": "12:30", "supper": "18:30"}
BREAKFASTS = ("porridge", "semolina_porridge", "millet_porridge", "tea")
MAINS = (
    "rice",
    "brown_rice",
    "bulgur",
    "lentil_soup",
    "lentil_stew",
    "split_pea_soup",
    "vegetable_soup",
    "chicken_soup",
    "potatoes",
    "pasta_tomato",
    "barley_soup",
    "pumpkin_soup",
    "tea",
)
LONG = ("beef_stew", "bean_stew", "white_bean_soup")  # one a supper, soaked ones not at once
A_DAY = {7: (2, 2, 3), 12: (3, 4, 5), 14: (4, 4, 6), 25: (6, 9, 10)}  # dishes at each meal
PLAIN = tuple(
    [
        *[("breakfast", "porridge"), ("breakfast", "tea")],
        *[("lunch", "vegetable_soup"), ("lunch", "rice")],
        *[("supper", dish) for dish in suppers],
    ]
    for suppers in (("beef_stew", "potatoes", "tea"), ("bean_stew", "bulgur", "tea"))
)

HOME = {
    "stoves": {"stick_stove_skirt": 1, "gas_burner": 2, "alcohol_burner": 1},
    "pots": {"pot_1_5l": 1, "pot_2_5l": 2, "pot_4l": 3, "pot_6l": 2, "pressure_6l": 1},
    "cookers": {"packed_box": 2, "cushion_basket": 1, "jar_1l": 1},
}
BIG = {
    "stoves": {"stick_stove_skirt": 2, "gas_burner": 3, "alcohol_burner": 1},
    "pots": {"pot_1_5l": 2, "pot_2_5l": 3, "pot_4l": 3, "pot_6l": 2, "pressure_6l": 2},
    "cookers": {"packed_box": 3, "cushion_basket": 2, "jar_1l": 2},
}
SHELTER = {
    "stoves": {"stick_stove_skirt": 3, "gas_burner": 5, "alcohol_burner": 2},
    "pots": {"pot_1_5l": 4, "pot_2_5l": 6, "pot_4l": 6, "pot_6l": 3, "pressure_6l": 2},
    "cookers": {"packed_box": 6, "cushion_basket": 3, "jar_1l": 3},
}
TWO = {
    "stoves": {"stick_stove_skirt": 1, "gas_burner": 4, "alcohol_burner": 2},
    "pots": {"pot_1_5l": 2, "pot_2_5l": 4, "pot_4l": 4, "pot_6l": 2, "pressure_6l": 2},
    "cookers": {"packed_box": 4, "cushion_basket": 2, "jar_1l": 2},
}
ALL = {
    "stoves": {**HOME["stoves"], "gas_burner": 1, "kerosene_wick": 1, "charcoal_brazier": 1},
    "pots": HOME["pots"],
    "cookers": HOME["cookers"],
}
CROWD = {
    "stoves": {"large_stick_stove": 3, "gas_ring": 3},
    "pots": {"pot_8l": 3, "pot_15l": 4, "pot_30l": 7},
    "cookers": {"crowd_carrier": 4, "quilt_chest": 2},
}
CAMP = {
    "stoves": {"large_stick_stove": 9, "gas_ring": 9},
    "pots": {"pot_8l": 3, "pot_15l": 6, "pot_30l": 22},
    "cookers": {"crowd_carrier": 14, "quilt_chest": 6},
}


@dataclass(frozen=True)
class Instance:
    """One row: its household and what a day may burn; dishes are given by day."""

    menu: tuple[Day, ...]
    things: Mapping[str, Mapping[str, int]]
    people: int = 5
    cooks: int = 2
    sticks_kg: float = 2.25  # a day; this is what is short
    gas_g: float = 400.0
    alcohol_ml: float = 150.0

    @property
    def days(self) -> int:
        """How many days it lasts."""
        return len(self.menu)


def alternating(days: int) -> tuple[Day, ...]:
    """Return a menu of two days by turns."""
    return tuple(PLAIN[day % 2] for day in range(days))


def drawn(days: int, dishes: int, seed: int) -> tuple[Day, ...]:
    """Return a menu that never repeats on purpose."""
    rng = random.Random(seed)
    return tuple(_day(rng, dishes, first=day == 0) for day in range(days))


def _day(rng: random.Random, dishes: int, *, first: bool) -> Day:
    found: Day = []
    for meal, count in zip(MEALS, A_DAY[dishes], strict=True):
        choice = BREAKFASTS if meal == "breakfast" else MAINS
        found += [(meal, rng.choice(choice)) for _ in range(count)]
    if rng.random() < 2 / 3:
        found[-1] = ("supper", "beef_stew" if first else rng.choice(LONG))
    return found


def weekly(days: int, dishes: int, seed: int) -> tuple[Day, ...]:
    """Return a week drawn once and repeated."""
    week = drawn(7, dishes, seed)
    return tuple(week[day % 7] for day in range(days))


def both(days: int) -> tuple[Day, ...]:
    """Return the menu of two households, each a day behind the other."""
    return tuple(PLAIN[day % 2] + PLAIN[(day + 1) % 2 if day else 0] for day in range(days))


def text_of(instance: Instance) -> str:
    """Write an instance as a scenario file."""
    made = instance
    lines = [
        "title: trial household",
        f"people: {made.people}",
        f"days: {made.days}",
        "currency: EUR",
        "place: {altitude: 400 m, kitchen: 14 degC, outdoors: 8 degC, water: 10 degC}",
        'cook_hours: ["06:00-09:00", "11:00-13:00", "16:00-19:00"]',
        f"cooks: {made.cooks}",
        f"cold: {{ice_box: {{until: day {made.days} 23:59}}}}",  # meat on any day
        "fuels:",
        f"  sticks: {{stock: {made.sticks_kg * made.days:.6g} kg, price: 0.20 EUR / kg}}",
        f"  propane: {{stock: {made.gas_g * made.days:.6g} g, price: 8.00 EUR / kg}}",
        f"  ethanol: {{stock: {made.alcohol_ml * made.days / 1000:.6g} L, price: 4.00 EUR / L}}",
    ]
    if "kerosene_wick" in made.things["stoves"]:
        lines.append(f"  kerosene: {{stock: {0.1 * made.days:.6g} L, price: 3.00 EUR / L}}")
        lines.append(f"  charcoal: {{stock: {0.3 * made.days:.6g} kg, price: 1.50 EUR / kg}}")
    for section, things in made.things.items():
        lines.append(f"{section}: {{{', '.join(f'{n}: {c}' for n, c in things.items())}}}")
    lines.append("menu:")
    for number, day in enumerate(made.menu, start=1):
        for meal, at in MEALS.items():
            dishes = ", ".join(dish for name, dish in day if name == meal)
            if dishes:
                lines.append(f'  - {{meal: {meal}, at: "{at}", on: {number}, dishes: [{dishes}]}}')
    return "\n".join([*lines, "goal: money", "confidence: 0.9", ""])


def rows(seed: int = 0) -> dict[str, dict[str, Any]]:
    """Return the rows of the table; seed 0 is the draw on which the search was built."""
    return {
        "one day, 7 dishes, all stoves": {"menu": drawn(1, 7, 1 + seed), "things": ALL},
        "week, 7 dishes a day": {"menu": drawn(7, 7, seed)},
        "week, 12 dishes a day": {
            "menu": drawn(7, 12, seed),
            "things": BIG,
            "sticks_kg": 3.9,
            "gas_g": 700,
        },
        "week, 25 dishes a day": {
            "menu": drawn(7, 25, seed),
            "things": SHELTER,
            "sticks_kg": 8.4,
            "gas_g": 1400,
        },
        "equal days, one fuel tight": {"menu": alternating(7)},
        "equal days, two fuels tight": {"menu": alternating(7), "gas_g": 45},
        "two households on one stove": {
            "menu": both(7),
            "things": TWO,
            "sticks_kg": 4.5,
            "gas_g": 800,
        },
        "month, repeating": {"menu": weekly(30, 7, seed)},
        "month, never repeating": {"menu": drawn(30, 7, seed)},
        "90 days, repeating": {"menu": weekly(90, 7, seed)},
        "90 days, never repeating": {"menu": drawn(90, 7, seed)},
        "60 people, two days": {
            "menu": drawn(2, 7, seed),
            "things": CROWD,
            "people": 60,
            "cooks": 6,
            "sticks_kg": 33,
            "gas_g": 9000,
        },
        "200 people, a week": {
            "menu": drawn(7, 7, seed),
            "things": CAMP,
            "people": 200,
            "cooks": 14,
            "sticks_kg": 95,
            "gas_g": 30000,
        },
    }


def instance(name: str, seed: int = 0) -> Instance:
    """Return the household of a row of the table."""
    return Instance(**{"things": HOME, **rows(seed)[name]})


ROWS = tuple(rows())
