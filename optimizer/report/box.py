"""An insulated cooker, told: hours hot, what would help, what to pack it with, what cooks in it."""

import json
import math
from collections.abc import Iterator
from itertools import pairwise
from typing import Any

from optimizer.model.things import Cooker, Material
from optimizer.planning.resting import LONGEST_MIN
from optimizer.report.kitchen import hours, hours_band, length, loss, volume
from optimizer.report.layout import GAP, table, wrap
from optimizer.report.measures import Measures, Units, Us, duration, in_measures, measures
from optimizer.shelf import load
from optimizer.studies.box import BoxAnswer, BoxQuestion
from optimizer.studies.designs import Bag
from optimizer.studies.finishing import Finish
from optimizer.studies.insulation import Holding

LONGEST_H = LONGEST_MIN // 60
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
        _change_lines(found),
        _material_lines(found, system),
        _dish_lines(found, system),
        ["Mind", *_caution_lines(found, system)],
    ]
    return "\n\n".join("\n".join(part) for part in parts if part)


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
    band = f"{hours(held.low_h, unit=False)} to {hours(held.high_h, unit=False)}"
    return [hours(held.usual_h), band]


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
            f"Above about {thick} the packing takes up as much heat as it saves (reckoned a "
            "little hard on thick packing). Close the gaps before you add to it.",
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
    now = ["as it is", *_hours_cells(found.thicknesses[0] if _measured(found) else found.holding)]
    rows = rows if _measured(found) else [now, *rows]
    return table("What would change it", ["hot for", "between"], rows)


def _measured(found: BoxAnswer) -> bool:
    return found.question.cooker.loss_w_k is not None


def _material_lines(found: BoxAnswer, system: Measures) -> list[str]:
    if not found.materials:
        return []
    rows = [
        [_material(dry.cooker), hours(dry.usual_h), hours(damp.usual_h), _care(dry.cooker)]
        for dry, damp in found.materials
    ]
    thick = length(found.question.cooker.thickness_m or 0.0, system)
    lines = table("What a house has", ["hot, dry", "damp", "when soiled"], rows)
    hot = sorted({m.label for m in _too_soft(found)})
    note = f"Each {thick} thick with the same gaps."
    if hot:
        note += (
            f" A pot off the boil is too hot for {', '.join(hot)}: put a trivet or cloth between."
        )
    return [*lines, *wrap(note, GAP)]


def _material(cooker: Cooker) -> str:
    return cooker.material.label if cooker.material else ""


def _too_soft(found: BoxAnswer) -> Iterator[Material]:
    for dry, _ in found.materials:
        packing = dry.cooker.material
        if packing is not None and packing.greatest_c < found.question.at.boil_c:
            yield packing


def _care(cooker: Cooker) -> str:
    return "wash" if cooker.material and cooker.material.washable else "replace"


def _dish_lines(found: BoxAnswer, system: Measures) -> list[str]:
    if not found.dishes:
        return []
    works = [each for each in found.dishes if each.refused is None]
    rows = [[_dish(each), *_finish_cells(each, system)] for each in works]
    heads = ["at the boil", "done after", "then about", "surely hot"]
    lines = table("What cooks in it", heads, rows) if rows else ["What cooks in it"]
    for each in found.dishes:
        lines += wrap(_remark(each), GAP, 2 * GAP) if _remark(each) else []
    return lines


def _dish(each: Finish) -> str:
    soak = f" (soak {duration(each.dish.soak_min)})" if each.dish.soak_min else ""
    return f"{each.dish.label}{soak}"


def _finish_cells(each: Finish, system: Measures) -> list[str]:
    then = "-" if each.done_c is None else system.temperature(each.done_c)
    done = f"over {LONGEST_H} h" if each.done_h is None else duration(60 * each.done_h)
    return [duration(each.boil_min), done, then, hours(each.hot_h, down=True)]


def _remark(each: Finish) -> str:
    label = each.dish.label
    if each.refused is not None:
        return f"{label}: {each.refused.reason}."
    if each.in_time or each.enough_min is None:
        return ""
    return (
        f"{label}: not done while it is surely hot; boil it {duration(each.enough_min)} first, or "
        "boil it again on the way."
    )


