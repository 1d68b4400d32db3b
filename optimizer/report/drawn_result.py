"""A draw on a pot or jar, and what is steeped with it, for other programs."""

from optimizer.model.plan import Drawn, Steeped
from optimizer.report.shape import DrawnShape, SteepedShape


def drawn_json(draw: Drawn) -> DrawnShape:
    """Give one draw in the shape of the result file.

    Parameters
    ----------
    draw
        One draw of a step.
    """
    return {
        "at": draw.at,
        "use": draw.use,
        "litres": draw.litres,
        "c": draw.usual_c,
        "c_low": draw.careful_c,
        "most_c": draw.most_c,
        "onto": [{"food": a.food, "kg": a.kg} for a in draw.ingredients],
        "steeped": None if draw.steeped is None else _steeped(draw.steeped),
    }


def _steeped(told: Steeped) -> SteepedShape:
    return {
        "cooker": told.cooker,
        "serve": told.serve,
        "c": told.usual_c,
        "c_low": told.careful_c,
        "done": told.done,
    }
