"""A water boiling test of a stove: what was weighed, read and timed, and writing it down."""

from collections.abc import Mapping
from typing import Any

import streamlit as st

from app import cached, state, typed
from app.panels import choosing, drawing, saving
from app.waiting import plain
from optimizer.errors import InputError, Problem
from optimizer.model.household import Scenario
from optimizer.report.measures import measures
from optimizer.report.stove_test import caution_codes, how, plan_block, protocol_block, setting
from optimizer.scenario.file_text import decoded
from optimizer.shelf import load
from optimizer.studies.box import known_pots, usual_cooker, usual_pot
from optimizer.trials.stove_result import StoveTest

TYPED, FILE = "Type it", "Bring in a file"
PHASES = {
    "cold": "Cold start: the stove is cold",
    "hot": "Hot start: the stove is still hot",
    "simmer": "Simmer: kept near the boil",
}
START = {
    "fuel": ("Fuel burned", "300 g"),
    "char": ("Char left over", "20 g"),
    "water": ("Water at the start", "2.5 kg"),
    "water_left": ("Water at the end", "2.45 kg"),
    "water_from": ("Water from", "15 degC"),
    "water_to": ("Water to", "100 degC"),
    "time": ("It took", "15 min"),
}
SIMMER = {key: each for key, each in START.items() if key not in {"water_from", "water_to"}}
Places = Mapping[str, st.delta_generator.DeltaGenerator]


def boiling(scenario: Scenario) -> None:
    """Draw a boiling test and what it says.

    Parameters
    ----------
    scenario
        The household.
    """
    st.markdown(
        "Weigh fuel and water, boil the water at full power with the stove cold, again with it "
        "hot, then keep it near the boil for 45 minutes. One start is enough for a first number."
    )
    stoves = {each.stove.name: each.stove for each in scenario.stoves}
    stoves |= {name: each for name, each in load().stoves.items() if name not in stoves}
    who = saving.whose("stoves", stoves)
    given = st.segmented_control(
        "Measurements", [TYPED, FILE], required=True, **state.bind("boiling how", TYPED)
    )
    text, places = _typed(scenario, who) if given != FILE else (_brought(), {})
    if not text:
        return
    tested = cached.boiling_test(state.text(), text, who.name, who.like)
    _tell(tested.problems, places)
    if tested.found is not None:
        _found(tested.found, who)


def _brought() -> str:
    """Let the person bring the file of a test in."""
    given = st.file_uploader("Boiling test (YAML, 1 MB at most)", ["yaml", "yml"], key="boiling")
    if given is None:
        return ""
    try:
        return decoded(given.name, given.getvalue())
    except InputError as error:
        choosing.wrong([problem.message for problem in error.problems])
        return ""


def _typed(scenario: Scenario, who: saving.Whose) -> tuple[str, Places]:
    """Let the person type what was measured; a place under each field for what is wrong."""
    places: dict[str, st.delta_generator.DeltaGenerator] = {}
    pots = {name: pot.label for name, pot in known_pots(scenario).items()}
    said: dict[str, Any] = {"fuel": who.thing.fuel}
    with st.container(horizontal=True):
        with st.container(width=240):
            first = usual_pot(scenario, usual_cooker(scenario)).name
            said["pot"] = choosing.one("boiling pot", "Which pot", pots, first)
        with st.container(width=180):
            said["air"] = choosing.text("boiling air", "Air", "15 degC")
            places["air"] = st.container()
        with st.container(width=180):
            high = f"{scenario.place.altitude_m:g} m"
            said["altitude"] = choosing.text("boiling high", "Above the sea", first=high)
            places["altitude"] = st.container()
        with st.container(width=180):
            said["scale"] = choosing.text("boiling scale", "Steps of the scale", first="5 g")
            places["scale"] = st.container()
    said["char_kept"] = st.toggle(
        "Char that is left goes into the next fire", **state.bind("boiling char", first=False)
    )
    phases = {phase: _phase(phase, title, places) for phase, title in PHASES.items()}
    begun = any(value for phase in phases.values() for value in phase.values())
    return (typed.boiling_text({**said, **phases}) if begun else ""), places


def _phase(
    phase: str, title: str, places: dict[str, st.delta_generator.DeltaGenerator]
) -> dict[str, str]:
    """Draw one phase; empty, it was not tested."""
    said = {}
    with st.expander(title, expanded=phase == "cold"), st.container(horizontal=True):
        for key, (label, such_as) in (SIMMER if phase == "simmer" else START).items():
            with st.container(width=160):
                said[key] = choosing.text(f"boiling {phase} {key}", label, such_as)
                places[f"{phase}.{key}"] = st.container()
    places[phase] = st.container()
    return said


def _tell(problems: tuple[Problem, ...], places: Places) -> None:
    """Say what is wrong beside what it is wrong with; the rest below."""
    for key, reasons in typed.key_problems(problems).items():
        if key in places:
            with places[key]:
                choosing.wrong(reasons)
        else:
            choosing.wrong([f"{key}: {reason}" if key else reason for reason in reasons])


def _found(found: StoveTest, who: saving.Whose) -> None:
    """Draw what the test says, and offer to write it down."""
    system = measures(state.units())
    st.markdown(f"**{plain(setting(found, system))}**")
    drawing.block(plan_block(found, system))
    drawing.block(protocol_block(found, system))
    st.markdown(plain(" ".join(how(found))))
    drawing.mind(caution_codes(found), system)
    saving.button("stoves", who, found.values)
