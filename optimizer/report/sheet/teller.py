"""The words of the sheet: a cook may have no scales, so every amount is told in cups as well."""

from collections.abc import Sequence

from optimizer.model.household import Scenario
from optimizer.model.plan import Amount, Plan, Step
from optimizer.report.cups import Cups
from optimizer.report.measures import G_PER_KG, Measures, Metric, Us
from optimizer.report.timetable import DAY_MIN, Teller

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
        """Tell one food: its weight, its name, and in brackets its cups."""
        name = self.names.food(amount.food)
        weight = self.measures.food(amount.kg)
        others = [self.grams(amount.kg), self.cups.food(amount.food, amount.kg)]
        return _bracketed(f"{weight} {name}", others)

    def grams(self, kg: float) -> str:
        """Write a weight in grams where it is told in other units."""
        if not isinstance(self.measures, Us):
            return ""
        metric = Metric().food(kg)
        return metric if kg < 1 else f"{round(G_PER_KG * kg / 5) * 5} g"

    def water(self, step: Step) -> str:
        """Tell how much water goes into the pot, in cups too."""
        cups = self.cups.water(step.water_kg)
        told = super().water(step)
        return told if cups and cups in told else _bracketed(told, [cups])

    def soaking(self, step: Step) -> str:
        """Tell what to put to soak, and for which meal if that is not today's."""
        text = super().soaking(step)
        if step.soak_from is None or step.soak_from // DAY_MIN + 1 == step.day:
            return text
        return f"For {step.meal} tomorrow: {text[:1].lower()}{text[1:]}"

    def setting_on(self, step: Step) -> str:
        """Tell what goes into the pot, and on a new line which pot and stove."""
        contents = f"{self.contents(step)}."
        poured = "Pour the soaking water off. " if step.soak_from is not None else ""
        return f"{contents}{NEW_LINE}{poured}{self.placing(step)} {self.heating(step)}"

    def heating(self, step: Step) -> str:
        """Tell when it boils; of what is only warmed, how warm it is wanted."""
        text = super().heating(step)
        item = self.items.get(step.number)
        if item is None or step.serve_rule != "at" or item.dish.serve_c is None:
            return text
        return f"{text} Wanted at {self.measures.temperature(item.dish.serve_c)} or more."


def _bracketed(text: str, others: Sequence[str]) -> str:
    """Add other measures in brackets; how a food is cut may stand in them already."""
    told = ", ".join(other for other in others if other)
    if not told:
        return text
    return f"{text[:-1]}; {told})" if text.endswith(")") else f"{text} ({told})"
