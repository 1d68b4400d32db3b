"""One kind of day at a price, by hand: 3 MJ for 1 money, 1 MJ for 4, or 2 MJ for 4.

With a MJ at p these come to 1 + 3 p, 4 + p and 4 + 2 p.
"""

import math

import pytest

from optimizer.planning import pricing
from optimizer.planning.cheapest import Cheapest, Effort
from optimizer.planning.combining import combine, guessed, planned
from optimizer.planning.days import DayPlan, kinds_of
from optimizer.planning.pricing import day_of, guess, plans_within, promising, prove, sketched
from tests.planning.two_levels.torn_days import torn, with_plans


@pytest.fixture
def ladder(cook, days_of):
    third = cook(0, "gas", 460, 20, fuel_mj=2.0, money=4.0, pot="pot:small")
    return with_plans(torn(cook, days_of, more=[third]))


@pytest.fixture
def day(ladder):
    """The day without a plan."""
    (made,) = ladder.days
    made.kind.plans.clear()
    return made


@pytest.fixture
def asked(monkeypatch):
    """Keep what is asked of each program of columns; its answer may be another."""
    words = []
    solved = pricing.cheapest

    def cheapest(columns, _kitchen, goal, at, bands, effort, start):
        burnt = [column.fuel_j / 1e6 for column in columns]
        words.append((burnt, goal, at, bands, effort, [c.fuel_j / 1e6 for c in start]))
        return (
            answers.pop(0) if answers else solved(columns, _kitchen, goal, at, bands, effort, start)
        )

    answers = []
    monkeypatch.setattr(pricing, "cheapest", cheapest)
    cheapest.answers, cheapest.words = answers, words
    return cheapest


def burnt(day):
    return [plan.fuel_j[0][1] / 1e6 for plan in day.kind.plans]


class TestGuess:
    @pytest.mark.parametrize(
        ("price", "bound", "value", "mj", "more"),
        [
            (0.0, 1.0, 1.0, 3.0, [0.0, 3.0, 3.0]),
            (1.0, 4.0, 1.0, 3.0, [0.0, 1.0, 2.0]),
            (2.0, 6.0, 4.0, 1.0, [1.0, 0.0, 2.0]),
        ],
    )
    def test_the_least_at_a_price_and_how_much_more_the_others_take(
        self, day, price, bound, value, mj, more
    ):
        found = guess(day, "money", {"butane": price})
        assert (found.bound, found.value) == (pytest.approx(bound), pytest.approx(value))
        assert found.fuel_mj == {"butane": pytest.approx(mj)}
        by_column = [
            cost
            for places, cost in zip(day.members, found.reduced_costs, strict=True)
            for _ in places
        ]
        assert by_column == pytest.approx(more)

    def test_it_is_worked_out_once_whatever_the_order_of_the_fuels(self, day):
        first = guess(day, "money", {"butane": 1.0, "sticks": 2.0})
        assert guess(day, "money", {"sticks": 2.0, "butane": 1.0}) is first
        assert guess(day, "money", {"butane": 1.0}) is not first

    def test_none_where_it_cannot_be_cooked(self, cook, days_of):
        one_burner = [cook(0, "gas", 400, 20), cook(1, "gas", 400, 20)]
        case = days_of([one_burner])
        (kind,) = kinds_of(case.columns, case.room)
        made = day_of(kind)
        assert guess(made, "money", {}) is None
        assert sketched(made, "money", {}) is None
        assert prove(made, "money", {}) is None


class TestProof:
    def test_the_plan_and_its_proof_are_kept(self, day, asked):
        assert prove(day, "money", {"butane": 1.0}) == pytest.approx(4.0)
        assert burnt(day) == [3.0]
        solves = len(asked.words)
        assert prove(day, "money", {"butane": 1.0}) == pytest.approx(4.0)
        assert len(asked.words) == solves

    def test_it_is_asked_as_near_as_is_wanted_and_no_longer(self, day, asked):
        day.until = 1e12
        prove(day, "money", {"butane": 1.0}, gap=0.02, most_nodes=7)
        sketch, proof = asked.words
        assert sketch[4] == Effort(0.003, None, 1e12)
        assert proof[4] == Effort(0.02, 7, 1e12)
        assert (proof[1], proof[2], proof[3]) == ("money", {"butane": 1.0}, ())

    def test_it_begins_with_the_best_plan_known_and_leaves_out_what_comes_to_more(self, day, asked):
        prove(day, "money", {"butane": 1.0})
        sketch, proof = asked.words
        assert sketch[5] == []
        assert (proof[0], proof[5]) == ([3.0], [3.0])

    def test_within_bands_only_a_plan_that_keeps_to_them_is_a_start(self, day, asked):
        prove(day, "money", {"butane": 1.0})
        asked.words.clear()
        low = (("butane", 0.0, 2.5),)
        assert prove(day, "money", {"butane": 1.0}, low) == pytest.approx(5.0)
        assert asked.words[-1][3] == low
        assert asked.words[-1][5] == [1.0]
        assert burnt(day) == [3.0, 1.0]

    def test_no_bound_above_a_plan_that_is_known(self, day, asked):
        sketched(day, "money", {"butane": 1.0})
        asked.answers[:] = [Cheapest((), math.inf)]
        assert prove(day, "money", {"butane": 1.0}) == pytest.approx(4.0)

    def test_no_bound_below_the_guess_and_what_was_cut_short_is_not_kept(self, day, asked):
        sketched(day, "money", {"butane": 1.0})
        asked.answers[:] = [Cheapest((), -math.inf, cut_short=True)]
        assert prove(day, "money", {"butane": 1.0}) == pytest.approx(4.0)
        assert day.proofs == {}

    def test_none_where_no_plan_keeps_to_the_bands(self, day):
        assert prove(day, "money", {"butane": 1.0}, (("butane", 4.0, 9.0),)) is None


