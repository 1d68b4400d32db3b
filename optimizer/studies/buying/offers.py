"""Everything that may be bought, in one list, and a household with some of it bought."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

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
from optimizer.planning.stock import joules_per_kg

Kind = Literal["fuel", "stove", "pot", "cooker", "water"]
MOST_PACKAGES = 1000
EVEN = 1e-9
Basket = tuple[int, ...]
"""How many of each offer, in the order of the offers."""


@dataclass(frozen=True, slots=True)
class Offer:
    """One thing that may be bought, and how many of it at most."""

    kind: Kind
    name: str
    label: str
    price: float  # of one
    most: int
    amount: float  # in one: kg or J of fuel, litres of water, 1 of a thing
    source: FuelOffer | ThingOffer | WaterOffer

    @property
    def resource(self) -> str:
        """What a kitchen calls the thing."""
        return f"{self.kind}:{self.name}"

    @property
    def places(self) -> int:
        """Pots that one of it takes at once."""
        own = self.source.own if isinstance(self.source, ThingOffer) else None
        return own.stove.places if isinstance(own, OwnStove) else 1

    @property
    def usable_j(self) -> float:
        """Heat in one package that may be burned, the reserve kept [J]."""
        if not isinstance(self.source, FuelOffer):
            return 0.0
        store = self.source.store
        return self.amount * (joules_per_kg(store.fuel) or 1.0) * (1 - store.reserve)


def offers_of(scenario: Scenario) -> tuple[Offer, ...]:
    """Return what the household may buy; fuel only as far as its storage limit lets it.

    Parameters
    ----------
    scenario : Scenario
        The household, with its shop.
    """
    shop = scenario.shop or Shop()
    return (
        *_fuels(scenario, shop),
        *(_thing(offer) for offer in shop.things),
        *_waters(shop),
    )


def _fuels(scenario: Scenario, shop: Shop) -> Iterator[Offer]:
    mine = {store.fuel.name: store for store in scenario.stores}
    for offer in shop.fuels:
        store = mine.get(offer.store.fuel.name, offer.store)
        have = store.stock_j if joules_per_kg(store.fuel) is None else store.stock_kg
        if have is None:
            continue  # there is no end of it
        limit = math.inf if offer.limit is None else (offer.limit - have) / offer.package
        most = int(min(MOST_PACKAGES, max(0.0, limit + EVEN)))
        now = replace(offer, store=store)
        fuel = store.fuel
        yield Offer("fuel", fuel.name, fuel.label, offer.price, most, offer.package, now)


def _thing(offer: ThingOffer) -> Offer:
    own = offer.own
    if isinstance(own, OwnStove):
        return Offer("stove", own.stove.name, own.stove.label, offer.price, own.count, 1, offer)
    if isinstance(own, OwnPot):
        return Offer("pot", own.pot.name, own.pot.label, offer.price, own.count, 1, offer)
    cooker = own.cooker
    return Offer("cooker", cooker.name, cooker.label, offer.price, own.count, 1, offer)


def _waters(shop: Shop) -> Iterator[Offer]:
    for offer in shop.water:
        label = f"{offer.kind} water"
        yield Offer("water", offer.kind, label, offer.price, offer.most, offer.litres, offer)


def cost_of(offers: Sequence[Offer], basket: Basket) -> float:
    """Return what a basket costs."""
    return math.fsum(offer.price * count for offer, count in zip(offers, basket, strict=True))


def with_bought(scenario: Scenario, offers: Sequence[Offer], basket: Basket) -> Scenario:
    """Return the household with a basket bought; water that needs no boiling is not among it.

    Parameters
    ----------
    scenario : Scenario
        The household.
    offers : sequence of Offer
        What may be bought.
    basket : tuple of int
        How many of each.

    Returns
    -------
    Scenario
        With larger stocks and more things.
    """
    stores = {store.fuel.name: store for store in scenario.stores}
    owned: dict[str, dict[str, OwnStove | OwnPot | OwnCooker]] = {
        "stove": {own.stove.name: own for own in scenario.stoves},
        "pot": {own.pot.name: own for own in scenario.pots},
        "cooker": {own.cooker.name: own for own in scenario.cookers},
    }
    for offer, count in zip(offers, basket, strict=True):
        if count and isinstance(offer.source, FuelOffer):
            stores[offer.name] = _filled(offer.source.store, offer.amount * count)
        elif count and isinstance(offer.source, ThingOffer):
            mine = owned[offer.kind].get(offer.name)
            more = replace(offer.source.own, count=count + (mine.count if mine else 0))
            owned[offer.kind][offer.name] = _as_owned(more, mine)
    return replace(
        scenario,
        stores=tuple(stores.values()),
        stoves=tuple(own for own in owned["stove"].values() if isinstance(own, OwnStove)),
        pots=tuple(own for own in owned["pot"].values() if isinstance(own, OwnPot)),
        cookers=tuple(own for own in owned["cooker"].values() if isinstance(own, OwnCooker)),
    )


def _as_owned(
    more: OwnStove | OwnPot | OwnCooker, mine: OwnStove | OwnPot | OwnCooker | None
) -> OwnStove | OwnPot | OwnCooker:
    """Return more of a thing, as the household has it where it has some."""
    return more if mine is None else replace(mine, count=more.count)


def _filled(store: Store, amount: float) -> Store:
    if store.stock_kg is not None:
        return replace(store, stock_kg=store.stock_kg + amount)
    return replace(store, stock_j=(store.stock_j or 0.0) + amount)
