"""The Plan and Trade-offs pages in every state a plan can be in."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from streamlit.testing.v1 import AppTest

from app import cached
from app.state import SCENARIO
from optimizer.shelf import data_folder

Open = Callable[[str], AppTest]


@pytest.fixture
def house(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[[str], Path]:
    """Name a copy of a shipped household on the command line."""

    def copy(name: str) -> Path:
        path = tmp_path / f"{name}.yaml"
        text = (data_folder() / "scenarios" / f"{name}.yaml").read_text(encoding="utf-8")
        path.write_text(text, encoding="utf-8")
        monkeypatch.setenv(SCENARIO, str(path))
        cached.plan(text)
        return path

    return copy


def told(page: AppTest) -> str:
    parts = [
        *page.subheader,
        *page.header,
        *page.markdown,
        *page.caption,
        *page.info,
        *page.warning,
    ]
    return "\n".join(str(part.value) for part in parts).replace("\\", "")


def charts(page: AppTest) -> list[str]:
    specs = [json.loads(chart.proto.spec) for chart in page.get("vega_lite_chart")]
    return [str(spec["description"]) for spec in specs]


def test_the_first_words_say_what_is_saved(house, window):
    house("outage_weekend")
    page = window("plan")
    assert "boiled the whole time" in page.subheader[0].value
    drawn = charts(page)
    assert any(d.startswith("Clock of") for d in drawn)
    assert any(d.startswith("Temperature of every dish") for d in drawn)
    assert any(d.startswith("Share of each fuel") for d in drawn)
    assert "Mind" in [h.value for h in page.header]


def test_it_says_how_sure_the_plan_is_and_what_to_measure(house, window):
    house("outage_weekend")
    page = window("plan")
    assert "Chances" in [h.value for h in page.header]
    words = told(page)
    assert "Every dish done and hot when it is served:" in words
    assert "in four tries of five." in words
    assert "To know the fuel better: weigh the sticks" in words


def test_another_day_shows_another_clock(house, window):
    house("outage_weekend")
    page = window("plan")
    day = page.radio[0]
    assert [*day.options][-1] == "All days"
    first = charts(page)
    page = day.set_value(2).run()
    assert charts(page) != first
    page = page.radio[0].set_value(0).run()
    assert sum(d.startswith("Clock of") for d in charts(page)) == 3


def test_us_measures_reach_the_charts(house, window):
    house("one_person_jar")
    page = window("plan")
    page = page.toggle[0].set_value(True).run()
    assert any("\u00b0F" in d for d in charts(page))
    assert "thousand BTU" in told(page)


def test_one_dish_and_a_stock_changed_on_the_page(file, window):
    page = window("plan")
    stock = next(f for f in page.text_input if f.label == "How much sticks")
    page = stock.set_value("4 kg").run()
    assert not page.exception
    assert "stock: 4 kg" in file.read_text(encoding="utf-8")
    assert any("sticks" in d for d in charts(page))


def test_no_box_used_is_said(file, window):
    text = file.read_text(encoding="utf-8").replace("cookers: {packed_box: 1}\n", "")
    file.write_text(text, encoding="utf-8")
    page = window("plan")
    assert "No dish is in an insulated cooker on this day" in told(page)
    assert not any(d.startswith("Temperature") for d in charts(page))


def test_an_infeasible_household_is_told_the_least_changes(house, window):
    house("short_of_fuel")
    page = window("plan")
    assert "No plan is possible" in page.subheader[0].value
    assert "least changes" in told(page)
    assert "How much sticks" in [f.label for f in page.text_input]
    assert not page.get("vega_lite_chart")


def test_a_stopped_search_keeps_its_best_plan(file, window, monkeypatch):
    from dataclasses import replace

    text = file.read_text(encoding="utf-8")
    made = cached.plan(text).plan
    bare = replace(made, status="stopped", saved=None, boil_all=None, boil_all_same_stoves=None)
    search = cached.search(text)
    monkeypatch.setattr(search, "_found", cached.Planned(bare))
    page = window("plan")
    assert "stopped" in told(page)
    assert "of fuel" in page.subheader[0].value
    assert any(d.startswith("Clock of") for d in charts(page))


@pytest.mark.slow
def test_a_week_is_shown_day_by_day(house, window):
    house("week")
    page = window("plan")
    assert len(page.radio[0].options) == 8
    assert sum(d.startswith("Clock of") for d in charts(page)) == 1


def weighed(page: AppTest, file: Path) -> AppTest:
    cached.weighing(file.read_text(encoding="utf-8"), "tending").made.wait(120)
    return page.run()


def test_trade_offs_can_be_opened_as_plans(house, window):
    file = house("one_person_jar")
    page = weighed(window("tradeoffs"), file)
    assert any("money, EUR against time at the fire" in d for d in charts(page))
    before = len(charts(page))
    page = page.radio[0].set_value(1).run()
    assert not page.exception
    assert any(d.startswith("Clock of") for d in charts(page))
    assert len(charts(page)) > before


def test_a_slider_changes_the_answer(house, window):
    file = house("one_person_jar")
    page = weighed(window("tradeoffs"), file)
    rows = [table.value.to_dict() for table in page.table]
    wind = next(s for s in page.slider if s.label.startswith("Wind"))
    page = wind.set_value(6).run()
    assert not page.exception
    assert [table.value.to_dict() for table in page.table] != rows


def test_a_slider_stays_where_it_was_put_when_the_measures_change(house, window):
    file = house("one_person_jar")
    page = weighed(window("tradeoffs"), file)

    def stands(start):
        return next(s for s in page.slider if s.label.startswith(start))

    page = stands("Packing on every side, cm").set_value(15).run()
    page = stands("Wind outdoors, m/s").set_value(9).run()
    switch = next(each for each in page.toggle if "US" in each.label)
    page = switch.set_value(True).run()
    assert stands("Packing on every side, inches").value == 6.0  # 5.9, in steps of a half
    assert stands("Wind outdoors, mph").value == 20  # 20.1
    page = stands("Wind outdoors, mph").set_value(10).run()
    page = next(each for each in page.toggle if "US" in each.label).set_value(False).run()
    assert stands("Packing on every side, cm").value == 15
    assert stands("Wind outdoors, m/s").value == 4  # 4.5


def test_nothing_to_weigh_without_a_plan(house, window):
    file = house("short_of_fuel")
    page = weighed(window("tradeoffs"), file)
    assert "No plan was found" in told(page)


def test_why_a_dish_is_not_in_a_cooker_stands_folded_at_its_day(house, window):
    house("outage_weekend")
    page = window("plan")
    folded = [each.label for each in page.expander]
    assert folded.count("Why a dish is not finished in a cooker") == 1
    assert "drinking water: may cool before it is wanted" in told(page)


def test_the_numbers_stay_open_once_a_person_opened_them(file, window):
    page = window("plan")
    folded = {each.label: each.proto.expanded for each in page.expander}
    assert folded["Change a number"] is False
    page.session_state["kept"]["numbers open"] = True
    page.text_input("field:fuels.sticks.stock").set_value("4 kg").run()
    assert not page.exception
    folded = {each.label: each.proto.expanded for each in page.expander}
    assert folded["Change a number"] is True


def test_households_see_who_cooks_and_what_each_burns(file, window):
    share = "households: {mill: {adults: 1, brings: {sticks: 3 kg}}, weir: {children: 1}}\n"
    file.write_text(file.read_text(encoding="utf-8") + share, encoding="utf-8")
    page = window("plan")
    words = told(page)
    assert "Households" in words
    assert "In all: mill" in words
    tables = [list(table.value.columns) for table in page.table]
    assert ["Who cooks", "from, to", "household", "fire burns"] in tables
    assert any(columns[-1] == "settles" for columns in tables)


def test_an_ordinary_household_sees_nothing_of_it(file, window):
    assert "Households" not in told(window("plan"))
