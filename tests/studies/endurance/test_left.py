"""Days left after a meal: counted where there is time for it, else the pace; which is said."""

import pytest

from optimizer.model.now import Left
from optimizer.planning.remaining import with_left
from optimizer.report.left import days_left_told
from optimizer.scenario.reading import parse
from optimizer.studies.endurance.days import how_long
from optimizer.studies.endurance.left import days_left
from optimizer.trials.remains import Pace

HOME = """\
title: Tea
people: 2
days: 1
place: {altitude: 100 m, kitchen: 15 degC, outdoors: 10 degC, water: 10 degC}
cook_hours: ["06:00-08:00"]
fuels: {propane: {stock: 400 g, price: 9 EUR / kg, reserve: 25 %}}
stoves: {gas_burner: 1}
pots: {pot_2_5l: 1}
menu:
  - {meal: breakfast, at: "07:30", dishes: [tea]}
"""


@pytest.fixture(name="home")
def _home():
    return parse(HOME)


def test_what_is_left_is_counted_like_any_store_and_its_reserve_stays(home):
    left = with_left(home, [Left("propane", 0.2, None)])
    (store,) = left.stores
    assert store.stock_kg == pytest.approx(0.2)
    assert store.reserve * 0.2 == pytest.approx(0.1)  # a quarter of 400 g
    found = days_left(left, quick_s=60.0)
    assert found is not None
    assert found.days == how_long(left).days
    assert 0 < found.days < how_long(home).days


def test_no_time_gives_no_count_and_the_pace_is_told_as_such(home):
    assert days_left(home, quick_s=0.0) is None
    told = days_left_told(None, (Pace("propane", 2.5),), home)
    assert "pace of the plan: propane about 2.5 days" in told


def test_a_count_is_told_as_a_count(home):
    found = days_left(with_left(home, [Left("propane", 0.2, None)]), quick_s=60.0)
    told = days_left_told(found, (), home)
    assert told.startswith("Counted anew, every day scheduled and checked, the reserve kept")
    assert f"lasts {found.days} days of this menu" in told


def test_nothing_left_is_no_day(home):
    found = days_left(with_left(home, [Left("propane", 0.1, None)]), quick_s=60.0)
    assert "does not last one whole day" in days_left_told(found, (), home)
