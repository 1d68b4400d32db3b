"""What can be written into the log of an outage: one model for each kind of entry.

Everything is written as a person would: ``day 2 12:05``, ``8.4 kg``, ``61 degC``.
"""

import re
from dataclasses import dataclass
from typing import Annotated, Any, Literal

from pydantic import Field, PlainValidator

from optimizer.scenario.clock import read_moment
from optimizer.scenario.fields import Part, fault
from optimizer.units import Quantity, QuantityError, Unit, convert_any, read_stock

How = Literal["eaten", "left out", "in the cooker", "soaking", "not begun"]
When = Literal["move", "serving", "room"]
HOWS: tuple[How, ...] = ("eaten", "left out", "in the cooker", "soaking", "not begun")
WHENS: tuple[When, ...] = ("move", "serving", "room")
MOST_STEPS = 2000

_DIGITS = re.compile(r"(?:\d+\s*[xX\u00d7]\s*)?\d*\.?(\d*)\s*(.+)")


@dataclass(frozen=True, slots=True)
class Amount:
    """An amount of fuel: kilograms, cubic metres or joules, and how finely it was read."""

    value: float
    unit: str
    grain: float  # one of the last digit that was written


def read_amount(given: Any) -> Amount:
    """Read ``8.4 kg``, ``2 x 465 g`` or full and part packages, ``1 x 465 g + 312 g``.

    Parameters
    ----------
    given
        What the file holds.

    Raises
    ------
    PydanticCustomError
        If it is no amount.
    """
    if not isinstance(given, str):
        raise fault("unit_missing", f"expected text such as '8.4 kg', given {given!r:.60}")
    try:
        parts = [read_stock(part) for part in given.split("+")]
        grain = max(_grain(part) for part in given.split("+"))
    except QuantityError as error:
        raise fault(error.code, str(error)) from error
    units = {part.unit for part in parts}
    if len(units) > 1:
        raise fault("unit_wrong", f"the parts of {given!r:.60} do not add up: different kinds")
    return Amount(sum(part.value for part in parts), units.pop(), grain)


def _grain(text: str) -> float:
    """Return one of the last digit of a quantity; a whole package is known exactly."""
    found = _DIGITS.fullmatch(text.strip())
    if found is None or re.match(r"\s*\d+\s*[xX\u00d7]", text):
        return 0.0
    one: Quantity = convert_any(f"1e-{len(found[1])} {found[2]}", ("kg", "m**3", "J"))
    return one.value


Moment = Annotated[int, PlainValidator(read_moment, json_schema_input_type=str)]
Fuel = Annotated[Amount, PlainValidator(read_amount, json_schema_input_type=str)]
Weight = Annotated[float, Unit("kg", ge=0, le=1000, example="290 g")]
Degrees = Annotated[float, Unit("degC", ge=-30, le=130, example="61 degC")]
Name = Annotated[str, Field(min_length=1, max_length=60)]
Number = Annotated[int, Field(ge=1, le=100_000)]
Heads = Annotated[int, Field(ge=0, le=1000)]
Energy = Annotated[float, Field(ge=0, le=1e6, strict=False)]
Share = Annotated[float, Field(ge=0, le=1e4, strict=False)]
Minute = Annotated[int, Field(ge=-1440, le=600_000)]


class Entry(Part):
    """What every entry says."""

    n: Number
    at: Moment
    kind: str
    note: Annotated[str, Field(max_length=200)] | None = None
    instead_of: Number | None = None


class Weighed(Entry):
    """Fuel that is left, or fuel that came in."""

    kind: Literal["fuel"]
    fuel: Name
    left: Fuel | None = None
    added: Fuel | None = None
    empty: Weight | None = None  # of the packages that were on the scale


class Eaten(Entry):
    """A meal or a dish: eaten, left out, begun otherwise than planned."""

    kind: Literal["meal"]
    day: Number
    meal: Name
    dish: Name | None = None  # None: all of the meal
    how: How = "eaten"
    stove: Name | None = None
    pot: Name | None = None
    cooker: Name | None = None


class Read(Entry):
    """A temperature that was read."""

    kind: Literal["temperature"]
    when: When
    read: Degrees
    day: Number | None = None
    meal: Name | None = None
    dish: Name | None = None


class Came(Entry):
    """Who eats from this moment on."""

    kind: Literal["people"]
    adults: Heads
    children: Heads


class Sticks(Entry):
    """Sticks found wet, or dry again."""

    kind: Literal["sticks"]
    wet: bool
    until: Moment | None = None


class FollowedFire(Part):
    """A fire of a plan that is followed."""

    stove: Name
    start: Minute
    end: Minute
    mj: Energy


class Again(Part):
    """A pot boiled again."""

    on: Minute
    boil: Minute
    off: Minute


class FollowedStep(Part):
    """A step of a plan that is followed: enough to know what burns, and what is in use."""

    day: Number
    meal: Name
    dish: Name
    batch: Number
    stove: Name
    pot: Name
    cooker: Name | None
    finish: Literal["flame", "packed", "vacuum", "boiled_again"]
    soak_from: Minute | None
    on: Minute
    boil: Minute
    off: Minute
    move: Minute | None
    reboil: Annotated[list[Again], Field(max_length=10)]
    serve: Minute
    portions: Share
    mj: Energy
    serve_c: float
    serve_c_low: float


class Followed(Entry):
    """The plan that is followed from this moment on, with all that was done before it."""

    kind: Literal["plan"]
    steps: Annotated[list[FollowedStep], Field(max_length=MOST_STEPS)]
    fires: Annotated[list[FollowedFire], Field(max_length=MOST_STEPS)]
    efficiency: dict[Name, Annotated[float, Field(gt=0, le=1)]] = Field(
        default={}
    )  # it was made with


class Withdrawn(Entry):
    """An entry that does not count any more."""

    kind: Literal["withdrawn"]
    instead_of: Number


KINDS: dict[str, type[Entry]] = {
    "fuel": Weighed,
    "meal": Eaten,
    "temperature": Read,
    "people": Came,
    "sticks": Sticks,
    "plan": Followed,
    "withdrawn": Withdrawn,
}
