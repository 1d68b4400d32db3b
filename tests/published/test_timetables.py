"""Printed timetables of retained-heat cooking: minutes boiled in, hours in the box out.

The whole chain as the planner runs it: a 6 L pot 80 % full of the dish, boiled on a gas burner as
long as the print says, in the shelf's packed box, in a kitchen of 20 degC. The data are advice of
cookery books, leaflets and private pages, not measurements. They come in three kinds:

- with the print's own minutes on the stove: like is held against like (``stove_min``);
- one time in the box: usual values, no margin, the shelf's minutes for the dish;
- a span, or "at least": advice with a margin in it, held against the plan's own margin (0.9).

Left out of the copy: roasts, steamed puddings and loaves, preserves, jellies, stocks, headcheese
and hams, fish and shellfish (not on the shelf or not modelled); sauces and broths that are only
warmed; gruels, samp, hominy, steel-cut oats, millet and buckwheat without a time of their own; "or
overnight" without hours; hours in a double boiler instead of a box; second stays in the box. Bean
rows with a shorter boil than the rule asks (30 min) are history, never advice.
"""

import csv
from collections import defaultdict
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path
from statistics import mean, median

import numpy as np
import pytest
from scipy.stats import spearmanr

from optimizer import shelf
from optimizer.model.household import OwnStove, Place, Weather
from optimizer.planning.bodies import Body, insulated
from optimizer.planning.boiling import Boil, boil, careful_boil_min, rate_at
from optimizer.planning.conditions import Conditions
from optimizer.planning.contents import load_of
from optimizer.planning.grid import MINUTES
from optimizer.planning.resting import rest

SHELF = shelf.load()
PLACE = Place(altitude_m=50, kitchen_c=20, outdoors_c=20, water_c=15)
CALM = Weather(20, 0, rain=False, wet_sticks=False)
HOB = OwnStove(SHELF.stoves["gas_burner"], 1, "vented hob")
POT, FULL = SHELF.pots["pot_6l"], 0.80
USUAL, PLANNED = 0.5, 0.9  # no margin; the household's usual one
NEVER_H = 14.0  # told for a dish that is not done in the longest rest there is
TABLE = Path(__file__).with_name("data") / "retained_heat_times.csv"


@dataclass(frozen=True)
class Row:
    group: str
    dish: str
    food: str
    source: str
    boil_min: float
    stove_min: float | None
    least_h: float
    most_h: float | None

    @property
    def one_time(self) -> bool:
        return self.least_h == self.most_h


def read() -> list[Row]:
    with TABLE.open(encoding="utf-8") as file:
        return [
            Row(
                group=cell["group"],
                dish=cell["dish"],
                food=cell["food"],
                source=cell["source_id"],
                boil_min=float(cell["boil_min"]),
                stove_min=float(cell["stove_min"]) if cell["stove_min"] else None,
                least_h=float(cell["box_hours_min"]),
                most_h=float(cell["box_hours_max"]) if cell["box_hours_max"] else None,
            )
            for cell in csv.DictReader(file)
        ]


ROWS = read()
ONE_TIME = [row for row in ROWS if row.one_time]
SPANS = [row for row in ROWS if not row.one_time]
WITH_STOVE = [row for row in ROWS if row.stove_min]
TENDER = ("beans", "meat")  # boil minutes of an hour and more


@lru_cache
def box_hours(
    row: Row, confidence: float = USUAL, leak: float = 1.0, z_k: float | None = None
) -> float:
    """Hours in the box until a dish is done, after the printed boil."""
    dish, at = SHELF.dishes[row.dish], Conditions(PLACE, CALM, SHELF.rules, confidence)
    dish = replace(dish, boil_min=row.stove_min or dish.boil_min, z_k=z_k or dish.z_k)
    load = load_of(dish, FULL * POT.volume_m3 / load_of(dish, 1.0, PLACE).volume_m3, PLACE)
    fired = boil(load, POT, HOB, SHELF.fuels["propane"], at)
    assert isinstance(fired, Boil), fired
    body = insulated(load, POT, SHELF.cookers["packed_box"], fired, at)
    assert isinstance(body, Body), body
    resting = rest(load, replace(body, loss_w_k=leak * body.loss_w_k), at)
    rate = rate_at(fired.top_c, dish.z_k, dish.floor_c)
    done = row.boil_min * rate / careful_boil_min(load, at) + resting.done
    return float(MINUTES[done.searchsorted(1.0)] / 60) if done[-1] >= 1 else NEVER_H


def ratios(rows: list[Row], **model: float) -> dict[str, float]:
    """Median of computed over printed hours, by food group."""
    by_group = defaultdict(list)
    for row in rows:
        by_group[row.group].append(box_hours(row, **model) / row.least_h)
    return {group: median(found) for group, found in by_group.items()}


def error(rows: list[Row], **model: float) -> float:
    return mean(abs(np.log(box_hours(row, **model) / row.least_h)) for row in rows)


def error_of_a_constant(rows: list[Row]) -> float:
    """Of the best constant there is: the median of the very hours to be guessed."""
    guess = median(row.least_h for row in rows)
    return mean(abs(np.log(guess / row.least_h)) for row in rows)


