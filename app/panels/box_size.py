"""Size a cooker: which one, what round it, how full; hours hot, and what would change them."""

from dataclasses import dataclass

import streamlit as st

from app import state
from app.figures.cooling import cooling_chart
from app.figures.hours import hours_chart, hours_data, key_words
from app.panels import choosing, drawing
from app.waiting import plain
from optimizer.cli.boxing import JAR_FILL, POT_FILL, thick_steps_m
from optimizer.errors import PhysicsError
from optimizer.model.household import Scenario
from optimizer.model.things import Cooker, Dish, Material, Pot
from optimizer.planning.conditions import Refused
from optimizer.planning.ways import conditions
from optimizer.report.box import (
    beside_block,
    change_block,
    curve_block,
    headline,
    setting,
    thickness_block,
)
from optimizer.report.boxed import caution_codes, dish_block, material_block, packing_label
from optimizer.report.measures import Measures, measures
from optimizer.report.slides import slides
from optimizer.shelf import load
from optimizer.studies.box import (
    BoxAnswer,
    BoxQuestion,
    answer,
    known_cookers,
    known_packings,
    known_pots,
    usual_cooker,
    usual_pot,
)
from optimizer.studies.designs import rebuilt

CM = 100.0
NOTHING = ""
BESIDE = ("straw", "wool_blanket")


@dataclass(frozen=True, slots=True)
class Sized:
    """What was chosen, and the answer."""

    question: BoxQuestion
    answer: BoxAnswer

    @property
    def packed(self) -> bool:
        """Whether there is packing round a pot."""
        return bool(self.answer.changes)


def size(scenario: Scenario) -> Sized | None:
    """Draw the choices and what they come to; None where the pot does not go in.

    Parameters
    ----------
    scenario
        The household.
    """
    question = _question(scenario)
    try:
        found = answer(question)
    except PhysicsError as error:
        choosing.wrong([str(error)])
        return None
    if isinstance(found, Refused):
        choosing.wrong([f"{found.reason}: the {question.cooker.label} takes smaller ones."])
        return None
    system = measures(state.units())
    first, *others = headline(found, system)
    st.markdown(f"**{plain(first)}**")
    st.caption(plain(" ".join([f"{setting(found, system)}.", *others])))
    _thickness(found, system)
    _curve(found, system)
    return Sized(question, found)


# the choices


def _question(scenario: Scenario) -> BoxQuestion:
    """Let the person choose, beginning with the household's own."""
    cookers = known_cookers(scenario)
    with st.container(horizontal=True):
        labels = {name: each.label for name, each in cookers.items()}
        name = choosing.one("box cooker", "Cooker", labels, usual_cooker(scenario).name)
        pot = _pot(scenario, cookers[name])
        dish = _dish(scenario)
    packed = cookers[name].kind == "packed" and cookers[name].material is not None
    left, right = st.columns(2)
    with left:
        fill = _fill(cookers[name])
    cooker, beside = cookers[name], tuple[Material, ...]()
    if packed:
        cooker, beside = _packed(cooker, scenario, left, right)
    else:
        with right:
            st.caption("A jar has its rating, a measured cooker its numbers; there is no packing.")
    return BoxQuestion(
        cooker=cooker,
        pot=pot,
        water=load().dishes["drinking_water"],
        fill=fill,
        at=conditions(scenario, 1),
        thick_m=thick_steps_m(state.units()),
        packings=known_packings(scenario),
        beside=beside,
        dishes=(dish,),
        boil_min=float(state.kept("box boil", 0)),
    )


def _pot(scenario: Scenario, cooker: Cooker) -> Pot:
    pots = known_pots(scenario)
    labels = {name: pot.label for name, pot in pots.items()}
    return pots[choosing.one("box pot", "Pot", labels, usual_pot(scenario, cooker).name)]


def _dish(scenario: Scenario) -> Dish:
    """Let the person choose any dish, the menu's own first."""
    own = {item.dish.name: item.dish for item in scenario.items}
    dishes = own | {name: each for name, each in load().dishes.items() if name not in own}
    cooked = {name: each for name, each in dishes.items() if each.boil_min > 0}
    return cooked[choosing.one("box dish", "Dish", {n: d.label for n, d in cooked.items()})]


