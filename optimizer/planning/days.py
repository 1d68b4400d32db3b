"""A long schedule taken apart: blocks of dishes that share nothing but fuel, and kinds of blocks.

Dishes whose pots are never on at the same time share no stove, pot, cooker or cook; only the store
ties them together. Mostly a block is a day. Blocks that differ in nothing but the date are of one
kind and are worked out once.
"""

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace

from optimizer.model.household import DAY_MIN
from optimizer.planning.columns import Column, Kitchen
from optimizer.planning.ledger import tally

Block = tuple[Column, ...]


@dataclass(frozen=True, slots=True)
class DayPlan:
    """One whole plan of one kind of block: positions among its columns, and what it takes."""

    picks: tuple[int, ...]
    value: float  # of the goal, in its own unit
    fuel_j: tuple[tuple[str, float], ...]


@dataclass(slots=True)
class Kind:
    """Blocks that are alike; the first of them stands for all."""

    blocks: tuple[Block, ...]  # columns in the same order in each
    kitchen: Kitchen  # of the first block, without stocks
    plans: list[DayPlan] = field(default_factory=list)

    @property
    def columns(self) -> Block:
        """Columns of the block that stands for all."""
        return self.blocks[0]

    @property
    def count(self) -> int:
        """How many blocks are of this kind."""
        return len(self.blocks)

    def add(self, chosen: Iterable[Column], goal: str) -> DayPlan:
        """Keep a plan of the first block, once."""
        return self.add_at(0, chosen, goal)

    def add_at(self, block: int, chosen: Iterable[Column], goal: str) -> DayPlan:
        """Keep what was chosen in a block as a plan of its kind, once."""
        places = {id(column): place for place, column in enumerate(self.blocks[block])}
        picks = tuple(sorted(places[id(c)] for c in chosen if id(c) in places))
        return self.keep(self.plan_of(picks, goal))

    def plan_of(self, picks: tuple[int, ...], goal: str) -> DayPlan:
        """Return what the columns at some positions come to together."""
        mine = tuple(self.columns[pick] for pick in picks)
        taken = tally(mine, self.kitchen)
        return DayPlan(picks, taken.of(goal), tuple(sorted(taken.fuel_j.items())))

    def keep(self, plan: DayPlan) -> DayPlan:
        """Keep a plan, once."""
        for known in self.plans:
            if known.picks == plan.picks:
                return known
        self.plans.append(plan)
        return plan

    def chosen(self, columns: Iterable[Column]) -> list[DayPlan]:
        """Return the plans known that make up a choice of columns."""
        owners = Counter(id(column) for column in columns)
        picked = {
            tuple(n for n, column in enumerate(block) for _ in range(owners[id(column)]))
            for block in self.blocks
        }
        return [plan for plan in self.plans if plan.picks in picked]


def blocks_of(columns: Sequence[Column]) -> tuple[Block, ...]:
    """Part columns into blocks, in order of time.

    Parameters
    ----------
    columns : sequence of Column
        All that may be chosen.

    Returns
    -------
    tuple of tuple of Column
        Columns of two blocks hold nothing at the same time, and light no fire in one window.
    """
    spans: dict[int, list[int]] = {}
    mine: dict[int, list[Column]] = defaultdict(list)
    for column in columns:
        mine[column.item].append(column)
        span = spans.setdefault(column.item, [min(u.start for u in column.uses), 0])
        span[0] = min(span[0], *(use.start for use in column.uses))
        span[1] = max(span[1], *(use.end for use in column.uses))
    groups: list[list[int]] = []
    until, windows = -1, set[int]()
    for item in sorted(spans, key=lambda item: spans[item][0]):
        lit = {burn.window for column in mine[item] for burn in column.burns}
        if spans[item][0] >= until and not lit & windows:
            groups.append([])
        groups[-1].append(item)
        until, windows = max(until, spans[item][1]), windows | lit
    return tuple(tuple(c for item in sorted(group) for c in mine[item]) for group in groups)


def kinds_of(columns: Sequence[Column], kitchen: Kitchen) -> tuple[Kind, ...]:
    """Part columns into blocks and gather those that are alike.

    Returns
    -------
    tuple of Kind
        In order of their first blocks.
    """
    rough: dict[object, list[Block]] = defaultdict(list)
    for block in blocks_of(columns):
        rough[len(block), sum(column.fuel_j for column in block)].append(block)
    alike: dict[object, list[Block]] = defaultdict(list)
    for first, group in rough.items():
        for block in group:
            alike[first if len(group) == 1 else shape(block, kitchen)].append(block)
    return tuple(_kind(tuple(group), kitchen) for group in alike.values())


def _kind(blocks: tuple[Block, ...], kitchen: Kitchen) -> Kind:
    items = tuple(dict.fromkeys(column.item for column in blocks[0]))
    return Kind(blocks, replace(kitchen, items=items, stock_j={}))


def shape(block: Block, kitchen: Kitchen) -> object:
    """Return all that a block's columns say, with times from the midnight before it."""
    midnight = min(u.start for c in block for u in c.uses) // DAY_MIN * DAY_MIN
    items = {item: rank for rank, item in enumerate(dict.fromkeys(c.item for c in block))}
    lit = sorted({burn.window for column in block for burn in column.burns})
    windows = {w: rank for rank, w in enumerate(lit)}
    hours = tuple(
        (kitchen.windows[w].start_min - midnight, kitchen.windows[w].end_min - midnight)
        for w in lit
    )
    batches = tuple(kitchen.pots_of(item) for item in items)
    told = tuple(
        (
            items[c.item],
            c.stove,
            tuple((windows[b.window], b.start - midnight, b.end - midnight) for b in c.burns),
            tuple((u.resource, u.start - midnight, u.end - midnight) for u in c.uses),
            (c.fuel, c.fuel_j, c.money, c.tend_min),
        )
        for c in block
    )
    return hours, batches, told


def spread(kind: Kind, plans: Sequence[DayPlan]) -> tuple[Column, ...]:
    """Return the columns of plans given to the blocks of a kind, one each, in order."""
    return tuple(
        block[pick] for block, plan in zip(kind.blocks, plans, strict=True) for pick in plan.picks
    )
