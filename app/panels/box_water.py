"""A water test: readings typed, pasted or brought in; the fitted curve, and writing it down."""

from collections.abc import Mapping

import streamlit as st

from app import cached, state, typed
from app.figures.fitted import fitted_chart
from app.panels import choosing, drawing, saving
from app.waiting import plain
from optimizer.errors import InputError, Problem
from optimizer.model.household import Scenario
from optimizer.report.measures import measures
from optimizer.report.trials import CAUTIONS, meaning, number_block, reading_block, setting
from optimizer.scenario.file_text import decoded
from optimizer.studies.box import known_cookers, known_pots, usual_pot
from optimizer.trials.water_test import WaterTest

TYPED, PASTED = "Type readings", "Paste or bring in"
TYPES = ["csv", "txt"]
ROWS, MORE, MOST = 6, 3, 60
EXAMPLE = {
    "metric": ("time_min, temp_c, room_c", "0, 97, 15", "30, 90.3, 15", "60, 85.5, 15"),
    "us": ("time_min, temp_f, room_f", "0, 207, 59", "30, 194.5, 59", "60, 186, 59"),
}
ASK = {"metric": ("0 or 18:05", "97", "15"), "us": ("0 or 18:05", "207", "59")}
SAID = {"--water": "water", "--pot": "pot", "--jar": "pot", "--room": "room"}
UNSURE = (
    "The readings leave the loss too uncertain to be written down; measure longer, or more often."
)


def water(scenario: Scenario) -> None:
    """Draw a water test and what it says.

    Parameters
    ----------
    scenario
        The household.
    """
    st.markdown(
        "Fill the pot with boiling water, close the cooker and leave it shut. Read the thermometer "
        "some five times, three of them in the first hour, until it is near 60 °C (140 °F)."
    )
    known = known_cookers(scenario)
    who = saving.whose("cookers", known)
    said, faults = _filled(scenario, who)
    text, rows = _readings()
    if not text:
        return
    asked = tuple(sorted(said.items()))
    tested = cached.water_test(state.text(), text, asked, who.name, who.like)
    _tell(tested.problems, faults, rows)
    if tested.found is not None:
        _found(tested.found, who)


# what was in it


def _filled(
    scenario: Scenario, who: saving.Whose
) -> tuple[dict[str, str], Mapping[str, st.delta_generator.DeltaGenerator]]:
    """Let the person say what was in it; give places for what is wrong with each."""
    faults = {}
    said: dict[str, str] = {}
    with st.container(horizontal=True):
        with st.container(width=240):
            amount = {"metric": "4.8 L", "us": "5 qt"}[state.units()]
            said["water"] = choosing.text("test water", "Water in it", amount)
            faults["water"] = st.container()
        with st.container(width=280):
            if who.thing.kind == "packed":
                pots = {name: pot.label for name, pot in known_pots(scenario).items()}
                first = usual_pot(scenario, who.thing).name
                said["pot"] = choosing.one("test pot", "In which pot", pots, first)
            faults["pot"] = st.container()
        with st.container(width=280):
            room = {"metric": "18 degC", "us": "64 degF"}[state.units()]
            said["room"] = choosing.text("test room", "Room (if not read each time)", room)
            faults["room"] = st.container()
    return {key: value for key, value in said.items() if value}, faults


# the readings


def _readings() -> tuple[str, Mapping[int, st.delta_generator.DeltaGenerator]]:
    """Let the person give readings; give their text, and a place under each typed row."""
    how = st.segmented_control(
        "Readings", [TYPED, PASTED], required=True, **state.bind("readings how", TYPED)
    )
    return _typed_rows() if how != PASTED else (_pasted(), {})


def _typed_rows() -> tuple[str, Mapping[int, st.delta_generator.DeltaGenerator]]:
    count, places, units = int(state.kept("readings rows", ROWS)), {}, state.units()
    sign, rows = "°F" if units == "us" else "°C", []
    st.caption(f"Time in minutes or on the clock; temperatures in {sign}.")
    for row in range(count):
        with st.container(horizontal=True, gap="small"):
            cells = []
            names = (f"Time {row + 1}", f"Water {row + 1}", f"Room {row + 1}")
            for name, such_as in zip(names, ASK[units], strict=True):
                with st.container(width=104):
                    hint = such_as if not row else ""
                    cells.append(choosing.text(f"reading {name}", name, hint))
            rows.append((cells[0], cells[1], cells[2]))
        places[row] = st.container()
    st.button(
        "More rows",
        disabled=count >= MOST,
        on_click=state.keep,
        args=("readings rows", min(MOST, count + MORE)),
    )
    if not any(any(row) for row in rows):
        return "", places
    return typed.readings_text(rows, units), places


def _pasted() -> str:
    """Let the person paste a table, or bring a file in."""
    given = st.file_uploader("Table of readings (CSV, 1 MB at most)", TYPES, key="readings file")
    if given is not None:
        try:
            return decoded(given.name, given.getvalue())
        except InputError as error:
            choosing.wrong([problem.message for problem in error.problems])
            return ""
    example = "\n".join(EXAMPLE[state.units()])
    bound = state.bind("readings text", "")
    text = st.text_area("Or paste it here", placeholder=example, height=200, **bound)
    return str(text or "") if str(text or "").strip() else ""


def _tell(
    problems: tuple[Problem, ...],
    faults: Mapping[str, st.delta_generator.DeltaGenerator],
    rows: Mapping[int, st.delta_generator.DeltaGenerator],
) -> None:
    """Say what is wrong beside what it is wrong with; the rest below."""
    by_row = typed.row_problems(problems) if rows else {}
    for row, reasons in by_row.items():
        with rows.get(row, st.container()):
            choosing.wrong(reasons)
    for problem in problems:
        field = SAID.get(problem.key, problem.key if problem.key in faults else "")
        if field:
            with faults[field]:
                choosing.wrong([problem.message])
        elif not (rows and problem.line is not None and problem.line > 1):
            line = "" if problem.line is None or rows else f"Line {problem.line}: "
            choosing.wrong([f"{line}{problem.message}"])


def _found(found: WaterTest, who: saving.Whose) -> None:
    """Draw what the test says, and offer to write it down."""
    system = measures(state.units())
    first, *notes = meaning(found, system)
    st.markdown(f"**{plain(setting(found, system))}**")
    drawing.chart(fitted_chart(found, system, drawing.look()))
    out = " Crosses: left out, too far off the curve of the others." if found.fit.outliers else ""
    st.caption(f"Dots: readings. Line: the curve that fits them best, with its 90 % band.{out}")
    drawing.block(reading_block(found, system), name="Readings beside the curve")
    drawing.block(number_block(found, system))
    st.markdown(plain(" ".join([first, *notes])))
    drawing.mind(CAUTIONS, system)
    if found.fit.too_uncertain:
        st.warning(UNSURE)
    else:
        saving.button("cookers", who, found.values)
