"""How HiGHS is set up, what it is asked while it runs, and how its numbers are read."""

import math
from types import SimpleNamespace

import highspy
import pytest

from optimizer.planning import highs
from optimizer.planning.highs import Highs, _gap, _listener, _word
from optimizer.planning.solver import (
    Program,
    add_column,
    add_row,
    reduced_cost,
    set_goal,
    solve,
    solve_linear,
    value,
)


class TestListening:
    """HiGHS calls with numbers of a minimum; infinity is what it does not know yet."""

    @pytest.fixture
    def clock(self, monkeypatch):
        now = SimpleNamespace(s=50.0)
        monkeypatch.setattr(highs.time, "perf_counter", lambda: now.s)
        return now

    @staticmethod
    def call(listen, best=3.0, bound=2.0, seconds=1.5):
        into = SimpleNamespace(user_interrupt=False)
        out = SimpleNamespace(mip_primal_bound=best, mip_dual_bound=bound, running_time=seconds)
        listen(None, "", out, into, None)
        return into.user_interrupt

    def test_progress_hears_seconds_best_and_bound(self, clock):
        heard = []
        listen = _listener(lambda *told: heard.append(told), None, 1.0)
        assert not self.call(listen)
        clock.s += 1
        self.call(listen, best=math.inf, bound=-math.inf)
        assert heard == [(1.5, 3.0, 2.0), (1.5, None, None)]

    def test_a_maximum_is_told_with_its_own_sign(self, clock):
        heard = []
        asked = []
        listen = _listener(
            lambda *told: heard.append(told), lambda *told: asked.append(told) or False, -1.0
        )
        self.call(listen, best=-3.0, bound=-4.0)
        assert heard == [(1.5, 3.0, 4.0)]
        assert asked == [(3.0, 4.0)]

    def test_progress_is_not_told_thousands_of_times_a_second(self, clock):
        heard = []
        listen = _listener(lambda *told: heard.append(told), None, 1.0)
        for _ in range(11):
            self.call(listen)
            clock.s += 0.06
        assert len(heard) == 6  # every 0.12 s

    def test_only_false_stops(self, clock):
        assert self.call(_listener(lambda *_: False, None, 1.0))
        assert not self.call(_listener(lambda *_: None, None, 1.0))

    def test_enough_is_asked_each_time_so_that_no_clock_decides_it(self, clock):
        asked = []
        listen = _listener(None, lambda *told: asked.append(told) or len(asked) == 3, 1.0)
        assert [self.call(listen) for _ in range(3)] == [False, False, True]
        assert asked == [(3.0, 2.0)] * 3

    def test_what_is_enough_is_not_told_first(self, clock):
        heard = []
        listen = _listener(lambda *told: heard.append(told), lambda *_: True, 1.0)
        assert self.call(listen)
        assert heard == []


class TestSetUp:
    """What HiGHS itself has for options when it begins."""

    @pytest.fixture
    def options(self, monkeypatch):
        """Solve one whole number and return an option's value."""
        runs = []
        run = Highs.callSolver
        monkeypatch.setattr(
            Highs, "callSolver", lambda self, lp: runs.append(lp.solverModel) or run(self, lp)
        )

        def options(name, **words):
            program = Program()
            pots = add_column(program, "pots", whole=True)
            add_row(program, "enough", [(pots, 2)], ">=", 3)
            set_goal(program, [(pots, 1)])
            assert solve(program, **words).objective == 2
            return runs[-1].getOptionValue(name)[1]

        return options

    @pytest.mark.parametrize(
        ("search", "presolve"), [("full", "off"), ("plain", "off"), ("presolved", "choose")]
    )
    def test_presolve_has_called_feasible_programs_infeasible(self, options, search, presolve):
        assert options("presolve", search=search) == presolve

    @pytest.mark.parametrize("search", ["full", "plain", "presolved"])
    def test_the_rule_of_presolve_that_is_wrong_is_off(self, options, search):
        assert options("presolve_rule_off", search=search) == 1 << 16  # enumeration

    @pytest.mark.parametrize(("search", "guesses"), [("full", True), ("plain", False)])
    def test_small_programs_need_no_guesses(self, options, search, guesses):
        for name in ("feasibility_jump", "rins", "rens", "root_reduced_cost"):
            assert options(f"mip_heuristic_run_{name}", search=search) is guesses

    def test_the_same_answer_every_time_needs_one_thread_and_one_seed(self, options):
        assert options("threads") == 1
        assert options("random_seed") == 0

    def test_gap_time_and_nodes(self, options):
        assert options("mip_rel_gap", gap=0.03) == 0.03
        assert options("time_limit", time_limit_s=7.0) == 7.0
        assert options("time_limit", time_limit_s=-1.0) == 0.05  # too late: it looks once
        assert options("time_limit") == math.inf
        assert options("mip_max_nodes", most_nodes=5) == 5


