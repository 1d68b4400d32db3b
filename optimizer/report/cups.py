"""How much of a food is measured out without scales: household cups, spoons, pieces.

A cup is the household cup of 240 mL, level; it holds 16 tablespoons of 15 mL or 48 teaspoons of
5 mL. What a cup of a food weighs stands in ``measures.csv``.
"""

import math

from optimizer import shelf
from optimizer.model.household import Scenario

CUP_L = 0.24
SPOONS = 16  # tablespoons in a cup
TEASPOONS = 3  # in a tablespoon
QUARTERS = 4
MOST_WATER_CUPS = 16  # more water is measured by the jug
HALVES_FROM = 8
WHOLE_FROM = 16
SPOONS_UNTIL = 3  # cups
NEAR = 0.05  # of what is meant: as good as right
EIGHTH = 1 / 8
PARTS = {
    0.0: "",
    1 / 4: "1/4",
    1 / 3: "1/3",
    1 / 2: "1/2",
    2 / 3: "2/3",
    3 / 4: "3/4",
    1.0: "",
}


def measured(cups: float) -> str:
    """Write a volume as a cook measures it out.

    Parameters
    ----------
    cups
        Household cups, above 0.

    Returns
    -------
    str
        Teaspoons to a quarter; tablespoons; thirds and quarters of a cup, with tablespoons where
        that is not near and there is little; halves from eight cups on; whole cups from sixteen.
    """
    spoons = SPOONS * cups
    if spoons < 1 - EIGHTH / TEASPOONS:
        return f"{_mixed(max(1, round(QUARTERS * TEASPOONS * spoons)) / QUARTERS)} tsp"
    if cups < SPOONS_UNTIL and abs(_grain(cups) - cups) > NEAR * cups:
        return _with_spoons(spoons)
    grain = _grain(cups)
    return f"{_mixed(grain)} {'cup' if grain <= 1 else 'cups'}"


def _with_spoons(spoons: float) -> str:
    """Write tablespoons; from half a cup on as quarters of a cup and tablespoons."""
    whole = round(spoons)
    if whole < SPOONS // 2:
        few = round(2 * spoons) / 2 if spoons < TEASPOONS else whole
        if abs(few - spoons) > 2 * NEAR * spoons:
            return f"{round(TEASPOONS * spoons)} tsp"
        return f"{_mixed(few)} tbsp"
    quarters, rest = divmod(whole, SPOONS // QUARTERS)
    part = f"{_mixed(quarters / QUARTERS)} {'cup' if quarters <= QUARTERS else 'cups'}"
    return f"{part} + {rest} tbsp" if rest else part


def _grain(cups: float) -> float:
    """Round cups to what a set of measuring cups gives."""
    if cups >= WHOLE_FROM:
        return float(round(cups))
    if cups >= HALVES_FROM:
        return round(2 * cups) / 2
    whole = math.floor(cups)
    return whole + min(PARTS, key=lambda part: abs(part - (cups - whole)))


def _mixed(value: float) -> str:
    """Write a whole number and a part."""
    whole = math.floor(value + 1e-9)
    part = PARTS[min(PARTS, key=lambda known: abs(known - (value - whole)))]
    return f"{whole} {part}".strip() if whole else part


class Cups:
    """The household measures of the foods of one scenario."""

    def __init__(self, scenario: Scenario) -> None:
        known = shelf.load().measures
        foods = [part.food for item in scenario.items for part in item.dish.ingredients]
        self._measures = {
            word: known[food.name]
            for food in foods
            if food.name in known
            for word in (food.name, food.label)
        }

    def food(self, name: str, kg: float) -> str:
        """Write how much of a food that is, or nothing where it has to be weighed.

        Parameters
        ----------
        name
            Its name or its label.
        kg
            Its weight.

        Returns
        -------
        str
            Cups or spoons, or pieces rounded up.
        """
        known = self._measures.get(name)
        if known is None or kg <= 0:
            return ""
        if known.measure == "piece":
            return f"{math.ceil(kg / known.kg - EIGHTH)} of them"
        return measured(kg / known.kg)

    def water(self, kg: float) -> str:
        """Write how much water that is, or nothing where it is too much for cups.

        Parameters
        ----------
        kg
            Its weight; a kilogram is a litre.
        """
        cups = kg / CUP_L
        return measured(cups) if 0 < cups <= MOST_WATER_CUPS else ""
