"""The same schedules by two other solvers: CBC on our program, CP-SAT on one of its own.

Fifty of them here, 300 where ``FUELTHRIFT_NIGHTLY`` is set.
"""

import json
import os
import random
import subprocess
import sys
from dataclasses import asdict, replace
from functools import lru_cache
from pathlib import Path

import pytest

from optimizer.planning.columns import Column, Kitchen
from optimizer.planning.kitchen import choices, kitchen_of
from optimizer.planning.ledger import fuel_of, price_of
from optimizer.planning.schedule import schedule
from optimizer.scenario.reading import read
from optimizer.shelf import data_folder

FILES = ("outage_weekend", "mountain_cabin", "wet_week", "one_person_jar", "street_kitchen")
MOST_COLUMNS = 14  # of one dish
SEEDS = range(300 if os.environ.get("FUELTHRIFT_NIGHTLY") else 50)
CP_SAT = Path(__file__).with_name("cp_sat.py")


@lru_cache
def whole(name: str) -> tuple[tuple[Column, ...], Kitchen]:
    scenario = read(data_folder() / "scenarios" / f"{name}.yaml")
    return choices(scenario).columns, kitchen_of(scenario)


def drawn(seed: int) -> tuple[tuple[Column, ...], Kitchen, str]:
    """A few dishes of a shipped household, some of their columns, a tight stock, a goal."""
    chance = random.Random(seed)
    columns, kitchen = whole(FILES[seed % len(FILES)])
    items = sorted(chance.sample(kitchen.items, min(len(kitchen.items), chance.randint(4, 7))))
    picked: list[Column] = []
    for item in items:
        mine = [c for c in columns if c.item == item and len(c.burns) == 1]
        picked += chance.sample(mine, min(len(mine), MOST_COLUMNS))
    free = replace(kitchen, items=tuple(items), stock_j={})
    goal = chance.choice(("money", "energy", next(iter(kitchen.stock_j))))
    found = schedule(picked, free, goals=(goal,), gap=1e-6)
    stock = {
        fuel: used * chance.uniform(0.85, 1.2) for fuel, used in fuel_of(found.chosen, free).items()
    }
    return tuple(picked), replace(free, stock_j=stock), goal


def plain(columns: tuple[Column, ...], kitchen: Kitchen, goal: str) -> dict[str, object]:
    """Give a case as plain values, for a process that has never seen our program."""
    told = [{**asdict(replace(column, way=None)), "way": None} for column in columns]
    room = {**asdict(replace(kitchen, windows=())), "lightings": {}}
    room["lightings"] = {name: asdict(lit) for name, lit in kitchen.lightings.items()}
    return {"columns": told, "kitchen": room, "goal": goal}


@pytest.fixture(scope="module")
def proven() -> list[float | None]:
    """Optimum of every case, proven by CP-SAT in a process of its own.

    Its library and HiGHS's do not get on in one process.
    """
    cases = json.dumps([plain(*drawn(seed)) for seed in SEEDS])
    done = subprocess.run(
        [sys.executable, str(CP_SAT)], input=cases, capture_output=True, text=True, check=True
    )
    return json.loads(done.stdout)


@pytest.mark.parametrize("seed", SEEDS)
def test_cp_sat_proves_the_same_optimum(seed, proven):
    columns, kitchen, goal = drawn(seed)
    least = proven[seed]
    found = schedule(columns, kitchen, goals=(goal,), gap=1e-6)
    assert (found.status == "infeasible") is (least is None)
    if least is not None:
        near = 1e-5 * max(1.0, least)
        assert found.value == pytest.approx(least, abs=near)
        assert found.bound <= least + near


@pytest.mark.parametrize("seed", SEEDS)
def test_cbc_finds_the_same_optimum(seed):
    columns, kitchen, goal = drawn(seed)
    found = schedule(columns, kitchen, goals=(goal,), gap=1e-6)
    other = schedule(columns, kitchen, goals=(goal,), gap=1e-6, solver="cbc")
    assert (found.status == "infeasible") is (other.status == "infeasible")
    if found.value is not None:
        assert price_of(other.chosen, kitchen, goal) == pytest.approx(found.value, rel=1e-5)


def test_some_of_the_cases_have_no_schedule_and_most_have():
    statuses = [schedule(*drawn(seed)[:2], goals=("money",), gap=1.0).status for seed in SEEDS]
    assert 0 < statuses.count("infeasible") < len(statuses) / 2
