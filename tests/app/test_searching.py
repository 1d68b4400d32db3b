"""A search remembers what an earlier one worked out for the same household, and nothing else."""

from itertools import islice

import pytest

from app import searching
from app.searching import Search
from app.turns import Turns
from optimizer.planning.planner import plan
from optimizer.scenario.reading import parse
from optimizer.studies.chances.study import with_chances

EDITS = {
    "another stock": ("stock: 3 kg", "stock: 2.5 kg"),
    "another dish": ("[porridge]", "[tea]"),
    "another household": ("pot_2_5l", "pot_4l"),
}


def found(text):
    made = Search(text, 0.01, 30.0, Turns(1)).wait(60)
    assert made is not None
    return made.plan


@pytest.mark.parametrize(("old", "new"), EDITS.values(), ids=EDITS)
def test_after_an_edit_it_is_the_plan_of_a_first_search(small, old, new, monkeypatch):
    text = small.replace(old, new)
    assert text != small
    monkeypatch.setattr(searching, "_MEMORIES", [])
    found(small)
    assert len(searching._MEMORIES) == 1
    scenario = parse(text)
    again, alone = found(text), with_chances(plan(scenario), scenario)
    assert again.steps == alone.steps
    assert again.goal == alone.goal


def test_a_memory_is_lent_to_one_search_at_a_time(monkeypatch):
    monkeypatch.setattr(searching, "_MEMORIES", [])
    with searching._remembered("here") as one:
        one.household = "here"
        with searching._remembered("here") as other:
            assert other is not one
    with searching._remembered("here") as again:
        assert again is one


def test_a_search_that_is_dropped_before_its_turn_plans_nothing(small, monkeypatch):
    planned, turns = [], Turns(1)
    monkeypatch.setattr(searching, "make_plans", lambda *_, **__: planned.append(1))
    with turns.taken():
        search = Search(small, 0.01, 30.0, turns)
        search.drop()
    assert search.wait(60).why == "stopped"
    assert planned == []


@pytest.mark.filterwarnings("ignore::pytest.PytestUnhandledThreadExceptionWarning")
@pytest.mark.parametrize("parts", [0, 1], ids=["at once", "after the schedule"])
def test_a_search_that_breaks_is_told_as_a_fault_and_lets_the_next_one_go_on(
    small, monkeypatch, parts
):
    def breaking(scenario, **words):
        yield from islice(make_plans(scenario, **words), parts)
        raise ZeroDivisionError

    make_plans, turns = searching.make_plans, Turns(1)
    monkeypatch.setattr(searching, "make_plans", breaking)
    assert Search(small, 0.01, 30.0, turns).wait(60).why == "defect"
    monkeypatch.undo()
    assert Search(small, 0.01, 30.0, turns).wait(60).plan.steps
