"""One step of a plan beside what the household has: everything recomputed from the records."""

import math
from dataclasses import dataclass
from functools import cached_property
from statistics import NormalDist

import numpy as np

from optimizer.model.household import (
    DAY_MIN,
    Item,
    OwnCooker,
    OwnPot,
    OwnStove,
    Scenario,
    Store,
    Weather,
)
from optimizer.model.plan import Step
from optimizer.model.things import Food, Fuel
from optimizer.physics import food, fuel, heating, water
from optimizer.planning.checks.heat import Curve, minutes_between

MEAN_C = 60.0  # food properties are taken midway between tap and boil
LEAST_W = 1e-6  # into a pot on a stove that may give nothing
WATER_J_KGK = 4190.0
DRY, WET = 0.2, 0.5  # a food so dry swells; a dish with so much liquid is a soup
CLOCK_MIN = 5  # waits are planned on this grid


def parts_of(item: Food) -> dict[str, float]:
    """Return a food's composition."""
    names = ("water", "protein", "fat", "carbohydrate", "fibre", "ash")
    return {name: getattr(item, name) for name in names}


def heat_of(fuel_: Fuel) -> float | None:
    """Return the heat of a kilogram as stocked [J/kg]; None for what has no mass."""
    if fuel_.lhv_j_kg is None:
        return None
    return fuel.lower_heating_value_j_kg(dry_j_kg=fuel_.lhv_j_kg, moisture=fuel_.moisture)


def next_step(minutes: float) -> int:
    """Return minutes rounded up to the clock's step."""
    return math.ceil(minutes / CLOCK_MIN - 1e-9) * CLOCK_MIN


def price_mj(store: Store) -> float:
    """Return what a megajoule of a fuel costs."""
    heat = heat_of(store.fuel)
    return 1e6 * ((store.price_j or 0.0) if heat is None else (store.price_kg or 0.0) / heat)


@dataclass(frozen=True)
class Fired:
    """A pot over a stove in one day's weather."""

    air_c: float
    loss_w_k: float
    usual: float  # efficiency
    usual_w: float  # into the pot at full power
    careful_w: float
    hurried_w: float  # as much above the usual as the careful is below
    soonest_w: float  # above it as far as hot food is looked at
    spread: float  # relative, of the usual
    ratio: float  # heat of the fuel as it burns that day over heat as stocked


