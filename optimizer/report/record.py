"""The log of an outage in words: what was written down, what is left, what burned, what to mind."""

import json
from collections.abc import Callable, Iterator
from typing import Any

from optimizer.model.household import DAY_MIN, Scenario, Store
from optimizer.planning.stock import joules_per_kg
from optimizer.report.layout import GAP, beside, table, wrap
from optimizer.report.measures import (
    Measures,
    Units,
    figures,
    in_measures,
    kilowatt_hours,
    measures,
)
from optimizer.report.names import Names
from optimizer.report.text import day_name
from optimizer.report.timetable import capital, clock
from optimizer.scenario.clock import moment_written
from optimizer.scenario.log_entries import (
    Came,
    Eaten,
    Entry,
    Followed,
    Read,
    Sticks,
    Weighed,
    Withdrawn,
)
from optimizer.scenario.logbook import Line, Log
from optimizer.trials.burn import Ratio, ratios
from optimizer.trials.record import Record, amount_in, left_at
from optimizer.trials.remains import Pace, paces
from optimizer.trials.thermometer import Cold, too_cold

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


def latest(record: Record) -> int:
    """Return the moment of the last entry that says what happened.

    Parameters
    ----------
    record
        The log beside its scenario.
    """
    happened = (Weighed, Eaten, Read, Followed)
    return max((entry.at for entry in record.entries if isinstance(entry, happened)), default=0)


class Teller:
    """Puts entries into words."""

    def __init__(self, scenario: Scenario, system: Measures) -> None:
        self.scenario, self.system, self.names = scenario, system, Names(scenario)
        self.stores = {store.fuel.name: store for store in scenario.stores}
        self.dishes = {item.dish.name: item.dish.label for item in scenario.items}

    def when(self, minute: int) -> str:
        """Say a moment."""
        return f"{day_name(self.scenario, minute // DAY_MIN + 1)}, {clock(minute)}"

    def amount(self, store: Store, amount: float) -> str:
        """Say how much of a fuel, in its own measure."""
        if store.fuel.lhv_j_kg is None:
            return kilowatt_hours(amount / MJ)
        return self.system.fuel(amount, 3)

    def entry(self, entry: Entry) -> str:
        """Say what an entry says."""
        tell: dict[type[Entry], Callable[[Any], str]] = {
            Weighed: self._weighed,
            Eaten: self._eaten,
            Read: self._read,
            Came: self._came,
            Sticks: self._sticks,
            Followed: lambda _: "the plan made at this moment is followed",
            Withdrawn: lambda e: f"entry {e.instead_of} does not count any more",
        }
        told = tell[type(entry)](entry)
        if entry.instead_of is not None and not isinstance(entry, Withdrawn):
            told += f" (instead of entry {entry.instead_of})"
        return f"{told}; {entry.note}" if entry.note else told

    def _weighed(self, entry: Weighed) -> str:
        given, how = (entry.left, "left") if entry.left else (entry.added, "came in")
        store = self.stores.get(entry.fuel)
        if store is None or given is None:
            return f"{entry.fuel} {how}"
        amount = amount_in(given, store) - (entry.empty or 0.0)
        return f"{self.names.fuel(entry.fuel)}: {self.amount(store, amount)} {how}"

    def _eaten(self, entry: Eaten) -> str:
        what = self.dishes.get(entry.dish or "", entry.dish) or entry.meal
        of = (
            f"{what}, {entry.meal} of day {entry.day}"
            if entry.dish
            else f"{what} of day {entry.day}"
        )
        stove = f", on the {self.names.stove(entry.stove)}" if entry.stove else ""
        how: str = entry.how
        if entry.cooker:
            how = f"in the {self.names.cooker(entry.cooker)}"
        return f"{of}: {how}{stove}"

    def _read(self, entry: Read) -> str:
        degrees = self.system.temperature(entry.read)
        if entry.when == "room":
            return f"room: {degrees}"
        what = self.dishes.get(entry.dish or "", entry.dish) or entry.meal
        at = "as it went into its cooker" if entry.when == "move" else "at the table"
        return f"{what}: {degrees} {at}"

    def _came(self, entry: Came) -> str:
        adults = f"{entry.adults} adult{'' if entry.adults == 1 else 's'}"
        children = f"{entry.children} {'child' if entry.children == 1 else 'children'}"
        return f"from here on {adults} and {children} eat"

    def _sticks(self, entry: Sticks) -> str:
        until = f" until {self.when(entry.until)}" if entry.until is not None else ""
        return f"sticks are {'wet' if entry.wet else 'dry'}{until}"


# the entries


def entry_rows(log: Log, scenario: Scenario, system: Measures) -> list[Row]:
    """Set out every entry, those that do not count marked.

    Parameters
    ----------
    log
        The log.
    scenario
        The household.
    system
        The measures.
    """
    teller = Teller(scenario, system)
    counts = {entry.n for entry, _ in log.standing}
    return [
        {
            "no.": str(entry.n),
            "when": teller.when(entry.at),
            "what": teller.entry(entry),
            "counts": _counts(entry, counts),
        }
        for entry in log.entries
    ]


def _counts(entry: Entry, counts: set[int]) -> str:
    if isinstance(entry, Withdrawn):
        return ""
    return "yes" if entry.n in counts else "no, corrected"


def entry_lines(log: Log, teller: Teller) -> list[str]:
    """List the entries, the oldest first; those that do not count in brackets."""
    if not log.entries:
        return wrap("Nothing yet.", GAP)
    counts = {entry.n for entry, _ in log.standing}
    lines: list[str] = []
    for entry in log.entries:
        told = teller.entry(entry)
        if entry.n not in counts and not isinstance(entry, Withdrawn):
            told = f"[{told}; does not count any more]"
        moment = moment_written(entry.at)
        lines += [GAP + line for line in beside((f"{entry.n:>3}", moment, told), (3, 13, 56))]
    return lines + [
        f"{GAP}(line {number} of the log was lost while it was being written)"
        for number in log.lost
    ]


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
                "at the plan's pace": _lasts(known.get(store.fuel.name)),
            }
        )
    return rows


def _lasts(pace: Pace | None) -> str:
    if pace is None or pace.days is None:
        return "not used"
    if pace.days <= 0:
        return "down to the reserve"
    word = figures(pace.days) if pace.days < 10 else f"{pace.days:.0f}"  # noqa: PLR2004
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


# for programs


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
