"""Every way of one dish, told: a paragraph a way, the cheapest first, then the refusals."""

import json
from collections import Counter
from collections.abc import Iterator
from dataclasses import asdict, fields
from typing import Any

from optimizer.model.household import Scenario
from optimizer.planning.explain import clock, sentence
from optimizer.report.layout import GAP, wrap
from optimizer.report.measures import Measures, Units, duration, in_measures, measures
from optimizer.report.names import Names
from optimizer.report.text import day_name
from optimizer.studies.comparison import Comparison, DishWay, HeatFlow

PARTS = {
    "food_j": "food",
    "water_j": "water",
    "pot_j": "pot",
    "boiled_off_j": "boiled off",
    "pot_losses_j": "lost by the pot",
    "stove_losses_j": "past the pot",
    "start_j": "lighting",
}
PERCENT = 100


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
    lines = wrap(
        f"{item.dish.label}, {item.meal} of {day_name(scenario, item.day)} at "
        f"{clock(item.serve_min)}, {item.portions:g} portions"
    )
    for number, way in enumerate(found.ways, start=1):
        lines += ["", *_way_lines(number, way, scenario, system)]
    if not found.ways:
        lines += ["", "No way works."]
    refused = list(_refusal_lines(found, scenario, system))
    return "\n".join([*lines, "", "Ways that do not work", *refused] if refused else lines)


def _way_lines(number: int, way: DishWay, scenario: Scenario, system: Measures) -> list[str]:
    names = Names(scenario)
    finish = "on the flame until done" if way.cooker is None else f"then the {_in(way, names)}"
    head = f"{number}. {names.stove(way.stove)}, {names.pot(way.pot)}, {finish}"
    burnt = system.energy(way.fuel_mj)
    if way.fuel_kg is not None:
        burnt += f" ({system.fuel(way.fuel_kg)} of {names.fuel(way.fuel)})"
    low = (
        ""
        if round(way.serve_c_low) >= round(way.serve_c)
        else (f", perhaps only {system.degrees(way.serve_c_low)}")
    )
    told = [
        f"{burnt}, {way.cost:.2f} {scenario.currency}, {duration(way.tending_minutes)} at it",
        f"on at {clock(way.on)}, off at {clock(way.off)}, ready {clock(way.ready)}; served at "
        f"about {system.temperature(way.serve_c)}{low}",
        "heat: " + ", ".join(f"{name} {share} %" for name, share in heat_shares(way.heat)),
    ]
    return [*wrap(head), *(line for text in told for line in wrap(text, "   ", "     "))]


def _in(way: DishWay, names: Names) -> str:
    return names.cooker(way.cooker or "")


def heat_shares(heat: HeatFlow) -> list[tuple[str, int]]:
    """Give the parts of the heat in whole per cent that add up to a hundred.

    Parameters
    ----------
    heat
        Where the heat goes.

    Returns
    -------
    list of (name, per cent)
        Parts of less than half a per cent are there as 0.
    """
    exact = {name: PERCENT * getattr(heat, part) / heat.total_j for part, name in PARTS.items()}
    shares = {name: int(share) for name, share in exact.items()}
    missing = PERCENT - sum(shares.values())
    for name in sorted(exact, key=lambda n: shares[n] - exact[n])[:missing]:
        shares[name] += 1
    return list(shares.items())


def _refusal_lines(found: Comparison, scenario: Scenario, system: Measures) -> Iterator[str]:
    """Tell each reason once, the commonest first."""
    reasons = Counter(sentence(refusal, scenario) for refusal in found.refusals)
    for reason, _ in reasons.most_common():
        yield from wrap(in_measures(f"- {reason}", system), GAP, 2 * GAP)


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
