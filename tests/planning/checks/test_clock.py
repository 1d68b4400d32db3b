"""The checker's clock: every dish once, in order, in its hours; just until which minute."""

from dataclasses import replace
from types import SimpleNamespace

import pytest

from optimizer import shelf
from optimizer.model.household import DAY_MIN, OwnCooker, Window
from optimizer.model.plan import Reboil
from optimizer.planning.checks.clock import (
    hours_faults,
    label_faults,
    menu_faults,
    order_faults,
    told_min,
    wait_faults,
    window_of,
)

TEA = "tea, breakfast of day 1"
TOMORROW = "tea, breakfast of day 2"
BOX = OwnCooker(shelf.load().cookers["packed_box"], 1)


@pytest.mark.parametrize(
    ("minute", "words"),
    [(0, "00:00 of day 1"), (1439, "23:59 of day 1"), (1440 + 65, "01:05 of day 2")],
)
def test_a_minute_is_told_by_the_clock_and_the_day(minute, words):
    assert told_min(minute) == words


class TestMenu:
    @pytest.mark.parametrize(
        ("pots", "said"),
        [
            ([1], None),
            ([2, 1], None),
            ([1, 2, 3], None),
            ([], "in no pot"),
            ([2], "in pots 2"),
            ([1, 1], "in pots 1, 1"),
            ([3, 1], "in pots 1, 3"),
            ([0, 1], "in pots 0, 1"),
        ],
    )
    def test_pots_are_numbered_from_one(self, case, pots, said):
        steps = [case(batch=pot).step for pot in pots]
        found = list(menu_faults(SimpleNamespace(steps=steps), case().scenario))
        assert found == ([f"{TEA}: is cooked {said}"] if said else [])

    def test_every_dish_is_looked_for(self, household, case):
        home = household((("tea", "breakfast", 450), ("rice", "lunch", 750)))
        found = list(menu_faults(SimpleNamespace(steps=[case().step]), home))
        assert found == ["rice, lunch of day 1: is cooked in no pot"]


class TestLabels:
    def test_a_step_that_says_what_is_so(self, case):
        assert list(label_faults(case())) == []

    @pytest.mark.parametrize(
        ("change", "said"),
        [
            ({"day": 2}, "day is 2, must be 1"),
            ({"meal": "lunch"}, "meal is lunch, must be breakfast"),
            ({"item": "broth"}, "item is broth, must be tea"),
            ({"dish": "broth"}, "dish is broth, must be tea"),
            ({"portions": 2.0}, "portions is 2.0, must be 4.0"),
            ({"serve_rule": "any"}, "serve rule is any, must be hot"),
            ({"serve": 455}, "serve time is 455, must be 450"),
            ({"fuel": "sticks"}, "fuel is sticks, must be propane"),
            ({"pressure": True}, "pressure is True, must be False"),
            ({"finish": "packed"}, "finish is packed, must be flame"),
            ({"reboil": (Reboil(445, 446, 448),)}, "finish is flame, must be boiled_again"),
        ],
    )
    def test_what_is_not_so_is_named(self, case, change, said):
        wrong = case(**change)
        assert list(label_faults(wrong)) == [f"{wrong.name}: {said}"]

    def test_portions_are_shared_by_the_pots(self, case):
        assert list(label_faults(replace(case(portions=2.0), pots=2))) == []

    def test_the_finish_is_that_of_the_cooker(self, case):
        assert list(label_faults(replace(case(finish="packed"), cooker=BOX))) == []

    def test_any_pressure_is_pressure(self, case):
        plain = case()
        tight = replace(plain.own_pot, pot=replace(plain.own_pot.pot, gauge_pa=0.5))
        assert list(label_faults(replace(case(pressure=True), own_pot=tight))) == []


