"""What is tried when more of everything is appraised, and how it is told; in round numbers."""

from dataclasses import replace
from types import SimpleNamespace

import pytest

from optimizer.model.household import Weather, Window
from optimizer.model.plan import Goal, Plan, Worth
from optimizer.planning import appraisal
from optimizer.planning.appraisal import Chance, appraised
from optimizer.planning.baseline import Effort
from optimizer.planning.kitchen import choices, kitchen_of
from optimizer.planning.mix import mix
from optimizer.planning.parametric import Held, Piece
from optimizer.scenario.reading import parse

DAY = 1440


@pytest.fixture(scope="module", name="home")
def _home(household):
    return household((("tea", "breakfast", 450),))


def spans(windows):
    return [(w.start_min, w.end_min) for w in windows]


class TestHours:
    @pytest.fixture(name="longer")
    def _longer(self, home):
        def found(*hours, days=1, begins=0):
            windows = tuple(Window(*each) for each in hours)
            asked = replace(home, windows=windows, days=days, begins=begins)
            tried = dict(appraisal._longer(asked))
            assert all(each == replace(asked, windows=each.windows) for each in tried.values())
            head = "half an hour more to cook, "
            return {what.removeprefix(head): spans(each.windows) for what, each in tried.items()}

        return found

    def test_half_an_hour_at_each_end_of_each_time_on_every_day(self, longer):
        assert longer((360, 480), (1020, 1140), (DAY + 360, DAY + 480), days=2) == {
            "until 08:30": [(360, 510), (1020, 1140), (DAY + 360, DAY + 510)],
            "from 05:30": [(330, 480), (1020, 1140), (DAY + 330, DAY + 480)],
            "until 19:30": [(360, 480), (1020, 1170), (DAY + 360, DAY + 480)],
            "from 16:30": [(360, 480), (990, 1140), (DAY + 360, DAY + 480)],
        }

    def test_the_same_beginning_with_another_end_is_another_time(self, longer):
        found = longer((360, 480), (DAY + 360, DAY + 420), days=2)
        assert found["until 08:30"] == [(360, 510), (DAY + 360, DAY + 420)]
        assert found["until 07:30"] == [(360, 480), (DAY + 360, DAY + 450)]

    def test_times_do_not_overlap(self, longer):
        found = longer((360, 480), (490, 600))
        assert found["until 08:30"] == [(360, 490), (490, 600)]
        assert found["from 07:40"] == [(360, 480), (480, 600)]

    def test_where_times_meet_nothing_is_longer(self, longer):
        assert set(longer((360, 480), (480, 600))) == {"from 05:30", "until 10:30"}

    def test_the_last_day_ends_at_midnight(self, longer):
        assert longer((1380, 1425)) == {
            "until 00:15": [(1380, 1440)],
            "from 22:30": [(1350, 1425)],
        }
        assert set(longer((1380, 1440))) == {"from 22:30"}

    def test_a_time_over_midnight(self, longer):
        found = longer((1380, DAY + 30), days=2)
        assert found == {"until 01:00": [(1380, DAY + 60)], "from 22:30": [(1350, DAY + 30)]}
        assert longer((1380, DAY + 30)) == {"from 22:30": [(1350, DAY + 30)]}

    def test_nothing_is_before_the_plan_begins(self, longer):
        assert longer((360, 480), begins=350)["from 05:30"] == [(350, 480)]
        assert set(longer((360, 480), begins=360)) == {"until 08:30"}
        assert set(longer((360, 480), begins=370)) == {"until 08:30"}


def test_warmer_kitchen_and_weather_are_5_k_warmer_each_by_itself(home):
    place, sky = home.place, Weather(8.0, 1.0, rain=True, wet_sticks=True, sun_w_m2=300.0)
    asked = replace(home, weather=(sky, replace(sky, outdoors_c=-3.0)))
    assert dict(appraisal._warmer(asked)) == {
        "a kitchen 5 K warmer": replace(
            asked, place=replace(place, kitchen_c=place.kitchen_c + 5.0)
        ),
        "weather 5 K warmer": replace(
            asked,
            place=replace(place, outdoors_c=place.outdoors_c + 5.0),
            weather=(replace(sky, outdoors_c=13.0), replace(sky, outdoors_c=2.0)),
        ),
    }


