"""What may be bought, as the file says it: fuels by the package, things by the piece, water."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any, Protocol

from optimizer.model.household import (
    FuelOffer,
    OwnCooker,
    OwnPot,
    OwnStove,
    Scenario,
    Shop,
    Store,
    ThingOffer,
    WaterOffer,
)
from optimizer.model.things import Cooker, Fuel, Pot, Stove
from optimizer.scenario.document import Document, Location
from optimizer.scenario.fuels import counted, where_it_stands
from optimizer.scenario.things import Things
from optimizer.units import Quantity, QuantityError, read_money

WATERS = (("bottled", "bottled_water"), ("treated", "treated_water"))
L_PER_M3 = 1000.0


class Holder(Protocol):
    """The household of a file, as far as it matters here."""

    document: Document
    entries: Any
    things: Things
    fuels: dict[str, Fuel]
    made_stoves: dict[str, Stove]
    made_pots: dict[str, Pot]
    made_cookers: dict[str, Cooker]


def shop_of(household: Holder, stores: Iterable[Store]) -> Shop | None:
    """Read what may be bought; what is wrong is noted in the document.

    Parameters
    ----------
    household
        The file and its things.
    stores
        The fuels that the household has.
    """
    entry = household.entries.shop
    if entry is None:
        return None
    return Shop(
        fuels=tuple(_fuels(household, entry.fuels, {s.fuel.name: s for s in stores})),
        things=(
            *_things(household, "stoves", household.made_stoves, _own_stove),
            *_things(household, "pots", household.made_pots, _own_pot),
            *_things(household, "cookers", household.made_cookers, _own_cooker),
        ),
        water=tuple(_waters(household.document, entry)),
        budget=entry.budget,
    )


def sum_of_money(given: str, currency: str) -> float | None:
    """Read a sum that a person types, with its currency or without; None where it is none.

    Parameters
    ----------
    given
        Such as ``60`` or ``60 EUR``.
    currency
        Of the scenario.
    """
    try:
        return read_money(
            given if given.strip()[-1:].isalpha() else f"{given} {currency}", currency
        )
    except QuantityError:
        return None


def budget_told(scenario: Scenario) -> str:
    """Write the budget of the file; nothing where it has none.

    Parameters
    ----------
    scenario
        The household.
    """
    budget = scenario.shop.budget if scenario.shop else None
    return "" if budget is None else f"{budget:g} {scenario.currency}"


def _fuels(
    household: Holder, entries: Mapping[str, Any], stores: Mapping[str, Store]
) -> Iterator[FuelOffer]:
    for name, entry in entries.items():
        at: Location = ("shop", "fuels", name)
        fuel = household.things.look_up("fuels", name, household.fuels, at)
        if fuel is None or entry.price is None:
            continue
        one = Quantity(entry.price.package or 0.0, entry.price.unit)
        package = counted(household.document, fuel, one, (*at, "price"))
        limit = counted(household.document, fuel, entry.storage_limit, (*at, "storage_limit"))
        if package is None:
            continue
        price = entry.price.value * one.value
        store = stores.get(name) or _none_of(fuel, price / package, household.entries.reserve)
        yield FuelOffer(store, price, package, limit)


def _none_of(fuel: Fuel, price: float, reserve: float) -> Store:
    """Return the empty store of a fuel that is not in the house yet."""
    if fuel.lhv_j_kg is None:
        return Store(fuel, None, 0.0, None, price, None, reserve)
    return Store(fuel, 0.0, None, price, None, fuel.package_kg, reserve)


def _things(
    household: Holder,
    section: str,
    own: Mapping[str, Any],
    made: Callable[[Holder, Any, int], OwnStove | OwnPot | OwnCooker | None],
) -> Iterator[ThingOffer]:
    for name, entry in getattr(household.entries.shop, section).items():
        at: Location = ("shop", section, name)
        thing = household.things.look_up(section, name, own, at)
        mine = None if thing is None else made(household, thing, entry.most)
        if mine is not None and entry.price is not None:
            yield ThingOffer(mine, entry.price)


def _own_stove(household: Holder, stove: Stove, most: int) -> OwnStove | None:
    """Return a stove where it would stand, if its fuel is there or may be bought."""
    at: Location = ("shop", "stoves", stove.name)
    known = {*household.fuels, *household.entries.shop.fuels}
    fuel = household.fuels.get(stove.fuel) or household.things.shelf.fuels.get(stove.fuel)
    if stove.fuel not in known or fuel is None:
        message = f"it burns {stove.fuel}, which is neither in the house nor in the shop"
        household.document.problem(at, "no_fuel", message)
        return None
    entry = household.entries.stoves.get(stove.name)
    given = entry.where if entry else None
    return OwnStove(stove, most, where_it_stands(household.document, stove, fuel, given))


def _own_pot(_household: Holder, pot: Pot, most: int) -> OwnPot:
    return OwnPot(pot, most)


def _own_cooker(household: Holder, cooker: Cooker, most: int) -> OwnCooker:
    entry = household.entries.cookers.get(cooker.name)
    whole = household.things.with_material(cooker)
    return OwnCooker(whole, most, bool(entry and entry.pressure_allowed))


def _waters(document: Document, entry: Any) -> Iterator[WaterOffer]:
    for kind, key in WATERS:
        given = getattr(entry, key)
        if given is None or given.price is None:
            continue
        price = given.price
        if price.unit != "m**3":
            message = "water is sold by volume; write for example '1.20 EUR / 6 L'"
            document.problem(("shop", key, "price"), "unit_wrong", message)
            continue
        yield WaterOffer(
            "bottled" if kind == "bottled" else "treated",
            price.value * price.package,
            L_PER_M3 * price.package,
            given.most,
        )
