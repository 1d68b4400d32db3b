"""Boiling a menu through, step by step: what is asked, where it does not fit, each dish alone."""

from dataclasses import replace

import pytest

from optimizer.model.eaters import Carrying
from optimizer.model.household import Window
from optimizer.model.plan import BoilAll
from optimizer.planning import baseline
from optimizer.planning.baseline import (
    Effort,
    Search,
    _alone,
    _crowded,
    _on,
    _soaked,
    _told_wider,
    _try,
    _wider,
    boil_all,
)
from optimizer.planning.result import Result
from tests.planning.conftest import cook, household, kitchen

EFFORT = Effort(0.05, 7.0, "highs")
MENU = (("rice", "lunch", 750), ("tea", "lunch", 750), ("rice", "supper", 1140))
FITS = BoilAll("optimal", 10.0, 5.0, 60.0, None)


def search(scenario, stoves=None):
    return Search(scenario, stoves or {}, EFFORT, {})


class TestEffort:
    def test_with_nobody_to_ask_it_goes_on(self):
        assert EFFORT.progress is None
        assert EFFORT.dropped is False

    @pytest.mark.parametrize("wanted", [True, False])
    def test_it_goes_on_as_long_as_somebody_waits(self, wanted):
        effort = replace(EFFORT, wanted=lambda: wanted)
        assert effort.progress(1.0, None, None) is wanted
        assert effort.dropped is not wanted


class TestAsked:
    def test_what_soaks_already_is_soaked_as_long_as_it_must_be(self):
        home = household((("bean_stew", "supper", 1140), ("rice", "lunch", 750)))
        beans, rice = home.items
        assert beans.dish.soak_min == 480
        for since, told in ((600, 120), (100, 0)):  # no longer than since the plan begins
            soaking = replace(home, items=(replace(beans, soaked_from=since), rice))
            assert [item.soaked_from for item in _soaked(soaking).items] == [told, None]

    def test_nothing_is_carried_away(self):
        home = household((("bean_stew", "supper", 1140), ("rice", "lunch", 750)))
        beans, rice = (replace(item, carried=Carrying(20, 60, "Mill Lane")) for item in home.items)
        asked = _soaked(replace(home, items=(replace(beans, soaked_from=600), rice)))
        assert asked.items == (replace(home.items[0], soaked_from=120), home.items[1])

    def test_a_dish_stays_on_the_stove_it_has_in_the_plan(self):
        columns = [cook(item, stove, 400, 20) for item in (0, 1) for stove in ("gas", "stick")]
        assert [(c.item, c.stove) for c in _on(columns, {0: "stick"})] == [
            (0, "stick"),
            (1, "gas"),
            (1, "stick"),
        ]

    def test_the_first_goal_only_and_no_limit_on_the_stock(self, monkeypatch):
        asked = {}

        def schedule(_columns, room, **more):
            asked.update(more, stock=room.stock_j)
            return real(_columns, room, **more)

        real = baseline.schedule
        monkeypatch.setattr(baseline, "schedule", schedule)
        home = household(MENU[:1], goals=("energy", "money"))
        wanted = replace(EFFORT, wanted=lambda: True)
        assert _try(Search(home, {}, wanted, {})).fuel_mj > 0
        told = (asked["goals"], asked["gap"], asked["time_limit_s"], asked["solver"])
        assert told == (("energy",), 0.05, 7.0, "highs")
        assert asked["progress"](1.0, None, None) is True
        assert asked["stock"] == {}

    def test_a_dish_without_a_way_is_not_searched_for(self, monkeypatch):
        monkeypatch.setattr(baseline, "schedule", lambda *_, **__: pytest.fail("searched"))
        assert _try(search(household(MENU), {1: "another stove"})) is None


