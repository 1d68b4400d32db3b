"""Text with a unit, as a person writes it, to a plain float in a fixed unit.

The only place that knows pint. A quantity is split by a pattern into a number and a unit; pint is
given the unit alone, never the whole text, because it would evaluate arithmetic. The registry is
made when the first quantity is read, so that importing this module costs nothing.

Money is not a unit of pint: a price is ``number code / amount`` and its code has to be the
currency of the scenario.
"""

import math
import re
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from pydantic_core import PydanticCustomError, core_schema

if TYPE_CHECKING:
    import pint

LONGEST = 100  # characters in a quantity

_NUMBER = r"[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?"
_ATOM = (
    r"(?:[A-Za-z\u00b0\u00b5\u03bc\u2103\u2109_]+(?:\s*(?:\*\*|\^)\s*-?[1-4]|[\u00b2\u00b3])?|%)"
)
_TIMES = r"\s*[*\u00b7]\s*"
_GROUP = rf"(?:{_ATOM}|\(\s*{_ATOM}(?:{_TIMES}{_ATOM})*\s*\))"
_UNIT = rf"{_GROUP}(?:(?:{_TIMES}|\s*/\s*){_GROUP})*"
_QUANTITY = re.compile(rf"\s*({_NUMBER})\s*({_UNIT})\s*")
_BARE = re.compile(rf"\s*{_NUMBER}\s*")
_PACKAGES = re.compile(rf"\s*(\d{{1,6}})\s*[xX\u00d7]\s*({_NUMBER}\s*{_UNIT})\s*")
_PRICE = re.compile(rf"\s*({_NUMBER})\s*([A-Za-z]{{3}}|[$\u20ac\u00a3])\s*/\s*(.+)")

_KINDS = {
    "kg": "a mass",
    "m": "a length",
    "m**3": "a volume",
    "J": "an energy",
    "W": "a power",
    "Pa": "a pressure",
    "degC": "a temperature",
    "K": "a difference of temperature",
    "min": "a time",
    "hour": "a time",
    "m/s": "a speed",
}
_EXAMPLES = {
    "kg": "465 g",
    "m": "4 inch",
    "m**3": "2.5 L",
    "J": "1.2 kWh",
    "W": "2 kW",
    "Pa": "80 kPa",
    "degC": "12 degC",
    "K": "5 K",
    "min": "90 min",
    "hour": "6 h",
    "m/s": "3 m/s",
    "J/kg": "18 MJ/kg",
}
_MEANT = {
    "F": "for Fahrenheit write degF",
    "C": "for Celsius write degC",
    "G": "for gram write g",
    "Kg": "for kilogram write kg",
    "KG": "for kilogram write kg",
    "KW": "for kilowatt write kW",
    "KWh": "for kilowatt-hour write kWh",
    "Cal": "for the food calorie write kcal",
    "M": "for metre write m, for minutes write min",
    "Min": "for minutes write min",
    "H": "for hours write h",
    "kgs": "for kilogram write kg",
}
_SIGNS = {"\u20ac": "EUR", "\u00a3": "GBP"}
_DIFFERENCE = frozenset({"K", "kelvin"})


class QuantityError(ValueError):
    """A text is not a quantity of the kind that is wanted; ``code`` says in what way."""

    def __init__(self, code: str, message: str) -> None:
        self.code = code
        super().__init__(message)


@dataclass(frozen=True, slots=True)
class Quantity:
    """So much in a fixed unit; ``package`` is the size of one where the text counts packages."""

    value: float
    unit: str
    package: float | None = None


@lru_cache(maxsize=1)
def _registry() -> "pint.UnitRegistry[Any]":
    """Registry of units, made once; cached on disk where the disk lets it."""
    import pickle  # noqa: PLC0415

    import pint  # noqa: PLC0415

    try:
        return pint.UnitRegistry(cache_folder=":auto:")
    except (OSError, EOFError, pickle.UnpicklingError):
        return pint.UnitRegistry()


@lru_cache(maxsize=512)
def _unit(text: str) -> Any:
    """Look up the unit that a text names; None if there is none."""
    try:
        return _registry().parse_units(text)
    except (AttributeError, ValueError, TypeError, ArithmeticError, KeyError, SyntaxError):
        return None


def example(unit: str) -> str:
    """Give a quantity in this unit as one would write it.

    Parameters
    ----------
    unit
        The fixed unit.
    """
    return _EXAMPLES.get(unit, f"1.5 {unit}")


