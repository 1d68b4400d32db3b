"""A stove on one day in every try: wind, wood, the stove itself and how it is fed."""

from dataclasses import dataclass

import numpy as np

from optimizer.model.household import DAY_MIN, OwnStove, Weather
from optimizer.model.things import Fuel, Pot, Rules
from optimizer.physics import fuel, heating
from optimizer.planning.conditions import (
    MOST_WIND_M_S,
    Conditions,
    air_c,
    burn_ratio,
    wind_m_s,
)
from optimizer.planning.ways import Way
from optimizer.studies.chances.draws import Array, Draws

LEAST_EFFICIENCY, MOST_EFFICIENCY = 0.01, 0.99
MOST_MOISTURE = 0.6
WINDS = np.linspace(0.0, 2.5, 6)  # of the usual wind: where a pot's loss is worked out


@dataclass(frozen=True, slots=True)
class Burning:
    """What a stove gives to one pot on one day (arrays by try, but for the temperatures)."""

    fuel_w: Array  # burned at full power, as stocked
    efficiency: Array
    heat: Array  # of the fuel as it burns over its heat as stocked
    usual_heat: float  # the same as the plan counts it
    loss_w_k: Array  # of the pot
    air_c: Array

    @property
    def net_w(self) -> Array:
        """Heat into the pot at full power [W]."""
        return self.efficiency * self.heat * self.fuel_w


def burning(way: Way, day: int, draws: Draws) -> Burning:
    """Return what a way's stove gives on a day.

    Parameters
    ----------
    way : Way
        Stove, fuel and pot.
    day : int
        From 1.
    draws : Draws
        The tries.
    """
    own, at, stove = way.own, way.at, way.own.stove
    wind = winds(own, at, day, draws)
    return Burning(
        fuel_w=stove.power_w * power(own, at.rules, draws),
        efficiency=efficiency(own, at, wind, draws),
        heat=heat(way.store.fuel, at, draws),
        usual_heat=burn_ratio(way.store.fuel, at),
        loss_w_k=_loss_w_k(way.pot, way.boil.top_c, own, at, wind),
        air_c=air(own, at, day, draws),
    )


def day_of(minute: int) -> int:
    """Return the day of a minute, from 1."""
    return minute // DAY_MIN + 1


def winds(own: OwnStove, at: Conditions, day: int, draws: Draws) -> Array:
    """Return the wind where a stove stands, by try [m/s]."""
    usual = wind_m_s(own, at)
    factor = draws.factor(f"wind of day {day}", at.rules.wind_spread)
    return np.minimum(usual * factor, MOST_WIND_M_S)


def air(own: OwnStove, at: Conditions, day: int, draws: Draws) -> Array:
    """Return the air where a stove stands, by try [degC]."""
    outdoors = own.where == "outdoors"
    cause = f"air of day {day}" if outdoors else "kitchen"
    return air_c(own, at) + draws.shift_k(cause, at.rules.air_spread_k)


def power(own: OwnStove, rules: Rules, draws: Draws) -> Array:
    """Return a stove's power over its usual one, by try; what has no flame keeps its own."""
    spread = rules.power_spread if own.stove.flame else 0.0
    return draws.factor(f"power of {own.stove.name}", spread)


def efficiency(own: OwnStove, at: Conditions, wind: Array, draws: Draws) -> Array:
    """Return a stove's efficiency in the day's wind and rain, by try."""
    stove, weather = own.stove, at.weather
    left = (1 - stove.wind_loss * wind) * (1 - _rain(own, weather) * at.rules.rain_loss)
    itself = draws.factor(f"efficiency of {stove.name}", stove.efficiency_spread)
    return np.clip(stove.efficiency * left * itself, LEAST_EFFICIENCY, MOST_EFFICIENCY)


def _rain(own: OwnStove, weather: Weather) -> bool:
    return weather.rain and own.where == "outdoors"


def heat(item: Fuel, at: Conditions, draws: Draws) -> Array:
    """Return the heat of a fuel as it burns over its heat as stocked, by try."""
    value = draws.factor(f"heat of {item.name}", item.lhv_spread)
    if item.kind != "wood" or item.lhv_j_kg is None:
        return burn_ratio(item, at) * value
    usual = max(at.rules.wet_moisture, item.moisture) if at.weather.wet_sticks else item.moisture
    damp = usual * draws.factor(f"water in {item.name}", at.rules.moisture_spread)
    damp = np.minimum(damp, MOST_MOISTURE)
    return value * _lower_j_kg(item.lhv_j_kg, damp) / _lower_j_kg(item.lhv_j_kg, item.moisture)


def _lower_j_kg(dry_j_kg: float, moisture: float | Array) -> Array:
    return np.asarray(
        fuel.lower_heating_value_j_kg(dry_j_kg=np.asarray(dry_j_kg), moisture=np.asarray(moisture))
    )


def _loss_w_k(pot: Pot, top_c: float, own: OwnStove, at: Conditions, wind: Array) -> Array:
    """Return a pot's loss on a stove in each try's wind, between a few that are worked out."""
    if own.stove.loss_w_k is not None:
        return np.full(len(wind), own.stove.loss_w_k)
    usual = wind_m_s(own, at)
    knots = np.minimum(usual * WINDS, MOST_WIND_M_S) if usual else np.zeros(1)
    losses = [
        heating.pot_loss_w_k(
            diameter_m=pot.diameter_m,
            height_m=pot.height_m,
            surface_c=top_c,
            air_c=air_c(own, at),
            wind_m_s=float(knot),
            emissivity=pot.emissivity,
        )
        for knot in knots
    ]
    return np.interp(wind, knots, losses)
