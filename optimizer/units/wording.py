"""How quantities are written, and what to say of a text that is none."""

import re

LONGEST = 40  # of what was given, as it is told
LONGEST = 100  # characters in a quantity

NUMBER = r"[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?"
_ATOM = (
    r"(?:[A-Za-z\u00b0\u00b5\u03bc\u2103\u2109_]+(?:\s*(?:\*\*|\^)\s*-?[1-4]|[\u00b2\u00b3])?|%)"
)
_TIMES = r"\s*[*\u00b7]\s*"
_GROUP = rf"(?:{_ATOM}|\(\s*{_ATOM}(?:(?:{_TIMES}|\s+){_ATOM})*\s*\))"
UNIT = rf"{_GROUP}(?:(?:{_TIMES}|\s*/\s*){_GROUP})*"
QUANTITY = re.compile(rf"\s*({NUMBER})\s*({UNIT})\s*")
BARE = re.compile(rf"\s*{NUMBER}\s*")
PACKAGES = re.compile(rf"\s*(\d{{1,6}})\s*[xX\u00d7]\s*({NUMBER}\s*{UNIT})\s*")
MONEY = re.compile(rf"\s*({NUMBER})\s*([A-Za-z]{{3}}|[$\u20ac\u00a3])\s*")
PRICE = re.compile(rf"\s*({NUMBER})\s*([A-Za-z]{{3}}|[$\u20ac\u00a3])\s*/\s*(.+)")

KINDS = {
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
MEANT = {
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


def example(unit: str) -> str:
    """Give a quantity in this unit as one would write it.

    Parameters
    ----------
    unit
        The fixed unit.
    """
    return _EXAMPLES.get(unit, f"1.5 {unit}")


_FAULTS = (
    (BARE.pattern + r"$", "has no unit"),
    (
        r"\s*[+-]?\d+([ ,]\d{3})+(?!\d)",
        "has a gap or a comma in its number; write it without, as in 1000 g",
    ),
    (r"\s*\d+\s*,\s*\d", "has a decimal comma; write a point, as in 4.5 kg"),
    (r"\s*\d+(\s+\d+)?\s*/\s*\d+", "has a fraction; write a decimal number, as in 4.5 inch"),
    (rf"\s*{NUMBER}\s*[\"']\s*$", "has a mark for its unit; write inch or ft"),
    (rf"\s*{NUMBER}\s*fl\.?\s*oz", "is not a known way to write it; for fluid ounces write floz"),
    ("", "does not read as a number and a unit (nothing is calculated here)"),
)


def fault(text: str) -> str:
    """Say why a text does not read as number and unit."""
    if len(text) > LONGEST:
        return "is too long for a quantity"
    return next(told for pattern, told in _FAULTS if re.match(pattern, text))


def shown(text: str) -> str:
    """Quote a text, shortened to what one can read in a message."""
    return f"'{text}'" if len(text) <= LONGEST else f"'{text[: LONGEST - 3]}...'"
