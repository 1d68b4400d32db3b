"""An outage of unknown end: the first days so that most days stay open afterwards.

Two plans are candidates: the one that takes the least share of the store at the prices of its
endurance, and the first days of the plan for all the days that the store lasts. The second leaves
the rest of those days open, and nothing leaves more where that number is proven; the first is taken
where it leaves as many. Beside it stands the plan that the household would make for these days
alone, with the days that it leaves open.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from optimizer.model.household import Scenario
from optimizer.model.plan import Plan
from optimizer.planning.columns import Column
from optimizer.planning.kitchen import choices, kitchen_of
from optimizer.planning.schedule import schedule
from optimizer.planning.stock import joules_per_kg, price_j
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
    open_mix: float | None = None  # by the mix, never too few; None: not known or no limit


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
    part = _part_of(lasting, scenario, days)
    if lasting.days <= scenario.days:
        return Opening(days, part, None, None)
    look = _Look(scenario, lasting, watch, pool)
    sparing, ordinary = look.first(_at_prices(scenario, lasting)), look.first(scenario)
    best = sparing if sparing is not None and sparing.open_days >= part.open_days else part
    short = first_short(ordinary.plan, scenario) if ordinary else None
    return Opening(days, best, ordinary, short)


def _part_of(lasting: Lasting, scenario: Scenario, days: int) -> First:
    """Return the first days of the plan for all days."""
    first = repeated(scenario, days)
    mine = tuple(column for column in lasting.chosen if column.item < len(first.items))
    return First(checked_plan(first, mine), lasting.days - days, lasting.most - days)


def _at_prices(scenario: Scenario, lasting: Lasting) -> Scenario:
    """Return a household to which fuel costs its share of the endurance of the store."""
    if not lasting.prices:
        return replace(scenario, goals=("energy",))
    stores = (
        replace(
            store,
            price_kg=lasting.prices.get(store.fuel.name, 0.0) * (joules_per_kg(store.fuel) or 0.0),
            price_j=lasting.prices.get(store.fuel.name, 0.0),
        )
        for store in scenario.stores
    )
    return replace(scenario, stores=tuple(stores), goals=("money", "energy"))


@dataclass(frozen=True, slots=True)
class _Look:
    """What both plans for the first days share."""

    scenario: Scenario
    lasting: Lasting
    watch: Watch
    pool: Pool

    def first(self, aim: Scenario) -> First | None:
        """Plan the first days by some goals and prices, and look what they leave open."""
        plan = self._plan(aim)
        if plan is None:
            return None
        rest = with_less(self.scenario, {use.name: use.used_mj for use in plan.fuels})
        left = self.lasting.looked_at - self.scenario.days
        after = how_long(rest, most=left, watch=self.watch, pool=self.pool)
        most = self.lasting.most - self.scenario.days
        return First(plan, min(after.days, most), min(after.most, most), after.mix_days)

    def _plan(self, aim: Scenario) -> Plan | None:
        """Return a checked plan, with the money that it really costs."""
        watch = self.watch
        watch.going("the first days")
        known = self.pool.ways(aim)
        found = schedule(
            choices(aim, known=known).columns,
            kitchen_of(aim),
            goals=aim.goals,
            gap=watch.gap,
            time_limit_s=max(0.1, min(watch.most_s, watch.left_s)),
            progress=lambda *_: watch.going(),
        )
        if not found.chosen:
            return None
        price = {store.fuel.name: price_j(store) for store in self.scenario.stores}
        bought = tuple(_bought(column, price) for column in found.chosen)
        return checked_plan(self.scenario, bought)


def _bought(column: Column, price: Mapping[str, float]) -> Column:
    return replace(column, money=price[column.fuel] * column.fuel_j)
