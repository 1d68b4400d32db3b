"""A quantity as it is written, written in the other system of measures; what fits both stays.

Only how it is shown: what a file says is never changed by this.
"""

import math
from typing import Literal

from optimizer.units.quantity import QuantityError, convert, unit_named
from optimizer.units.wording import LONGEST, PACKAGES, PRICE, QUANTITY

System = Literal["metric", "us"]

# From the unit as pint names it: the unit of the other system, as it is written there.
TO_US = {
    "meter": "ft",
    "centimeter": "inch",
    "millimeter": "inch",
    "kilogram": "lb",
    "gram": "oz",
    "liter": "qt",
    "milliliter": "floz",
    "degree_Celsius": "degF",
    "meter / second": "mph",
    "kilometer / hour": "mph",
}
TO_METRIC = {
    "foot": "m",
    "inch": "mm",
    "yard": "m",
    "pound": "kg",
    "ounce": "g",
    "gallon": "L",
    "quart": "L",
    "pint": "L",
    "cup": "mL",
    "fluid_ounce": "mL",
    "degree_Fahrenheit": "degC",
    "mile_per_hour": "m/s",
    "mile / hour": "m/s",
}
SHORT_M = 1.0  # a length below it is told in inches
FIGURES = 3


def exchanged(text: str, system: System) -> str:
    """Write a quantity in a system of measures.

    Parameters
    ----------
    text
        As it is written: ``320 m``, ``2 x 465 g``, ``0.60 EUR / kg``.
    system
        The system that is wanted.

    Returns
    -------
    str
        To three figures, a temperature to a degree. The text as it is, where it is in this system
        already, where its unit belongs to both, or where it is no quantity.
    """
    if len(text) > LONGEST:
        return text.strip()
    packages = PACKAGES.fullmatch(text)
    if packages:
        return f"{packages[1]} x {exchanged(packages[2], system)}"
    price = PRICE.fullmatch(text)
    if price and price[3].strip():
        return _price(price[1], price[2], price[3].strip(), system)
    return _amount(text, system) or text.strip()


def _amount(text: str, system: System) -> str | None:
    """Exchange a number and a unit; None where there is nothing to exchange."""
    found = QUANTITY.fullmatch(text)
    unit = _other(found[2], float(found[1]), system) if found else None
    if unit is None:
        return None
    try:
        value = convert(text, unit)
    except QuantityError:
        return None
    return f"{_told(value, unit)} {unit}"


def _price(money: str, code: str, bought: str, system: System) -> str:
    """Exchange what a price buys; money for one of a unit becomes money for one of the other."""
    if bought[0].isdigit():
        return f"{money} {code} / {_amount(bought, system) or bought}"
    unit = _other(bought, math.inf, system)
    if unit is None:
        return f"{money} {code} / {bought}"
    return f"{_told(float(money) / convert(f'1 {bought}', unit), unit)} {code} / {unit}"


def _other(unit: str, number: float, system: System) -> str | None:
    """Find the unit of the system that takes the place of one of the other."""
    named = unit_named(unit)
    if system == "us" and named == "meter" and 0 < abs(number) < SHORT_M:
        return "inch"
    return (TO_US if system == "us" else TO_METRIC).get(named)


def _told(value: float, unit: str) -> str:
    """Write a number to what is worth knowing."""
    if unit in {"degC", "degF"}:
        return f"{round(value):d}"
    if value == 0:
        return "0"
    places = FIGURES - 1 - math.floor(math.log10(abs(value)))
    text = f"{round(value, places):.{max(places, 0)}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
