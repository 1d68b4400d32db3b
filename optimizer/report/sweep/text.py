"""A sweep as text: how it went, a line for each point, and what was wrong with some."""

from collections.abc import Iterator, Sequence

from optimizer.report.layout import table, wrap
from optimizer.studies.sweep.axes import Axis
from optimizer.studies.sweep.outcome import Cell, Row
from optimizer.studies.sweep.study import Sweep

MOST_LINES, MOST_REPORTS = 40, 5
STATUS = {
    "optimal": "best",
    "within_gap": "near best",
    "time_limit": "time ran out",
    "infeasible": "no plan",
    "bad_input": "bad input",
    "failed": "failed",
}
DAYS_NOTE = (
    "Days: whole days that the store lasts on this menu gone round again and again, the reserve "
    "kept, each number with a plan that was checked."
)
SURE_NOTE = (
    "A + after days: one day more was neither found nor ruled out, or not looked for; a quicker "
    "machine may find it."
)
CLOCK_NOTE = (
    "Where time ran out the row may come out otherwise on another machine; --time-limit allows "
    "more."
)
MIND = (
    "Mind: before you rely on one of these, plan it with fuelthrift plan and read its cautions; "
    "flames outdoors only."
)


def point_words(row: Row, axes: Sequence[Axis]) -> str:
    """Say which point a row is.

    Parameters
    ----------
    row
        The row.
    axes
        What was varied.
    """
    return ", ".join(f"{axis.key} {_said(row, axis)}" for axis in axes)


def _said(row: Row, axis: Axis) -> str:
    value = row[axis.column]
    written = f"{value:g}" if isinstance(value, int | float) else str(value)
    return f"{written} {spoken_unit(axis)}".strip()


def spoken_unit(axis: Axis) -> str:
    """Write the unit of an axis as it is printed, empty where it has none.

    Parameters
    ----------
    axis
        What was varied.
    """
    return {"degC": "°C", "degF": "°F"}.get(axis.unit or "", axis.unit or "")


def days_word(row: Row) -> str:
    """Write the days that the store lasts; + where it may last longer, - where it is not known.

    Parameters
    ----------
    row
        The row.
    """
    days = row.get("days_lasted")
    if days is None:
        return "-"
    return f"{days}" if row.get("days_status") == "proven" else f"{days}+"


def row_words(row: Row) -> list[str]:
    """Write what came of a point: status, money, fuel, minutes at the fire, saved, days.

    Parameters
    ----------
    row
        The row.
    """
    saved = row.get("saved_share")
    return [
        STATUS.get(str(row["status"]), str(row["status"])),
        _number(row.get("cost"), 2),
        _number(row.get("fuel_mj"), 0),
        _number(row.get("fire_min"), 0),
        f"{100 * saved:.0f} %" if isinstance(saved, float) else "-",
        days_word(row),
    ]


def _number(value: Cell, digits: int) -> str:
    return f"{value:.{digits}f}" if isinstance(value, int | float) else "-"


def header(currency: str) -> list[str]:
    """Head the columns of ``row_words``."""
    return ["plan", currency, "MJ", "fire min", "saved", "days"]


def sweep_text(known: Sweep) -> str:
    """Tell a sweep.

    Parameters
    ----------
    known
        What is known of it.
    """
    axes = known.grid.axes
    title = f"{known.scenario.title}: {' x '.join(axis.key for axis in axes)}"
    shown = known.rows[:MOST_LINES]
    told = _table(shown, axes, known.scenario.currency) if shown else []
    more = len(known.rows) - len(shown)
    told += [f"  ... and {more} more"] if more > 0 else []
    return "\n".join([*wrap(title), *told, "", *wrap(counted(known)), *_notes(known)])


def _table(rows: Sequence[Row], axes: Sequence[Axis], currency: str) -> list[str]:
    """Set the rows under their header, numbers to the right."""
    cells = [header(currency), *(row_words(row) for row in rows)]
    widths = [max(map(len, column)) for column in zip(*cells, strict=True)]
    first, *others = [
        [line[0], *(cell.rjust(n) for cell, n in zip(line[1:], widths[1:], strict=True))]
        for line in cells
    ]
    words = [point_words(row, axes) for row in rows]
    return table("", first, [(word, *line) for word, line in zip(words, others, strict=True)])


def counted(known: Sweep) -> str:
    """Say how many points there are, and how they ended.

    Parameters
    ----------
    known
        What is known of the sweep.
    """
    count = known.grid.count
    ends = {
        "planned": known.planned,
        "without a plan": known.with_status("infeasible"),
        "out of time before there was a plan": sum(
            row["status"] == "time_limit" and row.get("cost") is None for row in known.rows
        ),
        "bad input": known.with_status("bad_input"),
        "failed": known.with_status("failed"),
    }
    told = ", ".join(f"{number} {end}" for end, number in ends.items() if number)
    done = f"{count} points" if known.done else f"{len(known.rows)} of {count} points"
    before = f" ({known.before} of them from before)" if known.before else ""
    return f"{done}{before}: {told or 'none yet'}."


def _notes(known: Sweep) -> Iterator[str]:
    for row in [row for row in known.rows if row.get("report")][:MOST_REPORTS]:
        said = STATUS.get(str(row["status"]), "")
        words = f"{point_words(row, known.grid.axes)}: {said}: {row['report']}"
        yield from wrap(words, "  ", "    ")
    left = sum(bool(row.get("report")) for row in known.rows) - MOST_REPORTS
    if left > 0:
        yield f"  ... and {left} more reports"
    for note in notes(known):
        yield from wrap(note)


def notes(known: Sweep) -> list[str]:
    """Give what a reader of the table must know.

    Parameters
    ----------
    known
        What is known of the sweep.
    """
    unsure = any(days_word(row).endswith("+") for row in known.rows)
    late = any("time_limit" in {row.get("status"), row.get("days_status")} for row in known.rows)
    return [
        *([DAYS_NOTE] if known.grid.effort.days else []),
        *([SURE_NOTE] if unsure else []),
        *([CLOCK_NOTE] if late else []),
        MIND,
    ]
