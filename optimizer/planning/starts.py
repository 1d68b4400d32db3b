"""Ways put on the clock: one column for every start that fits the cook hours and the meal."""

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from optimizer.model.household import DAY_MIN, Item, Window
from optimizer.model.plan import Reboil
from optimizer.physics import heating
from optimizer.physics.ranges import Values
from optimizer.planning.boiling import careful_boil_min, rate_at
from optimizer.planning.columns import Burn, Column, Use
from optimizer.planning.contents import round_up
from optimizer.planning.grid import GRID_MIN, LONGEST_MIN, Curve
from optimizer.planning.ways import Way

FIRST_TRIES = 3  # starts tried for a dish that is boiled again
TRY_MIN = 10  # apart of the times at which a second boil is tried
LEAST_REBOIL_MIN = 1.0
_SHARED = 100_000


@dataclass(frozen=True, slots=True, eq=False)
class Cooking:
    """One way from one start: what a column stands for."""

    way: Way
    item: Item
    on: int
    off: int  # first time off the fire
    reboil: Reboil | None = None
    reboil_from_c: float | None = None  # careful temperature of the pot when it is boiled again

    @property
    def rest_from(self) -> int:
        """Clock minute at which the first rest starts: off the fire and pressure gone."""
        return self.off + self.way.fall_min


def columns_of(
    item: Item, way: Way, windows: tuple[Window, ...], today: Sequence[int]
) -> list[Column]:
    """Return every column of one item cooked one way, started in the cook hours of one day."""
    found: list[Column] = []
    for number in today:
        plain = [_column(c, number, windows) for c in _plain(item, way, number, windows)]
        once = way.finish != "packed" or way.pot.gauge_pa or way.load.carried_min or item.drawn
        if not plain and not once:
            plain = [_column(c, number, windows) for c in _again(item, way, number, windows)]
        found += plain
    return found