class TestOrder:
    def test_moments_may_come_at_once(self, case):
        assert list(order_faults(case(light=420, on=420, boil=420, off=420, serve=420))) == []

    @pytest.mark.parametrize(
        ("change", "said"),
        [
            ({"soak_from": 421}, "soak at 07:01 of day 1 is later than light at 07:00 of day 1"),
            ({"light": 421}, "light at 07:01 of day 1 is later than on at 07:00 of day 1"),
            ({"on": 431}, "on at 07:11 of day 1 is later than boil at 07:10 of day 1"),
            ({"boil": 441}, "boil at 07:21 of day 1 is later than off at 07:20 of day 1"),
            ({"off": 451}, "off at 07:31 of day 1 is later than serve at 07:30 of day 1"),
            ({"light": -1}, "light is before day 1"),
            ({"soak_from": -1}, "soak is before day 1"),
        ],
    )
    def test_what_is_out_of_order_is_named(self, case, change, said):
        assert list(order_faults(case(**change))) == [f"{TEA}: {said}"]

    def test_midnight_of_day_1_is_not_before_it(self, case):
        assert list(order_faults(case(light=0))) == []

    @pytest.mark.parametrize(
        ("move", "again", "said"),
        [
            (442, (443, 444, 445), None),
            (439, (443, 444, 445), "off at 07:20 of day 1 is later than move at 07:19 of day 1"),
            (
                444,
                (443, 444, 445),
                "move at 07:24 of day 1 is later than boil again: on at 07:23 of day 1",
            ),
            (
                442,
                (445, 444, 446),
                "boil again: on at 07:25 of day 1 is later than boils again at 07:24 of day 1",
            ),
            (
                442,
                (443, 446, 445),
                "boils again at 07:26 of day 1 is later than boil again: off at 07:25 of day 1",
            ),
            (
                442,
                (443, 444, 451),
                "boil again: off at 07:31 of day 1 is later than serve at 07:30 of day 1",
            ),
        ],
    )
    def test_the_cooker_and_the_second_boil_have_their_turn(self, case, move, again, said):
        boxed = case(cooker="packed_box", move=move, reboil=(Reboil(*again),))
        found = list(order_faults(replace(boxed, cooker=BOX)))
        assert found == ([f"{TEA}: {said}"] if said else [])

    @pytest.mark.parametrize(("begins", "faults"), [(420, 0), (421, 2)])
    def test_nothing_is_before_the_plan_begins(self, case, begins, faults):
        home = replace(case().scenario, begins=begins)
        told = [f"{what} at 07:00 of day 1 is before the plan begins" for what in ("light", "on")]
        assert list(order_faults(case(home))) == [f"{TEA}: {each}" for each in told][:faults]

    @pytest.mark.parametrize(("soaked_from", "faults"), [(300, 0), (301, 1), (None, 1)])
    def test_but_what_soaks_already(self, case, soaked_from, faults):
        plain = case().scenario
        items = (replace(plain.items[0], soaked_from=soaked_from),)
        home = replace(plain, begins=400, items=items)
        said = f"{TEA}: soak at 05:00 of day 1 is before the plan begins"
        assert list(order_faults(case(home, soak_from=300))) == [said] * faults

    def test_what_else_was_done_when_the_soaking_began_is_too_early(self, case):
        plain = case().scenario
        items = (replace(plain.items[0], soaked_from=420),)
        home = replace(plain, begins=425, items=items)
        assert len(list(order_faults(case(home, soak_from=420)))) == 2

    def test_midnight_too_is_before_the_plan_begins(self, case):
        home = replace(case().scenario, begins=10)
        said = f"{TEA}: light at 00:00 of day 1 is before the plan begins"
        assert list(order_faults(case(home, light=0))) == [said]

    def test_a_move_goes_with_a_cooker(self, case):
        said = [f"{TEA}: the time of the move does not go with the cooker None"]
        assert list(order_faults(case(move=445))) == said
        boxed = replace(case(cooker="packed_box"), cooker=BOX)
        said = [f"{TEA}: the time of the move does not go with the cooker packed_box"]
        assert list(order_faults(boxed)) == said

    def test_a_second_boil_needs_a_cooker_between(self, case):
        said = [f"{TEA}: is boiled again without a cooker between"]
        assert list(order_faults(case(reboil=(Reboil(445, 446, 448),)))) == said


class TestWaiting:
    def waits(self, case, minutes, **change):
        made = replace(case(off=450 - minutes, on=0), **change)
        assert made.rest_from == 450 - minutes
        return list(wait_faults(made))

    def test_a_bare_pot_waits_20_minutes_at_most(self, case):
        assert self.waits(case, 20) == []
        assert self.waits(case, 21) == [f"{TEA}: waits 21 min, 20 is the most"]

    def test_what_may_be_cold_waits_14_hours(self, case):
        item = case().item
        cold = replace(item, dish=replace(item.dish, serve="any"))
        assert list(wait_faults(replace(case(off=450, serve=1290), item=cold))) == []
        said = [f"{TEA}: waits 841 min, 840 is the most"]
        assert list(wait_faults(replace(case(off=450, serve=1291), item=cold))) == said

    def test_so_does_what_is_in_a_cooker_or_drawn_on(self, case):
        assert self.waits(case, 21, cooker=BOX) == []
        assert self.waits(case, 21, item=replace(case().item, drawn=(object(),))) == []


