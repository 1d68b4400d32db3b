"""The clock of one day: a lane for each stove and cooker, with what every pot does in it."""

import textwrap
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Any

import altair as alt

from app.figures.look import DOES, SMALL, WORD_PX, Look
from app.figures.plot import Align, Plot, hours_axis, layered
from optimizer.report.day_lanes import DayLanes, Lane, Stay
from optimizer.scenario.clock import clock

HEAD_PX, NAME_PX, BAR_PX, ROW_GAP_PX, LANE_GAP_PX, FIRE_PX = 16, 14, 14, 4, 8, 4
MEAL_PX = 15
CLOSE_MIN = 75  # names nearer to each other stand on two storeys
NARROW_PX = 350  # the narrowest chart for which meals are kept apart
THIN_PX = 5
SIDES: tuple[tuple[Align, int], ...] = (("left", 3), ("right", -3))

Row = dict[str, Any]


@dataclass(slots=True)
class ClockData:
    """What is drawn, kind by kind; places down the page are in pixels."""

    first: int
    last: int
    height: int = 0
    bars: list[Row] = field(default_factory=list)
    begins: list[Row] = field(default_factory=list)  # where one pot follows another
    names: list[Row] = field(default_factory=list)
    heads: list[Row] = field(default_factory=list)
    fires: list[Row] = field(default_factory=list)
    moves: list[Row] = field(default_factory=list)
    served: list[Row] = field(default_factory=list)
    meals: list[Row] = field(default_factory=list)
    hours: list[Row] = field(default_factory=list)


def numbered(day: DayLanes) -> dict[int, tuple[int, str]]:
    """Give the dishes of a day numbers, in the order in which they are begun.

    Parameters
    ----------
    day
        One day.

    Returns
    -------
    dict
        Step of the plan to its number and dish.
    """
    stays = sorted((s for lane in day.lanes for s in lane.stays), key=lambda s: (s.start, s.step))
    order = dict.fromkeys(stay.step for stay in stays)
    dishes = {stay.step: stay.dish for stay in stays}
    return {step: (number, dishes[step]) for number, step in enumerate(order, start=1)}


def clock_data(day: DayLanes) -> ClockData:
    """Lay out one day.

    Parameters
    ----------
    day
        One day of a plan.

    Returns
    -------
    ClockData
        Minutes across, pixels down.
    """
    data = ClockData(day.first, day.last)
    data.meals = list(_meals(day))
    top = MEAL_PX * max((meal["row"] + 1 for meal in data.meals), default=0) + ROW_GAP_PX
    numbers = numbered(day)
    places: dict[tuple[int, int], int] = {}
    for number, lane in enumerate(day.lanes):
        data.heads.append({"x": day.first, "y": top + HEAD_PX - 4, "text": lane.label})
        top = _lay(data, lane, number, top + HEAD_PX, places, numbers)
    data.height = top
    for meal in data.meals:
        meal["end"] = top
    data.hours = [
        {"x": max(a, day.first), "x2": min(b, day.last), "y": 0, "y2": top}
        for a, b in day.cook_hours
        if a < day.last and b > day.first
    ]
    data.moves = [
        {
            "x": move.left,
            "x2": move.came,
            "y": places[move.from_lane, move.from_row],
            "y2": places[move.to_lane, move.to_row],
            "told": f"{move.dish}: moved {clock(move.left)}",
        }
        for move in day.moves
    ]
    data.served = [
        {
            "x": each.minute,
            "y": places[each.lane, each.row],
            "told": f"{each.dish}: served {clock(each.minute)}, {each.meal}",
        }
        for each in day.served
    ]
    return data


def _lay(
    data: ClockData,
    lane: Lane,
    number: int,
    top: int,
    places: dict[tuple[int, int], int],
    numbers: dict[int, tuple[int, str]],
) -> int:
    """Lay out one lane and say where the next may begin."""
    for row in range(lane.rows):
        stays = [stay for stay in lane.stays if stay.row == row]
        storeys = _storeys(stays)
        bar = top + NAME_PX * (max(storeys, default=0) + 1)
        places[number, row] = bar + BAR_PX // 2
        for stay, names in zip(stays, _rooms(stays, storeys, data.last), strict=True):
            data.bars += _bars(stay, bar)
            at = stay.start
            data.begins.append({"x": at, "x2": at, "y": bar, "y2": bar + BAR_PX})
            nth, dish = numbers[stay.step]
            y = bar - 3 - NAME_PX * names["storey"]
            data.names.append({**names, "y": y, "bar": bar, "number": str(nth), "dish": dish})
        top = bar + BAR_PX + ROW_GAP_PX
    if lane.fires:
        data.fires += [
            {
                "x": start,
                "x2": end,
                "y": top - 2,
                "y2": top - 2 + FIRE_PX,
                "told": f"{lane.label}: lit {clock(start)} to {clock(end)}",
            }
            for start, end in lane.fires
        ]
        top += FIRE_PX
    return top + LANE_GAP_PX


