"""Days that the store lasts: by the mix, an upper bound, and whole days with a checked plan.

Whole days are looked for from what the mix allows downwards. A schedule that is found and checked
is a proof that so many days can be had; where there is a proof that they cannot, the next smaller
number is looked at. What is neither is said to be not known, and the smaller number is told.
"""

import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from optimizer.errors import LimitError
from optimizer.model.household import Scenario
from optimizer.model.plan import Plan
from optimizer.planning.columns import Column, Kitchen
from optimizer.planning.days import kinds_of
from optimizer.planning.kitchen import Choices, kitchen_of
from optimizer.planning.ledger import audit, price_of
from optimizer.planning.planner import as_plan
from optimizer.planning.result import Result
from optimizer.planning.schedule import FEW, schedule
from optimizer.planning.share import Share, least_share
from optimizer.planning.verify import verify
from optimizer.studies.endurance.ends import End, ends_of
from optimizer.studies.endurance.pool import EVEN, Pool, Proof
from optimizer.studies.endurance.repeat import Rounds
from optimizer.studies.endurance.watch import Watch

MOST_DAYS = 60
ANY_GAP = 0.9  # any schedule will do
STEP = 10  # a tenth of the days is left out after a number that is not known

Fits = Callable[[int], bool]
ShareOf = Callable[[int], float | None]


@dataclass(frozen=True, slots=True)
class Lasting:
    """How long the store lasts, the reserve not touched."""

    days: int  # whole days, with a checked plan
    most: int  # more than this cannot be had; proven
    mix_days: float | None  # by the mix, never too few; None: no fuel is limited
    looked_at: int  # days; further was not looked
    prices: Mapping[str, float]  # share of the store for a joule of each fuel
    plan: Plan | None = None
    scenario: Scenario | None = field(default=None, repr=False)  # the menu repeated
    chosen: tuple[Column, ...] = field(default=(), repr=False)
    ends: tuple[End, ...] = ()
    stuck: tuple[str, ...] | None = None  # one more day fails for other things than fuel: dishes

    @property
    def beyond(self) -> bool:
        """Whether it lasts beyond what was looked at."""
        return self.days >= self.looked_at

    @property
    def proven(self) -> bool:
        """Whether one more day is known to be too much."""
        return not self.beyond and self.days == self.most


@dataclass(slots=True)
class _Search:
    """What all numbers of days share."""

    rounds: Rounds
    most: int
    watch: Watch
    pool: Pool
    shares: dict[int, Share] = field(default_factory=dict)

    def share(self, days: int) -> Share:
        """Return the least share of the store that so many days take."""
        if days not in self.shares:
            if self.watch.brief and self.watch.over:
                raise LimitError("the days were not counted in the time allowed")
            scenario, columns = self.rounds.of(days)
            kitchen = kitchen_of(scenario)
            if len({column.item for column in columns}) < len(scenario.items):
                self.shares[days] = Share(None, {})  # a dish has no way
            else:
                kinds = kinds_of(columns, kitchen)
                self.shares[days] = least_share(kinds, kitchen.stock_j)
        return self.shares[days]

    def fits(self, days: int) -> bool:
        """Tell whether the mix has so many days."""
        value = self.share(days).value
        return value is not None and value <= 1 + EVEN


