"""The entries of a log in words, one by one and as a list."""

from collections.abc import Callable
from typing import Any

from optimizer.model.household import DAY_MIN, Scenario, Store
from optimizer.report.dates import day_name
from optimizer.report.layout import GAP, beside, wrap
from optimizer.report.measures import (
    Measures,
    kilowatt_hours,
)
from optimizer.report.names import Names
from optimizer.scenario.clock import clock, moment_written
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
from optimizer.scenario.logbook import Log
from optimizer.trials.record import Record, amount_in

MJ = 1e6
Row = dict[str, str]


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
