"""One dish under the hand: sliders, and what it takes at once."""

import streamlit as st

from app import cached, state
from app.figures.cooling import cooling_chart
from app.figures.heat import heat_chart
from app.panels import choosing, drawing
from app.waiting import plain
from optimizer.model.household import Scenario
from optimizer.report.dialled import (
    Turn,
    dial_bars,
    dial_rows,
    first_dials,
    saved_words,
    turn_of,
    turned,
)
from optimizer.report.measures import measures
from optimizer.shelf import load
from optimizer.studies.dials import Cooked, Dials, dialled


def dial(scenario: Scenario) -> None:
    """Draw the choice of dish, stove and pot, the sliders, and the answer.

    Parameters
    ----------
    scenario
        The household.
    """
    first = _things(scenario)
    if first is None:
        st.warning("There is no fuel for this stove.")
        return
    wood = first.store.fuel.kind == "wood"
    answer = dialled(scenario, turned(first, _sliders(turn_of(first), wood=wood)))
    system = measures(state.units())
    st.markdown(f"**{plain(saved_words(answer))}**")
    st.caption(plain(f"Water boils at {system.temperature(answer.boil_c)} here."))
    drawing.table(dial_rows(answer, system))
    bars = dial_bars(answer, system)
    if bars:
        drawing.known(heat_chart, bars, system, drawing.look())
    if isinstance(answer.boxed, Cooked):
        hot_c = scenario.rules.hot_c
        drawing.known(cooling_chart, answer.boxed.curve, hot_c, system, drawing.look())
        st.caption("In the cooker. Full line: as usual. Dotted line: what a plan counts on.")


def _things(scenario: Scenario) -> Dials | None:
    """Let the person choose, and give the dials as the household's first day sets them."""
    dishes = {i.dish.name: i.dish for i in scenario.items if i.dish.serve != "any"}
    dishes = dishes or {i.dish.name: i.dish for i in scenario.items}
    pots = [own.pot for own in scenario.pots]
    begin = cached.first_choice(state.text())
    with st.container(horizontal=True):
        dish = choosing.one(
            "dial dish", "Dish", {d.name: d.label for d in dishes.values()}, begin[0]
        )
        stoves = {n: own.stove.label for n, own in enumerate(scenario.stoves)}
        stove = choosing.one("dial stove", "Stove", stoves, begin[1])
        pot = choosing.one("dial pot", "Pot", {n: p.label for n, p in enumerate(pots)}, begin[2])
    return first_dials(scenario, load(), dishes[dish], stove, pots[pot])


def _sliders(first: Turn, *, wood: bool) -> Turn:
    """Draw the sliders; they begin where the household is."""
    materials = load().materials
    left, right = st.columns(2)
    with left:
        labels = {m.name: m.label for m in materials.values()}
        packing = choosing.one("dial packing", "Packing", labels, first.material.name)
        thick = choosing.slider("thick", "dial thick", first.thickness_cm)
        fill = choosing.slider("fill", "dial fill", first.fill_percent)
        lid = st.toggle("Lid on while it is on the stove", **state.bind("dial lid", first=True))
    with right:
        wind = choosing.slider("wind", "dial wind", first.wind_m_s)
        high = choosing.slider("high", "dial high", first.altitude_m)
        wet = choosing.slider("wet", "dial wet", first.moisture_percent)
        if not wood:
            st.caption("This stove burns no wood, so moisture changes nothing.")
    return Turn(materials[packing], thick, fill, wet, wind, high, lid)
