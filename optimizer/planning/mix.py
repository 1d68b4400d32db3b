"""The mix: the linear program of which heat source and finish, by cooking window.

Every column of a dish that shares stove, pot, finish and window is one source; a dish may be split
between sources. Stove time counts in minutes a window, cookers and pots only in moments that all
members of a source need. So every schedule is also a mix that costs no more: the least cost of the
mix bounds that of the schedule, and where there is no mix there is no schedule.
"""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import pulp

from optimizer.planning.board import MJ, Pairs, of_column, of_fire, scale
from optimizer.planning.columns import Column, Kitchen
from optimizer.planning.otherwise import Otherwise
from optimizer.planning.rows import cliques
from optimizer.planning.solver import Outcome, Program, add_column, add_row, prices, set_goal, solve
from optimizer.planning.solver import value as value_of

TINY = 1e-9  # shares below this are a solver's rounding
Key = tuple[int, str, str, str, int]  # item, stove, pot, cooker or "", window


@dataclass(frozen=True, slots=True)
class Source:
    """One dish from one stove, pot and finish in one window: the least any member takes."""

    key: Key
    fuel: str
    fuel_j: float
    money: float
    tend_min: float
    minutes: Mapping[tuple[str, int], int]  # stove and window -> least minutes on it
    cores: Mapping[str, tuple[int, int]]  # resource -> span that every member needs


@dataclass(frozen=True, slots=True)
class Mix:
    """The cheapest mix: None and empty where there is none."""

    outcome: Outcome
    value: float | None  # money, J or minutes
    shares: Mapping[Key, float]
    prices: Mapping[str, float]  # by row, in units of the goal; a stock's are per J


def sources_of(columns: Sequence[Column]) -> tuple[Source, ...]:
    """Return the sources that a set of columns makes."""
    members: dict[Key, list[Column]] = defaultdict(list)
    for column in columns:
        members[_key(column)].append(column)
    return tuple(_source(key, group) for key, group in members.items())


def _key(column: Column) -> Key:
    held = {kind: name for kind, _, name in (u.resource.partition(":") for u in column.uses)}
    return (
        column.item,
        column.stove,
        held.get("pot", ""),
        held.get("cooker", ""),
        column.burns[0].window,
    )


def _source(key: Key, group: Sequence[Column]) -> Source:
    return Source(
        key=key,
        fuel=group[0].fuel,
        fuel_j=min(column.fuel_j for column in group),
        money=min(column.money for column in group),
        tend_min=min(column.tend_min for column in group),
        minutes=_least_minutes(group),
        cores=_cores(group),
    )


def _least_minutes(group: Sequence[Column]) -> dict[tuple[str, int], int]:
    """Return minutes on every fire that no member can do without."""
    totals = []
    for column in group:
        total: dict[tuple[str, int], int] = defaultdict(int)
        for burn in column.burns:
            total[burn.stove, burn.window] += burn.end - burn.start
        totals.append(total)
    shared = set(totals[0]).intersection(*totals[1:])
    return {fire: min(total[fire] for total in totals) for fire in shared}


def _cores(group: Sequence[Column]) -> dict[str, tuple[int, int]]:
    """Return for every pot and cooker the span in which all members hold it."""
    cores: dict[str, tuple[int, int]] = {}
    for resource in {u.resource for column in group for u in column.uses}:
        if resource.startswith(("pot:", "cooker:")):
            spans = [[u for u in column.uses if u.resource == resource] for column in group]
            if all(len(held) == 1 for held in spans):
                start = max(held[0].start for held in spans)
                end = min(held[0].end for held in spans)
                if start < end:
                    cores[resource] = (start, end)
    return cores


@dataclass(frozen=True, slots=True)
class Laid:
    """The columns of a mix in a program: shares of the sources, and fires lit."""

    kitchen: Kitchen
    sources: Sequence[Source]
    cook: Sequence[pulp.LpVariable]
    lit: Mapping[tuple[str, int], pulp.LpVariable]

    def of(self, goal: str) -> Pairs:
        """Return what one of each column counts towards a goal: money, minutes, or MJ."""
        pairs = [(y, of_column(s, goal)) for s, y in zip(self.sources, self.cook, strict=True)]
        pairs += [
            (fire, of_fire(self.kitchen.lightings[stove], goal)[0])
            for (stove, _), fire in self.lit.items()
        ]
        return [(column, factor) for column, factor in pairs if factor]


def lay_out(
    program: Program,
    columns: Sequence[Column],
    kitchen: Kitchen,
    otherwise: Otherwise | None = None,
) -> Laid:
    """Add the columns of a mix and all its rows but those of the store.

    Parameters
    ----------
    program : Program
        Gets them; the dishes and windows must be others than those that are in it.
    columns : sequence of Column
        All that may be cooked.
    kitchen : Kitchen
        What the dishes share.
    otherwise : Otherwise, optional
        What may be had beside it.

    Returns
    -------
    Laid
        The columns of the program.
    """
    other = otherwise or Otherwise()
    sources = sources_of(columns)
    cook = [
        add_column(program, "cook" + str(list(s.key)), high=kitchen.pots_of(s.key[0]))
        for s in sources
    ]
    lit = {
        (stove, window): add_column(program, f"lit[{stove},{window}]", high=1)
        for stove, window in dict.fromkeys(f for s in sources for f in s.minutes)
        if stove in kitchen.lightings
    }
    _everyone_eats(program, kitchen, sources, cook, other)
    _stove_has_time(program, kitchen, sources, cook, lit, other)
    _room_at_each_moment(program, kitchen, sources, cook, other)
    _things_are_there(program, kitchen, sources, cook, other)
    return Laid(kitchen, sources, cook, lit)