class TestSketch:
    def test_it_is_drawn_once_at_a_price(self, day, asked):
        assert sketched(day, "money", {"butane": 1.0}) == pytest.approx(4.0)
        assert sketched(day, "money", {"butane": 1.0}) == pytest.approx(4.0)
        assert len(asked.words) == 1
        assert burnt(day) == [3.0]

    def test_columns_are_let_in_until_there_is_a_plan(self, day, asked):
        # at 1 money the others come to 25 % and 50 % more than 4
        asked.answers[:] = [Cheapest((), math.inf)] * 4
        sketched(day, "money", {"butane": 1.0})
        assert [words[0] for words in asked.words] == [[3.0]] * 3 + [[3.0, 1.0, 2.0]]
        assert burnt(day) == []


class TestPromising:
    @pytest.mark.parametrize(
        ("slack", "places"),
        [(0.0, [0]), (0.24, [0]), (0.25, [0, 1]), (0.49, [0, 1]), (0.5, [0, 1, 2])],
    )
    def test_what_comes_as_near_as_is_asked(self, day, slack, places):
        sketched(day, "money", {"butane": 1.0})
        assert promising(day, "money", {"butane": 1.0}, slack) == places

    def test_columns_of_its_plans_are_always_there(self, day):
        day.kind.add([day.kind.columns[2]], "money")
        sketched(day, "money", {"butane": 1.0})
        assert promising(day, "money", {"butane": 1.0}, 0.0) == [0, 2]


@pytest.mark.parametrize(
    ("bands", "kept"),
    [
        ((), [3.0, 1.0, 2.0]),
        ((("butane", 0.0, 2.0),), [1.0, 2.0]),
        ((("butane", 2.0, 3.0),), [3.0, 2.0]),
        ((("butane", 0.0, 2.0 - 2e-6),), [1.0]),
        ((("butane", 2.0 + 2e-6, 9.0),), [3.0]),
        ((("butane", 0.0, 2.0 - 5e-7),), [1.0, 2.0]),  # rounding
        ((("butane", 2.0 + 5e-7, 9.0),), [3.0, 2.0]),
        ((("sticks", 0.0, 1.0),), [3.0, 1.0, 2.0]),  # none is burnt
        ((("sticks", 0.5, 1.0),), []),
        ((("butane", 0.0, 2.0), ("sticks", 0.5, 1.0)), []),
    ],
)
def test_plans_that_burn_what_they_may(ladder, bands, kept):
    (day,) = ladder.days
    assert [plan.fuel_j[0][1] / 1e6 for plan in plans_within(day.kind, bands)] == kept


class TestCombined:
    def test_plans_and_guesses_as_points(self, ladder):
        plan = DayPlan((0,), 5e6, (("butane", 3e6), ("sticks", 1e6)))
        assert planned([[plan], []], "energy") == [[(5.0, {"butane": 3.0, "sticks": 1.0})], []]
        assert planned([[plan]], "money")[0][0][0] == 5e6
        (day,) = ladder.days
        guess(day, "money", {"butane": 1.0})
        guess(day, "money", {"butane": 2.0})
        assert guessed(ladder.days) == [
            [
                (pytest.approx(1.0), {"butane": pytest.approx(3.0)}),
                (pytest.approx(4.0), {"butane": pytest.approx(1.0)}),
            ]
        ]

    def test_whole_days_within_the_store(self, ladder):
        chosen = combine(ladder.days, "money", ladder.kitchen)
        # 6.9 MJ: one day of 3 MJ and three of 1 MJ
        assert sorted(column.fuel_j / 1e6 for column in chosen) == [1.0, 1.0, 1.0, 3.0]
        assert sorted(column.item for column in chosen) == [0, 1, 2, 3]
