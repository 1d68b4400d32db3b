"""What to buy, for other programs: version 1."""

import json
from typing import Any

from optimizer.report.result import to_json
from optimizer.studies.buying.offers import Offer
from optimizer.studies.buying.purchase import Bought, Change, Held, Purchase


def json_text(purchase: Purchase) -> str:
    """Write what to buy as text.

    Parameters
    ----------
    purchase
        What to buy.

    Returns
    -------
    str
        JSON, ending in a new line.

    Raises
    ------
    ValueError
        If a number is infinite or not a number.
    """
    text = json.dumps(buying_json(purchase), indent=2, ensure_ascii=False, allow_nan=False)
    return text + "\n"


def buying_json(purchase: Purchase) -> dict[str, Any]:
    """Give what to buy as plain values; masses in kg, energies in MJ, water in litres.

    Parameters
    ----------
    purchase
        What to buy.
    """
    plan = purchase.plan
    return {
        "version": 1,
        "title": purchase.scenario.title,
        "status": _status(purchase),
        "days": purchase.days,
        "currency": purchase.scenario.currency,
        "budget": purchase.budget,
        "cost": purchase.cost,
        "bound": purchase.bound,
        "gap": purchase.gap,
        "confidence": purchase.scenario.confidence,
        "bought": [_bought(each) for each in purchase.bought],
        "fuels": [_held(held) for held in purchase.fuels],
        "margins": dict(purchase.margins),
        "changes": [_change(each) for each in purchase.changes],
        "cannot_be_cooked": list(purchase.stuck),
        "cautions": [{"code": c.code, "text": c.text} for c in purchase.cautions],
        "complete": purchase.complete,
        "plan": to_json(plan) if plan else None,
        "problems": [],
    }


def _status(purchase: Purchase) -> str:
    if purchase.cost is None:
        return "infeasible" if purchase.refused else "none_found"
    return "optimal" if purchase.known else "not_proven"


def _bought(each: Bought) -> dict[str, Any]:
    return {
        **_offer(each.offer),
        "count": each.count,
        "package": each.offer.amount,
        "price": each.offer.price,
        "cost": each.cost,
        "for": list(each.dishes),
        "litres": each.litres,
        "cost_without": each.without,
        "cost_without_known": each.without_known,
    }


def _offer(offer: Offer) -> dict[str, Any]:
    return {"kind": offer.kind, "name": offer.name, "label": offer.label}


def _held(held: Held) -> dict[str, Any]:
    return {
        "name": held.store.fuel.name,
        "used_mj": held.used_mj,
        "used_kg": held.kg(held.used_mj),
        "careful_mj": held.careful_mj,
        "careful_kg": held.kg(held.careful_mj),
        "usable_mj": held.usable_mj,
        "usable_kg": None if held.usable_mj is None else held.kg(held.usable_mj),
    }


def _change(change: Change) -> dict[str, Any]:
    return {
        "sort": change.sort,
        "cost": change.cost,
        "more_money": change.more_money,
        "limits": [{**_offer(offer), "most": most} for offer, most in change.limits],
    }
