"""A day when sticks fail, told: what is to be held back for it, or that there is no fallback."""

from collections.abc import Sequence

from optimizer.report.measures import Measures, kilowatt_hours
from optimizer.report.names import Names
from optimizer.studies.endurance.fallback import Fallback, Held
from optimizer.studies.endurance.study import Endurance


def amount(
    fuel: str, mj: float, kg: float | None, names: Names, system: Measures, *, up: bool = False
) -> str:
    """Write so much of a fuel; electricity as it is sold."""
    if kg is not None:
        return system.fuel_up(kg) if up else system.fuel(kg)
    kind = names.fuels[fuel].kind if fuel in names.fuels else ""
    return kilowatt_hours(mj) if kind == "electricity" else system.energy(mj)


def fallbacks_told(known: Endurance, system: Measures) -> list[str]:
    """Say for each day of the menu what happens when sticks fail.

    Parameters
    ----------
    known
        The study.
    system
        The measures.
    """
    if not known.sticks:
        return ["No stove of this household burns sticks."]
    names = Names(known.scenario)
    lines = [_fallback_told(each, known, names, system) for each in known.fallbacks]
    planned = [each for each in known.fallbacks if each.plan is not None]
    if len(planned) > 1:
        lines.append(f"For any one such day hold back {_worst(planned, names, system)}.")
    return lines


def _fallback_told(each: Fallback, known: Endurance, names: Names, system: Measures) -> str:
    cold = _joined(each.cold)
    if each.plan is None:
        why = f" ({cold} cannot be cooked)" if each.cold else ""
        sure = "no fallback" if each.known else "no fallback was found"
        return f"Day {each.day}: {sure}{why}. Keep food that needs no fire for it."
    held = _joined([_held(one, names, system) for one in each.held]) or "no fuel"
    without = f" {cold.capitalize()} cannot be cooked then." if each.cold else ""
    lack = "" if each.enough else f" There is too little: {_there(each, known, names, system)}."
    return f"Day {each.day}: hold back {held}.{without}{lack}"


def _held(held: Held, names: Names, system: Measures) -> str:
    told = amount(held.fuel, held.mj, held.kg, names, system, up=True)
    return f"{told} of {names.fuel(held.fuel)}"


def _there(each: Fallback, known: Endurance, names: Names, system: Measures) -> str:
    """Say what the store has of the fuels of a fallback, above the reserve."""
    usable = {end.fuel: end for end in known.lasting.ends}
    told = [
        f"{amount(u.fuel, u.usable_mj, u.usable_kg, names, system)} of {names.fuel(u.fuel)}"
        for u in (usable.get(held.fuel) for held in each.held)
        if u is not None
    ]
    return f"above the reserve there is {_joined(told)}"


def _worst(planned: Sequence[Fallback], names: Names, system: Measures) -> str:
    """Say the most of each fuel that any one day takes."""
    most: dict[str, Held] = {}
    for held in (held for each in planned for held in each.held):
        if held.fuel not in most or held.mj > most[held.fuel].mj:
            most[held.fuel] = held
    return _joined([_held(held, names, system) for held in most.values()]) or "no fuel"


def _joined(parts: Sequence[str]) -> str:
    return " and ".join([", ".join(parts[:-1]), parts[-1]] if len(parts) > 1 else parts)