def _plain(item: Item, way: Way, number: int, windows: tuple[Window, ...]) -> Iterator[Cooking]:
    """Yield the starts of a dish that is left alone once off the flame."""
    window, soaked = windows[number], item.dish.soak_min > 0
    earliest = max(first_on(way, window), item.serve_min - LONGEST_MIN)
    first, last = not_before(earliest, item, GRID_MIN), min(window.end_min, item.serve_min)
    lasts, sunny = way.lasts, way.sunny
    for on in range(first, last, GRID_MIN):
        minutes = lasts[(item.serve_min - on) // GRID_MIN]
        if sunny and way.cooker is None and not item.drawn:
            minutes = _left_in_sun(item, way, on)
        if not minutes or (soaked and soak_from(item, on, windows) < 0):
            continue
        made = Cooking(way, item, on, on + minutes)
        if _in_sun(made, windows) if sunny else made.off <= window.end_min:
            yield made


def _left_in_sun(item: Item, way: Way, on: int) -> int:
    """Return minutes of a pot that stays in the sun until the meal, 0 where that is too short."""
    off = min(item.serve_min, int(on // DAY_MIN * DAY_MIN + way.at.rules.sun_to_min))
    wait = (item.serve_min - off) // GRID_MIN
    long = off - on >= way.on_min[way.on_min > 0].min()
    near = item.serve_min - off <= way.most_rest_min
    return off - on if long and near and way.rest.careful_c[wait] >= way.need_c else 0


def _in_sun(cooking: Cooking, windows: tuple[Window, ...]) -> bool:
    """Tell whether a pot stands in the sun in its hours and somebody takes it out."""
    rules, dawn = cooking.way.at.rules, cooking.on // DAY_MIN * DAY_MIN
    if cooking.on < dawn + rules.sun_from_min or cooking.off > dawn + rules.sun_to_min:
        return False
    at_table = cooking.item.serve_min - cooking.off <= rules.rest_min
    return at_table or any(w.start_min <= cooking.off <= w.end_min for w in windows)


def not_before(minute: int, item: Item, step: int) -> int:
    """Return the first minute from then on that lies whole steps before the meal."""
    return item.serve_min - (item.serve_min - minute) // step * step


def not_after(minute: int, item: Item, step: int) -> int:
    """Return the last minute until then that lies whole steps before the meal."""
    return item.serve_min + (minute - item.serve_min) // step * step


def first_on(way: Way, window: Window) -> int:
    """Return the first minute at which a pot can go on a fire lit in cook hours."""
    return window.start_min + way.own.stove.start_min


def soak_from(item: Item, on: int, windows: tuple[Window, ...]) -> int:
    """Return the last moment of the cook hours at which soaking can start, or -1 for none."""
    latest = on - item.dish.soak_min
    if item.soaked_from is not None and item.soaked_from <= latest:
        return item.soaked_from
    begun = bisect_right(windows, latest, key=lambda window: window.start_min)
    return min(latest, windows[begun - 1].end_min) if begun else -1


def _again(item: Item, way: Way, number: int, windows: tuple[Window, ...]) -> Iterator[Cooking]:
    """Yield starts of a dish boiled again in later cook hours, before it falls to the limit."""
    first, later = windows[number], _in_reach(way, number, windows)
    minutes = way.least_on_min
    for late in range(FIRST_TRIES if later else 0):
        on = not_after(first.end_min - minutes - 2 * TRY_MIN * late, item, GRID_MIN)
        if on < first_on(way, first) or on < item.serve_min - LONGEST_MIN:
            return
        if soak_from(item, on, windows) < 0:
            continue
        for second in later:
            again = _reboil(item, way, on, on + minutes, second)
            if again is not None:
                yield again


def _in_reach(way: Way, number: int, windows: tuple[Window, ...]) -> list[Window]:
    """List the later cook hours of a day that come before a dish is too cold."""
    first, found = windows[number], []
    for place in range(number + 1, len(windows)):
        second = windows[place]
        if second.day != first.day:  # another weather, for which this way is not priced
            break
        if first_on(way, second) - first.end_min <= way.warm_min:
            found.append(second)
    return found


def _reboil(item: Item, way: Way, on: int, off: int, second: Window) -> Cooking | None:
    """Return the latest second boil in some cook hours that serves the dish done and hot."""
    end = min(second.end_min, item.serve_min)
    last = not_after(end - 2 * GRID_MIN, item, GRID_MIN)
    late = max(0, last - off - way.warm_min)  # by then it is too cold
    for at in range(last - round_up(late, TRY_MIN), max(first_on(way, second), off), -TRY_MIN):
        cold = (at - off) // GRID_MIN
        if way.rest.careful_c[cold] < way.at.rules.hot_c:
            continue
        from_c, up = float(way.rest.careful_c[cold]), float(_up_again(way)[cold])
        again_off = at + round_up(up + LEAST_REBOIL_MIN, GRID_MIN)
        if again_off > end or not _serves(item, way, on, off, at, again_off, up):
            continue
        return Cooking(way, item, on, off, Reboil(at, at + round_up(up, 1), again_off), from_c)
    return None


@lru_cache(maxsize=4096)
def _up_again(way: Way) -> Curve:
    """Return minutes until a pot boils again, by the minutes of its rest (array over MINUTES)."""
    return np.asarray(up_again_min(way, way.rest.careful_c))


def up_again_min(way: Way, from_c: Values) -> Values:
    """Return minutes until a pot taken from its cooker boils again."""
    b = way.boil
    seconds = heating.heat_up_s(
        heat_capacity_j_k=b.heat_j_k,
        net_power_w=b.net_w,
        loss_w_k=b.bare_w_k,
        start_c=from_c,
        end_c=b.top_c,
        air_c=b.air_c,
    )
    return seconds / 60


def _serves(
    item: Item, way: Way, on: int, off: int, again_on: int, again_off: int, up: float
) -> bool:
    """Tell whether a dish boiled twice is done and hot at the meal."""
    rest, wait = way.rest, (item.serve_min - again_off) // GRID_MIN
    if wait >= len(rest.done) or rest.careful_c[wait] < way.need_c:
        return False
    return (
        done_twice(way, off - on, (again_on - off) // GRID_MIN, again_off - again_on - up, wait)
        >= 1
    )


def done_twice(way: Way, on_min: float, between: int, hold_again: float, wait: int) -> float:
    """Return the cooking done by a boil, a rest, a second boil and a second rest."""
    dish = way.load.dish
    rate = rate_at(way.boil.top_c, dish.z_k, dish.floor_c)
    boil_min = careful_boil_min(way.load, way.at)
    again = hold_again * rate / boil_min if boil_min else 1.0
    first, last = way.rest.done[between], way.rest.least[wait]
    return float(way.done_on_fire(on_min) + first + again + last)


def fuel_of(cooking: Cooking) -> float:
    """Return the fuel a dish takes on its stove [J].

    A fed fire is lit once for several pots and paid for apart; any other stove is lit for each.
    """
    way = cooking.way
    if way.sunny:
        return 0.0
    stove = way.own.stove
    light = 0.0 if stove.tended else stove.start_j
    burnt = way.fuel_j(cooking.off - cooking.on) + light
    if cooking.reboil is not None:  # full power all the time it is on again
        burnt += (cooking.reboil.off - cooking.reboil.on) * 60 * stove.power_w + light
    return burnt


def _column(cooking: Cooking, number: int, windows: tuple[Window, ...]) -> Column:
    way, item = cooking.way, cooking.item
    stove = way.own.stove
    off = cooking.on if way.sunny else cooking.off  # nobody stands by in the sun, nothing burns
    burns = [_burn(stove.name, number, cooking.on, off)]
    if (again := cooking.reboil) is not None:
        second = next(n for n, w in enumerate(windows) if w.start_min <= again.on < w.end_min)
        burns.append(_burn(stove.name, second, again.on, again.off))
    on_fire = sum([burn.end - burn.start for burn in burns])
    fuel_j = fuel_of(cooking)
    handling = len(burns) * way.at.rules.handling_min
    return Column(
        item=item.number,
        stove=stove.name,
        burns=tuple(burns),
        uses=(*_on_stove(cooking, burns), *_uses(cooking)),
        fuel=way.store.fuel.name,
        fuel_j=fuel_j,
        money=fuel_j * way.price_j,
        tend_min=on_fire if stove.tended else handling,
        way=cooking,
        served_c=_served_c(cooking),
    )


def _served_c(cooking: Cooking) -> float:
    """Return the careful temperature of a dish at its meal [degC]."""
    last_off = cooking.off if cooking.reboil is None else cooking.reboil.off
    return float(cooking.way.rest.careful_c[(cooking.item.serve_min - last_off) // GRID_MIN])


def steeped_in(item: Item, turn_min: int) -> Iterator[Use]:
    """Yield the jars in which something is steeped with an item's water, and when."""
    for draw in item.drawn:
        if draw.steep is not None:
            poured = item.serve_min - draw.before_min
            until = poured + draw.steep.minutes + turn_min
            yield Use(f"cooker:{draw.steep.cooker.name}", poured, until)


def _on_stove(cooking: Cooking, burns: Sequence[Burn]) -> Iterator[Use]:
    """Yield which stove is held and when, and the cook who stays beside it."""
    stove = cooking.way.own.stove
    if cooking.way.sunny:
        yield _use(f"stove:{stove.name}", cooking.on, cooking.off)
        return
    for burn in burns:
        yield _use(f"stove:{burn.stove}", burn.start, burn.end)
        if stove.tended:
            yield _use("cook", burn.start, burn.end)


def _uses(cooking: Cooking) -> Iterator[Use]:
    """Yield the pot and the cookers that one column keeps busy, and when."""
    way, item = cooking.way, cooking.item
    turn = int(way.at.rules.turn_min)
    back = item.serve_min + (item.carried.back_min if item.carried else 0)
    early = way.finish == "vacuum" or item.dish.serve == "any"
    yield _use(f"pot:{way.pot.name}", cooking.on, (cooking.rest_from if early else back) + turn)
    if item.drawn:
        yield from steeped_in(item, turn)
    if way.cooker is not None:
        until = back + turn if way.finish == "vacuum" else back
        yield _use(f"cooker:{way.cooker.cooker.name}", cooking.rest_from, until)


_use = lru_cache(maxsize=_SHARED)(Use)  # many columns hold the same things at the same time
_burn = lru_cache(maxsize=_SHARED)(Burn)
