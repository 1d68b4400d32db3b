"""Which ways are tried for a dish on which day, and what the whole household shares."""

from dataclasses import replace

import pytest

from optimizer.model.eaters import Carrying
from optimizer.model.plan import Refusal
from optimizer.planning.conditions import Refused
from optimizer.planning.kitchen import (
    Attempt,
    _carried_into_the_cold,
    attempts,
    choices,
    household_of,
    kitchen_of,
    known_of,
)
from tests.planning.conftest import household

BREAKFAST = (("lentil_soup", "breakfast", 1440 + 500),)


def two_days(*outdoors_c):
    """Soup for the second morning, and how cold it is outdoors on either day."""
    home = household(BREAKFAST, days=2)
    weather = tuple(replace(home.weather[0], outdoors_c=c) for c in outdoors_c)
    return replace(home, weather=weather)


class TestCarriedIntoTheCold:
    """A pot cooked the evening before is priced for the evening's weather."""

    @pytest.mark.parametrize(
        ("minutes", "evening_c", "morning_c", "colder"),
        [
            (20, 8.0, 7.0, True),
            (20, 8.0, 8.0, False),
            (20, 8.0, 9.0, False),
            (0, 8.0, 7.0, False),  # carried at once
            (None, 8.0, 7.0, False),  # it stays in the kitchen
        ],
    )
    def test_it_must_not_be_colder_on_its_way(self, minutes, evening_c, morning_c, colder):
        home = two_days(evening_c, morning_c)
        carried = None if minutes is None else Carrying(minutes, 60, "Mill Lane")
        item = replace(home.items[0], carried=carried)
        assert _carried_into_the_cold(home, item, 1) is colder
        assert _carried_into_the_cold(home, item, 2) is False  # on its own day

    def test_what_stays_may_be_cooked_the_evening_before_a_colder_day(self):
        home = two_days(8.0, 7.0)
        tight = replace(home.cookers[0].cooker, loss_w_k=0.02, packing_j_k=0.0)  # hot all night
        home = replace(home, cookers=(replace(home.cookers[0], cooker=tight),))
        assert any(column.burns[0].start < 1440 for column in choices(home).columns)


class TestAttempt:
    @pytest.fixture
    def home(self):
        return household((("rice", "lunch", 750),))

    @pytest.mark.parametrize(
        ("pot", "boxed", "suits"),
        [
            ("pot_4l", False, {"any", "flame", "plain"}),
            ("pressure_6l", False, {"any", "flame"}),
            ("pot_4l", True, {"any"}),
            ("pressure_6l", True, {"any"}),
        ],
    )
    def test_what_it_is_among(self, home, pot, boxed, suits):
        own = next(each.pot for each in home.pots if each.pot.name == pot)
        cooker = home.cookers[0] if boxed else None
        made = Attempt(home.stoves[0], own, cooker, Refused("why", "because"))
        assert {only for only in ("any", "flame", "plain") if made.suits(only)} == suits

    def test_a_refusal_names_what_was_tried(self, home):
        item, (stove, *_), (pot, *_), (cooker, *_) = (
            home.items[0],
            home.stoves,
            home.pots,
            home.cookers,
        )
        made = Attempt(stove, pot.pot, cooker, Refused("why", "because"))
        assert made.refusal(replace(item, number=7)) == Refusal(
            7, "stick_stove", "pot_2_5l", "packed_box", "why", "because"
        )
        assert replace(made, cooker=None).refusal(item).cooker is None

    def test_every_stove_pot_and_finish_is_tried_once(self, home):
        made = attempts(home, home.items[0], 1)
        tried = [(a.own.stove.name, a.pot.name, a.cooker and a.cooker.cooker.name) for a in made]
        assert len(tried) == len(set(tried)) == 2 * 4 * (1 + 4)
        for each in made:
            if not isinstance(each.way, Refused):
                assert (each.way.own, each.way.pot, each.way.cooker) == (
                    each.own, each.pot, each.cooker,
                )  # fmt: skip

    def test_a_fuel_that_is_not_there_is_told_in_words(self, home):
        bare = replace(home, stores=())
        told = {each.way for each in attempts(bare, home.items[0], 1)}
        assert told == {
            Refused("no_fuel", "its fuel is not in stock: sticks"),
            Refused("no_fuel", "its fuel is not in stock: propane"),
        }
        odd = replace(home.stoves[0].stove, fuel="split_logs")
        bare = replace(bare, stoves=(replace(home.stoves[0], stove=odd),))
        assert attempts(bare, home.items[0], 1)[0].way.reason.endswith("in stock: split logs")

    def test_what_is_known_of_a_dish_is_known_in_the_same_weather_only(self):
        home, known = two_days(8.0, 7.0), {}
        first = known_of(home, home.items[0], 1, known)
        assert known_of(home, home.items[0], 1, known) is first
        assert known_of(home, replace(home.items[0], number=5, serve_min=9), 1, known) is first
        assert known_of(home, home.items[0], 2, known) is not first
        assert known_of(home, home.items[0].times(2.0), 1, known) is not first
        away = replace(home.items[0], carried=Carrying(20, 60, "Mill Lane"))
        assert known_of(home, away, 1, known) is not first
        assert len(known) == 4


