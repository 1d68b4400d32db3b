"""What to buy, what each thing is for and saves, in words and tables."""

from collections.abc import Sequence

from optimizer.model.household import OwnStove, ThingOffer
from optimizer.report.blocks import Block, block
from optimizer.report.cases import whole_days
from optimizer.report.layout import GAP, wrap
from optimizer.report.measures import Measures, Units, figures, kilowatt_hours, measures
from optimizer.report.names import Names
from optimizer.report.text import heading
from optimizer.studies.buying.offers import Offer
from optimizer.studies.buying.purchase import Bought, Change, Held, Purchase

MOST_DISHES = 6
GENERAL = frozenset({"makers_word", "flames_outdoors"})  # of the cautions of a plan
MJ_PER_J = 1e-6
NO_MONEY = 0.005
ROUNDING_KG = 1e-6  # of a sum of packages


def money(sum_: float, purchase: Purchase) -> str:
    """Write a sum of money."""
    return f"{sum_:.2f} {purchase.scenario.currency}"


def amount(offer: Offer, count: float, system: Measures) -> str:
    """Write so many packages of a fuel or of water as an amount."""
    if offer.kind == "water":
        return system.water(offer.amount * count)
    return fuel_amount(offer, offer.amount * count, system)


def fuel_amount(offer: Offer, in_all: float, system: Measures, *, up: bool = False) -> str:
    """Write an amount of a fuel, in kg or J."""
    store = getattr(offer.source, "store", None)
    weighed = store is not None and store.fuel.lhv_j_kg is not None
    if not weighed:
        return kilowatt_hours(in_all * MJ_PER_J)
    return system.fuel_up(in_all - ROUNDING_KG) if up else system.fuel(in_all, 3)


def thing(bought: Bought, system: Measures) -> str:
    """Name what is bought, with its package."""
    offer = bought.offer
    if offer.kind in ("fuel", "water"):
        return f"{bought.count} x {amount(offer, 1, system)} of {offer.label}"
    return f"{bought.count} x {offer.label}"


def summary(purchase: Purchase) -> list[str]:
    """Say in sentences what has to be bought, and how sure that is.

    Parameters
    ----------
    purchase
        What to buy.
    """
    days = whole_days(purchase.days)
    if purchase.cost is None:
        return _refused(purchase, days)
    if not purchase.bought:
        return [f"What there is lasts {days} on this menu: nothing has to be bought."]
    first = f"To last {days} on this menu, buy for {money(purchase.cost, purchase)}."
    if purchase.known:
        return [first, "Nothing cheaper lasts so long; that is proven."]
    least = money(purchase.bound or 0.0, purchase)
    return [first, f"Less than {least} cannot do; whether something between does is not known."]


def _refused(purchase: Purchase, days: str) -> list[str]:
    told = []
    if purchase.scenario.shop is None:
        told.append("The file says nothing of what may be bought: write it under 'shop:'.")
    within = f" within {money(purchase.budget, purchase)}" if purchase.budget is not None else ""
    sure = "can be bought" if purchase.refused else "was found"
    told.append(f"Nothing that lasts {days} {sure}{within}.")
    if purchase.stuck:
        dishes = ", ".join(purchase.stuck)
        told.append(f"Not for want of fuel: {dishes} cannot be cooked with anything on offer.")
    return told


def changes_told(purchase: Purchase, system: Measures) -> list[str]:
    """Say the least changes that would make it possible.

    Parameters
    ----------
    purchase
        What could not be bought.
    system
        The measures.
    """
    return [_change(change, purchase, system) for change in purchase.changes]


def _change(change: Change, purchase: Purchase, system: Measures) -> str:
    room = " and ".join(
        f"{fuel_amount(offer, most, system, up=True)} of {offer.label}"
        for offer, most in change.limits
    )
    cost = money(change.cost, purchase)
    if change.sort == "money":
        return f"{money(change.more_money, purchase)} more would do: {cost} in all."
    told = f"With room for {room} it would be {cost}; the local fire code sets what is allowed."
    if change.sort == "both":
        return f"{told} That is {money(change.more_money, purchase)} more than the budget."
    return told


def bought_block(purchase: Purchase, system: Measures) -> Block:
    """Set out what is bought.

    Parameters
    ----------
    purchase
        What to buy.
    system
        The measures.
    """
    rows = [
        (thing(each, system), money(each.cost, purchase), without(each, purchase))
        for each in purchase.bought
    ]
    return block("Buy", ("price", "without it"), rows)