def caution_codes(found: BoxAnswer) -> list[str]:
    """Name the cautions that a cooker calls for.

    Parameters
    ----------
    found
        The answer.
    """
    q = found.question
    codes = ["makers_word", "thermometer", "reheat"]
    if q.cooker.kind == "packed":
        codes.append("soot_in_packing")
    if q.cooker.material is not None and q.cooker.material.greatest_c < q.at.boil_c:
        codes.append("hot_base_on_foam")
    if q.cooker.kind == "packed" and q.fill < q.at.rules.fill_least:
        codes.append("part_filled")
    foods = [part.food for each in found.dishes for part in each.dish.ingredients]
    codes += ["phaseolus"] if any(food.phaseolus for food in foods) else []
    codes += ["raw_meat"] if any(food.endpoint_c is not None for food in foods) else []
    codes += ["rice"] if any(food.name.startswith("rice") for food in foods) else []
    return [*codes, "children_scald"]


def _caution_lines(found: BoxAnswer, system: Measures) -> Iterator[str]:
    for code in caution_codes(found):
        yield from wrap(in_measures(f"- {load().cautions[code].text}", system), GAP, 2 * GAP)


def to_json(found: BoxAnswer) -> dict[str, Any]:
    """Give an answer as plain values: hours, degC, m, m3, W/K, J/K; null beyond the longest rest.

    Parameters
    ----------
    found
        The answer.

    Returns
    -------
    dict
        Version 1.
    """
    q, bag = found.question, found.bag
    return {
        "version": 1,
        "cooker": q.cooker.name,
        "kind": q.cooker.kind,
        "measured": _measured(found),
        "pot": q.pot.name,
        "fill": q.fill,
        "kitchen_c": q.at.place.kitchen_c,
        "boil_c": q.at.boil_c,
        "hot_c": q.at.rules.hot_c,
        "longest_h": LONGEST_H,
        "holding": _holding(found.holding),
        "thicknesses": [_holding(each) for each in found.thicknesses],
        "changes": [{"what": each.name, **_holding(each.holding)} for each in found.changes],
        "materials": [
            {
                "washable": bool(dry.cooker.material and dry.cooker.material.washable),
                "dry": _holding(dry),
                "damp": _holding(damp),
            }
            for dry, damp in found.materials
        ],
        "bag": bag
        and {
            "packing_m3": bag.packing_m3,
            "most_m": bag.most_m,
            "best": _holding(bag.best),
            "enough": _holding(bag.enough),
        },
        "dishes": [_finish(each) for each in found.dishes],
        "cautions": caution_codes(found),
    }


def _holding(held: Holding) -> dict[str, Any]:
    box = held.cooker
    return {
        "material": box.material.name if box.material else None,
        "thickness_m": box.thickness_m,
        "gap": box.gap,
        "damp": box.damp,
        "blankets": box.blankets,
        "loss_w_k": held.loss_w_k,
        "packing_j_k": held.packing_j_k,
        "time_constant_h": held.constant_h,
        "packing_m3": held.packing_m3,
        "start_c": held.start_c,
        "hot_h": _finite(held.usual_h),
        "hot_h_low": _finite(held.low_h),
        "hot_h_high": _finite(held.high_h),
        "planned_h": _finite(held.planned_h),
        "hourly_c": list(held.curve_c),
        "within_tested_range": held.exact,
    }


def _finish(each: Finish) -> dict[str, Any]:
    return {
        "dish": each.dish.name,
        "soak_minutes": each.dish.soak_min,
        "boil_minutes": each.boil_min,
        "done_h": each.done_h,
        "done_c": each.done_c,
        "hot_h": _finite(each.hot_h),
        "enough_boil_minutes": each.enough_min,
        "refused": each.refused and each.refused.code,
    }


def _finite(value: float) -> float | None:
    return value if math.isfinite(value) else None


def json_text(found: BoxAnswer) -> str:
    """Write an answer as JSON text, ending in a new line.

    Parameters
    ----------
    found
        The answer.

    Returns
    -------
    str
        JSON without NaN.
    """
    return json.dumps(to_json(found), indent=2, ensure_ascii=False, allow_nan=False) + "\n"
