"""The program of classes: what no schedule can do better than.

Fires are followed from stretch to stretch of the cook hours: lit in a stretch, or kept up from the
one before, idle where nothing burns in between. Every schedule can be told in it at no greater
cost: a fire that is lit twice within a stretch counts as lit there, so nothing idle is asked of it.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

import pulp

from optimizer.planning.board import Pairs, of_column, of_fire
from optimizer.planning.classes import Class, Moments, Stretch
from optimizer.planning.columns import Kitchen, Lighting
from optimizer.planning.rows import cliques
from optimizer.planning.solver import Program, add_column, add_row

FireKey = tuple[str, int]  # stove and window


@dataclass(frozen=True, slots=True)
class Flow:
    """One stove's fires in one window, stretch by stretch."""

    lighting: Lighting
    lit: pulp.LpVariable  # whether it burns at all
    alive: tuple[pulp.LpVariable, ...]  # fires in a stretch, at most at a time
    starts: tuple[pulp.LpVariable, ...]  # lit in it
    kept: tuple[pulp.LpVariable, ...]  # burning on from it into the next
    idle: tuple[pulp.LpVariable, ...]  # minutes without a pot


@dataclass(slots=True)
class Relaxed:
    """A program of classes and what its columns mean."""

    classes: Sequence[Class]
    kitchen: Kitchen
    moments: Moments
    program: Program = field(default_factory=Program)
    cook: list[pulp.LpVariable] = field(default_factory=list)
    flows: dict[FireKey, Flow] = field(default_factory=dict)


def relax(classes: Sequence[Class], kitchen: Kitchen, moments: Moments) -> Relaxed:
    """Build the rows of classes, without stocks and without a goal.

    Parameters
    ----------
    classes : sequence of Class
        All that may be cooked.
    kitchen : Kitchen
        What they share; its stocks are left out.
    moments : tuple of tuple of int
        The cuts by which the classes were made.

    Returns
    -------
    Relaxed
        The program and its columns by meaning.
    """
    made = Relaxed(classes, kitchen, moments)
    for number, each in enumerate(classes):
        name = f"cook[{each.item},{each.stove},{number}]"
        most = kitchen.pots_of(each.item)
        made.cook.append(add_column(made.program, name, high=most, whole=True))
    _everyone_eats(made)
    _light_fires(made)
    _stoves_have_time(made)
    _one_at_a_time(made)
    return made


def _everyone_eats(made: Relaxed) -> None:
    ways: dict[int, Pairs] = {item: [] for item in made.kitchen.items}
    for each, y in zip(made.classes, made.cook, strict=True):
        ways[each.item].append((y, 1))
    for item, pairs in ways.items():
        name = f"everyone_eats[{item}]"
        add_row(made.program, name, pairs, "==", made.kitchen.pots_of(item))


def _light_fires(made: Relaxed) -> None:
    dishes: dict[FireKey, dict[int, Pairs]] = defaultdict(lambda: defaultdict(list))
    for each, y in zip(made.classes, made.cook, strict=True):
        for window in each.windows if each.stove in made.kitchen.lightings else ():
            dishes[each.stove, window][each.item].append((y, 1))
    for key, by_item in dishes.items():
        made.flows[key] = flow = _flow(made, *key)
        for item, pairs in by_item.items():
            name = f"dish_needs_the_fire[{key},{item}]"
            row = [*pairs, (flow.lit, -made.kitchen.pots_of(item))]
            add_row(made.program, name, row, "<=", 0)
    _burns_under_pots(made)


