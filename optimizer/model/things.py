"""Things that stand on the shelf: fuels, stoves, pots, packings, cookers, foods, dishes.

Every field that has a unit carries it as a suffix (SI: ``_j _w _kg _m _m3 _pa``, ``_c`` a
temperature, ``_k`` a difference, ``_min`` minutes); shares are fractions 0-1; a ``spread`` is a
relative standard deviation. ``source_id`` and ``source_place`` say where the numbers stand.
"""

from dataclasses import dataclass
from typing import Literal

FuelKind = Literal[
    "gas", "liquid", "alcohol", "wood", "charcoal", "tablet", "wax", "electricity", "sun"
]
Shape = Literal["liquid", "sphere", "cylinder", "slab"]
Serve = Literal["hot", "any", "at"]
Keeping = Literal["keeps", "leaves", "perishable"]


@dataclass(frozen=True, slots=True)
class Source:
    """Where a number stands in print, and how well it was seen (S1, S2, D, M, judgement)."""

    id: str
    citation: str
    confidence: str


@dataclass(frozen=True, slots=True)
class Fuel:
    """A fuel; ``lhv_j_kg`` is that of the dry fuel, ``moisture`` is on the wet basis."""

    name: str
    label: str
    kind: FuelKind
    lhv_j_kg: float | None  # None: no mass to weigh (electricity, sun)
    lhv_spread: float
    moisture: float
    density_kg_m3: float | None
    vapour: str | None  # compound whose vapour pressure has to feed the burner
    package_kg: float | None
    source_id: str
    source_place: str


@dataclass(frozen=True, slots=True)
class Stove:
    """A stove; ``efficiency`` is heat into the pot over fuel, before the pot's own losses."""

    name: str
    label: str
    fuel: str
    power_w: float  # fuel burned at full power
    low_power_w: float  # least fuel it can burn and stay lit
    efficiency: float
    efficiency_spread: float
    start_j: float  # fuel to light it, once per lighting
    start_min: int  # minutes from lighting until a pot goes on
    places: int  # pots at once
    tended: bool  # somebody has to feed it all the time
    flame: bool  # False: no flame, no fumes
    wind_loss: float  # share of efficiency lost per m/s of wind
    source_id: str
    source_place: str
    loss_w_k: float | None = None  # of a pot inside it; replaces the bare pot's
    water_only: bool = False


@dataclass(frozen=True, slots=True)
class Pot:
    """A pot with its lid; ``gauge_pa`` is 0 for an ordinary pot."""

    name: str
    label: str
    volume_m3: float
    diameter_m: float
    height_m: float
    mass_kg: float
    specific_heat_j_kgk: float
    emissivity: float
    gauge_pa: float
    source_id: str
    source_place: str


@dataclass(frozen=True, slots=True)
class Material:
    """A packing material; ``damp_factor`` multiplies its conductivity when damp."""

    name: str
    label: str
    conductivity_w_mk: float
    conductivity_spread: float
    density_kg_m3: float
    specific_heat_j_kgk: float
    greatest_c: float
    flammable: bool
    washable: bool
    damp_factor: float
    source_id: str
    source_place: str


@dataclass(frozen=True, slots=True)
class Cooker:
    """An insulated cooker: a packed one that takes a pot, or a vacuum jar that is filled."""

    name: str
    label: str
    kind: Literal["packed", "vacuum"]
    material: Material | None  # packed
    thickness_m: float | None  # packed: on every side
    gap: float  # share of the pot's surface that the packing misses
    loss_spread: float
    greatest_pot_diameter_m: float | None
    greatest_pot_height_m: float | None
    volume_m3: float | None  # vacuum: what it holds
    rated_c: float | None  # vacuum: still so hot ...
    rated_h: float | None  # ... after so many hours,
    rated_start_c: float | None  # filled at this,
    rated_room_c: float | None  # in a room of this
    liner_j_k: float  # vacuum: heat its liner takes, if it is not preheated
    preheated: bool
    loss_w_k: float | None  # measured; replaces the computed one
    packing_j_k: float | None  # measured; replaces the computed one
    source_id: str
    source_place: str
    damp: bool = False
    blankets: int = 0  # packed: laid over the closed box, as many layers
    portable: bool = False  # may be carried away with hot food in it