@dataclass(frozen=True)
class Case:
    """One step and the things it names."""

    step: Step
    item: Item
    own: OwnStove
    store: Store
    own_pot: OwnPot
    cooker: OwnCooker | None
    scenario: Scenario
    pots: int  # among which the dish is shared evenly

    @property
    def name(self) -> str:
        """How the step is called in a complaint."""
        return f"{self.step.item}, {self.step.meal} of day {self.step.day}"

    @property
    def sunny(self) -> bool:
        """Whether the sun heats it: no fire, no fuel, nobody beside it."""
        return self.store.fuel.kind == "sun"

    @property
    def burns(self) -> tuple[tuple[int, int], ...]:
        """When the pot is over the fire."""
        again = tuple((r.on, r.off) for r in self.step.reboil)
        return ((self.step.on, self.step.off), *again)

    @cached_property
    def done_z(self) -> float:
        """Spreads to the careful side for being done."""
        return NormalDist().inv_cdf(self.scenario.confidence)

    @cached_property
    def hot_z(self) -> float:
        """Spreads to the careful side for being hot."""
        return NormalDist().inv_cdf(self.scenario.rules.hot_confidence)

    @cached_property
    def foods(self) -> tuple[tuple[Food, float], ...]:
        """Foods and their masses [kg]."""
        item = self.item
        portions = (item.adults + item.children * item.dish.child_share) / self.pots
        return tuple((i.food, i.kg * portions) for i in item.dish.ingredients)

    @cached_property
    def _heats(self) -> tuple[float, ...]:
        return tuple(
            kg * float(food.specific_heat_j_kgk(**parts_of(f), temperature_c=MEAN_C))
            for f, kg in self.foods
        )

    @property
    def contents_j_k(self) -> float:
        """Heat capacity of the food."""
        return sum(self._heats)

    @property
    def pieces_j_k(self) -> float:
        """Heat capacity of what lies in pieces."""
        pairs = zip(self._heats, self.foods, strict=True)
        return sum(heat for heat, (f, _) in pairs if f.shape != "liquid")

    @property
    def heat_j_k(self) -> float:
        """Heat capacity of food and pot."""
        pot = self.own_pot.pot
        return self.contents_j_k + pot.mass_kg * pot.specific_heat_j_kgk

    @cached_property
    def start_c(self) -> float:
        """Temperature of food and pot together when it goes on."""
        place = self.scenario.place
        water_j_k = sum(
            heat for heat, (f, _) in zip(self._heats, self.foods, strict=True) if f.name == "water"
        )
        return place.kitchen_c + water_j_k * (place.water_c - place.kitchen_c) / self.heat_j_k

    @cached_property
    def volume_m3(self) -> float:
        """Cooked volume."""
        return sum(
            kg / float(food.density_kg_m3(**parts_of(f), temperature_c=MEAN_C))
            for f, kg in self.foods
        )

    @property
    def swells(self) -> bool:
        """Whether the lower fill limit of pressure pots holds: pulses, grains, soups."""
        liquid = sum(kg for f, kg in self.foods if f.shape == "liquid")
        dry = any(f.water < DRY and f.shape != "liquid" for f, _ in self.foods)
        soup = "soup" in self.item.dish.label.lower()
        return dry or soup or liquid > WET * sum(kg for _, kg in self.foods)

    @cached_property
    def air_pa(self) -> float:
        """Air pressure."""
        return water.air_pressure_pa(self.scenario.place.altitude_m)

    @cached_property
    def open_boil_c(self) -> float:
        """Where water boils in an open pot."""
        return water.boiling_point_c(self.air_pa)

    @cached_property
    def top_c(self) -> float:
        """Temperature the pot is brought to."""
        wanted, gauge = self.item.dish.heat_c, self.own_pot.pot.gauge_pa
        if wanted is not None:
            return min(wanted, self.open_boil_c)
        return water.boiling_point_c(self.air_pa + gauge) if gauge else self.open_boil_c

    @property
    def opened_c(self) -> float:
        """Top temperature without pressure."""
        return min(self.top_c, self.open_boil_c)

    @cached_property
    def careful_boil_min(self) -> float:
        """Minutes at 100 degC that make it done at the household's confidence."""
        return self.item.dish.boil_min * (1 + self.done_z * self.item.dish.boil_spread)

    def rate(self, level: Curve) -> Curve:
        """Return how fast it cooks beside cooking at 100 degC."""
        dish = self.item.dish
        return np.where(level >= dish.floor_c, 10.0 ** ((level - 100.0) / dish.z_k), 0.0)

    def weather(self, minute: int) -> Weather:
        """Return the weather of the day of a clock minute."""
        days = self.scenario.weather
        return days[min(max(minute // DAY_MIN, 0), len(days) - 1)]

    @cached_property
    def fired(self) -> Fired:
        """The pot over the stove when it goes on."""
        return self.fired_at(self.step.on)

    def fired_at(self, minute: int) -> Fired:
        """Return the pot over the stove at a clock minute."""
        stove, pot, weather = self.own.stove, self.own_pot.pot, self.weather(minute)
        outdoors = self.own.where == "outdoors"
        wind = weather.wind_m_s if outdoors else 0.0
        air = weather.outdoors_c if outdoors else self.scenario.place.kitchen_c
        wet = 1 - self.scenario.rules.rain_loss if outdoors and weather.rain else 1.0
        usual = stove.efficiency * (1 - stove.wind_loss * wind) * wet
        ratio = self._burn_ratio(weather)
        usual_w = usual * stove.power_w * ratio
        stronger = min(wind * (1 + self.scenario.rules.wind_spread), 25.0)
        loss, windy = (
            heating.pot_loss_w_k(
                diameter_m=pot.diameter_m,
                height_m=pot.height_m,
                surface_c=self.top_c,
                air_c=air,
                wind_m_s=blowing,
                emissivity=pot.emissivity,
            )
            if stove.loss_w_k is None
            else stove.loss_w_k
            for blowing in (wind, stronger)
        )
        flame = stove.efficiency * wet * stove.power_w * ratio  # in still air
        taken_w = flame * stove.wind_loss * (stronger - wind) + (windy - loss) * (self.top_c - air)
        spread = self._net_spread(weather, taken_w / usual_w if usual_w > 0 else 0.0)
        return Fired(
            air_c=air,
            loss_w_k=loss,
            usual=usual,
            usual_w=usual_w,
            careful_w=max(LEAST_W, usual_w * (1 - self.done_z * spread)),
            hurried_w=usual_w * (1 + self.done_z * spread),
            soonest_w=usual_w * (1 + self.hot_z * spread),
            spread=spread,
            ratio=ratio,
        )

    def _net_spread(self, weather: Weather, by_wind: float) -> float:
        """Return the relative spread of the heat into the pot, from all that varies by itself."""
        stove, fuel_, rules = self.own.stove, self.store.fuel, self.scenario.rules
        parts = [stove.efficiency_spread, fuel_.lhv_spread, by_wind]
        if stove.flame:
            parts.append(rules.power_spread)
        if fuel_.kind == "wood" and fuel_.lhv_j_kg is not None:
            wet = max(fuel_.moisture, rules.wet_moisture) if weather.wet_sticks else fuel_.moisture
            steam_j_kg = fuel_.lhv_j_kg - fuel.lower_heating_value_j_kg(
                dry_j_kg=fuel_.lhv_j_kg, moisture=wet
            )  # what water in it takes, which grows in proportion
            parts.append(rules.moisture_spread * steam_j_kg / (fuel_.lhv_j_kg - steam_j_kg))
        return float(sum(part**2 for part in parts) ** 0.5)

    def _burn_ratio(self, weather: Weather) -> float:
        fuel_, stocked = self.store.fuel, heat_of(self.store.fuel)
        if self.sunny:
            shining = 0.0 if weather.rain else weather.sun_w_m2
            return shining / self.scenario.rules.sun_standard_w_m2
        if fuel_.lhv_j_kg is None or stocked is None:
            return 1.0
        if fuel_.kind != "wood" or not weather.wet_sticks:
            return 1.0
        wet = max(fuel_.moisture, self.scenario.rules.wet_moisture)
        burnt = fuel.lower_heating_value_j_kg(dry_j_kg=fuel_.lhv_j_kg, moisture=wet)
        return float(burnt / stocked)

    def up_min(self, fired: Fired, net_w: float, from_c: float, to_c: float) -> float:
        """Return minutes over the fire between two temperatures."""
        return minutes_between(
            heat_j_k=self.heat_j_k,
            net_w=net_w,
            loss_w_k=fired.loss_w_k,
            air_c=fired.air_c,
            from_c=from_c,
            to_c=to_c,
        )

    @cached_property
    def fall_min(self) -> float:
        """Minutes off the fire until pressure has gone by itself."""
        return self.up_min(self.fired, 0.0, self.top_c, self.opened_c)

    @property
    def rest_from(self) -> int:
        """Clock minute at which it leaves fire and pressure."""
        if self.step.move is not None:
            return self.step.move - int(self.scenario.rules.move_min)
        return self.step.off + next_step(self.fall_min)
