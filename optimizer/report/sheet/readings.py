"""What is read with the thermometer, and what to do when a reading is below the line.

What is said of safety stands in the table of cautions; here is added only which dishes are least
sure.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from optimizer import shelf
from optimizer.model.household import Scenario
from optimizer.model.plan import Plan, Step
from optimizer.report.chances import SURE, surety
from optimizer.report.measures import Measures, in_measures

ADVICE = {"reheat": "hot", "rice": "hot", "infants": "at"}
"""Cautions that say what to do, and the rule of serving of the dishes they are about."""

UNSURE = "less sure than the rest. Have a thermometer at hand, and time for some minutes more."


@dataclass(frozen=True, slots=True)
class Advice:
    """What to do, and with which dishes."""

    dishes: tuple[str, ...]
    text: str

    @property
    def told(self) -> str:
        """All of it in one line."""
        return f"{', '.join(self.dishes)}: {self.text}"


def is_read(step: Step) -> bool:
    """Tell whether a dish comes out of a cooker, so that its temperature has to be read."""
    return step.cooker is not None


def unsure_of(steps: Sequence[Step]) -> Iterator[Advice]:
    """Yield what to do with dishes that are less sure than most to be done and hot.

    Parameters
    ----------
    steps
        Dishes of one day of a plan that was tried.
    """
    unsure = tuple(dict.fromkeys(step.item for step in steps if surety(step) < SURE))
    if unsure:
        yield Advice(unsure, UNSURE)


def advice_of(
    steps: Sequence[Step], plan: Plan, scenario: Scenario, system: Measures
) -> Iterator[Advice]:
    """Yield what to do when a reading of these dishes is below the line.

    Parameters
    ----------
    steps
        Dishes that are read.
    plan
        The plan, whose cautions name the dishes they are about.
    scenario
        The household.
    system
        The measures.

    Yields
    ------
    Advice
        For all hot dishes; then for those that need more.
    """
    named = {caution.code: caution.items for caution in plan.cautions}
    for code, rule in ADVICE.items():
        ruled = [step.item for step in steps if step.serve_rule == rule]
        about = [dish for dish in ruled if code == "reheat" or dish in named.get(code, ())]
        if about:
            text = in_measures(shelf.load().cautions[code].text, system)
            yield Advice(tuple(dict.fromkeys(about)), text)
    for step in {step.number: step for step in steps}.values():  # once, however often drawn
        wanted = scenario.item(step.number).dish.serve_c
        if step.serve_rule == "at" and wanted is not None:
            yield Advice((step.item,), f"Wanted at {system.temperature(wanted)} or more.")
