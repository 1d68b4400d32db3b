"""The same menu boiled the whole time: what a plan is compared with."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from optimizer.model.household import DAY_MIN, Item, Scenario, Window
from optimizer.model.plan import BoilAll, Plan, Saving, Step
from optimizer.planning.columns import Burn, Column, Kitchen, Lighting
from optimizer.planning.kitchen import Known, choices, kitchen_of
from optimizer.planning.ledger import fuel_of, price_of
from optimizer.planning.result import Result
from optimizer.planning.schedule import schedule
from optimizer.planning.solver import Progress, SolverName
from optimizer.planning.steps import MJ, fire_minutes, fires_told

WIDER_MIN = (30, 60, 120, 240)
HOUR_MIN = 60


@dataclass(frozen=True, slots=True)
class Effort:
    """How hard to look: gap, seconds, solver."""

    gap: float
    time_limit_s: float
    solver: SolverName
    wanted: Callable[[], bool] | None = None  # False: nobody waits for it any more

    @property
    def progress(self) -> Progress | None:
        """Stop a search that nobody waits for."""
        wanted = self.wanted
        return None if wanted is None else lambda *_: wanted()

    @property
    def dropped(self) -> bool:
        """Tell whether nobody waits for it any more; what was found then is worth nothing."""
        return self.wanted is not None and not self.wanted()


@dataclass(frozen=True, slots=True)
class Search:
    """What is asked: the household, the stove each dish must stay on (none: any), how hard."""

    scenario: Scenario
    stoves: Mapping[int, str]
    effort: Effort
    known: Known

    def wider(self, minutes: int) -> Search:
        """Return the search with cook hours longer at both ends."""
        return replace(self, scenario=_wider(self.scenario, minutes))


def boil_all(
    scenario: Scenario,
    effort: Effort,
    *,
    steps: Sequence[Step] = (),
    known: Known | None = None,
) -> BoilAll:
    """Return what boiling the whole time takes: on the flame until done, no limit on the stock.

    Parameters
    ----------
    scenario : Scenario
        The household; its first goal is used.
    effort : Effort
        How hard to look.
    steps : sequence of Step
        A plan's; every dish then stays on the stove it has there. Empty: any stove.
    known : dict, optional
        Attempts of the household found before.

    Returns
    -------
    BoilAll
        Where it does not fit the cook hours: with longer hours, or, if even that does
        not do, the least each dish takes alone, so that no saving is overstated.
    """
    stoves = {step.number: step.stove for step in steps}
    apart, placed = _apart(_soaked(scenario), stoves)
    search = Search(apart, placed, effort, {} if known is None else known)
    found = _try(search)
    if found is not None:
        return found
    widest = _try(search.wider(WIDER_MIN[-1]))
    if widest is None:
        return _alone(search)
    for minutes in WIDER_MIN[:-1]:
        found = _try(search.wider(minutes))
        if found is not None:
            return _told_wider(found, minutes)
    return _told_wider(widest, WIDER_MIN[-1])


def _soaked(scenario: Scenario) -> Scenario:
    """Return the household with what soaks when the plan begins soaked as long as it must be.

    Nothing is carried away: boiled through it is eaten where it is cooked.
    """
    items = tuple(
        replace(item, carried=None)
        if item.soaked_from is None
        else replace(item, carried=None, soaked_from=max(0, item.soaked_from - item.dish.soak_min))
        for item in scenario.items
    )
    return replace(scenario, items=items)


def _apart(scenario: Scenario, stoves: Mapping[int, str]) -> tuple[Scenario, Mapping[int, str]]:
    """Return the household with every draw on a pot or jar boiled by itself, when it is drawn."""
    items, placed = list(scenario.items), dict(stoves)
    for number, item in enumerate(scenario.items):
        for order, each in enumerate(separate(item)):
            at = number if order == 0 else len(items)
            made = replace(each, number=at)
            items[at:] = [made, *items[at + 1 :]]
            if number in stoves:
                placed[at] = stoves[number]
    return replace(scenario, items=tuple(items)), placed


def separate(item: Item) -> Iterator[Item]:
    """Yield what is drawn as dishes boiled each by itself; one that is not drawn on as it is.

    Parameters
    ----------
    item : Item
        A dish.
    """
    kg = item.adult_portions * sum(each.kg for each in item.dish.ingredients)
    for draw in item.drawn:
        dish = draw.of or item.dish
        water = sum(i.kg for i in dish.ingredients if draw.of is None or i.food.name == "water")
        adults = draw.share * kg / water
        yield replace(
            item,
            dish=dish,
            adults=adults,
            children=0.0,
            serve_min=item.serve_min - draw.before_min + (draw.steep.minutes if draw.steep else 0),
            drawn=(),
        )
    if not item.drawn:
        yield item


def _flame(search: Search) -> tuple[Column, ...]:
    """Return the columns of dishes left on the flame in ordinary lidded pots until done.

    A dish that no ordinary pot may cook here is left to the pressure pot, on the flame too.
    """
    plain = choices(search.scenario, only="plain", known=search.known)
    columns = _on(plain.columns, search.stoves)
    if len(plain.workable) == len(search.scenario.items):
        return columns
    rest = _on(choices(search.scenario, only="flame", known=search.known).columns, search.stoves)
    return columns + tuple(column for column in rest if column.item not in plain.workable)


def _on(columns: Sequence[Column], stoves: Mapping[int, str]) -> tuple[Column, ...]:
    return tuple(c for c in columns if stoves.get(c.item, c.stove) == c.stove)


def _wider(scenario: Scenario, minutes: int) -> Scenario:
    """Return the household with cook hours longer at both ends; what meets runs together."""
    windows: list[Window] = []
    for window in scenario.windows:
        start = max(0, window.start_min - minutes)
        end = min(scenario.days * DAY_MIN, window.end_min + minutes)
        if windows and start <= windows[-1].end_min:
            start = windows.pop().start_min
        windows.append(Window(start, end))
    return replace(scenario, windows=tuple(windows))


def _try(search: Search) -> BoilAll | None:
    scenario, effort = search.scenario, search.effort
    columns = _flame(search)
    if {column.item for column in columns} != {item.number for item in scenario.items}:
        return None
    free = replace(kitchen_of(scenario), stock_j={})
    found = schedule(
        columns,
        free,
        goals=scenario.goals[:1],
        gap=effort.gap,
        time_limit_s=effort.time_limit_s,
        progress=effort.progress,
        solver=effort.solver,
    )
    return _told(found, free, scenario) if found.chosen else None


def _told(found: Result, kitchen: Kitchen, scenario: Scenario) -> BoilAll:
    fires = fires_told(found.chosen, kitchen, scenario)
    return BoilAll(
        status="optimal" if found.status == "optimal" else "within_gap",
        fuel_mj=sum(fuel_of(found.chosen, kitchen).values()) / MJ,
        cost=price_of(found.chosen, kitchen, "money"),
        fire_minutes=fire_minutes(fires),
        short=None,
    )


def _told_wider(found: BoilAll, minutes: int) -> BoilAll:
    hours = f"{minutes} min" if minutes < HOUR_MIN else f"{minutes / HOUR_MIN:g} h"
    return replace(
        found, status="does_not_fit", short=f"would need cook hours {hours} longer at both ends"
    )


def _alone(search: Search) -> BoilAll:
    """Return the least that each dish takes alone, in the least cook hours that will do.

    Dishes share a fire wherever their times meet, whether or not there is room for their pots.
    """
    scenario, mine = search.scenario, defaultdict[int, list[Column]](list)
    for minutes in (0, *WIDER_MIN):
        mine.clear()
        for column in _flame(search.wider(minutes)):
            mine[column.item].append(column)
        if len(mine) == len(scenario.items):
            kitchen, least = kitchen_of(scenario), _least(mine.values())
            return _crowded(scenario, [c for c in least for _ in range(kitchen.pots_of(c.item))])
    missing = dict.fromkeys(i.dish.label for i in scenario.items if i.number not in mine)
    text = "cannot be boiled through here: " + ", ".join(missing)
    return BoilAll("infeasible", None, None, None, text)


def _least(dishes: Iterable[Sequence[Column]]) -> list[Column]:
    return [min(ways, key=lambda column: column.fuel_j) for ways in dishes]


def _crowded(scenario: Scenario, least: Sequence[Column]) -> BoilAll:
    fires = [*_shared_fires(least, kitchen_of(scenario).lightings)]
    lit_j = [(fire, fire.start_j + idle_min * 60 * fire.idle_w) for fire, _, idle_min in fires]
    single = sum(b.end - b.start for c in least for b in c.burns)
    fed = sum(b.end - b.start for c in least for b in c.burns if _fed(b, fires))
    return BoilAll(
        status="does_not_fit",
        fuel_mj=(sum(c.fuel_j for c in least) + sum(joules for _, joules in lit_j)) / MJ,
        cost=sum(c.money for c in least) + sum(joules * f.money_j for f, joules in lit_j),
        fire_minutes=float(single - fed + sum(minutes for _, minutes, _ in fires)),
        short="would need more stoves or pots, whatever the hours; each dish is counted alone",
    )


def _fed(burn: Burn, fires: Sequence[tuple[Lighting, int, int]]) -> bool:
    return any(fire.stove == burn.stove for fire, _, _ in fires)


def _shared_fires(
    least: Sequence[Column], lightings: Mapping[str, Lighting]
) -> Iterator[tuple[Lighting, int, int]]:
    """Yield each fed fire as if all pots fitted over it: minutes in all, minutes without a pot."""
    for stove, lighting in lightings.items():
        spans = sorted((b.start, b.end) for c in least for b in c.burns if b.stove == stove)
        run: list[int] = []  # first, last, idle
        for start, end in spans:
            idle = max(0, start - run[1]) if run else 0
            if run and idle * 60 * lighting.idle_w <= lighting.start_j:
                run = [run[0], max(run[1], end), run[2] + idle]
                continue
            if run:
                yield lighting, run[1] - run[0] + lighting.start_min, run[2]
            run = [start, end, 0]
        if run:
            yield lighting, run[1] - run[0] + lighting.start_min, run[2]


def saving(plan: Plan, other: BoilAll) -> Saving | None:
    """Return what a plan saves against boiling the whole time; None without a comparison."""
    if other.fuel_mj is None or other.cost is None or other.fire_minutes is None:
        return None
    return Saving(
        fuel_mj=other.fuel_mj - plan.fuel_mj,
        fuel_fraction=1 - plan.fuel_mj / other.fuel_mj if other.fuel_mj else 0.0,
        cost=other.cost - plan.cost,
        fire_minutes=other.fire_minutes - plan.fire_minutes,
    )
