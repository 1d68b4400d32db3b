"""What one more of each scarce thing would save, in words and in tables."""

from dataclasses import replace

from optimizer.model.plan import Plan, Worth
from optimizer.report.balance import NO_MONEY
from optimizer.report.blocks import Block, block
from optimizer.report.layout import table
from optimizer.report.measures import Measures, duration, fuel_in_measures


def worth_lines(plan: Plan, system: Measures) -> list[str]:
    """Say what one more of each scarce thing would save."""
    if any(worth.mixed is not None for worth in plan.worth):
        return ["", *appraisal_block(plan, system).lines]
    rows = worth_rows(plan, system)
    return ["", *table("Worth having", ("saves",), rows)] if rows else []


def appraisal_block(plan: Plan, system: Measures) -> Block:
    """Set out what more of everything would save, with what the linear program says of it.

    Parameters
    ----------
    plan
        The plan, its worth found by solving again for everything.
    system
        The measures.
    """
    rows = [
        (
            fuel_in_measures(worth.what, system),
            worth_value(worth, system),
            "-" if worth.mixed is None else worth_value(replace(worth, value=worth.mixed), system),
            "-" if worth.dual is None else worth_value(replace(worth, value=worth.dual), system),
            _holds(worth, system),
        )
        for worth in plan.worth
    ]
    off = (plan.gap or 0.0) * abs(plan.goal.value or 0.0)
    unsure = "" if not plan.worth else worth_value(replace(plan.worth[0], value=off), system)
    return block(
        "Worth having",
        ("saves", "mix", "price", "price holds"),
        rows,
        f"Saves: planned again; both plans may be off by {unsure}." if unsure != "nothing" else "",
        "Mix: the linear program solved again, in which a dish may be shared between fires.",
        "Price: of one more at the margin there; it holds while there is so much of it in all.",
    )


def _holds(worth: Worth, system: Measures) -> str:
    """Say between which amounts a price holds."""
    low, high = worth.holds_from, worth.holds_to
    if low is None:
        return "-"
    if worth.holds_unit == "kg":
        return f"from {system.fuel(low, 3)}" + (f" to {system.fuel(high, 3)}" if high else "")
    return f"from {low:.1f}" + (f" to {high:.1f}" if high else "")


def worth_rows(plan: Plan, system: Measures) -> list[tuple[str, str]]:
    """Set out what one more of each scarce thing would save, the most first.

    Parameters
    ----------
    plan
        The plan.
    system
        The measures.
    """
    ordered = sorted(plan.worth, key=lambda w: -w.value)
    return [(fuel_in_measures(w.what, system), worth_value(w, system)) for w in ordered]


def worth_value(worth: Worth, system: Measures) -> str:
    """Say what one more saves."""
    if worth.unit == "MJ":
        return system.energy(worth.value) if worth.value else "nothing"
    if worth.unit in {"min", "minutes"}:
        return duration(worth.value) if worth.value else "nothing"
    if worth.unit == "kg":
        return system.fuel(worth.value) if worth.value else "nothing"
    if abs(worth.value) < NO_MONEY:
        return "nothing"
    return f"{worth.value:.2f} {worth.unit}"
