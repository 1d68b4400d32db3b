"""Households that share a kitchen, told: who cooks when, and each one's part of the fuel.

Rows are rounded by the largest remainder, so that they come to the total below them.
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from optimizer.model.household import Scenario
from optimizer.model.plan import Plan
from optimizer.model.sharing import FuelPart, Share, Turn
from optimizer.report.blocks import Block, block
from optimizer.report.dates import day_name
from optimizer.report.doings import rounded
from optimizer.report.measures import KG_PER_LB, MJ_PER_KWH, OZ_PER_LB, Measures, Us, duration
from optimizer.report.names import Names
from optimizer.scenario.clock import clock
from optimizer.studies.households import apportioned

ALL = "all together"
OWED = 3  # column of a fuel's table


@dataclass(frozen=True, slots=True)
class Grain:
    """What amounts of one fuel are rounded to."""

    size: float  # in kg, or MJ where there is no mass
    shown: float  # in the unit that is shown
    places: int
    unit: str

    def told(self, count: int) -> str:
        """Write so many grains."""
        return f"{count * self.shown:.{self.places}f} {self.unit}" if count else "-"


def grain_of(part: FuelPart, total: float, system: Measures) -> Grain:
    """Say what the amounts of one fuel are rounded to.

    Parameters
    ----------
    part
        One household's part of it.
    total
        The largest amount that is told of it, in the unit of the part.
    system
        The measures.
    """
    if part.unit == "MJ":
        return Grain(MJ_PER_KWH / 100, 0.01, 2, "kWh")
    if isinstance(system, Us):
        if total < KG_PER_LB:
            return Grain(KG_PER_LB / OZ_PER_LB / 10, 0.1, 1, "oz")
        return Grain(KG_PER_LB / 100, 0.01, 2, "lb")
    return Grain(0.01, 0.01, 2, "kg") if total >= 1 else Grain(0.001, 1.0, 0, "g")


def shared_out(amounts: Sequence[float], size: float) -> list[int]:
    """Round amounts to whole grains that come to the rounded total; those below 0 for themselves.

    Parameters
    ----------
    amounts
        In whatever unit.
    size
        Of a grain, in the same unit.
    """
    more = [max(0.0, each) for each in amounts]
    less = [max(0.0, -each) for each in amounts]
    plus = apportioned(more, round(sum(more) / size)) if sum(more) else [0] * len(more)
    minus = apportioned(less, round(sum(less) / size)) if sum(less) else [0] * len(less)
    return [one - other for one, other in zip(plus, minus, strict=True)]


def share_blocks(plan: Plan, scenario: Scenario, system: Measures) -> list[Block]:
    """Set out each household's part of every fuel, and the money.

    Parameters
    ----------
    plan
        A plan with shares.
    scenario
        Its household.
    system
        The measures.

    Returns
    -------
    list of Block
        A table a fuel that is used or was brought, then the money; none where nobody shares.
    """
    if not plan.shares:
        return []
    names = Names(scenario)
    fuels = zip(*(share.fuels for share in plan.shares), strict=True)
    told = [_fuel_block(plan.shares, parts, names, system) for parts in fuels]
    return [*(each for each in told if each.rows), _money_block(plan, scenario.currency)]


def _from_here(plan: Plan) -> str:
    """Say that what was burned before a plan begins is not in it."""
    if not plan.begins:
        return ""
    return "From here on: what is left of what they brought counts as brought, in proportion."


def _fuel_block(
    shares: Sequence[Share], parts: Sequence[FuelPart], names: Names, system: Measures
) -> Block:
    """Set out one fuel, a row a household."""
    most = max(sum(part.used for part in parts), sum(part.brought for part in parts))
    grain = grain_of(parts[0], most, system)
    columns = [
        shared_out([part.used for part in parts], grain.size),
        shared_out([part.brought for part in parts], grain.size),
        shared_out([part.back for part in parts], grain.size),
        shared_out([part.owed for part in parts], grain.size),
    ]
    kept = [n for n, column in enumerate(columns) if n == 0 or any(column)]
    if not any(map(any, columns)):
        return block(names.fuel(parts[0].name), (), ())
    heads = [("used", "brought", "gets back", "between them")[n] for n in kept]
    rows = [
        (
            share.household,
            *((_between if n == OWED else Grain.told)(grain, columns[n][row]) for n in kept),
        )
        for row, share in enumerate(shares)
    ]
    sums = (ALL, *(grain.told(sum(columns[n])) for n in kept))
    return block(names.fuel(parts[0].name), heads, [*rows, sums])


def _between(grain: Grain, count: int) -> str:
    """Say whose fuel was burned: its own by others, or others' by it."""
    if not count:
        return "-"
    return f"owes {grain.told(-count)}" if count < 0 else f"is owed {grain.told(count)}"


