"""What goes into and round a pot in an insulated cooker, told: packings, dishes, cautions."""

from collections.abc import Iterator

from optimizer.model.things import Cooker, Material
from optimizer.report.blocks import Block, block
from optimizer.report.kitchen import LONGEST_H, hours, length, volume
from optimizer.report.measures import Measures, duration
from optimizer.studies.box import BoxAnswer
from optimizer.studies.finishing import Finish
from optimizer.studies.insulation import MOST_RADII, Holding
from optimizer.studies.laying import Laid

MOST_LAID = 7  # choices that are told


def hours_span(held: Holding) -> str:
    """Write the hours between which nine boxes in ten keep hot.

    Parameters
    ----------
    held
        How long a cooker keeps hot.
    """
    return f"{hours(held.low_h, unit=False)} to {hours(held.high_h, unit=False)}"


def material_block(found: BoxAnswer, system: Measures) -> Block | None:
    """Say how long every packing keeps hot, dry and damp, and what becomes of it when soiled.

    Parameters
    ----------
    found
        The answer.
    system
        The measures.
    """
    if not found.materials:
        return None
    rows = [
        [packing_label(dry.cooker), hours(dry.usual_h), hours(damp.usual_h), _care(dry.cooker)]
        for dry, damp in found.materials
    ]
    thick = length(found.question.cooker.thickness_m or 0.0, system)
    hot = sorted({m.label for m in _too_soft(found)})
    note = f"Each {thick} thick with the same gaps."
    if hot:
        note += (
            f" A pot off the boil is too hot for {', '.join(hot)}: put a trivet or cloth between."
        )
    return block("What a house has", ["hot, dry", "damp", "when soiled"], rows, note)


def packing_label(cooker: Cooker) -> str:
    """Name what a cooker is packed with.

    Parameters
    ----------
    cooker
        A cooker.
    """
    return cooker.material.label if cooker.material else ""


def _too_soft(found: BoxAnswer) -> Iterator[Material]:
    for dry, _ in found.materials:
        packing = dry.cooker.material
        if packing is not None and packing.greatest_c < found.question.at.boil_c:
            yield packing


def _care(cooker: Cooker) -> str:
    return "wash" if cooker.material and cooker.material.washable else "replace"


def laid_block(found: BoxAnswer, system: Measures) -> Block | None:
    """Say which of the packings at hand to take, and how to lay them.

    Parameters
    ----------
    found
        The answer.
    system
        The measures.
    """
    if not found.laid:
        return None
    rows = [
        [
            laid_words(each, system),
            hours(each.holding.usual_h),
            hours_span(each.holding),
            volume(each.holding.packing_m3 or 0.0, system),
        ]
        for each in found.laid[:MOST_LAID]
    ]
    heads = ["hot for", "between", "packing"]
    return block("From what you have, inside out", heads, rows, laid_advice(found, system))


def laid_words(laid: Laid, system: Measures) -> str:
    """Name the layers from the inside out.

    Parameters
    ----------
    laid
        Packings round a pot.
    system
        The measures.
    """
    layers = zip((heap.material for heap in laid.heaps), laid.thick_m, strict=True)
    return ", then ".join(
        f"{length(thick_m, system)} of {packing.label}"
        + (" (it softens there)" if packing in laid.too_soft else "")
        for packing, thick_m in layers
    )


def laid_advice(found: BoxAnswer, system: Measures) -> str:
    """Say how to lay the best of them, and what to mind.

    Parameters
    ----------
    found
        The answer, with packings laid.
    system
        The measures.
    """
    best, pot = found.laid[0], found.question.pot
    wide, high = (each + 2 * best.outside_m for each in (pot.diameter_m, pot.height_m))
    text = (
        f"The first is best. Lay it as thick below and above the {pot.label} as round it: it takes "
        f"a box {length(wide, system)} wide and {length(high, system)} high inside."
    )
    if len(best.heaps) > 1:
        text += " Keep to the order; close the joints of one layer with the next."
    if best.too_soft:
        soft = " and ".join(each.label for each in best.too_soft)
        text += f" It gets too hot for the {soft} there: put a trivet or folded cloth between."
    if best.outside_m / (pot.diameter_m / 2) > MOST_RADII:
        text += " So thick a packing was not held against a numerical solution: a rough guide."
    return text


def dish_block(found: BoxAnswer, system: Measures) -> Block | None:
    """Say when each dish is done, and how long it is counted on to be hot.

    Parameters
    ----------
    found
        The answer.
    system
        The measures.
    """
    if not found.dishes:
        return None
    works = [each for each in found.dishes if each.refused is None]
    rows = [[_dish(each), *_finish_cells(each, system)] for each in works]
    heads = ["at the boil", "done after", "then about", "counted on hot for"]
    remarks = (_remark(each) for each in found.dishes)
    return block("What cooks in it", heads if rows else [], rows, *remarks)


def _dish(each: Finish) -> str:
    soak = f" (soak {duration(each.dish.soak_min)})" if each.dish.soak_min else ""
    return f"{each.dish.label}{soak}"


def _finish_cells(each: Finish, system: Measures) -> list[str]:
    then = "-" if each.done_c is None else system.temperature(each.done_c)
    done = f"over {LONGEST_H} h" if each.done_h is None else _after(each.done_h)
    return [duration(each.boil_min), done, then, hours(each.hot_h, down=True)]


def _after(done_h: float) -> str:
    return duration(60 * done_h) if done_h else "at once"


def _remark(each: Finish) -> str:
    label = each.dish.label
    if each.refused is not None:
        return f"{label}: {each.refused.reason}."
    if each.in_time or each.enough_min is None:
        return ""
    return (
        f"{label}: not done while it is counted on to be hot; boil it "
        f"{duration(each.enough_min)} first, or boil it again on the way."
    )


def caution_codes(found: BoxAnswer) -> list[str]:
    """Name the cautions that a cooker calls for.

    Parameters
    ----------
    found
        The answer.
    """
    q = found.question
    codes = ["makers_word", "thermometer", "reheat"]
    if q.cooker.kind == "packed":
        codes.append("soot_in_packing")
    if q.cooker.material is not None and q.cooker.material.greatest_c < q.at.boil_c:
        codes.append("hot_base_on_foam")
    if q.cooker.kind == "packed" and q.fill < q.at.rules.fill_least:
        codes.append("part_filled")
    foods = [part.food for each in found.dishes for part in each.dish.ingredients]
    codes += ["phaseolus"] if any(food.phaseolus for food in foods) else []
    codes += ["raw_meat"] if any(food.endpoint_c is not None for food in foods) else []
    codes += ["rice"] if any(food.name.startswith("rice") for food in foods) else []
    return [*codes, "children_scald"]
