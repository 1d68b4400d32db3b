"""Where and when a pot is heated: place, weather, and what a stove gives there that day."""

from dataclasses import dataclass
from statistics import NormalDist

from optimizer.model.household import OwnStove, Place, Weather
from optimizer.model.things import Fuel, Pot, Rules
from optimizer.physics import fuel, heating, water

CALM = 0.0


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
        return water.boiling_point_c(water.air_pressure_pa(self.place.altitude_m))

    @property
    def done_z(self) -> float:
        """Standard deviations that make a dish done at the household's confidence."""
        return NormalDist().inv_cdf(self.confidence)

    @property
    def hot_z(self) -> float:
        """Standard deviations that keep food hot at the rules' confidence."""
        return NormalDist().inv_cdf(self.rules.hot_confidence)


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
    if own.stove.loss_w_k is not None:
        return own.stove.loss_w_k
    return float(
        heating.pot_loss_w_k(
            diameter_m=pot.diameter_m,
            height_m=pot.height_m,
            surface_c=top_c,
            air_c=air_c(own, at),
            wind_m_s=wind_m_s(own, at),
            emissivity=pot.emissivity,
        )
    )


def efficiency(own: OwnStove, at: Conditions, spreads: float) -> float:
    """Return the stove's efficiency in today's wind and rain, so many spreads below the usual."""
    stove, wet = own.stove, at.weather.rain and own.where == "outdoors"
    left = (1 - stove.wind_loss * wind_m_s(own, at)) * (1 - wet * at.rules.rain_loss)
    return stove.efficiency * left * (1 - spreads * stove.efficiency_spread)
