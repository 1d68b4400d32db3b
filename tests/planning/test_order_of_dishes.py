"""Which dishes change places: as few as can be, to the nearest day, and how that is said."""

from dataclasses import replace

import pytest

from optimizer.planning import ordering
from optimizer.planning.ordering import (
    MOST_PLACES,
    NEVER,
    Move,
    _cost,
    _fits,
    _places,
    better_order,
    reordered,
    told,
)
from tests.planning.conftest import household

DAY = 1440
DISHES = ("lentil_soup", "rice", "lentil_stew", "beef_stew")


@pytest.fixture
def home():
    """A supper on each of four days; each has a dish of its own."""
    menu = [(dish, "supper", DAY * day + 1140) for day, dish in enumerate(DISHES)]
    return household(menu, days=4)


@pytest.fixture
def fits(monkeypatch):
    """Let a dish be cooked on the days given for it, by its number; others on any."""

    def only(days):
        def fits(_home, item, to, _known):
            return item.number not in days or to.day in days[item.number]

        monkeypatch.setattr(ordering, "_fits", fits)

    return only


def swaps(moves):
    return [(move.item.number, move.to.number) for move in moves]


class TestCost:
    def test_a_dish_that_stays_costs_nothing_and_one_that_spoils_there_cannot(self, home, fits):
        fits({})
        soup = home.items[0]
        assert _cost(home, soup, soup, set(), {}) == 0.0
        assert _cost(home, soup, soup, {0}, {}) == NEVER

    def test_a_move_counts_one_and_its_days_only_part_equal_moves(self, home, fits):
        fits({})
        first, _, third, _ = home.items
        assert _cost(home, first, third, set(), {}) == 1.002
        assert _cost(home, third, first, set(), {}) == 1.002

    def test_where_it_cannot_be_cooked_it_cannot_be_moved(self, home, fits):
        fits({0: {1, 2}})
        assert _cost(home, home.items[0], home.items[2], set(), {}) == NEVER

    def test_a_spoiled_dish_takes_no_place_of_the_same_dish(self, home, fits):
        fits({})
        beef = home.items[3]
        same = replace(home.items[0], dish=beef.dish)
        assert _cost(home, beef, same, {3}, {}) == NEVER
        assert _cost(home, beef, same, {1}, {}) == 1.003

    def test_it_is_tried_at_the_hour_and_day_of_its_new_place(self, home):
        early = replace(home, windows=tuple(w for w in home.windows if w.day == 1))
        soup, rice, *_ = home.items
        assert _fits(early, rice, soup, {})
        assert not _fits(early, soup, replace(rice, serve_min=3 * DAY + 1140, day=4), {})

    def test_what_was_worked_out_is_kept(self, home):
        known = {}
        _fits(home, home.items[1], home.items[0], known)
        assert known


class TestOrder:
    def test_the_nearest_day_that_helps(self, home, fits):
        fits({3: {1, 2, 3}})
        assert swaps(better_order(home, (3,))) == [(2, 3), (3, 2)]

    def test_the_only_day_that_helps(self, home, fits):
        fits({3: {1}})
        assert swaps(better_order(home, (3,))) == [(0, 3), (3, 0)]

    def test_a_third_dish_moves_only_where_it_must(self, home, fits):
        fits({3: {1}, 0: {1, 2}})  # the beef to day 1, the soup to day 2, the rice to day 4
        assert swaps(better_order(home, (3,))) == [(0, 1), (1, 3), (3, 0)]

    def test_nothing_where_no_order_helps(self, home, fits):
        fits({3: set()})
        assert better_order(home, (3,)) == ()

    def test_what_was_worked_out_is_handed_on(self, home, monkeypatch):
        asked, known = [], {}
        monkeypatch.setattr(ordering, "_fits", lambda *words: asked.append(words[3]) or True)
        better_order(home, (3,), known)
        assert asked
        assert all(each is known for each in asked)
        asked.clear()
        assert better_order(home, (3,))
        assert asked == [{}] * len(asked)

    def test_a_dish_stays_at_a_meal_of_its_name(self, home, fits):
        fits({})
        lunch = replace(home.items[2], meal="lunch")
        mixed = replace(home, items=(*home.items[:2], lunch, home.items[3]))
        assert swaps(better_order(mixed, (3,))) == [(1, 3), (3, 1)]

    def test_each_meal_that_spoils_has_an_order_of_its_own(self, home, fits):
        fits({})
        items = [replace(i, meal="lunch" if i.number < 2 else "supper") for i in home.items]
        mixed = replace(home, items=tuple(items))
        assert swaps(better_order(mixed, (1, 3))) == [(0, 1), (1, 0), (2, 3), (3, 2)]

    def test_places_are_those_refused_and_then_the_earliest(self, home):
        soup = home.items[0]
        items = tuple(
            replace(soup, number=n, day=n + 1, serve_min=DAY * n + 1140) for n in range(14)
        )
        numbers = [i.number for i in _places(replace(home, items=items), "supper", {12})]
        assert numbers == [*range(MOST_PLACES - 1), 12]
        assert _places(replace(home, items=items), "lunch", {12}) == []


def test_the_menu_in_its_new_order_is_numbered_by_the_hour_of_serving(home):
    soup, rice, stew, beef = home.items
    better = reordered(home, (Move(beef, soup), Move(soup, beef)))
    assert [i.dish.name for i in better.items] == [
        "beef_stew",
        "rice",
        "lentil_stew",
        "lentil_soup",
    ]
    assert [i.number for i in better.items] == [0, 1, 2, 3]
    assert [(i.day, i.serve_min) for i in better.items] == [
        (i.day, i.serve_min) for i in (soup, rice, stew, beef)
    ]


class TestTold:
    def test_two_that_change_places_the_later_one_first(self, home):
        soup, _, _, beef = home.items
        sentence = "Swap beef stew (supper, day 4) with red lentil soup (supper, day 1)."
        assert told([Move(soup, beef), Move(beef, soup)]) == [sentence]
        assert told([Move(beef, soup), Move(soup, beef)]) == [sentence]

    def test_three_that_go_round(self, home):
        soup, rice, _, beef = home.items
        assert told([Move(soup, rice), Move(rice, beef), Move(beef, soup)]) == [
            "Change days at supper: red lentil soup to day 2, rice to day 4, beef stew to day 1."
        ]

    def test_a_sentence_for_each_round(self, home):
        soup, rice, stew, beef = home.items
        moves = [Move(soup, rice), Move(stew, beef), Move(rice, soup), Move(beef, stew)]
        assert [sentence.split(" (")[0] for sentence in told(moves)] == [
            "Swap rice",
            "Swap beef stew",
        ]

    def test_no_move_no_word(self):
        assert told([]) == []
