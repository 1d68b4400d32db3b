"""The door to the solvers: statuses, bounds, prices, starts, and answers counted again by hand."""

import itertools
import random

import highspy
import pulp
import pytest

from optimizer.errors import CheckError
from optimizer.planning import highs
from optimizer.planning.solver import (
    Program,
    add_column,
    add_row,
    dump,
    prices,
    set_goal,
    solve,
    value,
)


def knapsack(items, rows, seed=0, *, most=True):
    chance = random.Random(seed)
    program = Program(most=most)
    take = [add_column(program, f"take[{n}]", high=1, whole=True) for n in range(items)]
    for row in range(rows):
        weights = [(column, chance.randint(5, 60)) for column in take]
        add_row(program, f"room[{row}]", weights, "<=", items * 8)
    set_goal(program, [(column, chance.randint(5, 60)) for column in take])
    return program, take


@pytest.fixture
def hard():
    """Too hard for a tenth of a second."""
    return knapsack(200, 20)


def two_fuels():
    """Least money for 10 MJ: cheap sticks (at most 6), dearer gas."""
    program = Program()
    sticks, gas = (add_column(program, name) for name in ("sticks", "gas"))
    add_row(program, "enough heat", [(sticks, 1), (gas, 1)], ">=", 10)
    add_row(program, "stock of sticks", [(sticks, 1)], "<=", 6)
    set_goal(program, [(sticks, 2), (gas, 5)])
    return program, sticks, gas


class TestStatus:
    def test_optimal_with_bound_and_gap(self):
        program, take = knapsack(30, 3)
        outcome = solve(program, gap=0)
        assert (outcome.status, outcome.gap) == ("optimal", 0)
        assert outcome.bound == pytest.approx(outcome.objective)
        assert all(value(column) in (0.0, 1.0) for column in take)

    def test_time_limit_is_feasible_not_optimal(self, hard):
        outcome = solve(hard[0], gap=0, time_limit_s=0.3)
        assert outcome.status == "feasible"
        assert outcome.solved
        assert outcome.bound > outcome.objective
        assert outcome.gap == pytest.approx((outcome.bound - outcome.objective) / outcome.objective)
        assert "ime" in outcome.reason

    @pytest.mark.parametrize("solver", ["highs", "cbc"])
    def test_infeasible_leaves_no_values(self, solver):
        program = Program()
        column = add_column(program, "x", high=1, whole=True)
        add_row(program, "more than there is", [(column, 1)], ">=", 2)
        outcome = solve(program, solver=solver)
        assert outcome.status == "infeasible"
        assert (outcome.objective, outcome.bound, outcome.gap) == (None, None, None)
        with pytest.raises(CheckError, match="no solution"):
            value(column)

    def test_only_whole_numbers_conflict(self):
        program = Program()
        column = add_column(program, "x", high=9, whole=True)
        add_row(program, "odd", [(column, 2)], "==", 3)
        assert solve(program).status == "infeasible"

    @pytest.mark.parametrize("whole", [True, False])
    def test_unbounded(self, whole):
        program = Program(most=True)
        column = add_column(program, "x", whole=whole)
        other = add_column(program, "y")
        add_row(program, "other", [(other, 1)], "<=", 3)
        set_goal(program, [(column, 1)])
        outcome = solve(program)
        assert outcome.status == "unbounded"
        assert not outcome.solved

    def test_a_row_that_nothing_stands_in(self):
        program = Program()
        add_row(program, "everyone_eats[0]", [], "==", 1)
        assert solve(program).status == "infeasible"

    def test_nothing_at_all(self):
        outcome = solve(Program())
        assert (outcome.status, outcome.objective) == ("optimal", 0)

    def test_stopped_before_anything_is_found(self):
        program = Program()
        chance = random.Random(3)
        take = [add_column(program, f"t[{n}]", high=1, whole=True) for n in range(60)]
        for row in range(5):
            sizes = [(column, chance.randint(100, 999)) for column in take]
            add_row(program, f"exactly[{row}]", sizes, "==", 12_345)
        outcome = solve(program, time_limit_s=0.1)
        assert outcome.status == "no_solution"
        assert outcome.objective is None
        assert take[0].varValue is None

    def test_a_linear_program_out_of_time_has_no_values(self, monkeypatch):
        monkeypatch.setattr(highs, "_LEAST_LIMIT_S", 1e-9)
        program, _, gas = two_fuels()
        chance = random.Random(1)
        for n in range(400):
            more = [add_column(program, f"m[{n},{k}]", high=1) for k in range(8)]
            pairs = [(column, chance.random()) for column in more]
            add_row(program, f"r[{n}]", [*pairs, (gas, chance.random())], ">=", 3)
        assert solve(program, time_limit_s=1e-9).status == "no_solution"
        assert gas.varValue is None


