"""What the one door asks of HiGHS and of CBC, and which answer it believes."""

from dataclasses import replace

import pytest

from optimizer.errors import CheckError
from optimizer.planning import highs, solver
from optimizer.planning.solver import (
    Outcome,
    Program,
    add_column,
    add_row,
    prices,
    reduced_cost,
    set_goal,
    solve,
    value,
)


@pytest.fixture
def program():
    """At least 3 from bottles of 2: two of them."""
    made = Program()
    bottles = add_column(made, "bottles", whole=True)
    add_row(made, "enough", [(bottles, 2)], ">=", 3)
    set_goal(made, [(bottles, 1)])
    return made


@pytest.fixture
def engines(monkeypatch):
    """Keep every engine with what it was asked; ``told`` are statuses to give in turn."""
    made, told = [], []

    class Kept(solver.Highs):
        def __init__(self, gap, limit, progress=None, **words):
            super().__init__(gap, limit, progress, **words)
            self.words = {"gap": gap, "limit": limit, "progress": progress, **words}
            made.append(self)

    def outcome(engine, **sense):
        honest = read(engine, **sense)
        return replace(honest, status=told.pop(0)) if told else honest

    read = highs._outcome
    monkeypatch.setattr(highs, "_outcome", outcome)
    monkeypatch.setattr(solver, "Highs", Kept)
    Kept.made, Kept.told = made, told
    return Kept


def heard(*_):
    return None


def enough(*_):
    return False


class TestHighs:
    def test_all_that_is_asked_is_handed_on(self, program, engines):
        start = {program.columns["bottles"]: 2.0}
        solve(
            program,
            gap=0.25,
            time_limit_s=9.0,
            start=start,
            progress=heard,
            search="plain",
            most_nodes=7,
            enough=enough,
        )
        (engine,) = engines.made
        assert engine.words == {
            "gap": 0.25,
            "limit": 9.0,
            "progress": heard,
            "most": False,
            "whole": True,
            "search": "plain",
            "most_nodes": 7,
            "enough": enough,
        }
        assert engine.start == start

    def test_presolve_begins_without_a_start(self, program, engines):
        solve(program, search="presolved", start={program.columns["bottles"]: 2.0})
        assert engines.made[0].start is None

    def test_quick_believes_an_optimum_of_the_first_node(self, program, engines):
        assert solve(program, search="quick", gap=0.25, time_limit_s=9.0).objective == 2
        (engine,) = engines.made
        assert (engine.words["search"], engine.words["most_nodes"]) == ("presolved", 1)
        assert (engine.words["gap"], engine.words["limit"]) == (0.25, 9.0)

    @pytest.mark.parametrize("status", ["infeasible", "feasible", "no_solution", "error"])
    def test_quick_believes_nothing_else(self, program, engines, status):
        engines.told[:] = [status]
        start = {program.columns["bottles"]: 2.0}
        outcome = solve(
            program, search="quick", start=start, most_nodes=7, progress=heard, enough=enough
        )
        first, second = engines.made
        assert (first.words["progress"], first.words["enough"]) == (heard, enough)
        assert (second.words["search"], second.words["most_nodes"]) == ("plain", 7)
        assert second.start == start
        assert (outcome.status, outcome.objective) == ("optimal", 2)

    @pytest.mark.parametrize("status", ["optimal", "feasible", "no_solution"])
    def test_presolved_first_is_believed_to_the_end(self, program, engines, status):
        engines.told[:] = [status]
        words = {"gap": 0.25, "time_limit_s": 9.0, "most_nodes": 7}
        assert solve(program, search="presolved_first", **words).status == status
        (engine,) = engines.made
        assert (engine.words["search"], engine.words["most_nodes"]) == ("presolved", 7)
        assert (engine.words["gap"], engine.words["limit"]) == (0.25, 9.0)

    @pytest.mark.parametrize("status", ["infeasible", "error"])
    def test_but_not_that_there_is_no_solution(self, program, engines, status):
        engines.told[:] = [status]
        assert solve(program, search="presolved_first").objective == 2
        assert [engine.words["search"] for engine in engines.made] == ["presolved", "plain"]

    def test_values_of_an_earlier_solve_are_forgotten(self, program):
        solve(program)
        add_row(program, "none", [(program.columns["bottles"], 1)], "<=", 1)
        assert solve(program).status == "infeasible"
        with pytest.raises(CheckError, match=r"^a column was read although the solver gave no"):
            value(program.columns["bottles"])


def test_cbc_is_asked_for_the_same_gap_and_time(program, monkeypatch):
    other = Outcome("optimal", "why", 2.0, None, None, 0.0, 0)
    asked = []
    monkeypatch.setattr(solver, "second_opinion", lambda *words: asked.append(words) or other)
    assert solve(program, gap=0.25, time_limit_s=9.0, solver="cbc") is other
    assert asked == [(program, 0.25, 9.0)]


def test_a_reduced_cost_needs_a_linear_solve(program):
    solve(program)
    with pytest.raises(CheckError, match=r"^a column has no reduced cost: its program was not"):
        reduced_cost(program.columns["bottles"])


def test_prices_that_cannot_be_found_say_why_and_leave_all_as_it_was(program):
    solve(program)
    bottles = program.columns["bottles"]
    add_row(program, "none", [(bottles, 1)], "<=", 1)  # two are held
    with pytest.raises(CheckError, match=r"^no prices: Infeasible$"):
        prices(program)
    assert (bottles.lowBound, bottles.upBound, value(bottles)) == (0, None, 2.0)