def _bars(stay: Stay, top: int) -> Iterator[Row]:
    for piece in stay.pieces:
        thin = DOES[piece.does].hatch in {"thin", "dashed"}
        inset = (BAR_PX - THIN_PX) // 2 if thin else 0
        yield {
            "does": piece.does,
            "dish": stay.dish,
            "step": stay.step,
            "x": piece.start,
            "x2": piece.end,
            "y": top + inset,
            "y2": top + BAR_PX - inset,
            "told": f"{stay.dish}: {DOES[piece.does].word} "
            f"{clock(piece.start)} to {clock(piece.end)}",
        }


def _storeys(stays: Sequence[Stay]) -> list[int]:
    """Put names that are close to each other on two storeys in turn."""
    storeys: list[int] = []
    for number, stay in enumerate(stays):
        close = number > 0 and stay.start - stays[number - 1].start < CLOSE_MIN
        storeys.append(1 - storeys[-1] if close else 0)
    return storeys


def _rooms(stays: Sequence[Stay], storeys: Sequence[int], last: int) -> Iterator[Row]:
    """Say from where to where each name may be written; late ones end with their bar."""
    for number, (stay, storey) in enumerate(zip(stays, storeys, strict=True)):
        later = [s.start for s, k in zip(stays, storeys, strict=True) if k == storey]
        until = min((start for start in later if start > stay.start), default=last)
        before = max((s.end for s in stays[:number]), default=0)
        if until == last and last - stay.start < CLOSE_MIN < stay.start - before:
            yield {"x": stay.end, "room": stay.end - before, "align": "right", "storey": storey}
        else:
            yield {"x": stay.start, "room": until - stay.start, "align": "left", "storey": storey}


def _meals(day: DayLanes) -> Iterator[Row]:
    """Yield a line down the page for every time at which something is served."""
    at: dict[int, list[str]] = {}
    for each in sorted(day.served, key=lambda s: s.minute):
        at.setdefault(each.minute, []).append(each.meal)
    per_min = NARROW_PX / (day.last - day.first)
    ends: list[float] = []  # of each row of labels, in pixels of the narrowest chart
    for minute, meals in at.items():
        x = per_min * (minute - day.first)
        for text in _labels(clock(minute), list(dict.fromkeys(meals)), max(x, NARROW_PX - x)):
            wide = _wide(text)
            right = x + wide > NARROW_PX and x > NARROW_PX / 2
            begin = x - wide if right else x
            row = next((n for n, end in enumerate(ends) if end <= begin), len(ends))
            ends[row : row + 1] = [x if right else x + wide]
            yield {
                "x": minute,
                "text": text,
                "row": row,
                "y": MEAL_PX * (row + 1) - 4,
                "begin": MEAL_PX * row,
                "align": "right" if right else "left",
            }


def _wide(text: str) -> float:
    """Guess how wide a label is [px]."""
    return WORD_PX * len(text) + 8


def _labels(at: str, meals: Sequence[str], room_px: float) -> list[str]:
    """Write the meals of one minute, together if there is room, or else in lines of that width."""
    together = f"{at} {', '.join(meals)}"
    if _wide(together) <= room_px:
        return [together]
    most = int((room_px - 8) / WORD_PX)
    return [line for meal in meals for line in textwrap.wrap(f"{at} {meal}", most)]


def clock_chart(day: DayLanes, look: Look, name: str) -> alt.LayerChart:
    """Draw the clock of one day.

    Parameters
    ----------
    day
        One day of a plan.
    look
        By day or by night.
    name
        What the day is called, for those who cannot see the chart.

    Returns
    -------
    alt.LayerChart
        As wide as there is room.
    """
    data = clock_data(day)
    plot = Plot(data.first, data.last, data.height, hours_axis(data.first, data.last))
    down = [{**meal, "x2": meal["x"], "y": meal["begin"], "y2": meal["end"]} for meal in data.meals]
    leads = [
        {"x": n["x"], "x2": n["x"], "y": n["y"], "y2": n["bar"]} for n in data.names if n["storey"]
    ]
    layers = [
        plot.area(data.hours, look.shade),
        plot.line(down, look.soft, strokeDash=[2, 3]),
        plot.line(leads, look.soft),
        plot.line(data.moves, look.soft),
        plot.told(data.fires, look.fuel),
        *(layer for does in DOES for layer in plot.does(data.bars, does)),
        plot.line(data.begins, look.paper, strokeWidth=2),
        plot.served(data.served, look),
        *plot.words(data.heads, look.soft, look.paper, size=SMALL),
        *plot.names(data.names, look),
        *_meal_words(plot, data.meals, look),
    ]
    return layered(layers, data.height, look, describe(day, name))


def _meal_words(plot: Plot, meals: Sequence[Row], look: Look) -> Iterator[alt.Chart]:
    for align, dx in SIDES:
        mine = [meal for meal in meals if meal["align"] == align]
        if mine:
            yield from plot.words(mine, look.ink, look.paper, align=align, dx=dx)


def describe(day: DayLanes, name: str) -> str:
    """Say what the chart of a day shows, for those who cannot see it.

    Parameters
    ----------
    day
        One day.
    name
        What it is called.
    """
    meals = "; ".join(
        f"{clock(each.minute)} {each.dish}" for each in sorted(day.served, key=lambda s: s.minute)
    )
    lit = sum(len(lane.fires) for lane in day.lanes)
    fires = f"{lit} fire{'' if lit == 1 else 's'}" if lit else "no fire"
    return f"Clock of {name}: {fires}; served {meals}. The timetable below says the same."
