"""A plan cooked in every try: against the equations integrated one try at a time, and by sense."""

from dataclasses import replace

import numpy as np
import pytest
from scipy.integrate import quad, solve_ivp
from scipy.stats import spearmanr

from optimizer.planning.contents import load
from optimizer.planning.kitchen import pots_for
from optimizer.studies.chances.cooking import LATEST_MIN
from optimizer.studies.chances.draws import Draws
from optimizer.studies.chances.stoves import burning, day_of
from optimizer.studies.chances.trying import tried, way_of

COUNT = 400
FEW = (0, 7, 201)  # tries that are integrated one by one


def rate(level_c, dish):
    return 10 ** ((level_c - 100) / dish.z_k) if level_c >= dish.floor_c else 0.0


def minutes_up(course, fire, k, from_c):
    """Minutes to the top temperature in one try, by a general solver."""
    heat = course.way.boil.heat_j_k

    def slope(_, level):
        return (fire.net_w[k] - fire.loss_w_k[k] * (level - fire.air_c[k])) / heat

    def there(_, level):
        return level[0] - course.way.boil.top_c

    there.terminal = True
    found = solve_ivp(slope, (0, 1e5), [from_c], events=there, rtol=1e-9, atol=1e-9)
    return found.t_events[0][0] / 60


def rested(course, draws, k, minutes):
    """Temperature after a rest in one try and the minutes at 100 degC it was worth."""
    body, dish = course.way.body, course.item.dish
    name = course.way.cooker.cooker.name if course.way.cooker else course.way.pot.name
    leak = body.loss_w_k * (1 + body.loss_spread * draws.spreads(f"loss of {name}")[k])
    room = body.room_c + course.way.at.rules.air_spread_k * draws.spreads("kitchen")[k]

    def slope(_, levels):
        inside, packing = levels
        if not body.packing_j_k:
            return [-leak * (inside - room) / body.contents_j_k, 0.0]
        through = 2 * leak * (inside - packing)
        out = 2 * leak * (packing - room)
        return [-through / body.contents_j_k, (through - out) / body.packing_j_k]

    shut_s = 60 * max(0.0, minutes - body.move_min)
    curve = solve_ivp(
        slope, (0, shut_s), [body.start_c, body.room_c], rtol=1e-9, atol=1e-9, dense_output=True
    ).sol
    carried = min(minutes, body.move_min) * rate(body.start_c, dish)
    shut, _ = quad(lambda s: rate(curve(s)[0], dish), 0, shut_s, limit=400)
    return curve(shut_s)[0], carried + shut / 60


@pytest.fixture(name="cooked", scope="module")
def _cooked(demo):
    scenario, plan = demo
    draws = Draws(COUNT, 3)
    return scenario, plan, draws, tried(plan, scenario, draws)


def plain(course):
    return not course.step.pressure and not course.step.reboil and course.item.dish.boil_min >= 1


