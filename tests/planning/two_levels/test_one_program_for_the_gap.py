"""What is asked of the one program that closes a gap, what is believed of it, what is left to it.

Four days of two plans: 3 MJ for 1 money, or 1 MJ for 4. At 1.5 money for a MJ either comes to
5.5, so four days less the 6.9 MJ of the store come to no less than 22 - 10.35 = 11.65; the best
there is comes to 13. A third plan, 2 MJ for 4, comes to 7 at that price: 1.5 more.
"""

from dataclasses import replace

import pytest

from optimizer.planning import closing
from optimizer.planning.pricing import guess, key_of
from tests.planning.two_levels.torn_days import torn, with_plans

PRICE = {"butane": 1.5}


@pytest.fixture
def heard():
    return []


@pytest.fixture
def ladder(cook, days_of, heard):
    third = cook(0, "gas", 460, 20, fuel_mj=2.0, money=4.0, pot="pot:small")
    made = with_plans(torn(cook, days_of, more=[third]), heard=heard)
    guess(made.days[0], "money", PRICE)
    made.tried.append((11.65, PRICE))
    made.value, made.bound = 13.0, 11.65
    return made


@pytest.fixture
def asked(monkeypatch):
    """Keep what the solver is asked, and let its outcome be another."""
    words = {}

    def solved(program, **more):
        told = words.pop("told", {})
        words.update(more, columns=len(program.columns))
        return replace(solve(program, gap=more["gap"]), **told)

    solve = closing.solve
    monkeypatch.setattr(closing, "solve", solved)
    return words


class TestAsked:
    def test_the_gap_and_the_time_that_are_left(self, ladder, asked):
        assert closing.close(ladder)
        assert asked["gap"] == ladder.gap
        assert 0 < asked["time_limit_s"] <= 100
        assert asked["search"] == "presolved"  # large programs are solved no other way in time

    @pytest.mark.parametrize(
        ("best", "bound", "told"),
        [
            (None, None, (13.0, 11.65)),
            (14.0, 11.0, (13.0, 11.65)),  # less than is known
            (12.5, 12.0, (12.5, 12.0)),
        ],
    )
    def test_progress_tells_the_better_of_what_is_known_and_what_is_found(
        self, ladder, asked, heard, best, bound, told
    ):
        closing.close(ladder)
        ladder.value, ladder.bound = 13.0, 11.65
        assert asked["progress"](0.0, best, bound) is True
        assert heard[-1] == told

    def test_who_stops_the_search_stops_the_program(self, ladder, asked):
        closing.close(ladder)
        ladder.report = lambda *_: False
        assert asked["progress"](0.0, None, None) is False

    @pytest.mark.parametrize(
        ("best", "bound", "enough"),
        [
            (None, None, False),
            (None, 12.99, True),  # the schedule known, 13, is within 0.013 of it
            (None, 12.98, False),
            (11.66, None, True),  # the bound known is 11.65
            (11.67, None, False),
        ],
    )
    def test_it_is_enough_when_both_together_are_within_the_gap(
        self, ladder, asked, best, bound, enough
    ):
        closing.close(ladder)
        ladder.value, ladder.bound = 13.0, 11.65
        assert asked["enough"](best, bound) is enough

    def test_nothing_is_enough_without_a_bound(self, ladder, asked):
        closing.close(ladder)
        ladder.value, ladder.bound = 13.0, None
        assert asked["enough"](13.0, None) is False


class TestBelieved:
    @pytest.mark.parametrize(
        ("status", "bound", "then"),
        [
            ("optimal", 12.5, 12.5),
            ("feasible", 12.5, 12.5),
            ("no_solution", 12.5, 12.5),
            ("infeasible", 12.5, 11.65),  # presolve has called feasible programs so
            ("error", 12.5, 11.65),
            ("feasible", 11.0, 11.65),
            ("feasible", None, 11.65),
            ("feasible", 99.0, 13.0),  # what was left out comes to no less than the plan known
        ],
    )
    def test_a_bound(self, ladder, asked, status, bound, then):
        asked["told"] = {"status": status, "bound": bound}
        assert closing.close(ladder)
        assert ladder.bound == pytest.approx(then)

    def test_a_better_schedule(self, ladder):
        ladder.value = 16.0  # four days of 1 MJ
        assert closing.close(ladder)
        assert ladder.value == pytest.approx(13.0)
        assert len(ladder.chosen) == 4

    def test_nothing_where_no_schedule_was_found(self, ladder, asked):
        ladder.value, asked["told"] = 16.0, {"status": "no_solution"}
        assert closing.close(ladder)
        assert (ladder.value, ladder.chosen) == (16.0, ())


class TestLookedAt:
    def test_only_with_a_schedule_and_prices(self, ladder, asked):
        ladder.value = None
        assert not closing.close(ladder)
        ladder.value, ladder.tried = 13.0, []
        assert not closing.close(ladder)
        assert not asked

    def test_only_what_is_not_too_much(self, ladder, asked, monkeypatch):
        monkeypatch.setattr(closing, "MOST", 7)  # two columns are left of each of four days
        assert not closing.close(ladder)
        assert not asked
        monkeypatch.setattr(closing, "MOST", 8)
        assert closing.close(ladder)
        assert asked["columns"] == 8


class TestLeft:
    @staticmethod
    def kept(ladder, most):
        return [column.fuel_j / 1e6 for column in closing.left(ladder, most)]

    def test_what_comes_to_more_than_the_schedule_known_is_left_out(self, ladder):
        assert self.kept(ladder, 11.65) == [3.0, 1.0] * 4
        assert self.kept(ladder, 11.65 + 1.49) == [3.0, 1.0] * 4
        assert self.kept(ladder, 11.65 + 1.5) == [3.0, 1.0, 2.0] * 4  # as good is kept
        assert not self.kept(ladder, 11.6)

    def test_a_day_proven_to_come_to_more_than_its_guess_leaves_more(self, ladder):
        ladder.days[0].proofs[key_of(PRICE), ()] = 5.7
        assert self.kept(ladder, 11.65 + 1.29) == [3.0, 1.0] * 4
        assert self.kept(ladder, 11.65 + 1.3) == [3.0, 1.0, 2.0] * 4

    def test_a_day_without_a_proof_is_taken_at_its_best_plan(self, ladder):
        kind = ladder.days[0].kind
        kind.plans[:] = [plan for plan in kind.plans if plan.fuel_j == (("butane", 2e6),)]
        # 7 for the day instead of 5.5: that much more may be left
        assert self.kept(ladder, 11.65) == [3.0, 1.0, 2.0] * 4

    def test_every_price_that_was_tried_may_leave_something_out(self, ladder):
        free = {"butane": 0.0}  # the first plan comes to 1, the others to 4
        guess(ladder.days[0], "money", free)
        ladder.tried.append((11.0, free))
        assert self.kept(ladder, 11.65 + 1.5) == [3.0] * 4
        assert self.kept(ladder, 11.0 + 3.0) == [3.0, 1.0, 2.0] * 4
