"""A chosen schedule told as steps, fires and fuel used."""

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from optimizer.model.household import DAY_MIN, Scenario, Steep
from optimizer.model.plan import Drawn, Fire, FuelUse, Steeped, Step
from optimizer.model.things import Stove
from optimizer.planning.columns import Column, Kitchen
from optimizer.planning.conditions import Conditions
from optimizer.planning.contents import fill, poured_on
from optimizer.planning.grid import GRID_MIN
from optimizer.planning.ledger import fires_of, fuel_of
from optimizer.planning.starts import Cooking, done_twice, soak_from, up_again_min
from optimizer.planning.steeping import steeped
from optimizer.planning.stock import joules_per_kg, price_j, stock_j

MJ = 1e6


def steps_of(
    chosen: Sequence[Column], fires: Sequence[Fire], scenario: Scenario
) -> tuple[Step, ...]:
    """Return the steps of a schedule in the order in which pots go on."""
    pots, batch = Counter(column.item for column in chosen), Counter[int]()
    steps = []
    for column in sorted(chosen, key=lambda column: column.burns[0].start):
        batch[column.item] += 1
        made = _step(column, fires, scenario)
        portions = made.portions / pots[column.item]
        steps.append(replace(made, batch=batch[column.item], portions=portions))
    return tuple(sorted(steps, key=lambda step: (step.on, step.serve, step.number, step.batch)))


def _step(column: Column, fires: Sequence[Fire], scenario: Scenario) -> Step:
    cooking = column.way
    assert isinstance(cooking, Cooking)
    way, item = cooking.way, cooking.item
    minutes = cooking.off - cooking.on
    heat = joules_per_kg(way.store.fuel)
    usual, careful, done = _at_table(cooking)
    moved = way.cooker is not None
    return Step(
        number=item.number,
        day=item.day,
        meal=item.meal,
        item=item.dish.label,
        dish=item.dish.name,
        portions=item.portions,
        batch=1,
        serve_rule=item.dish.serve,
        stove=way.own.stove.name,
        fuel=way.store.fuel.name,
        pot=way.pot.name,
        pressure=way.pot.gauge_pa > 0,
        finish="boiled_again" if cooking.reboil else way.finish,
        cooker=way.cooker.cooker.name if way.cooker else None,
        soak_from=soak_from(item, cooking.on, scenario.windows) if item.dish.soak_min else None,
        light=_lit_at(cooking, fires),
        on=cooking.on,
        boil=min(cooking.off, cooking.on + round(_boiling_after(cooking))),
        off=cooking.off,
        move=cooking.rest_from + int(way.at.rules.move_min) if moved else None,
        reboil=(cooking.reboil,) if cooking.reboil else (),
        serve=item.serve_min,
        hold_minutes=max(0, round(way.hold_min(minutes))),
        ingredients=way.load.amounts,
        water_kg=way.load.water_kg + way.steam_kg(minutes),
        fuel_kg=None if heat is None else column.fuel_j / heat,
        fuel_mj=column.fuel_j / MJ,
        cost=column.money,
        done=done,
        serve_c=usual,
        serve_c_low=careful,
        fill=fill(way.load, way.pot),
        drawn=tuple(_drawn(cooking)),
    )


def _drawn(cooking: Cooking) -> Iterator[Drawn]:
    """Yield the draws on what is drawn on."""
    way, item = cooking.way, cooking.item
    wait = (item.serve_min - cooking.rest_from) // GRID_MIN
    for draw, (usual, careful) in zip(item.drawn, way.rest.drawn_c, strict=True):
        litres = draw.share * way.load.mass_kg  # a litre is counted as a kilogram
        at = item.serve_min - draw.before_min
        warm = float(usual[wait]), float(careful[wait])
        if draw.of is None:
            yield Drawn(at, draw.use, litres, *warm)
        else:
            most, onto = draw.of.heat_c, poured_on(draw.of, litres)
            steep = None if draw.steep is None else _steeped(draw.steep, at, warm, way.at)
            yield Drawn(at, draw.use, litres, *warm, most, onto, steep)


def _steeped(steep: Steep, poured: int, warm: tuple[float, float], at: Conditions) -> Steeped:
    """Return what is poured on with water so warm, at the table."""
    wait = steep.minutes // GRID_MIN
    usual, low = (steeped(steep, level, at) for level in warm)
    return Steeped(
        steep.cooker.name,
        steep.portions,
        poured + steep.minutes,
        float(usual.usual_c[wait]),
        float(low.careful_c[wait]),
        float(low.done[wait]),
    )


