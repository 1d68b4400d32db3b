"""What a plan comes to: saving, fuel, worth, cautions; or why there is none."""

import streamlit as st

from app import state
from app.figures.fuel import fuel_chart
from app.panels import drawing
from app.waiting import plain
from optimizer.model.household import Scenario
from optimizer.model.plan import Plan
from optimizer.report.balance import compared_rows, gap_lines, headline, short_told
from optimizer.report.chances import chance_rows, chances_told
from optimizer.report.households import rota_block, share_blocks
from optimizer.report.measures import measures
from optimizer.report.shares import fuel_rows, fuel_shares
from optimizer.report.text import cautions_told, changes_told, reasons_told
from optimizer.report.worth import worth_rows


def saving(plan: Plan, scenario: Scenario) -> None:
    """Say what is saved, and how near the plan is to the best.

    Parameters
    ----------
    plan
        A plan that has steps.
    scenario
        Its household.
    """
    system = measures(state.units())
    first, *more = headline(plan, scenario.currency, system)
    st.subheader(plain(first), anchor=False)
    for each in more:
        st.markdown(plain(each))
    st.caption(plain(" ".join(gap_lines(plan, scenario))))


def taken(plan: Plan, scenario: Scenario) -> None:
    """Say what a plan takes.

    Parameters
    ----------
    plan
        A plan that has steps, not set beside boiling the whole time.
    scenario
        Its household.
    """
    takes = headline(plan, scenario.currency, measures(state.units()))[0]
    st.subheader(plain(takes), anchor=False)


def none(plan: Plan, scenario: Scenario) -> None:
    """Say that there is no plan, what would make one, and why ways are refused.

    Parameters
    ----------
    plan
        An infeasible plan.
    scenario
        Its household.
    """
    system = measures(state.units())
    st.subheader("No plan is possible with what there is.", anchor=False)
    if plan.changes:
        st.markdown("**The least changes that would make one**")
        listed(changes_told(plan, system))
    reasons = reasons_told(plan, scenario, system)
    if reasons:
        with st.expander("Ways that do not work, dish by dish"):
            for dish, told in reasons.items():
                st.markdown(f"**{plain(dish)}**")
                listed(told)


def fuel(plan: Plan, scenario: Scenario) -> None:
    """Draw what is used of each fuel and what is left.

    Parameters
    ----------
    plan
        A plan that has steps.
    scenario
        Its household.
    """
    st.header("Fuel", anchor=False)
    shares = fuel_shares(plan, scenario, measures(state.units()))
    drawing.known(fuel_chart, shares, drawing.look())
    drawing.table(fuel_rows(shares), name="Fuel as a table")


def chances(plan: Plan, scenario: Scenario) -> None:
    """Say how sure the dishes are, how much fuel it may take, and what to measure.

    Parameters
    ----------
    plan
        A plan that has steps.
    scenario
        Its household.
    """
    told = chances_told(plan, scenario, measures(state.units()))
    if plan.chances is None or not told:
        return
    st.header("Chances", anchor=False)
    st.caption(
        f"From {plan.chances.draws:,} tries of this plan, each with other stoves, wood, weather, "
        "packing and food, as far as they are not known."
    )
    listed(told)
    drawing.table(chance_rows(plan, scenario), name="How sure every dish is, as a table")


def households(plan: Plan, scenario: Scenario) -> None:
    """Say who cooks when, and what each household burns and owes; nothing where nobody shares.

    Parameters
    ----------
    plan
        A plan that has steps.
    scenario
        Its household.
    """
    if not plan.shares:
        return
    st.header("Households", anchor=False)
    drawing.block(rota_block(plan, scenario))
    *fuels, money = share_blocks(plan, scenario, measures(state.units()))
    st.subheader("What each household burns", anchor=False)
    drawing.block(money)
    for each in fuels:
        drawing.block(each)


def compared(plan: Plan, scenario: Scenario) -> None:
    """Set the plan beside boiling the whole time.

    Parameters
    ----------
    plan
        A plan that has steps.
    scenario
        Its household.
    """
    rows = compared_rows(plan, scenario, measures(state.units()))
    if len(rows) == 1:
        return
    st.header("Beside boiling the whole time", anchor=False)
    words = ("", "fuel", "money", "fire burns")
    drawing.table([dict(zip(words, row, strict=True)) for row in rows])
    for told in short_told(plan):
        st.caption(plain(told))


def worth(plan: Plan) -> None:
    """Say what one more of each scarce thing is worth.

    Parameters
    ----------
    plan
        A plan that has steps.
    """
    st.header("What one more is worth", anchor=False)
    rows = worth_rows(plan, measures(state.units()))
    if rows:
        drawing.table([{"one more": what, "saves": saves} for what, saves in rows])
    else:
        st.caption("One more of any single thing would save no more than the plan may be off.")


def cautions(plan: Plan) -> None:
    """List the cautions.

    Parameters
    ----------
    plan
        Any plan.
    """
    if plan.cautions:
        st.header("Mind", anchor=False)
        listed(cautions_told(plan, measures(state.units())))


def listed(lines: list[str]) -> None:
    """List sentences.

    Parameters
    ----------
    lines
        One a point.
    """
    st.markdown("\n".join(f"- {plain(line)}" for line in lines))
