"""The fields of a record as keys of the file: no unit in the name, a unit in the value.

``Stove.power_w`` is the key ``power`` and reads ``3 kW``; its bounds are those of ``columns.csv``.
"""

import math
from types import UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin, get_type_hints

from pydantic import BaseModel, ConfigDict, Field, PlainValidator
from pydantic_core import PydanticCustomError

from optimizer.model.things import Material
from optimizer.shelf import load
from optimizer.units import QuantityError, Unit, convert

LARGEST = 1e15  # no number of a kitchen
UNITS = {
    "_kg_m3": "kg/m**3",
    "_j_kgk": "J/(kg*K)",
    "_w_mk": "W/(m*K)",
    "_j_kg": "J/kg",
    "_j_k": "J/K",
    "_w_k": "W/K",
    "_min": "min",
    "_kg": "kg",
    "_m3": "m**3",
    "_pa": "Pa",
    "_j": "J",
    "_w": "W",
    "_m": "m",
    "_c": "degC",
    "_k": "K",
    "_h": "hour",
}
KEYS = {  # where two fields would have the same key, or a key would say too little
    "start_j": "start_fuel",
    "start_min": "start_time",
    "serve_c": "serve_at",
    "heat_c": "heat_to",
    "rated_h": "rated_after",
    "packing_j_k": "packing_heat",
}
NOT_WRITTEN = frozenset({"name", "label", "source_id", "source_place"})

Bounds = tuple[float | None, float | None]


class Part(BaseModel):
    """A mapping in the file: unknown keys are refused, nothing is guessed."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True, defer_build=True)


def number(low: float | None = None, high: float | None = None) -> PlainValidator:
    """Make the annotation of a number without a unit; a percentage will do.

    Parameters
    ----------
    low
        Least value.
    high
        Greatest value.
    """

    def read(given: Any) -> float:
        return _within(_plain_number(given), given, (low, high))

    return PlainValidator(read, json_schema_input_type=float | str)


def _plain_number(given: Any) -> float:
    """Read ``0.1`` or ``10 %``."""
    if isinstance(given, str) and given.strip().endswith("%"):
        try:
            return convert(given, "dimensionless")
        except QuantityError as error:
            raise fault(error.code, str(error)) from error
    if isinstance(given, bool) or not isinstance(given, int | float):
        raise fault("number", f"expected a number such as 0.1 or '10 %', given {given!r:.60}")
    if not math.isfinite(given) or abs(given) > LARGEST:
        raise fault("finite", f"expected a finite number, given {given!r:.60}")
    return float(given)


def _within(value: float, given: Any, bounds: Bounds) -> float:
    """Check the bounds of a number."""
    low, high = bounds
    if low is not None and value < low:
        raise fault("bounds", f"must be at least {low:g}, given {given!r:.60}")
    if high is not None and value > high:
        raise fault("bounds", f"must be at most {high:g}, given {given!r:.60}")
    return value


def fault(code: str, message: str) -> PydanticCustomError:
    """Make the error that pydantic collects, with the message taken as it is.

    Parameters
    ----------
    code
        Short word for the kind of fault.
    message
        What was expected, what was given.
    """
    return PydanticCustomError(code, "{message}", {"message": message})


def unit_of(name: str) -> str | None:
    """Give the unit that the name of a field ends in, or None.

    Parameters
    ----------
    name
        Name of a field of a record.
    """
    return next((unit for suffix, unit in UNITS.items() if name.endswith(suffix)), None)


def key_of(name: str) -> str:
    """Key that a field has in the file.

    Parameters
    ----------
    name
        Name of a field of a record.
    """
    if name in KEYS:
        return KEYS[name]
    suffix = next((suffix for suffix in UNITS if name.endswith(suffix)), "")
    return name.removesuffix(suffix)


def fields_of(record: type, table: str, leave_out: frozenset[str] = frozenset()) -> dict[str, Any]:
    """Keys of the file for the fields of a record, as pydantic makes a model of them.

    Parameters
    ----------
    record
        A record of ``optimizer.model.things``.
    table
        Table whose columns bound the values.
    leave_out
        Fields that are written in another way.
    """
    hints = get_type_hints(record)
    return {
        key_of(name): (_annotation(name, hint, table) | None, Field(default=None))
        if _may_be_none(hint)
        else (_annotation(name, hint, table), Field(default=None))
        for name, hint in hints.items()
        if name not in NOT_WRITTEN | leave_out
    }


def _may_be_none(hint: Any) -> bool:
    return get_origin(hint) in {UnionType, Union} and type(None) in get_args(hint)


def _annotation(name: str, hint: Any, table: str) -> Any:
    """Type of a key."""
    kind = (
        next(arm for arm in get_args(hint) if arm is not type(None)) if _may_be_none(hint) else hint
    )
    if kind is Material:
        return str
    if kind in {bool, str} or get_origin(kind) is Literal:
        return kind
    column = load().columns.get((table, name))
    low, high = (column.minimum, column.maximum) if column else (None, None)
    unit = unit_of(name)
    if unit is not None:
        return Annotated[float, Unit(unit, ge=low, le=high)]
    return (
        Annotated[int, Field(ge=low, le=high)]
        if kind is int
        else Annotated[float, number(low, high)]
    )