@dataclass(frozen=True, slots=True)
class Food:
    """A food: composition as fractions of its mass, and the piece it is cooked in."""

    name: str
    label: str
    water: float
    protein: float
    fat: float
    carbohydrate: float  # without fibre
    fibre: float
    ash: float
    shape: Shape
    half_size_m: float  # smallest half-size of the piece as it is cooked; 0 for a liquid
    phaseolus: bool  # a bean with the lectin of Phaseolus
    endpoint_c: float | None  # raw meat, fish, egg: what its centre must reach
    source_id: str
    source_place: str
    frozen: bool = False  # frozen pieces are refused
    keeping: Keeping | None = None  # without cold; None: perishable where there is an endpoint
    contains: tuple[str, ...] | None = None  # marks such as "milk"; None: not stated


@dataclass(frozen=True, slots=True)
class Ingredient:
    """So much of a food for one adult portion."""

    food: Food
    kg: float


@dataclass(frozen=True, slots=True)
class Dish:
    """A dish, or water to drink or to wash in."""

    name: str
    label: str
    ingredients: tuple[Ingredient, ...]  # water to cook in is one of them
    child_share: float  # of an adult portion
    boil_min: float  # minutes at 100 degC until done
    boil_spread: float
    z_k: float  # kelvin for a tenfold rate
    floor_c: float  # nothing is credited below
    serve: Serve
    serve_c: float | None  # least temperature wanted when serve is "at"
    heat_c: float | None  # heated to this and no further; None: brought to the boil
    soak_min: int
    foams: bool
    disinfects: bool  # drinking water: the boil minutes of the published rule apply
    source_id: str
    source_place: str


@dataclass(frozen=True, slots=True)
class Rules:
    """The limits and habits that hold for every plan, from ``rules.csv``, each with its source."""

    hot_c: float  # eaten at or above this
    bean_soak_min: float
    bean_boil_min: float  # full boil before any insulated finish
    bean_boil_c: float  # where water boils below this the boil does not count
    bean_pressure_min: float  # at full pressure instead
    water_boil_min: float
    water_boil_high_min: float
    water_high_m: float
    heated_through: float  # share of its rise that a piece's centre has made
    diffusivity_share: float  # of the computed one, given to a piece as it heats through
    slow_from_c: float
    slow_to_c: float
    slow_max_min: float
    fill_most: float  # ordinary pot, cooked volume over pot volume
    fill_least: float  # below it a boxed pot warns
    fill_pressure: float
    fill_pressure_swelling: float  # beans, grains, soups
    move_min: float  # from flame into cooker
    turn_min: float  # pot busy after serving: ladled out and washed
    rest_min: float  # a dish off the flame may wait this long, lid on
    steam_leak: float  # share of the heat put in that leaves as steam at the boil, lid on
    room_film_w_m2k: float  # outside of a packed cooker to the room
    gas_self_cooling_k: float
    gas_margin: float  # vapour pressure over air pressure must exceed 1 + this
    wet_moisture: float  # sticks on a day they are wet
    handling_min: float  # a cook's minutes for a pot on a stove that needs no tending
    hot_confidence: float  # chance at which food must be hot
    bare_spread: float  # relative standard deviation of a bare pot's loss
    rain_loss: float  # share of a stove's heat that rain takes outdoors
    sun_standard_w_m2: float  # sunshine at which a solar cooker's power is stated
    sun_from_min: float  # of the day
    sun_to_min: float
    blanket_m2k_w: float  # resistance of one blanket laid over a box
    fresh_min: float  # what spoils may be so long out of the cold
    fresh_hot_min: float  # the same in hot air
    hot_air_c: float  # air from which that holds
    leaves_min: float  # leaves stay good so long without cold: quality, nothing is refused
    fridge_shut_min: float  # a fridge kept shut stays cold so long without power
    freezer_full_min: float
    freezer_half_min: float
    cold_c: float  # cold enough at or below this
    outdoors_warmer_k: float  # the warmest hour of a day above its usual temperature
    power_spread: float  # relative standard deviation of a flame's power, as it is fed
    wind_spread: float  # the same of a day's wind
    moisture_spread: float  # the same of the water in wood
    air_spread_k: float  # standard deviation of the air's temperature, kitchen and outdoors
    water_spread_k: float  # the same of the water's
    measured_spread: float  # the same, relative, of what is weighed, timed or read at home
    carry_spread: float  # the same of what a cooker loses, for being carried about
    share_out_min: float  # food carried to where it is eaten is ladled out in such a time
    open_loss: float  # loss of an open pot over that of the same pot with its lid on
    draw_open_min: float  # a pot or jar stands open so long while it is drawn on
    poured_c: float  # water poured on tea or meal is at least so hot
