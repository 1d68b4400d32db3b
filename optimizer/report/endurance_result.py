"""How long the store lasts, for other programs: version 1."""

import json
import math
from typing import Any

from optimizer.report.cases import changed
from optimizer.report.result import to_json
from optimizer.studies.endurance.changes import Tried
from optimizer.studies.endurance.days import Lasting
from optimizer.studies.endurance.ends import End
from optimizer.studies.endurance.fallback import Fallback
from optimizer.studies.endurance.opening import First, Opening
from optimizer.studies.endurance.study import Endurance


def json_text(known: Endurance) -> str:
    """Write the study as text.

    Parameters
    ----------
    known
        The study.

    Returns
    -------
    str
        JSON, ending in a new line.

    Raises
    ------
    ValueError
        If a number is infinite or not a number.
    """
    text = json.dumps(endurance_json(known), indent=2, ensure_ascii=False, allow_nan=False)
    return text + "\n"


def endurance_json(known: Endurance) -> dict[str, Any]:
    """Give the study as plain values; masses in kg, energies in MJ.

    Parameters
    ----------
    known
        The study.
    """
    lasting = known.lasting
    shown = lasting.plan or known.none
    return {
        "version": 1,
        "title": known.scenario.title,
        "status": "stopped" if known.stopped else "complete" if known.complete else "time_limit",
        "round_days": known.scenario.days,
        **_days(lasting),
        "low_days": known.low,
        "high_days": known.high,
        "ends": [_end(end) for end in lasting.ends],
        "opening": _opening(known.opening) if known.opening else None,
        "burns_sticks": known.sticks,
        "fallbacks": [_fallback(each) for each in known.fallbacks],
        "changes": [_tried(each) for each in known.changes],
        "cases": [_tried(each) for each in known.cases],
        "plan": to_json(shown) if shown else None,
        "problems": [],
    }


def _days(found: Lasting | Tried) -> dict[str, Any]:
    mixed = found.mix_days
    return {
        "days": found.days,
        "most_days": found.most,
        "mix_days": mixed if mixed is not None and math.isfinite(mixed) else None,
        "beyond": found.beyond,
        "cannot_be_cooked": None if found.stuck is None else list(found.stuck),
    }


def _end(end: End) -> dict[str, Any]:
    return {
        "fuel": end.fuel,
        "day": end.day,
        "usable_kg": end.usable_kg,
        "usable_mj": end.usable_mj,
        "left_kg": end.left_kg,
        "left_mj": end.left_mj,
        "weight": end.weight,
    }


def _opening(opening: Opening) -> dict[str, Any]:
    short = opening.short
    return {
        "days": opening.days,
        "sparing": _first(opening.sparing),
        "ordinary": _first(opening.ordinary) if opening.ordinary else None,
        "short": {"fuel": short[0], "day": short[1]} if short else None,
    }


def _first(first: First) -> dict[str, Any]:
    return {
        "open_days": first.open_days,
        "open_most": first.open_most,
        "open_mix": first.open_mix,
        "plan": to_json(first.plan),
    }


def _fallback(each: Fallback) -> dict[str, Any]:
    return {
        "day": each.day,
        "possible": each.plan is not None,
        "known": each.known,
        "enough": each.enough,
        "held": [{"fuel": held.fuel, "kg": held.kg, "mj": held.mj} for held in each.held],
        "cannot_be_cooked": list(each.cold),
        "plan": to_json(each.plan) if each.plan else None,
    }


def _tried(each: Tried) -> dict[str, Any]:
    case = each.case
    return {
        "sort": case.sort,
        "what": changed(case),
        "about": case.what,
        "instead": case.instead,
        "count": case.count,
        **_days(each),
    }