def _flow(made: Relaxed, stove: str, window: int) -> Flow:
    lighting, count = made.kitchen.lightings[stove], len(made.moments[window]) - 1
    most = -(-made.kitchen.capacity[f"stove:{stove}"] // lighting.places)

    def columns(word: str, count: int, high: int | None = most) -> tuple[pulp.LpVariable, ...]:
        names = (f"{word}[{stove},{window},{n}]" for n in range(count))
        return tuple(add_column(made.program, name, high=high) for name in names)

    flow = Flow(
        lighting=lighting,
        lit=add_column(made.program, f"lit[{stove},{window}]", high=1, whole=True),
        alive=columns("alive", count),
        starts=columns("starts", count),
        kept=columns("kept", count - 1),
        idle=columns("idle", count - 1, None),
    )
    _lit_or_kept_up(made, (stove, window), flow)
    _kept_between_pots(made, (stove, window), flow)
    return flow


def _lit_or_kept_up(made: Relaxed, key: FireKey, flow: Flow) -> None:
    once: Pairs = [(flow.lit, 1), *((start, -1) for start in flow.starts)]
    add_row(made.program, f"lit_once_or_more[{key}]", once, "<=", 0)
    before: Pairs = []
    for number, (alive, start) in enumerate(zip(flow.alive, flow.starts, strict=True)):
        name = f"lit_or_kept_up[{key},{number}]"
        add_row(made.program, name, [(alive, 1), (start, -1), *before], "<=", 0)
        before = [(kept, -1) for kept in flow.kept[number : number + 1]]
        for side in range(max(0, number - 1), min(number + 1, len(flow.kept))):
            name = f"kept_only_alive[{key},{number},{side}]"
            add_row(made.program, name, [(flow.kept[side], 1), (alive, -1)], "<=", 0)


def _kept_between_pots(made: Relaxed, key: FireKey, flow: Flow) -> None:
    """Count idle minutes: what is alive as a stretch ends was lit in it or burned all through."""
    stove, window = key
    pots: dict[Stretch, dict[pulp.LpVariable, float]] = defaultdict(lambda: defaultdict(float))
    for each, y in zip(made.classes, made.cook, strict=True):
        for stretch, minutes in each.most if each.stove == stove else ():
            pots[stretch][y] -= minutes / flow.lighting.places
    stretches = pairwise(made.moments[window])
    for number, ((start, end), idle) in enumerate(zip(stretches, flow.idle, strict=False)):
        long = end - start
        pairs = [(flow.kept[number], long), (flow.starts[number], -long), (idle, -1)]
        burnt = pots[window, start, end].items()
        name = f"fire_kept_between_pots[{key},{number}]"
        add_row(made.program, name, [*pairs, *burnt], "<=", 0)


def _burns_under_pots(made: Relaxed) -> None:
    """Ask for a fire where a dish is certain to burn: in a stretch, or across a moment."""
    under: dict[tuple[pulp.LpVariable, int], Pairs] = defaultdict(list)
    for each, y in zip(made.classes, made.cook, strict=True):
        for column in _fires_under(made, each):
            under[column, each.item].append((y, 1))
    for (column, item), pairs in under.items():
        name = f"pot_needs_the_fire[{column.name},{item}]"
        row = [*pairs, (column, -made.kitchen.pots_of(item))]
        add_row(made.program, name, row, "<=", 0)


def _fires_under(made: Relaxed, each: Class) -> Iterator[pulp.LpVariable]:
    for (window, start, _), _minutes in each.least:
        if (each.stove, window) in made.flows:
            number = made.moments[window].index(start)
            yield made.flows[each.stove, window].alive[number]
    for window, minute in each.across:
        if (each.stove, window) in made.flows:
            number = made.moments[window].index(minute)
            yield made.flows[each.stove, window].kept[number - 1]


def _stoves_have_time(made: Relaxed) -> None:
    """Count minutes of every stretch, on each stove and of the cooks."""
    used: dict[tuple[str, Stretch], Pairs] = defaultdict(list)
    single: dict[tuple[str, Stretch], bool] = defaultdict(lambda: True)
    for each, y in zip(made.classes, made.cook, strict=True):
        names = (f"stove:{each.stove}", "cook") if each.tended else (f"stove:{each.stove}",)
        for stretch, minutes in each.least:
            for name in names:
                used[name, stretch].append((y, minutes))
                single[name, stretch] &= len(each.members) == 1
    for (resource, stretch), pairs in used.items():
        if not single[resource, stretch]:  # single columns keep to every moment, see below
            _has_time(made, resource, stretch, pairs)


def _has_time(made: Relaxed, resource: str, stretch: Stretch, pairs: Pairs) -> None:
    window, start, end = stretch
    kind, _, stove = resource.partition(":")
    flow = made.flows.get((stove, window)) if kind == "stove" else None
    name, long = f"has_time[{resource},{window},{start}]", end - start
    if flow is not None:
        alive = flow.alive[made.moments[window].index(start)]
        row = [*pairs, (alive, -long * flow.lighting.places)]
        add_row(made.program, name, row, "<=", 0)
    else:
        add_row(made.program, name, pairs, "<=", long * made.kitchen.capacity[resource])


def _one_at_a_time(made: Relaxed) -> None:
    held: dict[str, list[tuple[int, int, int]]] = defaultdict(list)
    for number, each in enumerate(made.classes):
        for resource, start, end in each.cores:
            held[resource].append((start, end, number))
    for resource, spans in held.items():
        for minute, together in cliques(spans):
            _room(made, resource, minute, together)


def _room(made: Relaxed, resource: str, minute: int, together: Mapping[int, int]) -> None:
    capacity, name = made.kitchen.capacity[resource], f"one_at_a_time[{resource},{minute}]"
    pairs: Pairs = [(made.cook[n], float(times)) for n, times in together.items()]
    alive = _alive_at(made, resource, minute)
    if alive is not None:
        add_row(made.program, name, [*pairs, alive], "<=", 0)
        return
    items = {made.classes[n].item for n in together}
    needed = sum(made.kitchen.pots_of(item) for item in items)
    if needed > capacity or any(times > 1 for times in together.values()):
        add_row(made.program, name, pairs, "<=", capacity)


def _alive_at(made: Relaxed, resource: str, minute: int) -> tuple[pulp.LpVariable, float] | None:
    """Return the fires of a fed stove at a minute, and minus the pots over one."""
    kind, _, stove = resource.partition(":")
    if kind != "stove" or stove not in made.kitchen.lightings:
        return None
    for (name, window), flow in made.flows.items():
        moments = made.moments[window]
        if name == stove and moments[0] <= minute < moments[-1]:
            number = sum(moment <= minute for moment in moments) - 1
            return flow.alive[number], -float(flow.lighting.places)
    return None


def terms(made: Relaxed, goal: str) -> Pairs:
    """Columns of a goal and what one of each counts: money, minutes, or MJ."""
    pairs = [(y, of_column(c, goal)) for c, y in zip(made.classes, made.cook, strict=True)]
    for flow in made.flows.values():
        start, minute = of_fire(flow.lighting, goal)
        pairs += [(column, start) for column in flow.starts]
        pairs += [(column, minute) for column in flow.idle]
    return [(column, factor) for column, factor in pairs if factor]


def priced(made: Relaxed, goal: str, prices: Mapping[str, float]) -> Pairs:
    """Columns of a goal with every fuel at a price besides [goal's unit per MJ]."""
    total: dict[pulp.LpVariable, float] = dict(terms(made, goal))
    for fuel, price in prices.items():
        for column, factor in terms(made, fuel):
            total[column] = total.get(column, 0.0) + price * factor
    return list(total.items())
