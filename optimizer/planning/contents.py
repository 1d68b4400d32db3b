"""What is in the pot: masses, heat, volume, and the time its pieces take to heat through."""

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import lru_cache

from optimizer.model.household import Item, Place
from optimizer.model.plan import Amount
from optimizer.model.things import Cooker, Dish, Food, Pot, Rules
from optimizer.physics import conduction, food, safety
from optimizer.planning.drawing import Draw

MEAN_C = 60.0  # food properties are taken midway between tap and boil
DRY = 0.2  # a food with less water than this swells as it cooks
_EVEN = 1e-9
WET = 0.5  # a dish with more of its mass as liquid than this is a soup, whatever its name


@dataclass(frozen=True, slots=True)
class Load:
    """One dish in the amounts of one meal, without the pot."""

    dish: Dish
    adult_portions: float
    amounts: tuple[Amount, ...]
    mass_kg: float
    water_kg: float  # cooking water among it
    volume_m3: float
    heat_j_k: float
    piece_share: float  # of heat_j_k that sits in pieces
    start_c: float
    phaseolus: bool
    swelling: bool
    endpoint_c: float | None
    frozen: bool
    carried_min: int = 0  # hot to where it is eaten
    draws: tuple[Draw, ...] = ()  # in order of time


def load(item: Item, place: Place, pots: int = 1) -> Load:
    """Return what goes into a pot for one item, shared evenly among so many."""
    made = load_of(item.dish, item.adult_portions / pots, place)
    minutes, draws = carried_min(item), draws_of(item)
    return replace(made, carried_min=minutes, draws=draws) if minutes or draws else made


def poured_on(dish: Dish, water_kg: float) -> tuple[Amount, ...]:
    """Return what so much water is poured on to make a dish."""
    water = sum(each.kg for each in dish.ingredients if each.food.name == "water")
    dry = (each for each in dish.ingredients if each.food.name != "water")
    return tuple(Amount(each.food.label, each.kg * water_kg / water) for each in dry)


def draws_of(item: Item) -> tuple[Draw, ...]:
    """Return the draws on an item, each by its minutes before the last."""
    return tuple(Draw(d.before_min, d.share, d.need_c, d.steep) for d in item.drawn)


def carried_min(item: Item) -> int:
    """Return the minutes for which a dish has to be kept hot on its way to where it is eaten."""
    return item.carried.minutes if item.carried is not None and item.dish.serve != "any" else 0


def pots_needed(
    item: Item, place: Place, rules: Rules, pots: Iterable[Pot], cookers: Iterable[Cooker] = ()
) -> int:
    """Return in how many pots an item has to be cooked: as few as its volume allows.

    What is carried away has to fit what it is carried in.
    """
    whole = load(item, place)
    rooms = {pot: pot.volume_m3 * most_fill(whole, pot, rules) for pot in pots}
    if whole.carried_min:
        carriers = tuple(cooker for cooker in cookers if cooker.portable)
        rooms = {pot: min(room, room_in(pot, carriers)) for pot, room in rooms.items()}
    room = max(rooms.values(), default=0.0)
    return max(1, math.ceil(whole.volume_m3 / room - _EVEN)) if room else 1


def room_in(pot: Pot, cookers: Iterable[Cooker]) -> float:
    """Return the most of a pot's food that one of these cookers takes [m3]; 0 for none."""
    return max((_taken(pot, cooker) for cooker in cookers), default=0.0)


def _taken(pot: Pot, cooker: Cooker) -> float:
    if cooker.kind == "vacuum":
        return cooker.volume_m3 or 0.0
    return pot.volume_m3 if goes_into(pot, cooker) else 0.0


def goes_into(pot: Pot, cooker: Cooker) -> bool:
    """Tell whether a pot goes into a packed cooker."""
    wide, high = cooker.greatest_pot_diameter_m, cooker.greatest_pot_height_m
    return pot.diameter_m <= (wide or math.inf) and pot.height_m <= (high or math.inf)


