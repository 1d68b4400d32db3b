"""A plan as the result file, version 1, for other programs."""

import json
import math
from collections.abc import Iterable
from typing import Any, cast

from optimizer.errors import Problem
from optimizer.model.plan import BoilAll, Chances, Fire, FuelUse, Plan, Saving, Status, Step, Worth
from optimizer.model.things import Serve
from optimizer.report.drawn_result import drawn_json
from optimizer.report.households_result import rota_told, shares_told
from optimizer.report.shape import (
    BoilAllShape,
    ChancesShape,
    FireShape,
    FuelShape,
    ProblemShape,
    ResultShape,
    SavingShape,
    StepShape,
    WorthShape,
)


def to_json(
    plan: Plan | None, problems: Iterable[Problem] = (), status: Status | None = None
) -> ResultShape:
    """Give a plan in the shape of the result file.

    Parameters
    ----------
    plan
        The plan; None when there is none.
    problems
        What is wrong with the input.
    status
        Why there is no plan: ``time_limit`` or ``stopped``; None when the input was bad, so that
        none was looked for.

    Returns
    -------
    ResultShape
        Ready for ``json.dumps``; holds nothing that is not a number where a number stands, as
        long as the plan does not: that is a defect and is refused by ``json_text``.
    """
    return {
        "version": 1,
        "title": plan.title if plan else None,
        "start": plan.start.isoformat() if plan and plan.start else None,
        "status": plan.status if plan else status,
        "gap": _known(plan.gap) if plan else None,
        "goal": {
            "name": plan.goal.name if plan else None,
            "value": _known(plan.goal.value) if plan else None,
            "bound": _known(plan.goal.bound) if plan else None,
        },
        "steps": [_step(step) for step in plan.steps] if plan else [],
        "fires": [_fire(fire) for fire in plan.fires] if plan else [],
        "fuels": [_fuel(fuel) for fuel in plan.fuels] if plan else [],
        "boil_all": _boil_all(plan.boil_all) if plan else None,
        "boil_all_same_stoves": _boil_all(plan.boil_all_same_stoves) if plan else None,
        "saved": _saving(plan.saved) if plan else None,
        "saved_any_stove": _saving(plan.saved_any_stove) if plan else None,
        "worth": [_worth(each) for each in plan.worth] if plan else [],
        "cautions": [
            {"code": c.code, "text": c.text, "items": list(c.items)}
            for c in (plan.cautions if plan else ())
        ],
        "changes": list(plan.changes) if plan else [],
        "begins": plan.begins if plan else 0,
        "under_way": [_step(step) for step in plan.under_way] if plan else [],
        "chances": _chances(plan.chances) if plan else None,
        "shares": shares_told(plan),
        "rota": rota_told(plan),
        "problems": [_problem(problem) for problem in problems],
    }


def json_text(result: ResultShape) -> str:
    """Write a result as text.

    Parameters
    ----------
    result
        The result.

    Returns
    -------
    str
        JSON, ending in a new line.

    Raises
    ------
    ValueError
        If a number is infinite or not a number.
    """
    return json.dumps(result, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def json_schema() -> dict[str, Any]:
    """Give the JSON Schema of the result file: every key required, no others allowed.

    Returns
    -------
    dict
        The schema.
    """
    from pydantic import TypeAdapter  # only asked for by the curious

    return TypeAdapter(ResultShape).json_schema()


def _step(step: Step) -> StepShape:
    """Give one step."""
    return {
        "day": step.day,
        "meal": step.meal,
        "item": step.item,
        "portions": step.portions,
        "batch": step.batch,
        "serve_rule": cast("Serve", step.serve_rule),
        "stove": step.stove,
        "fuel": step.fuel,
        "pot": step.pot,
        "pressure": step.pressure,
        "finish": step.finish,
        "cooker": step.cooker,
        "soak_from": step.soak_from,
        "light": step.light,
        "on": step.on,
        "boil": step.boil,
        "off": step.off,
        "move": step.move,
        "reboil": [{"on": r.on, "boil": r.boil, "off": r.off} for r in step.reboil],
        "serve": step.serve,
        "hold_minutes": step.hold_minutes,
        "ingredients": [{"food": a.food, "kg": a.kg} for a in step.ingredients],
        "water_kg": step.water_kg,
        "fuel_kg": step.fuel_kg,
        "fuel_mj": step.fuel_mj,
        "cost": step.cost,
        "done": step.done,
        "serve_c": step.serve_c,
        "serve_c_low": step.serve_c_low,
        "chance_done": _known(step.chance_done),
        "chance_hot": _known(step.chance_hot),
        "drawn": [drawn_json(draw) for draw in step.drawn],
    }


def _fire(fire: Fire) -> FireShape:
    """Give one fire."""
    return {
        "stove": fire.stove,
        "day": fire.day,
        "from": fire.start,
        "to": fire.end,
        "start_mj": fire.start_mj,
    }


def _fuel(use: FuelUse) -> FuelShape:
    """Give one fuel."""
    return {
        "name": use.name,
        "used_kg": use.used_kg,
        "used_mj": use.used_mj,
        "stock_kg": use.stock_kg,
        "stock_mj": use.stock_mj,
        "left_kg": use.left_kg,
        "cost": use.cost,
        "p10_mj": _known(use.p10_mj),
        "p90_mj": _known(use.p90_mj),
    }


def _boil_all(way: BoilAll | None) -> BoilAllShape | None:
    """Give the comparison."""
    if way is None:
        return None
    return {
        "status": way.status,
        "fuel_mj": way.fuel_mj,
        "cost": way.cost,
        "fire_minutes": way.fire_minutes,
        "short": way.short,
    }


def _saving(saved: Saving | None) -> SavingShape | None:
    """Give what is saved."""
    if saved is None:
        return None
    return {
        "fuel_mj": saved.fuel_mj,
        "fuel_fraction": saved.fuel_fraction,
        "cost": saved.cost,
        "fire_minutes": saved.fire_minutes,
    }


def _worth(worth: Worth) -> WorthShape:
    return {
        "what": worth.what,
        "value": worth.value,
        "unit": worth.unit,
        "dual": _known(worth.dual),
        "mixed": _known(worth.mixed),
        "holds_from": _known(worth.holds_from),
        "holds_to": _known(worth.holds_to),
        "holds_unit": worth.holds_unit,
    }


def _chances(found: Chances | None) -> ChancesShape | None:
    """Give what came of trying the plan."""
    if found is None:
        return None
    return {
        "draws": found.draws,
        "seed": found.seed,
        "all_well": found.all_well,
        "fuel_mj": list(found.fuel_mj),
        "fuels": [
            {
                "name": each.name,
                "p10_mj": each.p10_mj,
                "p50_mj": each.p50_mj,
                "p90_mj": each.p90_mj,
                "runs_out": None if each.runs_out is None else list(each.runs_out),
            }
            for each in found.fuels
        ],
        "measuring": [
            {
                "kind": each.kind,
                "thing": each.thing,
                "band_mj": each.band_mj,
                "left_mj": each.left_mj,
            }
            for each in found.measuring
        ],
    }


def _problem(problem: Problem) -> ProblemShape:
    """Give one problem."""
    return {
        "file": problem.file,
        "line": problem.line,
        "key": problem.key,
        "code": problem.code,
        "message": problem.message,
    }


def _known(value: float | None) -> float | None:
    """Turn what a solver calls infinite, or not a number, into None."""
    return value if value is not None and math.isfinite(value) else None