class TestProgress:
    def test_false_stops(self, hard):
        heard = []

        def listen(seconds, best, bound):
            heard.append((seconds, best, bound))
            return len(heard) < 3

        outcome = solve(hard[0], gap=0, time_limit_s=20, progress=listen)
        assert len(heard) == 3
        assert outcome.status in ("feasible", "no_solution")
        assert outcome.seconds < 10

    def test_best_and_bound_in_the_sense_of_the_program(self, hard):
        heard = []
        solve(hard[0], gap=0, time_limit_s=0.6, progress=lambda *told: heard.append(told))
        best, bound = next((b, d) for _, b, d in reversed(heard) if b is not None)
        assert 0 < best <= bound

    def test_an_exception_comes_through(self, hard):
        def broken(*_):
            raise KeyboardInterrupt

        with pytest.raises(KeyboardInterrupt):
            solve(hard[0], gap=0, time_limit_s=20, progress=broken)


class TestStart:
    def test_is_never_lost(self, hard):
        program, take = hard
        first = solve(program, gap=0, time_limit_s=0.5)
        known = {column: value(column) for column in take}
        again = solve(program, gap=0, time_limit_s=0.1, start=known)
        assert again.solved
        assert again.objective >= first.objective - 1e-6

    def test_a_start_that_does_not_fit_is_left_alone(self):
        program, take = knapsack(20, 2)
        honest = solve(program, gap=0).objective
        assert solve(program, gap=0, start=dict.fromkeys(take, 1.0)).objective == honest


class TestPrices:
    def test_of_a_minimum(self):
        program, sticks, gas = two_fuels()
        outcome = solve(program)
        assert (value(sticks), value(gas), outcome.objective) == (6, 4, 32)
        # One MJ more of need is met by gas (5); one more of sticks saves 5 - 2.
        assert prices(program) == pytest.approx({"enough heat": 5, "stock of sticks": -3})

    def test_of_a_maximum_keep_their_sign(self):
        program = Program(most=True)
        days = add_column(program, "days")
        add_row(program, "stock", [(days, 2)], "<=", 10)
        set_goal(program, [(days, 1)])
        assert solve(program).objective == 5
        assert prices(program) == pytest.approx({"stock": 0.5})

    def test_with_whole_numbers_held(self):
        program = Program()
        x = add_column(program, "x", high=4)
        n = add_column(program, "n", high=9, whole=True)
        add_row(program, "need", [(x, 1), (n, 2)], ">=", 3.3)
        set_goal(program, [(x, 3), (n, 5)])
        # By hand: n = 1, x = 1.3 costs 8.9; n = 2 costs 10; n = 0 costs 9.9.
        assert solve(program, gap=0).objective == pytest.approx(8.9)
        assert prices(program) == pytest.approx({"need": 3})
        assert (value(n), n.lowBound, n.upBound) == (1, 0, 9)
        assert value(x) == pytest.approx(1.3)

    def test_without_a_solution(self):
        program, *_ = two_fuels()
        with pytest.raises(CheckError):
            prices(program)


class TestProgram:
    def test_a_name_is_used_once(self):
        program, sticks, _ = two_fuels()
        with pytest.raises(ValueError, match="sticks"):
            add_column(program, "sticks")
        with pytest.raises(ValueError, match="enough heat"):
            add_row(program, "enough heat", [(sticks, 1)], ">=", 1)

    def test_a_column_stands_in_a_row_once(self):
        program, sticks, _ = two_fuels()
        with pytest.raises(ValueError, match="twice"):
            add_row(program, "two", [(sticks, 1), (sticks, 1)], "<=", 1)
        with pytest.raises(ValueError, match="twice"):
            set_goal(program, [(sticks, 1), (sticks, 1)])
        assert "two" not in program.rows

    def test_plain_names_that_differ_in_signs_only_stay_apart(self):
        program = Program()
        for name in ("tea-pot [x]", "tea pot [x]", "tea_pot__x_"):
            add_row(program, name, [(add_column(program, name), 1)], ">=", len(name))
        set_goal(program, [(column, 1) for column in program.columns.values()])
        assert solve(program).objective == 11 + 11 + 11
        assert set(prices(program)) == {"tea-pot [x]", "tea pot [x]", "tea_pot__x_"}

    def test_dump_does_not_depend_on_the_order(self):
        def built(order):
            program = Program()
            column = {name: add_column(program, name, high=1) for name in order}
            for name in order:
                add_row(program, f"row {name}", [(column[n], 2) for n in order], "<=", 3)
            set_goal(program, [(column[n], 1) for n in order])
            return dump(program)

        assert built("abc") == built("cab")
        assert "row a: +2 a +2 b +2 c <= 3" in built("bca").splitlines()


