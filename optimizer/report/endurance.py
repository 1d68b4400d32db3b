"""How long the store lasts, told: the days, what ends first, what changes it, what to mind."""

import math
from collections.abc import Iterator, Sequence

from optimizer.model.household import Scenario
from optimizer.model.plan import Plan
from optimizer.report.balance import fuel_row
from optimizer.report.cases import (
    case_rows,
    no_gain_told,
    range_told,
    told_changes,
    whole_days,
)
from optimizer.report.layout import GAP, table, wrap
from optimizer.report.measures import Measures, Units, duration, measures
from optimizer.report.names import Names
from optimizer.report.text import caution_lines, heading, refusal_lines
from optimizer.report.without_sticks import amount, fallbacks_told
from optimizer.studies.endurance.days import Lasting
from optimizer.studies.endurance.ends import End
from optimizer.studies.endurance.opening import First, Opening
from optimizer.studies.endurance.study import Endurance

Row = dict[str, str]


# the days


def days_told(lasting: Lasting) -> list[str]:
    """Say how many days it lasts, and how sure that is.

    Parameters
    ----------
    lasting
        What was found.
    """
    if lasting.beyond:
        return [
            f"The store lasts beyond the {whole_days(lasting.looked_at)} that were looked at, on "
            "this menu gone round again and again, the reserve kept."
        ]
    first = (
        f"The store lasts {whole_days(lasting.days)} on this menu gone round again and again, the "
        "reserve kept."
    )
    if not lasting.days:
        first = "The store does not last one day on this menu, the reserve kept."
    return [first, *_how_sure(lasting), *_stuck_told(lasting)]


def _how_sure(lasting: Lasting) -> list[str]:
    """Say whether one more day is proven to be too much."""
    after = whole_days(lasting.days + 1)
    if not lasting.proven:
        most = f", but for no more than {lasting.most}" if lasting.most > lasting.days + 1 else ""
        return [f"There may be a plan for {after}{most}; none was found, so fewer are told."]
    if lasting.stuck is not None:
        return []
    near = f" Counting parts of days it is less than {_tenth(lasting.mix_days or 0.0)}."
    return [f"That {after} cannot be had is proven.{near if lasting.mix_days else ''}"]


def _tenth(mixed: float) -> str:
    """Write days by the mix, which are never too few, to a tenth above."""
    return f"{math.ceil(10 * mixed) / 10:g}"


def _stuck_told(lasting: Lasting) -> list[str]:
    """Say where it is not for want of fuel."""
    if lasting.stuck is None or lasting.beyond:
        return []
    which = ", ".join(lasting.stuck) or "not everything"
    verb = "have" if len(lasting.stuck) > 1 else "has"
    lacks = f"{which} {verb} no way" if lasting.stuck else "not everything fits at once"
    return [
        f"That is not for want of fuel: on day {lasting.most + 1} {lacks} with these pots, stoves "
        "and cook hours."
    ]


def ends_told(known: Endurance, system: Measures) -> list[str]:
    """Say which fuel ends first, and when; one line a fuel.

    Parameters
    ----------
    known
        The study.
    system
        The measures.
    """
    names, lasting = Names(known.scenario), known.lasting
    if lasting.beyond:
        return ["No fuel ends in the days that were looked at."]
    lines = [_end_told(end, names, lasting, system) for end in lasting.ends]
    short = known.opening.short if known.opening else None
    if short is not None:
        fuel, day = short
        lines.append(
            "Cooked by the ordinary plan, round after round, the first to run short is "
            f"{names.fuel(fuel)}, on day {day}."
        )
    return lines


def _end_told(end: End, names: Names, lasting: Lasting, system: Measures) -> str:
    label = names.fuel(end.fuel)
    left = f"{amount(end.fuel, end.left_mj, end.left_kg, names, system)} is left above the reserve"
    if end.day is None:
        return f"{label}: does not end; {left} after day {lasting.days}."
    when = f"lasts until day {end.day}"
    return f"{label}: {when}; {left} then, less than another such day takes."


# an outage of unknown end


def opening_rows(opening: Opening, scenario: Scenario, system: Measures) -> list[Row]:
    """Set the sparing first days beside the ordinary ones.

    Parameters
    ----------
    opening
        The first days.
    scenario
        The household.
    system
        The measures.
    """
    pairs = [("sparing", opening.sparing), ("ordinary", opening.ordinary)]
    return [_first_row(name, f, scenario, system) for name, f in pairs if f is not None]


