"""What more of everything would save: things, half an hour, warmth; by solving again.

Beside each stands what the linear program says: what it would save, solved again too, and for fuel
and things its price of one more and between which amounts that price holds. Hours and temperatures
have no price there: they change which ways there are.
"""

import time
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

import pulp

from optimizer.model.household import DAY_MIN, Scenario, Window
from optimizer.model.plan import Plan, Worth
from optimizer.planning.baseline import Effort
from optimizer.planning.board import MJ, scale
from optimizer.planning.columns import Column, Kitchen
from optimizer.planning.kitchen import Known, choices, kitchen_of
from optimizer.planning.mix import lay_out, mix
from optimizer.planning.otherwise import Otherwise
from optimizer.planning.parametric import Held, held, optimum_of
from optimizer.planning.program import Program, add_column, add_row, set_goal
from optimizer.planning.schedule import schedule
from optimizer.planning.stock import joules_per_kg, package_j, store_of
from optimizer.planning.worth import TINY, mass, things_of, told_in

HALF_HOUR_MIN = 30
WARMER_K = 5.0
MOST_MORE = 20  # packages, stoves, pots: further is not looked
LEAST_S = 0.5


@dataclass(frozen=True, slots=True)
class Chance:
    """A household that has more of something, and what the linear program says of it."""

    what: str
    scenario: Scenario
    columns: Sequence[Column]
    kitchen: Kitchen
    mixed: float | None  # saved in the linear program
    price: Held | None = None  # of one more, in packages or pieces; in the program's units
    unit: float = 1.0  # amount in one of them
    had: float = 0.0  # amount that there is
    measure: Literal["kg", "pieces"] | None = None


def appraised(plan: Plan, scenario: Scenario, effort: Effort) -> tuple[Worth, ...]:
    """Return what more of everything would save, the most first.

    Parameters
    ----------
    plan : Plan
        The household's plan; its goal's value is what is saved from.
    scenario : Scenario
        The household.
    effort : Effort
        How hard to look; the time is for all of it.

    Returns
    -------
    tuple of Worth
        Each known to within the gap. What the linear program finds of no use is left out, and so
        is what there was no time for.
    """
    if plan.goal.value is None:
        return ()
    until, goal, told = time.perf_counter() + effort.time_limit_s, scenario.goals[0], []
    for chance in _chances(scenario, goal):
        left = until - time.perf_counter()
        if left < LEAST_S or effort.dropped:
            break
        if chance.mixed is not None and chance.mixed <= TINY:
            continue
        again = schedule(
            chance.columns,
            chance.kitchen,
            goals=(goal,),
            gap=effort.gap,
            time_limit_s=left,
            progress=effort.progress,
            solver=effort.solver,
        )
        if again.value is not None:
            saved = max(0.0, plan.goal.value - again.value)
            told.append(_told(chance, saved, goal, scenario))
    return tuple(sorted(told, key=lambda worth: -worth.value))


def _told(chance: Chance, saved: float, goal: str, scenario: Scenario) -> Worth:
    by, low, high = None, None, None
    if chance.price is not None:
        by = -chance.price.piece.price * scale(goal)
        low, high = (
            None if end is None else chance.had + end * chance.unit
            for end in (chance.price.low, _open(chance.price.high))
        )
    worth = told_in(goal, chance.what, saved, by, scenario.currency)
    mixed = told_in(goal, chance.what, chance.mixed or 0.0, None, scenario.currency).value
    return replace(
        worth,
        mixed=None if chance.mixed is None else mixed,
        holds_from=low,
        holds_to=high,
        holds_unit=chance.measure,
    )


def _open(high: float) -> float | None:
    return None if high >= MOST_MORE else high


def _chances(scenario: Scenario, goal: str) -> Iterator[Chance]:
    """Yield a household with more of each thing, then of each hour, then warmer ones."""
    known: Known = {}
    columns, kitchen = choices(scenario, known=known).columns, kitchen_of(scenario)
    base = mix(columns, kitchen, goal=goal).value
    yield from _Store(scenario, columns, kitchen, goal).of_fuels()
    for kind, name, label, places in things_of(scenario):
        store = _Store(scenario, columns, kitchen, goal, (f"{kind}:{name}", places))
        yield from store.of_thing(label)
    for what, longer in _longer(scenario):
        yield _changed(what, longer, goal, base, known)
    for what, warmer in _warmer(scenario):
        yield _changed(what, warmer, goal, base, {})


def _changed(what: str, scenario: Scenario, goal: str, base: float | None, known: Known) -> Chance:
    columns, kitchen = choices(scenario, known=known).columns, kitchen_of(scenario)
    mixed = mix(columns, kitchen, goal=goal).value
    saved = None if base is None or mixed is None else base - mixed
    return Chance(what, scenario, columns, kitchen, saved)


