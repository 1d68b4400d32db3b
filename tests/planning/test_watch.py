"""What a search tells while it goes on, when it is enough, and what the next goal may have."""

import pytest

from optimizer.planning.board import scale, terms
from optimizer.planning.rows import build
from optimizer.planning.schedule import _enough, _keep, _raised, _Watch
from optimizer.planning.solver import Outcome, set_goal, solve

MJ = 1e6


class TestWatch:
    @pytest.fixture
    def heard(self):
        return []

    @pytest.fixture
    def watch(self, heard):
        return _Watch(lambda *told: heard.append(told))

    def test_value_and_bound_are_told_in_the_unit_of_the_goal(self, watch, heard):
        watch.factor = MJ
        assert watch(99.0, 3.0, 2.0) is True
        assert heard[0][1:] == (3 * MJ, 2 * MJ)

    def test_the_seconds_are_those_of_the_whole_search_not_of_one_solve(self, watch, heard):
        watch.begin -= 100
        watch(1.0, None, None)
        assert 100 <= heard[0][0] == pytest.approx(watch.seconds, abs=50)

    def test_what_is_not_known_is_none(self, watch, heard):
        watch(0.0, None, 2.0)
        watch(0.0, 3.0, None)
        assert [told[1:] for told in heard] == [(None, 2.0), (3.0, None)]

    def test_the_first_goal_is_still_told_while_the_next_is_searched(self, watch, heard):
        watch(0.0, 3.0, 2.0)
        watch.fixed, watch.factor = True, MJ
        watch(0.0, 70.0, 60.0)
        assert heard[1][1:] == (3.0, 2.0)

    def test_only_false_stops_and_once_stopped_it_stays_so(self):
        answers = iter([None, True, False, True])
        watch = _Watch(lambda *_: next(answers))
        assert [watch.report(3.0, 2.0) for _ in range(4)] == [True, True, False, False]
        assert watch.stopped

    def test_with_nobody_to_tell_it_goes_on(self):
        assert _Watch(None)(0.0, None, None) is True

    def test_what_is_reported_between_two_solves(self, watch, heard):
        watch.report(3.0, 2.0)
        assert heard[0][1:] == (3.0, 2.0)


@pytest.mark.parametrize(
    ("best", "bound", "enough"),
    [
        (100.0, None, True),  # 90 was proven elsewhere
        (100.1, None, False),
        (100.1, 90.1, True),
        (100.1, 80.0, False),  # the higher of the two counts
        (None, 90.0, False),
    ],
)
def test_it_is_enough_within_the_gap_of_a_bound_proven_elsewhere(best, bound, enough):
    assert _enough(90.0, 0.1, best, bound) is enough


def test_what_is_saved_may_be_less_than_nothing():
    assert _enough(-110.0, 0.1, -100.0, None)
    assert not _enough(-110.1, 0.1, -100.0, None)


class TestRaised:
    @staticmethod
    def outcome(objective, bound, status="feasible"):
        return Outcome(status, "why", objective, bound, None, 1.0, 0)

    @pytest.mark.parametrize(
        ("objective", "bound", "raised", "gap", "status"),
        [
            (100.0, 50.0, 90.0, 0.1, "optimal"),
            (100.0, None, 90.0, 0.1, "optimal"),
            (100.0, 95.0, 95.0, 0.05, "optimal"),
            (200.0, 50.0, 90.0, 0.55, "feasible"),
            (0.0, -1.0, 90.0, 0.0, "optimal"),
        ],
    )
    def test_the_higher_bound_counts(self, objective, bound, raised, gap, status):
        made = _raised(self.outcome(objective, bound), 90.0, 0.1)
        assert (made.objective, made.bound, made.status) == (objective, raised, status)
        assert made.gap == pytest.approx(gap)

    def test_nothing_found_stays_as_it_is(self):
        nothing = self.outcome(None, 50.0, "no_solution")
        assert _raised(nothing, 90.0, 0.1) is nothing


class TestKept:
    """What the next goal may have of the first: one dish, 1 MJ of gas for 9 money or 3 MJ for 8."""

    @pytest.fixture
    def board(self, cook, kitchen):
        ways = [
            cook(0, "gas", 400, 20, fuel_mj=1.0, money=9.0),
            cook(0, "gas", 430, 20, fuel_mj=3.0, money=8.0),
        ]
        return build(ways, kitchen(0))

    @pytest.mark.parametrize(
        ("bound", "gap", "energy"),
        [
            (8.0, 0.0, 3.0),
            (8.0, 0.111, 3.0),  # 8 / (1 - 0.111) is less than 9
            (8.0, 0.112, 1.0),
            (8.0, 1.0, 3.0),  # no bound says what lies within a gap of all
            (None, 0.5, 3.0),
            (7.0, 0.112, 3.0),  # what was found is never too much
        ],
    )
    def test_what_lies_within_the_gap_of_the_bound(self, board, bound, gap, energy):
        _keep(board, "money", Outcome("optimal", "why", 8.0, bound, None, 1.0, 0), gap)
        set_goal(board.program, terms(board, "energy"))
        outcome = solve(board.program, gap=0.0)
        assert outcome.objective * scale("energy") == pytest.approx(energy * MJ)

    def test_the_row_has_the_name_of_the_goal(self, board):
        _keep(board, "money", Outcome("optimal", "why", 8.0, 8.0, None, 1.0, 0), 0.0)
        assert "keep[money]" in board.program.rows
