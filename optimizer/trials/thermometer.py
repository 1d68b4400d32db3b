"""Readings of a thermometer held against what is safe, and what one at the move foretells."""

from collections.abc import Iterator
from dataclasses import dataclass

from optimizer import shelf
from optimizer.model.household import Item, Scenario
from optimizer.model.plan import Caution, Step
from optimizer.planning.ways import conditions
from optimizer.scenario.log_entries import Read
from optimizer.trials.otherwise import items_of
from optimizer.trials.record import Record


@dataclass(frozen=True, slots=True)
class Cold:
    """A dish that reads too low, or will."""

    entry: int
    item: Item
    read_c: float
    least_c: float
    at_table_c: float | None  # read at the move: what is left of it at the table, on the safe side
    cautions: tuple[Caution, ...]


def too_cold(record: Record) -> tuple[Cold, ...]:
    """Return readings of dishes that are below what they are wanted at, or will be.

    Parameters
    ----------
    record
        The log beside its scenario.

    Returns
    -------
    tuple of Cold
        With the usual cautions; nothing is said to be safe that is not among them.
    """
    return tuple(
        cold
        for entry in record.entries
        if isinstance(entry, Read) and entry.when != "room"
        for item in items_of(entry, record.scenario)
        if (cold := _cold(entry, item, record)) is not None
    )


def least_c(item: Item, scenario: Scenario) -> float | None:
    """Return what a dish is wanted at, at the table; None where it may be cold.

    Parameters
    ----------
    item
        The dish.
    scenario
        Its rules say what is hot.
    """
    return scenario.rules.hot_c if item.dish.serve == "hot" else item.dish.serve_c


def _cold(entry: Read, item: Item, record: Record) -> Cold | None:
    least = least_c(item, record.scenario)
    if least is None or item.dish.serve == "any":
        return None
    at_table = None
    if entry.when == "move":
        steps = [step for step in record.course.steps if step.number == item.number]
        at_table = min((_at_table(entry, step, record.scenario) for step in steps), default=None)
    lowest = entry.read if at_table is None else min(entry.read, at_table)
    if lowest >= least:
        return None
    cautions = tuple(_cautions(item))
    return Cold(entry.n, item, entry.read, least, at_table, cautions)


def _at_table(entry: Read, step: Step, scenario: Scenario) -> float:
    """Return what a reading at the move leaves at the table.

    A packed pot is a linear thing: what it is warmer than the room at the table is in proportion to
    what it was at the move. The plan counts on a pot at the boil there, so a lower one is that much
    colder; one that reads as planned is told as planned.
    """
    if step.serve_c_low <= 0:  # packed otherwise than planned
        return entry.read
    room = scenario.place.kitchen_c
    top = scenario.items[step.number].dish.heat_c or conditions(scenario, step.day).boil_c
    share = min(1.0, (entry.read - room) / (top - room)) if top > room else 1.0
    return room + (step.serve_c_low - room) * share


def _cautions(item: Item) -> Iterator[Caution]:
    """Yield the usual cautions of a dish that is too cold."""
    rice = any("rice" in part.food.name for part in item.dish.ingredients)
    wanted = [
        *(["rice"] if rice else []),
        *(["infants"] if item.dish.disinfects else []),
        "reheat",
    ]
    table = shelf.load().cautions
    for code in wanted:
        row = next(row for row in table.values() if row.code == code)
        yield Caution(row.code, row.text, (item.dish.label,))
