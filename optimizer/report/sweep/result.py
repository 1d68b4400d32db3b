"""A sweep for other programs."""

import json
from typing import Any

from optimizer.studies.sweep.columns import in_columns
from optimizer.studies.sweep.study import Sweep


def to_json(known: Sweep) -> dict[str, Any]:
    """Give a sweep as plain values; what is not known is null.

    Parameters
    ----------
    known
        What is known of it.
    """
    names = [column.name for column in known.columns]
    rows = (in_columns(row, known.columns) for row in known.rows)
    return {
        "version": 1,
        "title": known.scenario.title,
        "currency": known.scenario.currency,
        "sweep": known.grid.fingerprint,
        "points": known.grid.count,
        "varied": [{"name": axis.key, "values": list(axis.values)} for axis in known.grid.axes],
        "rows": [dict(zip(names, row, strict=True)) for row in rows],
    }


def json_text(known: Sweep) -> str:
    """Write a sweep as JSON, ending in a new line.

    Parameters
    ----------
    known
        What is known of it.
    """
    return json.dumps(to_json(known), indent=2, ensure_ascii=False, allow_nan=False) + "\n"
