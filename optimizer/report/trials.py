"""A water test, told: what it says of the cooker, how sure, and what was made of each reading."""

import json
import math
from typing import Any

from optimizer.model.things import Rules
from optimizer.report.blocks import Block, block
from optimizer.report.kitchen import hours, hours_band, loss
from optimizer.report.layout import wrap
from optimizer.report.measures import Measures, Units, Us, duration, figures, in_measures, measures
from optimizer.report.remarks import joined, mind, written_into
from optimizer.shelf import load
from optimizer.trials.box import LONGEST_H, Estimate
from optimizer.trials.water_test import WaterTest

MOST_SHOWN = 24  # readings in the table
SHORT_MIN, SMALL_K = 120.0, 15.0  # a test shorter, or of a smaller fall, tells little
CAUTIONS = ("makers_word", "thermometer", "children_scald")
FAR_OFF = 2.0  # times the computed loss: something else is wrong, rather
AS_COMPUTED = 0.05  # a measured loss so near the computed one is the same: no test is better
ROUGH_K = 1.5  # readings that scatter more than this hide something
F_PER_K = 1.8


def water_test_text(found: WaterTest, units: Units = "metric", written: str | None = None) -> str:
    """Say what a water test says.

    Parameters
    ----------
    found
        The test.
    units
        Measures of the text.
    written
        Where its numbers were written; None if nowhere.

    Returns
    -------
    str
        Lines of at most 80 columns.
    """
    system = measures(units)
    parts = [
        wrap(setting(found, system)),
        number_block(found, system).lines,
        [line for told in meaning(found, system) for line in wrap(told)],
        reading_block(found, system).lines,
        _written_lines(found, written),
        mind(CAUTIONS, system),
    ]
    return joined(parts)


def setting(found: WaterTest, system: Measures) -> str:
    """Say what was tested, for how long and in how warm a room.

    Parameters
    ----------
    found
        The test.
    system
        The measures.
    """
    rows, readings = found.log.rows, found.fit.readings
    what = found.pot or found.jar
    title = f"Water test of the {found.cooker.label}" if found.cooker else "Water test"
    lowest, highest = float(readings.room_c.min()), float(readings.room_c.max())
    room = system.temperature(lowest)
    if highest - lowest > 1:
        room = f"{system.degrees(lowest)} to {system.temperature(highest)}"
    return (
        f"{title}: {system.water(found.water_kg)} of water in the "
        f"{what.label if what else 'jar'}, {len(rows)} readings over "
        f"{duration(rows[-1].time_min - rows[0].time_min)}, room {room}"
    )


def number_block(found: WaterTest, system: Measures) -> Block:
    """Give what was measured, each with its 90 % band.

    Parameters
    ----------
    found
        The test.
    system
        The measures.
    """
    fit = found.fit
    hours_each = [each / 3600 for each in fit.constant_s]
    rows = [
        ["loses, for each degree over the room", *_losses(fit.loss_w_k, system)],
        ["time constant, once it is warm", *(f"{figures(each)} h" for each in hours_each)],
    ]
    if fit.packing_from == "readings":
        rows.insert(1, ["heat its packing takes, each degree", *_heats(fit.packing_j_k, system)])
    rows.append(["water when it was closed", *(system.temperature(each) for each in fit.start_c)])
    untold = fit.packing_from != "readings" and fit.kind == "packed"
    note = _packing_note(found) if untold else ""
    return block("Measured", ["about", "at least", "at most"], rows, note)


def _packing_note(found: WaterTest) -> str:
    taken = "as computed from its volume" if found.fit.packing_from == "computed" else "as nothing"
    return (
        f"These readings do not tell what heat the packing takes; it is taken {taken}. Five "
        "readings or more, three of them in the first hour, would tell it."
    )


def _losses(band: Estimate, system: Measures) -> list[str]:
    return [loss(each, system).replace(" per °C", "").replace(" per °F", "") for each in band]


def _heats(band: Estimate, system: Measures) -> list[str]:
    factor, unit = (1 / 1055.06 / F_PER_K, "BTU") if isinstance(system, Us) else (1e-3, "kJ")
    return [f"{figures(each * factor)} {unit}" for each in band]


def meaning(found: WaterTest, system: Measures) -> list[str]:
    """Say what it means for a cook, and what makes it tell less than it could.

    Parameters
    ----------
    found
        The test.
    system
        The measures.
    """
    fit, rules = found.fit, load().rules
    start, room = fit.start_c.value, float(fit.readings.room_c.mean())
    held = fit.hours_above(start_c=start, room_c=room, limit_c=rules.hot_c)
    told = (
        f"Filled like this and closed at {system.temperature(start)} it stays above "
        f"{system.temperature(rules.hot_c)} for {_long(held)}. The bands hold 90 of 100, by the "
        f"scatter of these readings ({_degrees(fit.noise_k, system)}). Another filling is another "
        f"box: a plan reckons with {100 * fit.loss_spread:.0f} % more or less loss."
    )
    return [told, *(in_measures(note, system) for note in notes(found, rules))]


