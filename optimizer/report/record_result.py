"""The log of an outage as JSON, for other programs."""

import json
from typing import Any

from optimizer.model.household import Store
from optimizer.planning.stock import joules_per_kg
from optimizer.report.entries import latest
from optimizer.scenario.logbook import Line, Log
from optimizer.trials.burn import Ratio, ratios
from optimizer.trials.record import Record, left_at
from optimizer.trials.remains import Pace, paces
from optimizer.trials.thermometer import too_cold

MJ = 1e6
Row = dict[str, str]


def record_json(log: Log, record: Record) -> str:
    """Give a log as JSON for other programs: entries, what is left, what burned, what is too cold.

    Parameters
    ----------
    log
        The log.
    record
        The log beside its scenario.
    """
    minute, pace = latest(record), {each.fuel: each for each in paces(record, latest(record))}
    counts = {entry.n for entry, _ in log.standing}
    found = {
        "version": 1,
        "at": minute,
        "entries": [
            {**_said(line), "counts": entry.n in counts, "minute": entry.at}
            for entry, line in zip(log.entries, log.lines, strict=True)
        ],
        "lost_lines": list(log.lost),
        "left": [
            _left_json(record, s, minute, pace.get(s.fuel.name)) for s in record.scenario.stores
        ],
        "burned": [_ratio_json(ratio) for ratio in ratios(record)],
        "too_cold": [
            {
                "entry": c.entry,
                "item": c.item.dish.label,
                "read_c": c.read_c,
                "least_c": c.least_c,
                "at_table_c": c.at_table_c,
                "cautions": [{"code": w.code, "text": w.text} for w in c.cautions],
            }
            for c in too_cold(record)
        ],
    }
    return json.dumps(found, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def _said(line: Line) -> dict[str, Any]:
    """Give an entry as it was written, without a plan's steps."""
    return {key: said for key, said in line.plain.items() if key not in {"steps", "fires"}}


def _left_json(record: Record, store: Store, minute: int, pace: Pace | None) -> dict[str, Any]:
    left, heat = left_at(record, store, minute), joules_per_kg(store.fuel)
    return {
        "name": store.fuel.name,
        "left_kg": left if heat is not None else None,
        "left_mj": None if left is None else left * (heat or 1.0) / MJ,
        "days": pace.days if pace else None,
    }


def _ratio_json(ratio: Ratio) -> dict[str, Any]:
    return {
        "fuel": ratio.fuel,
        "stove": ratio.stove,
        "stoves": sorted({name for each in ratio.stretches for name in each.stoves}),
        "stretches": len(ratio.stretches),
        "measured": ratio.measured,
        "planned": ratio.predicted,
        "ratio": ratio.value,
        "half_90": ratio.half,
        "why_not": ratio.why_not or None,
    }