def mix(columns: Sequence[Column], kitchen: Kitchen, *, goal: str) -> Mix:
    """Find the cheapest mix of sources.

    Parameters
    ----------
    columns : sequence of Column
        All that may be cooked.
    kitchen : Kitchen
        What the dishes share.
    goal : str
        "money", "energy", "tending" or a fuel's name.

    Returns
    -------
    Mix
        Shares by source and prices by row.

    Raises
    ------
    CheckError
        If the solver misreports.
    """
    program = Program()
    laid = lay_out(program, columns, kitchen)
    for fuel, stock_j in kitchen.stock_j.items():
        add_row(program, f"stock_is_enough[{fuel}]", laid.of(fuel), "<=", stock_j / MJ)
    set_goal(program, laid.of(goal))
    outcome = solve(program)
    if not outcome.solved:
        return Mix(outcome, None, {}, {})
    shares = {s.key: value_of(y) for s, y in zip(laid.sources, laid.cook, strict=True)}
    return Mix(
        outcome,
        (outcome.objective or 0.0) * scale(goal),
        {key: share for key, share in shares.items() if share > TINY},
        _priced(prices(program), scale(goal)),
    )


def _priced(by_row: Mapping[str, float], unit: float) -> dict[str, float]:
    return {
        name: price * unit / (MJ if name.startswith("stock_is_enough") else 1.0)
        for name, price in by_row.items()
    }


Sources = Sequence[Source]
Cook = Sequence[pulp.LpVariable]
Lit = Mapping[tuple[str, int], pulp.LpVariable]


def _everyone_eats(
    program: Program, kitchen: Kitchen, sources: Sources, cook: Cook, other: Otherwise
) -> None:
    ways: dict[int, Pairs] = {item: [*other.instead.get(item, ())] for item in kitchen.items}
    for source, y in zip(sources, cook, strict=True):
        ways[source.key[0]].append((y, 1))
    for item, pairs in ways.items():
        add_row(program, f"everyone_eats[{item}]", pairs, "==", kitchen.pots_of(item))


def _stove_has_time(
    program: Program, kitchen: Kitchen, sources: Sources, cook: Cook, lit: Lit, other: Otherwise
) -> None:
    """Minutes of a window on each stove; a fed fire has to be lit, for each dish and for all."""
    used: dict[tuple[str, int], Pairs] = defaultdict(list)
    dishes: dict[tuple[str, int, int], Pairs] = defaultdict(list)
    for source, y in zip(sources, cook, strict=True):
        for fire, minutes in source.minutes.items():
            used[fire].append((y, minutes))
            if fire in lit:
                dishes[*fire, source.key[0]].append((y, 1))
    for (stove, window), pairs in used.items():
        hours, resource = kitchen.windows[window], f"stove:{stove}"
        minutes, there = hours.end_min - hours.start_min, kitchen.capacity[resource]
        name = f"stove_has_time[{stove},{window}]"
        if (stove, window) in lit:
            most = minutes * other.most.get(resource, there)
            add_row(program, name, [*pairs, (lit[stove, window], -most)], "<=", 0)
            name = f"stove_is_there[{stove},{window}]"
        if (stove, window) not in lit or resource in other.more:
            row = [*pairs, *other.room(resource, minutes)]
            add_row(program, name, row, "<=", minutes * there)
    for (stove, window, item), pairs in dishes.items():
        name = f"dish_needs_the_fire[{stove},{window},{item}]"
        row = [*pairs, (lit[stove, window], -kitchen.pots_of(item))]
        add_row(program, name, row, "<=", 0)


def _things_are_there(
    program: Program, kitchen: Kitchen, sources: Sources, cook: Cook, other: Otherwise
) -> None:
    """Let no dish use what is not there, unless one more of it is."""
    using: dict[tuple[str, int], Pairs] = defaultdict(list)
    for source, y in zip(sources, cook, strict=True):
        item, stove, pot, cooker, _ = source.key
        for resource in (f"stove:{stove}", f"pot:{pot}", f"cooker:{cooker}"):
            if resource in other.more and not kitchen.capacity[resource]:
                using[resource, item].append((y, 1))
    for (resource, item), pairs in using.items():
        row = [*pairs, *other.room(resource, kitchen.pots_of(item))]
        add_row(program, f"dish_needs_the_thing[{resource},{item}]", row, "<=", 0)


def _room_at_each_moment(
    program: Program, kitchen: Kitchen, sources: Sources, cook: Cook, other: Otherwise
) -> None:
    held: dict[str, list[tuple[int, int, int]]] = defaultdict(list)
    for number, source in enumerate(sources):
        for resource, (start, end) in source.cores.items():
            held[resource].append((start, end, number))
    for resource, spans in held.items():
        room = kitchen.capacity[resource]
        for minute, together in cliques(spans):
            dishes = {sources[number].key[0] for number in together}
            if sum(kitchen.pots_of(item) for item in dishes) > room:
                pairs = [*((cook[number], 1.0) for number in together), *other.room(resource, 1)]
                add_row(program, f"one_at_a_time[{resource},{minute}]", pairs, "<=", room)