def uses_told(purchase: Purchase, system: Measures) -> list[str]:
    """Say what each thing is for.

    Parameters
    ----------
    purchase
        What to buy.
    system
        The measures.
    """
    return [f"{each.offer.label}: {use(each, system)}" for each in purchase.bought]


def without(each: Bought, purchase: Purchase) -> str:
    """Say what doing without a thing would cost."""
    if each.without is None:
        return "cannot be done"
    more = each.without - (purchase.cost or 0.0)
    if not each.without_known:
        return f"at least {more:.2f} more" if more > NO_MONEY else "not known"
    return f"{more:.2f} more" if more > NO_MONEY else "as cheap"


def use(each: Bought, system: Measures) -> str:
    """Say what a thing is for."""
    if each.litres is not None:
        return f"{system.water(each.litres)} not boiled"
    named = ", ".join(each.dishes[:MOST_DISHES])
    more = len(each.dishes) - MOST_DISHES
    if not named:
        return "kept in hand"
    return f"{named} and {more} more" if more > 0 else named


def fuel_block(purchase: Purchase, system: Measures) -> Block:
    """Set out what is burned of each fuel, and what it may come to.

    Parameters
    ----------
    purchase
        What to buy.
    system
        The measures.
    """
    names = Names(purchase.household or purchase.scenario)
    rows = [
        (
            names.fuel(held.store.fuel.name),
            *(_heat(held, mj, system) for mj in (held.used_mj, held.careful_mj)),
            "no limit" if held.usable_mj is None else _heat(held, held.usable_mj, system),
        )
        for held in purchase.fuels
        if held.used_mj or held.usable_mj
    ]
    return block("Fuel", ("usually burned", "counted", "may be burned"), rows, *_margins(purchase))


def _heat(held: Held, mj: float, system: Measures) -> str:
    kg = held.kg(mj)
    return kilowatt_hours(mj) if kg is None else system.fuel(kg, 3)


def _margins(purchase: Purchase) -> list[str]:
    """Say how much more is counted, and why."""
    names = Names(purchase.household or purchase.scenario)
    listed = ", ".join(
        f"{names.stove(stove)} {round(100 * (more - 1))} %"
        for stove, more in purchase.margins.items()
    )
    sure = figures(100 * purchase.scenario.confidence, 3)
    if not listed:
        return []
    return [
        f"Counted with more than usual, so that it is enough in {sure} cases of 100: {listed}.",
        "The reserve is kept beside that.",
    ]


def buying_text(purchase: Purchase, units: Units = "metric") -> str:
    """Tell what to buy.

    Parameters
    ----------
    purchase
        What to buy.
    units
        Measures of the text.

    Returns
    -------
    str
        Lines of at most 80 columns.
    """
    system = measures(units)
    lines = [*heading(purchase.scenario, system), ""]
    lines += [line for told in summary(purchase) for line in wrap(told)]
    if purchase.changes:
        lines += ["", "The least changes that would make it possible"]
        lines += _listed(changes_told(purchase, system))
    if purchase.bought:
        lines += ["", *bought_block(purchase, system).lines, "", "What it is for"]
        lines += _listed(uses_told(purchase, system))
    if purchase.plan is not None:
        lines += ["", *fuel_block(purchase, system).lines]
    if not purchase.complete:
        lines += ["", *wrap("'At least': not settled in the time; --time-limit allows more.")]
    told = cautions_told(purchase)
    return "\n".join([*lines, *(["", "Mind", *_listed(told)] if told else [])])


def cautions_told(purchase: Purchase) -> list[str]:
    """Say what to mind of what is bought, and of every plan.

    Parameters
    ----------
    purchase
        What to buy.
    """
    general = purchase.plan.cautions if purchase.plan else ()
    told = [caution.text for caution in purchase.cautions]
    told += [caution.text for caution in general if caution.code in GENERAL]
    if any(_has_flame(each) for each in purchase.bought):
        told.append(
            "A new stove with a flame stands outdoors only, save an installed hob with its vent."
        )
    return told


def _has_flame(each: Bought) -> bool:
    source = each.offer.source
    own = source.own if isinstance(source, ThingOffer) else None
    return isinstance(own, OwnStove) and own.stove.flame


def _listed(told: Sequence[str]) -> list[str]:
    return [line for each in told for line in wrap(f"- {each}", GAP, 2 * GAP)]