class TestWider:
    @pytest.fixture
    def home(self):
        return household(MENU, windows=(Window(20, 300), Window(420, 600), Window(900, 1400)))

    def test_cook_hours_are_longer_at_both_ends_within_the_days(self, home):
        hours = [(w.start_min, w.end_min) for w in _wider(home, 50).windows]
        assert hours == [(0, 350), (370, 650), (850, 1440)]

    def test_what_meets_runs_together(self, home):
        hours = [(w.start_min, w.end_min) for w in _wider(home, 60).windows]
        assert hours == [(0, 660), (840, 1440)]
        assert len(_wider(home, 59).windows) == 3

    @pytest.mark.parametrize(("minutes", "told"), [(30, "30 min"), (60, "1 h"), (240, "4 h")])
    def test_it_is_told(self, minutes, told):
        short = f"would need cook hours {told} longer at both ends"
        assert _told_wider(FITS, minutes) == replace(FITS, status="does_not_fit", short=short)

    @pytest.mark.parametrize(
        ("fits_from", "told", "tried"),
        [
            (0, None, [0]),
            (30, "30 min", [0, 240, 30]),
            (120, "2 h", [0, 240, 30, 60, 120]),
            (240, "4 h", [0, 240, 30, 60, 120]),
        ],
    )
    def test_the_least_that_will_do(self, monkeypatch, fits_from, told, tried):
        asked = []

        def try_(each):
            asked.append(360 - each.scenario.windows[0].start_min)
            return FITS if asked[-1] >= fits_from else None

        monkeypatch.setattr(baseline, "_try", try_)
        found = boil_all(household(MENU[:1], windows=(Window(360, 1000),)), EFFORT)
        assert asked == tried
        assert found == (FITS if told is None else _told_wider(FITS, fits_from))
        assert told is None or told in found.short

    def test_where_no_hours_do_each_dish_is_counted_alone(self, monkeypatch):
        monkeypatch.setattr(baseline, "_try", lambda _: None)
        monkeypatch.setattr(baseline, "_alone", lambda each: each)
        known = {}
        asked = boil_all(household(MENU), EFFORT, known=known)
        assert asked == search(household(MENU))
        assert asked.known is known


class TestAlone:
    def test_what_cannot_be_boiled_at_all_is_told_once(self):
        nowhere = household(MENU, stoves=())
        text = "cannot be boiled through here: rice, tea"
        assert _alone(search(nowhere)) == BoilAll("infeasible", None, None, None, text)

    def test_what_can_be_boiled_is_not_told(self):
        found = _alone(search(household(MENU), {1: "another stove"}))
        assert found.short == "cannot be boiled through here: tea"

    def test_the_least_of_each_dish_in_the_least_hours_that_will_do(self, monkeypatch):
        home = household(MENU[:2], windows=(Window(360, 480),))
        room = kitchen(0, 1)

        def flame(each):
            wide = 360 - each.scenario.windows[0].start_min
            rice = [cook(0, "gas", 400, 20, fuel_mj=mj, money=9.0) for mj in (3.0, 2.0, 5.0)]
            tea = cook(1, "gas", 440, 10, fuel_mj=1.0 + wide, money=4.0)
            return (*rice, tea) if wide >= 60 else tuple(rice)

        monkeypatch.setattr(baseline, "_flame", flame)
        monkeypatch.setattr(baseline, "kitchen_of", lambda _: replace(room, batches={0: 2}))
        found = _alone(search(home))
        # rice in two pots at 2 MJ, tea where the hours are an hour longer: 61 MJ
        assert found.fuel_mj == pytest.approx(2 * 2.0 + 61.0)
        assert found.cost == pytest.approx(2 * 9.0 + 4.0)
        assert found.fire_minutes == 20 + 20 + 10
        assert found.status == "does_not_fit"

    def test_pots_on_a_fed_fire_share_it_and_others_do_not(self, monkeypatch):
        # 1.5 MJ to light in 5 min, 500 W to keep up, 0.08 money a MJ
        monkeypatch.setattr(baseline, "kitchen_of", lambda _: kitchen())
        pots = [
            cook(0, "stick", 400, 20, fuel_mj=2.0, money=0.3),
            cook(1, "stick", 440, 10, fuel_mj=1.0, money=0.2),
            cook(2, "gas", 400, 30, fuel_mj=4.0, money=0.5),
            cook(3, "gas", 400, 30, fuel_mj=4.0, money=0.5),
        ]
        found = _crowded(household(MENU), pots)
        fire_mj = 1.5 + 20 * 60 * 500 / 1e6  # 20 min without a pot
        assert found.fuel_mj == pytest.approx(2 + 1 + 4 + 4 + fire_mj)
        assert found.cost == pytest.approx(0.3 + 0.2 + 0.5 + 0.5 + 0.08 * fire_mj)
        assert found.fire_minutes == (5 + 50) + 30 + 30
        assert found.status == "does_not_fit"
        assert "each dish is counted alone" in found.short


@pytest.mark.parametrize(
    ("status", "told"),
    [("optimal", "optimal"), ("within_gap", "within_gap"), ("time_limit", "within_gap")],
)
def test_a_schedule_is_told_in_the_units_of_a_plan(status, told, monkeypatch):
    monkeypatch.setattr(baseline, "fires_told", lambda *_: ())  # its stove is nobody's
    pot = cook(0, "gas", 400, 20, fuel_mj=2.0, money=3.0)
    found = Result(status, (pot,), 3.0, 3.0, 0.0, 1.0, ())
    made = baseline._told(found, kitchen(0), household(MENU))
    assert (made.status, made.fuel_mj, made.cost, made.short) == (told, 2.0, 3.0, None)
