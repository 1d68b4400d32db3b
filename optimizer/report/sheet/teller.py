"""The words of the sheet: a cook may have no scales, so every amount is told in cups as well."""

from collections.abc import Sequence

from optimizer.model.household import DAY_MIN, Scenario
from optimizer.model.plan import Amount, Plan, Step
from optimizer.report.cups import Cups
from optimizer.report.measures import Measures, Metric, Us
from optimizer.report.timetable import SOLID, Teller

COOL = " Let it cool for children."
NEW_LINE = "\n"  # between what has to be measured out, and what is done with it


class SheetTeller(Teller):
    """Puts the steps of one plan into the words of the sheet."""

    def __init__(self, plan: Plan, scenario: Scenario, measures: Measures) -> None:
        super().__init__(plan, scenario, measures)
        self.cups = Cups(scenario)

    def amounts(self, amounts: Sequence[Amount]) -> str:
        """List foods, by weight and as they are measured out."""
        return ", ".join(self.amount(each) for each in amounts)

    def amount(self, amount: Amount) -> str:
        """Tell one food: its weight and its cups, the one a household goes by in front."""
        name, cups = self.names.food(amount.food), self.cups.food(amount.food, amount.kg)
        weight = self.measures.food(amount.kg)
        if not isinstance(self.measures, Us):
            return _bracketed(f"{weight} {name}", cups)
        grams = Metric().food(amount.kg)
        by_cup = bool(cups) and "of them" not in cups
        return _bracketed(f"{cups if by_cup else weight} {name}", grams)

    def water(self, step: Step) -> str:
        """Tell how much water goes into the pot, in cups too."""
        fresh = "fresh water" if step.soak_from is not None else "water"
        cups, litres = self.cups.water(step.water_kg), Metric().water(step.water_kg)
        if not isinstance(self.measures, Us):
            return _bracketed(f"{litres} {fresh}", cups)
        return _bracketed(f"{cups or self.measures.water(step.water_kg)} {fresh}", litres)

    def soaking(self, step: Step) -> str:
        """Tell what to put to soak, and for which meal if that is not today's."""
        text = super().soaking(step)
        if step.soak_from is None or step.soak_from // DAY_MIN + 1 == step.day:
            return text
        return f"For {step.meal} tomorrow: {text[:1].lower()}{text[1:]}"

    def setting_on(self, step: Step) -> str:
        """Tell what goes into the pot, and on a new line which pot and stove."""
        poured = "Pour the soaking water off. " if step.soak_from is not None else ""
        first = f"{self.apart(step)}{poured}{self.contents(step)}."
        return f"{first}{NEW_LINE}{self.placing(step)} {self.heating(step)}"

    def ending(self, label: str, kind: str | None) -> str:
        """Tell how a fire ends, in few words."""
        if kind in SOLID:
            return f"Put the {label} out; keep what has not burned."
        return f"Turn the {label} off."

    def serving(self, step: Step) -> str:
        """Tell what comes to the table; that it cools for children stands below the day."""
        return super().serving(step).replace(". Serve ", ": ").removesuffix(COOL)

    def heating(self, step: Step) -> str:
        """Tell when it boils; of what is only warmed, how warm it is wanted."""
        text = super().heating(step)
        item = self.items.get(step.number)
        if item is None or step.serve_rule != "at" or item.dish.serve_c is None:
            return text
        return f"{text} Wanted at {self.measures.temperature(item.dish.serve_c)} or more."


def _bracketed(text: str, other: str) -> str:
    """Add another measure in brackets; how a food is cut may stand in them already."""
    if not other:
        return text
    return f"{text[:-1]}; {other})" if text.endswith(")") else f"{text} ({other})"
