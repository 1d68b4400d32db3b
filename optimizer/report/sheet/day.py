"""One day on paper: what to do by the clock, boxes for the thermometer, a strip of the day."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from optimizer.model.household import Scenario
from optimizer.model.plan import Plan, Step
from optimizer.report.dates import day_name
from optimizer.report.doings import END, LIGHT, ON, SERVE, SOAK, Doing
from optimizer.report.households import cooks_of
from optimizer.report.measures import Measures
from optimizer.report.names import Names
from optimizer.report.sheet.fit import Fit, close_fit, fits_wide
from optimizer.report.sheet.readings import Advice, advice_of, is_read, unsure_of
from optimizer.report.sheet.strip import Strip, strip_of
from optimizer.report.sheet.teller import NEW_LINE
from optimizer.scenario.clock import clock

KINDS = {SOAK: "soak", LIGHT: "fire", END: "out", ON: "on", SERVE: "serve"}


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the clock."""

    clock: str
    dish: str  # empty: about a fire
    parts: tuple[str, ...]
    kind: str
    read: bool  # a thermometer has to be read


@dataclass(frozen=True, slots=True)
class Day:
    """One page."""

    name: str
    fit: Fit
    rows: tuple[Row, ...]
    strip: Strip | None
    advice: tuple[Advice, ...]
    cooks: str = ""  # households that cook, by the clock


def day_page(
    day: int, todo: Sequence[Doing], plan: Plan, scenario: Scenario, system: Measures
) -> Day:
    """Set out one day.

    Parameters
    ----------
    day
        Its number; 0 is the day before the first.
    todo
        What is done on it, by the clock.
    plan, scenario, system
        The plan, the household, the measures.

    Returns
    -------
    Day
        The page.
    """
    names = Names(scenario)
    label = {n: names.dish(step, plan.steps) for n, step in enumerate(plan.steps)}
    strip = strip_of(day, plan.steps, label)
    rows = tuple(_row(doing) for doing in todo)
    served = [doing.of for doing in todo if doing.order == SERVE and isinstance(doing.of, Step)]
    advice = (*unsure_of(served), *advice_of(_read(todo), plan, scenario, system))
    cooks = cooks_of(day, plan)
    below = [each.told for each in advice] + ([cooks] if cooks else [])
    rows, fit = _set(rows, below, len(strip.lanes) if strip else 0)
    return Day(day_name(scenario, day), fit, rows, strip, advice, cooks)


def _set(rows: tuple[Row, ...], advice: Sequence[str], lanes: int) -> tuple[tuple[Row, ...], Fit]:
    """Choose how close the rows are set; set close, what is done with a fire joins what came."""
    if fits_wide([row.parts for row in rows], advice, lanes):
        return rows, Fit(wide=True, strip=lanes > 0)
    joined = _joined(rows)
    told = [f"{row.dish} {' '.join(row.parts)}" for row in joined]
    return joined, close_fit(told, advice, lanes)


def _joined(rows: Sequence[Row]) -> tuple[Row, ...]:
    """Put a fire that is out, or a second fire, into the row of the same minute before it."""
    joined: list[Row] = []
    for row in rows:
        last = joined[-1] if joined else None
        same = last is not None and last.clock == row.clock
        if last and same and (row.kind == "out" or row.kind == last.kind == "fire"):
            joined[-1] = replace(last, parts=last.parts + row.parts)
        else:
            joined.append(row)
    return tuple(joined)


def _read(todo: Sequence[Doing]) -> list[Step]:
    """List the dishes whose temperature is read."""
    return [
        doing.of
        for doing in todo
        if doing.order == SERVE and isinstance(doing.of, Step) and is_read(doing.of)
    ]


def _row(doing: Doing) -> Row:
    """Give one line of the clock."""
    read = doing.order == SERVE and isinstance(doing.of, Step) and is_read(doing.of)
    return Row(
        clock=clock(doing.clock),
        dish=doing.dish,
        parts=tuple(doing.text.split(NEW_LINE)),
        kind=KINDS.get(doing.order, "move"),
        read=read,
    )
