"""What goes into and round a pot in an insulated cooker, told: packings, dishes, cautions."""

from collections.abc import Iterator

from optimizer.model.things import Cooker, Material
from optimizer.report.kitchen import LONGEST_H, hours, length
from optimizer.report.layout import GAP, table, wrap
from optimizer.report.measures import Measures, duration, in_measures
from optimizer.shelf import load
from optimizer.studies.box import BoxAnswer
from optimizer.studies.finishing import Finish


def material_lines(found: BoxAnswer, system: Measures) -> list[str]:
    """Say how long every packing keeps hot, dry and damp, and what becomes of it when soiled.

    Parameters
    ----------
    found
        The answer.
    system
        The measures.
    """
    if not found.materials:
        return []
    rows = [
        [_material(dry.cooker), hours(dry.usual_h), hours(damp.usual_h), _care(dry.cooker)]
        for dry, damp in found.materials
    ]
    thick = length(found.question.cooker.thickness_m or 0.0, system)
    lines = table("What a house has", ["hot, dry", "damp", "when soiled"], rows)
    hot = sorted({m.label for m in _too_soft(found)})
    note = f"Each {thick} thick with the same gaps."
    if hot:
        note += (
            f" A pot off the boil is too hot for {', '.join(hot)}: put a trivet or cloth between."
        )
    return [*lines, *wrap(note, GAP)]


def _material(cooker: Cooker) -> str:
    return cooker.material.label if cooker.material else ""


def _too_soft(found: BoxAnswer) -> Iterator[Material]:
    for dry, _ in found.materials:
        packing = dry.cooker.material
        if packing is not None and packing.greatest_c < found.question.at.boil_c:
            yield packing


def _care(cooker: Cooker) -> str:
    return "wash" if cooker.material and cooker.material.washable else "replace"


def dish_lines(found: BoxAnswer, system: Measures) -> list[str]:
    """Say when each dish is done, and how long it is surely hot.

    Parameters
    ----------
    found
        The answer.
    system
        The measures.
    """
    if not found.dishes:
        return []
    works = [each for each in found.dishes if each.refused is None]
    rows = [[_dish(each), *_finish_cells(each, system)] for each in works]
    heads = ["at the boil", "done after", "then about", "surely hot"]
    lines = table("What cooks in it", heads, rows) if rows else ["What cooks in it"]
    for each in found.dishes:
        lines += wrap(_remark(each), GAP, 2 * GAP) if _remark(each) else []
    return lines


def _dish(each: Finish) -> str:
    soak = f" (soak {duration(each.dish.soak_min)})" if each.dish.soak_min else ""
    return f"{each.dish.label}{soak}"


def _finish_cells(each: Finish, system: Measures) -> list[str]:
    then = "-" if each.done_c is None else system.temperature(each.done_c)
    done = f"over {LONGEST_H} h" if each.done_h is None else duration(60 * each.done_h)
    return [duration(each.boil_min), done, then, hours(each.hot_h, down=True)]


def _remark(each: Finish) -> str:
    label = each.dish.label
    if each.refused is not None:
        return f"{label}: {each.refused.reason}."
    if each.in_time or each.enough_min is None:
        return ""
    return (
        f"{label}: not done while it is surely hot; boil it {duration(each.enough_min)} first, or "
        "boil it again on the way."
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


def caution_lines(found: BoxAnswer, system: Measures) -> Iterator[str]:
    """Say what to mind.

    Parameters
    ----------
    found
        The answer.
    system
        The measures.
    """
    for code in caution_codes(found):
        yield from wrap(in_measures(f"- {load().cautions[code].text}", system), GAP, 2 * GAP)
