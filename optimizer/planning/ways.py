"""Every way to cook a dish: stove, pot, finish; for each lead before the meal what it takes."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property, lru_cache
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from optimizer.model.household import OwnCooker, OwnStove, Scenario, Store
from optimizer.model.plan import Finish
from optimizer.model.things import Fuel, Pot
from optimizer.planning.bodies import Body, bare, insulated
from optimizer.planning.boiling import Boil, boil, careful_boil_min, rate_at
from optimizer.planning.conditions import Conditions, Refused
from optimizer.planning.contents import Load, round_up
from optimizer.planning.drawing import Draw
from optimizer.planning.grid import GRID_MIN, LONGEST_MIN, MINUTES
from optimizer.planning.resting import Rest, rests
from optimizer.planning.steeping import needed_c
from optimizer.planning.stock import price_j

WATER_J_KGK = 4190.0
NEVER_COLD = -273.0  # no temperature is asked for
Minutes = TypeVar("Minutes", float, NDArray[np.float64])  # one number, or many at once


@dataclass(frozen=True, eq=False)
class Way:
    """One stove, pot and finish for one load on one day, priced for every lead.

    What hangs on nothing but its fields is kept, since every start on the clock asks for it.

    A lead is minutes from the pot going on until the meal, on the grid MINUTES; ``on_min`` is the
    shortest time on the stove that serves the dish done and hot, 0 where there is none.
    """

    load: Load
    own: OwnStove
    store: Store
    pot: Pot
    cooker: OwnCooker | None
    at: Conditions
    boil: Boil
    body: Body
    rest: Rest = field(repr=False)
    on_min: NDArray[np.int_] = field(repr=False)
    lasts: list[int] = field(repr=False, default_factory=list)  # on_min as plain numbers

    @cached_property
    def finish(self) -> Finish:
        """What happens after the flame."""
        if self.cooker is None:
            return "flame"
        return self.cooker.cooker.kind

    @cached_property
    def sunny(self) -> bool:
        """Whether the sun heats it: no fire, no fuel, nobody beside it."""
        return self.store.fuel.kind == "sun"

    @cached_property
    def price_j(self) -> float:
        """What a joule of its fuel costs."""
        return price_j(self.store)

    @cached_property
    def fall_min(self) -> int:
        """Minutes off the flame until the pot may be opened or packed."""
        return 0 if self._packs_under_pressure else round_up(self.boil.fall_min, GRID_MIN)

    @property
    def _packs_under_pressure(self) -> bool:
        return self.finish == "packed" and self.cooker is not None and self.cooker.pressure_allowed

    @cached_property
    def need_c(self) -> float:
        """Least temperature at the table."""
        dish = self.load.dish
        if dish.serve == "at":
            return dish.serve_c or NEVER_COLD
        return self.at.rules.hot_c if dish.serve == "hot" else NEVER_COLD

    @cached_property
    def least_rest_min(self) -> int:
        """Shortest rest after the flame: the move into a cooker and the way, then the draws."""
        moved = 0.0 if self.cooker is None else self.at.rules.move_min + self.load.carried_min
        drawn = round_up(self.load.draws[0].before_min, GRID_MIN) if self.load.draws else 0
        return round_up(moved, GRID_MIN) + drawn

    @property
    def hot(self) -> NDArray[np.bool_]:
        """Whether it is hot enough, at the table or at each draw (array over MINUTES of rest)."""
        found = self.rest.careful_c >= self.need_c
        for draw, (_, careful) in zip(self.load.draws, self.rest.drawn_c, strict=True):
            found = found & (careful >= self.draw_need_c(draw))
        return found

    def draw_need_c(self, draw: Draw) -> float:
        """Return how hot a draw has to be."""
        if draw.steep is not None:
            return needed_c(draw.steep, self.at)
        return self.need_c if draw.need_c is None else draw.need_c

    @cached_property
    def most_rest_min(self) -> int:
        """Longest rest after the flame."""
        if self.cooker is not None or self.load.dish.serve == "any" or self.load.draws:
            return LONGEST_MIN
        return int(self.at.rules.rest_min)

    @cached_property
    def warm_min(self) -> int:
        """Longest rest after which it is surely above the least temperature of hot food."""
        return int(MINUTES[self.rest.careful_c >= self.at.rules.hot_c].max(initial=0))

    @cached_property
    def _on_per_hold(self) -> float:
        """Minutes on the stove for a minute more at the top temperature.

        Water that will boil off is put in at the start and has to be heated too.
        """
        more = self.boil.steam_kg_min * WATER_J_KGK * (self.boil.top_c - self.at.place.water_c)
        return 1 + more / (60 * self.boil.net_w)

    @cached_property
    def least_on_min(self) -> int:
        """Fewest minutes on the stove that are safe, done or not."""
        hold = max(1.0, self.boil.least_hold_min)
        return round_up(self.boil.up_min + hold * self._on_per_hold, GRID_MIN)

    def hold_min(self, on_min: Minutes) -> Minutes:
        """Return minutes at the top temperature out of minutes on the stove."""
        return (on_min - self.boil.up_min) / self._on_per_hold

    def done_on_fire(self, on_min: Minutes) -> Minutes:
        """Return the share of the cooking done by minutes on the stove and under pressure."""
        full = careful_boil_min(self.load, self.at)
        if not full:
            return 0 * on_min + 1.0
        dish = self.load.dish
        rate = rate_at(self.boil.top_c, dish.z_k, dish.floor_c)
        return self.boil.free_done + self.hold_min(on_min) * rate / full

    def steam_kg(self, on_min: float) -> float:
        """Return water boiled off, which is given to the dish beforehand."""
        return max(0.0, self.hold_min(on_min)) * self.boil.steam_kg_min

    def fuel_j(self, on_min: float) -> float:
        """Return fuel for so many minutes on the stove, as stocked.

        The clock waits for a weak stove. A usual one boils sooner, and its pot comes off as many
        minutes after that as the plan says.
        """
        hold = max(0.0, self.hold_min(on_min))
        burnt = self.boil.up_j + hold * 60 * self.boil.hold_w
        return burnt + self.steam_kg(on_min) * self.boil.extra_j_kg


@dataclass(frozen=True, slots=True)
class Begun:
    """A pot that boils and what rests afterwards, before it is known how that cooks."""

    own: OwnStove
    store: Store
    pot: Pot
    cooker: OwnCooker | None
    boil: Boil
    body: Body


def make_way(
    load: Load, own: OwnStove, store: Store, pot: Pot, cooker: OwnCooker | None, at: Conditions
) -> Way | Refused:
    """Return a way with its time on the stove for every lead, or why it cannot work."""
    begun = begin(load, own, store, pot, cooker, at)
    if isinstance(begun, Refused):
        return begun
    return make_ways(load, [begun], at)[0]


def make_ways(load: Load, begun: Sequence[Begun], at: Conditions) -> list[Way | Refused]:
    """Return the same for all that has begun, worked out together."""
    bodies = tuple(dict.fromkeys(each.body for each in begun))
    known = dict(zip(bodies, _rests(load, bodies, at), strict=True))
    return [_finished(load, each, known[each.body], at) for each in begun]


def begin(
    load: Load, own: OwnStove, store: Store, pot: Pot, cooker: OwnCooker | None, at: Conditions
) -> Begun | Refused:
    """Return a pot that boils and what rests, or why it cannot."""
    refused = _not_carried(load, cooker)
    fired = refused or _boil(load, pot, own, store.fuel, at)
    if isinstance(fired, Refused):
        return fired
    if cooker is not None and _taken(load, cooker):
        return Refused("cooker_taken", "something is steeped in it")
    if cooker is None:
        body: Body | Refused = bare(load, pot, fired, at)
    else:
        body = insulated(load, pot, cooker.cooker, fired, at)
    return body if isinstance(body, Refused) else Begun(own, store, pot, cooker, fired, body)


def _finished(load: Load, begun: Begun, rested: Rest, at: Conditions) -> Way | Refused:
    own, store, pot, cooker = begun.own, begun.store, begun.pot, begun.cooker
    none = np.zeros(len(MINUTES), int)
    way = Way(load, own, store, pot, cooker, at, begun.boil, begun.body, rested, none)
    way.on_min[:] = _shortest(way)
    way.lasts.extend(way.on_min.tolist())
    return way if way.on_min.any() else _too_cold(way)


def _not_carried(load: Load, cooker: OwnCooker | None) -> Refused | None:
    """Return why a dish cannot be carried hot to where it is eaten, if it has to be."""
    if not load.carried_min:
        return None
    if cooker is None:
        minutes = load.carried_min
        return Refused("carried", f"cools on the {minutes} min to where it is eaten, in no cooker")
    return None if cooker.cooker.portable else Refused("not_portable", "is not one to carry away")


def _taken(load: Load, cooker: OwnCooker) -> bool:
    """Tell whether all cookers of a kind are taken by what is steeped with this load."""
    steeps = [d.steep for d in load.draws if d.steep and d.steep.cooker.name == cooker.cooker.name]
    return bool(steeps) and len(steeps) >= cooker.count


@lru_cache(maxsize=65536)
def _boil(load: Load, pot: Pot, own: OwnStove, fuel: Fuel, at: Conditions) -> Boil | Refused:
    return boil(load, pot, own, fuel, at)


@lru_cache(maxsize=512)
def _rests(load: Load, bodies: tuple[Body, ...], at: Conditions) -> list[Rest]:
    return rests(load, bodies, at)


def _shortest(way: Way) -> NDArray[np.int_]:
    """Return for every lead the shortest minutes on the stove, 0 where none will do."""
    durations, fire = _durations(way)
    waits = (MINUTES[:, None] - durations[None, :] - way.fall_min) // GRID_MIN
    inside = (waits >= way.least_rest_min // GRID_MIN) & (waits <= way.most_rest_min // GRID_MIN)
    at_meal = np.where(inside, waits, 0)
    done = fire[None, :] + way.rest.done[at_meal] >= 1 - 1e-9
    hot = way.hot[at_meal]
    fits = inside & done & hot
    return np.where(fits.any(axis=1), durations[fits.argmax(axis=1)], 0)


def _durations(way: Way) -> tuple[NDArray[np.int_], NDArray[np.float64]]:
    """Return minutes on the stove worth trying, and what they cook.

    They go from the least that is safe until the dish is cooked through.
    """
    least = way.least_on_min
    minutes = np.arange(least, max(least, LONGEST_MIN) + 1, GRID_MIN)
    fire = way.done_on_fire(minutes.astype(np.float64))
    through = np.searchsorted(fire, 1.0) + 1
    return minutes[:through], fire[:through]


def _too_cold(way: Way) -> Refused:
    careful = way.rest.careful_c
    if way.load.draws:
        return _cold_draw(way)
    if careful[0] < way.need_c:
        return Refused("cold", f"may be only {careful[0]:.0f} degC as soon as it is in it")
    return Refused("never_done", "is never done in the time there is")


def _cold_draw(way: Way) -> Refused:
    """Say which draw lacks most, however late the pot is closed."""
    first = min(way.least_rest_min, LONGEST_MIN) // GRID_MIN
    lacks = []
    for draw, (_, careful) in zip(way.load.draws, way.rest.drawn_c, strict=True):
        need = way.draw_need_c(draw)
        lacks.append((need - float(careful[first]), draw.before_min, float(careful[first]), need))
    lack, before, level, need = max(lacks)
    if lack <= 0:
        return Refused("never_done", "is never done in the time there is")
    when = "at the last draw" if before == 0 else f"at the draw {before} min before the last"
    if math.isinf(need):
        return Refused("never_done", "what is steeped with it is never done and hot in its time")
    return Refused("cold", f"may be only {level:.0f} degC {when}, {need:.0f} is wanted")


def conditions(scenario: Scenario, day: int) -> Conditions:
    """Return where and when pots are heated on a day (the first day's weather before it)."""
    weather = scenario.weather[min(max(day, 1), scenario.days) - 1]
    return Conditions(scenario.place, weather, scenario.rules, scenario.confidence)