_FAULTS = (
    (_BARE.pattern + r"$", "has no unit"),
    (
        r"\s*[+-]?\d+([ ,]\d{3})+(?!\d)",
        "has a gap or a comma in its number; write it without, as in 1000 g",
    ),
    (r"\s*\d+\s*,\s*\d", "has a decimal comma; write a point, as in 4.5 kg"),
    (r"\s*\d+(\s+\d+)?\s*/\s*\d+", "has a fraction; write a decimal number, as in 4.5 inch"),
    (rf"\s*{_NUMBER}\s*[\"']\s*$", "has a mark for its unit; write inch or ft"),
    (rf"\s*{_NUMBER}\s*fl\.?\s*oz", "is not a known way to write it; for fluid ounces write floz"),
    ("", "does not read as a number and a unit (nothing is calculated here)"),
)


def _fault(text: str) -> str:
    """Say why a text does not read as number and unit."""
    if len(text) > LONGEST:
        return "is too long for a quantity"
    return next(told for pattern, told in _FAULTS if re.match(pattern, text))


def _shown(text: str) -> str:
    """Quote a text, shortened to what one can read in a message."""
    return f"'{text}'" if len(text) <= 40 else f"'{text[:37]}...'"  # noqa: PLR2004


def _split(text: str, wanted: str) -> tuple[float, str]:
    """Split a text into its number and the text of its unit."""
    found = _QUANTITY.fullmatch(text) if len(text) <= LONGEST else None
    if found is None:
        code = "unit_missing" if _BARE.fullmatch(text[:LONGEST]) else "quantity"
        raise QuantityError(code, f"{_shown(text)} {_fault(text)}; write for example {wanted}")
    number = float(found[1])
    if not math.isfinite(number):
        raise QuantityError("finite", f"{_shown(text)} is not a finite number")
    return number, found[2]


def convert_any(text: str, units: tuple[str, ...]) -> Quantity:
    """Read a quantity that may be of several kinds.

    Parameters
    ----------
    text
        A number and a unit, such as ``465 g``.
    units
        Fixed units, of which the first that fits is taken.

    Returns
    -------
    Quantity
        The value in the unit that fits.

    Raises
    ------
    QuantityError
        If the text is no quantity, or of none of these kinds.
    """
    wanted = " or ".join(f"'{example(unit)}'" for unit in units)
    number, written = _split(text, wanted)
    unit = _unit(written)
    hint = f" ({_MEANT[written]})" if written in _MEANT else ""
    if unit is None:
        raise QuantityError(
            "unit_unknown", f"{_shown(text)}: unknown unit '{written}'{hint}; write {wanted}"
        )
    for target in units:
        value = _converted(number, unit, target)
        if value is not None:
            return Quantity(value, target)
    kinds = " or ".join(_KINDS.get(target, f"a value in {target}") for target in units)
    raise QuantityError(
        "unit_wrong", f"{_shown(text)} is not {kinds}{hint}; write for example {wanted}"
    )


def _converted(number: float, unit: Any, target: str) -> float | None:
    """Convert, or None where the kinds differ; a thermometer's degree is never a difference."""
    import pint  # noqa: PLC0415

    if target in _DIFFERENCE and str(unit) in {"degree_Celsius", "degree_Fahrenheit"}:
        return None
    try:
        value = float(_registry().Quantity(number, unit).m_as(target))
    except (pint.PintError, ValueError, ArithmeticError):
        return None
    if not math.isfinite(value):
        raise QuantityError("finite", f"'{number:g} {unit}' is not a finite number of {target}")
    return value


def convert(text: str, unit: str) -> float:
    """Read a quantity into a fixed unit.

    Parameters
    ----------
    text
        A number and a unit, such as ``4 inch`` or ``54 degF``.
    unit
        The unit of the float that is given back, such as ``m`` or ``degC``.

    Returns
    -------
    float
        The value in ``unit``.

    Raises
    ------
    QuantityError
        If the text is no quantity, or of another kind.
    """
    return convert_any(text, (unit,)).value


