"""One pot over one fire until it boils: what warms it, what it loses, how long it takes."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from optimizer.model.household import OwnStove
from optimizer.model.things import Fuel, Pot
from optimizer.physics import heating, water
from optimizer.planning.conditions import (
    Conditions,
    air_c,
    bare_loss_w_k,
    burn_ratio,
    efficiency,
    net_spread,
)
from optimizer.planning.contents import Load, pot_heat_j_k
from optimizer.planning.counting import STRENGTHS, Sooner

LEAST = 1e-3  # of its usual power, of a stove that hardly burns
LATEST_S = 1e6  # of a pot that never boils


@dataclass(frozen=True, slots=True)
class Rise:
    """What the way of a pot to its top temperature depends on."""

    load: Load
    own: OwnStove
    at: Conditions
    ratio: float  # of the stove's power, as it burns that day
    usual: float  # efficiency
    spread: float  # of the power into the pot, as a share
    top_c: float
    air_c: float
    heat_j_k: float  # contents and pot
    loss_w_k: float
    start_c: float

    @property
    def careful(self) -> float:
        """Efficiency that the stove has as often as is wanted."""
        return self.usual * max(0.0, 1 - self.at.done_z * self.spread)

    @property
    def power_w(self) -> float:
        """Power of the fuel."""
        return self.own.stove.power_w * self.ratio

    @property
    def hurried_w(self) -> float:
        """Power into the pot of a strong stove: a quick rise cooks least."""
        return self.usual * (1 + self.at.done_z * self.spread) * self.power_w

    @property
    def levels_off_c(self) -> float:
        """Temperature that a careful stove gets the pot to, in the end."""
        return self.air_c + self.careful * self.power_w / self.loss_w_k

    def seconds(self, shares: Sequence[float], start_c: float, end_c: float) -> NDArray[np.float64]:
        """Return how long it takes from one temperature to another, for each efficiency."""
        return np.asarray(
            heating.heat_up_s(
                heat_capacity_j_k=self.heat_j_k,
                net_power_w=np.array(shares) * self.power_w,
                loss_w_k=self.loss_w_k,
                start_c=start_c,
                end_c=end_c,
                air_c=self.air_c,
            )
        )

    def whole_s(self) -> tuple[float, float, float, list[float]]:
        """Return seconds to the top: careful, of a strong stove, usual, and of all strengths."""
        strengths = [self.at.hot_z, 0.0, *STRENGTHS.tolist()]
        shares = (self.usual * max(LEAST, 1 + each * self.spread) for each in strengths)
        up, soonest, usually, *later = self.seconds(
            [self.careful, *shares], self.start_c, self.top_c
        ).tolist()
        return up, soonest, usually, later

    def slow_min(self) -> float:
        """Return minutes between the temperatures in which food must not dwell."""
        rules = self.at.rules
        begin = max(self.start_c, rules.slow_from_c)
        return float(self.seconds([self.careful], begin, rules.slow_to_c)[0]) / 60

    def sooner(self, up_s: float, later_s: Sequence[float]) -> Sooner:
        """Return how much sooner than the careful one a stove of each strength gets there."""
        bare = self.loss_w_k * (self.top_c - self.air_c) / (self.usual * self.power_w)
        never = (bare - 1) / self.spread if self.spread else -math.inf
        return Sooner(tuple(max(up_s - each, -LATEST_S) / 60 for each in later_s), never)

    def hold_w(self) -> float:
        """Return the power of fuel that holds the pot at its top."""
        return float(
            heating.hold_power_w(
                low_power_w=self.own.stove.low_power_w * self.ratio,
                efficiency=self.usual,
                loss_w_k=self.loss_w_k,
                temperature_c=self.top_c,
                air_c=self.air_c,
                steam_leak=self.at.rules.steam_leak,
            )
        )

    def steam_kg_min(self, hold_w: float) -> float:
        """Return what boils off in a minute at that power; nothing of what is only warmed."""
        if self.load.dish.heat_c is not None:
            return 0.0
        return float(
            heating.boiled_off_kg(
                fuel_power_w=hold_w,
                efficiency=self.usual,
                loss_w_k=self.loss_w_k,
                temperature_c=self.top_c,
                air_c=self.air_c,
                time_s=60.0,
                latent_j_kg=water.latent_heat_j_kg(self.at.boil_c),
            )
        )


def rise_of(load: Load, pot: Pot, own: OwnStove, fuel_: Fuel, at: Conditions) -> Rise:
    """Return what the way of a pot to its top temperature on a stove depends on."""
    top, mine = top_c(load, pot, at), pot_heat_j_k(pot)
    heat = load.heat_j_k + mine
    return Rise(
        load=load,
        own=own,
        at=at,
        ratio=burn_ratio(fuel_, at),
        usual=efficiency(own, at),
        spread=net_spread(pot, top, own, fuel_, at),
        top_c=top,
        air_c=air_c(own, at),
        heat_j_k=heat,
        loss_w_k=bare_loss_w_k(pot, top, own, at),
        start_c=(load.start_c * load.heat_j_k + at.place.kitchen_c * mine) / heat,
    )


def top_c(load: Load, pot: Pot, at: Conditions) -> float:
    """Return the temperature a pot is brought to: the boil, under pressure, or only warm."""
    if load.dish.heat_c is not None:
        return min(load.dish.heat_c, at.boil_c)
    if not pot.gauge_pa:
        return at.boil_c
    return water.pressure_pot_c(
        air_pa=water.air_pressure_pa(at.place.altitude_m), gauge_pa=pot.gauge_pa
    )
