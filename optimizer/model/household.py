"""A household as the planner sees it: where it is, what it has, what it wants to eat and when.

Clock times are whole minutes since 00:00 of day 1; days count from 1.
"""

from dataclasses import dataclass, replace
from datetime import date
from typing import Literal

from optimizer.model.eaters import Carrying, Diet, Group, Helping, House
from optimizer.model.plan import Step
from optimizer.model.things import Cooker, Dish, Fuel, Pot, Rules, Stove

DAY_MIN = 1440


@dataclass(frozen=True, slots=True)
class Place:
    """Height above the sea and usual temperatures."""

    altitude_m: float
    kitchen_c: float
    outdoors_c: float
    water_c: float


@dataclass(frozen=True, slots=True)
class Weather:
    """One day outdoors."""

    outdoors_c: float
    wind_m_s: float
    rain: bool
    wet_sticks: bool
    sun_w_m2: float = 0.0  # on a cooker turned to it, in the rules' hours of sun


@dataclass(frozen=True, slots=True)
class Window:
    """Hours in which somebody can cook, ``[start_min, end_min)``."""

    start_min: int
    end_min: int

    @property
    def day(self) -> int:
        """Day on which the window opens."""
        return self.start_min // DAY_MIN + 1


@dataclass(frozen=True, slots=True)
class Cold:
    """Somewhere that fresh food is kept cold, ``[start_min, end_min)``."""

    place: str  # fridge, freezer, ice box, outdoors
    start_min: int
    end_min: int


@dataclass(frozen=True, slots=True)
class Store:
    """What there is of one fuel. Kilograms, or joules where there is no mass; None: no limit."""

    fuel: Fuel
    stock_kg: float | None
    stock_j: float | None  # electricity
    price_kg: float | None  # money per kg
    price_j: float | None  # electricity: money per J
    package_kg: float | None  # what one more of it would be
    reserve: float  # share of the stock that is not to be touched


@dataclass(frozen=True, slots=True)
class OwnStove:
    """Stoves of one kind and where they stand."""

    stove: Stove
    count: int
    where: str  # "outdoors", "vented hob", or "indoors" (no flame)


@dataclass(frozen=True, slots=True)
class OwnPot:
    """Pots of one kind."""

    pot: Pot
    count: int


@dataclass(frozen=True, slots=True)
class OwnCooker:
    """Insulated cookers of one kind."""

    cooker: Cooker
    count: int
    pressure_allowed: bool = False  # its maker lets a pressure pot in before pressure has fallen


@dataclass(frozen=True, slots=True)
class FuelOffer:
    """A fuel that may be bought in whole packages. Kilograms, or joules where there is no mass."""

    store: Store  # of the household, or an empty one
    price: float  # of one package
    package: float
    limit: float | None  # most that is kept in the house; None: the file says nothing


@dataclass(frozen=True, slots=True)
class ThingOffer:
    """Stoves, pots or cookers of one kind that may be bought; the count is how many at most."""

    own: OwnStove | OwnPot | OwnCooker
    price: float  # of one


@dataclass(frozen=True, slots=True)
class WaterOffer:
    """Water that needs no boiling, in whole packages: bottled, or treated with a chemical."""

    kind: Literal["bottled", "treated"]
    price: float  # of one package
    litres: float  # that a package gives
    most: int


@dataclass(frozen=True, slots=True)
class Shop:
    """What may be bought."""

    fuels: tuple[FuelOffer, ...] = ()
    things: tuple[ThingOffer, ...] = ()
    water: tuple[WaterOffer, ...] = ()
    budget: float | None = None  # money that may be spent; None: the file says nothing


@dataclass(frozen=True, slots=True)
class Steep:
    """A dish on which water is poured in a jar, where it finishes without a fire of its own."""

    dish: Dish
    portions: float  # in adult size
    cooker: Cooker
    minutes: int  # from pouring to the table


