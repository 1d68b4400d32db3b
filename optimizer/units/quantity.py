"""Text with a unit, as a person writes it, to a plain float in a fixed unit.

The only place that knows pint. A quantity is split by a pattern into a number and a unit; pint is
given the unit alone, never the whole text, because it would evaluate arithmetic. The registry is
made when the first quantity is read, so that importing this module costs nothing.

Money is not a unit of pint: a price is ``number code / amount`` and its code has to be the
currency of the scenario.
"""

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from optimizer.units.wording import (
    BARE,
    KINDS,
    LONGEST,
    MEANT,
    MONEY,
    PACKAGES,
    PRICE,
    QUANTITY,
    example,
    fault,
    shown,
)

if TYPE_CHECKING:
    import pint

_SIGNS = {"\u20ac": "EUR", "\u00a3": "GBP"}
# What pint raises of a text that is no unit; its parser asserts what it should have checked.
NOT_A_UNIT = (
    ArithmeticError, AssertionError, AttributeError, KeyError, RecursionError, SyntaxError,
    TypeError, ValueError,
)  # fmt: skip
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
    # for its error only; what is read is pint's own cache in this person's folder
    import pickle  # nosec B403

    import pint

    try:
        return pint.UnitRegistry(cache_folder=":auto:")
    except (OSError, EOFError, pickle.UnpicklingError):
        return pint.UnitRegistry()


@lru_cache(maxsize=512)
def _unit(text: str) -> Any:
    """Look up the unit that a text names; None if there is none."""
    try:
        return _registry().parse_units(text)
    except NOT_A_UNIT:
        return None


def unit_named(text: str) -> str:
    """Give the one name of a unit, however it is written; empty if there is none.

    Parameters
    ----------
    text
        A unit, such as ``ft`` or ``foot``.
    """
    return str(_unit(text) or "")


def _split(text: str, wanted: str) -> tuple[float, str]:
    """Split a text into its number and the text of its unit."""
    found = QUANTITY.fullmatch(text) if len(text) <= LONGEST else None
    if found is None:
        bare = len(text) <= LONGEST and BARE.fullmatch(text)
        code = "unit_missing" if bare else "quantity"
        raise QuantityError(code, f"{shown(text)} {fault(text)}; write for example {wanted}")
    number = float(found[1])
    if not math.isfinite(number):
        raise QuantityError("finite", f"{shown(text)} is not a finite number")
    return number, found[2]


def convert_any(text: str, units: tuple[str, ...], wanted: str | None = None) -> Quantity:
    """Read a quantity that may be of several kinds.

    Parameters
    ----------
    text
        A number and a unit, such as ``465 g``.
    units
        Fixed units, of which the first that fits is taken.
    wanted
        How it might be written, for messages; None for an example of each unit.

    Returns
    -------
    Quantity
        The value in the unit that fits.

    Raises
    ------
    QuantityError
        If the text is no quantity, or of none of these kinds.
    """
    wanted = wanted or " or ".join(f"'{example(unit)}'" for unit in units)
    number, written = _split(text, wanted)
    unit = _unit(written)
    hint = f" ({MEANT[written]})" if written in MEANT else ""
    if unit is None:
        raise QuantityError(
            "unit_unknown", f"{shown(text)}: unknown unit '{written}'{hint}; write {wanted}"
        )
    for target in units:
        value = _converted(number, unit, target)
        if value is not None:
            return Quantity(value, target)
    kinds = " or ".join(KINDS.get(target, f"a value in {target}") for target in units)
    raise QuantityError(
        "unit_wrong", f"{shown(text)} is not {kinds}{hint}; write for example {wanted}"
    )


def _converted(number: float, unit: Any, target: str) -> float | None:
    """Convert, or None where the kinds differ; a thermometer's degree is never a difference."""
    import pint

    if target in _DIFFERENCE and str(unit) in {"degree_Celsius", "degree_Fahrenheit"}:
        return None
    try:
        value = float(_registry().Quantity(number, unit).m_as(target))
    except (pint.PintError, ValueError, ArithmeticError):
        return None
    if not math.isfinite(value):
        raise QuantityError("finite", f"'{number:g} {unit}' is not a finite number of {target}")
    return value


def convert(text: str, unit: str, written: str | None = None) -> float:
    """Read a quantity into a fixed unit.

    Parameters
    ----------
    text
        A number and a unit, such as ``4 inch`` or ``54 degF``.
    unit
        The unit of the float that is given back, such as ``m`` or ``degC``.
    written
        How a value might be written, for messages; None for any example of the unit.

    Returns
    -------
    float
        The value in ``unit``.

    Raises
    ------
    QuantityError
        If the text is no quantity, or of another kind.
    """
    return convert_any(text, (unit,), written and f"'{written}'").value


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
    packages = PACKAGES.fullmatch(text) if len(text) <= LONGEST else None
    found = convert_any(packages[2] if packages else text, units)
    if found.value < 0:
        raise QuantityError("bounds", f"{shown(text)} is less than nothing")
    if packages is None:
        return found
    return Quantity(int(packages[1]) * found.value, found.unit, found.value)


def read_money(text: str, currency: str) -> float:
    """Read a sum of money: ``25 EUR``.

    Parameters
    ----------
    text
        A number and a currency.
    currency
        Code of three letters that the sum has to be in.

    Returns
    -------
    float
        The sum.

    Raises
    ------
    QuantityError
        If the text is no sum, is negative, or is in another currency.
    """
    found = MONEY.fullmatch(text) if len(text) <= LONGEST else None
    if found is None:
        raise QuantityError("price", f"{shown(text)} is no sum of money; write '25 {currency}'")
    _in_currency(text, found[2], currency)
    money = float(found[1])
    if not 0 <= money < math.inf:
        raise QuantityError("bounds", f"{shown(text)}: a price may not be negative, or without end")
    return money


def _in_currency(text: str, code: str, currency: str) -> None:
    """Refuse another currency than the file's."""
    if _SIGNS.get(code, code.upper()) != currency:
        raise QuantityError(
            "currency", f"{shown(text)} is in {code}, but this file counts in {currency}"
        )


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
        Money for one of ``unit``, and how much is bought at once.

    Raises
    ------
    QuantityError
        If the text is no price, is negative, or is in another currency.
    """
    wanted = f"'4.50 {currency} / 465 g' or '0.30 {currency} / kWh'"
    found = PRICE.fullmatch(text) if len(text) <= LONGEST else None
    if found is None:
        raise QuantityError("price", f"{shown(text)} does not read as a price; write {wanted}")
    money, code, amount = float(found[1]), found[2], found[3]
    _in_currency(text, code, currency)
    bought = convert_any(amount if amount[0].isdigit() else f"1 {amount}", units)
    if money < 0 or bought.value <= 0 or not math.isfinite(money / bought.value):
        raise QuantityError("bounds", f"{shown(text)}: neither side of a price may be negative")
    return Quantity(money / bought.value, bought.unit, bought.value)
