"""Schedules of several days in round numbers, and every combination of them counted."""

import itertools
import random
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

import pytest

from optimizer.errors import CheckError
from optimizer.model.household import DAY_MIN, Window
from optimizer.planning import branching, closing, levels
from optimizer.planning import schedule as module
from optimizer.planning.columns import Burn, Column, Kitchen, Use
from optimizer.planning.ledger import audit, fuel_of, price_of

GOALS = ("money", "energy", "sticks")
FUELS = ("sticks", "butane")
Totals = tuple[float, float, float]  # of the goal, and of each fuel [J]


def moved(column: Column, item: int, day: int) -> Column:
    """Return a column of the first day as one of another dish on another day."""
    late = DAY_MIN * day
    return replace(
        column,
        item=item,
        burns=tuple(
            Burn(b.stove, b.window + 2 * day, b.start + late, b.end + late) for b in column.burns
        ),
        uses=tuple(Use(u.resource, u.start + late, u.end + late) for u in column.uses),
    )


@dataclass(frozen=True)
class Case:
    """Some days, and which dishes belong together."""

    columns: tuple[Column, ...]
    room: Kitchen
    groups: tuple[tuple[int, ...], ...]  # dishes of the days that hang together

    def dishes(self, group: Sequence[int]) -> list[list[Column]]:
        """Return the columns of every dish of a group."""
        return [[c for c in self.columns if c.item == item] for item in group]

    def plans(self, number: int) -> Iterator[tuple[Column, ...]]:
        """Yield every plan of a group that uses nothing twice, without a stock."""
        group = self.groups[number]
        alone = replace(self.room, items=tuple(group), stock_j={})
        ways = [
            itertools.combinations_with_replacement(columns, self.room.pots_of(item))
            for item, columns in zip(group, self.dishes(group), strict=True)
        ]
        for each in itertools.product(*ways):
            chosen = tuple(itertools.chain(*each))
            try:
                audit(chosen, alone)
            except CheckError:
                continue
            yield chosen

    def totals(self, number: int, goal: str) -> list[Totals]:
        """Return what the plans of a group come to, less those that others beat in all."""
        found = {self.total(chosen, goal) for chosen in self.plans(number)}
        return undominated(found)

    def total(self, chosen: Sequence[Column], goal: str) -> Totals:
        """Return what a choice comes to."""
        used = fuel_of(chosen, self.room)
        sticks, butane = (used.get(fuel, 0.0) for fuel in FUELS)
        return price_of(chosen, self.room, goal), sticks, butane

    def best(self, goal: str) -> float | None:
        """Return the least of a goal over every combination within the stock."""
        sums: list[Totals] = [(0.0, 0.0, 0.0)]
        most = [self.room.stock_j.get(fuel, 1e15) * (1 + 1e-9) for fuel in FUELS]
        for number in range(len(self.groups)):
            mine = self.totals(number, goal)
            both = {add(a, b) for a in sums for b in mine}
            sums = undominated(t for t in both if t[1] <= most[0] and t[2] <= most[1])
        return min((t[0] for t in sums), default=None)


def add(a: Totals, b: Totals) -> Totals:
    """Return two totals together."""
    return a[0] + b[0], a[1] + b[1], a[2] + b[2]


def undominated(found: Iterator[Totals] | set[Totals]) -> list[Totals]:
    """Leave out what another is no worse than in everything."""
    kept: list[Totals] = []
    for each in sorted(found):
        if not any(all(a <= b for a, b in zip(k, each, strict=True)) for k in kept):
            kept.append(each)
    return kept


