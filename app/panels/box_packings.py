"""A bag of packing, and what a house has: how to lay it round the pot that was chosen."""

from collections.abc import Sequence
from dataclasses import replace

import streamlit as st

from app import state
from app.panels import choosing, drawing
from app.panels.box_size import Sized
from optimizer.cli.boxing import BAG_M3, heap_of
from optimizer.cli.measuring import Options
from optimizer.errors import PhysicsError
from optimizer.model.household import Scenario
from optimizer.report.box import bag_block
from optimizer.report.boxed import laid_block
from optimizer.report.measures import measures
from optimizer.studies.box import known_packings
from optimizer.studies.designs import bag
from optimizer.studies.laying import MOST_HEAPS, Heap, lay

BAG = {"metric": "60 L", "us": "16 gallon"}
NONE = ""


def bag_of_packing(sized: Sized) -> None:
    """Draw how to spread a bag of the packing that was chosen.

    Parameters
    ----------
    sized
        The cooker.
    """
    with st.container(width=320):
        given = choosing.text("box bag", "Packing there is", BAG[state.units()])
    options = Options()
    volume = options.quantity("", given or None, "m**3", BAG_M3, BAG["metric"])
    choosing.wrong([problem.message for problem in options.problems])
    if volume is None:
        return
    question = sized.question
    try:
        found = bag(question.cooker, question.full, volume)
    except PhysicsError as error:
        choosing.wrong([f"{error}."])
        return
    drawing.block(bag_block(replace(sized.answer, bag=found), measures(state.units())))


def house(sized: Sized, scenario: Scenario) -> None:
    """Draw what there is at home, and which box comes of it.

    Parameters
    ----------
    sized
        The cooker, for its pot, gaps, damp and blankets.
    scenario
        The household.
    """
    heaps = _heaps(scenario)
    if not heaps:
        return
    question = sized.question
    try:
        found = lay(question.cooker, question.full, heaps)
    except PhysicsError as error:
        choosing.wrong([f"{error}."])
        return
    drawing.block(laid_block(replace(sized.answer, laid=found), measures(state.units())))


def _heaps(scenario: Scenario) -> Sequence[Heap]:
    """Let the person name what there is; what is wrong stands under its row."""
    packings = {each.name: each for each in known_packings(scenario)}
    labels = {NONE: "nothing"} | {name: each.label for name, each in packings.items()}
    found: dict[str, Heap] = {}
    for row in range(MOST_HEAPS):
        with st.container(horizontal=True):
            with st.container(width=320):
                name = choosing.one(f"box have {row}", f"Packing {row + 1}", labels, NONE)
            with st.container(width=240):
                such_as = f"{BAG[state.units()]} or 3 kg"
                amount = choosing.text(f"box amount {row}", f"How much of it ({row + 1})", such_as)
        if name == NONE or not amount:
            continue
        options = Options()
        heap = heap_of(packings[name], amount, options)
        choosing.wrong([problem.message for problem in options.problems])
        found |= {name: heap} if heap else {}
    return tuple(found.values())
