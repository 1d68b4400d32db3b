"""What remains of a scenario at one moment of the outage: a scenario, for the same planner."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from optimizer.model.household import Item, Scenario, Store, UnderWay, Weather, Window
from optimizer.model.now import Eaters, Left, Now


def remaining(scenario: Scenario, now: Now) -> Scenario:
    """Return what is still to be planned.

    Meals that are over or done are left out, cook hours are cut, stores hold what is left and keep
    their reserve, dishes under way keep their pots and cookers until they are served. The kitchen
    is taken as warm as the scenario says, or as cold as it was read.

    Parameters
    ----------
    scenario : Scenario
        The whole outage.
    now : Now
        How it stands.

    Returns
    -------
    Scenario
        The same scenario where nothing has happened yet.
    """
    begins = max(0, now.minute)
    items = tuple(
        replace(item, number=number) for number, item in enumerate(_items(scenario, now, begins))
    )
    last = now.eaters[-1] if now.eaters else Eaters(0, scenario.adults, scenario.children)
    cold = min([scenario.place.kitchen_c, *([] if now.kitchen_c is None else [now.kitchen_c])])
    left = {each.fuel: each for each in now.left}
    return replace(
        scenario,
        adults=last.adults,
        children=last.children,
        place=replace(scenario.place, kitchen_c=cold),
        weather=_weather(scenario, now),
        windows=_windows(scenario, begins),
        stores=tuple(_store(store, left.get(store.fuel.name)) for store in scenario.stores),
        items=items,
        begins=begins,
        under_way=tuple(_numbered(now.under_way, len(items))),
    )


def _items(scenario: Scenario, now: Now, begins: int) -> Iterator[Item]:
    """Yield what is still to be cooked, for those who will eat it."""
    over = now.done | {each.item.number for each in now.under_way}
    soaking = {each.item: each.since for each in now.soaking}
    for item in scenario.items:
        if (item.serve_min <= begins and begins > 0) or item.number in over:
            continue
        for_whom = _portioned(_still_drawn(item, begins), scenario, now.eaters)
        if for_whom.portions > 0:
            yield replace(for_whom, soaked_from=soaking.get(item.number))


def _still_drawn(item: Item, begins: int) -> Item:
    """Return a dish that is drawn on with the draws that are still to come."""
    later = [draw for draw in item.drawn if item.serve_min - draw.before_min > begins]
    if begins <= 0 or len(later) == len(item.drawn):
        return item
    left = sum(draw.share for draw in later)
    drawn = tuple(replace(draw, share=draw.share / left) for draw in later)
    return replace(item, adults=item.adults * left, children=item.children * left, drawn=drawn)


def _portioned(item: Item, scenario: Scenario, eaters: tuple[Eaters, ...]) -> Item:
    """Return a dish for those who are there at the meal; who ate none of it before eats none."""
    there = [each for each in eaters if each.since <= item.serve_min]
    if not there:
        return item
    last = there[-1]
    if item.drawn:  # a pot for all: by heads
        return item.times((last.adults + last.children) / scenario.people)
    whole = (item.adults, item.children) == (scenario.adults, scenario.children)
    if whole:
        return replace(item, adults=float(last.adults), children=float(last.children))
    adults = item.adults * (last.adults / scenario.adults if scenario.adults else 1.0)
    children = item.children * (last.children / scenario.children if scenario.children else 1.0)
    return replace(item, adults=adults, children=children)


def _windows(scenario: Scenario, begins: int) -> tuple[Window, ...]:
    """Return the cook hours that are left."""
    return tuple(
        Window(max(window.start_min, begins), window.end_min)
        for window in scenario.windows
        if window.end_min > begins
    )


def with_left(scenario: Scenario, left: Iterable[Left]) -> Scenario:
    """Return a household whose stores hold what is left; the whole of its menu is before it.

    Parameters
    ----------
    scenario : Scenario
        The household.
    left : iterable of Left
        What is left of each fuel; the same reserve stays in it.
    """
    found = {each.fuel: each for each in left}
    stores = tuple(_store(store, found.get(store.fuel.name)) for store in scenario.stores)
    return replace(scenario, stores=stores)


def _store(store: Store, left: Left | None) -> Store:
    """Return a store with what is left in it, and the same reserve in it."""
    if left is None:
        return store
    before, after = (store.stock_j, left.j) if left.kg is None else (store.stock_kg, left.kg)
    if after == before:
        return store
    kept = store.reserve * (before or 0.0)
    reserve = min(1.0, kept / after) if after else store.reserve
    return replace(store, stock_kg=left.kg, stock_j=left.j, reserve=reserve)


def _weather(scenario: Scenario, now: Now) -> tuple[Weather, ...]:
    """Return the weather with sticks wet or dry as they were found."""
    found = {each.day: each.wet for each in now.sticks}
    return tuple(
        replace(each, wet_sticks=found.get(day, each.wet_sticks))
        for day, each in enumerate(scenario.weather, 1)
    )


def _numbered(under_way: tuple[UnderWay, ...], first: int) -> Iterator[UnderWay]:
    """Yield the dishes under way, numbered after those that are planned."""
    numbers: dict[int, int] = {}
    for each in under_way:
        number = numbers.setdefault(each.item.number, first + len(numbers))
        item, step = replace(each.item, number=number), replace(each.step, number=number)
        yield UnderWay(item, step)
