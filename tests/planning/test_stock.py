"""What is in the store, in joules and money."""

from dataclasses import replace

import pytest

from optimizer import shelf
from optimizer.model.household import Store
from optimizer.planning.stock import (
    joules_per_kg,
    package_j,
    price_j,
    stock_j,
    store_of,
    usable_j,
)

THINGS = shelf.load()
# 18 MJ/kg dry at 20 % moisture by the formula in print: 18 * 0.8 - 2.443 * 0.2 (ISO 18125)
DAMP = replace(THINGS.fuels["sticks"], lhv_j_kg=18e6, moisture=0.2)
DAMP_J_KG = 13.9114e6
POWER = Store(THINGS.fuels["electricity"], None, 5e6, None, 1e-7, None, 0.2)


def damp(**change: object) -> Store:
    return replace(Store(DAMP, 10.0, None, 0.3, None, 2.0, 0.1), **change)


def test_a_kilogram_of_damp_sticks_gives_less_heat():
    assert joules_per_kg(DAMP) == pytest.approx(DAMP_J_KG)
    assert joules_per_kg(replace(DAMP, moisture=0.0)) == 18e6


def test_electricity_has_no_mass():
    assert joules_per_kg(POWER.fuel) is None
    assert stock_j(POWER) == 5e6
    assert usable_j(POWER) == pytest.approx(4e6)
    assert price_j(POWER) == 1e-7
    assert package_j(POWER) is None


def test_the_reserve_is_left_out_of_what_may_be_used():
    assert stock_j(damp()) == pytest.approx(10 * DAMP_J_KG)
    assert usable_j(damp()) == pytest.approx(9 * DAMP_J_KG)


def test_a_store_without_a_limit_has_none():
    assert stock_j(damp(stock_kg=None)) is None
    assert usable_j(damp(stock_kg=None)) is None


def test_money_and_packages_go_by_the_kilogram():
    assert price_j(damp()) * DAMP_J_KG == pytest.approx(0.3)
    assert price_j(damp(price_kg=None)) == 0
    assert package_j(damp()) == pytest.approx(2 * DAMP_J_KG)
    assert package_j(damp(package_kg=None)) is None


def test_a_store_is_found_by_its_fuel(household):
    home = household()
    assert store_of(home, "propane") is home.stores[1]
    assert store_of(home, "peat") is None
