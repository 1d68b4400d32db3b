"""What is in use when a plan begins: pots in their cookers, pots on the fire, and who tends them.

All of it is held from the first minute on, so that there is more room as time goes on and never
less. A column that would need what is held is left out; one that may have to share what is left
holds that as well, as a resource of its own.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace

from optimizer.model.household import Scenario, UnderWay
from optimizer.planning.columns import Column, Use


def uses_of(scenario: Scenario) -> tuple[Use, ...]:
    """Return what dishes under way hold, from the beginning of the plan on.

    Parameters
    ----------
    scenario : Scenario
        The household.

    Returns
    -------
    tuple of Use
        Each starts when the plan begins.
    """
    begins = scenario.begins
    used = (use for each in scenario.under_way for use in _uses(each, scenario))
    return tuple(replace(use, start=begins) for use in used if use.end > begins)


def _uses(each: UnderWay, scenario: Scenario) -> Iterator[Use]:
    """Yield all that one dish keeps busy."""
    step, turn = each.step, int(scenario.rules.turn_min)
    tended = {own.stove.name for own in scenario.stoves if own.stove.tended}
    jars = {own.cooker.name for own in scenario.cookers if own.cooker.kind == "vacuum"}
    burns = [(step.on, step.off), *((again.on, again.off) for again in step.reboil)]
    end = max((off for _, off in burns if off > scenario.begins), default=0)
    yield Use(f"stove:{step.stove}", step.on, end)
    if step.stove in tended:
        yield Use("cook", step.on, end)
    early = step.cooker in jars or step.serve_rule == "any"
    back = step.serve + (each.item.carried.back_min if each.item.carried else 0)
    emptied = (step.move or step.off) if early else back
    yield Use(f"pot:{step.pot}", step.on, emptied + turn)
    for draw in each.item.drawn:
        if draw.steep is not None:
            poured = step.serve - draw.before_min
            jar = f"cooker:{draw.steep.cooker.name}"
            yield Use(jar, poured, poured + draw.steep.minutes + turn)
    if step.cooker is not None:
        until = back + turn if step.cooker in jars else back
        yield Use(f"cooker:{step.cooker}", step.on, until)


def left_of(held: Iterable[Use], capacity: Mapping[str, int]) -> dict[str, int]:
    """Return how much of each held resource is left, until when.

    Parameters
    ----------
    held : iterable of Use
        What is in use when the plan begins.
    capacity : mapping of str to int
        How much there is of each resource.

    Returns
    -------
    dict of str to int
        By the name under which a column holds it; what is left of none is not told.
    """
    held = tuple(held)
    return {_left(use): left for use in held if (left := _room(use, held, capacity)) > 0}


def _left(use: Use) -> str:
    """Name what is left of a resource while some of it is held."""
    return f"left of {use.resource} until {use.end}"


def _room(use: Use, held: Sequence[Use], capacity: Mapping[str, int]) -> int:
    """Return how much of a resource is left until some of it is free again."""
    busy = sum(other.resource == use.resource and other.end >= use.end for other in held)
    return capacity.get(use.resource, 0) - busy


def beside(
    columns: Iterable[Column], held: Sequence[Use], capacity: Mapping[str, int]
) -> list[Column]:
    """Return the columns that there is room for, holding what is left of what they share.

    Parameters
    ----------
    columns : iterable of Column
        Ways of dishes that are not under way.
    held : sequence of Use
        What is in use when the plan begins.
    capacity : mapping of str to int
        How much there is of each resource.

    Returns
    -------
    list of Column
        Without those that need what is held.
    """
    found = []
    for column in columns:
        shared = [
            (use, other)
            for use in column.uses
            for other in held
            if use.resource == other.resource and use.start < other.end
        ]
        if all(_room(other, held, capacity) > 0 for _, other in shared):
            more = {Use(_left(other), use.start, min(use.end, other.end)) for use, other in shared}
            ordered = sorted(more, key=lambda use: (use.resource, use.start))
            found.append(replace(column, uses=(*column.uses, *ordered)) if more else column)
    return found
