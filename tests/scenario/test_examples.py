"""The shipped scenarios are sound, and are what they say they are."""

import subprocess
import sys
from itertools import pairwise
from pathlib import Path

import pytest

from optimizer.scenario.reading import read
from optimizer.shelf import data_folder

EXAMPLES = {path.stem: path for path in Path(str(data_folder() / "scenarios")).glob("*.yaml")}


@pytest.fixture(scope="module")
def demo():
    return read(EXAMPLES["outage_weekend"])


def test_the_three_are_there() -> None:
    assert {"outage_weekend", "week", "short_of_fuel"} <= set(EXAMPLES)


@pytest.mark.parametrize("name", sorted(EXAMPLES))
def test_an_example_is_read_and_explains_itself(name) -> None:
    scenario = read(EXAMPLES[name])
    assert scenario.items
    assert EXAMPLES[name].read_text(encoding="utf-8").startswith("# ")


@pytest.mark.parametrize("name", sorted(EXAMPLES))
def test_the_records_hold_together(name) -> None:
    scenario = read(EXAMPLES[name])
    assert [item.number for item in scenario.items] == list(range(len(scenario.items)))
    assert all(a.serve_min <= b.serve_min for a, b in pairwise(scenario.items))
    assert all(a.end_min <= b.start_min for a, b in pairwise(scenario.windows))
    assert len(scenario.weather) == scenario.days
    fuels = {store.fuel.name for store in scenario.stores}
    assert {own.stove.fuel for own in scenario.stoves} <= fuels
    for own in scenario.stoves:
        assert own.where in ({"outdoors", "vented hob"} if own.stove.flame else {"indoors"})


def test_the_demonstration_is_the_household_of_the_house_plan(demo) -> None:
    assert (demo.title, demo.days, demo.adults, demo.children) == (
        "Three dark days at Fennel House", 3, 2, 3,
    )  # fmt: skip
    assert demo.place.kitchen_c == 12
    assert all(-3 <= day.outdoors_c <= 2 for day in demo.weather)
    assert len({(day.outdoors_c, day.wind_m_s) for day in demo.weather}) == 3
    stock = {store.fuel.name: store.stock_kg for store in demo.stores}
    assert stock["sticks"] == 12
    assert [own.pot.gauge_pa > 0 for own in demo.pots].count(True) == 1
    assert {own.cooker.kind for own in demo.cookers} == {"packed", "vacuum"}


def test_the_demonstration_serves_breakfast_lunch_and_supper_every_day(demo) -> None:
    for day in (1, 2, 3):
        items = [item for item in demo.items if item.day == day]
        assert 5 <= len(items) <= 8
        assert {"breakfast", "lunch", "supper"} <= {item.meal for item in items}
    served = {item.dish.name for item in demo.items}
    assert {"porridge", "tea", "bean_stew", "drinking_water", "washing_water"} <= served


def test_gas_of_the_demonstration_feeds_in_its_cold(demo) -> None:
    """Butane would not; the reason stands in the file."""
    gases = {store.fuel.vapour for store in demo.stores if store.fuel.kind == "gas"}
    assert gases == {"propane"}


def test_no_two_days_of_the_week_have_the_same_menu() -> None:
    week = read(EXAMPLES["week"])
    assert week.days == 7
    menus = {
        tuple(sorted(item.dish.name for item in week.items if item.day == day))
        for day in range(1, 8)
    }
    assert len(menus) == 7


def test_the_thin_days_hold_less_heat_than_the_water_needs() -> None:
    """All the fuel at the shelf's efficiency does not bring the water of the menu to the boil."""
    thin = read(EXAMPLES["short_of_fuel"])
    fuel = {
        store.fuel.name: (store.stock_kg or 0) * (store.fuel.lhv_j_kg or 0) for store in thin.stores
    }
    heat = sum(fuel[own.stove.fuel] * own.stove.efficiency for own in thin.stoves)
    water = sum(
        part.kg * item.adult_portions
        for item in thin.items
        for part in item.dish.ingredients
        if part.food.name == "water"
    )
    # 4.18 kJ/(kg K): specific heat of water (CRC Handbook, from memory); 6 to 97 degC
    assert heat < water * 4180 * (97 - thin.place.water_c)


@pytest.mark.slow
def test_loading_leaves_the_heavy_things_alone() -> None:
    code = (
        "import sys\n"
        "from optimizer.scenario.reading import read\n"
        "assert 'pint' not in sys.modules\n"
        f"read({str(EXAMPLES['outage_weekend'])!r})\n"
        "heavy = {'pandas', 'pulp', 'highspy', 'chemicals', 'fluids', 'ht', 'streamlit'}\n"
        "assert not heavy & set(sys.modules), heavy & set(sys.modules)\n"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
