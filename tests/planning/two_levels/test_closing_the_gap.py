"""What prices leave, closed by one program, against every combination there is."""

import math
from itertools import pairwise

import pytest

from optimizer.planning import closing, levels
from optimizer.planning.ledger import audit, price_of
from optimizer.planning.schedule import schedule

SEEDS = range(120)
GOALS = ("money", "energy", "sticks")


def seen_by(monkeypatch, look):
    """Let the search be looked at just before the gap is closed."""
    monkeypatch.setattr(levels, "close", lambda ladder: look(ladder) or closing.close(ladder))


@pytest.mark.usefixtures("closed")
@pytest.mark.parametrize("seed", SEEDS)
def test_no_bound_above_the_best_and_a_gap_that_is_closed(seed, random_days):
    case, goal = random_days(seed), GOALS[seed % 3]
    best = case.best(goal)
    found = schedule(case.columns, case.room, goals=[goal], gap=1e-4)
    if best is None:
        assert found.status == "infeasible"
        return
    audit(found.chosen, case.room)
    assert found.value == price_of(found.chosen, case.room, goal)
    assert found.bound <= best * (1 + 1e-6)
    assert best * (1 - 1e-6) <= found.value <= best * (1 + 2e-4)


@pytest.mark.usefixtures("closed")
def test_most_of_them_need_it(random_days, monkeypatch):
    asked = []
    seen_by(monkeypatch, lambda ladder: asked.append(ladder.done))
    for seed in range(30):
        case = random_days(seed)
        schedule(case.columns, case.room, goals=["money"], gap=1e-4)
    assert len(asked) > 8
    assert not any(asked)


@pytest.mark.usefixtures("closed")
def test_columns_are_left_out_but_none_of_a_best_schedule(random_days, monkeypatch):
    kept = {}

    def look(ladder):
        if ladder.value is None:
            return
        for share in (0.0, 0.05, 0.5, math.inf):
            most = ladder.value * (1 + share)
            kept.setdefault(seed, []).append({id(c) for c in closing.left(ladder, most)})

    seen_by(monkeypatch, look)
    fewer = 0
    for seed in range(60):
        case = random_days(seed)
        found = schedule(case.columns, case.room, goals=["money"], gap=1e-6)
        if seed not in kept:
            continue
        chosen = {id(column) for column in found.chosen}
        nearest = kept[seed][0]
        assert chosen <= nearest
        assert all(a <= b for a, b in pairwise(kept[seed]))
        assert len(kept[seed][-1]) == len(case.columns)
        fewer += len(nearest) < len(case.columns)
    assert len(kept) > 10
    assert fewer > 5


@pytest.mark.usefixtures("closed")
def test_stopped_while_closing_it_keeps_the_plan(random_days, monkeypatch):
    closing_now = []
    seen_by(monkeypatch, lambda ladder: closing_now.append(ladder.value))
    stopped = 0
    for seed in range(40):
        case, before = random_days(seed), len(closing_now)
        found = schedule(
            case.columns,
            case.room,
            goals=["money"],
            gap=1e-6,
            progress=lambda *_: len(closing_now) == before,  # noqa: B023 -- called at once
        )
        if found.status == "stopped":
            stopped += 1
            audit(found.chosen, case.room)
            assert found.bound <= case.best("money") * (1 + 1e-6)
    assert closing_now
    assert stopped
