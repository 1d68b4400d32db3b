"""Dishes that are the same to the kitchen, planned as one and told apart again."""

import random
from collections import Counter
from dataclasses import replace

import pytest

from optimizer.planning.alike import merge
from optimizer.planning.ledger import audit, price_of
from optimizer.planning.schedule import schedule

SEEDS = range(60)
GAP = 1e-6


def doubled(seed, random_case):
    """Draw a kitchen in which a dish is there twice, its columns in the same order."""
    columns, room = random_case(seed)
    twin = max(room.items) + 1
    first = random.Random(seed).choice(room.items)
    again = [replace(c, item=twin) for c in columns if c.item == first][:4]
    kept = [c for c in columns if c.item != first]
    same = [replace(c, item=first) for c in again]
    mixed = (*kept, *same, *again)
    more = {name: count + 1 for name, count in room.capacity.items()}
    stock = {fuel: 1.5 * joules for fuel, joules in room.stock_j.items()}
    room = replace(room, items=(*room.items, twin), capacity=more, stock_j=stock)
    return mixed, room, (first, twin)


@pytest.mark.parametrize("seed", SEEDS)
def test_the_schedule_is_as_good_as_every_combination_counted(seed, random_case, exhaustive):
    columns, room, (first, twin) = doubled(seed, random_case)
    best = exhaustive(columns, room, "money")
    found = schedule(columns, room, goals=["money"], gap=GAP)
    if best is None:
        assert found.status == "infeasible"
        return
    audit(found.chosen, room)
    assert found.value == pytest.approx(best)
    assert found.bound <= best * (1 + 1e-6)
    assert {first, twin} <= {column.item for column in found.chosen}
    assert set(found.chosen) <= set(columns)


def test_most_of_those_can_be_cooked(random_case, exhaustive):
    bests = [exhaustive(*doubled(seed, random_case)[:2], "money") for seed in SEEDS]
    assert bests.count(None) < len(SEEDS) / 2


@pytest.mark.parametrize("seed", SEEDS)
def test_one_stands_for_both_and_nothing_else_is_merged(seed, random_case):
    columns, room, (first, twin) = doubled(seed, random_case)
    alike = merge(columns, room)
    assert alike.twins[first] == (first, twin)
    assert alike.kitchen.items == tuple(alike.twins)
    assert alike.kitchen.pots_of(first) == 2
    assert {c.item for c in alike.columns} == set(alike.kitchen.items)
    assert sorted(t for mine in alike.twins.values() for t in mine) == sorted(room.items)


def tea(cook, item, start=400, pot="pot:big"):
    return cook(item, "gas", start, 20, pot=pot)


@pytest.mark.parametrize("change", ["start", "pot", "money", "fuel_j", "tend_min"])
def test_dishes_that_differ_in_anything_are_not_alike(change, cook, kitchen):
    other = {
        "start": lambda: tea(cook, 1, start=405),
        "pot": lambda: tea(cook, 1, pot="pot:small"),
    }.get(change, lambda: replace(tea(cook, 1), **{change: 9.0}))()
    columns, room = (tea(cook, 0), other), replace(kitchen(), items=(0, 1))
    assert merge(columns, room).columns is columns
    assert merge((tea(cook, 0), tea(cook, 1)), room).kitchen.items == (0,)


def test_every_pot_goes_back_to_its_own_dish(cook, kitchen):
    starts = (400, 430)
    columns = tuple(tea(cook, item, start) for item in range(3) for start in starts)
    room = replace(kitchen(), items=(0, 1, 2), batches={0: 2, 1: 2, 2: 2})
    alike = merge(columns, room)
    assert alike.kitchen.batches == {0: 6}
    early, late = alike.columns
    chosen = alike.apart([early, late, late, early, late, late])
    assert Counter(column.item for column in chosen) == {0: 2, 1: 2, 2: 2}
    starts = Counter(column.burns[0].start for column in chosen)
    assert starts == {400: 2, 430: 4}
    assert Counter(alike.together(chosen)) == {early: 2, late: 4}
    assert price_of(chosen, room, "energy") == price_of([early, late] * 3, room, "energy")


def test_a_choice_that_is_not_to_be_had_any_more_is_no_start(cook, kitchen):
    columns = (tea(cook, 0), tea(cook, 1))
    alike = merge(columns, replace(kitchen(), items=(0, 1)))
    assert alike.together([tea(cook, 0), tea(cook, 1, start=440)]) == ()
