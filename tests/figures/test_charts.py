"""What charts are drawn from: bars that add up, bands, and a meaning that does not need colour."""

from collections import defaultdict
from functools import lru_cache
from itertools import pairwise

import pytest

from app.figures.clock import clock_chart, clock_data, numbered
from app.figures.cooling import cooling_chart
from app.figures.fuel import fuel_chart, fuel_data
from app.figures.heat import COLOURS, LETTERS, heat_chart, heat_data
from app.figures.key import key_chart
from app.figures.look import DARK, DOES, LIGHT
from app.figures.warmth import warmth_chart, warmth_data
from optimizer.model.household import Scenario
from optimizer.model.plan import Plan
from optimizer.planning.planner import plan
from optimizer.report.day_lanes import DayLanes
from optimizer.report.heat import heat_bars
from optimizer.report.lanes import days_of
from optimizer.report.measures import Metric, Us
from optimizer.report.shares import fuel_shares
from optimizer.report.timetable import TOGETHER_MIN
from optimizer.report.warm import boxed, on_day
from optimizer.scenario.reading import read
from optimizer.shelf import data_folder
from optimizer.studies.comparison import compare

HOUSES = ("one_person_jar", "outage_weekend", "mountain_cabin")


@lru_cache
def planned(name: str) -> tuple[Scenario, Plan]:
    scenario = read(data_folder() / "scenarios" / f"{name}.yaml")
    return scenario, plan(scenario, gap=0.05)


def days(name: str) -> tuple[DayLanes, ...]:
    scenario, made = planned(name)
    return days_of(made, scenario)


@pytest.mark.parametrize("name", HOUSES)
def test_the_bars_of_a_pot_add_up_to_its_step(name):
    _, made = planned(name)
    minutes: dict[int, int] = defaultdict(int)
    for day in days(name):
        for bar in clock_data(day).bars:
            if bar["does"] != "soak":
                minutes[bar["step"]] += bar["x2"] - bar["x"]
    for number, step in enumerate(made.steps):
        wait = 0 if step.move is None else step.move - step.off
        carried = wait if wait <= TOGETHER_MIN else 0
        assert minutes[number] == step.serve - step.on - carried


@pytest.mark.parametrize("name", HOUSES)
def test_pots_in_one_row_never_overlap_and_bars_lie_in_the_hours_shown(name):
    for day in days(name):
        for lane in day.lanes:
            for row in range(lane.rows):
                stays = [stay for stay in lane.stays if stay.row == row]
                for one, other in pairwise(stays):
                    assert one.end <= other.start
        for bar in clock_data(day).bars:
            assert day.first <= bar["x"] < bar["x2"] <= day.last


@pytest.mark.parametrize("name", HOUSES)
def test_everything_served_is_marked_once(name):
    _, made = planned(name)
    marks = [(s.minute, s.dish) for day in days(name) for s in day.served]
    assert sorted(minute for minute, _ in marks) == sorted(step.serve for step in made.steps)


@pytest.mark.parametrize("name", HOUSES)
def test_lanes_do_not_run_into_each_other(name):
    for day in days(name):
        data = clock_data(day)
        tops = sorted({bar["y"] for bar in data.bars})
        assert all(b - a >= 14 for a, b in pairwise(tops))
        assert max(bar["y2"] for bar in data.bars) <= data.height


def test_dishes_are_numbered_from_one_without_a_gap():
    for day in days("outage_weekend"):
        numbers = [number for number, _ in numbered(day).values()]
        assert sorted(numbers) == list(range(1, len(numbers) + 1))


def test_every_colour_is_said_again_by_a_hatch_and_a_word():
    assert len({mark.hatch for mark in DOES.values()}) == len(DOES)
    assert len({mark.word for mark in DOES.values()}) == len(DOES)
    assert all(mark.word for mark in DOES.values())
    assert set(COLOURS) == set(LETTERS)
    assert len(set(LETTERS.values())) == len(LETTERS)


@pytest.mark.parametrize("system", [Metric(), Us()])
@pytest.mark.parametrize("name", HOUSES)
def test_a_band_reaches_from_careful_up_to_usual(name, system):
    scenario, made = planned(name)
    warm = boxed(made, scenario)
    for day in days(name):
        today = on_day(warm, day.day)
        names = {each.step: each.item for each in today}
        data = warmth_data(today, (day.first, day.last), names, system)
        for row in data.bands:
            assert row["careful_c"] <= row["usual_c"] + 1e-9
            assert row["y2"] >= row["y"] - 1e-6  # pixels count down the page
            assert 0 <= row["y"] <= row["y2"] <= data.height
        for line in data.wanted:
            step = made.steps[line["step"]]
            if step.serve_rule == "hot":
                assert line["need_c"] == scenario.rules.hot_c
            assert line["need_c"] <= step.serve_c_low + 1e-9


def test_a_safe_line_is_told_in_the_measures_asked_for():
    scenario, made = planned("outage_weekend")
    warm = boxed(made, scenario)[:1]
    hours, names = (0, 1440), {warm[0].step: "stew"}
    assert warmth_data(warm, hours, names, Metric()).wanted_words[0]["text"] == "60 °C or more"
    assert warmth_data(warm, hours, names, Us()).wanted_words[0]["text"] == "140 °F or more"


def test_used_and_left_make_the_whole_stock():
    scenario, made = planned("outage_weekend")
    rows, height = fuel_data(fuel_shares(made, scenario, Metric()))
    assert len(rows["used"]) == len(scenario.stores)
    for used, left, kept, use in zip(
        rows["used"], rows["left"], rows["reserve"], made.fuels, strict=True
    ):
        assert use.stock_mj is not None
        assert used["x2"] == left["x"] == pytest.approx(100 * use.used_mj / use.stock_mj)
        assert left["x2"] == 100
        assert kept["x"] == pytest.approx(90)  # the demonstration keeps 10 %
        assert used["x2"] <= kept["x"] + 1e-6
    assert height > max(row["y2"] for row in rows["left"])


def test_the_parts_of_a_heat_bar_add_up_to_its_fuel():
    scenario, _ = planned("outage_weekend")
    item = next(i for i in scenario.items if i.dish.name == "lentil_stew")
    bars = heat_bars(compare(scenario, item), scenario, Metric())
    rows, longest, _ = heat_data(bars, Metric())
    for number, bar in enumerate(bars, start=1):
        mine = [row for row in rows["parts"] if row["bar"] == number]
        assert mine[-1]["x2"] == pytest.approx(bar.total_mj)
        assert bar.total_mj <= longest + 1e-9


def test_every_chart_says_what_it_shows_and_can_be_drawn():
    import vl_convert

    scenario, made = planned("one_person_jar")
    day = days("one_person_jar")[0]
    warm = on_day(boxed(made, scenario), day.day)
    names = {each.step: each.item for each in warm}
    item = scenario.items[0]
    curve = tuple((minute, 95 - minute / 20, 90 - minute / 18) for minute in range(0, 600, 5))
    bars = heat_bars(compare(scenario, item), scenario, Metric())
    for look in (LIGHT, DARK):
        charts = [
            clock_chart(day, look, "day 1"),
            key_chart(look),
            warmth_chart(warm, (day.first, day.last), names, Metric(), look),
            fuel_chart(fuel_shares(made, scenario, Metric()), look),
            heat_chart(bars, Metric(), look),
            cooling_chart(curve, 60.0, Us(), look),
        ]
        for chart in charts:
            spec = chart.to_dict()
            assert len(spec["description"]) > 20
            assert "<svg" in vl_convert.vegalite_to_svg({**spec, "width": 350})
