"""CBC's answer in our words: its values whole, every row kept, nothing proven."""

import time
import warnings

import pulp
import pytest

from optimizer.errors import CheckError
from optimizer.planning.cbc import second_opinion
from optimizer.planning.program import Program, add_column, add_row, set_goal


def two_fuels(*, whole=False):
    """Least money for 9.5 MJ: cheap sticks (at most 6), dearer gas."""
    program = Program()
    sticks, gas = (add_column(program, name, whole=whole) for name in ("sticks", "gas"))
    add_row(program, "enough heat", [(sticks, 1), (gas, 1)], ">=", 9.5)
    add_row(program, "stock of sticks", [(sticks, 1)], "<=", 6)
    set_goal(program, [(sticks, 2), (gas, 5)])
    return program, sticks, gas


@pytest.fixture(name="engine")
def _engine(monkeypatch):
    """Let CBC say what we like; return the engine it was asked for with."""
    asked = []

    def make(values, status, found):
        def solve(lp, engine):
            asked.append(engine)
            for column, number in values.items():
                column.varValue = number
            lp.assignStatus(status, found)

        monkeypatch.setattr(pulp.LpProblem, "solve", solve)
        return asked

    return make


def test_an_optimum():
    program, sticks, gas = two_fuels()
    begin = time.perf_counter()
    outcome = second_opinion(program, 0.0, 5.0)
    whole_s = time.perf_counter() - begin
    assert (outcome.status, outcome.reason) == ("optimal", "Optimal Solution Found")
    assert (sticks.varValue, gas.varValue) == (6, 3.5)
    assert outcome.objective == pytest.approx(6 * 2 + 3.5 * 5)
    assert type(outcome.objective) is float
    assert (outcome.bound, outcome.gap, outcome.nodes) == (None, None, 0)
    assert 0 < outcome.seconds <= whole_s


def test_an_optimum_in_whole_numbers():
    program, sticks, gas = two_fuels(whole=True)
    assert second_opinion(program, 0.0, None).objective == 32
    assert (sticks.varValue, gas.varValue) == (6.0, 4.0)


def test_nothing_possible():
    program, sticks, gas = two_fuels()
    add_row(program, "little heat", [(sticks, 1), (gas, 1)], "<=", 5)
    outcome = second_opinion(program, 0.0, None)
    assert (outcome.status, outcome.reason) == ("infeasible", "No Solution Exists")
    assert outcome.objective is None
    assert (sticks.varValue, gas.varValue) == (None, None)


def test_no_end():
    program = Program(most=True)
    set_goal(program, [(add_column(program, "x"), 1)])
    outcome = second_opinion(program, 0.0, None)
    assert (outcome.status, outcome.objective) == ("unbounded", None)


@pytest.mark.parametrize(
    ("status", "found", "word"),
    [
        (pulp.LpStatusOptimal, pulp.LpSolutionOptimal, "optimal"),
        (pulp.LpStatusOptimal, pulp.LpSolutionIntegerFeasible, "feasible"),
        (pulp.LpStatusInfeasible, pulp.LpSolutionInfeasible, "infeasible"),
        (pulp.LpStatusInfeasible, pulp.LpSolutionNoSolutionFound, "infeasible"),
        (pulp.LpStatusUnbounded, pulp.LpSolutionUnbounded, "unbounded"),
        (pulp.LpStatusNotSolved, pulp.LpSolutionNoSolutionFound, "no_solution"),
        (pulp.LpStatusUndefined, pulp.LpSolutionNoSolutionFound, "no_solution"),
    ],
)
def test_its_words_in_ours(engine, status, found, word):
    program, sticks, gas = two_fuels()
    engine({sticks: 6.0, gas: 4.0}, status, found)
    outcome = second_opinion(program, 0.0, None)
    there = word in ("optimal", "feasible")
    assert (outcome.status, outcome.reason) == (word, pulp.LpSolution[found])
    assert outcome.objective == (32 if there else None)
    assert (sticks.varValue, gas.varValue) == ((6.0, 4.0) if there else (None, None))


def test_how_hard_it_is_asked_to_look(engine):
    program, sticks, gas = two_fuels()
    asked = engine({sticks: 6.0, gas: 4.0}, pulp.LpStatusOptimal, pulp.LpSolutionOptimal)
    second_opinion(program, 0.02, 7.0)
    (asked,) = asked
    assert (asked.optionsDict["gapRel"], asked.timeLimit) == (0.02, 7.0)
    assert asked.options == ["preprocess off"]
    assert not asked.msg


def test_what_is_nearly_whole_is_made_whole_and_the_rest_left(engine):
    program, n, x = two_fuels(whole=True)
    x.cat = pulp.LpContinuous
    engine({n: 5.9999999, x: 3.5000001}, pulp.LpStatusOptimal, pulp.LpSolutionOptimal)
    outcome = second_opinion(program, 0.0, None)
    assert (n.varValue, x.varValue) == (6.0, 3.5000001)
    assert type(n.varValue) is float
    assert outcome.objective == 6 * 2 + 3.5000001 * 5


@pytest.mark.parametrize(
    ("factor", "rhs", "short", "kept"),
    [
        (1.0, 0.5, 0.9e-5, True),  # a row of numbers up to 1: 1e-5 is rounding
        (0.1, 0.5, 0.9e-5, True),
        (0.1, 0.5, 1.1e-5, False),
        (1.0, 0.5, 1.1e-5, False),
        (1.0, 40.0, 39e-5, True),  # of a right side of 40, 40 times as much
        (1.0, 40.0, 41e-5, False),
        (-30.0, 0.5, 29e-5, True),  # of a factor of 30, 30 times
        (-30.0, 0.5, 31e-5, False),
        (1.0, -40.0, 39e-5, True),
        (1.0, -40.0, 41e-5, False),
    ],
)
def test_a_row_is_kept_but_for_rounding(engine, factor, rhs, short, kept):
    program = Program()
    x = add_column(program, "x", low=None)
    add_row(program, "need", [(x, factor)], ">=", rhs)
    set_goal(program, [(x, 1)])
    engine({x: (rhs - short) / factor}, pulp.LpStatusOptimal, pulp.LpSolutionOptimal)
    if kept:
        assert second_opinion(program, 0.0, None).objective == pytest.approx(x.varValue)
    else:
        with pytest.raises(CheckError, match=r"^the solver's values break the row need$"):
            second_opinion(program, 0.0, None)


@pytest.mark.parametrize("kind", [DeprecationWarning, UserWarning])
def test_what_the_library_says_of_its_age_stays_inside_and_nothing_else(engine, monkeypatch, kind):
    program, sticks, gas = two_fuels()
    engine({sticks: 6.0, gas: 4.0}, pulp.LpStatusOptimal, pulp.LpSolutionOptimal)
    plain = pulp.PULP_CBC_CMD

    def old(*given, **named):
        warnings.warn("use another", kind, stacklevel=1)
        return plain(*given, **named)

    monkeypatch.setattr(pulp, "PULP_CBC_CMD", old)
    with warnings.catch_warnings(record=True) as heard:
        warnings.simplefilter("always")
        assert second_opinion(program, 0.0, None).status == "optimal"
    assert [each.category for each in heard] == ([UserWarning] if kind is UserWarning else [])
