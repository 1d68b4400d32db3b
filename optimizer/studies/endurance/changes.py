"""What makes the store last longer or shorter: each change tried by itself, all days scheduled."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from optimizer.errors import LimitError, PhysicsError
from optimizer.model.household import OwnCooker, Scenario, Weather
from optimizer.model.things import Dish
from optimizer.shelf import load
from optimizer.studies.endurance.days import Lasting, how_long
from optimizer.studies.endurance.fallback import Fallback, failing
from optimizer.studies.endurance.menus import (
    is_washing,
    nourishment_j,
    numbers_of,
    thriftier,
    with_dish,
    without,
)
from optimizer.studies.endurance.pool import Pool
from optimizer.studies.endurance.repeat import with_less
from optimizer.studies.endurance.watch import Watch

Sort = Literal["cooker", "dish", "drop", "washing", "held", "people", "weather", "stoves"]
FIRST_COOKER = "packed_box"
EVERY_DISH = "every dish that can be"
COLDER_K, WINDIER_M_S = 5.0, 3.0
LEAST_WATER_C = 1.0
MORE_PEOPLE = (1, 2, -1)
CASE_S = 2.0  # for one number of days of a case
Change = Callable[[Weather], Weather]


@dataclass(frozen=True, slots=True)
class Case:
    """Something that may be otherwise: what it is about, and the household with it."""

    sort: Sort
    what: str
    scenario: Scenario
    instead: str | None = None  # the dish in its place
    count: float | None = None  # people more, washings left, kelvin, metres a second
    gains: bool = False  # the plan of the household as it is would serve here too


@dataclass(frozen=True, slots=True)
class Tried:
    """A case and the days that the store lasts in it."""

    case: Case
    days: int  # whole days, with a checked plan
    most: int  # more cannot be had; proven
    mix_days: float | None
    beyond: bool
    stuck: tuple[str, ...] | None  # one more day fails for other things than fuel

    @property
    def ends_by_things(self) -> bool:
        """Whether it is not for want of fuel that it lasts no longer."""
        return self.stuck is not None and not self.beyond


def tried(cases: Iterable[Case], base: Lasting, *, watch: Watch, pool: Pool) -> Iterator[Tried]:
    """Yield the days that the store lasts in each case, until time is over.

    Parameters
    ----------
    cases : iterable of Case
        Made one at a time.
    base : Lasting
        How long it lasts as the household is.
    watch : Watch
        How long to look.
    pool : Pool
        What is known already.

    Yields
    ------
    Tried
        Of a case that is out of bounds, or was not looked at to the end, nothing.

    Raises
    ------
    CheckError
        If a plan fails the independent checker: a defect of this program.
    """
    watch.most_s = CASE_S
    for case in cases:
        watch.about = f"{case.sort}: {case.what}"
        if not watch.going():
            return
        try:
            found = how_long(
                case.scenario,
                most=base.looked_at,
                watch=watch,
                pool=pool,
                at_least=base.days if case.gains else 0,
                about=base.days,
            )
        except (LimitError, PhysicsError):
            continue
        yield Tried(case, found.days, found.most, found.mix_days, found.beyond, found.stuck)


def changes(scenario: Scenario, pool: Pool, fallbacks: Sequence[Fallback] = ()) -> Iterator[Case]:
    """Yield what the household might do otherwise.

    Parameters
    ----------
    scenario : Scenario
        The household.
    pool : Pool
        What is known already.
    fallbacks : sequence of Fallback
        Days without sticks, of which the one that takes most is held back.
    """
    yield from _cookers(scenario)
    washing = _washings(scenario)
    yield from washing
    yield from _held(scenario, fallbacks)
    yield from _swapped(scenario, pool)
    yield from _dropped(scenario)


def _swapped(scenario: Scenario, pool: Pool) -> Iterator[Case]:
    """Yield a thriftier dish of the same kind in the place of each, and all of them at once."""
    pairs = list(thriftier(scenario, load().dishes, pool.ways(scenario)))
    menu = scenario
    for old, new in pairs:
        menu = with_dish(menu, old, new)
    if len(pairs) > 1:
        yield Case("dish", EVERY_DISH, menu)
    for old, new in pairs:
        yield Case("dish", old.label, with_dish(scenario, old, new), instead=new.label)


def _cookers(scenario: Scenario) -> Iterator[Case]:
    """Yield one more of each cooker, or a first one."""
    if not scenario.cookers:
        first = load().cookers[FIRST_COOKER]
        yield Case(
            "cooker", first.label, replace(scenario, cookers=(OwnCooker(first, 1),)), gains=True
        )
    for own in scenario.cookers:
        more = replace(own, count=own.count + 1)
        cookers = tuple(more if each is own else each for each in scenario.cookers)
        yield Case("cooker", own.cooker.label, replace(scenario, cookers=cookers), gains=True)


def _washings(scenario: Scenario) -> list[Case]:
    """Return one washing fewer in each round of the menu, half of them, and none."""
    found = []
    for dish in _dishes(scenario):
        numbers = numbers_of(scenario, dish)
        if is_washing(dish) and len(numbers) < len(scenario.items):
            left = dict.fromkeys((len(numbers) - 1, len(numbers) // 2, 0))
            for count in left:
                fewer = without(scenario, set(numbers[count:]))
                found.append(Case("washing", dish.label, fewer, count=count, gains=True))
    return found


def _held(scenario: Scenario, fallbacks: Sequence[Fallback]) -> Iterator[Case]:
    """Yield the fuel for one day without sticks held back."""
    planned = [each for each in fallbacks if each.plan is not None and each.enough]
    if planned:
        worst = max(planned, key=lambda each: sum(held.mj for held in each.held))
        held = {each.fuel: each.mj for each in worst.held}
        yield Case("held", "a day without sticks", with_less(scenario, held))


def _dropped(scenario: Scenario) -> Iterator[Case]:
    """Yield each dish left out; never the water that is boiled to be drunk."""
    for dish in _dishes(scenario):
        numbers = set(numbers_of(scenario, dish))
        drunk = dish.disinfects and not nourishment_j(dish)
        if not is_washing(dish) and not drunk and len(numbers) < len(scenario.items):
            yield Case("drop", dish.label, without(scenario, numbers), gains=True)


def _dishes(scenario: Scenario) -> list[Dish]:
    return list({item.dish.name: item.dish for item in scenario.items}.values())


def cases(scenario: Scenario) -> Iterator[Case]:
    """Yield what the household cannot choose: how many there are, the weather, poor stoves.

    Parameters
    ----------
    scenario : Scenario
        The household.
    """
    for more in MORE_PEOPLE:
        if scenario.adults and scenario.adults + more >= 1:
            yield Case("people", "people", _with_people(scenario, more), count=more)
    colder = _colder(scenario)
    yield Case("weather", "colder", colder, count=COLDER_K)
    yield Case("weather", "windier", _in(scenario, _windier), count=WINDIER_M_S)
    if failing(scenario):
        yield Case("weather", "damp", _in(scenario, _damp))
    yield Case("weather", "all", _in(colder, lambda w: _damp(_windier(w))))
    yield Case("weather", "mild", _in(scenario, _mild))
    yield Case("stoves", "stoves", _poorer(scenario))


def _poorer(scenario: Scenario) -> Scenario:
    """Return a household whose stoves are one spread poorer than usual, as one in six is."""
    stoves = (
        replace(
            own,
            stove=replace(
                own.stove, efficiency=own.stove.efficiency * (1 - own.stove.efficiency_spread)
            ),
        )
        for own in scenario.stoves
    )
    return replace(scenario, stoves=tuple(stoves))


def _with_people(scenario: Scenario, more: int) -> Scenario:
    """Return a household with so many more adults, who eat as the others do."""
    share = (scenario.adults + more) / scenario.adults
    items = tuple(
        item.times(share) if item.drawn else replace(item, adults=item.adults * share)
        for item in scenario.items
    )
    return replace(scenario, adults=scenario.adults + more, items=items)


def _colder(scenario: Scenario) -> Scenario:
    place = scenario.place
    water_c = min(place.water_c, max(LEAST_WATER_C, place.water_c - COLDER_K))
    colder = replace(
        place,
        kitchen_c=place.kitchen_c - COLDER_K,
        outdoors_c=place.outdoors_c - COLDER_K,
        water_c=water_c,
    )
    cold = replace(scenario, place=colder)
    return _in(cold, lambda w: replace(w, outdoors_c=w.outdoors_c - COLDER_K))


def _in(scenario: Scenario, change: Change) -> Scenario:
    return replace(scenario, weather=tuple(change(each) for each in scenario.weather))


def _windier(weather: Weather) -> Weather:
    return replace(weather, wind_m_s=weather.wind_m_s + WINDIER_M_S)


def _damp(weather: Weather) -> Weather:
    return replace(weather, wet_sticks=True)


def _mild(weather: Weather) -> Weather:
    return replace(weather, wind_m_s=0.0, rain=False, wet_sticks=False)
