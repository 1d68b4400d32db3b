"""What one big boil a day would save against boiling water for every use by itself: both solved."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from optimizer.errors import LimitError
from optimizer.model.household import DAY_MIN, Item, Scenario
from optimizer.model.plan import Plan
from optimizer.planning.kitchen import choices, pots_for
from optimizer.planning.planner import plans
from optimizer.planning.solver import Progress
from optimizer.scenario.boiling_once import boiled_once, waterlike
from optimizer.scenario.servings import Serving, item_of

FEWEST = 2  # uses that are worth a thought
MJ_EVEN, MONEY_EVEN = 0.05, 0.005


@dataclass(frozen=True, slots=True)
class Together:
    """The uses of one day that one boil would serve."""

    day: int
    meal: str  # the first of them
    at: int  # minute of that day
    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True)
class OneBoil:
    """Both plans; None where there was none in the time. Differences are what is saved."""

    days: tuple[Together, ...]
    apart: Plan | None
    at_once: Plan | None

    @property
    def known(self) -> bool:
        """Whether there are both plans."""
        return all(plan is not None and plan.steps for plan in (self.apart, self.at_once))

    @property
    def fuel_mj(self) -> float:
        """Fuel that one boil saves; negative: it takes more."""
        return self.apart.fuel_mj - self.at_once.fuel_mj if self.apart and self.at_once else 0.0

    @property
    def cost(self) -> float:
        """Money that one boil saves."""
        return self.apart.cost - self.at_once.cost if self.apart and self.at_once else 0.0

    @property
    def fire_minutes(self) -> float:
        """Minutes at the fire that one boil saves."""
        both = self.apart, self.at_once
        return both[0].fire_minutes - both[1].fire_minutes if both[0] and both[1] else 0.0

    @property
    def better(self) -> bool:
        """Whether it saves fuel, and costs no more."""
        return self.known and self.fuel_mj > MJ_EVEN and self.cost > -MONEY_EVEN


def together(scenario: Scenario) -> tuple[Together, ...]:
    """Return the days on which water is heated for several uses, each by itself.

    Of the uses of a day those come first that are first on the clock; so many of them as one pot
    of the household can serve, all hot enough, are taken together.

    Parameters
    ----------
    scenario : Scenario
        The household.
    """
    by_day: dict[int, list[Item]] = defaultdict(list)
    for item in scenario.items:
        if waterlike(item.dish) and not item.drawn:
            by_day[item.day].append(item)
    found = (_most(scenario, day, items) for day, items in by_day.items())
    return tuple(each for each in found if each is not None)


def _most(scenario: Scenario, day: int, items: Sequence[Item]) -> Together | None:
    """Return as many uses of a day as one boil can serve; None where it is not two."""
    for count in range(len(items), FEWEST - 1, -1):
        at = items[0].serve_min - (day - 1) * DAY_MIN
        found = Together(day, items[0].meal, at, tuple(items[:count]))
        boil = replace(next(_boils(scenario, [found])), number=0)
        alone = replace(scenario, items=(boil,))
        if pots_for(alone, boil) == 1 and choices(alone).columns:
            return found
    return None


def with_one_boil(scenario: Scenario, days: Sequence[Together]) -> Scenario:
    """Return the household with the uses of each day boiled at once.

    Parameters
    ----------
    scenario : Scenario
        The household.
    days : sequence of Together
        The uses of each day.
    """
    gone = {item.number for each in days for item in each.items}
    kept = [item for item in scenario.items if item.number not in gone]
    made = [*kept, *_boils(scenario, days)]
    ordered = sorted(made, key=lambda item: item.first_min)
    return replace(scenario, items=tuple(replace(item, number=n) for n, item in enumerate(ordered)))


def _boils(scenario: Scenario, days: Sequence[Together]) -> Iterator[Item]:
    for each in days:
        begins = (each.day - 1) * DAY_MIN
        times = [
            (
                item.serve_min - begins,
                Serving(item.dish, item.adults, item.children, item.helpings),
                None,
            )
            for item in each.items
        ]
        helping = boiled_once(times, scenario.rules)
        yield item_of(helping, each.day, each.meal, begins + each.at)


def one_boil(
    scenario: Scenario,
    *,
    gap: float = 0.01,
    time_limit_s: float = 30.0,
    progress: Progress | None = None,
) -> OneBoil | None:
    """Solve a household with its water boiled apart and at once.

    Parameters
    ----------
    scenario : Scenario
        The household.
    gap : float
        As for a plan.
    time_limit_s : float
        For each of the two [s]
    progress : callable, optional
        As for a plan; False stops.

    Returns
    -------
    OneBoil or None
        None where no day has two uses of hot water that one pot can serve.

    Raises
    ------
    CheckError
        If a plan fails the independent checker: a defect of this program.
    """
    days = together(scenario)
    if not days:
        return None
    households = scenario, with_one_boil(scenario, days)
    apart, at_once = (_planned(each, gap, time_limit_s, progress) for each in households)
    return OneBoil(days, apart, at_once)


def _planned(
    scenario: Scenario, gap: float, time_limit_s: float, progress: Progress | None
) -> Plan | None:
    """Return the schedule of a household, without what it is set beside."""
    growing = plans(
        scenario, gap=gap, time_limit_s=time_limit_s, progress=progress, wanted=lambda: False
    )
    try:
        return next(growing)
    except LimitError:
        return None
