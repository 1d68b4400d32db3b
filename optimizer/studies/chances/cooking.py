"""One pot of a plan in every try: when it boils, when it leaves the fire, how it rests.

The cook does what the plan says. A pot goes on at its minute, or as soon as its place over the fire
is free. It leaves the fire when it has boiled for as long as the plan says, so a weak stove makes
it late and a strong one early. It is served at its minute; one that is still on the fire then comes
late, and hot: it counts as not done. A pot in the sun is left alone until its minute.
"""

from dataclasses import dataclass, field, replace

import numpy as np

from optimizer.model.household import Item
from optimizer.model.plan import Step
from optimizer.physics import cooling, doneness, heating
from optimizer.planning.boiling import SAMPLES, rate_at
from optimizer.planning.contents import heat_of
from optimizer.planning.resting import vessel
from optimizer.planning.starts import up_again_min
from optimizer.planning.ways import WATER_J_KGK, Way
from optimizer.studies.chances.draws import Array, Draws, Truth
from optimizer.studies.chances.stoves import Burning, burning, day_of

LATEST_MIN = 60.0  # a pot that does not boil is given up so long after its meal
GRAIN_MIN = 5.0  # of the integral of a rest
MOST_POINTS = 65
DONE = 1 - 1e-9


@dataclass(slots=True)
class Course:
    """One pot, followed from fire to table (arrays by try; clock minutes)."""

    step: Step
    item: Item
    way: Way
    draws: Draws
    minutes: Array  # at 100 degC so far
    fuel_j: Array
    off: Array
    boiled: Array
    kept: Truth  # never below the limit before it was boiled again
    rest_c: Array = field(init=False)  # at the end of the last rest

    def burn(self, number: int, start: Array) -> Array:
        """Put the pot on for the first or a later time, and return when it leaves the fire.

        Parameters
        ----------
        number : int
            0, or of the boil again.
        start : ndarray
            Minute at which its place over the fire is free and its time has come.
        """
        if number:
            return self._again(number, start)
        planned = self.step.off - self.step.on
        fire = burning(self.way, day_of(self.step.on), self.draws)
        steam_kg = self.way.steam_kg(planned)
        more_j = steam_kg * WATER_J_KGK * (self.way.boil.top_c - self.way.at.place.water_c)
        up = self._up_min(fire, self._start_c()) + more_j / (60 * fire.net_w)
        self.boiled = self._given_up(start + up)
        hold = max(0.0, self.way.hold_min(planned))
        self.off = np.full_like(start, self.step.off) if self.way.sunny else self.boiled + hold
        self._cook(fire)
        self._fuel(fire, start, at_full=False)
        return self.off

    def _again(self, number: int, start: Array) -> Array:
        again, way = self.step.reboil[number - 1], self.way
        self.rest(start)
        self.kept = self.kept & (self.rest_c >= way.at.rules.hot_c)
        fire = burning(way, day_of(again.on), self.draws)
        planned = float(up_again_min(way, self._careful_c(number)))
        self.boiled = self._given_up(start + self._up_min(fire, self.rest_c))
        self.off = self.boiled + max(0.0, again.off - again.on - planned)
        self._cook(fire)
        self._fuel(fire, start, at_full=True)
        return self.off

    def _careful_c(self, number: int) -> float:
        """Return the temperature from which the plan counts the boil again."""
        again, before = self.step.reboil[number - 1], self.step.reboil[: number - 1]
        since = before[-1].off if before else self.step.off + self.way.fall_min
        return float(self.way.rest.careful_c[(again.on - since) // int(GRAIN_MIN)])

    def _given_up(self, boiled: Array) -> Array:
        return np.minimum(boiled, self.step.serve + LATEST_MIN)

    def _start_c(self) -> Array:
        """Return the mixed temperature of a pot that is filled."""
        rules, load = self.way.at.rules, self.way.load
        water = next((i.food for i in load.dish.ingredients if i.food.name == "water"), None)
        share = heat_of(water) * load.water_kg / self.way.boil.heat_j_k if water else 0.0
        kitchen = self.draws.shift_k("kitchen", rules.air_spread_k)
        tap = self.draws.shift_k("water", rules.water_spread_k)
        return self.way.boil.start_c + share * tap + (1 - share) * kitchen

    def _up_min(self, fire: Burning, from_c: Array) -> Array:
        seconds = heating.heat_up_s(
            heat_capacity_j_k=self.way.boil.heat_j_k,
            net_power_w=fire.net_w,
            loss_w_k=fire.loss_w_k,
            start_c=from_c,
            end_c=self.way.boil.top_c,
            air_c=fire.air_c,
        )
        return np.asarray(seconds) / 60

    def _cook(self, fire: Burning) -> None:
        """Credit the minutes at the top temperature, until the meal at most."""
        dish, top = self.item.dish, self.way.boil.top_c
        held = np.maximum(np.minimum(self.off, self.step.serve) - self.boiled, 0.0)
        self.minutes = self.minutes + held * rate_at(top, dish.z_k, dish.floor_c)
        if self.way.boil.free_done:
            opened = self.off + self.way.boil.fall_min <= self.step.serve
            self.minutes = self.minutes + np.where(opened, self._above_the_boil(fire), 0.0)

    def _above_the_boil(self, fire: Burning) -> Array:
        """Return the minutes at 100 degC of the rise to full pressure and the fall after it."""
        boil, dish = self.way.boil, self.item.dish
        levels = np.linspace(self.way.at.boil_c, boil.top_c, SAMPLES)
        loss, air = fire.loss_w_k[:, None], fire.air_c[:, None]
        rise = heating.heat_up_s(
            heat_capacity_j_k=boil.heat_j_k,
            net_power_w=fire.net_w[:, None],
            loss_w_k=loss,
            start_c=levels[0],
            end_c=levels,
            air_c=air,
        )
        fall = heating.cooled_s(
            heat_capacity_j_k=boil.heat_j_k,
            loss_w_k=loss,
            start_c=levels[-1],
            end_c=levels[::-1],
            air_c=air,
        )
        rise = np.minimum(rise, 60 * LATEST_MIN)
        rule = {"boil_min": 1.0, "z_k": dish.z_k, "floor_c": dish.floor_c}
        up = doneness.credit(time_s=rise, temperature_c=levels, **rule)[:, -1]
        return up + doneness.credit(time_s=fall, temperature_c=levels[::-1], **rule)[:, -1]

    def _fuel(self, fire: Burning, start: Array, *, at_full: bool) -> None:
        """Count what is burned, as stocked; a stove that is not fed is lit for this pot alone."""
        way, stove = self.way, self.way.own.stove
        if way.sunny:
            return
        hold_w = fire.fuel_w if at_full else self._hold_w(fire)
        burnt = (self.boiled - start) * fire.fuel_w + (self.off - self.boiled) * hold_w
        light = 0.0 if stove.tended else stove.start_j * fire.usual_heat / fire.heat
        self.fuel_j = self.fuel_j + 60 * burnt + light

    def _hold_w(self, fire: Burning) -> Array:
        hold = heating.hold_power_w(
            low_power_w=self.way.own.stove.low_power_w * fire.heat,
            efficiency=fire.efficiency,
            loss_w_k=fire.loss_w_k,
            temperature_c=self.way.boil.top_c,
            air_c=fire.air_c,
            steam_leak=self.way.at.rules.steam_leak,
        )
        return np.asarray(hold) / fire.heat

    def rest(self, until: Array) -> None:
        """Let the pot rest from where it left the fire until a minute."""
        if self.item.drawn:
            self._drawn_on()
            return
        self._rest(until)

    def _drawn_on(self) -> None:
        """Let it rest until its first draw, and draw on it until the last one."""
        self._rest(np.full_like(self.off, self.item.first_min))
        way, rules = self.way, self.way.at.rules
        name = way.cooker.cooker.name if way.cooker else way.pot.name
        loss = way.body.loss_w_k * self.draws.factor(f"loss of {name}", way.body.loss_spread)
        room = way.body.room_c + self.draws.shift_k("kitchen", rules.air_spread_k)
        usual = vessel(way.load, way.body, way.at, 0.0, 0.0)
        mine = replace(usual, loss_w_k=loss, room_c=room, packing_c=room)
        first = self.item.first_min - self.off - way.fall_min - way.body.move_min
        levels = mine.levels(60 * np.maximum(first, 0.0), way.load.draws)
        for draw, level in zip(way.load.draws, levels, strict=True):
            need = way.draw_need_c(draw)
            self.kept = self.kept & (np.asarray(level) >= need)
        self.rest_c = np.asarray(levels[-1])

    def _rest(self, until: Array) -> None:
        body, dish, rules = self.way.body, self.item.dish, self.way.at.rules
        wait = np.clip(until - self.off - self.way.fall_min, 0.0, None)
        name = self.way.cooker.cooker.name if self.way.cooker else self.way.pot.name
        points = int(np.clip(np.ceil(wait.max() / GRAIN_MIN) + 1, 2, MOST_POINTS))
        room_c = body.room_c + self.draws.shift_k("kitchen", rules.air_spread_k)
        loss = body.loss_w_k * self.draws.factor(f"loss of {name}", body.loss_spread)
        time = 60 * wait[:, None] * np.linspace(0.0, 1.0, points)
        level, _ = cooling.two_body_c(
            time_s=np.maximum(time - 60 * body.move_min, 0.0),
            contents_j_k=body.contents_j_k,
            packing_j_k=body.packing_j_k,
            loss_w_k=loss[:, None],
            start_c=body.start_c,
            packing_start_c=body.room_c,
            room_c=room_c[:, None],
        )
        rule = {"boil_min": 1.0, "z_k": dish.z_k, "floor_c": dish.floor_c}
        credit = doneness.credit(time_s=time, temperature_c=level, **rule)
        self.minutes = self.minutes + credit[:, -1]
        self.rest_c = room_c + body.shared_out * (np.asarray(level)[:, -1] - room_c)

    def serve(self) -> None:
        """Let the pot rest until its meal."""
        self.rest(np.full_like(self.off, self.step.serve))

    @property
    def done(self) -> Array:
        """How far it is done at the table, by try; 1 is done."""
        dish = self.item.dish
        whole = dish.boil_min * self.draws.factor(f"boil minutes of {dish.name}", dish.boil_spread)
        return self.minutes / whole if dish.boil_min else np.ones_like(self.minutes)

    @property
    def table_c(self) -> Array:
        """Temperature at the table, by try; what is late comes when it has boiled, hot [degC]."""
        return np.where(self.off <= self.step.serve, self.rest_c, self.way.boil.boil_c)
