"""An insulated cooker, told: hours hot, how thick, a bag of packing, what would help."""

import math
from itertools import pairwise

from optimizer.model.things import Cooker
from optimizer.report.boxed import (
    caution_codes,
    dish_lines,
    hours_span,
    laid_lines,
    material_lines,
)
from optimizer.report.kitchen import hours, hours_band, length, loss, volume
from optimizer.report.layout import GAP, table, wrap
from optimizer.report.measures import Measures, Units, Us, measures
from optimizer.report.remarks import joined, mind
from optimizer.studies.box import BoxAnswer, BoxQuestion
from optimizer.studies.designs import Bag
from optimizer.studies.insulation import Holding

CM_M, INCH_M = 0.01, 0.0254
FEW_MIN = 2.5  # less is nothing
SHOWN_H = (1, 2, 4, 6, 8, 12)
CHANGES = {
    "no gaps": "packed with care, hardly a gap",
    "gaps": "packed carelessly, more gaps",
    "blanket": "one more blanket laid over it",
    "damp": "the packing has become damp",
    "dry": "the packing has been dried",
    "half full": "the pot half as full",
}


def box_text(found: BoxAnswer, title: str, units: Units = "metric") -> str:
    """Say how an insulated cooker does.

    Parameters
    ----------
    found
        The answer.
    title
        Of the household.
    units
        Measures of the text.

    Returns
    -------
    str
        Lines of at most 80 columns.
    """
    system = measures(units)
    parts = [
        [*wrap(f"The {found.question.cooker.label}, {title}"), *_setting(found.question, system)],
        _headline(found, system),
        _curve_lines(found, system),
        _thickness_lines(found, system),
        _bag_lines(found.bag, system),
        laid_lines(found, system),
        _change_lines(found),
        material_lines(found, system),
        dish_lines(found, system),
        mind(caution_codes(found), system),
    ]
    return joined(parts)


def _setting(q: BoxQuestion, system: Measures) -> list[str]:
    full, kitchen = f"{100 * q.fill:.0f} %", system.temperature(q.at.place.kitchen_c)
    what = q.cooker.label if q.cooker.kind == "vacuum" else q.pot.label
    return wrap(
        f"{what}, {full} full of water or soup, off the boil at "
        f"{system.temperature(q.at.boil_c)} and carried over; kitchen {kitchen}"
    )


def made_of(cooker: Cooker, system: Measures) -> str:
    """Say what a cooker is.

    Parameters
    ----------
    cooker
        The cooker.
    system
        The measures.
    """
    if cooker.loss_w_k is not None:
        return f"As the {cooker.label} was measured"
    if cooker.material is None or cooker.thickness_m is None:
        return f"By the rating of the {cooker.label}"
    over = {0: "", 1: ", one blanket over it"}
    blankets = over.get(cooker.blankets, f", {cooker.blankets} blankets over it")
    state = "damp" if cooker.damp else "dry"
    thick = length(cooker.thickness_m, system)
    return f"With {thick} of {cooker.material.label} all round, {state}{blankets}"


def _headline(found: BoxAnswer, system: Measures) -> list[str]:
    held, q = found.holding, found.question
    lines = wrap(
        f"{made_of(q.cooker, system)}: still above {system.temperature(q.at.rules.hot_c)} for "
        f"{hours_band(held.usual_h, held.low_h, held.high_h)}. A plan counts on "
        f"{hours(held.planned_h, down=True)}."
    )
    lost = f"It loses about {loss(held.loss_w_k, system)}"
    packed = f"; it takes {volume(held.packing_m3, system)} of packing" if held.packing_m3 else ""
    gaps = ""
    if q.cooker.kind == "packed" and q.cooker.loss_w_k is None:
        gaps = f" The packing is taken to miss {100 * q.cooker.gap:.0f} % of the pot."
    lines += wrap(f"{lost}{packed}.{gaps}")
    if _measured(found) and found.thicknesses:
        lines += wrap("What is said below of other packings and changes is computed, not measured.")
    if not held.exact:
        lines += wrap(
            "This size lies outside the range in which the loss was held against a numerical "
            "solution (packing of 0.05 to 2 times the pot's radius, pots 0.4 to 1.2 times as high "
            "as wide): take it as a rough guide."
        )
    return lines


def _curve_lines(found: BoxAnswer, system: Measures) -> list[str]:
    curve, start = found.holding.curve_c, found.holding.start_c
    cells = [system.temperature(curve[n]) for n in SHOWN_H if n < len(curve)]
    heads = ["closed", *(f"{n} h" for n in SHOWN_H if n < len(curve))]
    return table("Left shut", heads, [["usually about", system.temperature(start), *cells]])


def _hours_cells(held: Holding) -> list[str]:
    return [hours(held.usual_h), hours_span(held)]


def _thickness_lines(found: BoxAnswer, system: Measures) -> list[str]:
    if not found.thicknesses:
        return []
    rows = [
        [
            length(held.cooker.thickness_m or 0.0, system),
            *_hours_cells(held),
            more,
            loss(held.loss_w_k, system),
            volume(held.packing_m3 or 0.0, system),
        ]
        for held, more in zip(found.thicknesses, _adds(found, system), strict=True)
    ]
    best = max(found.thicknesses, key=lambda held: (held.usual_h, -held.loss_w_k))
    lines = table(
        "How thick", ["hot for", "between", f"{_one(system)} adds", "loses", "packing"], rows
    )
    if best is not found.thicknesses[-1]:
        thick = length(best.cooker.thickness_m or 0.0, system)
        lines += wrap(
            f"Above about {thick} the packing takes up as much heat as it saves. Close the gaps "
            "before you add to it.",
            GAP,
        )
    return lines


def _one(system: Measures) -> str:
    return "an inch" if isinstance(system, Us) else "a cm"


def _adds(found: BoxAnswer, system: Measures) -> list[str]:
    """Say what each centimetre or inch more than the row above is worth."""
    step_m = INCH_M if isinstance(system, Us) else CM_M
    told = ["-"]
    for thin, thick in pairwise(found.thicknesses):
        steps = ((thick.cooker.thickness_m or 0.0) - (thin.cooker.thickness_m or 0.0)) / step_m
        gain = 60 * (thick.usual_h - thin.usual_h) / steps
        known = math.isfinite(gain)
        told.append(
            ("nothing" if gain < FEW_MIN else f"{5 * round(gain / 5)} min") if known else "-"
        )
    return told


def _bag_lines(bag: Bag | None, system: Measures) -> list[str]:
    if bag is None:
        return []
    best, enough = bag.best, bag.enough
    thick, thin = (length(each.cooker.thickness_m or 0.0, system) for each in (best, enough))
    text = f"{volume(bag.packing_m3, system)} of packing goes {length(bag.most_m, system)} thick "
    text += f"all round. Best is {thick}: hot for about {hours(best.usual_h)}"
    if thin != thick:
        left = volume(enough.packing_m3 or 0.0, system)
        text += f"; {thin} ({left}) comes near that with about {hours(enough.usual_h)}"
    return ["Your bag of packing", *wrap(f"{text}.", GAP)]


def _change_lines(found: BoxAnswer) -> list[str]:
    if not found.changes:
        return []
    rows = [[CHANGES[each.name], *_hours_cells(each.holding)] for each in found.changes]
    if _measured(found):  # what it is compared with is computed
        return table("What would change it", ["hot for", "between"], rows)
    now = ["as it is", *_hours_cells(found.holding)]
    return table("What would change it", ["hot for", "between"], [now, *rows])


def _measured(found: BoxAnswer) -> bool:
    return found.question.cooker.loss_w_k is not None