class TestFire:
    def test_lit_and_out_with_the_cook_hours(self, case):
        slow = lit_in(case(light=360, on=365, off=540), 5)
        assert list(hours_faults(slow)) == []

    def test_lit_before_the_cook_hours(self, case):
        burns = "on gas_burner from 06:04 of day 1 to 07:20 of day 1, lit 5 min before"
        assert list(hours_faults(lit_in(case(light=359, on=364), 5))) == [
            f"{TEA}: {burns}, is outside the cook hours",
            f"{TEA}: the fire is lit at 05:59 of day 1, not in its cook hours",
        ]

    def test_lit_too_late(self, case):
        said = f"{TEA}: the fire is lit too late, at 06:56 of day 1"
        assert list(hours_faults(lit_in(case(light=416), 5))) == [said]
        assert list(hours_faults(lit_in(case(light=415), 5))) == []

    def test_the_second_boil_too_is_in_cook_hours(self, case):
        late = case(reboil=(Reboil(535, 538, 541),))
        said = "on gas_burner from 08:55 of day 1 to 09:01 of day 1, lit 0 min before"
        assert list(hours_faults(late)) == [f"{TEA}: {said}, is outside the cook hours"]

    def test_lit_early_is_not_lit_in_other_hours(self, case):
        said = f"{TEA}: the fire is lit at 05:50 of day 1, not in its cook hours"
        assert list(hours_faults(case(light=350))) == [said]


def lit_in(case, minutes):
    """The case with a stove that takes so long until a pot goes on."""
    return replace(case, own=replace(case.own, stove=replace(case.own.stove, start_min=minutes)))


class TestSun:
    """Sun from 10 to 15, somebody at home from 9 to 12 and from 14 to 16, on the second day."""

    @pytest.fixture(name="faults")
    def _faults(self, case, household):
        home = household((("tea", "breakfast", 450),), days=2)
        at_home = ((540, 720), (840, 960))
        windows = tuple(Window(DAY_MIN + a, DAY_MIN + b) for a, b in at_home)
        home = replace(home, windows=windows)
        store = replace(home.stores[1], fuel=replace(home.stores[1].fuel, kind="sun"))

        def found(on, off, serve):
            moments = {"on": DAY_MIN + on, "off": DAY_MIN + off, "serve": DAY_MIN + serve}
            sunny = replace(case(home, day=2, **moments), store=store)
            return [line.removeprefix(f"{TOMORROW}: ") for line in hours_faults(sunny)]

        return found

    def test_all_of_the_sun_may_be_used(self, faults):
        assert faults(600, 900, 960) == []

    @pytest.mark.parametrize(("on", "off"), [(599, 700), (600, 901), (599, 901)])
    def test_a_minute_more_is_out_of_its_hours(self, faults, on, off):
        assert faults(on, off, 960) == ["is in the sun outside of its hours"]

    @pytest.mark.parametrize("on", [720, 840])
    def test_somebody_puts_it_on(self, faults, on):
        assert faults(on, 900, 960) == []

    @pytest.mark.parametrize("on", [721, 839])
    def test_nobody_puts_it_on(self, faults, on):
        assert faults(on, 900, 960) == ["nobody is there to put it in the sun"]

    def test_somebody_takes_it_off_or_it_is_eaten_soon(self, faults):
        gone = ["nobody is there to take it out of the sun"]
        assert faults(600, 720, 760) == []
        assert faults(600, 721, 741) == []
        assert faults(600, 721, 742) == gone
        assert faults(600, 840, 900) == []
        assert faults(600, 839, 900) == gone

    def test_no_fire_is_asked_for(self, faults, case):
        assert case(light=0).sunny is False
        assert faults(601, 899, 910) == []


def test_hours_hold_both_of_their_ends(case):
    home = replace(case().scenario, windows=(Window(360, 540), Window(660, 780)))
    assert window_of(home, 360, 540) == Window(360, 540)
    assert window_of(home, 660, 661) == Window(660, 780)
    for start, end in ((359, 540), (360, 541), (540, 660), (600, 620), (400, 700)):
        assert window_of(home, start, end) is None
