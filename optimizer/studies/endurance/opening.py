"""An outage of unknown end: the first days so that most days stay open afterwards.

The first days of the plan for all the days that the store lasts leave the rest of those days open,
and no other first days leave more where that number is proven. Beside it stands the plan that the
household would make for these days alone, with the days that it leaves open.
"""

from dataclasses import dataclass

from optimizer.model.household import Scenario
from optimizer.model.plan import Plan
from optimizer.planning.kitchen import choices, kitchen_of
from optimizer.planning.schedule import schedule
from optimizer.studies.endurance.days import Lasting, checked_plan, how_long
from optimizer.studies.endurance.ends import first_short
from optimizer.studies.endurance.pool import Pool
from optimizer.studies.endurance.repeat import repeated, with_less
from optimizer.studies.endurance.watch import Watch


@dataclass(frozen=True, slots=True)
class First:
    """A plan for the first days, and the days that it leaves open."""

    plan: Plan
    open_days: int  # whole days after them, at least
    open_most: int  # and at most


@dataclass(frozen=True, slots=True)
class Opening:
    """The first days of an outage of unknown end."""

    days: int  # how many are the first
    sparing: First  # keeps most days open
    ordinary: First | None  # as the household's goals say; None: no such plan was found
    short: tuple[str, int] | None  # the ordinary plan repeated: fuel short first, and the day


def opening(scenario: Scenario, lasting: Lasting, *, watch: Watch, pool: Pool) -> Opening | None:
    """Plan the first days so that most days stay open.

    Parameters
    ----------
    scenario : Scenario
        The household; its own days are the first ones.
    lasting : Lasting
        How long its store lasts.
    watch : Watch
        How long to look.
    pool : Pool
        What is known already.

    Returns
    -------
    Opening or None
        None where not a day can be cooked.

    Raises
    ------
    LimitError
        If time ran out before it was known.
    CheckError
        If a plan fails the independent checker: a defect of this program.
    """
    if not lasting.days:
        return None
    days = min(scenario.days, lasting.days)
    first = repeated(scenario, days)
    mine = tuple(column for column in lasting.chosen if column.item < len(first.items))
    sparing = First(checked_plan(first, mine), lasting.days - days, lasting.most - days)
    if lasting.days <= scenario.days:
        return Opening(days, sparing, None, None)
    ordinary = _ordinary(scenario, watch, pool)
    if ordinary is None:
        return Opening(days, sparing, None, None)
    burnt = {use.name: use.used_mj for use in ordinary.fuels}
    after = how_long(
        with_less(scenario, burnt),
        most=lasting.looked_at - days,
        watch=watch,
        pool=pool,
    )
    open_days = min(after.days, sparing.open_most)
    told = First(ordinary, open_days, min(after.most, sparing.open_most))
    return Opening(days, sparing, told, first_short(ordinary, scenario))


def _ordinary(scenario: Scenario, watch: Watch, pool: Pool) -> Plan | None:
    """Return a checked plan by the household's own goals."""
    watch.going("the first days")
    found = schedule(
        choices(scenario, known=pool.ways(scenario)).columns,
        kitchen_of(scenario),
        goals=scenario.goals,
        gap=watch.gap,
        time_limit_s=max(0.1, min(watch.most_s, watch.left_s)),
        progress=lambda *_: watch.going(),
    )
    return checked_plan(scenario, found.chosen) if found.chosen else None