@dataclass(frozen=True, slots=True)
class Drawing:
    """One draw on a pot or jar that is filled once: when, how much of it, and what for."""

    before_min: int  # its last draw
    share: float  # of what was filled in
    of: Dish | None = None  # what is made with it; None: the dish itself
    need_c: float | None = None  # least when it is drawn; None: as the dish
    steep: Steep | None = None

    @property
    def use(self) -> str:
        """What it is for; empty: the dish itself."""
        return self.of.label if self.of else ""


@dataclass(frozen=True, slots=True)
class Item:
    """One dish at one meal of one day; one that is drawn on is served at its last draw."""

    number: int  # position in Scenario.items
    day: int
    meal: str
    dish: Dish
    adults: float  # adult portions
    children: float  # child portions
    serve_min: int
    soaked_from: int | None = None  # soaking since then, before the plan begins
    helpings: tuple[Helping, ...] = ()  # who eats of it; empty: everybody alike
    carried: Carrying | None = None  # to where it is eaten
    stands: tuple[int, int] | None = None  # its meal and its place there in the file's menu, from 0
    drawn: tuple[Drawing, ...] = ()  # in order of time; empty: all of it is served at once

    @property
    def first_min(self) -> int:
        """Clock minute at which it is served, or drawn on for the first time."""
        return self.serve_min - (self.drawn[0].before_min if self.drawn else 0)

    @property
    def portions(self) -> float:
        """Portions, counted by heads."""
        return self.adults + self.children

    @property
    def adult_portions(self) -> float:
        """Portions in adult size."""
        return self.adults + self.children * self.dish.child_share

    def times(self, share: float) -> "Item":
        """Return so many times the dish, with what is steeped with it."""
        drawn = tuple(
            replace(d, steep=d.steep and replace(d.steep, portions=share * d.steep.portions))
            for d in self.drawn
        )
        helpings = tuple(
            replace(each, adults=share * each.adults, children=share * each.children)
            for each in self.helpings
        )
        adults, children = share * self.adults, share * self.children
        return replace(self, adults=adults, children=children, helpings=helpings, drawn=drawn)


@dataclass(frozen=True, slots=True)
class UnderWay:
    """A dish whose pot went on before the plan begins; it is finished as its step says."""

    item: Item
    step: Step  # of the plan that was followed


@dataclass(frozen=True, slots=True)
class Scenario:
    """Everything a plan needs to know."""

    title: str
    adults: int
    children: int
    place: Place
    weather: tuple[Weather, ...]  # one a day
    start: date | None
    currency: str
    days: int
    windows: tuple[Window, ...]  # in order, not overlapping
    cooks: int
    stores: tuple[Store, ...]
    stoves: tuple[OwnStove, ...]
    pots: tuple[OwnPot, ...]
    cookers: tuple[OwnCooker, ...]
    items: tuple[Item, ...]
    goals: tuple[str, ...]  # "money", "energy", "tending" or a fuel's name, first first
    confidence: float
    rules: Rules
    begins: int = 0  # the plan is made from this minute on
    under_way: tuple[UnderWay, ...] = ()  # by then; their items are not among the others
    cold: tuple[Cold, ...] = ()
    fresh: tuple[int, ...] = (0,)  # minutes at which fresh food comes into the house
    shop: Shop | None = None  # what may be bought; None: the file says nothing
    houses: tuple[House, ...] = ()  # that share the kitchen
    groups: tuple[Group, ...] = ()  # all people, by household and diet; empty: all alike

    def diets_of(self, item: Item) -> tuple[Diet, ...]:
        """Return the diets of those who eat of a dish."""
        groups = (self.groups[each.group] for each in item.helpings)
        return tuple(dict.fromkeys(diet for group in groups for diet in group.diets))

    def is_apart(self, item: Item) -> bool:
        """Tell whether a pot is for people with a diet alone, and others eat of other pots."""
        eating = [self.groups[each.group] for each in item.helpings]
        return (
            bool(eating) and all(g.diets for g in eating) and not all(g.diets for g in self.groups)
        )

    @property
    def people(self) -> int:
        """How many eat."""
        return self.adults + self.children

    def item(self, number: int) -> Item:
        """Return a dish by its number, to be cooked or under way."""
        if number < len(self.items):
            return self.items[number]
        return next(each.item for each in self.under_way if each.item.number == number)
