"""The scenario file as pydantic models: which keys there are, of which kind, within which bounds.

What one key says about another (a stove whose fuel is not there) is the business of ``reading``.
"""

from datetime import date
from functools import lru_cache
from typing import Annotated, Any, Literal

from pydantic import (
    BeforeValidator,
    Discriminator,
    Field,
    PlainValidator,
    Tag,
    create_model,
)

from optimizer.model.things import Cooker, Dish, Food, Fuel, Material, Pot, Stove
from optimizer.scenario.clock import MOST_DAYS, read_days, read_moment, read_time, read_window
from optimizer.scenario.eater_parts import (
    Contains,
    Diets,
    EatenPart,
    Houses,
    Names,
    People,
    Portions,
    listed,
)
from optimizer.scenario.fields import Part, fault, fields_of, number
from optimizer.scenario.offers import Name, Price, ShopPart, Stock, named
from optimizer.units import Unit

OUTDOORS, VENTED, INDOORS = "outdoors", "vented hob", "indoors"

Text = Annotated[str, Field(min_length=1, max_length=200)]
Count = Annotated[int, Field(ge=0, le=1000)]
Days = Annotated[
    tuple[int, ...] | None,
    PlainValidator(read_days, json_schema_input_type=str | int | list[str | int]),
]
Clock = Annotated[int, PlainValidator(read_time, json_schema_input_type=str)]
Moment = Annotated[int, PlainValidator(read_moment, json_schema_input_type=str)]
Hours = Annotated[tuple[int, int], PlainValidator(read_window, json_schema_input_type=str)]


def _or_empty(given: Any) -> Any:
    """Let nothing after a name stand for no changes."""
    return {} if given is None else given


def _day(given: Any) -> date:
    """Read a date, written as 2027-01-15."""
    if isinstance(given, date):
        return given
    try:
        return date.fromisoformat(given)
    except (TypeError, ValueError):
        message = f"expected a date such as 2027-01-15, given {given!r:.60}"
        raise fault("date", message) from None


class PlaceEntry(Part):
    """Height above the sea and usual temperatures."""

    altitude: Annotated[float, Unit("m", ge=-430, le=5000, example="600 m")]
    kitchen: Annotated[float, Unit("degC", ge=-30, le=50, example="12 degC")]
    outdoors: Annotated[float, Unit("degC", ge=-50, le=55, example="-3 degC")]
    water: Annotated[float, Unit("degC", ge=0, le=40, example="8 degC")]


class WeatherEntry(Part):
    """One day outdoors."""

    outdoors: Annotated[float, Unit("degC", ge=-50, le=55, example="-3 degC")] | None = None
    wind: Annotated[float, Unit("m/s", ge=0, le=40, example="3 m/s")] = 0.0
    rain: bool = False
    wet_sticks: bool = False
    sun: Annotated[float, Unit("W/m^2", ge=0, le=1200, example="600 W/m^2")] = 0.0


class Thing(Part):
    """What every named thing may say."""

    like: Name | None = None
    label: Text | None = None
    source: Text | None = None


class Packing(Part):
    """What a cooker is packed with."""

    material: Name
    thickness: Annotated[float, Unit("m", gt=0, le=1, example="4 inch")]


Litres = Annotated[float, Unit("m^3", gt=0, le=0.2, example="0.5 L")]
Draws = Annotated[dict[Clock, Litres], Field(min_length=1, max_length=24)]


class DishPart(EatenPart):  # type: ignore[misc]  # made by pydantic, so not known to a type checker
    """One dish of a meal; water or tea may be drawn on at several times of the day."""

    dish: Name
    without: Names | None = None
    portions: (
        Annotated[
            Portions,
            BeforeValidator(named("people"), json_schema_input_type=float | Portions),
        ]
        | None
    ) = None
    drawn: Draws | None = None


class UsePart(DishPart):
    """One use of a big boil, and when its water is drawn; else at the meal."""

    at: Clock | None = None
    steep_in: Name | None = None  # a jar in which it is poured on, to be eaten at the meal


class BoilPart(Part):
    """Water boiled once in one pot for several dishes."""

    one_boil: list[
        Annotated[UsePart, BeforeValidator(named("dish"), json_schema_input_type=str | UsePart)]
    ] = Field(min_length=1, max_length=12)


def _dish_or_boil(given: Any) -> str:
    """Tell a big boil from a dish."""
    return "big boil" if isinstance(given, dict) and "one_boil" in given else "plain dish"


NamedDish = Annotated[
    DishPart,
    BeforeValidator(named("dish"), json_schema_input_type=str | DishPart),
    Tag("plain dish"),
]


class MealPart(EatenPart):  # type: ignore[misc]  # as above
    """One meal and the days it is eaten on."""

    meal: Name
    at: Clock
    on: Days = None
    dishes: list[
        Annotated[NamedDish | Annotated[BoilPart, Tag("big boil")], Discriminator(_dish_or_boil)]
    ] = Field(min_length=1, max_length=50)


def _shape(given: Any) -> str:
    """Tell a list from a mapping of days."""
    return "list" if isinstance(given, list) else "days"


