"""The draws on a pot or jar: those of the menu, hot enough, and told as they are."""

from collections.abc import Iterator

from optimizer.planning.checks.rest import Telling
from optimizer.planning.checks.steep import steep_faults

NEAR_K = 0.2
NEAR_L = 0.001


def draw_faults(telling: Telling) -> Iterator[str]:
    """Yield draws that are not those of the menu, too early, too cold, or told wrongly."""
    case, step = telling.case, telling.case.step
    last = case.item.serve_min
    wanted = [(last - each.before_min, each.use) for each in case.item.drawn]
    if [(each.at, each.use) for each in step.drawn] != wanted:
        yield f"{case.name}: the draws are not those of the menu"
        return
    if not wanted:
        return
    ready = case.rest_from if step.move is None else step.move
    if step.drawn[0].at < ready:
        yield f"{case.name}: is drawn on before it is ready"
        return
    yield from _told(telling)


def _told(telling: Telling) -> Iterator[str]:
    case, mass_kg = telling.case, sum(kg for _, kg in telling.case.foods)
    usual, careful = telling.drawn_c(careful=False), telling.drawn_c(careful=True)
    rule = {"hot": case.scenario.rules.hot_c, "at": case.item.dish.serve_c}
    for each, draw, true, low in zip(case.step.drawn, case.item.drawn, usual, careful, strict=True):
        name = f"{case.name}, drawn at minute {each.at}"
        if abs(each.litres - draw.share * mass_kg) > NEAR_L:
            yield f"{name}: {each.litres:.3f} L are not its share of {mass_kg:.3f} kg"
        for said, is_ in ((each.usual_c, true), (each.careful_c, low)):
            if not abs(said - is_) <= NEAR_K:
                yield f"{name}: is {is_:.2f} degC, not {said:.2f}"
        if draw.steep is not None:
            yield from steep_faults(case, each, draw, true, low)
            continue
        need = rule.get(case.item.dish.serve) if draw.need_c is None else draw.need_c
        if need is not None and low < need - NEAR_K:
            yield f"{name}: may be only {low:.1f} degC, not {need:.0f}"