def _money_block(plan: Plan, currency: str) -> Block:
    """Set out what the fuel of each household costs, and what they owe each other."""
    shares = plan.shares
    cents = apportioned([share.cost for share in shares], round(100 * float(f"{plan.cost:.2f}")))
    owed = shared_out([share.settlement for share in shares], 0.01)
    heads = ["portions", "cost of its fuel", *(["settles"] if any(owed) else [])]
    rows = []
    for share, cost, due in zip(shares, cents, owed, strict=True):
        row = [share.household, f"{share.portions:.3g}", _money(cost, currency)]
        rows.append([*row, _due(due, currency)] if any(owed) else row)
    total = [ALL, f"{sum(s.portions for s in shares):.3g}", _money(sum(cents), currency)]
    rows.append([*total, "-"] if any(owed) else total)
    return block(
        "Household",
        heads,
        rows,
        "By portions in adult size; a fire by the pots on it. Fuel that nobody is said to have "
        "brought is burned first.",
        "Settles: for what it burned of others' fuel, or they of its own." if any(owed) else "",
        _from_here(plan),
    )


def _money(cents: int, currency: str) -> str:
    return f"{cents / 100:.2f} {currency}"


def _due(cents: int, currency: str) -> str:
    if not cents:
        return "-"
    return f"{'gets' if cents > 0 else 'pays'} {_money(abs(cents), currency)}"


def share_lines(plan: Plan, scenario: Scenario, system: Measures) -> list[str]:
    """Tell the shares in lines for a terminal.

    Parameters
    ----------
    plan, scenario, system
        As of ``share_blocks``.
    """
    blocks = share_blocks(plan, scenario, system)
    return [line for each in blocks for line in ("", *each.lines)]


# who cooks


def rota_block(plan: Plan, scenario: Scenario) -> Block | None:
    """Set out who cooks when; None where no households take turns.

    Parameters
    ----------
    plan
        A plan.
    scenario
        Its household.
    """
    if not plan.rota:
        return None
    rows = [
        (day_name(scenario, turn.day), _hours(turn), turn.household, duration(turn.minutes))
        for turn in plan.rota
    ]
    return block("Who cooks", ("from, to", "household", "fire burns"), rows, _in_all(plan.rota))


def _in_all(rota: Sequence[Turn]) -> str:
    loads: dict[str, float] = defaultdict(float)
    for turn in rota:
        loads[turn.household] += turn.minutes
    told = ", ".join(f"{name} {duration(minutes)}" for name, minutes in loads.items())
    return f"In all: {told}. Change turns as you like; the plan is the same whoever cooks."


def rota_lines(plan: Plan, scenario: Scenario) -> list[str]:
    """Tell who cooks when in lines for a terminal.

    Parameters
    ----------
    plan
        A plan.
    scenario
        Its household.
    """
    told = rota_block(plan, scenario)
    return ["", *told.lines] if told else []


def cooks_of(day: int, plan: Plan) -> str:
    """Say in a line who cooks on one day; nothing where no households take turns.

    Parameters
    ----------
    day
        From 1.
    plan
        A plan.
    """
    turns = [turn for turn in plan.rota if turn.day == day]
    if len({turn.household for turn in turns}) == 1:
        return f"cook: {turns[0].household}"
    told = ", ".join(f"{turn.household} {_hours(turn)}" for turn in turns)
    return f"cook: {told}" if told else ""


def _hours(turn: Turn) -> str:
    start, end = rounded(turn.start, "down"), rounded(turn.end, "up")
    return f"{clock(start)}-{clock(end)}"