class TestOneTryAtATime:
    """The demonstration's dishes, each try integrated by scipy without a closed form."""

    def test_when_it_boils_and_what_it_burns(self, cooked):
        scenario, _, draws, found = cooked
        checked = 0
        for course in filter(plain, found.courses):
            fire = burning(course.way, day_of(course.step.on), draws)
            water = course.way.steam_kg(course.step.off - course.step.on)
            tap, kitchen = draws.spreads("water"), draws.spreads("kitchen")
            cold = load(course.item, scenario.place, pots_for(scenario, course.item))
            for k in FEW:
                share = 4190 * cold.water_kg / course.way.boil.heat_j_k
                shift = share * tap[k] + (1 - share) * kitchen[k]
                start = course.way.boil.start_c + scenario.rules.water_spread_k * shift
                up = minutes_up(course, fire, k, start)
                warm_j = water * 4190 * (course.way.boil.top_c - scenario.place.water_c)
                up += warm_j / fire.net_w[k] / 60
                hold = course.off[k] - course.boiled[k]
                lost = fire.loss_w_k[k] * (course.way.boil.top_c - fire.air_c[k])
                least = course.way.own.stove.low_power_w * fire.heat[k]
                leak = scenario.rules.steam_leak
                needs = max(least, lost / (1 - leak) / fire.efficiency[k]) / fire.heat[k]
                light = 0.0 if course.way.own.stove.tended else course.way.own.stove.start_j
                burnt = 60 * (up * fire.fuel_w[k] + hold * needs)
                burnt += light * fire.usual_heat / fire.heat[k]
                assert course.fuel_j[k] == pytest.approx(burnt, rel=5e-3)
                checked += 1
        assert checked >= 20

    def test_how_hot_and_how_far_done_it_comes_to_the_table(self, cooked):
        _, _, draws, found = cooked
        checked = 0
        for course in filter(plain, found.courses):
            dish = course.item.dish
            for k in FEW:
                wait = course.step.serve - course.off[k] - course.way.fall_min
                if wait < 0:
                    continue
                level, credit = rested(course, draws, k, wait)
                held = course.off[k] - course.boiled[k]
                credit += held * rate(course.way.boil.top_c, dish)
                off = dish.boil_spread * draws.spreads(f"boil minutes of {dish.name}")[k]
                done = credit / (dish.boil_min * (1 + off))
                assert course.table_c[k] == pytest.approx(level, abs=0.05)
                assert course.done[k] == pytest.approx(done, rel=0.02)
                assert course.done[k] <= done * (1 + 1e-3)  # never credited too much
                checked += 1
        assert checked >= 20


class TestBySense:
    """What every plan must show, whatever its numbers."""

    def test_without_any_spread_every_try_is_as_planned(self, demo):
        scenario, plan = demo
        still = Draws(3, 0)
        still._known.update({cause: np.zeros(3) for cause in causes(demo)})
        found = tried(plan, scenario, still)
        for step, course in zip(plan.steps, found.courses, strict=True):
            assert course.fuel_j[0] / 1e6 == pytest.approx(step.fuel_mj, rel=1e-3)
            assert (course.off <= step.off + 1e-6).all()  # the clock waits for a weak stove
            assert (course.done >= step.done - 0.02).all()
        assert found.all_well().all()

    def test_a_weak_stove_is_weak_for_all_its_pots(self, cooked):
        _, _, draws, found = cooked
        sticks = [c for c in found.courses if c.step.stove == "stick_stove"]
        assert len(sticks) >= 5
        apart = spearmanr([c.fuel_j for c in sticks], axis=1).statistic  # few never boil: by rank
        assert apart.min() > 0.4  # by itself each would be about 0
        weak = draws.spreads("efficiency of stick_stove") < -1
        for course in sticks:
            assert course.fuel_j[weak].mean() > course.fuel_j[~weak].mean()

    def test_damp_wood_and_wind_touch_no_gas_and_no_still_air(self, demo):
        scenario, plan = demo
        damp = Draws(COUNT, 3)
        damp._known["water in sticks"] = np.full(COUNT, 3.0)
        usual, wet = tried(plan, scenario, Draws(COUNT, 3)), tried(plan, scenario, damp)
        for before, after in zip(usual.courses, wet.courses, strict=True):
            if before.step.fuel == "sticks":
                assert after.fuel_j.mean() > before.fuel_j.mean()
            else:
                assert after.fuel_j == pytest.approx(before.fuel_j)

    def test_a_late_pot_makes_the_next_one_on_its_stove_late(self, demo):
        scenario, plan = demo
        slow = Draws(COUNT, 3)
        slow._known["efficiency of stick_stove"] = np.full(COUNT, -2.5)
        found = tried(plan, scenario, slow)
        pairs = [
            (a, b)
            for a, b in zip(found.courses, found.courses[1:], strict=False)
            if a.step.stove == b.step.stove == "stick_stove" and a.step.off == b.step.on
        ]
        assert pairs
        for first, second in pairs:
            waited = second.boiled < second.step.serve + LATEST_MIN  # else it was given up
            assert waited.mean() > 0.9
            assert first.off.mean() > first.step.off
            assert (second.boiled > first.off)[waited].all()

    def test_more_boil_minutes_never_make_it_surer(self, demo):
        scenario, plan = demo
        sure = tried(plan, scenario, Draws(COUNT, 3))
        slow = Draws(COUNT, 3)
        for cause in causes(demo):
            if cause.startswith("boil minutes"):
                slow._known[cause] = Draws(COUNT, 3).spreads(cause) + 1
        late = tried(plan, scenario, slow)
        for n in range(len(plan.steps)):
            assert late.done(n).sum() <= sure.done(n).sum()
        assert late.all_well().sum() < sure.all_well().sum()

    def test_leakier_packing_never_keeps_it_hotter(self, demo):
        scenario, plan = demo
        leaky = Draws(COUNT, 3)
        leaky._known["loss of packed_box"] = Draws(COUNT, 3).spreads("loss of packed_box") + 2
        tight, loose = tried(plan, scenario, Draws(COUNT, 3)), tried(plan, scenario, leaky)
        boxed = [n for n, s in enumerate(plan.steps) if s.cooker == "packed_box"]
        assert boxed
        for n in boxed:
            assert (loose.courses[n].table_c <= tight.courses[n].table_c + 1e-9).all()

    def test_the_days_add_up(self, cooked):
        scenario, plan, _, found = cooked
        assert found.used_mj(until=scenario.days) == pytest.approx(found.used_mj())
        for day in range(1, scenario.days):
            assert (found.used_mj(until=day) <= found.used_mj(until=day + 1)).all()
        each = sum(found.used_mj(use.name) for use in plan.fuels)
        assert each == pytest.approx(found.used_mj())


