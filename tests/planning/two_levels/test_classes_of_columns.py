"""Classes of columns: what they promise holds for every member, and so does their optimum."""

from dataclasses import replace
from itertools import pairwise

import pytest

from optimizer.planning.board import scale
from optimizer.planning.classes import classes_of, moments_of
from optimizer.planning.relaxation import relax, terms
from optimizer.planning.solver import set_goal, solve, solve_linear

SEEDS = range(40)
GOALS = ("money", "energy", "sticks", "tending")
LONGEST = (10, 30)


def classed(columns, room, longest_min):
    moments = moments_of(columns, room, longest_min)
    return classes_of(columns, moments), moments


def starts_nearby(columns):
    """Every column again a little later where its cook hours and its box let it be."""
    moved = []
    for column in columns:
        late = [replace(b, start=b.start + 5, end=b.end + 5) for b in column.burns]
        if len(late) > 1 or late[0].end % 1440 > 1140 or 480 < late[0].end % 1440 < 600:
            continue
        uses = [replace(u, start=u.start + 5, end=u.end + 5) for u in column.uses]
        moved.append(replace(column, burns=tuple(late), uses=tuple(uses)))
    return (*columns, *moved)


@pytest.mark.parametrize("seed", SEEDS)
def test_every_column_is_in_one_class_that_holds_for_it(seed, random_case):
    columns, room = random_case(seed)
    columns = starts_nearby(columns)
    for longest in LONGEST:
        classes, _ = classed(columns, room, longest)
        placed = [id(member) for each in classes for member in each.members]
        assert sorted(placed) == sorted(id(column) for column in columns)
        for each in classes:
            for member in each.members:
                keeps(each, member)


def keeps(each, member):
    assert (each.item, each.stove, each.fuel) == (member.item, member.stove, member.fuel)
    assert each.fuel_j <= member.fuel_j <= each.fuel_j * 1.01
    assert each.money <= member.money
    assert each.tend_min <= member.tend_min
    for (window, start, end), minutes in each.least:
        assert burnt(member, window, start, end) >= minutes
    most = dict(each.most)
    for burn in member.burns:
        inside = sum(minutes for (window, _, _), minutes in most.items() if window == burn.window)
        assert inside >= burn.end - burn.start
    for (window, start, end), minutes in most.items():
        assert burnt(member, window, start, end) <= minutes
    for window, minute in each.across:
        assert any(b.window == window and b.start < minute < b.end for b in member.burns)
    for resource, start, end in each.cores:
        assert start < end
        assert any(u.resource == resource and u.start <= start < end <= u.end for u in member.uses)


def burnt(column, window, start, end):
    mine = (b for b in column.burns if b.window == window)
    return sum(max(0, min(end, b.end) - max(start, b.start)) for b in mine)


def test_starts_a_few_minutes_apart_are_one_class_and_another_pot_is_not(cook, kitchen):
    def tea(start, pot):
        return cook(0, "gas", start, 20, pot=pot, held=600, cooker="cooker:box")

    columns = (tea(400, "pot:big"), tea(405, "pot:big"), tea(400, "pot:small"))
    classes, _ = classed(columns, kitchen(0), 120)
    assert [len(each.members) for each in classes] == [2, 1]


def test_a_dish_left_on_the_flame_stays_single(cook, kitchen):
    columns = (cook(0, "gas", 400, 20), cook(0, "gas", 405, 20))
    assert [len(each.members) for each in classed(columns, kitchen(0), 120)[0]] == [1, 1]


@pytest.mark.parametrize("longest", [10, 25, 60])
def test_moments_part_all_of_the_cook_hours(longest, random_case):
    columns, room = random_case(1)
    for window, moments in zip(room.windows, moments_of(columns, room, longest), strict=True):
        assert (moments[0], moments[-1]) == (window.start_min, window.end_min)
        steps = [b - a for a, b in pairwise(moments)]
        assert all(0 < step <= 2 * longest for step in steps)


@pytest.mark.parametrize("seed", SEEDS)
def test_the_optimum_of_classes_is_no_more_than_that_of_columns(seed, random_case, exhaustive):
    columns, room = random_case(seed)
    columns = starts_nearby(columns)[:14]
    room = replace(room, stock_j={})
    for goal in GOALS:
        best = exhaustive(columns, room, goal)
        if best is None:
            continue
        classes, moments = classed(columns, room, LONGEST[seed % 2])
        made = relax(classes, room, moments)
        set_goal(made.program, terms(made, goal))
        linear = solve_linear(made.program).objective
        whole = solve(made.program).bound
        assert linear <= whole + 1e-6 <= best / scale(goal) * (1 + 1e-6) + 2e-6


def test_some_classes_of_these_cases_have_several_members(random_case):
    sizes = []
    for seed in SEEDS:
        columns, room = random_case(seed)
        classes, _ = classed(starts_nearby(columns), room, 30)
        sizes += [len(each.members) for each in classes]
    assert sum(size > 1 for size in sizes) >= 20
