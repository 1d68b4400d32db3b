"""Every way of one dish, told: a paragraph a way, the cheapest first, then the refusals."""

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, fields
from typing import Any

from optimizer.model.household import DAY_MIN, Item, Scenario
from optimizer.planning.explain import sentence
from optimizer.report.dates import day_name
from optimizer.report.layout import GAP, TIED, WIDTH, wrap
from optimizer.report.measures import (
    Measures,
    Units,
    duration,
    in_measures,
    kilowatt_hours,
    measures,
    served_at,
)
from optimizer.report.names import Names
from optimizer.report.refused import refusal_sentences
from optimizer.scenario.clock import clock
from optimizer.studies.comparison import Comparison, DishWay, HeatFlow

PARTS = {
    "food_j": "food",
    "water_j": "water",
    "pot_j": "pot",
    "boiled_off_j": "boiled off",
    "pot_losses_j": "lost by the pot",
    "stove_losses_j": "past the pot",
    "start_j": "start-up",
}
MARKS = {
    "#": ("food_j", "water_j"),
    "=": ("pot_j", "boiled_off_j", "pot_losses_j"),
    "-": ("stove_losses_j",),
    ".": ("start_j",),
}
KEY = (
    "The longer the bar, the more fuel: # into food and water, = into the pot, steam and "
    "what the pot loses, - past the pot, . start-up."
)
PERCENT = 100
INDENT = "   "


def comparison_text(found: Comparison, scenario: Scenario, units: Units = "metric") -> str:
    """Say how a dish can be cooked and how it cannot.

    Parameters
    ----------
    found
        The comparison.
    scenario
        The household.
    units
        Measures of the text.

    Returns
    -------
    str
        Lines of at most 80 columns.
    """
    system, item = measures(units), found.item
    portions = f"{item.portions:g} portion{'' if item.portions == 1 else 's'}"
    lines = wrap(
        f"{item.dish.label}, {item.meal} of {day_name(scenario, item.day)} at "
        f"{clock(item.serve_min)}, {portions}"
    )
    most = max((way.heat.total_j for way in found.ways if way.fuel_mj), default=0.0)
    lines += wrap(KEY) if most else []
    lines += [] if found.ways else ["", "No way works."]
    for number, way in enumerate(found.ways, start=1):
        lines += ["", *_way_lines(number, way, item, scenario, system)]
        lines += wrap(heat_bar(way.heat, most), INDENT) if way.fuel_mj else []
        lines += wrap(_heat(way.heat), INDENT, INDENT + GAP)
    refused = refusal_sentences(found, scenario)
    lines += ["", "Ways that do not work"] if refused else []
    for told in refused:
        lines += wrap(in_measures(f"- {told}", system), GAP, 2 * GAP)
    return "\n".join(lines)


def _way_lines(
    number: int, way: DishWay, item: Item, scenario: Scenario, system: Measures
) -> list[str]:
    """Say what a way takes and when."""
    names = Names(scenario)
    finish = f"then the {names.cooker(way.cooker)}" if way.cooker else "without a cooker"
    head = f"{number}. {names.stove(way.stove)}, {names.pot(way.pot)}, {finish}"
    money = f"{way.cost:.2f} {scenario.currency}"
    costs = f"{_burnt(way, names, system)}, {money}, {duration(way.tending_minutes)} tended"
    hot = served_at(system, item.dish.serve, way.serve_c, way.serve_c_low, scenario.rules.hot_c)
    before = " the day before" if way.on < (item.day - 1) * DAY_MIN else ""
    times = (
        f"on {clock(way.on)}{before}, off {clock(way.off)}, done {clock(way.done)}; served at {hot}"
    )
    return [*wrap(head), *wrap(costs, INDENT, INDENT + GAP), *wrap(times, INDENT, INDENT + GAP)]


def _burnt(way: DishWay, names: Names, system: Measures) -> str:
    """Say what is burned; electricity as it is sold."""
    kind = names.fuels[way.fuel].kind
    if kind == "sun":
        return "no fuel"
    if way.fuel_kg is None:
        return f"{kilowatt_hours(way.fuel_mj)} of {names.fuel(way.fuel)}"
    return f"{system.energy(way.fuel_mj)} ({system.fuel(way.fuel_kg)} of {names.fuel(way.fuel)})"