def read_stock(text: str, units: tuple[str, ...] = ("kg", "m**3", "J")) -> Quantity:
    """Read what there is of something: ``12 kg``, ``1.2 kWh`` or ``2 x 465 g``.

    Parameters
    ----------
    text
        An amount, or a count of packages.
    units
        Fixed units that will do.

    Returns
    -------
    Quantity
        All there is; with the size of a package where packages are counted.

    Raises
    ------
    QuantityError
        If the text is no amount, or less than nothing.
    """
    packages = _PACKAGES.fullmatch(text) if len(text) <= LONGEST else None
    found = convert_any(packages[2] if packages else text, units)
    if found.value < 0:
        raise QuantityError("bounds", f"{_shown(text)} is less than nothing")
    if packages is None:
        return found
    return Quantity(int(packages[1]) * found.value, found.unit, found.value)


def read_price(text: str, currency: str, units: tuple[str, ...] = ("kg", "m**3", "J")) -> Quantity:
    """Read a price: ``4.50 EUR / 465 g``, ``2 EUR/kg``, ``0.30 EUR / kWh``.

    Parameters
    ----------
    text
        Money, a stroke, and the amount it buys.
    currency
        Code of three letters that the price has to be in.
    units
        Fixed units that the amount may be in.

    Returns
    -------
    Quantity
        Money for one of ``unit``.

    Raises
    ------
    QuantityError
        If the text is no price, is negative, or is in another currency.
    """
    wanted = f"'4.50 {currency} / 465 g' or '0.30 {currency} / kWh'"
    found = _PRICE.fullmatch(text) if len(text) <= LONGEST else None
    if found is None:
        raise QuantityError("price", f"{_shown(text)} does not read as a price; write {wanted}")
    money, code, amount = float(found[1]), found[2], found[3]
    if _SIGNS.get(code, code.upper()) != currency:
        raise QuantityError(
            "currency", f"{_shown(text)} is in {code}, but this file counts in {currency}"
        )
    bought = convert_any(amount if amount[0].isdigit() else f"1 {amount}", units)
    if money < 0 or bought.value <= 0 or not math.isfinite(money / bought.value):
        raise QuantityError("bounds", f"{_shown(text)}: neither side of a price may be negative")
    return Quantity(money / bought.value, bought.unit)


@dataclass(frozen=True)
class Unit:
    """Annotation for a pydantic field that reads text with a unit into a float.

    ``Annotated[float, Unit("kg", gt=0, example="465 g")]`` reads ``"465 g"`` as ``0.465``.
    The bounds are in ``unit``.
    """

    unit: str
    gt: float | None = None
    ge: float | None = None
    le: float | None = None
    example: str | None = None

    @property
    def shown(self) -> str:
        """How a value might be written."""
        return self.example or example(self.unit)

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> core_schema.CoreSchema:
        return core_schema.no_info_plain_validator_function(
            self.read,
            serialization=core_schema.plain_serializer_function_ser_schema(
                lambda value: f"{value!r} {self.unit}", when_used="json-unless-none"
            ),
        )

    def __get_pydantic_json_schema__(self, schema: Any, handler: Any) -> dict[str, Any]:
        kind = _KINDS.get(self.unit, f"a value in {self.unit}")
        return {"type": "string", "description": f"{kind} with its unit", "examples": [self.shown]}

    def read(self, given: Any) -> float:
        """Read one value.

        Parameters
        ----------
        given
            What the file holds.

        Returns
        -------
        float
            The value in ``unit``.

        Raises
        ------
        PydanticCustomError
            If it is no text, no quantity of this kind, or out of bounds.
        """
        if isinstance(given, bool) or not isinstance(given, str | int | float):
            raise _custom("quantity", f"expected text such as '{self.shown}'")
        if not isinstance(given, str):
            raise _custom("unit_missing", f"{given} has no unit; write for example '{self.shown}'")
        try:
            value = convert(given, self.unit)
        except QuantityError as error:
            raise _custom(error.code, str(error)) from error
        self._within(given, value)
        return value

    def _within(self, given: str, value: float) -> None:
        """Check the bounds."""
        rule = ""
        if self.gt is not None and not value > self.gt:
            rule = f"more than {self.gt:g}"
        elif self.ge is not None and not value >= self.ge:
            rule = f"at least {self.ge:g}"
        elif self.le is not None and not value <= self.le:
            rule = f"at most {self.le:g}"
        if rule:
            raise _custom("bounds", f"{_shown(given)} must be {rule} {self.unit}")


def _custom(code: str, message: str) -> PydanticCustomError:
    """Make the error that pydantic collects, with the message taken as it is."""
    return PydanticCustomError(code, "{message}", {"message": message})
