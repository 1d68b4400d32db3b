"""Why there is no plan, and the least change that would make one, in a cook's words."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

from optimizer.model.household import Item, Scenario, Window
from optimizer.model.plan import Refusal
from optimizer.planning.baseline import Effort
from optimizer.planning.columns import Kitchen
from optimizer.planning.conditions import Refused
from optimizer.planning.grid import GRID_MIN, LONGEST_MIN, MINUTES
from optimizer.planning.keeping import moment, spoiled
from optimizer.planning.kitchen import Choices, choices, kitchen_of, known_of
from optimizer.planning.ordering import better_order
from optimizer.planning.ordering import told as order_told
from optimizer.planning.schedule import schedule
from optimizer.planning.shortage import Shortage, least_change
from optimizer.planning.starts import soak_from
from optimizer.planning.stock import joules_per_kg, store_of
from optimizer.planning.ways import Way
from optimizer.scenario.clock import clock

LATER_MIN = (10, 20, 30, 45, 60, 90, 120)
MOST_REASONS = 3
ABOUT = {
    "pot_too_small": ("pot",),
    "foams": ("pot",),
    "bean_soak": ("pot",),
    "bean_boil": ("pot",),
    "gas_cold": ("stove",),
    "no_fuel": ("stove",),
    "no_sun": ("stove",),
    "flame_indoors": ("stove",),
    "water_only": ("stove",),
    "frozen": ("pot",),
    "wind": ("stove",),
    "no_boil": ("stove", "pot"),
    "slow": ("stove", "pot"),
    "cooker_too_small": ("cooker",),
    "cooker_taken": ("cooker",),
    "cold": ("pot", "cooker"),
    "never_done": ("pot", "cooker"),
    "carried": (),
    "not_portable": ("cooker",),
    "boil_again": ("stove", "pot", "cooker"),
    "no_start": ("stove", "pot", "cooker"),
    "spoils": (),
}
"""Code of a refusal -> the things it is about."""
COARSE_GAP = 0.05  # amounts are rounded up anyway


def least_changes(
    scenario: Scenario, options: Choices, kitchen: Kitchen, effort: Effort
) -> tuple[str, ...]:
    """Return the least changes that would make a plan, each by itself where it says "or".

    Parameters
    ----------
    scenario : Scenario
        The household.
    options : Choices
        Its columns and refusals.
    kitchen : Kitchen
        What its dishes share.
    effort : Effort
        How hard to look.

    Returns
    -------
    tuple of str
        Sentences, the most useful first.
    """
    missing = least_change(
        options.columns, kitchen, gap=max(effort.gap, COARSE_GAP), time_limit_s=effort.time_limit_s
    )
    told = [
        *_no_way(scenario, options, missing),
        *_more_fuel(scenario, missing),
        *_one_more(scenario, missing),
        *_crowded(scenario, missing, effort),
    ]
    return tuple(told) or ("No single change was found in the time allowed; allow more time.",)


def _no_way(scenario: Scenario, options: Choices, missing: Shortage) -> Iterator[str]:
    told: set[str] = set()
    yield from order_told(better_order(scenario, tuple(options.spoiled), options.known))
    for number in missing.no_way:
        item = scenario.items[number]
        if number in options.spoiled:
            yield _kept_cold(scenario, item, options.spoiled[number])
            continue
        if item.dish.name in told:
            continue
        told.add(item.dish.name)
        why = _reasons(scenario, options, item)
        yield f"{_named(item)}: {why}{_in_time(scenario, item)}"


def _kept_cold(scenario: Scenario, item: Item, on: int) -> str:
    """Return why a dish spoils, and how long its food would have to be cold."""
    until = moment(max(0, on - round(scenario.rules.fresh_min)))
    return (
        f"{_named(item)}: {spoiled(scenario, item).reason}. Kept cold at least until {until}, "
        "or got fresh that day, it would work; or leave it out."
    )


def _named(item: Item) -> str:
    return f"{item.dish.label} ({item.meal}, day {item.day})"


def _reasons(scenario: Scenario, options: Choices, item: Item) -> str:
    """Return the refusals of an item, one of each kind, the commonest kind first."""
    if item.number in options.workable:
        return _out_of_hours(scenario, options, item)
    mine = [refusal for refusal in options.refusals if refusal.item == item.number]
    examples = {refusal.code: refusal for refusal in reversed(mine)}
    common = [code for code, _ in Counter(r.code for r in mine).most_common(MOST_REASONS)]
    reasons = "; ".join(sentence(examples[code], scenario) for code in common)
    return f"no way works. {reasons}. "


def _out_of_hours(scenario: Scenario, options: Choices, item: Item) -> str:
    """Return why an item that has ways has no start: of the way that takes least fuel."""
    tried = [
        attempt
        for attempt in known_of(scenario, item, item.day, options.known)
        if isinstance(attempt.way, Way)
    ]
    if not tried:
        return "no start fits the cook hours. "
    best = min(tried, key=lambda a: a.way.boil.up_j if isinstance(a.way, Way) else 0.0)
    assert isinstance(best.way, Way)
    refused = replace(best, way=no_start(best.way, item, scenario.windows)).refusal(item)
    return f"no start fits the cook hours. {sentence(refused, scenario)}. "


def no_start(way: Way, item: Item, windows: Sequence[Window]) -> Refused:
    """Return why no start in the cook hours serves a dish done and hot."""
    leads, dish = MINUTES[way.on_min > 0], item.dish
    first, last = item.serve_min - int(leads[-1]), item.serve_min - int(leads[0])
    if dish.soak_min and soak_from(item, last, tuple(windows)) < 0:
        hours = f"{dish.soak_min / 60:g} h"
        return Refused("no_start", f"has to soak {hours}, from before the first cook hours on")
    before = [w.end_min for w in windows if w.start_min < item.serve_min and w.end_min <= first]
    held = item.serve_min - max(before, default=item.serve_min)
    if way.cooker is not None and 0 < held <= LONGEST_MIN:
        left = way.rest.careful_c[held // GRID_MIN]
        if left < way.need_c:
            return Refused(
                "cold",
                f"left from earlier cook hours, it may fall to {left:.0f} degC by "
                f"{clock(item.serve_min)}",
            )
    where = "in the sun outside its hours or the" if way.sunny else "on the fire outside the"
    return Refused(
        "no_start",
        f"would have to go on between {clock(first)} and {clock(last)}, and would be {where} "
        "cook hours",
    )


def sentence(refusal: Refusal, scenario: Scenario) -> str:
    """Return a refusal with the things it is about: "1.5 L pot: fills 135% of it ..."."""
    names = {"stove": refusal.stove, "pot": refusal.pot, "cooker": refusal.cooker}
    labels = labels_of(scenario)
    about = [labels[kind, names[kind]] for kind in ABOUT[refusal.code] if names[kind]]
    return ": ".join(filter(None, (", ".join(about), refusal.reason)))


def labels_of(scenario: Scenario) -> dict[tuple[str, str | None], str]:
    """Return the label of every stove, pot and cooker by kind and name."""
    labels: dict[tuple[str, str | None], str] = {}
    labels |= {("stove", own.stove.name): own.stove.label for own in scenario.stoves}
    labels |= {("pot", own.pot.name): own.pot.label for own in scenario.pots}
    labels |= {("cooker", own.cooker.name): own.cooker.label for own in scenario.cookers}
    return labels


def _in_time(scenario: Scenario, item: Item) -> str:
    """Return how much later the meal would have to be, if that helps."""
    for minutes in LATER_MIN:
        late = replace(item, number=0, serve_min=item.serve_min + minutes)
        if choices(replace(scenario, items=(late,))).columns:
            return f"Served {minutes} minutes later it would work."
    return ""


def _more_fuel(scenario: Scenario, missing: Shortage) -> Iterator[str]:
    for name, joules in missing.alone_j.items():
        yield f"{_amount(scenario, name, joules)} more would do{_reserve(scenario, name, joules)}."
    if missing.fuels_j and not missing.alone_j:
        parts = " and ".join(_amount(scenario, n, j) for n, j in missing.fuels_j.items())
        without = ", the dishes below left out," if missing.dishes else ""
        yield f"{parts} more{without} would do."


def _amount(scenario: Scenario, name: str, joules: float) -> str:
    """Return an amount of fuel, rounded up."""
    store = store_of(scenario, name)
    heat = joules_per_kg(store.fuel) if store else None
    label = store.fuel.label if store else name
    if heat is None:
        return f"{joules / 3.6e6:.2f} kWh of {label}"
    kg = joules / heat
    return (
        f"{_up(kg, 0.1):.1f} kg of {label}" if kg >= 1 else f"{_up(kg * 1000, 10):.0f} g of {label}"
    )


def _up(value: float, step: float) -> float:
    return -(-value // step) * step


def _reserve(scenario: Scenario, name: str, joules: float) -> str:
    store = store_of(scenario, name)
    heat = joules_per_kg(store.fuel) if store else None
    if store is None or heat is None or store.stock_kg is None:
        return ""
    return " (the reserve holds so much)" if store.reserve * store.stock_kg * heat > joules else ""


def _one_more(scenario: Scenario, missing: Shortage) -> Iterator[str]:
    labels = {f"{kind}:{name}": label for (kind, name), label in labels_of(scenario).items()}
    labels["cook"] = "cook"
    for resource in missing.one_more:
        if resource not in labels:  # what is left of something until a dish under way is served
            continue
        yield f"One more {labels[resource]} would do."


def _crowded(scenario: Scenario, missing: Shortage, effort: Effort) -> Iterator[str]:
    for number in missing.dishes:
        if number in missing.no_way:
            continue
        item = scenario.items[number]
        later = _later(scenario, item, effort) if len(missing.dishes) == 1 else None
        if later is not None:
            yield f"{_named(item)} {later} minutes later would do."
        yield f"{_named(item)} does not fit beside the other dishes; leaving it out would help."


def _later(scenario: Scenario, item: Item, effort: Effort) -> int | None:
    """Return how many minutes later a dish has to be for everything to fit."""
    for minutes in LATER_MIN:
        late = replace(item, serve_min=item.serve_min + minutes)
        items = tuple(late if i.number == item.number else i for i in scenario.items)
        shifted = replace(scenario, items=items)
        found = schedule(
            choices(shifted).columns,
            kitchen_of(shifted),
            goals=scenario.goals[:1],
            gap=0.99,  # any plan will do
            time_limit_s=effort.time_limit_s,
            solver=effort.solver,
        )
        if found.chosen:
            return minutes
    return None
