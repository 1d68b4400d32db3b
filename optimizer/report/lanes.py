"""A plan day by day as lanes: one a stove and one a cooker, with what each pot does in it.

All minutes are those of the plan, since 00:00 of day 1; what runs over midnight is shown on both
days, each with its part.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from optimizer.model.household import DAY_MIN, Scenario
from optimizer.model.plan import Fire, Plan, Step
from optimizer.report.day_lanes import DayLanes, Kind, Lane, Move, Piece, Served, Stay
from optimizer.report.names import Names
from optimizer.report.stretches import Stretch, stretches
from optimizer.report.timetable import TOGETHER_MIN

HOUR_MIN = 60
SIDE = "set aside, lid on"
SOAKING = "soaking in cold water"
_ORDER = {"stove": 0, "cooker": 1, "side": 2}


@dataclass(frozen=True, slots=True)
class _Spell:
    """A stay that has no row yet."""

    kind: Kind
    label: str
    dish: str
    step: int
    pieces: tuple[Piece, ...]


def days_of(plan: Plan, scenario: Scenario) -> tuple[DayLanes, ...]:
    """Set a plan out as lanes, day by day.

    Parameters
    ----------
    plan
        The plan.
    scenario
        The household.

    Returns
    -------
    tuple of DayLanes
        One for each day on which a pot is anywhere; all show the same hours.
    """
    names = Names(scenario)
    steps = enumerate(_steps(plan))
    spells = [
        cut
        for number, step in steps
        for spell in _spells(number, step, plan, names)
        if (cut := _cut(spell, _begin(plan, spell), spell.pieces[-1].end)) is not None
    ]
    days = sorted({day for spell in spells for day in _days(spell.pieces)})
    hours = _hours(spells, plan.fires, days)
    return tuple(_day(day, hours, spells, plan, scenario) for day in days)


def _begin(plan: Plan, spell: _Spell) -> int:
    """Give the minute from which a spell is shown: all of it where the plan is whole."""
    return plan.begins or spell.pieces[0].start


def _steps(plan: Plan) -> tuple[Step, ...]:
    """Give the dishes of a plan, and those under way when it begins."""
    return (*plan.steps, *plan.under_way)


def _spells(number: int, step: Step, plan: Plan, names: Names) -> Iterator[_Spell]:
    """Yield where a pot stays, one place after the other."""
    dish = names.dish(step, _steps(plan))
    if step.soak_from is not None:
        yield _Spell("side", SOAKING, dish, number, (Piece("soak", step.soak_from, step.on),))
    run: list[Stretch] = []
    for stretch in stretches(step):
        if run and _place(run[-1], step, names) != _place(stretch, step, names):
            yield _spell(run, number, step, dish, names)
            run = []
        if not _carried(stretch, step):
            run.append(stretch)
    if run:
        yield _spell(run, number, step, dish, names)


def _carried(stretch: Stretch, step: Step) -> bool:
    """Tell whether a wait is no more than the way from the stove into the cooker."""
    into = step.move is not None and stretch.end == step.move
    return stretch.doing == "wait" and into and stretch.end - stretch.start <= TOGETHER_MIN


def _place(stretch: Stretch, step: Step, names: Names) -> tuple[Kind, str]:
    """Say where a pot is."""
    if stretch.doing in {"fire", "boil"}:
        return "stove", names.stove(step.stove)
    if stretch.doing == "cooker" and step.cooker is not None:
        return "cooker", names.cooker(step.cooker)
    return "side", SIDE


def _spell(run: Sequence[Stretch], number: int, step: Step, dish: str, names: Names) -> _Spell:
    kind, label = _place(run[0], step, names)
    pieces = tuple(Piece(each.doing, each.start, each.end) for each in run)
    return _Spell(kind, label, dish, number, pieces)


# one day


def _days(pieces: Sequence[Piece]) -> range:
    """List the days on which a stay has a part."""
    return range(pieces[0].start // DAY_MIN + 1, (pieces[-1].end - 1) // DAY_MIN + 2)


def _hours(spells: Iterable[_Spell], fires: Iterable[Fire], days: Iterable[int]) -> tuple[int, int]:
    """Find the whole hours of the day in which anything happens on any day."""
    spans = [(s.pieces[0].start, s.pieces[-1].end) for s in spells]
    spans += [(fire.start, fire.end) for fire in fires]
    starts, ends = [DAY_MIN], [0]
    for day in days:
        begin, end = (day - 1) * DAY_MIN, day * DAY_MIN
        today = [(max(a, begin), min(b, end)) for a, b in spans if a < end and b > begin]
        starts += [a - begin for a, _ in today]
        ends += [b - begin for _, b in today]
    first = HOUR_MIN * (min(starts) // HOUR_MIN)
    return first, min(DAY_MIN, HOUR_MIN * (max(ends) // HOUR_MIN + 1))


def _day(
    day: int, hours: tuple[int, int], spells: Sequence[_Spell], plan: Plan, scenario: Scenario
) -> DayLanes:
    midnight = (day - 1) * DAY_MIN
    end = day * DAY_MIN
    today = [cut for spell in spells if (cut := _cut(spell, midnight, end)) is not None]
    lanes = _lanes(today, plan, Names(scenario), (midnight, end))
    return DayLanes(
        day=day,
        first=midnight + hours[0],
        last=midnight + hours[1],
        lanes=lanes,
        moves=tuple(_moves(lanes)),
        served=tuple(_served(lanes, plan, (midnight, end))),
        cook_hours=tuple((w.start_min, w.end_min) for w in scenario.windows if w.day == day),
    )


def _cut(spell: _Spell, begin: int, end: int) -> _Spell | None:
    """Keep what lies on one day."""
    kept = [
        Piece(piece.does, max(piece.start, begin), min(piece.end, end))
        for piece in spell.pieces
        if piece.start < end and piece.end > begin
    ]
    return replace(spell, pieces=tuple(kept)) if kept else None


def _lanes(
    spells: Sequence[_Spell], plan: Plan, names: Names, span: tuple[int, int]
) -> tuple[Lane, ...]:
    places: dict[tuple[Kind, str], list[_Spell]] = defaultdict(list)
    for spell in spells:
        places[spell.kind, spell.label].append(spell)
    ordered = sorted(places.items(), key=lambda entry: _ORDER[entry[0][0]])
    lit: dict[str, list[tuple[int, int]]] = defaultdict(list)
    for fire in plan.fires:
        if fire.start < span[1] and fire.end > span[0]:
            between = (max(fire.start, span[0]), min(fire.end, span[1]))
            lit[names.stove(fire.stove)].append(between)
    return tuple(
        Lane(kind, label, _rowed(group), tuple(lit[label]) if kind == "stove" else ())
        for (kind, label), group in ordered
    )


def _rowed(spells: Sequence[_Spell]) -> tuple[Stay, ...]:
    """Give every stay the first row that is free."""
    free: list[int] = []  # minute from which each row is free
    stays = []
    for spell in sorted(spells, key=lambda s: (s.pieces[0].start, s.step)):
        start = spell.pieces[0].start
        row = next((n for n, minute in enumerate(free) if minute <= start), len(free))
        free[row : row + 1] = [spell.pieces[-1].end]
        stays.append(Stay(spell.dish, spell.step, row, spell.pieces))
    return tuple(stays)


def _moves(lanes: Sequence[Lane]) -> Iterator[Move]:
    """Yield every pot that goes from one lane to another."""
    by_step: dict[int, list[tuple[Stay, int]]] = defaultdict(list)
    for number, lane in enumerate(lanes):
        for stay in lane.stays:
            by_step[stay.step].append((stay, number))
    for stays in by_step.values():
        ordered = sorted(stays, key=lambda entry: entry[0].start)
        for (left, a), (came, b) in pairwise(ordered):
            if left.pieces[-1].does != "soak":
                yield Move(left.dish, left.end, came.start, a, left.row, b, came.row)


def _served(lanes: Sequence[Lane], plan: Plan, span: tuple[int, int]) -> Iterator[Served]:
    """Yield what comes to the table on this day, out of its last place."""
    for number, step in enumerate(_steps(plan)):
        minutes = {step.serve, *(draw.at for draw in step.drawn)}  # each draw is served too
        mine = [(p, s) for p, lane in enumerate(lanes) for s in lane.stays if s.step == number]
        for minute in sorted(each for each in minutes if span[0] < each <= span[1]):
            for place, stay in mine:
                if stay.end == step.serve and stay.start <= minute:
                    yield Served(minute, step.meal, stay.dish, place, stay.row)
