"""Trade-offs: plans of which none is better in one thing without being worse in another.

The ends are the plans that make one of the two things least (and the other least among those).
Between them the second thing may be no more than a limit that is moved in equal steps. Each point
is a checked plan. Least is meant to within the gap, as everywhere.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace

from optimizer.model.household import Scenario
from optimizer.model.plan import Plan
from optimizer.planning.columns import Column
from optimizer.planning.kitchen import Choices, choices, kitchen_of
from optimizer.planning.ledger import price_of
from optimizer.planning.memory import Memory
from optimizer.planning.planner import as_plan
from optimizer.planning.result import Result
from optimizer.planning.schedule import schedule
from optimizer.planning.verify import verify

ENDS = 2  # of the trade-off
SAME = 1e-6  # share by which two values may differ and count as one
Progress = Callable[[int, int], bool | None]


@dataclass(frozen=True, slots=True)
class Point:
    """One plan and what it takes of both things: money, J or minutes."""

    plan: Plan
    values: tuple[float, float]
    gap: float | None  # to what is proven of the plan's first goal


@dataclass(frozen=True, slots=True)
class Frontier:
    """Plans from least of the first thing to least of the second."""

    goals: tuple[str, str]
    points: tuple[Point, ...]
    complete: bool  # False: stopped, or some point is not proven to within the gap


@dataclass(slots=True)
class _Search:
    """What all points share."""

    scenario: Scenario
    options: Choices
    gap: float
    time_limit_s: float
    count: int
    progress: Progress | None
    done: int = 0
    complete: bool = True
    stopped: bool = False
    points: list[Point] = field(default_factory=list)

    def watch(self, _seconds: float, _best: float | None, _bound: float | None) -> bool:
        """Pass progress on, and say whether to go on."""
        if self.progress is not None:
            self.stopped |= self.progress(self.done, self.count) is False
        return not self.stopped

    def find(
        self, goals: tuple[str, str], limits: dict[str, float], start: Sequence[Column]
    ) -> Result | None:
        """Solve for one point."""
        if not self.watch(0.0, None, None):
            return None
        kitchen = replace(kitchen_of(self.scenario), limits=limits)
        found = schedule(
            self.options.columns,
            kitchen,
            goals=goals,
            gap=self.gap,
            time_limit_s=self.time_limit_s,
            progress=self.watch,
            memory=Memory(chosen=tuple(start)),
        )
        self.done += 1
        self.complete &= found.gap is not None and found.gap <= self.gap + SAME
        return found if found.chosen else None

    def keep(self, found: Result, goals: tuple[str, str], pair: tuple[str, str]) -> Point:
        """Keep a point as a checked plan."""
        kitchen = kitchen_of(self.scenario)
        scenario = replace(self.scenario, goals=goals)
        plan = as_plan(scenario, self.options, kitchen, found)
        verify(plan, scenario)
        first, second = (price_of(found.chosen, kitchen, goal) for goal in pair)
        point = Point(plan, (first, second), found.gap)
        self.points.append(point)
        return point


def frontier(
    scenario: Scenario,
    *,
    against: str = "tending",
    first: str = "money",
    count: int = 6,
    gap: float = 0.01,
    time_limit_s: float = 10.0,
    progress: Progress | None = None,
) -> Frontier:
    """Find plans between the least of one thing and the least of another.

    Parameters
    ----------
    scenario : Scenario
        The household; its own goals do not count here.
    against : str
        The second thing: "money", "energy", "tending" or a fuel's name.
    first : str
        The first thing, likewise.
    count : int
        Plans that are looked for, with both ends; points that are no better are left out.
    gap : float
        How near to the least is near enough, for every point.
    time_limit_s : float
        For every point [s]
    progress : callable, optional
        Called with how many points are done and how many there are; False stops.

    Returns
    -------
    Frontier
        No point of it is as good as another in one thing and worse in the other; empty where no
        plan was found.

    Raises
    ------
    CheckError
        If a plan fails the independent checker: a defect of this program.
    ValueError
        If fewer than two plans are asked for.
    """
    if count < ENDS:
        raise ValueError("a frontier has two ends at least")
    pair = (first, against)
    search = _Search(scenario, choices(scenario), gap, time_limit_s, count, progress)
    ends = [_end(search, goals, pair) for goals in (pair, (against, first))]
    least, most = ends[1], ends[0]
    if least is not None and most is not None:
        start = least[0].chosen
        for limit in _limits(least[1].values[1], most[1].values[1], count):
            found = search.find(pair, {against: limit}, start)
            if found is not None:
                search.keep(found, pair, pair)
    complete = search.complete and not search.stopped and None not in ends
    return Frontier(pair, tuple(best(search.points)), complete)


def _end(
    search: _Search, goals: tuple[str, str], pair: tuple[str, str]
) -> tuple[Result, Point] | None:
    found = search.find(goals, {}, ())
    return None if found is None else (found, search.keep(found, goals, pair))


def _limits(least: float, most: float, count: int) -> Iterator[float]:
    """Yield limits between two values, the loosest first; none where there is nothing between."""
    if most - least <= SAME * max(1.0, abs(most)):
        return
    for number in range(count - 2, 0, -1):
        yield least + (most - least) * number / (count - 1)


def best(points: Sequence[Point]) -> list[Point]:
    """Keep the points that no other beats, least of the first thing first.

    Parameters
    ----------
    points : sequence of Point
        Any points.

    Returns
    -------
    list of Point
        Each is more of the first thing and less of the second than the one before.
    """
    kept: list[Point] = []
    for point in sorted(points, key=lambda p: p.values):
        if not kept or _less(point.values[1], kept[-1].values[1]):
            if kept and not _less(kept[-1].values[0], point.values[0]):
                kept.pop()
            kept.append(point)
    return kept


def _less(one: float, other: float) -> bool:
    return other - one > SAME * max(1.0, abs(other))
