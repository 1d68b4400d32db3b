"""A dish too big for any pot: how many pots, how often it is cooked, and what the steps say."""

import math
from collections import Counter, defaultdict
from dataclasses import replace

import pytest

from optimizer import shelf
from optimizer.errors import CheckError
from optimizer.planning import schedule as module
from optimizer.planning.contents import load, most_fill, pots_needed
from optimizer.planning.kitchen import choices, kitchen_of
from optimizer.planning.ledger import audit, price_of
from optimizer.planning.memory import Memory
from optimizer.planning.schedule import schedule
from optimizer.planning.verify import verify

RULES = shelf.load().rules


def crowd(household, people, dish="potatoes"):
    """Return one dish for a crowd, and a pot that holds four litres, eight times."""
    home = household([(dish, "supper", 1140)])
    item = replace(home.items[0], adults=people, children=0)
    pots = tuple(replace(own, count=8) for own in home.pots if own.pot.name == "pot_4l")
    stoves = tuple(replace(own, count=5) for own in home.stoves)
    stores = tuple(replace(s, stock_kg=9 * s.stock_kg) for s in home.stores)
    return replace(
        home,
        items=(item,),
        pots=pots,
        stoves=stoves,
        stores=stores,
        cooks=5,
        adults=people,
        children=0,
    )


@pytest.mark.parametrize("dish", ["potatoes", "lentil_soup", "drinking_water"])
@pytest.mark.parametrize("people", [1, 4, 9, 16, 25])
def test_as_few_pots_as_the_volume_allows(dish, people, household):
    home = crowd(household, people, dish)
    item, (own,) = home.items[0], home.pots
    whole = load(item, home.place)
    room_m3 = own.pot.volume_m3 * most_fill(whole, own.pot, RULES)
    pots = pots_needed(item, home.place, home.rules, [own.pot])
    assert (pots - 1) * room_m3 < whole.volume_m3 <= pots * room_m3 * (1 + 1e-6)
    each = load(item, home.place, pots)
    assert each.volume_m3 * pots == pytest.approx(whole.volume_m3)
    assert each.mass_kg * pots == pytest.approx(whole.mass_kg)


def test_the_biggest_pot_counts_and_no_pot_is_one(household):
    home = household()
    item = replace(home.items[0], adults=20)
    pots = [own.pot for own in home.pots]
    both = pots_needed(item, home.place, home.rules, pots)
    assert both == min(pots_needed(item, home.place, home.rules, [pot]) for pot in pots)
    assert pots_needed(item, home.place, home.rules, []) == 1


def people_for(household, pots):
    """Return how many people make so many pots of potatoes."""
    return next(
        n for n in range(1, 60) if kitchen_of(crowd(household, n)).batches.get(0, 1) == pots
    )


@pytest.fixture(name="batched", params=[2, 3, 5])
def _batched(request, household, told):
    home = crowd(household, people_for(household, request.param))
    found = schedule(choices(home).columns, kitchen_of(home), goals=["money"], gap=0.05)
    return request.param, home, found, told(found.chosen, home)


def test_it_is_cooked_that_often_and_the_checker_agrees(batched):
    pots, home, found, plan = batched
    audit(found.chosen, kitchen_of(home))
    assert len(found.chosen) == pots
    assert sorted(step.batch for step in plan.steps) == list(range(1, pots + 1))
    assert sum(step.portions for step in plan.steps) == pytest.approx(home.items[0].adult_portions)
    assert sum(load(home.items[0], home.place, pots).mass_kg for _ in plan.steps) == pytest.approx(
        load(home.items[0], home.place).mass_kg
    )
    verify(plan, home)


def test_a_missing_batch_is_found(batched):
    _, home, _, plan = batched
    with pytest.raises(CheckError, match=r"batch|pot|cooked"):
        verify(replace(plan, steps=plan.steps[:-1]), home)


def test_a_batch_told_twice_is_found(batched):
    _, home, _, plan = batched
    with pytest.raises(CheckError):
        verify(replace(plan, steps=(*plan.steps, plan.steps[0])), home)


def test_a_batch_with_a_wrong_number_is_found(batched):
    _, home, _, plan = batched
    wrong = replace(plan.steps[0], batch=plan.steps[1].batch)
    with pytest.raises(CheckError):
        verify(replace(plan, steps=(wrong, *plan.steps[1:])), home)


@pytest.mark.parametrize("pots", [2, 3, 4])
def test_pots_share_the_stove_and_the_store(pots, cook, days_of):
    ways = [
        cook(0, "gas", 360 + 20 * n, 20, fuel_mj=1.0, money=0.5, pot="pot:small") for n in range(6)
    ]
    ways += [cook(0, "stick", 360 + 40 * n, 40, fuel_mj=2.0, money=0.1) for n in range(3)]
    case = days_of([ways], stock_j={"butane": 2e6}, batches={0: pots})
    best = case.best("money")
    found = schedule(case.columns, case.room, goals=["money"], gap=0)
    audit(found.chosen, case.room)
    assert Counter(c.item for c in found.chosen) == {0: pots}
    assert found.value == pytest.approx(best)
    assert price_of(found.chosen, case.room, "money") == found.value


@pytest.mark.usefixtures("two_levels")
@pytest.mark.parametrize("seed", range(2, 60, 4))
def test_every_pot_is_there_in_two_levels(seed, random_days):
    case = random_days(seed)
    found = schedule(case.columns, case.room, goals=["energy"])
    if not found.chosen:
        assert found.status == "infeasible"
        return
    cooked = defaultdict(int, Counter(c.item for c in found.chosen))
    assert {item: cooked[item] for item in case.room.items} == {
        item: case.room.pots_of(item) for item in case.room.items
    }
    assert case.room.pots_of(0) == 2
    assert math.isclose(found.value, price_of(found.chosen, case.room, "energy"))


@pytest.mark.parametrize(
    ("people", "known", "searches"),
    [(4, False, ["plain"]), (25, False, ["presolved_first"]), (25, True, ["plain"])],
)
def test_presolve_comes_first_for_several_pots_and_nothing_known(
    household, monkeypatch, people, known, searches
):
    asked, solve, home = [], module.solve, crowd(household, people)

    def asking(program, **words):
        asked.append(words["search"])
        return solve(program, **words)

    columns, room, memory = choices(home).columns, kitchen_of(home), Memory()
    if known:
        memory.chosen = schedule(columns, room, goals=("money",)).chosen
    monkeypatch.setattr(module, "solve", asking)
    assert schedule(columns, room, goals=("money",), memory=memory).chosen
    assert asked == searches