def order(rows: list[Row], **model: float) -> float:
    """Rank correlation over dishes, each the median of its rows."""
    printed, computed = defaultdict(list), defaultdict(list)
    for row in rows:
        printed[row.dish].append(row.least_h)
        computed[row.dish].append(box_hours(row, **model))
    found = spearmanr(
        [median(hours) for hours in printed.values()],
        [median(hours) for hours in computed.values()],
    )
    return float(found.statistic)


SLOWER = "slower than print, safe: "


def test_the_copy_holds_what_is_said_of_it():
    assert len(ROWS) == 67
    assert len(WITH_STOVE) == 9
    assert len(ONE_TIME) == 30
    assert {row.dish for row in ROWS} <= set(SHELF.dishes)


# FR_ENERGY_TABLE, FR_APE, CHILE_SCHOOL_2009: boil, box and stove minutes from the same print.
@pytest.mark.parametrize(
    "row",
    [
        pytest.param(
            row,
            id=f"{row.source}: {row.food}",
            marks=[
                pytest.mark.xfail(
                    strict=True, reason=SLOWER + "never done in 14 h after so short a boil"
                )
            ]
            if row.group in TENDER
            else [],
        )
        for row in WITH_STOVE
    ],
)
def test_box_hours_where_the_print_has_its_own_minutes_on_the_stove(row):
    assert 0.5 <= box_hours(row) / row.least_h <= 1.5


SOFT_WITH_STOVE = [row for row in WITH_STOVE if row.group not in TENDER]


def fits(rows: list[Row], **model: float) -> bool:
    """Every food within half of print, and the error well below that of a constant guess."""
    within = all(0.5 <= box_hours(row, **model) / row.least_h <= 1.5 for row in rows)
    return within and error(rows, **model) < 0.6 * error_of_a_constant(rows)


# The same check has to fail for a model that is wrong: food cooks on as if it did not cool, a box
# five times as leaky, food that all but stops cooking a few kelvin below the boil.
def test_ours_fits_and_a_wrong_model_does_not():
    assert fits(SOFT_WITH_STOVE)
    assert not fits(SOFT_WITH_STOVE, z_k=1000.0)
    assert not fits(SOFT_WITH_STOVE, leak=5.0)
    assert not fits(SOFT_WITH_STOVE, z_k=8.0)


def test_the_error_beats_a_constant_guess():
    assert error(WITH_STOVE) < error_of_a_constant(WITH_STOVE)


@pytest.mark.xfail(
    strict=True,
    reason="over all prints: beans and meat slower (safe), soft foods of spans sooner, see below",
)
def test_the_error_over_all_prints_beats_a_constant_guess():
    assert error(ROWS) < error_of_a_constant(ROWS)


@pytest.mark.parametrize("rows", [WITH_STOVE, ONE_TIME], ids=["own minutes", "one time"])
def test_foods_come_in_the_printed_order(rows):
    assert order(rows) >= 0.6


@pytest.mark.xfail(
    strict=True,
    reason="over all prints: the spans ask as many hours of oats as of beans; beans and meat "
    "slower (safe), oats, pasta and fruit sooner, see below",
)
def test_foods_come_in_the_printed_order_over_all_prints():
    assert order(ROWS) >= 0.6


@pytest.mark.parametrize(
    "group",
    [
        "grains",
        "roots",
        "lentils and peas",
        pytest.param(
            "beans",
            marks=pytest.mark.xfail(strict=True, reason=SLOWER + "never done after the boil"),
        ),
        pytest.param(
            "meat",
            marks=pytest.mark.xfail(strict=True, reason=SLOWER + "beef never done after the boil"),
        ),
    ],
)
def test_the_median_is_within_half_of_print_where_one_time_is_printed(group):
    assert 0.5 <= ratios(ONE_TIME)[group] <= 1.5


SOONER = (
    "sooner than the span opens, the hopeful side of done but not of safe: the books ask hours for "
    "softness and for whenever the cook comes back, the shelf's minutes are for done today; it is "
    "heated through and at least 60 degC either way"
)


@pytest.mark.parametrize(
    "group",
    [
        "grains",
        "roots",
        pytest.param("fruit", marks=pytest.mark.xfail(strict=True, reason=SOONER)),
        pytest.param("pasta", marks=pytest.mark.xfail(strict=True, reason=SOONER)),
        pytest.param("porridge", marks=pytest.mark.xfail(strict=True, reason=SOONER)),
        pytest.param(
            "beans",
            marks=pytest.mark.xfail(strict=True, reason=SLOWER + "never done after the boil"),
        ),
        pytest.param(
            "meat", marks=pytest.mark.xfail(strict=True, reason=SLOWER + "never done after it")
        ),
    ],
)
def test_a_planned_stay_is_at_least_half_of_the_least_of_a_printed_span(group):
    assert 0.5 <= ratios(SPANS, confidence=PLANNED)[group] <= 1.5


@pytest.mark.parametrize("row", [r for r in SPANS if r.group not in TENDER and r.most_h], ids=str)
def test_a_planned_dish_is_done_before_a_printed_span_closes(row):
    assert box_hours(row, confidence=PLANNED) <= row.most_h


@pytest.mark.parametrize("model", [{"leak": 5.0}, {"z_k": 8.0}], ids=["leaky", "stops"])
def test_a_slow_model_fails_where_one_time_is_printed(model):
    within = [group for group, ratio in ratios(ONE_TIME, **model).items() if 0.5 <= ratio <= 1.5]
    assert not {"roots", "lentils and peas"} & set(within)