class TestTold:
    """One more saves 2; the linear program says 3, and 4 by its price."""

    PRICE = Held(Piece(0.0, 10.0, -4.0), -1.5, 2.5)

    @pytest.fixture(name="told")
    def _told(self, home):
        def made(goal="money", saved=2.0, mixed=3.0, price=self.PRICE, **more):
            chance = Chance("a box", home, (), None, mixed, price, **more)
            return appraisal._told(chance, saved, goal, home)

        return made

    def test_in_money(self, told):
        assert told(unit=0.5, had=2.0, measure="kg") == Worth(
            "a box", 2.0, "EUR", 4.0, 3.0, 2.0 - 1.5 * 0.5, 2.0 + 2.5 * 0.5, "kg"
        )

    def test_in_minutes(self, told):
        assert told("tending", had=2.0, measure="pieces") == Worth(
            "a box", 2.0, "min", 4.0, 3.0, 0.5, 4.5, "pieces"
        )

    def test_in_megajoules_in_which_the_program_counts_too(self, told):
        assert told("energy", 2e6, 3e6) == Worth("a box", 2.0, "MJ", 4.0, 3.0, -1.5, 2.5)

    def test_without_a_price(self, told):
        assert told(price=None) == Worth("a box", 2.0, "EUR", None, 3.0)
        assert told(price=None, mixed=None) == Worth("a box", 2.0, "EUR", None, None)

    def test_a_price_that_holds_20_more_has_no_end(self, told):
        for high, end in ((19.9, 19.9), (20.0, None), (21.0, None)):
            worth = told(price=replace(self.PRICE, high=high))
            assert (worth.holds_from, worth.holds_to) == (-1.5, end)


class TestAppraised:
    """Chances of which the linear program says something, and schedules that cost what we say."""

    EFFORT = Effort(0.02, 9.0, "cbc", wanted=lambda: True)

    @pytest.fixture(name="plan")
    def _plan(self):
        return Plan("One", None, "optimal", None, Goal("money", 10.0, None))

    @pytest.fixture(name="worths")
    def _worths(self, monkeypatch, home, plan):
        """Appraise chances, given by name with what each saves in the program and then costs."""
        now, self.asked = [100.0], []

        def schedule(columns, kitchen, **how):
            self.asked.append((columns, kitchen, how))
            now[0] += 2.0
            return SimpleNamespace(value=self.costs[kitchen])

        def found(effort=self.EFFORT, plan=plan, **chances):
            self.costs = {what: cost for what, (_, cost) in chances.items()}
            made = [
                Chance(what, home, (what,), what, mixed) for what, (mixed, _) in chances.items()
            ]
            for_us = {(id(home), "money"): made}
            monkeypatch.setattr(appraisal, "_chances", lambda h, goal: for_us[id(h), goal])
            return {each.what: each.value for each in appraised(plan, home, effort)}

        monkeypatch.setattr(appraisal, "schedule", schedule)
        monkeypatch.setattr(appraisal, "time", SimpleNamespace(perf_counter=lambda: now[0]))
        return found

    def test_the_most_first_and_never_less_than_nothing(self, worths):
        found = worths(box=(1.0, 9.0), pot=(1.0, 7.0), stove=(1.0, 11.0))
        assert list(found.items()) == [("pot", 3.0), ("box", 1.0), ("stove", 0.0)]

    def test_as_hard_as_there_is_time_left(self, worths):
        worths(box=(1.0, 9.0), pot=(None, 7.0))
        assert [each[:2] for each in self.asked] == [(("box",), "box"), (("pot",), "pot")]
        limits = []
        for _, _, how in self.asked:
            assert how.pop("progress")(1.0, None, None) is True
            limits.append(how.pop("time_limit_s"))
            assert how == {"goals": ("money",), "gap": 0.02, "solver": "cbc"}
        assert limits == [9.0, 7.0]

    def test_what_the_program_finds_of_no_use_is_not_tried(self, worths):
        found = worths(box=(1e-9, 9.0), pot=(1.1e-9, 7.0), stove=(-1.0, 8.0), hour=(None, 6.0))
        assert set(found) == {"pot", "hour"}

    def test_what_has_no_schedule_hides_no_other(self, worths):
        assert worths(box=(1.0, None), pot=(1.0, 7.0)) == {"pot": 3.0}

    @pytest.mark.parametrize(("limit_s", "tried"), [(2.4, 1), (2.5, 2), (0.4, 0), (0.5, 1)])
    def test_less_than_half_a_second_is_not_begun(self, worths, limit_s, tried):
        effort = replace(self.EFFORT, time_limit_s=limit_s)
        assert len(worths(effort, box=(1.0, 9.0), pot=(1.0, 7.0))) == tried

    def test_when_nobody_waits_any_more_what_is_found_is_told(self, worths):
        effort = replace(self.EFFORT, wanted=lambda: not self.asked)
        assert worths(effort, box=(1.0, 9.0), pot=(1.0, 7.0)) == {"box": 1.0}

    def test_without_a_plan_nothing_is_tried(self, worths, plan):
        none = replace(plan, goal=Goal("money", None, None))
        assert worths(plan=none, box=(1.0, 9.0)) == {}
        assert self.asked == []


