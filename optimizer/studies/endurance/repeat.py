"""A menu repeated for as many days as are asked for, and a store with less in it."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from optimizer.model.household import DAY_MIN, Scenario, Store, Window
from optimizer.planning.columns import Column
from optimizer.planning.kitchen import Known, choices
from optimizer.planning.stock import joules_per_kg

MJ = 1e6


def repeated(scenario: Scenario, days: int) -> Scenario:
    """Return a household whose menu, cook hours and weather go round.

    Parameters
    ----------
    scenario : Scenario
        The household; its days are one round.
    days : int
        As many as are wanted, more or fewer than a round.

    Returns
    -------
    Scenario
        Its first dishes are those of a shorter one, with the same numbers. Fresh food comes and
        keeps in every round as in the first.
    """
    windows, items = [], []
    for day in range(days):
        like = day % scenario.days + 1
        shift = (day + 1 - like) * DAY_MIN
        windows += [
            Window(w.start_min + shift, w.end_min + shift)
            for w in scenario.windows
            if w.day == like
        ]
        items += [
            replace(item, day=day + 1, serve_min=item.serve_min + shift)
            for item in scenario.items
            if item.day == like
        ]
    weather = tuple(scenario.weather[day % scenario.days] for day in range(days))
    numbered = tuple(replace(item, number=number) for number, item in enumerate(items))
    longer = replace(scenario, days=days, windows=tuple(windows), items=numbered, weather=weather)
    return _fresh_again(longer, scenario.days)


def _fresh_again(scenario: Scenario, round_days: int) -> Scenario:
    """Return a household in which fresh food comes and is kept in every round as in the first."""
    shifts = range(0, scenario.days * DAY_MIN, round_days * DAY_MIN)
    cold = [
        replace(each, start_min=each.start_min + shift, end_min=each.end_min + shift)
        for shift in shifts
        for each in scenario.cold
    ]
    fresh = tuple(minute + shift for shift in shifts for minute in scenario.fresh)
    return replace(scenario, cold=tuple(cold), fresh=fresh)


def with_less(scenario: Scenario, taken_mj: Mapping[str, float]) -> Scenario:
    """Return a household with only that in the store which may still be used.

    Parameters
    ----------
    scenario : Scenario
        The household.
    taken_mj : mapping of str to float
        What is taken of each fuel, burned or held back [MJ]

    Returns
    -------
    Scenario
        Its reserves are taken out of the stocks as well.
    """
    stores = (_less(store, taken_mj.get(store.fuel.name, 0.0) * MJ) for store in scenario.stores)
    return replace(scenario, stores=tuple(stores))


def _less(store: Store, taken_j: float) -> Store:
    heat, kept = joules_per_kg(store.fuel), 1 - store.reserve
    if store.stock_kg is not None and heat is not None:
        return replace(
            store, stock_kg=max(0.0, store.stock_kg * kept - taken_j / heat), reserve=0.0
        )
    if store.stock_j is not None:
        return replace(store, stock_j=max(0.0, store.stock_j * kept - taken_j), reserve=0.0)
    return store


@dataclass(slots=True)
class Rounds:
    """A menu that goes round, and its columns as far as they were needed."""

    scenario: Scenario
    known: Known = field(default_factory=dict)
    longest: int = 0
    columns: tuple[Column, ...] = ()

    def of(self, days: int) -> tuple[Scenario, tuple[Column, ...]]:
        """Return the household of so many days, and its columns."""
        asked = repeated(self.scenario, days)
        if days > self.longest:
            self.longest = days + 1  # the next one is often asked for too
            longer = repeated(self.scenario, self.longest)
            self.columns = choices(longer, known=self.known).columns
        count = len(asked.items)
        return asked, tuple(column for column in self.columns if column.item < count)