Weathers = Annotated[
    Annotated[list[WeatherEntry], Field(max_length=MOST_DAYS), Tag("list")]
    | Annotated[dict[Days, WeatherEntry], Tag("days")],
    Discriminator(_shape),
]
CookHours = Annotated[
    Annotated[list[Hours], Field(min_length=1, max_length=24), Tag("list")]
    | Annotated[
        dict[Days, Annotated[list[Hours], Field(max_length=24)]], Field(min_length=1), Tag("days")
    ],
    Discriminator(_shape),
]


class ColdPart(Part):
    """A cold place: until when it is cold, or when its power went (it is then kept shut)."""

    until: Moment | None = None
    power_out: Moment | None = None


class FreezerPart(ColdPart):
    """A freezer; a full one stays cold for longer."""

    full: bool = False


class ColdEntry(Part):
    """What keeps fresh food cold, and when more of it comes into the house."""

    fridge: ColdPart | None = None
    freezer: FreezerPart | None = None
    ice_box: ColdPart | None = None
    outdoors: bool = False
    bought: list[Moment] = Field(default=[], max_length=366)


class Frame(Part):
    """Everything of a scenario but the named things."""

    title: Text
    people: Annotated[People, BeforeValidator(named("adults"), json_schema_input_type=int | People)]
    households: Houses = Field(default=[])
    diets: Diets = Field(default={})
    place: PlaceEntry
    weather: Weathers = Field(default=[])
    start: Annotated[date, PlainValidator(_day, json_schema_input_type=str)] | None = None
    currency: str = Field(default="EUR", pattern="^[A-Z]{3}$")
    days: int = Field(ge=1, le=MOST_DAYS)
    cook_hours: CookHours
    cooks: int = Field(default=1, ge=1, le=100)
    menu: list[MealPart] = Field(min_length=1, max_length=400)
    cold: ColdEntry | None = None
    shop: ShopPart | None = None
    goal: Annotated[list[Name], BeforeValidator(listed, json_schema_input_type=str | list[str])] = (
        Field(default=["money"], min_length=1, max_length=4)
    )
    confidence: Annotated[float, number(0.5, 0.9999)] = 0.9
    reserve: Annotated[float, number(0, 0.99)] = 0.0


def _things(model: Any, bare: str | None = None) -> Any:
    """Map names to things; nothing, or a bare number, may stand after a name."""
    entry: Any = Annotated[model, BeforeValidator(_or_empty, json_schema_input_type=model | None)]
    if bare:
        wrap = BeforeValidator(named(bare), json_schema_input_type=int | model | None)
        entry = Annotated[entry, wrap]
    return Annotated[dict[Name, entry], Field(max_length=200)]


def _model(name: str, record: type, table: str, leave_out: frozenset[str], **more: Any) -> Any:
    """Make the model of one kind of thing: the fields of its record, and more."""
    return create_model(name, __base__=Thing, **{**fields_of(record, table, leave_out), **more})


@lru_cache(maxsize=1)
def file_model() -> type[Frame]:
    """Make the model of the whole file."""
    nothing: frozenset[str] = frozenset()
    grams = Annotated[float, Unit("kg", gt=0, le=50, example="60 g")]
    fuel = _model(
        "FuelEntry", Fuel, "fuels", nothing,
        stock=(Stock, None), price=(Price, None), reserve=(Annotated[float, number(0, 0.99)], None),
    )  # fmt: skip
    where = Literal["outdoors", "vented hob", "indoors"] | None
    stove = _model("StoveEntry", Stove, "stoves", nothing, count=(Count, 1), where=(where, None))
    pot = _model("PotEntry", Pot, "pots", nothing, count=(Count, 1))
    cooker = _model(
        "CookerEntry", Cooker, "cookers", nothing,
        count=(Count, 1), pressure_allowed=(bool, False), packing=(Packing | None, None),
    )  # fmt: skip
    food = _model(
        "FoodEntry", Food, "foods", frozenset({"contains"}), contains=(Contains | None, None)
    )
    ingredients = (Annotated[dict[Name, grams], Field(min_length=1, max_length=50)], None)
    dish = _model("DishEntry", Dish, "dishes", frozenset({"ingredients"}), ingredients=ingredients)
    return create_model(
        "ScenarioFile",
        __base__=Frame,
        fuels=(_things(fuel), ...),
        stoves=(_things(stove, "count"), ...),
        pots=(_things(pot, "count"), ...),
        cookers=(_things(cooker, "count"), {}),
        foods=(_things(food), {}),
        materials=(_things(_model("MaterialEntry", Material, "materials", nothing)), {}),
        dishes=(_things(dish), {}),
    )


def json_schema() -> dict[str, Any]:
    """Describe the scenario file as JSON Schema (draft 2020-12)."""
    schema = _without_empty_defaults(file_model().model_json_schema())
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema}


def _without_empty_defaults(part: Any) -> Any:
    """Leave out defaults of null: a key that is not there changes nothing."""
    if isinstance(part, list):
        return [_without_empty_defaults(each) for each in part]
    if not isinstance(part, dict):
        return part
    return {
        key: _without_empty_defaults(value)
        for key, value in part.items()
        if not (key == "default" and value is None)
    }