class TestChoices:
    def test_refusals_are_told_once_though_two_days_are_tried(self):
        home = two_days(8.0, 8.0)
        told = choices(replace(home, stores=home.stores[:1])).refusals
        gas = [r for r in told if r.code == "no_fuel"]
        assert len(gas) == 4 * (1 + 4)

    def test_a_dish_without_cook_hours_has_a_way_and_no_column(self):
        home = household((("rice", "lunch", 750),))
        late = replace(home, windows=tuple(w for w in home.windows if w.start_min > 750))
        found = choices(late)
        assert found.columns == ()
        assert found.workable == {0}


class TestKitchen:
    def test_what_does_not_fit_one_pot_is_cooked_in_several(self):
        home = household((("rice", "lunch", 750), ("tea", "lunch", 750)))
        crowd = replace(home, items=(replace(home.items[0], adults=60.0), home.items[1]))
        room = kitchen_of(crowd)
        assert set(room.batches) == {0}
        assert room.pots_of(0) > 1
        assert room.pots_of(1) == 1
        assert room.items == (0, 1)
        assert room.windows == home.windows

    def test_a_fed_fire_is_lit_at_the_price_of_its_fuel(self):
        home = household()
        stove = home.stoves[0].stove
        lit = kitchen_of(home).lightings["stick_stove"]
        assert (lit.stove, lit.fuel) == ("stick_stove", "sticks")
        assert (lit.start_j, lit.start_min) == (stove.start_j, stove.start_min)
        assert (lit.tend, lit.places) == (stove.tended, stove.places)
        # of 30 kg a tenth is kept back: 27 kg at 0.2
        assert lit.money_j * kitchen_of(home).stock_j["sticks"] == pytest.approx(27 * 0.2)

    def test_a_fire_without_its_fuel_is_not_lit(self):
        home = household()
        assert kitchen_of(replace(home, stores=home.stores[1:])).lightings == {}

    def test_ways_are_those_of_another_household_where_a_thing_or_a_price_is_another(self):
        home = household()
        same = replace(home, title="Another", goals=("energy",), items=())
        assert household_of(same) == household_of(home)
        dear = (replace(home.stores[0], price_kg=9.0), home.stores[1])
        for other in (
            replace(home, stores=dear),
            replace(home, pots=home.pots[1:]),
            replace(home, stoves=home.stoves[1:]),
            replace(home, cookers=()),
            replace(home, confidence=0.99),
            replace(home, place=replace(home.place, altitude_m=999.0)),
            replace(home, rules=replace(home.rules, turn_min=99)),
        ):
            assert household_of(other) != household_of(home)
        fuller = (replace(home.stores[0], stock_kg=99.0), home.stores[1])
        assert household_of(replace(home, stores=fuller)) == household_of(home)
