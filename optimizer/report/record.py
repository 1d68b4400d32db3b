"""The log of an outage in words: what was written down, what is left, what burned, what to mind."""

from collections.abc import Iterator

from optimizer.report.entries import Teller, entry_lines, latest
from optimizer.report.layout import GAP, table, wrap
from optimizer.report.measures import (
    Measures,
    Units,
    figures,
    in_measures,
    measures,
)
from optimizer.report.timetable import capital
from optimizer.scenario.clock import moment_written
from optimizer.scenario.logbook import Log
from optimizer.trials.burn import Ratio, ratios
from optimizer.trials.record import Record, left_at
from optimizer.trials.remains import Pace, paces
from optimizer.trials.thermometer import Cold, too_cold

MANY_DAYS = 10  # from so many on, whole days
MJ = 1e6
Row = dict[str, str]


def record_text(log: Log, record: Record, units: Units = "metric") -> str:
    """Tell a log to a cook.

    Parameters
    ----------
    log
        The log.
    record
        The log beside its scenario.
    units
        ``metric`` or ``us``.
    """
    teller = Teller(record.scenario, measures(units))
    lines = [*wrap(f"{record.scenario.title}: what was written down"), ""]
    lines += entry_lines(log, teller)
    lines += ["", *left_lines(record, latest(record), teller)]
    lines += burn_lines(record, teller)
    lines += cold_lines(record, teller)
    return "\n".join(lines)


# what is left


def left_rows(record: Record, minute: int, system: Measures) -> list[Row]:
    """Set out what is left of every fuel, and how long at the plan's pace.

    Parameters
    ----------
    record
        The log beside its scenario.
    minute
        Since 00:00 of day 1.
    system
        The measures.
    """
    teller = Teller(record.scenario, system)
    known = {pace.fuel: pace for pace in paces(record, minute)}
    rows = []
    for store in record.scenario.stores:
        left = left_at(record, store, minute)
        if left is None:
            continue
        rows.append(
            {
                "fuel": teller.names.fuel(store.fuel.name),
                "left": teller.amount(store, left),
                "at the plan's pace": lasts(known.get(store.fuel.name)),
            }
        )
    return rows


def lasts(pace: Pace | None) -> str:
    """Say how long a fuel lasts at the pace of the plan."""
    if pace is None or pace.days is None:
        return "not used"
    if pace.days <= 0:
        return "down to the reserve"
    word = figures(pace.days) if pace.days < MANY_DAYS else f"{pace.days:.0f}"
    return f"about {word} day{'' if word == '1' else 's'}"


def left_lines(record: Record, minute: int, teller: Teller) -> list[str]:
    """Say what is left, and how long it lasts."""
    rows = left_rows(record, minute, teller.system)
    head = f"Left, {moment_written(minute)}"
    body = [(row["fuel"], row["left"], row["at the plan's pace"]) for row in rows]
    lines = table(head, ("", "at the plan's pace"), body)
    reserves = [store for store in record.scenario.stores if store.reserve > 0]
    if reserves:
        lines += wrap("The pace leaves the reserve of each fuel untouched.", GAP)
    return lines


# measured against predicted


def burn_rows(record: Record, system: Measures) -> list[Row]:
    """Set out measured against predicted burn.

    Parameters
    ----------
    record
        The log beside its scenario.
    system
        The measures.
    """
    teller = Teller(record.scenario, system)
    return [_burn_row(ratio, teller) for ratio in ratios(record)]


def _burn_row(ratio: Ratio, teller: Teller) -> Row:
    store = teller.stores[ratio.fuel]
    shared = sorted({name for each in ratio.stretches for name in each.stoves})
    who = [ratio.stove] if ratio.stove else shared
    return {
        "burned by": " and ".join(teller.names.stove(name) for name in who),
        "measured": teller.amount(store, max(0.0, ratio.measured)),
        "planned": teller.amount(store, ratio.predicted),
        "times the plan": times(ratio),
        "sure enough": ratio.why_not or "yes",
    }


def times(ratio: Ratio) -> str:
    """Say how many times the plan, with the band that nine in ten lie in.

    Parameters
    ----------
    ratio
        Measured over predicted.
    """
    half = ratio.half
    if half is None:
        return f"{ratio.value:.1f}, from one stretch"
    if half > ratio.value:
        return f"{ratio.value:.1f}, hardly known"
    low, high = max(0.0, ratio.value - half), ratio.value + half
    return f"{ratio.value:.2f} ({low:.2f} to {high:.2f})"


def burn_lines(record: Record, teller: Teller) -> list[str]:
    """Say what burned beside what was planned."""
    rows = burn_rows(record, teller.system)
    if not rows:
        text = "Not known yet how true the plan is: weigh a fuel twice, with meals between."
        return ["", *wrap(text)]
    keys = ("measured", "planned", "times the plan")
    body = [(row["burned by"], *(row[key] for key in keys)) for row in rows]
    lines = ["", *table("Burned", keys, body)]
    for row in rows:
        said = "sure enough: --take writes it into the scenario"
        why = row["sure enough"]
        lines += wrap(f"{row['burned by']}: {said if why == 'yes' else why}.", GAP, 2 * GAP)
    return lines


# what reads too cold


def cold_told(cold: Cold, system: Measures) -> str:
    """Say what reads too cold.

    Parameters
    ----------
    cold
        A reading.
    system
        The measures.
    """
    read, least = system.temperature(cold.read_c), system.temperature(cold.least_c)
    label = capital(cold.item.dish.label)
    if cold.at_table_c is None or cold.read_c < cold.least_c:
        return f"{label} read {read}; it should read at least {least}."
    table_c = system.temperature(cold.at_table_c)
    return (
        f"{label} read {read} as it went into its cooker: at the table it may be only {table_c}, "
        f"and should be at least {least}. Bring it to the boil again and pack it again."
    )


def cold_lines(record: Record, teller: Teller) -> list[str]:
    """Say what reads too cold, with the usual cautions."""
    found = too_cold(record)
    lines: list[str] = ["", "Mind"] if found else []
    for cold in found:
        lines += wrap(f"- {cold_told(cold, teller.system)}", GAP, 2 * GAP)
    lines += _cautions_once(found, teller.system)
    return lines


def _cautions_once(found: tuple[Cold, ...], system: Measures) -> Iterator[str]:
    texts = dict.fromkeys(caution.text for cold in found for caution in cold.cautions)
    for text in texts:
        yield from wrap(f"- {in_measures(text, system)}", GAP, 2 * GAP)