def how_long(
    scenario: Scenario,
    *,
    most: int = MOST_DAYS,
    watch: Watch | None = None,
    pool: Pool | None = None,
    at_least: int = 0,
    about: int | None = None,
) -> Lasting:
    """Find how many days the store lasts on the menu repeated.

    Parameters
    ----------
    scenario : Scenario
        The household; its days are one round of the menu.
    most : int
        Days that are looked at, at most.
    watch : Watch, optional
        How long to look, and who is told.
    pool : Pool, optional
        What is known from other studies; what is found is added.
    at_least : int
        Days that are known to be had; fewer are not looked at, and for these no plan is given.
    about : int, optional
        A guess to begin with.

    Returns
    -------
    Lasting
        None of the fuels is used below its reserve.

    Raises
    ------
    LimitError
        If time ran out, or it was stopped, before any number of days was found.
    CheckError
        If a plan fails the independent checker: a defect of this program.
    """
    pool = pool or Pool()
    pool.at = {}
    search = _Search(Rounds(scenario, pool.ways(scenario)), most, watch or Watch(), pool)
    top = mix_top(search.fits, lambda days: search.share(days).value, about or scenario.days, most)
    prices = search.share(max(1, top)).prices
    stuck = _stuck(search, top)
    bare = Lasting(at_least, top, _mix_days(search, top), most, prices, stuck=stuck)
    days, proven = top, top
    while days > at_least:
        if not search.watch.going(f"{days} days"):
            raise LimitError("no number of days was found in the time allowed; allow more time")
        chosen, proof = _scheduled(search, days, bare.prices)
        if proof == "found":
            found = replace(bare, days=days, most=proven, chosen=chosen)
            return _told(search, found)
        known = proof == "none" and proven == days
        proven = days - 1 if known else proven
        days -= 1 if proof == "none" else max(1, days // STEP)
    return replace(bare, most=max(at_least, proven))


def _stuck(search: _Search, top: int) -> tuple[str, ...] | None:
    """Return dishes of the next day that have no way at all; None if it is fuel that it lacks."""
    if top == search.most or search.share(top + 1).value is not None:
        return None
    scenario, columns = search.rounds.of(top + 1)
    some = {column.item for column in columns}
    if len(some) == len(scenario.items):
        free = kinds_of(columns, kitchen_of(scenario))
        if least_share(free, {}).value is not None:
            return None  # there is none of a fuel
    return tuple(dict.fromkeys(i.dish.label for i in scenario.items if i.number not in some))


def mix_top(fits: Fits, share: ShareOf, first: int, most: int) -> int:
    """Return the largest number of days that the mix has, from 0 to `most`.

    Parameters
    ----------
    fits : callable
        Whether a number of days can be had by the mix; never again above one that cannot.
    share : callable
        The share of the store that a number of days takes.
    first : int
        Number of days to begin with.
    most : int
        Largest number that is looked at.
    """
    low, high, days = 0, most + 1, min(first, most)
    while high - low > 1:
        if fits(days):
            low = days
        else:
            high = days
        taken = share(days)
        guess = most if taken is not None and taken <= EVEN else int(days / (taken or 2.0) + EVEN)
        days = min(max(guess, low + 1), high - 1)
    return low


def _mix_days(search: _Search, top: int) -> float | None:
    """Return days by the mix, with a part of the next one."""
    taken = search.share(top).value if top else 0.0
    if taken is None:
        return float(top)
    if top == search.most:
        return None if taken <= EVEN else top / taken
    after = search.share(top + 1).value
    if after is None or after <= taken:
        return float(top)
    return top + max(0.0, (1 - taken) / (after - taken))


def _scheduled(
    search: _Search, days: int, prices: Mapping[str, float]
) -> tuple[tuple[Column, ...], Proof]:
    """Return a schedule of so many days, or whether it is proven that there is none."""
    scenario, columns = search.rounds.of(days)
    kitchen = kitchen_of(scenario)
    watch = search.watch.within(search.watch.most_s)
    chosen, proof = search.pool.days_of(columns, kitchen, prices, watch)
    if proof == "unknown" and len(columns) <= FEW and watch.going():
        chosen, proof = _whole(columns, kitchen, watch)
    search.watch.stopped |= watch.stopped
    return chosen, proof


def _whole(
    columns: Sequence[Column], kitchen: Kitchen, watch: Watch
) -> tuple[tuple[Column, ...], Proof]:
    """Search all days at once."""
    found = schedule(
        columns,
        kitchen,
        goals=("energy",),
        gap=ANY_GAP,
        time_limit_s=max(0.1, watch.left_s),
        progress=lambda *_: watch.going(),
    )
    none: Proof = "none" if found.status == "infeasible" else "unknown"
    return found.chosen, "found" if found.chosen else none


def _told(search: _Search, lasting: Lasting) -> Lasting:
    scenario, _ = search.rounds.of(lasting.days)
    plan = checked_plan(scenario, lasting.chosen)
    ends = ends_of(plan, scenario, lasting.prices)
    return replace(lasting, plan=plan, scenario=scenario, ends=ends)


def checked_plan(scenario: Scenario, chosen: tuple[Column, ...]) -> Plan:
    """Return what was chosen as a plan that the independent checker has passed.

    Parameters
    ----------
    scenario : Scenario
        The household.
    chosen : tuple of Column
        One way and start for each of its dishes.

    Returns
    -------
    Plan
        Nothing is proven of how good it is.

    Raises
    ------
    CheckError
        If it is wrong.
    """
    kitchen = kitchen_of(scenario)
    audit(chosen, kitchen)
    value = price_of(chosen, kitchen, scenario.goals[0])
    found = Result("within_gap", chosen, value, None, None, time.perf_counter(), ())
    plan = as_plan(scenario, Choices((), (), frozenset(), {}), kitchen, found)
    verify(plan, scenario)
    return plan