@pytest.fixture(name="days_of", scope="session")
def _days_of(kitchen) -> Callable[..., Case]:
    """Days of the columns given for each, and a kitchen that holds for all of them."""

    def make(
        days: Sequence[Sequence[Column]],
        *,
        stock_j: dict[str, float] | None = None,
        batches: dict[int, int] | None = None,
        room: Kitchen | None = None,
    ) -> Case:
        columns: list[Column] = []
        groups: list[tuple[int, ...]] = []
        first = 0
        for day, mine in enumerate(days):
            ranks = {item: first + n for n, item in enumerate(sorted({c.item for c in mine}))}
            columns += [moved(c, ranks[c.item], day) for c in mine]
            overnight = any(c.uses[0].start < 0 for c in mine)
            new = tuple(ranks.values())
            groups = [*groups[:-1], groups[-1] + new] if overnight else [*groups, new]
            first += len(ranks)
        base = room or kitchen()
        hours = tuple(
            Window(w.start_min + DAY_MIN * day, w.end_min + DAY_MIN * day)
            for day in range(len(days))
            for w in base.windows
        )
        made = replace(
            base,
            items=tuple(range(first)),
            windows=hours,
            stock_j=stock_j or {},
            batches=batches or {},
        )
        return Case(tuple(columns), made, tuple(groups))

    return make


@pytest.fixture(name="random_days", scope="session")
def _random_days(cook, random_case, days_of) -> Callable[[int], Case]:
    """Draw three to five days of two kinds; tight stocks, and now and then batches or beans."""

    def kind(seed: int, dishes: int, most: int) -> list[Column]:
        columns, _ = random_case(seed)
        by_dish = [[c for c in columns if c.item == item][:most] for item in range(dishes)]
        rescue = [cook(n, "gas", 400 + 25 * n, 25, fuel_mj=3.0, money=0.5) for n in range(dishes)]
        return [c for mine, last in zip(by_dish, rescue, strict=True) for c in [*mine, last]]

    def make(seed: int) -> Case:
        chance = random.Random(1000 + seed)
        _, base = random_case(seed)
        kinds = [
            kind(2 * seed + n, chance.choice((2, 2, 3)), 2 if seed % 4 == 1 else 4)
            for n in range(2)
        ]
        days = [list(chance.choice(kinds)) for _ in range(chance.choice((3, 4, 5)))]
        if seed % 4 == 1:
            evening = cook(0, "stick", 1060, 20, fuel_mj=0.8, money=0.06, cooker="cooker:box")
            eve = moved(evening, 0, -1)
            held = tuple(replace(u, end=430) for u in eve.uses if u.resource != "stove:stick")
            stove = tuple(u for u in eve.uses if u.resource == "stove:stick")
            eve = replace(eve, uses=(*held, *stove))
            days[-1] = [eve, *days[-1]]
        batches = {0: 2} if seed % 4 == 2 else {}
        made = days_of(days, room=base, batches=batches)
        return replace(made, room=replace(made.room, stock_j=tight(made, chance)))

    return make


def tight(case: Case, chance: random.Random) -> dict[str, float]:
    """Return a stock of one or two fuels between the least and what the cheapest plans take."""
    least, usual = [0.0, 0.0], [0.0, 0.0]
    for number in range(len(case.groups)):
        mine = case.totals(number, "money")
        if not mine:
            continue
        for n in range(2):
            least[n] += min(t[n + 1] for t in mine)
            usual[n] += min(mine)[n + 1]
    shares = [chance.uniform(0.2, 1.0) for _ in FUELS]
    stock = {
        fuel: least[n] + shares[n] * (max(usual[n], least[n]) - least[n]) + 1e5
        for n, fuel in enumerate(FUELS)
    }
    return stock if chance.random() < 0.4 else {"sticks": stock["sticks"]}


@pytest.fixture(name="two_levels")
def _two_levels(monkeypatch) -> None:
    """Let every schedule be searched in two levels, and what is left by cases."""
    monkeypatch.setattr(module, "FEW", 0)
    monkeypatch.setattr(module, "FEW_DAYS", 1)
    monkeypatch.setattr(closing, "MOST", 0)
    monkeypatch.setattr(levels, "THREADS", 1)
    monkeypatch.setattr(branching, "THREADS", 1)


@pytest.fixture(name="closed")
def _closed(two_levels, monkeypatch) -> None:
    """Let what two levels leave be closed by one program."""
    monkeypatch.setattr(closing, "MOST", 10**9)


@pytest.fixture(name="sifted")
def _sifted(monkeypatch) -> None:
    """Let every schedule be solved whole, over the columns that are left."""
    monkeypatch.setattr(module, "FEW", 10**9)
    monkeypatch.setattr(module, "MANY_TO_SIFT", 0)
