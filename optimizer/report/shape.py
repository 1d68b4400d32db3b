"""The shape of the result file, version 1, key by key.

Times are whole minutes since 00:00 of day 1, masses kg, energies MJ, temperatures degC; None where
a thing does not exist. ``status`` is None when no plan was looked for because the input was bad:
``problems`` then says why. It is ``time_limit`` or ``stopped`` with no steps and no gap when the
search ended before there was a plan. ``saved`` compares with the plan's own stoves, or
with any where that is not known. Beyond the contract stand ``saved_any_stove``, ``changes``
(the least changes that would make a plan possible), ``begins`` (the minute that the plan is made
from), ``under_way`` (dishes begun before it: of these only pot, cooker, clock and temperatures
need be known) and ``chances`` (None before the plan is tried: the chance that all is well, all fuel
at 10, 50 and 90 %, each fuel, and what to measure). ``shares`` and ``rota`` are those of households
that share a kitchen, None where there are none.
"""

from typing import Annotated, Literal

from annotated_types import Ge, Gt, Le
from pydantic import ConfigDict, StringConstraints, with_config
from typing_extensions import TypedDict

from optimizer.model.plan import Finish, Status
from optimizer.model.things import Serve
from optimizer.report.households_result import ShareShape, TurnShape

_strict = with_config(ConfigDict(extra="forbid"))

Positive = Annotated[float, Gt(0)]
Some = Annotated[float, Ge(0)]
Share = Annotated[float, Ge(0), Le(1)]
Minutes = Annotated[int, Ge(0)]
Count = Annotated[int, Ge(1)]


@_strict
class GoalShape(TypedDict):
    """What was made least."""

    name: str | None
    value: float | None
    bound: float | None


@_strict
class AmountShape(TypedDict):
    """So much of a food."""

    food: str
    kg: Some


@_strict
class ReboilShape(TypedDict):
    """A pot boiled again."""

    on: int
    boil: int
    off: int


@_strict
class SteepedShape(TypedDict):
    """What finishes in a jar on which water was poured."""

    cooker: str
    serve: int
    c: float
    c_low: float
    done: Some


@_strict
class DrawnShape(TypedDict):
    """One draw on a pot or jar; for what, empty where it is the dish itself."""

    at: int
    use: str
    litres: Positive
    c: float
    c_low: float
    most_c: float | None
    onto: list[AmountShape]
    steeped: SteepedShape | None


@_strict
class StepShape(TypedDict):
    """One dish, from the soaking to the table."""

    day: Count
    meal: str
    item: str
    portions: Positive
    batch: Count
    serve_rule: Serve
    stove: str
    fuel: str
    pot: str
    pressure: bool
    finish: Finish
    cooker: str | None
    soak_from: int | None
    light: int
    on: int
    boil: int
    off: int
    move: int | None
    reboil: list[ReboilShape]
    serve: int
    hold_minutes: Minutes
    ingredients: list[AmountShape]
    water_kg: Some
    fuel_kg: Some | None
    fuel_mj: Some
    cost: Some
    done: Some
    serve_c: float
    serve_c_low: float
    chance_done: Share | None
    chance_hot: Share | None
    drawn: list[DrawnShape]


FireShape = TypedDict(
    "FireShape", {"stove": str, "day": Count, "from": int, "to": int, "start_mj": Some}
)
_strict(FireShape)


@_strict
class FuelShape(TypedDict):
    """One fuel."""

    name: str
    used_kg: Some | None
    used_mj: Some
    stock_kg: Some | None
    stock_mj: Some | None
    left_kg: float | None
    cost: Some
    p10_mj: Some | None
    p90_mj: Some | None


@_strict
class BoilAllShape(TypedDict):
    """The same menu boiled the whole time."""

    status: Literal["optimal", "within_gap", "does_not_fit", "infeasible"]
    fuel_mj: Some | None
    cost: Some | None
    fire_minutes: Some | None
    short: str | None


@_strict
class SavingShape(TypedDict):
    """What is saved; each may be negative."""

    fuel_mj: float
    fuel_fraction: float
    cost: float
    fire_minutes: float


@_strict
class WorthShape(TypedDict):
    """What one more of something would save."""

    what: str
    value: float
    unit: str
    dual: Some | None
    mixed: Some | None
    holds_from: Some | None
    holds_to: Some | None
    holds_unit: Literal["kg", "pieces"] | None


@_strict
class CautionShape(TypedDict):
    """A caution."""

    code: str
    text: str
    items: list[str]


@_strict
class FuelChancesShape(TypedDict):
    """What a fuel may come to; the chance that it has run out by the end of each day."""

    name: str
    p10_mj: Some
    p50_mj: Some
    p90_mj: Some
    runs_out: list[Share] | None


@_strict
class MeasuringShape(TypedDict):
    """One thing to measure, and how wide the band of all fuel is before and after it."""

    kind: Literal["weigh_fuel", "time_boil", "test_box"]
    thing: str
    band_mj: Some
    left_mj: Some


@_strict
class ChancesShape(TypedDict):
    """The plan tried many times."""

    draws: Count
    seed: Minutes
    all_well: Share
    fuel_mj: list[Some]
    fuels: list[FuelChancesShape]
    measuring: list[MeasuringShape]


@_strict
class ProblemShape(TypedDict):
    """One thing wrong with the input."""

    file: str
    line: Count | None
    key: str
    code: str
    message: str


@_strict
class ResultShape(TypedDict):
    """The whole result."""

    version: Literal[1]
    title: str | None
    start: Annotated[str, StringConstraints(pattern=r"^\d{4}-\d{2}-\d{2}$")] | None
    status: Status | None
    gap: Some | None
    goal: GoalShape
    steps: list[StepShape]
    fires: list[FireShape]
    fuels: list[FuelShape]
    boil_all: BoilAllShape | None
    boil_all_same_stoves: BoilAllShape | None
    saved: SavingShape | None
    saved_any_stove: SavingShape | None
    worth: list[WorthShape]
    cautions: list[CautionShape]
    changes: list[str]
    begins: Minutes
    under_way: list[StepShape]
    chances: ChancesShape | None
    shares: list[ShareShape] | None
    rota: list[TurnShape] | None
    problems: list[ProblemShape]
