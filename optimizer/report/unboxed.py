"""Why a dish of a plan is not finished in an insulated cooker: short, where it applies."""

from collections import Counter

from optimizer.model.household import Scenario
from optimizer.model.plan import Plan, Refusal, Step
from optimizer.report.measures import Measures, in_measures
from optimizer.report.names import Names

MAY_COOL = "may cool before it is wanted, so no cooker is needed"
AS_GOOD = "would work in some way, but the plan is as good or better without"


def unboxed_lines(plan: Plan, scenario: Scenario, day: int, system: Measures) -> list[str]:
    """Say of every dish of a day that stays out of the cookers why it does.

    Parameters
    ----------
    plan
        A plan that has steps.
    scenario
        Its household.
    day
        From 1.
    system
        The measures.

    Returns
    -------
    list of str
        A sentence a dish; none where there are no cookers.
    """
    if not scenario.cookers:
        return []
    told = (
        f"{step.item}: {in_measures(_why(step, plan, scenario), system)}."
        for step in plan.steps
        if step.day == day and step.cooker is None
    )
    return list(dict.fromkeys(told))


def _why(step: Step, plan: Plan, scenario: Scenario) -> str:
    """Say why a dish is not in any cooker, cooker by cooker."""
    if step.serve_rule == "any":
        return MAY_COOL
    mine = [each for each in plan.refusals if each.item == step.number]
    names, by_reason = Names(scenario), dict[str, list[str]]()
    for own in scenario.cookers:
        cooker = own.cooker.name
        reason = _reason(step, [each for each in mine if each.cooker == cooker], scenario)
        by_reason.setdefault(reason, []).append(f"the {names.cooker(cooker)}")
    return "; ".join(f"{' and '.join(some)}: {reason}" for reason, some in by_reason.items())


def _reason(step: Step, refused: list[Refusal], scenario: Scenario) -> str:
    """Give the reason for one cooker: that of this pot on this stove, or the commonest of all."""
    here = [each for each in refused if (each.stove, each.pot) == (step.stove, step.pot)]
    if here:
        return here[0].reason
    if len(refused) < len(scenario.stoves) * len(scenario.pots):
        return AS_GOOD
    return Counter(each.reason for each in refused).most_common(1)[0][0]
