"""What a torn day may burn, cut in two by hand, and what each half comes to.

Four days of two plans: 3 MJ for 1 money, or 1 MJ for 4. The 6.9 MJ of the store let 1.45 days burn
3 MJ; at 1.5 money for a MJ that comes to 11.65 at least.
"""

import math

import pytest

from optimizer.planning import branching
from optimizer.planning.branching import (
    Case,
    Part,
    _at_its_prices,
    _bound,
    _fit,
    _halves,
    _look,
    _on_grid,
    branch,
)
from optimizer.planning.cheapest import Effort
from tests.planning.two_levels.torn_days import torn, with_plans

AT = {"butane": 1.5}
HOT, MILD = ("butane", 1.9, 1e9), ("butane", 0.0, 1.9)  # 3 MJ, 1 MJ


@pytest.fixture
def ladder(cook, days_of, monkeypatch):
    monkeypatch.setattr(branching, "THREADS", 1)

    def make(stock_mj=6.9):
        made = with_plans(torn(cook, days_of, stock_mj=stock_mj))
        made.value, made.bound = 13.0, 11.65
        made.tried.append((11.65, AT))
        return made

    return make


def four(*bands, bound=11.65, at=None):
    return Case((Part(0, 4, bands),), bound, at or AT)


class TestBound:
    @pytest.mark.parametrize(
        ("price", "bound"),
        [(1.5, 4 * 5.5 - 1.5 * 6.9), (1.0, 4 * 4.0 - 6.9), (2.0, 4 * 6.0 - 2 * 6.9)],
    )
    def test_days_less_the_store_at_a_price(self, price, bound, ladder):
        assert _bound(ladder(), four(), {"butane": price}) == pytest.approx(bound)

    def test_each_part_counts_as_often_as_it_has_days(self, ladder):
        case = Case((Part(0, 1, (MILD,)), Part(0, 3)), 0.0, AT)
        assert _bound(ladder(), case, {"butane": 1.0}) == pytest.approx(5.0 + 3 * 4.0 - 6.9)

    def test_a_day_is_proven_ten_times_as_near_as_the_whole(self, ladder, monkeypatch):
        asked = []
        monkeypatch.setattr(branching, "prove", lambda *words: asked.append(words[1:]) or 5.0)
        made = ladder()
        _bound(made, four(MILD), AT)
        assert asked == [("money", AT, (MILD,), pytest.approx(made.gap / 10))]

    def test_none_where_a_part_cannot_be_cooked(self, ladder):
        case = Case((Part(0, 3), Part(0, 1, (("butane", 0.0, 0.5),))), 0.0, AT)
        assert _bound(ladder(), case, AT) is None


class TestHalves:
    def test_one_day_burns_no_more_than_the_mixture_or_all_at_least_as_much(self, ladder):
        low, high = _halves(ladder(), four())
        # 0.45 of a day at 3 MJ and 0.55 at 1 MJ: 1.9 MJ
        (one, rest), (every,) = low.parts, high.parts
        assert (one.count, rest, every.count) == (1, Part(0, 3), 4)
        assert one.bands == (("butane", 0.0, pytest.approx(1.9)),)
        assert every.bands == (("butane", pytest.approx(1.9), 1e9),)
        assert (low.bound, low.at) == (high.bound, high.at) == (11.65, AT)

    def test_the_last_day_of_a_part_leaves_no_rest(self, ladder):
        case = Case((Part(0, 3, (MILD,)), Part(0, 1)), 11.65, AT)
        low, high = _halves(ladder(5.0), case)  # 3 MJ for three days leave 2 for the last
        assert [part.count for part in low.parts] == [part.count for part in high.parts] == [3, 1]
        assert low.parts[0] == high.parts[0] == Part(0, 3, (MILD,))
        assert low.parts[1].bands == (("butane", 0.0, pytest.approx(2.0)),)

    def test_other_parts_keep_their_place(self, ladder):
        case = Case((Part(0, 1), Part(0, 3, (MILD,))), 11.65, AT)
        low, _ = _halves(ladder(5.0), case)
        assert [part.count for part in low.parts] == [1, 3]

    def test_whole_days_are_not_cut(self, ladder):
        assert _halves(ladder(8.0), four()) == []  # two days of each plan burn 8 MJ

    def test_the_best_plan_that_fits_the_store_is_made(self, ladder):
        made = ladder()
        kind = made.days[0].kind
        kind.plans[:] = [plan for plan in kind.plans if plan.fuel_j == (("butane", 3e6),)]
        _fit(made, Part(0, 4), "butane", 1.9)
        assert [(p.value, p.fuel_j) for p in kind.plans][1:] == [(4.0, (("butane", 1e6),))]
        _fit(made, Part(0, 4), "butane", 0.9)  # none burns so little
        assert len(kind.plans) == 2

    def test_a_plan_that_fits_is_looked_for_by_nodes_not_by_the_clock(self, ladder, monkeypatch):
        asked = []
        cheapest = branching.cheapest
        monkeypatch.setattr(
            branching, "cheapest", lambda *words: asked.append(words) or cheapest(*words)
        )
        _fit(ladder(), Part(0, 4), "butane", 1.9)
        (_, _, goal, at, bands, effort), nodes = asked[0], branching._NODES
        assert (goal, at, bands) == ("money", {}, (MILD,))
        assert effort == Effort(1e-3, nodes, math.inf)


