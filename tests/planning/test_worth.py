"""What one more of a thing is worth: what is asked for, at which price, in which unit."""

from dataclasses import replace
from types import SimpleNamespace

import pytest

from optimizer.model.plan import Worth
from optimizer.planning import worth
from optimizer.planning.baseline import Effort
from optimizer.planning.mix import Mix
from optimizer.planning.worth import OneMore, mass, one_more_each, things_of, told_in, worth_of


@pytest.fixture(scope="module", name="home")
def _home(household):
    """One kind of each thing; 20 MJ in a kilogram of sticks, half a kilogram in a package."""
    whole = household((("tea", "breakfast", 450),))
    sticks, gas = whole.stores
    fuel = replace(sticks.fuel, lhv_j_kg=20e6, moisture=0.0)
    stick = whole.stoves[0]
    return replace(
        whole,
        stores=(replace(sticks, fuel=fuel, package_kg=0.5), replace(gas, package_kg=None)),
        stoves=(replace(stick, stove=replace(stick.stove, name="stick", places=2)),),
        pots=(replace(whole.pots[0], pot=replace(whole.pots[0].pot, name="big")),),
        cookers=(replace(whole.cookers[0], cooker=replace(whole.cookers[0].cooker, name="box")),),
    )


@pytest.fixture(name="room")
def _room(kitchen):
    return kitchen(0, stock_j={"sticks": 30e6, "propane": 5e6})


def priced(**prices) -> Mix:
    return Mix(None, 10.0, {}, prices)


def more_of(home, room, prices) -> dict[str, OneMore]:
    return {more.what: more for more in one_more_each(home, room, Mix(None, 10.0, {}, prices))}


@pytest.mark.parametrize(
    ("kg", "words"),
    [(1.0, "1 kg"), (2.5, "2.5 kg"), (0.999, "999 g"), (0.465, "465 g"), (0.0, "0 g")],
)
def test_a_package_in_words(kg, words):
    assert mass(kg) == words


def test_things_and_how_many_places_they_have(home):
    box, stick, pot = home.cookers[0].cooker, home.stoves[0].stove, home.pots[0].pot
    assert list(things_of(home)) == [
        ("cooker", "box", box.label, 1),
        ("stove", "stick", stick.label, 2),
        ("pot", "big", pot.label, 1),
    ]


def test_a_package_more_of_a_fuel(home, room):
    more = more_of(home, room, {"stock_is_enough[sticks]": -2e-8})["500 g more of sticks"]
    assert more.kitchen == replace(room, stock_j={"sticks": 40e6, "propane": 5e6})
    assert more.dual == pytest.approx(0.2)


def test_without_a_price_more_is_of_no_use(home, room):
    found = more_of(home, room, {})
    assert len(found) == 4
    assert all(more.dual == 0 for more in found.values())


def test_what_has_no_limit_or_no_package_is_left_out(home, room):
    endless = replace(room, stock_j={"propane": 5e6})
    found = more_of(home, endless, {})
    assert [what for what in found if "more of" in what] == []


def test_a_fuel_that_is_left_out_hides_no_other(home, room):
    turned = replace(home, stores=home.stores[::-1])
    assert "500 g more of sticks" in more_of(turned, room, {})


def test_one_more_of_a_thing_is_one_more_place_or_as_many_as_it_has(home, room):
    found = list(one_more_each(home, room, priced()))[1:]
    now = room.capacity
    assert [each.kitchen for each in found] == [
        replace(room, capacity={**now, "cooker:box": 2}),
        replace(room, capacity={**now, "stove:stick": 3}),
        replace(room, capacity={**now, "pot:big": 3}),
    ]
    assert [each.what for each in found] == [
        f"one more {label}" for _, _, label, _ in things_of(home)
    ]


def test_its_price_is_that_of_all_its_rows(home, room):
    prices = {
        "one_at_a_time[cooker:box,400]": -0.25,
        "one_at_a_time[cooker:box,500]": -0.5,
        "one_at_a_time[cooker:boxes,500]": -4.0,
        "one_at_a_time[stove:stick,400]": -0.125,
        "stove_has_time[stick,0]": -0.001,  # of 120 minutes
        "stove_has_time[stick,1]": -0.002,  # of 60
        "stove_has_time[sticks,1]": -4.0,
        "dish_needs_the_fire[stick,1,0]": -4.0,
    }
    first, second = room.windows
    short = replace(room, windows=(first, replace(second, end_min=second.start_min + 60)))
    _, box, stick, pot = more_of(home, short, prices).values()
    assert box.dual == pytest.approx(0.75)
    assert stick.dual == pytest.approx(2 * (0.125 + 0.12 + 0.12))
    assert pot.dual == 0


