"""Ties go where they are said to go, and cost nothing."""

import itertools
import random
from dataclasses import replace

import pytest

from optimizer.errors import CheckError
from optimizer.planning.ledger import audit, tally
from optimizer.planning.schedule import schedule
from optimizer.planning.settling import settle

MORE = 1e-6  # far above rounding, far below a cent or a joule of food


def costs_of(chosen, room):
    """Money, energy and minutes."""
    taken = tally(chosen, room)
    return [taken.of(goal) for goal in ("money", "energy", "tending")]


def dearer(first, second):
    """Tell whether something costs more of one measure."""
    return any(a > b + MORE * (1 + b) for a, b in zip(first, second, strict=True))


def rank(column, columns):
    """The stated preference: later off, not carried, hotter, first in the file."""
    off = max(use.end for use in column.uses if use.resource.startswith("stove:"))
    carried = any(use.resource.startswith("cooker:") for use in column.uses)
    return (-off, carried, -column.served_c, columns.index(column))


def with_ties(seed, random_case):
    """A random kitchen in which most columns cost the same by themselves."""
    chance = random.Random(seed)
    columns, room = random_case(seed)
    plain = tuple(
        replace(c, fuel_j=1e6, money=0.1, tend_min=10.0, served_c=float(chance.randrange(60, 70)))
        for c in columns
    )
    return tuple(dict.fromkeys(plain)), room


class TestOneDish:
    @pytest.fixture
    def settled(self, kitchen):
        def of(*columns):
            return settle(columns[:1], columns, kitchen(0))[0]

        return of

    def test_it_comes_off_as_late_as_costs_no_more(self, cook, settled):
        early, late = (cook(0, "gas", at, 20) for at in (400, 440))
        assert settled(early, late) is late
        assert settled(late, early) is late

    def test_it_stays_early_where_late_costs_more(self, cook, settled):
        early, late = cook(0, "gas", 400, 20), cook(0, "gas", 440, 20, money=0.01)
        assert settled(early, late) is early

    def test_it_takes_what_costs_less_of_one_thing_and_no_more_of_any(self, cook, settled):
        late, cheap = cook(0, "gas", 440, 20, tend_min=9), cook(0, "gas", 400, 20)
        assert settled(late, cheap) is cheap

    def test_nothing_is_carried_for_nothing(self, cook, settled):
        boxed = cook(0, "gas", 400, 20, cooker="cooker:box")
        bare = cook(0, "gas", 400, 20)
        assert settled(boxed, bare) is bare

    def test_the_hotter_of_two_cookers(self, cook, settled):
        cold, hot = (replace(cook(0, "gas", 400, 20, pot=p), served_c=c) for p, c in
                     (("pot:big", 70.0), ("pot:small", 80.0)))  # fmt: skip
        assert settled(cold, hot) is hot

    def test_else_the_first_in_the_file(self, cook, kitchen):
        first, second = (cook(0, "gas", 400, 20, pot=pot) for pot in ("pot:small", "pot:big"))
        assert settle([second], [first, second], kitchen(0)) == (first,)

    def test_another_fuel_is_another_thing(self, cook, settled):
        gas, sticks = cook(0, "gas", 400, 20, fuel_mj=9, money=9), cook(0, "stick", 440, 20)
        assert settled(gas, sticks) is gas


def test_two_dishes_do_not_take_one_pot(cook, kitchen):
    early, late = (cook(0, "gas", at, 20) for at in (400, 440))
    other = cook(1, "gas", 440, 20)
    assert settle([early, other], [early, late, other], kitchen(0, 1)) == (early, other)


def test_an_idle_fire_costs_so_the_pots_stay_together(cook, kitchen):
    early, late, other = (
        cook(0, "stick", 400, 20),
        cook(0, "stick", 450, 20),
        cook(1, "stick", 380, 20),
    )
    assert settle([early, other], [early, late, other], kitchen(0, 1)) == (early, other)


def test_nothing_is_settled_to_nothing(kitchen):
    assert settle([], [], kitchen()) == ()


@pytest.mark.parametrize("seed", range(60))
def test_no_pot_can_be_moved_alone(seed, random_case):
    columns, room = with_ties(seed, random_case)
    found = schedule(columns, room, goals=["money"], gap=0.3)
    now = costs_of(found.chosen, room)
    for place, mine in enumerate(found.chosen):
        for other in columns:
            if (other.item, other.fuel) != (mine.item, mine.fuel) or other == mine:
                continue
            moved = [*found.chosen[:place], other, *found.chosen[place + 1 :]]
            try:
                audit(moved, room)
            except CheckError:
                continue
            then = costs_of(moved, room)
            assert dearer(then, now) or (
                not dearer(now, then) and rank(mine, columns) < rank(other, columns)
            )


def some_that_fits(columns, room, seed):
    """Any schedule that fits, None if there is none."""
    for chosen in random.Random(seed).sample(
        every := list(every_choice(columns, room)), len(every)
    ):
        try:
            audit(chosen, room)
        except CheckError:
            continue
        return chosen
    return None


def every_choice(columns, room):
    """Every choice of one column a dish."""
    return itertools.product(*([c for c in columns if c.item == item] for item in room.items))


def test_it_fits_and_costs_no_more_and_stays(random_case):
    moved = 0
    for seed in range(100):
        columns, room = with_ties(seed, random_case)
        begun = some_that_fits(columns, room, seed)
        if begun is None:
            continue
        settled = settle(begun, columns, room)
        audit(settled, room)
        assert not dearer(costs_of(settled, room), costs_of(begun, room))
        assert settle(settled, columns, room) == settled
        moved += settled != begun
    assert moved > 20
