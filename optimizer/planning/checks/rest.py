"""A dish off the fire, integrated: how hot it comes to the table and how far it is done."""

import math
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from optimizer.physics import water
from optimizer.planning.checks.body import Body, in_jar, kitchen_loss_w_k, packed
from optimizer.planning.checks.chance import POWERS, Kitchens, cooked_min, kitchens
from optimizer.planning.checks.dish import LEAST_W, WATER_J_KGK, Case, Fired, next_step
from optimizer.planning.checks.heat import bare_c, minutes_between, minutes_by_power
from optimizer.planning.checks.levels import Mouth, drawn_levels


@dataclass(frozen=True)
class Leg:
    """One rest between leaving a fire and the next fire or the table."""

    minutes: int
    usual_c: float
    careful_c: float


@dataclass(frozen=True)
class Telling:
    """One step recomputed."""

    case: Case

    @cached_property
    def up_min(self) -> float:
        """Minutes until the top temperature, careful, without water to boil off."""
        case = self.case
        return case.up_min(case.fired, case.fired.careful_w, case.start_c, case.top_c)

    @cached_property
    def early_min(self) -> float:
        """Minutes by which a strong stove has the pot off before its time; none in the sun."""
        case = self.case
        if case.sunny or math.isinf(self.up_min):
            return 0.0
        return self.up_min - case.up_min(case.fired, case.fired.soonest_w, case.start_c, case.top_c)

    @cached_property
    def hold_w(self) -> float:
        """Fuel burned while holding, as stocked."""
        case, fired = self.case, self.case.fired
        lost_w = fired.loss_w_k * (case.top_c - fired.air_c)
        needed_w = lost_w / (1 - case.scenario.rules.steam_leak) / fired.usual / fired.ratio
        return max(case.own.stove.low_power_w, needed_w)

    @cached_property
    def steam_kg_min(self) -> float:
        """Water boiled off in a minute of holding."""
        case, fired = self.case, self.case.fired
        if case.item.dish.heat_c is not None:
            return 0.0
        spare_w = fired.usual * self.hold_w * fired.ratio
        spare_w -= fired.loss_w_k * (case.top_c - fired.air_c)
        return max(0.0, spare_w) * 60 / water.latent_heat_j_kg(case.open_boil_c)

    @cached_property
    def hold_min(self) -> float:
        """Minutes at the top temperature; the water that will boil off is heated first."""
        case = self.case
        more_k = case.top_c - case.scenario.place.water_c
        more_j = self.steam_kg_min * WATER_J_KGK * more_k
        on_min = case.step.off - case.step.on
        return (on_min - self.up_min) / (1 + more_j / (60 * case.fired.careful_w))

    @property
    def steam_kg(self) -> float:
        """Water boiled off."""
        return max(0.0, self.hold_min) * self.steam_kg_min

    @cached_property
    def fuel_j(self) -> float:
        """Fuel as stocked, at the usual efficiency, lightings for this pot alone included."""
        case, fired, stove = self.case, self.case.fired, self.case.own.stove
        if case.sunny:
            return 0.0
        up = case.up_min(fired, fired.usual_w, case.start_c, case.top_c)
        more_k = case.top_c - case.scenario.place.water_c
        burnt = 60 * up * stove.power_w + 60 * max(0.0, self.hold_min) * self.hold_w
        burnt += self.steam_kg * WATER_J_KGK * more_k / fired.usual / fired.ratio
        burnt += sum(60 * (r.off - r.on) * stove.power_w for r in case.step.reboil)
        return burnt + (0.0 if stove.tended else len(case.burns) * stove.start_j)

    @cached_property
    def core_c(self) -> float:
        """Mixed temperature off the fire: cores lack a little, and pressure took time to go."""
        case, rules = self.case, self.case.scenario.rules
        lack = (1 - rules.heated_through) * case.pieces_j_k / case.heat_j_k
        level = case.opened_c - lack * (case.opened_c - case.start_c)
        if not case.fall_min:
            return level
        waited = case.rest_from - case.step.off
        if waited < case.fall_min:  # packed under pressure, counted as if it were opened first
            waited = next_step(case.fall_min)
        return self._bare(level, max(0.0, waited - case.fall_min), case.fired.air_c)

    def _bare(self, level: float, minutes: float, air_c: float) -> float:
        return bare_c(self.case.heat_j_k, self.case.fired.loss_w_k, level, air_c, minutes)

    @cached_property
    def body(self) -> Body:
        """What rests."""
        case = self.case
        kitchen_c, rules = case.scenario.place.kitchen_c, case.scenario.rules
        if case.cooker is None:
            loss = kitchen_loss_w_k(self.case)
            return Body(case.heat_j_k, 0.0, loss, rules.bare_spread, self.core_c, kitchen_c)
        moved = self._bare(self.core_c, rules.move_min, min(case.fired.air_c, kitchen_c))
        jar = case.cooker.cooker.kind == "vacuum"
        made = in_jar(case, moved) if jar else packed(case, moved)
        return self._jolted(made) if self.carried else made

    @property
    def carried(self) -> bool:
        """Whether it is kept hot on its way to where it is eaten."""
        case = self.case
        return case.item.carried is not None and case.item.dish.serve != "any"

    def _jolted(self, body: Body) -> Body:
        """Return what is carried: colder round it, and less sure what it loses."""
        case = self.case
        outdoors_c = min(case.weather(m).outdoors_c for m in (case.step.on, case.step.serve))
        spread = (body.spread**2 + case.scenario.rules.carry_spread**2) ** 0.5
        return replace(body, spread=spread, room_c=min(body.room_c, outdoors_c))

    def _shared_out(self, level_c: float, colder_k: float) -> float:
        """Return how hot the last portion is: ladled out, lid off, half of it in the pot."""
        if not self.carried:
            return level_c
        rules = self.case.scenario.rules
        open_w_k, room_c = (
            rules.open_loss * kitchen_loss_w_k(self.case),
            self.body.room_c - colder_k,
        )
        half_j_k = self.body.contents_j_k / 2
        return bare_c(half_j_k, open_w_k, level_c, room_c, rules.share_out_min)

    def drawn_c(self, *, careful: bool) -> list[float]:
        """Return the temperature at each draw, usual or careful."""
        case, rules = self.case, self.case.scenario.rules
        first = case.item.first_min - case.rest_from + (self.early_min if careful else 0.0)
        jar = case.cooker.cooker if case.cooker and case.cooker.cooker.kind == "vacuum" else None
        wide = case.own_pot.pot.diameter_m
        bare_w_k = kitchen_loss_w_k(self.case) if case.cooker is not None and jar is None else 0.0
        if jar is not None:
            wide = (4 * (jar.volume_m3 or 0.0) / math.pi) ** (1 / 3)
        return drawn_levels(
            self.body,
            case.item.drawn,
            load_j_k=case.contents_j_k,
            first_min=max(0.0, first - self.body.move_min),
            spreads=case.hot_z if careful else 0.0,
            room_c=self.body.room_c - (rules.air_spread_k if careful else 0.0),
            mouth=Mouth(math.pi * wide**2 / 4, bare_w_k, rules.draw_open_min),
        )

    @cached_property
    def legs(self) -> tuple[Leg, ...]:
        """Every rest, in order; one that is drawn on has to be done by its first draw."""
        step = self.case.step
        if self.case.item.drawn:
            until = self._leg(self.case.item.first_min - self.case.rest_from)
            usual, low = self.drawn_c(careful=False)[-1], self.drawn_c(careful=True)[-1]
            return (replace(until, usual_c=usual, careful_c=low),)
        starts = [self.case.rest_from, *(r.off for r in step.reboil)]
        ends = [*(r.on for r in step.reboil), step.serve]
        return tuple(self._leg(b - a) for a, b in zip(starts, ends, strict=True))

    def _leg(self, minutes: int) -> Leg:
        case, minutes = self.case, max(0, minutes)
        longer, colder_k = minutes + self.early_min, case.scenario.rules.air_spread_k
        return Leg(
            minutes=minutes,
            usual_c=self._shared_out(float(self.body.curve(minutes, 0.0)[-1]), 0.0),
            careful_c=self._shared_out(
                float(self.body.curve(longer, case.hot_z, colder_k)[-1]), colder_k
            ),
        )

    @cached_property
    def _kitchens(self) -> Kitchens:
        """The first rest in many kitchens."""
        case, fired = self.case, self.case.fired
        up_min = np.full(len(POWERS), self.up_min)
        if not case.sunny:  # nobody is by in the sun
            up_min = minutes_by_power(
                heat_j_k=case.heat_j_k,
                net_w=np.maximum(fired.usual_w * (1 + POWERS * fired.spread), LEAST_W),
                loss_w_k=fired.loss_w_k,
                air_c=fired.air_c,
                from_c=case.start_c,
                to_c=case.top_c,
            )
        return kitchens(self.body, case, self.legs[0].minutes, up_min, self.up_min)

    def again_min(self, number: int) -> float:
        """Return minutes until the pot boils again, from its careful temperature."""
        case, again = self.case, self.case.step.reboil[number]
        fired = case.fired_at(again.on)
        return case.up_min(fired, fired.careful_w, self.legs[number].careful_c, case.top_c)

    def done(self, surer: float = 0.0) -> float:
        """Return how far it is done at the table, on the careful side; 1 is done.

        It may be asked for by some deviations more or less than the household's confidence. After a
        second boil the stove is counted as weak and the box as leaky.
        """
        case, whole = self.case, self.case.careful_boil_min
        if not whole:
            return 1.0
        at_top = float(case.rate(np.asarray(case.top_c)))
        holds = self.hold_min + sum(
            r.off - r.on - self.again_min(n) for n, r in enumerate(case.step.reboil)
        )
        rests = self._kitchens.counted_min(case.done_z + surer) + sum(
            cooked_min(self.body, case, leg.minutes, case.done_z) for leg in self.legs[1:]
        )
        return (holds * at_top + rests + self._above_the_boil()) / whole

    def _above_the_boil(self) -> float:
        case, fired = self.case, self.case.fired
        if case.top_c <= case.opened_c:
            return 0.0
        up, down = (case.opened_c, case.top_c), (case.top_c, case.opened_c)
        rise = _weighted(case, fired, fired.hurried_w, up)  # a quick rise cooks least
        return rise + _weighted(case, fired, 0.0, down)


def _weighted(case: Case, fired: Fired, net_w: float, ends: tuple[float, float]) -> float:
    return minutes_between(
        heat_j_k=case.heat_j_k,
        net_w=net_w,
        loss_w_k=fired.loss_w_k,
        air_c=fired.air_c,
        from_c=ends[0],
        to_c=ends[1],
        weight=case.rate,
    )
