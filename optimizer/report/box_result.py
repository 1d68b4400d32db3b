"""All about an insulated cooker as plain values, version 1, for other programs."""

import json
import math
from typing import Any

from optimizer.report.boxed import caution_codes
from optimizer.report.kitchen import LONGEST_H
from optimizer.studies.box import BoxAnswer
from optimizer.studies.finishing import Finish
from optimizer.studies.insulation import Holding
from optimizer.studies.laying import Laid


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
        "measured": q.cooker.loss_w_k is not None,
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
        "laid": [_laid(each) for each in found.laid],
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
        "hourly_planned_c": list(held.careful_c),
        "within_tested_range": held.exact,
    }


def _laid(each: Laid) -> dict[str, Any]:
    layers = zip(each.heaps, each.thick_m, strict=True)
    return {
        "inside_out": [
            {"material": h.material.name, "packing_m3": h.packing_m3, "thickness_m": thick_m}
            for h, thick_m in layers
        ],
        "too_soft": [material.name for material in each.too_soft],
        **_holding(each.holding),
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
