"""How a quantity is written for a cook: metric, or the measures of a kitchen in the USA."""

import math
import re
from typing import Literal, Protocol

Units = Literal["metric", "us"]

# Exact by definition (international avoirdupois pound, US liquid quart, international foot);
# the BTU is the International Table one.
KG_PER_LB = 0.45359237
OZ_PER_LB = 16
L_PER_QUART = 0.946352946
CUPS_PER_QUART = 4
M_PER_FOOT = 0.3048
BTU_PER_MJ = 947.817
MJ_PER_KWH = 3.6

G_PER_KG = 1000
SMALL_FOOD_G = 20  # below it to two figures, above it to 5 g
SMALL_WATER_KG = 0.995  # below it in mL
CUPS_UNTIL_QUARTS = 2
NARROW_K = 2.0  # a careful temperature nearer to the usual is not worth a word
SHORT_MIN = 10  # below it to the minute, above it to five


def figures(value: float, count: int = 2) -> str:
    """Write a number with so many figures and no exponent."""
    if value == 0:
        return "0"
    places = count - 1 - math.floor(math.log10(abs(value)))
    text = f"{round(value, places):.{max(places, 0)}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def energy_figures(value: float) -> str:
    """Write a number with two figures, or three where the first is a 1."""
    return figures(value, 3 if f"{value:e}".startswith("1") else 2)


def duration(minutes: float) -> str:
    """Write minutes: exact below ten, else to five, as hours when there are any."""
    known = round(minutes) if minutes < SHORT_MIN else 5 * round(minutes / 5)
    hours, rest = divmod(known, 60)
    if not hours:
        return f"{rest} min"
    return f"{hours} h {rest} min" if rest else f"{hours} h"


def kilowatt_hours(mj: float) -> str:
    """Write electricity as it is sold."""
    return f"{energy_figures(mj / MJ_PER_KWH)} kWh"


def quarters(value: float) -> str:
    """Write a number to the nearest quarter, at least one."""
    whole, rest = divmod(max(1, round(4 * value)), 4)
    part = ("", "1/4", "1/2", "3/4")[rest]
    return f"{whole} {part}".strip() if whole else part


class Measures(Protocol):
    """One system of measures."""

    def food(self, kg: float) -> str:
        """Write a weight of food."""
        ...

    def water(self, kg: float) -> str:
        """Write a volume of water (1 kg is 1 L)."""
        ...

    def fuel(self, kg: float, count: int = 2) -> str:
        """Write a weight of fuel with so many figures."""
        ...

    def fuel_up(self, kg: float) -> str:
        """Write a weight of fuel rounded up."""
        ...

    def energy(self, mj: float) -> str:
        """Write an energy."""
        ...

    def degrees(self, c: float) -> str:
        """Write a temperature without its unit, to 1 degC or 1 degF."""
        ...

    def temperature(self, c: float) -> str:
        """Write a temperature with its unit."""
        ...

    def height(self, m: float) -> str:
        """Write a height above the sea."""
        ...


class Metric:
    """Kilograms, litres, megajoules, degrees Celsius."""

    def food(self, kg: float) -> str:
        """Write a weight of food, to 5 g where that is small."""
        grams = G_PER_KG * kg
        if grams < SMALL_FOOD_G:
            return f"{figures(grams)} g"
        grams = 5 * round(grams / 5)
        return f"{figures(grams / G_PER_KG, 3)} kg" if grams >= G_PER_KG else f"{grams} g"

    def water(self, kg: float) -> str:
        """Write a volume of water, to 50 mL, below a litre to 10 mL."""
        if kg < SMALL_WATER_KG:
            return f"{10 * max(1, round(100 * kg))} mL"
        return f"{round(20 * kg) / 20:g} L"

    def fuel(self, kg: float, count: int = 2) -> str:
        """Write a weight of fuel."""
        return f"{figures(kg, count)} kg" if kg >= 1 else f"{figures(G_PER_KG * kg, count)} g"

    def fuel_up(self, kg: float) -> str:
        """Write a weight of fuel rounded up, to ten grams or a tenth of a kilogram."""
        grams = 10 * math.ceil(G_PER_KG * kg / 10)
        return f"{math.ceil(10 * kg) / 10:g} kg" if grams >= G_PER_KG else f"{grams} g"

    def energy(self, mj: float) -> str:
        """Write an energy in MJ."""
        return f"{energy_figures(mj)} MJ"

    def degrees(self, c: float) -> str:
        """Write a temperature in degC without its unit."""
        return f"{c:.0f}"

    def temperature(self, c: float) -> str:
        """Write a temperature in degC."""
        return f"{self.degrees(c)} °C"

    def height(self, m: float) -> str:
        """Write a height in metres."""
        return f"{m:.0f} m"


