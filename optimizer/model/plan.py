"""A plan and what belongs to it, in the words of the result file (version 1)."""

from dataclasses import dataclass, field
from datetime import date
from typing import Literal

from optimizer.model.sharing import Share, Turn

Finish = Literal["flame", "packed", "vacuum", "boiled_again"]
Status = Literal["optimal", "within_gap", "stopped", "time_limit", "infeasible"]


@dataclass(frozen=True, slots=True)
class Amount:
    """So much of a food in the pot."""

    food: str
    kg: float


@dataclass(frozen=True, slots=True)
class Reboil:
    """A pot taken out, boiled again and put back (or served); clock minutes."""

    on: int
    boil: int
    off: int


@dataclass(frozen=True, slots=True)
class Steeped:
    """What finishes in a jar on which water was poured, and how hot it comes to the table."""

    cooker: str
    portions: float  # in adult size
    serve: int
    usual_c: float
    careful_c: float
    done: float  # on the careful side; 1.0 is done


@dataclass(frozen=True, slots=True)
class Drawn:
    """One draw on a pot or jar: so many litres, and how hot they are."""

    at: int
    use: str  # label; empty: the dish itself
    litres: float
    usual_c: float
    careful_c: float
    most_c: float | None = None  # it has to cool to this first; None: it may be as hot as it is
    ingredients: tuple[Amount, ...] = ()  # it is poured on these
    steeped: Steeped | None = None


@dataclass(frozen=True, slots=True)
class Step:
    """One dish, from the soaking to the table. Clock times in minutes since 00:00 of day 1."""

    number: int  # Item.number
    day: int
    meal: str
    item: str  # the dish's label
    dish: str  # the dish's name
    portions: float
    batch: int
    serve_rule: str
    stove: str
    fuel: str
    pot: str
    pressure: bool
    finish: Finish
    cooker: str | None
    soak_from: int | None
    light: int  # the fire must be lit by then
    on: int
    boil: int
    off: int
    move: int | None  # in the cooker and closed
    reboil: tuple[Reboil, ...]
    serve: int
    hold_minutes: int
    ingredients: tuple[Amount, ...]
    water_kg: float
    fuel_kg: float | None
    fuel_mj: float
    cost: float
    done: float  # 1.0 is done
    serve_c: float
    serve_c_low: float
    fill: float  # cooked volume over pot volume
    chance_done: float | None = None
    chance_hot: float | None = None
    drawn: tuple[Drawn, ...] = ()  # the last one is at ``serve``


@dataclass(frozen=True, slots=True)
class Fire:
    """A fire lit once, from its lighting until the last pot leaves it; MJ besides the dishes'."""

    stove: str
    day: int
    start: int
    end: int
    start_mj: float
    idle_mj: float


@dataclass(frozen=True, slots=True)
class FuelUse:
    """One fuel: used and left."""

    name: str
    used_kg: float | None
    used_mj: float
    stock_kg: float | None
    stock_mj: float | None
    left_kg: float | None
    cost: float
    p10_mj: float | None = None
    p90_mj: float | None = None

    @property
    def unit(self) -> Literal["kg", "MJ"]:
        """Unit in which it is counted: MJ where there is no mass."""
        return "MJ" if self.used_kg is None else "kg"

    @property
    def used(self) -> float:
        """What is used, in that unit."""
        return self.used_mj if self.used_kg is None else self.used_kg

    @property
    def stock(self) -> float | None:
        """What there was, in that unit; None: no limit."""
        return self.stock_mj if self.used_kg is None else self.stock_kg


@dataclass(frozen=True, slots=True)
class BoilAll:
    """The same menu boiled the whole time."""

    status: Literal["optimal", "within_gap", "does_not_fit", "infeasible"]
    fuel_mj: float | None
    cost: float | None
    fire_minutes: float | None
    short: str | None  # by how much it does not fit


@dataclass(frozen=True, slots=True)
class Saving:
    """What the plan saves against boiling the whole time; money may be negative."""

    fuel_mj: float
    fuel_fraction: float
    cost: float
    fire_minutes: float


@dataclass(frozen=True, slots=True)
class Worth:
    """What one more of something would save; ``dual`` is the linear program's price of it.

    That price holds while there is so much of it in all, ``holds_from`` to ``holds_to``, in kg of
    the stock or in pieces; None: without end, or not looked at. ``mixed`` is what the linear
    program saves, solved again with one more.
    """

    what: str
    value: float
    unit: str
    dual: float | None = None
    mixed: float | None = None
    holds_from: float | None = None
    holds_to: float | None = None
    holds_unit: Literal["kg", "pieces"] | None = None


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution, and the dishes it is about (empty: all)."""

    code: str
    text: str
    items: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Refusal:
    """A way that does not work, and why."""

    item: int  # Item.number
    stove: str
    pot: str
    cooker: str | None
    code: str
    reason: str


@dataclass(frozen=True, slots=True)
class Goal:
    """What was made least, what it came to, and the proven bound."""

    name: str
    value: float | None
    bound: float | None


@dataclass(frozen=True, slots=True)
class FuelChances:
    """What a fuel may come to over many tries of a plan; MJ as stocked."""

    name: str
    p10_mj: float
    p50_mj: float
    p90_mj: float
    runs_out: tuple[float, ...] | None  # by the end of day 1, 2, ...; None: there is no limit


@dataclass(frozen=True, slots=True)
class Measuring:
    """One thing to measure, and how wide the band of the plan's fuel would be after it."""

    kind: Literal["weigh_fuel", "time_boil", "test_box"]
    thing: str  # stove or cooker
    band_mj: float  # between 10 and 90 % as it is now
    left_mj: float  # about so wide once it is measured


@dataclass(frozen=True, slots=True)
class Chances:
    """A plan tried many times, each time with other stoves, wood, weather, packing and food."""

    draws: int
    seed: int
    all_well: float  # every dish done, and hot where it must be
    fuel_mj: tuple[float, float, float]  # all fuels together at 10, 50 and 90 %
    fuels: tuple[FuelChances, ...]
    measuring: tuple[Measuring, ...]  # what narrows the band most comes first


@dataclass(frozen=True, slots=True)
class Plan:
    """The answer to a scenario."""

    title: str
    start: date | None
    status: Status
    gap: float | None
    goal: Goal
    steps: tuple[Step, ...] = ()
    fires: tuple[Fire, ...] = ()
    fuels: tuple[FuelUse, ...] = ()
    cost: float = 0.0
    fire_minutes: float = 0.0
    tending_minutes: float = 0.0
    boil_all: BoilAll | None = None
    boil_all_same_stoves: BoilAll | None = None
    saved: Saving | None = None  # on the plan's own stoves, or on any where that is not known
    saved_any_stove: Saving | None = None
    worth: tuple[Worth, ...] = ()
    cautions: tuple[Caution, ...] = ()
    changes: tuple[str, ...] = ()  # infeasible: the least changes that would make a plan
    refusals: tuple[Refusal, ...] = field(default=(), repr=False)
    begins: int = 0  # nothing of it is before this minute
    under_way: tuple[Step, ...] = ()  # begun before it, and served as they were planned
    chances: Chances | None = None  # not tried yet
    shares: tuple[Share, ...] = ()  # of households that share a kitchen
    rota: tuple[Turn, ...] = ()  # who cooks when

    @property
    def fuel_mj(self) -> float:
        """Fuel burned in all."""
        return sum(fuel.used_mj for fuel in self.fuels)
