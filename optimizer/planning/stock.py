"""What the store holds in joules, and what a joule of it costs."""

from functools import lru_cache

from optimizer.model.household import Scenario, Store
from optimizer.model.things import Fuel
from optimizer.physics import fuel


@lru_cache(maxsize=256)
def joules_per_kg(item: Fuel) -> float | None:
    """Return the heat of a kilogram as stocked [J/kg]; None for what has no mass."""
    if item.lhv_j_kg is None:
        return None
    return float(fuel.lower_heating_value_j_kg(dry_j_kg=item.lhv_j_kg, moisture=item.moisture))


def stock_j(store: Store) -> float | None:
    """Return the whole stock [J]; None where there is no limit."""
    if store.stock_kg is None:
        return store.stock_j
    return store.stock_kg * (joules_per_kg(store.fuel) or 0.0)


def usable_j(store: Store) -> float | None:
    """Return the stock without its reserve [J]."""
    whole = stock_j(store)
    return None if whole is None else whole * (1 - store.reserve)


def price_j(store: Store) -> float:
    """Return what a joule costs; a fuel without a price is free."""
    heat = joules_per_kg(store.fuel)
    if heat is None:
        return store.price_j or 0.0
    return (store.price_kg or 0.0) / heat


def package_j(store: Store) -> float | None:
    """Return the heat of one more package [J]."""
    heat = joules_per_kg(store.fuel)
    return None if heat is None or store.package_kg is None else heat * store.package_kg


def store_of(scenario: Scenario, fuel_name: str) -> Store | None:
    """Return the store of a fuel, or None when the household has none."""
    return next((s for s in scenario.stores if s.fuel.name == fuel_name), None)
