"""What becomes of a search in two levels: closed, left open, or without a schedule."""

import time
from types import SimpleNamespace

import pytest

from optimizer.planning import schedule as module
from optimizer.planning.schedule import _by_days, _Task, _Watch


@pytest.fixture
def searched(cook, kitchen, monkeypatch):
    """Let two levels end with a value and a bound, and tell what comes of it."""
    dish = cook(0, "gas", 400, 20)
    seen = SimpleNamespace(later=[], whole=[], heard=[], dish=dish)

    def search(value, bound, *, going=True):
        def climb(ladder):
            ladder.chosen = () if value is None else (dish,)
            ladder.value, ladder.bound = value, bound
            ladder.report(value, bound)

        def then(ladder, goals, most):
            seen.later.append((goals, most))
            ladder.report(99.0, 98.0)  # of the next goal

        def whole(*_, known):
            seen.whole.append(known)
            return "all at once"

        monkeypatch.setattr(module, "climb", climb)
        monkeypatch.setattr(module, "then", then)
        monkeypatch.setattr(module, "_whole", whole)
        until = time.perf_counter() + 100
        task = _Task([dish], kitchen(0), ("energy", "money"), 0.1, until, "highs")
        watch = _Watch(lambda *told: seen.heard.append(told[1:]) or going)
        return _by_days(task, watch, (), module.Memory())

    search.seen = seen
    return search


def test_a_gap_that_is_closed_leaves_what_lies_within_it_to_the_next_goals(searched):
    chosen, (told,) = searched(9.5, 9.0)
    assert chosen == (searched.seen.dish,)
    assert (told.status, told.objective, told.bound) == ("optimal", 9.5, 9.0)
    assert searched.seen.later == [(("money",), pytest.approx(10.0))]  # 9 is 0.9 of it
    assert searched.seen.heard == [(9.5e6, 9e6)] * 2  # still of the first goal, in J


def test_a_gap_that_is_open_ends_it_with_the_schedule_there_is(searched):
    chosen, (told,) = searched(20.0, 9.0)
    assert chosen == (searched.seen.dish,)
    assert (told.status, told.objective, told.bound) == ("feasible", 20.0, 9.0)
    assert searched.seen.later == searched.seen.whole == []


def test_without_a_schedule_all_columns_are_solved_at_once_above_the_bound(searched):
    assert searched(None, 9.0) == "all at once"
    assert searched.seen.whole == [9.0]


def test_who_stopped_it_gets_no_other_search(searched):
    chosen, (told,) = searched(None, 9.0, going=False)
    assert (chosen, told.status, told.objective, told.bound) == ((), "no_solution", None, 9.0)
    assert searched.seen.whole == []