def most_fill(load_: Load, pot: Pot, rules: Rules) -> float:
    """Return how full a pot may be of a dish, as a share of its volume."""
    return safety.greatest_fill(
        pressure=pot.gauge_pa > 0,
        swelling=load_.swelling,
        ordinary=rules.fill_most,
        pressure_most=rules.fill_pressure,
        pressure_swelling=rules.fill_pressure_swelling,
    )


@lru_cache(maxsize=4096)
def load_of(dish: Dish, adult_portions: float, place: Place) -> Load:
    """Return what goes into the pot for a number of adult portions."""
    parts = [(i.food, i.kg * adult_portions) for i in dish.ingredients]
    heats = [kg * heat_of(f) for f, kg in parts]
    heat = sum(heats)
    warm = sum(
        h * (place.water_c if f.name == "water" else place.kitchen_c)
        for h, (f, _) in zip(heats, parts, strict=True)
    )
    pieces = sum(h for h, (f, _) in zip(heats, parts, strict=True) if f.shape != "liquid")
    ends = [f.endpoint_c for f, _ in parts if f.endpoint_c is not None]
    return Load(
        dish=dish,
        adult_portions=adult_portions,
        amounts=tuple(Amount(f.label, kg) for f, kg in parts if f.name != "water"),
        mass_kg=sum(kg for _, kg in parts),
        water_kg=sum(kg for f, kg in parts if f.name == "water"),
        volume_m3=sum(kg / density_of(f) for f, kg in parts),
        heat_j_k=heat,
        piece_share=pieces / heat,
        start_c=warm / heat,
        phaseolus=any(f.phaseolus for f, _ in parts),
        swelling=_swells(dish),
        endpoint_c=max(ends, default=None),
        frozen=any(f.frozen for f, _ in parts),
    )


def _swells(dish: Dish) -> bool:
    """Tell whether a pressure pot's lower fill limit holds: pulses, grains, soups thin or thick."""
    ingredients = dish.ingredients
    mass = sum(i.kg for i in ingredients)
    liquid = sum(i.kg for i in ingredients if i.food.shape == "liquid")
    dry = any(i.food.water < DRY and i.food.shape != "liquid" for i in ingredients)
    return dry or liquid > WET * mass or "soup" in dish.label.lower()


def _composition(item: Food) -> dict[str, float]:
    return {
        part: getattr(item, part)
        for part in ("water", "protein", "fat", "carbohydrate", "fibre", "ash")
    }


@lru_cache(maxsize=1024)
def heat_of(item: Food) -> float:
    """Return the specific heat of a food [J/kgK]."""
    return float(food.specific_heat_j_kgk(**_composition(item), temperature_c=MEAN_C))


@lru_cache(maxsize=1024)
def density_of(item: Food) -> float:
    """Return the density of a food [kg/m3]."""
    return float(food.density_kg_m3(**_composition(item), temperature_c=MEAN_C))


@lru_cache(maxsize=4096)
def through_min(dish: Dish, rules: Rules, ramp_s: float) -> float:
    """Return minutes at the boil until the slowest piece is heated through.

    The slow heat-up over ``ramp_s`` counts.
    """
    pieces = [i.food for i in dish.ingredients if i.food.shape != "liquid"]
    return max((_piece_s(f, rules, ramp_s) for f in pieces), default=0.0) / 60


def _piece_s(item: Food, rules: Rules, ramp_s: float) -> float:
    diffusivity = float(food.diffusivity_m2_s(**_composition(item), temperature_c=MEAN_C))
    return conduction.heated_through_s(
        half_size_m=item.half_size_m,
        shape=item.shape,
        diffusivity_m2_s=rules.diffusivity_share * diffusivity,
        share=rules.heated_through,
        ramp_s=ramp_s,
    )


def pot_heat_j_k(pot: Pot) -> float:
    """Return the heat capacity of a pot with its lid [J/K]."""
    return pot.mass_kg * pot.specific_heat_j_kgk


def fill(load_: Load, pot: Pot) -> float:
    """Return cooked volume over the pot's volume."""
    return load_.volume_m3 / pot.volume_m3


def round_up(minutes: float, step: int) -> int:
    """Return minutes rounded up to the clock's step."""
    return math.ceil(minutes / step - 1e-9) * step
