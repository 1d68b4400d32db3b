"""One pot on one stove on one day: how long until it boils, what it burns, why it cannot."""

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from optimizer.model.household import OwnStove
from optimizer.model.things import Fuel, Pot
from optimizer.physics import doneness, fuel, heating, safety, water
from optimizer.planning.conditions import Conditions, Refused, air_c, burn_ratio
from optimizer.planning.contents import Load, fill, most_fill, through_min
from optimizer.planning.counting import ON_TIME, Sooner
from optimizer.planning.rising import Rise, rise_of

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


def _heat(load: Load, pot: Pot, own: OwnStove, fuel_: Fuel, at: Conditions) -> Boil | Refused:
    rise = rise_of(load, pot, own, fuel_, at)
    if rise.usual <= 0:
        return Refused("wind", f"the wind takes all of its heat at {at.weather.wind_m_s:.0f} m/s")
    up, soonest, usually, later = rise.whole_s()
    refused = _never_boils(rise, up) or _too_slow(rise)
    if refused:
        return refused
    hold, top, ratio = rise.hold_w(), rise.top_c, rise.ratio
    alone = fuel_.kind == "sun"  # nobody is by in the sun
    fall, free = _pressure_credit(pot, rise)
    return Boil(
        heat_j_k=rise.heat_j_k,
        start_c=rise.start_c,
        top_c=top,
        boil_c=min(top, at.boil_c),
        air_c=rise.air_c,
        bare_w_k=rise.loss_w_k,
        net_w=rise.careful * rise.power_w,
        up_min=up / 60,
        up_j=usually * rise.power_w / ratio,
        hold_w=hold / ratio,
        steam_kg_min=rise.steam_kg_min(hold),
        extra_j_kg=4190.0 * (top - at.place.water_c) / rise.usual / ratio,
        fall_min=fall,
        free_done=free,
        least_hold_min=least_hold_min(load, pot, at, up),
        early_min=0.0 if alone else (up - soonest) / 60,
        sooner=ON_TIME if alone else rise.sooner(up, later),
    )


def _never_boils(rise: Rise, up_s: float) -> Refused | None:
    if np.isfinite(up_s):
        return None
    told = f"levels off at {rise.levels_off_c:.0f} degC, never gets to {rise.top_c:.0f} degC"
    return Refused("no_boil", told)


def _too_slow(rise: Rise) -> Refused | None:
    rules, slow = rise.at.rules, rise.slow_min()
    if slow <= rules.slow_max_min or rise.load.dish.serve != "hot":
        return None
    return Refused(
        "slow",
        f"takes {slow:.0f} min from {rules.slow_from_c:.0f} degC to "
        f"{rules.slow_to_c:.0f} degC, too long to be safe",
    )


def _pressure_credit(pot: Pot, rise: Rise) -> tuple[float, float]:
    """Return minutes until pressure has gone by itself, and the cooking done above the boil."""
    load, at, top = rise.load, rise.at, rise.top_c
    if not pot.gauge_pa or top <= at.boil_c:
        return 0.0, 0.0
    levels = np.linspace(at.boil_c, top, SAMPLES)
    body = {"heat_capacity_j_k": rise.heat_j_k, "loss_w_k": rise.loss_w_k, "air_c": rise.air_c}
    risen = heating.heat_up_s(**body, net_power_w=rise.hurried_w, start_c=at.boil_c, end_c=levels)
    fallen = heating.cooled_s(**body, start_c=top, end_c=levels[::-1])
    rule = {
        "boil_min": careful_boil_min(load, at),
        "z_k": load.dish.z_k,
        "floor_c": load.dish.floor_c,
    }
    up = doneness.credit(time_s=risen, temperature_c=levels, **rule)[-1]
    down = doneness.credit(time_s=fallen, temperature_c=levels[::-1], **rule)[-1]
    return float(np.max(fallen)) / 60, float(up + down)


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
