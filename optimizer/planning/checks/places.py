"""Stoves, pots, cookers and cooks: never more of one in use than there are."""

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence

from optimizer.model.household import Scenario
from optimizer.planning.checks.cases import under_way_of
from optimizer.planning.checks.clock import told_min
from optimizer.planning.checks.dish import Case

Span = tuple[int, int]


def crowding_faults(cases: Sequence[Case], scenario: Scenario) -> Iterator[str]:
    """Yield the first moment at which there is too little of each thing."""
    used: dict[str, list[Span]] = defaultdict(list)
    cases = [*cases, *under_way_of(scenario)]
    for case in cases:
        for thing, span in _used(case):
            used[thing].append(span)
    there = _there(scenario)
    for thing, spans in used.items():
        for minute in _moments(spans, scenario):
            count = sum(start <= minute < end for start, end in spans)
            if count > there[thing]:
                yield f"{thing}: {count} in use at {told_min(minute)}, there are {there[thing]}"
                break
    yield from _cook_faults(cases, scenario)


def _moments(spans: Iterable[Span], scenario: Scenario) -> list[int]:
    """Return when more of a thing may be in use than before, from the beginning of the plan on."""
    return sorted({max(start, scenario.begins) for start, _ in spans})


def _there(scenario: Scenario) -> dict[str, int]:
    count: dict[str, int] = defaultdict(int)
    for own in scenario.stoves:
        count[f"stove {own.stove.name}"] += own.count * own.stove.places
    for own_pot in scenario.pots:
        count[f"pot {own_pot.pot.name}"] += own_pot.count
    for own_cooker in scenario.cookers:
        count[f"cooker {own_cooker.cooker.name}"] += own_cooker.count
    return count


def _used(case: Case) -> Iterator[tuple[str, Span]]:
    """Yield what one step keeps busy; a pot that is emptied early is free again early."""
    step, rules = case.step, case.scenario.rules
    turn = int(rules.turn_min)
    jar = case.cooker is not None and case.cooker.cooker.kind == "vacuum"
    for span in case.burns:
        yield f"stove {step.stove}", span
    away = case.item.carried.back_min if case.item.carried is not None else 0
    here_again = step.serve + away  # a pot that was carried away with its cooker
    emptied = case.rest_from if jar or case.item.dish.serve == "any" else here_again
    yield f"pot {step.pot}", (step.on, emptied + turn)
    for draw in case.item.drawn:  # something is steeped in another jar
        if draw.steep is not None:
            poured = step.serve - draw.before_min
            until = poured + draw.steep.minutes + turn
            yield f"cooker {draw.steep.cooker.name}", (poured, until)
    if case.cooker is not None:
        yield f"cooker {step.cooker}", (case.rest_from, here_again + (turn if jar else 0))


def _cook_faults(cases: Sequence[Case], scenario: Scenario) -> Iterator[str]:
    """Yield the first moment at which more fires have to be fed than there are cooks."""
    fed = [(case.own.stove, span) for case in cases for span in case.burns if case.own.stove.tended]
    for minute in _moments((span for _, span in fed), scenario):
        pots: dict[str, int] = defaultdict(int)
        places = {}
        for stove, (start, end) in fed:
            places[stove.name] = stove.places
            pots[stove.name] += start <= minute < end
        count = sum(math.ceil(pots[name] / places[name]) for name in pots)
        if count > scenario.cooks:
            yield f"cook: {count} needed at {told_min(minute)}, there are {scenario.cooks}"
            return