SMALL = """\
title: One cold morning
people: {adults: 1, children: 1}
days: 1
place: {altitude: 100 m, kitchen: 15 degC, outdoors: 0 degC, water: 10 degC}
cook_hours: ["06:30-07:30"]
fuels:
  sticks: {stock: 1 x 500 g, price: 0.50 EUR / kg}
  propane: {stock: 1 kg, price: 9.50 EUR / 465 g}
stoves: {stick_stove: 1, gas_burner: 1}
pots: {pot_2_5l: 1}
cookers: {packed_box: 1}
menu:
  - {meal: breakfast, at: "07:30", dishes: [porridge]}
"""


@pytest.fixture(scope="module", name="cold")
def _cold():
    return parse(SMALL)


@pytest.fixture(scope="module", name="chances")
def _chances(cold):
    return {each.what: each for each in appraisal._chances(cold, "energy")}


class TestChances:
    def test_fuels_then_things_then_hours_then_warmth(self, chances, cold):
        things = [*cold.cookers, *cold.stoves, *cold.pots]
        labels = [
            next(getattr(own, k).label for k in ("cooker", "stove", "pot") if hasattr(own, k))
            for own in things
        ]
        assert [what for what in chances if "more of" not in what] == [
            *(f"one more {label}" for label in labels),
            "half an hour more to cook, until 08:00",
            "half an hour more to cook, from 06:00",
            "a kitchen 5 K warmer",
            "weather 5 K warmer",
        ]
        assert next(iter(chances)) == "500 g more of sticks"

    def test_each_has_the_ways_and_the_kitchen_of_its_household(self, chances, cold):
        here = choices(cold).columns
        for what, chance in chances.items():
            if what.startswith(("one more", "500 g", "465 g")):
                assert (chance.scenario, chance.columns) == (cold, here)
            else:
                assert chance.columns == choices(chance.scenario).columns
                assert chance.kitchen == kitchen_of(chance.scenario)
                assert chance.price is None

    def test_each_saves_what_its_mix_saves(self, chances, cold):
        base = mix(choices(cold).columns, kitchen_of(cold), goal="energy").value
        for chance in chances.values():
            again = mix(chance.columns, chance.kitchen, goal="energy").value
            assert chance.mixed == pytest.approx(base - again, rel=1e-6, abs=1.0)
        assert chances["a kitchen 5 K warmer"].mixed > 1e3
        assert chances["weather 5 K warmer"].mixed > 1e3

    def test_what_cannot_be_cooked_at_all_has_nothing_to_save_from(self, cold):
        none = replace(cold, items=(replace(cold.items[0], adults=200.0),))
        tried = list(appraisal._chances(none, "energy"))
        assert len(tried) > 4
        assert all(chance.mixed is None for chance in tried)
