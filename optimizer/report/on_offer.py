"""What was on offer beside what to buy: water that needs no boiling, and the room for fuel."""

from optimizer.report.buying import MJ_PER_J, money
from optimizer.report.measures import Measures, kilowatt_hours
from optimizer.studies.buying.purchase import Purchase

STORAGE_LAW = "The real limit is set by the local fire code, not by the file."


def waters_told(purchase: Purchase, system: Measures) -> list[str]:
    """Say which water that needs no boiling was for sale, and whether it is worth its price.

    Parameters
    ----------
    purchase
        What to buy.
    system
        The measures.
    """
    shop = purchase.scenario.shop
    if shop is None or purchase.cost is None:
        return []
    bought = {each.offer.name for each in purchase.bought if each.offer.kind == "water"}
    other = "With it nothing comes cheaper." if purchase.known else "It is not among what to buy."
    return [
        f"Instead of boiling it to drink: {offer.kind} water, {system.water(offer.litres)} for "
        f"{money(offer.price, purchase)}. "
        + ("It is among what to buy." if offer.kind in bought else other)
        for offer in shop.water
    ]


def storage_told(purchase: Purchase, system: Measures) -> list[str]:
    """Say how much of each fuel the file lets the house hold, and who sets the real limit.

    Parameters
    ----------
    purchase
        What to buy.
    system
        The measures.
    """
    shop = purchase.scenario.shop
    limits = [
        f"{offer.store.fuel.label} "
        + (
            kilowatt_hours(offer.limit * MJ_PER_J)
            if offer.store.fuel.lhv_j_kg is None
            else system.fuel(offer.limit, 3)
        )
        for offer in (shop.fuels if shop else ())
        if offer.limit is not None
    ]
    told = f"The file lets the house hold at most: {', '.join(limits)}. " if limits else ""
    return [f"{told}{STORAGE_LAW}"] if shop and shop.fuels else []
