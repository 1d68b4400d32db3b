"""What is steeped with water off a big boil: mixed, and integrated in its jar to the table."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from optimizer.model.household import Drawing, Steep
from optimizer.model.plan import Drawn
from optimizer.physics import food, water
from optimizer.planning.checks.dish import MEAN_C, WATER_J_KGK, Case, parts_of
from optimizer.planning.checks.heat import Curve, credited, falling
from optimizer.planning.checks.levels import Mouth, open_c

NEAR_K = 0.3  # the careful water's own tolerance, and half a step
NEAR_DONE = 0.03
EVEN = 1e-6
UNDER_DONE = 0.05  # the planner's sums in steps of the clock err to less


@dataclass(frozen=True)
class Jar:
    """A jar with what is steeped in it."""

    case: Case
    steep: Steep

    @property
    def kg(self) -> list[float]:
        """Mass of each food."""
        return [each.kg * self.steep.portions for each in self.steep.dish.ingredients]

    @property
    def heats(self) -> list[float]:
        """Heat of each food [J/K]."""
        foods = [each.food for each in self.steep.dish.ingredients]
        return [
            kg * float(food.specific_heat_j_kgk(**parts_of(f), temperature_c=MEAN_C))
            for kg, f in zip(self.kg, foods, strict=True)
        ]

    @property
    def volume_m3(self) -> float:
        """What it comes to, cooked."""
        foods = [each.food for each in self.steep.dish.ingredients]
        return sum(
            kg / float(food.density_kg_m3(**parts_of(f), temperature_c=MEAN_C))
            for kg, f in zip(self.kg, foods, strict=True)
        )

    def shut_c(self, water_c: float) -> float:
        """Return its temperature when it is shut, by a balance of heat."""
        cooker, room = self.steep.cooker, self.case.scenario.place.kitchen_c
        hot = sum(
            heat
            for heat, each in zip(self.heats, self.steep.dish.ingredients, strict=True)
            if each.food.name == "water"
        )
        cold = sum(self.heats) - hot + (0.0 if cooker.preheated else cooker.liner_j_k)
        mixed = (hot * water_c + cold * room) / (hot + cold)
        wide = (4 * (cooker.volume_m3 or 0.0) / math.pi) ** (1 / 3)
        mouth = Mouth(math.pi * wide**2 / 4, 0.0, self.case.scenario.rules.draw_open_min)
        return open_c(mixed, sum(self.heats) + cooker.liner_j_k, room, mouth)

    def loss_w_k(self) -> float:
        """Return what the jar loses, by its rating."""
        jar = self.steep.cooker
        if jar.loss_w_k is not None:
            return jar.loss_w_k
        full_c, room_c = jar.rated_start_c or 0.0, jar.rated_room_c or 0.0
        full = (jar.volume_m3 or 0.0) * water.density_kg_m3(full_c) * WATER_J_KGK + jar.liner_j_k
        fall = math.log((full_c - room_c) / ((jar.rated_c or 0.0) - room_c))
        return full * fall / (3600 * (jar.rated_h or 0.0))

    def curve(self, water_c: float, spreads: float, colder_k: float) -> Curve:
        """Return its temperature minute by minute until the table."""
        return falling(
            contents_j_k=sum(self.heats) + self.steep.cooker.liner_j_k,
            packing_j_k=0.0,
            loss_w_k=self.loss_w_k() * (1 + spreads * self.steep.cooker.loss_spread),
            start_c=self.shut_c(water_c),
            room_c=self.case.scenario.place.kitchen_c - colder_k,
            minutes=self.steep.minutes,
        )

    def done(self, water_c: float) -> float:
        """Return how far it is done at the table, on the careful side."""
        dish = self.steep.dish

        def rate(at: Curve) -> Curve:
            return np.where(at >= dish.floor_c, 10 ** ((at - 100) / dish.z_k), 0.0)

        found = credited(self.curve(water_c, self.case.done_z, 0.0), self.steep.minutes, rate)
        return found / (dish.boil_min * (1 + self.case.done_z * dish.boil_spread))


def steep_faults(
    case: Case, each: Drawn, draw: Drawing, usual_c: float, careful_c: float
) -> Iterator[str]:
    """Yield a steeped dish that is not done, not hot, too much for its jar, or told wrongly."""
    steep, told = draw.steep, each.steeped
    name = f"{case.name}, {each.use} steeped"
    if steep is None or told is None:
        yield f"{name}: is not told"
        return
    if (told.cooker, told.serve) != (steep.cooker.name, each.at + steep.minutes):
        yield f"{name}: is told in another jar, or for another time"
    jar, rules = Jar(case, steep), case.scenario.rules
    if jar.volume_m3 > (steep.cooker.volume_m3 or 0.0) + EVEN:
        yield f"{name}: {1000 * jar.volume_m3:.1f} L do not go into {steep.cooker.name}"
    usual = float(jar.curve(usual_c, 0.0, 0.0)[-1])
    low = float(jar.curve(careful_c, case.hot_z, rules.air_spread_k)[-1])
    for said, true in ((told.usual_c, usual), (told.careful_c, low)):
        if not abs(said - true) <= NEAR_K:
            yield f"{name}: is {true:.2f} degC at the table, not {said:.2f}"
    if low < rules.hot_c - NEAR_K:
        yield f"{name}: may be only {low:.1f} degC at the table, not {rules.hot_c:.0f}"
    done = jar.done(careful_c)
    if done < 1 - NEAR_DONE or not done - UNDER_DONE <= told.done <= done + NEAR_DONE:
        yield f"{name}: is {done:.3f} done, told as {told.done:.3f}"