class Us:
    """Pounds and ounces, cups and quarts, thousand BTU, degrees Fahrenheit."""

    def food(self, kg: float) -> str:
        """Write a weight of food in ounces, from a pound on in pounds and ounces."""
        ounces = kg / KG_PER_LB * OZ_PER_LB
        if ounces < OZ_PER_LB - 0.5:
            return f"{figures(ounces)} oz"
        pounds, rest = divmod(round(ounces), OZ_PER_LB)
        return f"{pounds} lb {rest} oz" if rest else f"{pounds} lb"

    def water(self, kg: float) -> str:
        """Write a volume of water in cups, from two quarts on in quarts, to a quarter."""
        quarts = kg / L_PER_QUART
        if quarts >= CUPS_UNTIL_QUARTS:
            return f"{quarters(quarts)} qt"
        cups = quarters(CUPS_PER_QUART * quarts)
        return f"{cups} cup" if cups in {"1", "1/4", "1/2", "3/4"} else f"{cups} cups"

    def fuel_up(self, kg: float) -> str:
        """Write a weight of fuel rounded up, to an ounce or a tenth of a pound."""
        pounds = kg / KG_PER_LB
        if pounds < 1:
            return f"{math.ceil(OZ_PER_LB * pounds)} oz"
        return f"{math.ceil(10 * pounds) / 10:g} lb"

    def fuel(self, kg: float, count: int = 2) -> str:
        """Write a weight of fuel."""
        pounds = kg / KG_PER_LB
        if pounds < 1:
            return f"{figures(OZ_PER_LB * pounds, count)} oz"
        return f"{figures(pounds, count)} lb"

    def energy(self, mj: float) -> str:
        """Write an energy in thousand BTU."""
        return f"{energy_figures(mj * BTU_PER_MJ / 1000)} thousand BTU"

    def degrees(self, c: float) -> str:
        """Write a temperature in degF without its unit."""
        return f"{c * 9 / 5 + 32:.0f}"

    def temperature(self, c: float) -> str:
        """Write a temperature in degF."""
        return f"{self.degrees(c)} °F"

    def height(self, m: float) -> str:
        """Write a height in feet."""
        return f"{m / M_PER_FOOT:.0f} ft"


def measures(units: Units) -> Measures:
    """Give the system of measures of this name."""
    return Us() if units == "us" else Metric()


def in_measures(text: str, system: Measures) -> str:
    """Write the temperatures in a text of the shelf, such as ``60 degC``, in these measures."""
    return re.sub(
        r"(-?\d+(?:\.\d+)?) degC\b", lambda found: system.temperature(float(found[1])), text
    )


def fuel_in_measures(text: str, system: Measures, *, up: bool = False) -> str:
    """Write the weights in "390 g of butane" or "227 g more of butane" in these measures.

    Parameters
    ----------
    text
        A sentence of the plan, in kilograms or grams.
    system
        The measures.
    up
        Round up, so that what is asked for is never too little.
    """
    if not isinstance(system, Us):
        return text

    def written(found: re.Match[str]) -> str:
        kg = float(found[1]) / (G_PER_KG if found[2] == "g" else 1)
        return system.fuel_up(kg) if up else system.fuel(kg, 3)

    return re.sub(r"(\d+(?:\.\d+)?) (kg|g)(?= (?:more )?of )", written, text)


def served_at(system: Measures, rule: str, usual_c: float, careful_c: float, hot_c: float) -> str:
    """Say how hot a dish is served, and how hot perhaps only.

    Parameters
    ----------
    system
        The measures.
    rule
        Its rule of serving; what is wanted at any temperature cools and needs no second number.
    usual_c
        Usual temperature.
    careful_c
        Careful temperature, rounded down.
    hot_c
        Hot food is eaten at or above this; below it the careful temperature is always said.
    """
    about = f"about {system.temperature(usual_c)}"
    near = usual_c - careful_c < NARROW_K and careful_c >= hot_c
    if rule == "any" or near:
        return about
    return f"{about}, perhaps only {system.degrees(math.floor(careful_c))}"
