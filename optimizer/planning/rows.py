"""The rows of a schedule's integer program, each named in plain words.

They are built so that the solver sees its cliques: one row for every dish and fire, one row for
every moment at which a thing may be wanted twice. The columns ``on[dish,stove]`` say nothing new;
they are there to be branched on.
"""

import math
from collections import Counter, defaultdict
from collections.abc import Collection, Iterable, Iterator, Sequence

import pulp

from optimizer.planning.board import MJ, Board, Fire, Pairs, scale, terms
from optimizer.planning.columns import Burn, Column, Kitchen
from optimizer.planning.solver import Program, add_column, add_row


def build(
    columns: Sequence[Column],
    kitchen: Kitchen,
    *,
    may_miss: bool = False,
    may_be_short: Collection[str] = (),
    tending: bool = False,
    branch: bool = True,
) -> Board:
    """Build the program of a schedule, without a goal.

    Parameters
    ----------
    columns : sequence of Column
        All that may be chosen.
    kitchen : Kitchen
        What they share.
    may_miss : bool
        Whether a dish may be left out (goal "missed" counts them).
    may_be_short : collection of str
        Fuels of which more may be burned than there is (goal "short" counts it).
    tending : bool
        Whether minutes of tending are a goal. Fires are kept up or lit again by fuel; such a goal
        needs rows that say so. Where several fires of one stove fit they are left out, and the
        bound is the weaker for it.
    branch : bool
        Whether to add the columns that say which stove a dish is on.

    Returns
    -------
    Board
        The program, and its columns by meaning.

    Raises
    ------
    KeyError
        If a column holds a resource that the kitchen has no count for.
    """
    board = Board(columns, kitchen)
    for number, column in enumerate(columns):
        name = f"cook[{column.item},{column.stove},{number}]"
        high = kitchen.pots_of(column.item)
        board.cook.append(add_column(board.program, name, high=high, whole=True))
    _everyone_eats(board, may_miss=may_miss)
    if branch:
        _dish_on_stove(board)
    _light_fires(board)
    if tending or "tending" in kitchen.limits:
        _fuel_decides(board)
    _one_at_a_time(board)
    _stock_is_enough(board, may_be_short)
    for goal, most in kitchen.limits.items():
        add_row(board.program, f"no_more[{goal}]", terms(board, goal), "<=", most / scale(goal))
    return board


def _everyone_eats(board: Board, *, may_miss: bool) -> None:
    ways: dict[int, Pairs] = {item: [] for item in board.kitchen.items}
    for column, y in zip(board.columns, board.cook, strict=True):
        ways[column.item].append((y, 1))
    for item, pairs in ways.items():
        pots = board.kitchen.pots_of(item)
        if may_miss:
            missed = add_column(board.program, f"missed[{item}]", high=1, whole=True)
            board.missed[item] = missed
            pairs.append((missed, pots))
        add_row(board.program, f"everyone_eats[{item}]", pairs, "==", pots)


def _dish_on_stove(board: Board) -> None:
    ways: dict[tuple[int, str], Pairs] = defaultdict(list)
    for column, y in zip(board.columns, board.cook, strict=True):
        ways[column.item, column.stove].append((y, 1))
    stoves = Counter(item for item, _ in ways)
    for (item, stove), pairs in ways.items():
        if stoves[item] > 1:
            high = board.kitchen.pots_of(item)
            on = add_column(board.program, f"on[{item},{stove}]", high=high, whole=True)
            board.on[item, stove] = on
            add_row(board.program, f"dish_on_stove[{item},{stove}]", [*pairs, (on, -1)], "==", 0)


Burning = tuple[pulp.LpVariable, Burn]


def _light_fires(board: Board) -> None:
    """Add the fires that have to be lit: needed by each dish, burning under every pot."""
    burns: dict[tuple[str, int], list[Burning]] = defaultdict(list)
    dishes: dict[tuple[str, int], dict[int, Pairs]] = defaultdict(lambda: defaultdict(list))
    for column, y in zip(board.columns, board.cook, strict=True):
        keys = [(burn.stove, burn.window) for burn in column.burns]
        for key, burn in zip(keys, column.burns, strict=True):
            if burn.stove in board.kitchen.lightings:
                burns[key].append((y, burn))
        for key in dict.fromkeys(keys):
            dishes[key][column.item].append((y, 1))
    for (stove, window), group in burns.items():
        fire = _fire(board, stove, window, group)
        board.fires[stove, window] = fire
        for item, pairs in dishes[stove, window].items():
            name = f"dish_needs_the_fire[{stove},{window},{item}]"
            row = [*pairs, (fire.lit, -board.kitchen.pots_of(item))]
            add_row(board.program, name, row, "<=", 0)


def _fire(board: Board, stove: str, window: int, group: Sequence[Burning]) -> Fire:
    """Add one stove in one window: it burns under every pot, and is lit or kept up before."""
    lighting, program, place = board.kitchen.lightings[stove], board.program, f"{stove},{window}"
    most = math.ceil(board.kitchen.capacity[f"stove:{stove}"] / lighting.places)
    moments = sorted({minute for _, burn in group for minute in (burn.start, burn.end)})
    burning, starts = (
        tuple(
            add_column(program, f"{word}[{place},{minute}]", high=most, whole=lighting.places > 1)
            for minute in moments[:-1]
        )
        for word in ("burning", "lit")
    )
    fire = Fire(
        lighting=lighting,
        lit=add_column(program, f"lit[{place}]", high=1, whole=True),
        moments=tuple(moments),
        burning=burning,
        starts=starts,
        idle=add_column(program, f"idle[{place}]"),
    )
    add_row(program, f"lit_once_or_more[{place}]", [(fire.lit, 1), *_less(starts)], "<=", 0)
    _burns_under_pots(program, fire, place, group)
    return fire