class _Store:
    """A linear program in which there can be more of every fuel and of one thing, if it is named.

    One thing only, since a row of a fire is the weaker the more stoves there may be.
    """

    def __init__(
        self,
        scenario: Scenario,
        columns: Sequence[Column],
        kitchen: Kitchen,
        goal: str,
        thing: tuple[str, int] | None = None,
    ) -> None:
        self.scenario, self.columns, self.kitchen = scenario, columns, kitchen
        self.program = Program()
        self.fuels = {name: self._none(name) for name in kitchen.stock_j if self._package(name)}
        more = {} if thing is None else {thing[0]: (self._none(thing[0]), thing[1])}
        most = {r: kitchen.capacity[r] + MOST_MORE * places for r, (_, places) in more.items()}
        laid = lay_out(self.program, columns, kitchen, Otherwise(more, most))
        for name, stock_j in kitchen.stock_j.items():
            package = self._package(name) / MJ
            bought = [(self.fuels[name], -package)] if name in self.fuels else []
            row = [*laid.of(name), *bought]
            add_row(self.program, f"stock_is_enough[{name}]", row, "<=", stock_j / MJ)
        set_goal(self.program, laid.of(goal))
        self.scale, self.more = scale(goal), more

    def _none(self, name: str) -> pulp.LpVariable:
        return add_column(self.program, f"more[{name}]", low=0.0, high=0.0)

    def _package(self, fuel: str) -> float:
        """Return the heat of a package [J]; 0 where there are none."""
        store = store_of(self.scenario, fuel)
        return (package_j(store) if store else None) or 0.0

    def of_fuels(self) -> Iterator[Chance]:
        """Yield a package more of every fuel."""
        for name, column in self.fuels.items():
            yield self._of_fuel(name, column)

    def of_thing(self, label: str) -> Iterator[Chance]:
        """Yield one more of the thing there may be more of."""
        for resource, (column, places) in self.more.items():
            had = self.kitchen.capacity[resource] / places
            capacity = {**self.kitchen.capacity, resource: round((had + 1) * places)}
            kitchen = replace(self.kitchen, capacity=capacity)
            chance = self._chance(f"one more {label}", kitchen, column, had)
            yield replace(chance, had=had, measure="pieces")

    def _of_fuel(self, name: str, column: pulp.LpVariable) -> Chance:
        store, package = store_of(self.scenario, name), self._package(name)
        assert store is not None
        stock_j = {**self.kitchen.stock_j, name: self.kitchen.stock_j[name] + package}
        what = f"{mass(store.package_kg or 0.0)} more of {store.fuel.label}"
        usable = self.kitchen.stock_j[name]
        chance = self._chance(
            what, replace(self.kitchen, stock_j=stock_j), column, usable / package
        )
        heat = joules_per_kg(store.fuel) or 1.0
        kept = (1 - store.reserve) or 1.0
        return replace(chance, unit=package / heat / kept, had=usable / heat / kept, measure="kg")

    def _chance(self, what: str, kitchen: Kitchen, column: pulp.LpVariable, had: float) -> Chance:
        """Return one more of something, with its price and what it saves in the program."""
        price = held(self.program, column, at=0.0, least=-had, most=MOST_MORE)
        there = optimum_of(self.program, column)(1.0)
        saved = None
        if price is not None and there is not None:
            saved = (price.piece.optimum - there.optimum) * self.scale
        return Chance(what, self.scenario, self.columns, kitchen, saved, price)


def _longer(scenario: Scenario) -> Iterator[tuple[str, Scenario]]:
    """Yield half an hour more at the end, and at the beginning, of each time to cook."""
    clocks = dict.fromkeys(
        (w.start_min % DAY_MIN, w.end_min - w.start_min // DAY_MIN * DAY_MIN)
        for w in scenario.windows
    )
    for start, end in clocks:
        for before, after in ((0, HALF_HOUR_MIN), (HALF_HOUR_MIN, 0)):
            windows = _stretched(scenario, {(start, end): (before, after)})
            if windows != scenario.windows:
                at = f"until {_clock(end + after)}" if after else f"from {_clock(start - before)}"
                yield f"half an hour more to cook, {at}", replace(scenario, windows=windows)


def _stretched(
    scenario: Scenario, by: Mapping[tuple[int, int], tuple[int, int]]
) -> tuple[Window, ...]:
    """Return the windows with some longer; what would overlap is left as it was."""
    made: list[Window] = []
    for number, window in enumerate(scenario.windows):
        midnight = window.start_min // DAY_MIN * DAY_MIN
        before, after = by.get((window.start_min - midnight, window.end_min - midnight), (0, 0))
        first = made[-1].end_min if made else scenario.begins
        last = scenario.days * DAY_MIN
        if number + 1 < len(scenario.windows):
            last = scenario.windows[number + 1].start_min
        start = max(min(first, window.start_min), window.start_min - before)
        end = min(max(last, window.end_min), window.end_min + after)
        made.append(Window(start, end))
    return tuple(made)


def _clock(minute: int) -> str:
    hours, minutes = divmod(minute % DAY_MIN, 60)
    return f"{hours:02d}:{minutes:02d}"


def _warmer(scenario: Scenario) -> Iterator[tuple[str, Scenario]]:
    """Yield a warmer kitchen, and warmer weather."""
    place = scenario.place
    kitchen = replace(place, kitchen_c=place.kitchen_c + WARMER_K)
    yield f"a kitchen {WARMER_K:g} K warmer", replace(scenario, place=kitchen)
    weather = tuple(replace(day, outdoors_c=day.outdoors_c + WARMER_K) for day in scenario.weather)
    outdoors = replace(place, outdoors_c=place.outdoors_c + WARMER_K)
    yield (
        f"weather {WARMER_K:g} K warmer",
        replace(scenario, place=outdoors, weather=weather),
    )