def _long(held: Estimate) -> str:
    if all(math.isfinite(each) for each in held) and held.high <= LONGEST_H:
        return hours_band(*held)
    low = hours(held.low, down=True) if math.isfinite(held.low) else f"{LONGEST_H} h"
    return f"at least {low}"


def _degrees(value_k: float, system: Measures) -> str:
    if isinstance(system, Us):
        return f"{figures(value_k * F_PER_K)} °F"
    return f"{figures(value_k)} °C"


def notes(found: WaterTest, rules: Rules) -> list[str]:
    """Say what makes a test tell less than it could.

    Parameters
    ----------
    found
        The test.
    rules
        The rules.
    """
    fit, rows, told = found.fit, found.log.rows, []
    if found.computed_w_k is not None:
        ratio = fit.loss_w_k.value / found.computed_w_k
        told.append(_beside_computed(ratio))
    if (
        rows[-1].time_min - rows[0].time_min < SHORT_MIN
        or rows[0].temp_c - rows[-1].temp_c < SMALL_K
    ):
        told.append(
            "A short test tells little: leave it shut for some hours, until it is near 60 degC."
        )
    if fit.noise_k > ROUGH_K:
        told.append(
            "The readings lie far from the curve. Was it opened, moved, or the thermometer not in "
            "the middle of the water?"
        )
    if min(row.temp_c for row in rows) > rules.hot_c and fit.kind == "packed":
        told.append("It was not followed down to 60 degC; what is said of later hours is reckoned.")
    return told


def _beside_computed(ratio: float) -> str:
    if abs(ratio - 1) < AS_COMPUTED:
        return "That is what a plan takes for it without a test."
    if ratio > FAR_OFF:
        return (
            f"That is {figures(ratio)} times the loss that a plan takes without a test. Was the "
            "lid on, and are water and pot as they were?"
        )
    more = "more" if ratio > 1 else "less"
    return f"That is {100 * abs(ratio - 1):.0f} % {more} loss than a plan takes without a test."


def reading_block(found: WaterTest, system: Measures) -> Block:
    """Set the readings beside the curve, and name those that were left out.

    Parameters
    ----------
    found
        The test.
    system
        The measures.
    """
    fit, rows = found.fit, found.log.rows
    step = max(1, math.ceil(len(rows) / MOST_SHOWN))
    shown = sorted({*range(0, len(rows), step), len(rows) - 1, *fit.outliers})
    cells = [
        [
            duration(rows[n].time_min),
            system.temperature(rows[n].temp_c),
            system.temperature(float(fit.fitted_c[n])),
            f"left out (line {rows[n].line})" if n in fit.outliers else "",
        ]
        for n in shown
    ]
    if not fit.outliers:
        return block("Readings", ["read", "curve"], [row[:-1] for row in cells])
    count = len(fit.outliers)
    what = "One reading lies" if count == 1 else f"{count} readings lie"
    left = "is" if count == 1 else "are"
    note = f"{what} too far off the curve of the others and {left} left out."
    return block("Readings", ["read", "curve", "what of it"], cells, note)


def _written_lines(found: WaterTest, written: str | None) -> list[str]:
    lines = written_into(found.values, written)
    if lines and found.largest is not None and found.pot is not None:
        more, large = 100 * (found.largest.loss_times - 1), found.largest.pot.label
        lines += wrap(
            f"That is reckoned for the largest pot that goes in, the {large}: {more:.0f} % more "
            f"loss than was measured with the {found.pot.label}. Test it with that one to know."
        )
    return lines


def water_test_json(found: WaterTest, written: str | None = None) -> str:
    """Write a water test as JSON text, ending in a new line.

    Parameters
    ----------
    found
        The test.
    written
        Where its numbers were written; None if nowhere.

    Returns
    -------
    str
        JSON without NaN.
    """
    fit = found.fit
    told = {
        "version": 1,
        "kind": fit.kind,
        "cooker": found.cooker and found.cooker.name,
        "pot": found.pot and found.pot.name,
        "water_kg": found.water_kg,
        "contents_j_k": fit.readings.contents_j_k,
        "loss_w_k": fit.loss_w_k._asdict(),
        "packing_j_k": fit.packing_j_k._asdict(),
        "packing_from": fit.packing_from,
        "start_c": fit.start_c._asdict(),
        "time_constant_h": {k: v / 3600 for k, v in fit.constant_s._asdict().items()},
        "noise_k": fit.noise_k,
        "loss_spread": fit.loss_spread,
        "computed_loss_w_k": found.computed_w_k,
        "readings": [_reading(found, n) for n in range(len(found.log.rows))],
        "values": {key: value for key, value in found.values.items() if value is not None},
        "written": written,
    }
    return json.dumps(told, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def _reading(found: WaterTest, n: int) -> dict[str, Any]:
    row, fit = found.log.rows[n], found.fit
    return {
        "line": row.line,
        "time_min": row.time_min,
        "temp_c": row.temp_c,
        "room_c": float(fit.readings.room_c[n]),
        "fitted_c": float(fit.fitted_c[n]),
        "outlier": n in fit.outliers,
    }