def _fill(cooker: Cooker) -> float:
    first = JAR_FILL if cooker.kind == "vacuum" else POT_FILL
    fill = choosing.slider("fill", f"box fill {cooker.kind}", 100 * first) / 100
    st.slider("Minutes at the boil before", 0, 120, step=5, **state.bind("box boil", 0))
    return fill


def _packed(
    cooker: Cooker,
    scenario: Scenario,
    left: st.delta_generator.DeltaGenerator,
    right: st.delta_generator.DeltaGenerator,
) -> tuple[Cooker, tuple[Material, ...]]:
    """Let the person pack it otherwise; untouched it stays as it is, measured or not."""
    packings = {each.name: each for each in known_packings(scenario)}
    labels = {name: each.label for name, each in packings.items()}
    key, thick = f"box {cooker.name}", CM * (cooker.thickness_m or 0.0)
    with left:
        first = cooker.material.name if cooker.material else next(iter(labels))
        material = choosing.one(f"{key} packing", "Packing", labels, first)
        chosen = choosing.slider("thick", f"{key} thick", thick)
    with right:
        bound = state.bind(f"{key} gap", round(100 * cooker.gap / 5) * 5)
        gap = st.slider("Gaps, % of the pot that the packing misses", 0, 50, step=5, **bound)
        bound = state.bind(f"{key} blankets", cooker.blankets)
        blankets = st.slider("Blankets laid over it", 0, 5, **bound)
        damp = st.toggle("The packing is damp", **state.bind(f"{key} damp", cooker.damp))
        beside = _beside(labels, material)
    said = {
        "material": packings[material],
        "thickness_m": chosen / CM,
        "gap": gap / 100,
        "damp": damp,
        "blankets": blankets,
    }
    slide = slides(state.units())["thick"]
    same = slide.value(slide.shown(thick)) / CM
    as_it_is = {
        "material": cooker.material,
        "thickness_m": same,
        "gap": round(100 * cooker.gap / 5) * 5 / 100,
        "damp": cooker.damp,
        "blankets": cooker.blankets,
    }
    changed = {name: value for name, value in said.items() if value != as_it_is[name]}
    made = rebuilt(cooker, **changed) if changed else cooker
    return made, tuple(packings[name] for name in beside)


def _beside(labels: dict[str, str], chosen: str) -> tuple[str, ...]:
    """Let the person set other packings beside it."""
    others = {NOTHING: "nothing"} | {n: label for n, label in labels.items() if n != chosen}
    found = []
    with st.container(horizontal=True):
        for place, first in enumerate(BESIDE):
            begin = first if first in others else NOTHING
            label = f"Set beside it ({place + 1})"
            found.append(choosing.one(f"box beside {place}", label, others, begin))
    return tuple(dict.fromkeys(name for name in found if name != NOTHING))


# the answer


def _thickness(found: BoxAnswer, system: Measures) -> None:
    """Draw hours against thickness, and the table of it."""
    if not found.thicknesses:
        return
    st.subheader("How thick, and of what", anchor=False)
    given = (found.thicknesses, found.beside, found.holding, system)
    drawing.known(hours_chart, *given, drawing.look())
    words = key_words(hours_data(*given))
    key = "; ".join([*words, "diamond: your cooker"]) + "."
    st.caption(plain(key[:1].upper() + key[1:]))
    drawing.block(beside_block(found, system))
    name = f"All about {packing_label(found.question.cooker)}, thin to thick"
    drawing.block(thickness_block(found, system), name=name)


def _curve(found: BoxAnswer, system: Measures) -> None:
    """Draw how it cools hour by hour, and the dish in it."""
    st.subheader("Left shut", anchor=False)
    held = found.holding
    pairs = zip(held.curve_c, held.careful_c, strict=True)
    curve = tuple((60 * hour, usual, careful) for hour, (usual, careful) in enumerate(pairs))
    drawing.known(cooling_chart, curve, found.question.at.rules.hot_c, system, drawing.look())
    st.caption("Full line: as usual. Dotted line: what a plan counts on.")
    drawing.block(curve_block(found, system))
    drawing.block(dish_block(found, system))


def others(sized: Sized) -> None:
    """Draw what would change it, every packing there is, and what to mind.

    Parameters
    ----------
    sized
        The cooker.
    """
    system, found = measures(state.units()), sized.answer
    drawing.block(change_block(found))
    drawing.block(material_block(found, system))
    drawing.mind(caution_codes(found), system, folded=False)
