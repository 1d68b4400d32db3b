"""A day when sticks fail is planned on what else there is, or said to have no fallback."""

from dataclasses import replace

import pytest

from optimizer.studies.endurance.fallback import BREEZE_M_S, bad_day, failing, fallbacks
from optimizer.studies.endurance.pool import Pool
from optimizer.studies.endurance.watch import Watch

POOL = Pool()


def looked(house):
    return fallbacks(house, watch=Watch(), pool=POOL)


def test_gas_takes_over_and_is_held_back(small):
    (found,) = looked(small(gas_kg=1.0))
    assert found.plan is not None
    assert {step.stove for step in found.plan.steps} == {"gas_burner"}
    assert found.enough
    assert found.cold == ()
    (held,) = found.held
    assert held.fuel == "propane"
    assert held.kg == pytest.approx(found.plan.fuels[1].used_kg)
    assert held.mj == pytest.approx(found.plan.fuel_mj)


def test_too_little_gas_is_told_with_what_it_would_take(small):
    (plenty,) = looked(small(gas_kg=1.0))
    (found,) = looked(small(gas_kg=plenty.held[0].kg / 2))
    assert not found.enough
    assert found.plan is not None
    assert found.held[0].kg == pytest.approx(plenty.held[0].kg, rel=0.02)


def test_without_another_stove_there_is_no_fallback(small):
    house = small()
    (found,) = looked(house)
    assert found.plan is None
    assert set(found.cold) == {item.dish.label for item in house.items}


def test_washing_waits_before_a_meal_does(small):
    house = small((("porridge", 450), ("washing_water", 450)), gas_kg=1.0)
    room = replace(house, pots=(replace(house.pots[0], count=1),))
    (found,) = looked(room)
    assert found.plan is not None
    assert found.cold == ("washing water",)


def test_every_day_of_the_menu_has_its_own(small):
    found = looked(small(days=2, gas_kg=1.0))
    assert [each.day for each in found] == [1, 2]


def test_a_household_without_sticks_needs_none(small):
    house = small(gas_kg=1.0)
    gas = replace(house, stoves=house.stoves[1:])
    assert failing(house) == ("stick_stove",)
    assert failing(gas) == ()
    assert looked(gas) == ()


def test_a_bad_day_is_wet_and_windy_and_has_a_day_before_to_soak(small):
    house = small((("bean_stew", 1110),), days=2, gas_kg=1.0)
    bad = bad_day(house, 2)
    assert all(w.rain and w.wind_m_s >= BREEZE_M_S for w in bad.weather)
    assert {window.day for window in bad.windows} == {1, 2}
    assert [item.day for item in bad.items] == [2]
    windy = replace(house, weather=(replace(house.weather[0], wind_m_s=9.0),) * 2)
    assert bad_day(windy, 1).weather[0].wind_m_s == 9.0


def test_a_stop_keeps_the_days_that_were_looked_at(small):
    told: list[str] = []

    def once(doing: str) -> bool:
        told.append(doing)
        return "day 2" not in doing

    found = fallbacks(small(days=3, gas_kg=1.0), watch=Watch(tell=once), pool=POOL)
    assert [each.day for each in found] == [1]