class TestUnits:
    def test_money_in_the_household_s(self):
        assert told_in("money", "a box", 2.0, 0.5, "EUR") == Worth("a box", 2.0, "EUR", 0.5)

    def test_tending_in_minutes(self):
        assert told_in("tending", "a box", 2.0, 0.5, "EUR") == Worth("a box", 2.0, "min", 0.5)

    @pytest.mark.parametrize("goal", ["energy", "sticks"])
    def test_heat_in_megajoules(self, goal):
        assert told_in(goal, "a box", 2e6, 5e5, "EUR") == Worth("a box", 2.0, "MJ", 0.5)
        assert told_in(goal, "a box", 2e6, None, "EUR") == Worth("a box", 2.0, "MJ", None)


EFFORT = Effort(0.01, 7.0, "cbc", wanted=lambda: True)
SCARCE = {"one_at_a_time[cooker:box,400]": -0.5, "one_at_a_time[pot:big,400]": -0.75}


class TestSolvedAgain:
    """Solved again, a kitchen costs what we say; 10.00 are what it costs as it is."""

    @pytest.fixture(name="asked")
    def _asked(self, monkeypatch):
        """Cost with two boxes 9.00, with three pots 8.50; return what was asked."""
        asked = []

        def schedule(columns, kitchen, **how):
            asked.append((columns, kitchen, how))
            return SimpleNamespace(value=9.0 if kitchen.capacity["cooker:box"] == 2 else 8.5)

        monkeypatch.setattr(worth, "schedule", schedule)
        return asked

    def found(self, home, room, prices=SCARCE, base=10.0, effort=EFFORT):
        made = SimpleNamespace(value=base)
        mixed = priced(**prices)
        return worth_of(home, ("columns",), room, mixed, made, effort)

    def test_the_most_first(self, home, room, asked):
        box, pot = home.cookers[0].cooker.label, home.pots[0].pot.label
        assert self.found(home, room) == (
            Worth(f"one more {pot}", 1.5, "EUR", 0.75),
            Worth(f"one more {box}", 1.0, "EUR", 0.5),
        )

    def test_only_what_is_scarce_is_asked_for_and_as_hard_as_the_plan(self, home, room, asked):
        self.found(home, room)
        kitchens = [kitchen.capacity for _, kitchen, _ in asked]
        assert kitchens == [
            {**room.capacity, "cooker:box": 2},
            {**room.capacity, "pot:big": 3},
        ]
        for columns, _, how in asked:
            assert columns == ("columns",)
            assert how.pop("progress")(1.0, None, None) is True
            assert how == {"goals": ("money",), "gap": 0.01, "time_limit_s": 7.0, "solver": "cbc"}

    @pytest.mark.parametrize(("price", "times"), [(0.1, 0), (0.101, 1)])
    def test_what_may_save_no_more_than_the_gap_is_not_asked_for(
        self, home, room, asked, price, times
    ):
        prices = {"one_at_a_time[pot:big,400]": -price}
        assert len(self.found(home, room, prices)) == len(asked) == times
        asked.clear()
        self.found(home, room, prices, base=-10.0)
        assert len(asked) == times

    @pytest.mark.parametrize(("price", "times"), [(1e-9, 0), (1.1e-9, 1)])
    def test_nor_what_is_rounding(self, home, room, asked, price, times):
        exact = replace(EFFORT, gap=0.0)
        self.found(home, room, {"one_at_a_time[pot:big,400]": -price}, effort=exact)
        assert len(asked) == times

    def test_more_is_never_worth_less_than_nothing(self, home, room, asked):
        assert [each.value for each in self.found(home, room, base=8.75)] == [0.25, 0.0]

    def test_without_a_schedule_nothing_is_told(self, home, room, asked, monkeypatch):
        assert self.found(home, room, base=None) == ()
        monkeypatch.setattr(worth, "schedule", lambda *_, **__: SimpleNamespace(value=None))
        assert self.found(home, room) == ()

    def test_what_has_no_schedule_hides_no_other(self, home, room, asked, monkeypatch):
        def some(_, kitchen, **__):
            return SimpleNamespace(value=None if kitchen.capacity["cooker:box"] == 2 else 8.0)

        monkeypatch.setattr(worth, "schedule", some)
        assert [each.value for each in self.found(home, room)] == [2.0]

    def test_nobody_waits_for_it(self, home, room, asked):
        assert self.found(home, room, effort=replace(EFFORT, wanted=lambda: False)) == ()
        assert asked == []

    def test_when_nobody_waits_any_more_what_is_found_is_told(self, home, room, asked):
        effort = replace(EFFORT, wanted=lambda: not asked)
        assert [each.value for each in self.found(home, room, effort=effort)] == [1.0]