class TestAtItsPrices:
    def test_a_case_that_is_not_torn_gets_the_bound_of_its_best_prices(self, ladder):
        case = four(bound=9.0, at={"butane": 1.0})
        found = _at_its_prices(ladder(8.0), case)
        assert found.bound == pytest.approx(4 * 5.5 - 1.5 * 8.0)
        assert found.parts == case.parts

    def test_itself_where_that_is_no_higher(self, ladder):
        case = four(bound=10.0)
        assert _at_its_prices(ladder(8.0), case) is case

    def test_none_where_it_cannot_be_cooked(self, ladder):
        assert _at_its_prices(ladder(), four(("butane", 0.0, 0.5))) is None


class TestLook:
    """Days of 3 MJ only: their bound, 4 + 5.1 p, rises with every price p."""

    def test_three_prices_are_tried_no_more_than_a_step_apart(self, ladder):
        made = ladder()
        found = _look(made, four(HOT))
        # 1.5, 3 % more, 6 % more than that: 1.09 of the first price on a grid of its hundredths
        assert found.at == {"butane": pytest.approx(1.5 * 1.09)}
        assert found.bound == pytest.approx(4 + 5.1 * 1.5 * 1.09)
        assert len(made.days[0].proofs) == 3

    def test_no_further_than_above_the_schedule_known(self, ladder):
        made = ladder()
        made.value = 11.7
        assert _look(made, four(HOT)).bound == pytest.approx(4 + 5.1 * 1.5 * 1.03)

    def test_no_further_when_told_to_stop(self, ladder):
        made = ladder()
        made.report = lambda *_: False
        assert _look(made, four(HOT, bound=0.0)).bound == pytest.approx(4 + 5.1 * 1.5)

    def test_a_bound_known_is_not_lowered(self, ladder):
        found = _look(ladder(), four(HOT, bound=20.0))
        assert (found.bound, found.at) == (20.0, AT)

    def test_no_further_where_prices_can_give_no_more(self, ladder):
        made = ladder()
        assert _look(made, four(bound=0.0)).bound == pytest.approx(11.65)
        assert len(made.days[0].proofs) == 1

    def test_none_where_nothing_is_in_it(self, ladder):
        assert _look(ladder(), four(("butane", 0.0, 0.5))) is None


def test_prices_are_tried_on_a_grid_of_hundredths_so_that_days_are_met_again():
    around = {"butane": 2.0, "sticks": 0.0}
    found = _on_grid({"butane": 2.031, "sticks": 0.123}, around)
    assert found == {"butane": pytest.approx(2.04), "sticks": 0.123}


class TestBranch:
    def test_nothing_without_a_bound_or_a_price(self, ladder):
        made = ladder()
        made.tried = [(11.65, {"butane": 0.0})]
        branch(made)
        made.tried, made.bound = [(11.65, AT)], None
        branch(made)
        assert not made.days[0].proofs

    def test_the_gap_is_closed(self, ladder):
        made = ladder()
        made.value, made.gap = None, 1e-3
        branch(made)
        assert made.value == pytest.approx(13.0)
        assert made.done
        assert made.bound <= 13.0 * (1 + 1e-6)

    @pytest.fixture
    def one_case(self, monkeypatch):
        """Look at one case only, and at no schedule."""
        monkeypatch.setattr(branching, "_CASES", 1)
        monkeypatch.setattr(branching, "combine", lambda *_: ())

    @pytest.mark.usefixtures("one_case")
    @pytest.mark.parametrize("value", [None, 13.0])
    def test_the_bound_is_the_lowest_of_the_cases_left(self, ladder, value):
        made = ladder()
        made.value = value
        branch(made)
        # one day of 1 MJ and three of either: still 11.65; four of 3 MJ: more
        assert made.bound == pytest.approx(11.65)

    @pytest.mark.usefixtures("one_case")
    def test_a_case_of_which_no_more_can_be_made_keeps_its_bound(self, ladder):
        made = ladder(8.0)
        made.bound, made.tried = 10.0, [(10.0, AT)]
        branch(made)
        assert made.bound == pytest.approx(10.0)

    @pytest.mark.usefixtures("one_case")
    def test_where_every_case_comes_to_more_than_the_schedule_known_that_is_the_best(
        self, ladder, monkeypatch
    ):
        monkeypatch.setattr(branching, "_look", lambda *_: None)
        made = ladder()
        branch(made)
        assert made.bound == 13.0
        made = ladder()
        made.value = None  # nothing is known that it could be
        branch(made)
        assert made.bound == 11.65