def _less(columns: Iterable[pulp.LpVariable]) -> Pairs:
    return [(column, -1) for column in columns]


def _burns_under_pots(program: Program, fire: Fire, place: str, group: Sequence[Burning]) -> None:
    spans = zip(fire.moments, fire.moments[1:], fire.burning, fire.starts, strict=False)
    idle: Pairs = [(fire.idle, -1)]
    before: Pairs = []
    for minute, following, burning, start in spans:
        pots = _pots(group, minute)
        if pots:
            name = f"pot_needs_the_fire[{place},{minute}]"
            add_row(program, name, [*pots, (burning, -fire.lighting.places)], "<=", 0)
        name = f"lit_or_kept_up[{place},{minute}]"
        add_row(program, name, [(burning, 1), (start, -1), *before], "<=", 0)
        idle.append((burning, following - minute))
        before = [(burning, -1)]
    minutes: dict[pulp.LpVariable, float] = defaultdict(float)
    for y, burn in group:
        minutes[y] -= (burn.end - burn.start) / fire.lighting.places
    add_row(program, f"fire_kept_between_pots[{place}]", [*idle, *minutes.items()], "<=", 0)


def _pots(group: Sequence[Burning], minute: int) -> Pairs:
    return [(y, 1) for y, burn in group if burn.start <= minute < burn.end]


def _fuel_decides(board: Board) -> None:
    """Light a fire again if, and only if, keeping it up since the last pot takes more fuel."""
    for (stove, window), fire in board.fires.items():
        if fire.burning[0].upBound == 1:
            group = [
                (y, burn)
                for column, y in zip(board.columns, board.cook, strict=True)
                for burn in column.burns
                if (burn.stove, burn.window) == (stove, window)
            ]
            for number in range(len(fire.burning)):
                _relight(board.program, fire, f"{stove},{window}", group, number)


def _relight(
    program: Program, fire: Fire, place: str, group: Sequence[Burning], number: int
) -> None:
    lighting, minute = fire.lighting, fire.moments[number]
    recent = [
        n
        for n in range(number)
        if (minute - fire.moments[n + 1]) * 60.0 * lighting.idle_w <= lighting.start_j
    ]
    counts: dict[pulp.LpVariable, float] = defaultdict(float)
    for y, factor in _pots(group, minute):
        counts[y] += factor
    for n in recent:
        for y, factor in _pots(group, fire.moments[n]):
            counts[y] -= factor * lighting.places
    if any(factor > 0 for factor in counts.values()):
        pairs = [*counts.items(), (fire.starts[number], -lighting.places)]
        add_row(program, f"lit_again_after_long[{place},{minute}]", pairs, "<=", 0)
    for n in recent if lighting.tend else ():
        name = f"not_lit_again_soon[{place},{fire.moments[n]},{minute}]"
        add_row(program, name, [(fire.starts[number], 1), (fire.burning[n], 1)], "<=", 1)


def _one_at_a_time(board: Board) -> None:
    held: dict[str, list[tuple[int, int, int]]] = defaultdict(list)
    for number, column in enumerate(board.columns):
        for use in column.uses:
            if use.start < use.end:
                held[use.resource].append((use.start, use.end, number))
    items = [column.item for column in board.columns]
    for resource, spans in held.items():
        capacity = board.kitchen.capacity[resource]
        for minute, together in cliques(spans):
            dishes = {items[number] for number in together}
            needed = sum(board.kitchen.pots_of(item) for item in dishes)
            if needed <= capacity and all(times == 1 for times in together.values()):
                continue  # no choice of one way a dish can break it
            pairs = [(board.cook[number], float(times)) for number, times in together.items()]
            add_row(board.program, f"one_at_a_time[{resource},{minute}]", pairs, "<=", capacity)


def cliques(spans: Iterable[tuple[int, int, int]]) -> Iterator[tuple[int, dict[int, int]]]:
    """Yield every largest set of spans that share a moment: the moment, owner -> times."""
    moments = [m for a, b, owner in spans for m in ((a, 1, owner), (b, 0, owner))]
    together: dict[int, int] = {}
    latest, fresh = 0, False
    for minute, opens, owner in sorted(moments):  # what ends makes room for what starts
        if opens:
            together[owner] = together.get(owner, 0) + 1
            latest, fresh = minute, True
            continue
        if fresh:
            yield latest, dict(together)
            fresh = False
        together[owner] -= 1
        if not together[owner]:
            del together[owner]


def _stock_is_enough(board: Board, may_be_short: Collection[str]) -> None:
    for fuel, stock_j in board.kitchen.stock_j.items():
        pairs = terms(board, fuel)
        if fuel in may_be_short:
            short = add_column(board.program, f"short[{fuel}]")
            board.short[fuel] = short
            pairs.append((short, -1))
        add_row(board.program, f"stock_is_enough[{fuel}]", pairs, "<=", stock_j / MJ)
