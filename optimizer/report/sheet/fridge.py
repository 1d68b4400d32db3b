"""The copy for the fridge: the whole stay on one page, what happens when, in short."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from optimizer.model.household import DAY_MIN, Scenario
from optimizer.model.plan import Fire, Step
from optimizer.report.dates import day_name
from optimizer.report.doings import END, LIGHT, MOVE, OFF, ON, SERVE, SOAK, Doing
from optimizer.report.names import Names
from optimizer.scenario.clock import clock

PARTS = (("Morning", 11 * 60), ("Midday", 15 * 60), ("Evening", DAY_MIN))  # until


@dataclass(frozen=True, slots=True)
class FridgeDish:
    """One dish of a meal and what happens to it."""

    dish: str
    course: str


@dataclass(frozen=True, slots=True)
class FridgeMeal:
    """One meal."""

    clock: str
    meal: str
    dishes: tuple[FridgeDish, ...]


@dataclass(frozen=True, slots=True)
class FridgeDay:
    """One day: its meals by part of the day, its fires, what is put to soak."""

    name: str
    parts: tuple[tuple[str, tuple[FridgeMeal, ...]], ...]
    fires: tuple[str, ...]
    soaks: tuple[str, ...]


def fridge_days(doings: Sequence[Doing], scenario: Scenario) -> list[FridgeDay]:
    """Set out the whole stay, a row a day.

    Parameters
    ----------
    doings
        All that is done, by the clock.
    scenario
        The household.

    Returns
    -------
    list of FridgeDay
        In the order of the days.
    """
    names = Names(scenario)
    ends = {doing.of: doing.clock for doing in doings if doing.order == END}
    by_step: dict[tuple[int, int], list[Doing]] = {}
    for doing in doings:
        if isinstance(doing.of, Step):
            by_step.setdefault((doing.of.number, doing.of.batch), []).append(doing)
    return [
        FridgeDay(
            name=day_name(scenario, day),
            parts=_parts([d for d in today if d.order == SERVE], by_step, names),
            fires=tuple(_fires(today, ends, names)),
            soaks=tuple(_soak(d) for d in today if d.order == SOAK),
        )
        for day, today in _by_day(doings)
    ]


def _by_day(doings: Sequence[Doing]) -> list[tuple[int, list[Doing]]]:
    days = groupby(doings, key=lambda doing: doing.clock // DAY_MIN + 1)
    return [(day, list(today)) for day, today in days]


def _parts(
    served: Sequence[Doing], by_step: dict[tuple[int, int], list[Doing]], names: Names
) -> tuple[tuple[str, tuple[FridgeMeal, ...]], ...]:
    """Put the meals of a day into morning, midday and evening."""
    meals = [
        (minute, FridgeMeal(clock(minute), meal, tuple(_dish(d, by_step, names) for d in dishes)))
        for (minute, meal), dishes in groupby(sorted(served, key=_meal), key=_meal)
    ]
    found, since = [], 0
    for name, until in PARTS:
        inside = tuple(meal for minute, meal in meals if since <= minute % DAY_MIN < until)
        found.append((name, inside))
        since = until
    return tuple(found)


def _meal(served: Doing) -> tuple[int, str]:
    """Say when, and which meal."""
    return served.clock, served.of.meal if isinstance(served.of, Step) else ""


def _dish(served: Doing, by_step: dict[tuple[int, int], list[Doing]], names: Names) -> FridgeDish:
    """Tell one dish in short: when it goes on, when into its cooker or off."""
    step = served.of
    assert isinstance(step, Step)
    own = by_step[step.number, step.batch]
    ons = [d.clock for d in own if d.order == ON]
    left = [d.clock for d in own if d.order in {OFF, MOVE} and d.minute <= (step.move or step.off)]
    course = [f"on {_at(ons[0], served)}"] if ons else ["under way"]
    if left:
        goes = f"{names.cooker(step.cooker)} {_at(left[-1], served)}" if step.cooker else ""
        course.append(goes or f"off {_at(left[-1], served)}")
    course += [f"boil again {_at(on, served)}" for on in ons[1:]]
    return FridgeDish(served.dish, ", ".join(course))


def _at(minute: int, served: Doing) -> str:
    """Write a time of day, and that it is the day before's."""
    before = minute // DAY_MIN < served.clock // DAY_MIN
    return clock(minute) + (" the day before" if before else "")


def _fires(
    today: Sequence[Doing], ends: Mapping[Step | Fire | None, int], names: Names
) -> Iterator[str]:
    """Tell for each stove when it is lit and when it is done with."""
    hours: dict[str, list[str]] = {}
    for lit in today:
        if lit.order == LIGHT and isinstance(lit.of, Fire):
            until = f"-{clock(ends[lit.of])}" if lit.of in ends else ""
            hours.setdefault(lit.of.stove, []).append(f"{clock(lit.clock)}{until}")
    for stove, told in hours.items():
        yield f"{names.stove(stove)} {', '.join(told)}"


def _soak(doing: Doing) -> str:
    """Tell what is put to soak."""
    return f"{clock(doing.clock)} soak for {doing.dish}"