def _first_row(name: str, first: First, scenario: Scenario, system: Measures) -> Row:
    names, plan = Names(scenario), first.plan
    used = {use.name: fuel_row(use, names, system)[1] for use in plan.fuels}
    return {
        "first days": name,
        "leave open": open_days(first),
        **{names.fuel(fuel): told for fuel, told in used.items()},
        "money": f"{plan.cost:.2f} {scenario.currency}",
        "at the fire": duration(plan.fire_minutes),
    }


def open_days(first: First) -> str:
    """Say how many days stay open."""
    more = "" if first.open_days == first.open_most else " or more"
    return f"{whole_days(first.open_days)}{more}"


def opening_told(opening: Opening) -> list[str]:
    """Say what the first days leave open.

    Parameters
    ----------
    opening
        The first days.
    """
    sparing, other = opening.sparing, opening.ordinary
    first = "the first day" if opening.days == 1 else f"the first {whole_days(opening.days)}"
    if not sparing.open_days and other is None:
        return [f"The store is spent after {first}: there is nothing to keep open."]
    told = [f"After {first}, the plan that spares most keeps {open_days(sparing)} open."]
    if other is not None:
        gained = sparing.open_days - other.open_days
        more = f"{whole_days(gained)} fewer" if gained > 0 else "as many"
        told.append(f"The ordinary plan keeps {open_days(other)} open: {more}.")
        one, two = sparing.open_mix, other.open_mix
        if one is not None and two is not None and gained <= 0:
            parts = f"less than {_tenth(one)} against less than {_tenth(two)}"
            told.append(f"Counting parts of days it is {parts}.")
    return told


# all of it


def endurance_parts(known: Endurance, units: Units = "metric") -> Iterator[tuple[str, list[str]]]:
    """Yield the parts of the answer that are known, each with its name.

    Parameters
    ----------
    known
        The study, as far as it is.
    units
        Measures of the text.

    Yields
    ------
    name, lines
        Lines of at most 80 columns.
    """
    system, scenario = measures(units), known.scenario
    told = days_told(known.lasting)
    lines = [line for each in told for line in wrap(each)]
    yield "days", [*lines, "", *heading(scenario, system)]
    if known.none is not None:
        yield "none", ["", *refusal_lines(known.none, scenario, system)]
    if known.opening is not None:
        yield "ends", ["", "What ends first", *_listed(ends_told(known, system))]
        yield "opening", _opening_lines(known.opening, scenario, system)
    if known.fallbacks:
        head = ["", "When sticks fail, in rain and wind: the same day on what else there is"]
        yield "fallbacks", [*head, *_listed(fallbacks_told(known, system))]
    if known.ranged and known.cases:
        told = [line for each in range_told(known) for line in wrap(each)]
        yield "cases", ["", *told, *_unheaded(case_rows(known))]


def _opening_lines(opening: Opening, scenario: Scenario, system: Measures) -> list[str]:
    rows = opening_rows(opening, scenario, system)
    _, *heads = rows[0]
    lines = table("If nobody knows", heads, [list(row.values()) for row in rows])
    for told in opening_told(opening):
        lines += wrap(told, GAP)
    return ["", *lines]


def closing_lines(known: Endurance, units: Units = "metric") -> list[str]:
    """Say what changes the days, and what to mind.

    Parameters
    ----------
    known
        The study, when it has ended.
    units
        Measures of the text.
    """
    changes, lines = told_changes(known), list[str]()
    none = no_gain_told(known)
    if changes or none:
        lines += ["", "What changes it"]
        lines += _unheaded(changes)
        lines += [line for each in none for line in wrap(each, GAP)]
    if not known.complete:
        lines += ["", *wrap("Not everything was looked at: it was stopped, or time was over.")]
    plan: Plan | None = known.lasting.plan
    return [*lines, *(caution_lines(plan, measures(units)) if plan else [])]


def _unheaded(rows: Sequence[Row]) -> list[str]:
    """Set rows under each other without a line of headers."""
    return table("", ("",), [list(row.values()) for row in rows])[1:] if rows else []


def _listed(told: Sequence[str]) -> list[str]:
    return [line for each in told for line in wrap(f"- {each}", GAP, 2 * GAP)]


def endurance_text(known: Endurance, units: Units = "metric") -> str:
    """Tell the whole study.

    Parameters
    ----------
    known
        The study.
    units
        Measures of the text.

    Returns
    -------
    str
        Lines of at most 80 columns.
    """
    lines = [line for _, part in endurance_parts(known, units) for line in part]
    return "\n".join([*lines, *closing_lines(known, units)])