class TestGap:
    @pytest.mark.parametrize(
        ("objective", "bound", "gap"),
        [
            (10.0, 8.0, 0.2),
            (8.0, 10.0, 0.25),  # of a maximum
            (-10.0, -12.0, 0.2),
            (10.0, 10.0 - 1e-10, 0.0),  # rounding
            (0.0, 0.0, 0.0),
            (0.0, -1.0, math.inf),
            (None, 8.0, None),
            (10.0, None, None),
        ],
    )
    def test_share_of_the_objective_that_the_bound_leaves(self, objective, bound, gap):
        assert _gap(objective, bound) == (gap if gap is None else pytest.approx(gap))


@pytest.mark.parametrize(
    ("status", "values", "word"),
    [
        ("kOptimal", 2, "optimal"),
        ("kModelEmpty", 0, "optimal"),
        ("kInfeasible", 0, "infeasible"),
        ("kUnbounded", 2, "unbounded"),
        ("kTimeLimit", 2, "feasible"),
        ("kTimeLimit", 1, "no_solution"),  # values that break a row
        ("kTimeLimit", 0, "no_solution"),
        ("kInterrupt", 2, "feasible"),
        ("kSolutionLimit", 2, "feasible"),
        ("kUnboundedOrInfeasible", 0, "no_solution"),
        ("kLoadError", 2, "error"),
        ("kModelError", 2, "error"),
        ("kPresolveError", 2, "error"),
        ("kSolveError", 2, "error"),
        ("kPostsolveError", 2, "error"),
        ("kNotset", 2, "error"),
    ],
)
def test_statuses_in_our_words(status, values, word):
    engine = SimpleNamespace(
        getModelStatus=lambda: getattr(highspy.HighsModelStatus, status),
        getInfo=lambda: SimpleNamespace(primal_solution_status=values),
    )
    assert _word(engine) == word


class TestLinear:
    """At least 10 MJ: sticks at 2, no more than 6 of them; gas in bottles of 3 MJ at 15."""

    @pytest.fixture
    def program(self):
        made = Program()
        sticks = add_column(made, "sticks", high=6)
        bottles = add_column(made, "bottles", whole=True)
        add_row(made, "enough heat", [(sticks, 1), (bottles, 3)], ">=", 10)
        set_goal(made, [(sticks, 2), (bottles, 15)])
        return made

    def test_whole_numbers_may_be_any_between(self, program):
        outcome = solve_linear(program)
        assert value(program.columns["bottles"]) == pytest.approx(4 / 3)
        assert (outcome.status, outcome.objective) == ("optimal", pytest.approx(12 + 20))
        assert outcome.bound == pytest.approx(32)
        assert outcome.gap == 0.0

    def test_a_reduced_cost_is_what_one_more_of_a_column_changes(self, program):
        solve_linear(program)
        # one more of the sticks, if there were any, would spare a third of a bottle: 2 - 5
        assert reduced_cost(program.columns["sticks"]) == pytest.approx(-3)
        assert reduced_cost(program.columns["bottles"]) == pytest.approx(0)

    def test_of_a_maximum_it_keeps_its_sign(self):
        made = Program(most=True)
        pots = add_column(made, "pots", high=4)
        set_goal(made, [(pots, 7)])
        assert solve_linear(made).objective == pytest.approx(28)
        assert reduced_cost(pots) == pytest.approx(7)

    def test_in_whole_bottles(self, program):
        outcome = solve(program, gap=0.0)
        assert value(program.columns["bottles"]) == 2
        assert value(program.columns["sticks"]) == pytest.approx(4)
        assert outcome.objective == pytest.approx(8 + 30)
