"""Where and when a pot is heated: place, weather, and what a stove gives there that day."""

import math
from dataclasses import dataclass
from functools import lru_cache
from statistics import NormalDist

from optimizer.model.household import OwnStove, Place, Weather
from optimizer.model.things import Fuel, Pot, Rules
from optimizer.physics import fuel, heating, water

CALM = 0.0
MOST_WIND_M_S = 25.0  # that the loss of a pot is known for


@dataclass(frozen=True, slots=True)
class Conditions:
    """Where and when a pot is heated, and how sure the household wants to be."""

    place: Place
    weather: Weather
    rules: Rules
    confidence: float

    @property
    def boil_c(self) -> float:
        """Temperature at which water boils here [degC]."""
        return _boil_c(self.place.altitude_m)

    @property
    def done_z(self) -> float:
        """Standard deviations that make a dish done at the household's confidence."""
        return _deviations(self.confidence)

    @property
    def hot_z(self) -> float:
        """Standard deviations that keep food hot at the rules' confidence."""
        return _deviations(self.rules.hot_confidence)


@lru_cache(maxsize=256)
def _boil_c(altitude_m: float) -> float:
    return water.boiling_point_c(water.air_pressure_pa(altitude_m))


@lru_cache(maxsize=256)
def _deviations(confidence: float) -> float:
    return NormalDist().inv_cdf(confidence)


@dataclass(frozen=True, slots=True)
class Refused:
    """Why a way cannot work: a code, and a reason a cook understands."""

    code: str
    reason: str


def air_c(own: OwnStove, at: Conditions) -> float:
    """Return the temperature of the air where a stove stands [degC]."""
    return at.weather.outdoors_c if own.where == "outdoors" else at.place.kitchen_c


def wind_m_s(own: OwnStove, at: Conditions) -> float:
    """Return the wind where a stove stands [m/s]."""
    return at.weather.wind_m_s if own.where == "outdoors" else CALM


def burn_ratio(fuel_: Fuel, at: Conditions) -> float:
    """Return the heat of a fuel as it burns today over its heat as stocked.

    Wet sticks give less; sunshine gives as much as there is of the standard's.
    """
    if fuel_.kind == "sun":
        return 0.0 if at.weather.rain else at.weather.sun_w_m2 / at.rules.sun_standard_w_m2
    if fuel_.lhv_j_kg is None or fuel_.kind != "wood" or not at.weather.wet_sticks:
        return 1.0
    wet = max(at.rules.wet_moisture, fuel_.moisture)
    return float(
        fuel.lower_heating_value_j_kg(dry_j_kg=fuel_.lhv_j_kg, moisture=wet)
        / fuel.lower_heating_value_j_kg(dry_j_kg=fuel_.lhv_j_kg, moisture=fuel_.moisture)
    )


def bare_loss_w_k(pot: Pot, top_c: float, own: OwnStove, at: Conditions) -> float:
    """Return the loss of a pot on a stove, or inside one that says it itself [W/K]."""
    return _loss_in_w_k(pot, top_c, own, at, wind_m_s(own, at))


def _loss_in_w_k(pot: Pot, top_c: float, own: OwnStove, at: Conditions, wind: float) -> float:
    if own.stove.loss_w_k is not None:
        return own.stove.loss_w_k
    return float(
        heating.pot_loss_w_k(
            diameter_m=pot.diameter_m,
            height_m=pot.height_m,
            surface_c=top_c,
            air_c=air_c(own, at),
            wind_m_s=wind,
            emissivity=pot.emissivity,
        )
    )


def efficiency(own: OwnStove, at: Conditions) -> float:
    """Return the stove's usual efficiency in today's wind and rain."""
    stove, wet = own.stove, at.weather.rain and own.where == "outdoors"
    return stove.efficiency * _left_by_wind(own, at) * (1 - wet * at.rules.rain_loss)


def _left_by_wind(own: OwnStove, at: Conditions) -> float:
    return 1 - own.stove.wind_loss * wind_m_s(own, at)


def net_spread(pot: Pot, top_c: float, own: OwnStove, fuel_: Fuel, at: Conditions) -> float:
    """Return the relative standard deviation of the heat that a pot gets at its hottest.

    The stove itself, how it is fed, the wind, the fuel and the water in it vary each by itself.
    """
    return math.hypot(
        own.stove.efficiency_spread,
        at.rules.power_spread if own.stove.flame else 0.0,
        _wind_spread(pot, top_c, own, fuel_, at),
        fuel_.lhv_spread,
        _damp_spread(fuel_, at),
    )


def _wind_spread(pot: Pot, top_c: float, own: OwnStove, fuel_: Fuel, at: Conditions) -> float:
    """Return what the wind alone makes of it: it takes from the flame and from the pot."""
    usual_w = efficiency(own, at) * own.stove.power_w * burn_ratio(fuel_, at)
    wind = wind_m_s(own, at)
    if not wind or usual_w <= 0:
        return 0.0
    more = min(wind * (1 + at.rules.wind_spread), MOST_WIND_M_S)
    lost = _loss_in_w_k(pot, top_c, own, at, more) - bare_loss_w_k(pot, top_c, own, at)
    from_flame = own.stove.wind_loss * (more - wind) / _left_by_wind(own, at)
    return from_flame + lost * (top_c - air_c(own, at)) / usual_w


def _damp_spread(fuel_: Fuel, at: Conditions) -> float:
    """Return the relative standard deviation of wood's heat that the water in it makes."""
    if fuel_.kind != "wood" or fuel_.lhv_j_kg is None:
        return 0.0
    water_ = max(at.rules.wet_moisture, fuel_.moisture) if at.weather.wet_sticks else fuel_.moisture
    off = water_ * at.rules.moisture_spread
    heats = [
        float(fuel.lower_heating_value_j_kg(dry_j_kg=fuel_.lhv_j_kg, moisture=each))
        for each in (water_ - off, water_, water_ + off)
    ]
    return (heats[0] - heats[2]) / (2 * heats[1])
