"""The log of an outage put together: how it stands at a moment, and the course it took.

Pure: entries and a course in, a state out. A later entry goes before an earlier one, and what was
written down goes before what was planned.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from optimizer.model.household import DAY_MIN, Scenario, Store, UnderWay
from optimizer.model.now import DayOfSticks, Eaters, Left, Now, Soaking
from optimizer.planning.stock import joules_per_kg
from optimizer.scenario.log_entries import (
    Amount,
    Came,
    Eaten,
    Entry,
    Followed,
    Read,
    Sticks,
    Weighed,
)
from optimizer.trials.course import Burnt, Course, burnt_of, course_of
from optimizer.trials.otherwise import corrected, items_of

LATE = 10**9


@dataclass(frozen=True, slots=True)
class Record:
    """A log beside its scenario; ``course`` is what went on, as far as it is known."""

    scenario: Scenario
    entries: tuple[Entry, ...]  # that count, in the order of their time
    course: Course

    @property
    def burnt(self) -> list[Burnt]:
        """Everything that burned or will, by the course."""
        after = [entry for entry in self.entries if entry.n > self.course.entry]
        return burnt_of(self.course, self.scenario, sticks_of(after, self.scenario))


def followed_in(entries: Iterable[Entry], scenario: Scenario) -> Course | None:
    """Return the course of the plan that was last said to be followed, or None.

    Parameters
    ----------
    entries
        That count, in the order of their time.
    scenario
        The whole outage.
    """
    said = [entry for entry in entries if isinstance(entry, Followed)]
    return course_of(said[-1], scenario) if said else None


def record_of(entries: Sequence[Entry], scenario: Scenario, followed: Course) -> Record:
    """Return a log beside what was followed, put right by what was written down.

    Parameters
    ----------
    entries
        That count, in the order of their time.
    scenario
        The whole outage.
    followed
        Steps and fires of the plan that was followed; none where there was none.
    """
    course = followed
    for entry in entries:
        if isinstance(entry, Eaten) and entry.n > followed.entry:
            for item in items_of(entry, scenario):
                course = corrected(course, item, entry, scenario)
    return Record(scenario, tuple(entries), course)


# how it stands


def now(record: Record, minute: int) -> Now:
    """Return how an outage stands at a moment.

    Parameters
    ----------
    record
        The log beside its scenario.
    minute
        Since 00:00 of day 1; entries of later moments say nothing of what is done by then.
    """
    before = [entry for entry in record.entries if entry.at <= minute]
    under_way = tuple(_under_way(record, before, minute))
    rooms = [e for e in before if isinstance(e, Read) and e.when == "room"]
    return Now(
        minute=minute,
        left=tuple(_left(record, store, minute, under_way) for store in record.scenario.stores),
        done=frozenset(_done(before, record.scenario)),
        under_way=under_way,
        soaking=tuple(_soaking(record, before, minute)),
        eaters=tuple(
            Eaters(e.at, e.adults, e.children) for e in record.entries if isinstance(e, Came)
        ),
        sticks=sticks_of(record.entries, record.scenario),
        kitchen_c=rooms[-1].read if rooms else None,
    )


def _done(before: Iterable[Entry], scenario: Scenario) -> Iterator[int]:
    """Yield dishes that are eaten or left out."""
    last: dict[int, str] = {}
    for entry in before:
        if isinstance(entry, Eaten):
            last |= {item.number: entry.how for item in items_of(entry, scenario)}
    yield from (number for number, how in last.items() if how in {"eaten", "left out"})


def _under_way(record: Record, before: Sequence[Entry], minute: int) -> Iterator[UnderWay]:
    """Yield the pots of dishes of which one went on before a moment and that are not over."""
    scenario, turn = record.scenario, int(record.scenario.rules.turn_min)
    done = set(_done(before, scenario))
    begun = {step.number for step in record.course.steps if step.on < minute}
    for step in record.course.steps:
        if step.number in begun - done and step.serve + turn > minute:
            yield UnderWay(scenario.items[step.number], step)


def _soaking(record: Record, before: Sequence[Entry], minute: int) -> Iterator[Soaking]:
    """Yield dishes that soak by a moment: as planned, or as written down."""
    planned = {
        step.number: step.soak_from
        for step in record.course.steps
        if step.soak_from is not None and step.soak_from < minute <= step.on
    }
    for entry in before:
        if isinstance(entry, Eaten) and entry.n > record.course.entry:
            for item in items_of(entry, record.scenario):
                planned.pop(item.number, None)
                if entry.how == "soaking":
                    planned[item.number] = entry.at
    yield from (Soaking(number, since) for number, since in planned.items())


def sticks_of(entries: Iterable[Entry], scenario: Scenario) -> tuple[DayOfSticks, ...]:
    """Return on which days sticks were found wet or dry; a day that is wet in part is wet.

    Parameters
    ----------
    entries
        That count, in the order of their time.
    scenario
        The whole outage.
    """
    found: dict[int, DayOfSticks] = {}
    for entry in entries:
        if isinstance(entry, Sticks):
            first = entry.at // DAY_MIN + 1 + (not entry.wet and entry.at % DAY_MIN > 0)
            last = scenario.days if entry.until is None else (entry.until - 1) // DAY_MIN + 1
            for day in range(first, last + 1):
                found[day] = DayOfSticks(day, entry.wet, entry.at)
    return tuple(found[day] for day in sorted(found))


# what is left


def amount_in(amount: Amount, store: Store) -> float:
    """Return an amount as its fuel is counted: kilograms, or joules where it has no mass.

    Parameters
    ----------
    amount
        What was weighed.
    store
        The store of the fuel.
    """
    return amount.value * (store.fuel.density_kg_m3 or 0.0 if amount.unit == "m**3" else 1.0)


def weighed(record: Record, fuel: str) -> list[Weighed]:
    """Return the weigh-ins of a fuel, and what came in, in the order of time.

    Parameters
    ----------
    record
        The log beside its scenario.
    fuel
        Its name.
    """
    return [e for e in record.entries if isinstance(e, Weighed) and e.fuel == fuel]


def left_at(record: Record, store: Store, minute: int) -> float | None:
    """Return what is left of a fuel: the last weigh-in, and what burned and came in since.

    Parameters
    ----------
    record
        The log beside its scenario.
    store
        The store of the fuel.
    minute
        Since 00:00 of day 1.

    Returns
    -------
    float or None
        In kilograms, or joules where it has no mass; None where there is no limit.
    """
    amount = store.stock_j if store.fuel.lhv_j_kg is None else store.stock_kg
    since = 0
    for entry in weighed(record, store.fuel.name):
        if entry.at > minute:
            break
        if entry.left is not None:
            amount, since = amount_in(entry.left, store) - (entry.empty or 0.0), entry.at
        elif entry.added is not None and amount is not None:
            amount += amount_in(entry.added, store)
    if amount is None:
        return None
    return max(0.0, amount - _burnt(record, store, since, minute))


def _burnt(record: Record, store: Store, start: int, end: int) -> float:
    """Return what the course burns of a fuel, in kilograms or joules."""
    joules = sum(b.between(start, end) for b in record.burnt if b.fuel == store.fuel.name)
    return joules / (joules_per_kg(store.fuel) or 1.0)


def _left(record: Record, store: Store, minute: int, under_way: Iterable[UnderWay]) -> Left:
    """Return what is left of a fuel for dishes that are not under way."""
    amount = left_at(record, store, minute)
    if amount is not None:
        steps = tuple(each.step for each in under_way)
        rest = replace(record, course=Course(steps))
        amount = max(0.0, amount - _burnt(rest, store, minute, LATE))
    mass = store.fuel.lhv_j_kg is not None
    return Left(store.fuel.name, amount if mass else None, None if mass else amount)
