"""One pot on one stove on one day: how long until it boils, what it burns, why it cannot."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from optimizer.model.household import OwnStove
from optimizer.model.things import Fuel, Pot
from optimizer.physics import doneness, fuel, heating, safety, water
from optimizer.planning.conditions import (
    Conditions,
    Refused,
    air_c,
    bare_loss_w_k,
    burn_ratio,
    efficiency,
    net_spread,
)
from optimizer.planning.contents import Load, fill, most_fill, pot_heat_j_k, through_min
from optimizer.planning.counting import ON_TIME, STRENGTHS, Sooner

LEAST = 1e-3  # of its usual power, of a stove that hardly burns
LATEST_S = 1e6  # of a pot that never boils
SAMPLES = 25  # points on the short rise above the boil and the fall after it


@dataclass(frozen=True, slots=True)
class Boil:
    """A pot brought to its top temperature and held there; energies are in fuel as stocked."""

    heat_j_k: float  # contents and pot
    start_c: float
    top_c: float
    boil_c: float
    air_c: float
    bare_w_k: float
    net_w: float  # into the pot, careful
    up_min: float  # until the top temperature, careful
    up_j: float
    hold_w: float  # fuel burned while holding
    steam_kg_min: float
    extra_j_kg: float  # fuel for a kilogram of water more
    fall_min: float  # pressure gone by itself
    free_done: float  # credit of the rise above the boil and of the fall after it
    least_hold_min: float
    early_min: float = 0.0  # so much sooner a strong stove has a pot off, to rest the longer
    sooner: Sooner = ON_TIME  # the same for stoves of any strength


def boil(load: Load, pot: Pot, own: OwnStove, fuel_: Fuel, at: Conditions) -> Boil | Refused:
    """Return how a pot comes to the boil on a stove, or why it does not."""
    refused = _wrong_pot(load, pot, at) or _wrong_stove(load, own, fuel_, at)
    return refused or _heat(load, pot, own, fuel_, at)


def _wrong_stove(load: Load, own: OwnStove, fuel_: Fuel, at: Conditions) -> Refused | None:
    if own.stove.flame and not _may_burn(own, fuel_):
        return Refused("flame_indoors", f"has a flame that may not burn {own.where}")
    if own.stove.water_only and load.water_kg < load.mass_kg:
        return Refused("water_only", "heats nothing but water")
    if not burn_ratio(fuel_, at):
        return Refused("no_sun", "there is no sun that day")
    return _no_gas(own, fuel_, at)


def _may_burn(own: OwnStove, fuel_: Fuel) -> bool:
    """Tell whether a flame may burn where it stands: outdoors, or an installed vented hob."""
    return own.where == "outdoors" or (own.where == "vented hob" and fuel_.kind != "charcoal")


def _wrong_pot(load: Load, pot: Pot, at: Conditions) -> Refused | None:
    full, rules, pressure = fill(load, pot), at.rules, pot.gauge_pa > 0
    if load.frozen:
        return Refused("frozen", "frozen pieces: thaw them first")
    if pressure and load.dish.foams:
        return Refused("foams", "foams, and could block the vent of a pressure pot")
    most = most_fill(load, pot, rules)
    if full > most:
        return Refused(
            "pot_too_small",
            f"fills {full:.0%} of it and {most:.0%} is the most"
            + (" for a pressure pot" if pressure else ""),
        )
    if load.phaseolus and load.dish.soak_min < rules.bean_soak_min:
        return Refused("bean_soak", f"these beans must be soaked {rules.bean_soak_min / 60:.0f} h")
    if math.isinf(bean_min(load, pot, at)):
        return Refused(
            "bean_boil",
            f"water boils at {at.boil_c:.0f} degC, too cool for these beans: use a pressure pot",
        )
    return None


def bean_min(load: Load, pot: Pot, at: Conditions) -> float:
    """Return minutes at the boil that the rule for Phaseolus beans asks of this pot."""
    rules = at.rules
    return safety.bean_boil_min(
        phaseolus=load.phaseolus,
        pressure=pot.gauge_pa > 0,
        boiling_c=at.boil_c,
        limit_c=rules.bean_boil_c,
        boil_min=rules.bean_boil_min,
        pressure_min=rules.bean_pressure_min,
    )


def _no_gas(own: OwnStove, fuel_: Fuel, at: Conditions) -> Refused | None:
    air = air_c(own, at)
    if fuel_.vapour is None:
        return None
    feeds = fuel.feeds(
        compound=fuel_.vapour,
        air_c=air,
        self_cooling_k=at.rules.gas_self_cooling_k,
        margin=at.rules.gas_margin,
        air_pa=water.air_pressure_pa(at.place.altitude_m),
    )
    return None if feeds else Refused("gas_cold", f"{fuel_.label} will not feed at {air:.0f} degC")


def top_c(load: Load, pot: Pot, at: Conditions) -> float:
    """Return the temperature a pot is brought to: the boil, under pressure, or only warm."""
    if load.dish.heat_c is not None:
        return min(load.dish.heat_c, at.boil_c)
    if not pot.gauge_pa:
        return at.boil_c
    return water.pressure_pot_c(
        air_pa=water.air_pressure_pa(at.place.altitude_m), gauge_pa=pot.gauge_pa
    )


def _heat(load: Load, pot: Pot, own: OwnStove, fuel_: Fuel, at: Conditions) -> Boil | Refused:
    usual = efficiency(own, at)
    spread = net_spread(pot, top_c(load, pot, at), own, fuel_, at)
    careful = usual * max(0.0, 1 - at.done_z * spread)
    if usual <= 0:
        return Refused("wind", f"the wind takes all of its heat at {at.weather.wind_m_s:.0f} m/s")
    ratio = burn_ratio(fuel_, at)
    power, top, air = own.stove.power_w * ratio, top_c(load, pot, at), air_c(own, at)
    loss = bare_loss_w_k(pot, top, own, at)
    heat = load.heat_j_k + pot_heat_j_k(pot)

    def ups_s(shares: Sequence[float], start_c: float, end_c: float) -> NDArray[np.float64]:
        return np.asarray(
            heating.heat_up_s(
                heat_capacity_j_k=heat,
                net_power_w=np.array(shares) * power,
                loss_w_k=loss,
                start_c=start_c,
                end_c=end_c,
                air_c=air,
            )
        )

    start = (load.start_c * load.heat_j_k + at.place.kitchen_c * pot_heat_j_k(pot)) / heat
    strengths = [at.hot_z, 0.0, *STRENGTHS.tolist()]
    shares = [careful, *(usual * max(LEAST, 1 + each * spread) for each in strengths)]
    up, soonest, usually, *later = ups_s(shares, start, top).tolist()
    if not np.isfinite(up):
        level = air + careful * power / loss
        return Refused("no_boil", f"levels off at {level:.0f} degC, never gets to {top:.0f} degC")
    slow_s = ups_s([careful], max(start, at.rules.slow_from_c), at.rules.slow_to_c)
    slow = float(slow_s[0]) / 60
    if slow > at.rules.slow_max_min and load.dish.serve == "hot":
        return Refused(
            "slow",
            f"takes {slow:.0f} min from {at.rules.slow_from_c:.0f} degC to "
            f"{at.rules.slow_to_c:.0f} degC, too long to be safe",
        )
    hold = float(
        heating.hold_power_w(
            low_power_w=own.stove.low_power_w * ratio,
            efficiency=usual,
            loss_w_k=loss,
            temperature_c=top,
            air_c=air,
            steam_leak=at.rules.steam_leak,
        )
    )
    steam = (
        float(
            heating.boiled_off_kg(
                fuel_power_w=hold,
                efficiency=usual,
                loss_w_k=loss,
                temperature_c=top,
                air_c=air,
                time_s=60.0,
                latent_j_kg=water.latent_heat_j_kg(at.boil_c),
            )
        )
        if load.dish.heat_c is None
        else 0.0
    )
    hurried = usual * (1 + at.done_z * spread) * power  # a quick rise cooks least
    never = (loss * (top - air) / (usual * power) - 1) / spread if spread else -math.inf
    sooner = Sooner(tuple(max(up - each, -LATEST_S) / 60 for each in later), never)
    alone = fuel_.kind == "sun"  # nobody is by in the sun
    fall, free = _pressure_credit(load, pot, at, heat, loss, air, hurried, top)
    return Boil(
        heat_j_k=heat,
        start_c=start,
        top_c=top,
        boil_c=min(top, at.boil_c),
        air_c=air,
        bare_w_k=loss,
        net_w=careful * power,
        up_min=up / 60,
        up_j=usually * power / ratio,
        hold_w=hold / ratio,
        steam_kg_min=steam,
        extra_j_kg=4190.0 * (top - at.place.water_c) / usual / ratio,
        fall_min=fall,
        free_done=free,
        least_hold_min=least_hold_min(load, pot, at, up),
        early_min=0.0 if alone else (up - soonest) / 60,
        sooner=ON_TIME if alone else sooner,
    )


def _pressure_credit(
    load: Load,
    pot: Pot,
    at: Conditions,
    heat: float,
    loss: float,
    air: float,
    net_w: float,
    top: float,
) -> tuple[float, float]:
    """Return minutes until pressure has gone by itself, and the cooking done above the boil."""
    if not pot.gauge_pa or top <= at.boil_c:
        return 0.0, 0.0
    levels = np.linspace(at.boil_c, top, SAMPLES)
    rise = heating.heat_up_s(
        heat_capacity_j_k=heat,
        net_power_w=net_w,
        loss_w_k=loss,
        start_c=at.boil_c,
        end_c=levels,
        air_c=air,
    )
    fall = heating.cooled_s(
        heat_capacity_j_k=heat, loss_w_k=loss, start_c=top, air_c=air, end_c=levels[::-1]
    )
    rule = {
        "boil_min": careful_boil_min(load, at),
        "z_k": load.dish.z_k,
        "floor_c": load.dish.floor_c,
    }
    up = doneness.credit(time_s=rise, temperature_c=levels, **rule)[-1]
    down = doneness.credit(time_s=fall, temperature_c=levels[::-1], **rule)[-1]
    return float(np.max(fall)) / 60, float(up + down)


def careful_boil_min(load: Load, at: Conditions) -> float:
    """Return boil minutes that make the dish done at the household's confidence."""
    return load.dish.boil_min * (1 + at.done_z * load.dish.boil_spread)


@lru_cache(maxsize=16384)
def rate_at(temperature_c: float, z_k: float, floor_c: float) -> float:
    """Return how fast a dish cooks beside cooking at 100 degC."""
    return float(doneness.rate(temperature_c=temperature_c, z_k=z_k, floor_c=floor_c))


def least_hold_min(load: Load, pot: Pot, at: Conditions, up_s: float) -> float:
    """Return minutes at the boil before a pot may leave the fire, done or not."""
    rules, dish = at.rules, load.dish
    if dish.heat_c is not None:
        return 0.0
    least = through_min(dish, rules, up_s)
    if dish.disinfects:
        least = max(
            least,
            safety.water_boil_min(
                altitude_m=at.place.altitude_m,
                low_min=rules.water_boil_min,
                high_min=rules.water_boil_high_min,
                high_m=rules.water_high_m,
            ),
        )
    return max(least, bean_min(load, pot, at))