class TestAgainstOthers:
    @pytest.mark.parametrize("seed", range(12))
    def test_every_choice_counted(self, seed):
        program, take = knapsack(9, 3, seed)
        outcome = solve(program, gap=0)
        gain = dict(program.problem.objective.items())
        best = 0
        for picked in itertools.product((0, 1), repeat=len(take)):
            number = dict(zip(take, picked, strict=True))
            loads = (
                (sum(f * number[c] for c, f in row.items()), row.getUb())
                for row in program.rows.values()
            )
            if all(load <= room for load, room in loads):
                best = max(best, sum(gain[c] * n for c, n in number.items()))
        assert outcome.objective == pytest.approx(best)

    @pytest.mark.parametrize("seed", range(6))
    def test_the_second_opinion_agrees(self, seed):
        program, _ = knapsack(25, 4, seed)
        ours = solve(program, gap=0)
        other = solve(program, gap=0, solver="cbc")
        assert (other.status, other.objective) == ("optimal", pytest.approx(ours.objective))
        assert (other.bound, other.gap) == (None, None)

    def test_the_second_opinion_at_a_time_limit(self, hard):
        other = solve(hard[0], gap=0, time_limit_s=0.5, solver="cbc")
        assert other.status in ("feasible", "no_solution")

    def test_the_second_opinion_is_not_trusted_blindly(self, monkeypatch):
        program, take = knapsack(10, 2)

        def lie(lp, solver):  # everything fits, says the solver
            for column in take:
                column.varValue = 1.0
            lp.assignStatus(pulp.LpStatusOptimal, pulp.LpSolutionOptimal)

        monkeypatch.setattr(pulp.LpProblem, "solve", lie)
        with pytest.raises(CheckError, match=r"break the row room\[0\]"):
            solve(program, solver="cbc")


# Rows of a schedule cut down until no more could go: column -> coefficient, sense, right-hand side.
CALLED_INFEASIBLE = [
    ({0: 1, 1: 1, 2: 1}, "==", 1),
    ({3: 1}, "==", 1),
    ({5: 1, 6: 1, 7: 1, 8: 1}, "==", 1),
    ({9: 1, 10: 1, 11: 1}, "==", 1),
    ({6: 80, 8: 90}, "<=", 120),
    ({6: 70, 8: 120, 14: -1}, "<=", 0),
    ({4: -30, 6: -30, 8: -30, 13: 240, 14: 2}, "<=", 240),
    ({4: 1, 8: 1, 12: -1, 13: -1}, "<=", 0),
    ({0: 1, 6: 1, 10: 1, 12: -1, 13: -1}, "<=", 0),
    ({2: 1, 6: 1, 11: 1}, "<=", 1),
    ({0: 1, 8: 1, 10: 1}, "<=", 2),
    (
        {0: 1.42, 1: 2.68, 3: 1.76, 7: 2.21, 8: 1.725, 9: 1.35625, 10: 1.26875, 12: 1.5},
        "<=",
        6.193022186589,
    ),
]


class TestTraps:
    def test_a_feasible_program_that_presolve_calls_infeasible(self):
        """Presolve of highspy 1.15.1 does; columns 2, 3, 5 and 9 alone keep every row."""
        program = Program()
        columns = [
            add_column(program, f"x[{n}]", high=120 if n == 14 else 1, whole=n != 14)
            for n in range(15)
        ]
        for number, (row, sense, rhs) in enumerate(CALLED_INFEASIBLE):
            pairs = [(columns[n], factor) for n, factor in row.items()]
            add_row(program, f"row[{number}]", pairs, sense, rhs)
        assert solve(program).status == "optimal"
        assert all(row.valid(1e-6) for row in program.rows.values())

    def test_a_lost_objective_is_noticed(self, monkeypatch):
        honest = highs._outcome

        def offset(engine, **sense):
            outcome = honest(engine, **sense)
            return highs.Outcome(
                outcome.status, outcome.reason, outcome.objective - 0.5, None, None, 0.0, 0
            )

        monkeypatch.setattr(highs, "_outcome", offset)
        with pytest.raises(CheckError, match="the solver says"):
            solve(two_fuels()[0])

    def test_another_number_of_threads_before(self):
        highspy.Highs.resetGlobalScheduler(True)
        before = highspy.Highs()
        before.setOptionValue("output_flag", False)
        before.setOptionValue("threads", 2)
        before.addVar(0, 1)
        before.run()
        assert solve(two_fuels()[0]).objective == 32

    def test_the_same_answer_every_time(self):
        answers = []
        for _ in range(2):
            program, take = knapsack(60, 10, 5)
            outcome = solve(program, gap=0.001)
            answers.append((outcome.objective, outcome.nodes, [value(c) for c in take]))
        assert answers[0] == answers[1]

    def test_silent(self, capfd):
        program, _ = knapsack(20, 2)
        solve(program)
        solve(program, solver="cbc")
        assert capfd.readouterr() == ("", "")