def causes(demo):
    """Names of all that varies in the demonstration."""
    scenario, plan = demo
    draws = Draws(2, 0)
    tried(plan, scenario, draws)
    for course in tried(plan, scenario, draws).courses:
        assert course.done.shape == (2,)
    return list(draws._known)


def test_the_way_of_a_step_is_the_one_it_was_priced_by(demo):
    scenario, plan = demo
    for step in plan.steps:
        way = way_of(step, scenario)
        assert way.fuel_j(step.off - step.on) >= 0
        assert round(way.hold_min(step.off - step.on)) == step.hold_minutes
        assert way.pot.name == step.pot


def test_a_pot_with_two_places_over_its_fire_waits_for_none(demo):
    scenario, plan = demo
    twice = tuple(
        replace(own, stove=replace(own.stove, places=2)) if own.stove.name == "stick_stove" else own
        for own in scenario.stoves
    )
    slow = Draws(COUNT, 3)
    slow._known["efficiency of stick_stove"] = np.full(COUNT, -2.5)
    one = tried(plan, scenario, slow)
    two = tried(plan, replace(scenario, stoves=twice), slow)
    for alone, beside in zip(one.courses, two.courses, strict=True):
        assert (beside.boiled <= alone.boiled + 1e-9).all()


class TestBoiledAgain:
    """A dish taken out of its box and boiled again before it falls to the limit."""

    def test_it_is_done_and_hot_as_often_as_it_must_be(self, boiled_again):
        scenario, plan = boiled_again
        assert plan.steps[0].finish == "boiled_again"
        found = tried(plan, scenario, Draws(2000, 7))
        assert found.done(0).mean() > scenario.confidence
        assert found.hot(0).mean() > scenario.rules.hot_confidence - 0.005

    def test_its_fuel_is_that_of_both_boils(self, boiled_again):
        scenario, plan = boiled_again
        burnt = tried(plan, scenario, Draws(2000, 7)).used_mj()
        step = plan.steps[0]
        again_mj = (step.reboil[0].off - step.reboil[0].on) * 60 * 2000 / 1e6
        assert again_mj > 0.1 * step.fuel_mj
        # planned as burning all the while at full power, which is more than most tries take
        assert 0.8 * step.fuel_mj < np.median(burnt) < 1.05 * step.fuel_mj

    def test_a_box_that_lets_it_fall_too_low_is_not_hot_though_it_boils_again(self, boiled_again):
        scenario, plan = boiled_again
        leaky = Draws(200, 7)
        leaky._known["loss of cushion_basket"] = np.full(200, 9.0)
        found = tried(plan, scenario, leaky)
        assert not found.hot(0).any()
        assert (found.courses[0].table_c >= scenario.rules.hot_c).all()