def way_rows(found: Comparison, scenario: Scenario, system: Measures) -> Iterator[dict[str, str]]:
    """Give the ways of a dish as rows of a table, the cheapest first.

    Parameters
    ----------
    found
        The comparison.
    scenario
        The household.
    system
        Measures of the words.
    """
    names = Names(scenario)
    serve, hot_c = found.item.dish.serve, scenario.rules.hot_c
    for way in found.ways:
        finish = f", then the {names.cooker(way.cooker)}" if way.cooker else ""
        yield {
            "way": f"{names.stove(way.stove)}, {names.pot(way.pot)}{finish}",
            "fuel": _burnt(way, names, system),
            "money": f"{way.cost:.2f} {scenario.currency}",
            "at the fire": f"{duration(way.tending_minutes)}, from {clock(way.on)}",
            "served at": served_at(system, serve, way.serve_c, way.serve_c_low, hot_c),
        }


def whole_parts(parts: Mapping[str, float], whole: int) -> dict[str, int]:
    """Round parts so that they add up: the largest remainders are rounded up.

    Parameters
    ----------
    parts
        Parts of any size, none below nothing.
    whole
        What the rounded parts add up to.

    Returns
    -------
    dict
        Whole numbers, in the same order.
    """
    total = sum(parts.values())
    exact = {name: whole * part / total if total else 0.0 for name, part in parts.items()}
    rounded = {name: int(share) for name, share in exact.items()}
    missing = whole - sum(rounded.values()) if total else 0
    for name in sorted(exact, key=lambda n: rounded[n] - exact[n])[:missing]:
        rounded[name] += 1
    return rounded


def heat_shares(heat: HeatFlow) -> dict[str, int]:
    """Give the parts of the heat in whole per cent that add up to a hundred.

    Parameters
    ----------
    heat
        Where the heat goes.
    """
    return whole_parts({name: getattr(heat, part) for part, name in PARTS.items()}, PERCENT)


def _heat(heat: HeatFlow) -> str:
    """Say where the heat goes; what rounds to nothing is left out."""
    shares = [f"{name}{TIED}{share} %" for name, share in heat_shares(heat).items() if share]
    return f"heat: {', '.join(shares)}"


def heat_bar(heat: HeatFlow, most_j: float) -> str:
    """Draw where the heat goes, as long as the fuel is much.

    Parameters
    ----------
    heat
        Where the heat goes.
    most_j
        Heat of the longest bar [J]
    """
    room = WIDTH - len(INDENT) - 1
    length = max(1, round(room * heat.total_j / most_j)) if most_j else 0
    return "".join(
        mark * count
        for mark, count in whole_parts(
            {mark: _sum(heat, those) for mark, those in MARKS.items()}, length
        ).items()
    )


def _sum(heat: HeatFlow, those: Sequence[str]) -> float:
    return sum(float(getattr(heat, part)) for part in those)


def to_json(found: Comparison, scenario: Scenario) -> dict[str, Any]:
    """Give a comparison as plain values: MJ, minutes since 00:00 of day 1, degC, kg.

    Parameters
    ----------
    found
        The comparison.
    scenario
        The household.

    Returns
    -------
    dict
        Version 1.
    """
    return {
        "version": 1,
        "title": scenario.title,
        "dish": found.item.dish.name,
        "day": found.item.day,
        "meal": found.item.meal,
        "serve": found.item.serve_min,
        "currency": scenario.currency,
        "ways": [_way_json(way) for way in found.ways],
        "refusals": [
            {
                "stove": refusal.stove,
                "pot": refusal.pot,
                "cooker": refusal.cooker,
                "code": refusal.code,
                "reason": sentence(refusal, scenario),
            }
            for refusal in found.refusals
        ],
    }


def _way_json(way: DishWay) -> dict[str, Any]:
    told = asdict(way)
    told["heat"] = {
        f.name.removesuffix("_j") + "_mj": getattr(way.heat, f.name) / 1e6 for f in fields(way.heat)
    }
    return told


def json_text(found: Comparison, scenario: Scenario) -> str:
    """Write a comparison as JSON text, ending in a new line.

    Parameters
    ----------
    found
        The comparison.
    scenario
        The household.

    Returns
    -------
    str
        JSON without NaN.
    """
    told = to_json(found, scenario)
    return json.dumps(told, indent=2, ensure_ascii=False, allow_nan=False) + "\n"