def _boiling_after(cooking: Cooking) -> float:
    """Return minutes until the pot is at its top temperature, the added water heated too."""
    minutes = cooking.off - cooking.on
    return minutes - max(0.0, cooking.way.hold_min(minutes))


def _at_table(cooking: Cooking) -> tuple[float, float, float]:
    """Return usual and careful temperature at the table, and doneness."""
    way, again, serve = cooking.way, cooking.reboil, cooking.item.serve_min
    minutes = cooking.off - cooking.on
    if again is None:
        wait = (serve - cooking.rest_from) // GRID_MIN
        done = way.done_on_fire(minutes) + float(way.rest.done[wait])
    else:
        wait = (serve - again.off) // GRID_MIN
        hold = again.off - again.on - float(up_again_min(way, cooking.reboil_from_c or 0.0))
        done = done_twice(way, minutes, (again.on - cooking.off) // GRID_MIN, hold, wait)
    return float(way.rest.usual_c[wait]), float(way.rest.careful_c[wait]), done


def _lit_at(cooking: Cooking, fires: Sequence[Fire]) -> int:
    stove = cooking.way.own.stove
    ready = cooking.on - stove.start_min
    mine = (f.start for f in fires if f.stove == stove.name and f.start <= ready < f.end)
    return max(mine, default=ready)


def fires_told(chosen: Sequence[Column], kitchen: Kitchen, scenario: Scenario) -> tuple[Fire, ...]:
    """Return every fire lit: once a window where it is fed, once a pot elsewhere.

    What lighting it for one pot takes is in that pot's fuel already, so it counts nothing here.
    """
    stoves = {own.stove.name: own.stove for own in scenario.stoves}
    fed = [
        Fire(
            lit.stove,
            _day(lit.first),
            lit.first - stoves[lit.stove].start_min,
            lit.last,
            lit.start_j / MJ,
            lit.idle_j / MJ,
        )
        for lit in fires_of(chosen, kitchen)
    ]
    return tuple(
        sorted([*fed, *_single(chosen, kitchen, stoves)], key=lambda f: (f.start, f.stove))
    )


def _single(
    chosen: Sequence[Column], kitchen: Kitchen, stoves: Mapping[str, Stove]
) -> Iterator[Fire]:
    """Yield the fires of stoves that are not fed; one that goes straight on is one fire."""
    burns = [
        burn
        for column in chosen
        for burn in column.burns
        if burn.stove not in kitchen.lightings and burn.start < burn.end  # none in the sun
    ]
    spans: dict[str, list[tuple[int, int]]] = defaultdict(list)
    for burn in sorted(burns, key=lambda burn: burn.start):
        start, mine = burn.start - stoves[burn.stove].start_min, spans[burn.stove]
        if mine and start <= mine[-1][1]:
            mine[-1] = (mine[-1][0], max(mine[-1][1], burn.end))
        else:
            mine.append((start, burn.end))
    for stove, lit in spans.items():
        yield from (Fire(stove, _day(start), start, end, 0.0, 0.0) for start, end in lit)


def _day(minute: int) -> int:
    return minute // DAY_MIN + 1


def fuels_used(
    chosen: Sequence[Column], kitchen: Kitchen, scenario: Scenario
) -> tuple[FuelUse, ...]:
    """Return what is used and left of every fuel in the store."""
    used = fuel_of(chosen, kitchen)
    told = []
    for store in scenario.stores:
        burnt, heat = used.get(store.fuel.name, 0.0), joules_per_kg(store.fuel)
        stock = stock_j(store)
        told.append(
            FuelUse(
                name=store.fuel.name,
                used_kg=None if heat is None else burnt / heat,
                used_mj=burnt / MJ,
                stock_kg=store.stock_kg,
                stock_mj=None if stock is None else stock / MJ,
                left_kg=None
                if heat is None or store.stock_kg is None
                else store.stock_kg - burnt / heat,
                cost=burnt * price_j(store),
            )
        )
    return tuple(told)


def fire_minutes(fires: Sequence[Fire]) -> float:
    """Return the minutes of all fires together, from lighting to last pot off."""
    return float(sum(fire.end - fire.start for fire in fires))
