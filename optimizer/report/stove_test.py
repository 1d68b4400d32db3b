"""A water boiling test, told: the protocol's numbers, and what a plan takes from them."""

import json
from typing import Any

from optimizer.report.blocks import Block, block
from optimizer.report.layout import wrap
from optimizer.report.measures import (
    BTU_PER_MJ,
    L_PER_QUART,
    Measures,
    Units,
    Us,
    energy_figures,
    figures,
    measures,
)
from optimizer.report.remarks import joined, mind, written_into
from optimizer.trials.stove_result import PhaseResult, StoveTest

TITLES = {"cold": "cold start", "hot": "hot start", "simmer": "simmer"}
FLAMELESS = {"electricity", "sun"}
FILLED = {
    "alcohol": ("alcohol_refill",),
    "liquid": ("liquid_refill",),
    "charcoal": ("charcoal",),
    "tablet": ("tablet",),
}
FEW_STARTS = 3
ROUGH = 0.15  # starts that differ more than this from each other, relative


def stove_test_text(found: StoveTest, units: Units = "metric", written: str | None = None) -> str:
    """Say what a water boiling test says.

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
        protocol_block(found, system).lines,
        plan_block(found, system).lines,
        [line for told in how(found) for line in wrap(told)],
        written_into(found.values, written),
        mind(caution_codes(found), system),
    ]
    return joined(parts)


def setting(found: StoveTest, system: Measures) -> str:
    """Say what was tested, and where.

    Parameters
    ----------
    found
        The test.
    system
        The measures.
    """
    return (
        f"{found.test.title or 'Water boiling test'}: {found.fuel.label}, {found.pot.label}; air "
        f"{system.temperature(found.test.air)}, water boils at {system.temperature(found.boils_c)}"
    )


def protocol_block(found: StoveTest, system: Measures) -> Block:
    """Give the numbers of the published protocol, phase by phase.

    Parameters
    ----------
    found
        The test.
    system
        The measures.
    """
    heads = ["took", "dry fuel", "efficiency", "firepower", f"fuel/{_measure(system)}"]
    rows = [[_name(found, each), *_cells(each, system)] for each in found.phases]
    told = []
    if found.turn_down is not None:
        told.append(f"turn-down {figures(found.turn_down)}")
    if found.task_j is not None:
        task = system.energy(found.task_j / 1e6)
        told.append(f"five litres boiled and simmered 45 min: {task}")
    note = f"{'; '.join(told)}. The simmer's efficiency counts steam only." if told else ""
    return block("By the protocol", heads, rows, note)


def _measure(system: Measures) -> str:
    return "quart" if isinstance(system, Us) else "litre"


def _name(found: StoveTest, each: PhaseResult) -> str:
    repeats = len(found.of(each.phase))
    return f"{TITLES[each.phase]} {each.place + 1}" if repeats > 1 else TITLES[each.phase]


def _cells(each: PhaseResult, system: Measures) -> list[str]:
    times = L_PER_QUART if isinstance(system, Us) else 1.0
    used = None if each.consumption is None else times * each.consumption
    return [
        f"{each.time_s / 60:.0f} min",
        system.fuel(each.dry_kg, 3) if each.dry_kg is not None else "-",
        f"{figures(100 * each.net)} %",
        _power(each.power_w, system),
        system.energy(times * each.energy_j_kg / 1e6) if used is None else system.fuel(used),
    ]


def _power(value_w: float, system: Measures) -> str:
    if isinstance(system, Us):
        return f"{energy_figures(value_w * 3600 * BTU_PER_MJ / 1e6 / 1000)} thousand BTU/h"
    return f"{energy_figures(value_w / 1000)} kW"


def plan_block(found: StoveTest, system: Measures) -> Block:
    """Give the numbers that a plan takes.

    Parameters
    ----------
    found
        The test.
    system
        The measures.
    """
    low, high = found.band
    rows = [
        ["efficiency, before the pot's losses", f"{figures(100 * found.efficiency)} %"],
        ["nine lightings in ten", f"{figures(100 * low)} to {figures(100 * high)} %"],
        ["full power", _power(found.power_w, system)],
    ]
    if found.low_power_w is not None:
        rows.append(["least power", _power(found.low_power_w, system)])
    note = ""
    if found.stove is not None:
        before = f"{figures(100 * found.stove.efficiency)} %"
        note = f"Without the test a plan takes {before} for the {found.stove.label}."
    return block("As a plan takes it", ["about"], rows, note)


def how(found: StoveTest) -> list[str]:
    """Say how a plan's numbers come from the protocol's, and what would tell more.

    Parameters
    ----------
    found
        The test.
    """
    starts = found.of("cold", "hot")
    useful = sum(each.into_water_j for each in starts)
    added = 100 * sum(each.into_pot_j for each in starts) / useful
    told = [
        f"How: a plan reckons apart what warms the pot and what its side and lid lose, so those "
        f"are added back: {added:.0f} % of the heat in the water, for the {found.pot.label}."
    ]
    char = [run.char for run in (*found.test.cold, *found.test.hot)]
    if any(char + [run.char for run in found.test.simmer]):
        told.append(_char(found))
    told.append("What it takes to light it is reckoned on top of that, as before.")
    effects = [each.efficiency(char_kept=found.test.char_kept) for each in starts]
    if len(starts) < FEW_STARTS:
        told.append("Three cold and three hot starts would tell more than one of each.")
    if max(effects) - min(effects) > ROUGH * found.efficiency:
        told.append("The starts differ much from each other; the spread above has that in it.")
    if not found.of("simmer"):
        told.append("No simmer was tested, so the least power stays as it was.")
    return told


def _char(found: StoveTest) -> str:
    if found.test.char_kept:
        return (
            "The char that is left counts as saved, as the protocol has it. That holds only if it "
            "goes into the next fire."
        )
    return (
        "The char that is left counts as burned, though the protocol pays it back: it is gone "
        "from the stock. If yours goes into the next fire, write char_kept: true."
    )


def caution_codes(found: StoveTest) -> list[str]:
    """Name the cautions that a stove calls for.

    Parameters
    ----------
    found
        The test.
    """
    kind = found.fuel.kind
    flames = [] if kind in FLAMELESS else ["flames_outdoors"]
    return ["makers_word", *flames, *FILLED.get(kind, ())]


def stove_test_json(found: StoveTest, written: str | None = None) -> str:
    """Write a water boiling test as JSON text, ending in a new line.

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
    told = {
        "version": 1,
        "title": found.test.title,
        "fuel": found.fuel.name,
        "pot": found.pot.name,
        "boil_c": found.boils_c,
        "char_kept": found.test.char_kept,
        "phases": [_phase(found, each) for each in found.phases],
        "thermal_efficiency": found.net,
        "turn_down": found.turn_down,
        "task_j": found.task_j,
        "efficiency": {
            "value": found.efficiency,
            "low": found.band[0],
            "high": found.band[1],
            "spread": found.spread,
        },
        "power_w": found.power_w,
        "low_power_w": found.low_power_w,
        "values": found.values,
        "written": written,
    }
    return json.dumps(told, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def _phase(found: StoveTest, each: PhaseResult) -> dict[str, Any]:
    starts = each.phase != "simmer"
    return {
        "phase": each.phase,
        "time_s": each.time_s,
        "dry_kg": each.dry_kg,
        "fuel_j": each.fuel_j,
        "burned_j": each.burned_j,
        "thermal_efficiency": each.net,
        "firepower_w": each.power_w,
        "boiled_kg": each.boiled_kg,
        "consumption": each.consumption,
        "energy_j_kg": each.energy_j_kg,
        "time_75_s": each.time_75_s,
        "added_back_j": each.into_pot_j if starts else None,
        "efficiency": each.efficiency(char_kept=found.test.char_kept) if starts else None,
    }
