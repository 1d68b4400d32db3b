"""An insulated cooker, told: hours hot, how thick, a bag of packing, what would help."""

import math
from itertools import pairwise

from optimizer.model.things import Cooker
from optimizer.report.blocks import Block, block
from optimizer.report.boxed import (
    caution_codes,
    dish_block,
    hours_span,
    laid_block,
    material_block,
    packing_label,
)
from optimizer.report.kitchen import hours, hours_band, length, loss, volume
from optimizer.report.layout import wrap
from optimizer.report.measures import Measures, Units, Us, measures
from optimizer.report.remarks import joined, mind
from optimizer.studies.box import BoxAnswer
from optimizer.studies.insulation import Holding

CM_M, INCH_M = 0.01, 0.0254
FEW_MIN = 2.5  # less is nothing
SHOWN_H = (1, 2, 4, 6, 8, 12)
ROUGH = (
    "This size lies outside the range in which the loss was held against a numerical solution "
    "(packing of 0.05 to 2 times the pot's radius, pots 0.4 to 1.2 times as high as wide): take it "
    "as a rough guide."
)
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
        [*wrap(f"The {found.question.cooker.label}, {title}"), *wrap(setting(found, system))],
        [line for told in headline(found, system) for line in wrap(told)],
        *(each.lines for each in box_blocks(found, system)),
        mind(caution_codes(found), system),
    ]
    return joined(parts)


def box_blocks(found: BoxAnswer, system: Measures) -> list[Block]:
    """Give all tables of an answer, in the order in which they are read.

    Parameters
    ----------
    found
        The answer.
    system
        The measures.
    """
    made = (
        curve_block(found, system),
        thickness_block(found, system),
        bag_block(found, system),
        laid_block(found, system),
        change_block(found),
        material_block(found, system),
        dish_block(found, system),
    )
    return [each for each in made if each is not None]


def setting(found: BoxAnswer, system: Measures) -> str:
    """Say what is in the cooker, and where it stands.

    Parameters
    ----------
    found
        The answer.
    system
        The measures.
    """
    q = found.question
    full, kitchen = f"{100 * q.fill:.0f} %", system.temperature(q.at.place.kitchen_c)
    what = q.cooker.label if q.cooker.kind == "vacuum" else q.pot.label
    return (
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


def headline(found: BoxAnswer, system: Measures) -> list[str]:
    """Say how long it keeps hot, what it loses, and how far that can be trusted.

    Parameters
    ----------
    found
        The answer.
    system
        The measures.
    """
    held, q = found.holding, found.question
    told = [
        f"{made_of(q.cooker, system)}: still above {system.temperature(q.at.rules.hot_c)} for "
        f"{hours_band(held.usual_h, held.low_h, held.high_h)}. A plan counts on "
        f"{hours(held.planned_h, down=True)}."
    ]
    lost = f"It loses about {loss(held.loss_w_k, system)}"
    packed = f"; it takes {volume(held.packing_m3, system)} of packing" if held.packing_m3 else ""
    gaps = ""
    if q.cooker.kind == "packed" and q.cooker.loss_w_k is None:
        gaps = f" The packing is taken to miss {100 * q.cooker.gap:.0f} % of the pot."
    told.append(f"{lost}{packed}.{gaps}")
    if _measured(found) and found.thicknesses:
        told.append("What is said below of other packings and changes is computed, not measured.")
    return [*told, *([] if held.exact else [ROUGH])]


def curve_block(found: BoxAnswer, system: Measures) -> Block:
    """Say how hot it is hour by hour.

    Parameters
    ----------
    found
        The answer.
    system
        The measures.
    """
    held = found.holding
    shown = [n for n in SHOWN_H if n < len(held.curve_c)]
    rows = [
        [name, *(system.temperature(level) for level in (held.start_c, *(c[n] for n in shown)))]
        for name, c in (("usually about", held.curve_c), ("a plan counts on", held.careful_c))
    ]
    return block("Left shut", ["closed", *(f"{n} h" for n in shown)], rows)


def _hours_cells(held: Holding) -> list[str]:
    return [hours(held.usual_h), hours_span(held)]


def thickness_block(found: BoxAnswer, system: Measures) -> Block | None:
    """Say what thinner and thicker packing would do, and what each step more is worth.

    Parameters
    ----------
    found
        The answer.
    system
        The measures.
    """
    if not found.thicknesses:
        return None
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
    note = ""
    if best is not found.thicknesses[-1]:
        thick = length(best.cooker.thickness_m or 0.0, system)
        note = (
            f"Above about {thick} the packing takes up as much heat as it saves. Close the gaps "
            "before you add to it."
        )
    heads = ["hot for", "between", f"{_one(system)} adds", "loses", "packing"]
    return block("How thick", heads, rows, note)


def beside_block(found: BoxAnswer, system: Measures) -> Block | None:
    """Set hours of the packing beside those of others, thickness by thickness.

    Parameters
    ----------
    found
        The answer.
    system
        The measures.
    """
    if not found.thicknesses:
        return None
    lines = (found.thicknesses, *found.beside)
    rows = [
        [length(row[0].cooker.thickness_m or 0.0, system), *(hours(each.usual_h) for each in row)]
        for row in zip(*lines, strict=True)
    ]
    return block("Hot for", [packing_label(each[0].cooker) for each in lines], rows)


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


def bag_block(found: BoxAnswer, system: Measures) -> Block | None:
    """Say how to spread a bag of packing.

    Parameters
    ----------
    found
        The answer.
    system
        The measures.
    """
    bag = found.bag
    if bag is None:
        return None
    best, enough = bag.best, bag.enough
    thick, thin = (length(each.cooker.thickness_m or 0.0, system) for each in (best, enough))
    text = f"{volume(bag.packing_m3, system)} of packing goes {length(bag.most_m, system)} thick "
    text += f"all round. Best is {thick}: hot for about {hours(best.usual_h)}"
    if thin != thick:
        left = volume(enough.packing_m3 or 0.0, system)
        text += f"; {thin} ({left}) comes near that with about {hours(enough.usual_h)}"
    return block("Your bag of packing", [], [], f"{text}.")


def change_block(found: BoxAnswer) -> Block | None:
    """Say what would make it better or worse.

    Parameters
    ----------
    found
        The answer.
    """
    if not found.changes:
        return None
    rows = [[CHANGES[each.name], *_hours_cells(each.holding)] for each in found.changes]
    if not _measured(found):  # else what it is compared with is computed
        rows.insert(0, ["as it is", *_hours_cells(found.holding)])
    return block("What would change it", ["hot for", "between"], rows)


def _measured(found: BoxAnswer) -> bool:
    return found.question.cooker.loss_w_k is not None
