"""The sheet: one page that needs nothing beside it, a day to a section, every word escaped."""

import re
from dataclasses import replace
from fractions import Fraction
from html.parser import HTMLParser

import pytest

from optimizer.model.household import Scenario
from optimizer.model.plan import Plan
from optimizer.planning.planner import plan as make_plan
from optimizer.report.cups import CUP_L
from optimizer.report.layout import tied
from optimizer.report.sheet import sheet_html
from optimizer.scenario.reading import read
from optimizer.shelf import data_folder, load

NASTY = "<script>alert(1)</script> & 'quoted' \"twice\" <img src=x onerror=y> {{ 7 * 7 }}"


class Page(HTMLParser):
    VOID = frozenset({"meta", "br", "link", "img", "input"})

    def __init__(self, text: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.sections: dict[str, str] = {}
        self.words = ""
        self._section = ""
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        named = dict(attrs)
        self.tags.append((tag, named))
        if tag == "section":
            self._section = named.get("id") or named["class"]
            self.sections[self._section] = ""
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        if self.open and self.open[-1] != "style":
            self.words += data + " "
            if self._section:
                self.sections[self._section] += data + " "


def plainly(text: str) -> str:
    return " ".join(text.replace("\xa0", " ").split())


def paged(plan: Plan, scenario: Scenario, units="metric") -> Page:
    return Page(sheet_html(plan, scenario, units))


@pytest.fixture(scope="module")
def demo():
    scenario = read(data_folder() / "scenarios" / "outage_weekend.yaml")
    return scenario, make_plan(scenario, gap=0.05)


@pytest.fixture(scope="module")
def page(demo) -> Page:
    scenario, made = demo
    return paged(made, scenario)


def test_every_tag_is_closed_and_every_day_has_its_sheet(demo, page):
    scenario, _ = demo
    assert page.open == []
    sections = [a["class"].split()[0] for tag, a in page.tags if tag == "section"]
    assert sections == ["front", "fridge", *scenario.days * ["day"]]


def test_nothing_is_fetched_and_nothing_runs(demo, page):
    scenario, made = demo
    tags = {tag for tag, _ in page.tags}
    assert not {"script", "link", "img", "iframe", "object", "form", "input"} & tags
    text = sheet_html(made, scenario)
    assert not re.search(r"(https?:)?//", text)
    assert "@import" not in text
    assert set(re.findall(r"url\((.)", text)) == {"#"}  # its own hatches
    assert all((a.get("href") or "#").startswith("#") for _, a in page.tags)
    policy = next(a["content"] for tag, a in page.tags if a.get("http-equiv"))
    assert policy.startswith("default-src 'none'")
    assert "script" not in policy


def test_every_link_leads_somewhere(page):
    there = {a["id"] for _, a in page.tags if a.get("id")}
    assert {a["href"][1:] for tag, a in page.tags if tag == "a"} <= there


def test_all_meals_and_cautions_are_on_it(demo, page):
    _, made = demo
    words = plainly(page.words)
    for step in made.steps:
        assert f"{step.serve // 60 % 24:02d}:{step.serve % 60:02d}" in words
        assert step.item in words
    for caution in made.cautions:
        assert caution.text.split(".")[0].replace("degC", "").split("60")[0].strip() in words


def test_every_step_of_every_kind_is_on_its_day(plan, scenario):
    sections = {k: plainly(v) for k, v in paged(plan, scenario).sections.items()}
    friday, saturday = sections["day-2"], sections["day-3"]
    assert "Light the stick stove outdoors" in friday
    assert "Put the stick stove out" in friday
    assert "Out of the cooker and onto the stick stove" in friday
    assert "Full pressure about 06:20; keep it there 15 min." in saturday
    assert "let the pressure fall by itself" in saturday


def test_what_is_soaked_is_on_the_page_of_the_evening_before(plan, scenario):
    sections = {k: plainly(v) for k, v in paged(plan, scenario).sections.items()}
    assert "the day before" in sections["day-1"]
    assert "23:00 red kidney bean stew For supper tomorrow: soak 400 g dried" in sections["day-1"]
    assert "20:00 chickpea stew For breakfast tomorrow: soak 400 g dried" in sections["day-2"]
    assert "oak 400 g" not in sections["day-3"]
    assert "20:00 soak for chickpea stew" in sections["fridge"]


def test_the_copy_for_the_fridge_has_every_meal(demo, page):
    scenario, made = demo
    fridge = plainly(page.sections["fridge"])
    for step in made.steps:
        assert f"{step.serve // 60 % 24:02d}:{step.serve % 60:02d} {step.meal}:" in fridge
    rows = fridge.split("January")[1:]
    assert len(rows) == scenario.days
    for day, row in enumerate(rows, start=1):
        for step in made.steps:
            assert step.day != day or step.item in row


def test_the_copy_for_the_fridge_says_the_same_times_as_the_days(plan, scenario):
    page = paged(plan, scenario)
    fridge = plainly(page.sections["fridge"])
    days = plainly(" ".join(v for k, v in page.sections.items() if k.startswith("day")))
    times = set(re.findall(r"\d\d:\d\d", fridge))
    assert len(times) > 10
    assert times <= set(re.findall(r"\d\d:\d\d", days))


def test_a_pot_of_the_day_before_says_so(plan, scenario):
    early = replace(plan.steps[4], on=1200, boil=1220, off=1240, move=1255, soak_from=None)
    fridge = plainly(paged(replace(plan, steps=(early,), fires=()), scenario).sections["fridge"])
    assert "on 20:00 the day before" in fridge


def test_what_comes_from_a_cooker_has_a_box_for_the_thermometer(demo, page):
    _, made = demo
    boxed = sum(step.finish != "flame" for step in made.steps)
    boxes = [a for tag, a in page.tags if a.get("class") == "box"]
    assert len(boxes) == boxed
    assert all(a["aria-label"] for a in boxes)


def test_every_boxed_dish_is_told_what_to_do_below_the_line(plan, scenario):
    sections = {k: plainly(v) for k, v in paged(plan, scenario).sections.items()}
    told = load().cautions["reheat"].text.replace("degC", "\N{DEGREE SIGN}C")
    for step in plan.steps:
        if step.finish != "flame" and step.serve_rule == "hot":
            assert f"{step.item}: {told}" in sections[f"day-{step.day + 1}"].replace(
                "porridge of rolled oats, red kidney bean stew:", f"{step.item}:"
            )


def test_rice_below_the_line_is_told_more(demo, page):
    _, made = demo
    (rice,) = [step for step in made.steps if step.dish == "rice" and step.cooker]
    told = load().cautions["rice"].text.replace("degC", "\N{DEGREE SIGN}C")
    assert f"rice: {told}" in plainly(page.sections[f"day-{rice.day}"])


def test_words_of_the_household_cannot_become_tags(demo):
    scenario, made = demo
    steps = tuple(replace(step, item=NASTY, meal=NASTY) for step in made.steps)
    cautions = tuple(replace(caution, items=(NASTY,)) for caution in made.cautions)
    nasty = replace(made, steps=steps, title=NASTY, cautions=cautions)
    text = sheet_html(nasty, replace(scenario, title=NASTY, currency=NASTY))
    page = Page(text)
    assert page.open == []
    assert not {"script", "img"} & {tag for tag, _ in page.tags}
    assert "<script>" not in text
    assert "<img" not in text
    assert "{{ 7 * 7 }}" in page.words
    assert all("onerror" not in a for _, a in page.tags)


def test_us_measures_are_told_throughout(demo):
    scenario, made = demo
    words = paged(made, scenario, "us").words
    assert "140\xa0\N{DEGREE SIGN}F" in words
    assert "\N{DEGREE SIGN}C" not in words


SPOKEN = r"([\d/ ]+ (?:cups?|tbsp|tsp)(?: \+ \d tbsp)?)"
CUPS = {"cup": 1.0, "cups": 1.0, "tbsp": 1 / 16, "tsp": 1 / 48}


def cups_of(told: str) -> float:
    total = 0.0
    for part in told.split(" + "):
        *amount, unit = part.split()
        total += CUPS[unit] * float(sum(Fraction(each) for each in amount))
    return total


def test_cups_and_litres_of_water_agree(page):
    told = re.findall(rf"([\d.]+) (m?L) (?:fresh )?water \({SPOKEN}\)", plainly(page.words))
    assert len(told) > 5
    for amount, unit, cups in told:
        litres = float(amount) * (1.0 if unit == "L" else 0.001)
        assert CUP_L * cups_of(cups) == pytest.approx(litres, rel=0.05)


@pytest.mark.parametrize("food", ["white rice", "brown lentils", "sugar", "cooking oil"])
def test_cups_and_grams_of_food_agree(page, food):
    label = {f.label: name for name, f in load().foods.items()}[food]
    cup_kg = load().measures[label].kg
    told = re.findall(rf"([\d.]+) g {food} \({SPOKEN}\)", plainly(page.words))
    assert told
    for grams, cups in told:
        assert 1000 * cup_kg * cups_of(cups) == pytest.approx(float(grams), rel=0.13)


def test_in_the_usa_cups_come_first_and_grams_stay(demo):
    scenario, made = demo
    words = plainly(paged(made, scenario, "us").words)
    assert re.search(r"cups(?: \+ \d tbsp)? white rice \(\d+ g\)", words)
    assert re.search(r"\d lb \d+ oz|\d+ oz", words)  # what has to be weighed


def test_the_strip_has_a_lane_for_every_dish_of_the_day(demo, page):
    _, made = demo
    lanes = [a for tag, a in page.tags if a.get("class") == "lane"]
    hours = len({step.day for step in made.steps})
    assert len(lanes) == len(made.steps) + hours
    bars = [a for tag, a in page.tags if tag == "rect" and a.get("x")]
    assert all(0 <= float(a["x"][:-1]) <= 100 for a in bars)
    assert all(0 < float(a["width"][:-1]) <= 100 - float(a["x"][:-1]) + 0.02 for a in bars)
    boxed = sum(step.cooker is not None for step in made.steps)
    assert sum(a["class"] == "cooker-bar" for a in bars) >= boxed


def test_a_number_and_its_unit_stay_on_one_line():
    assert tied("230 g oats, 2 3/4 cups at 60 \N{DEGREE SIGN}C") == (
        "230\xa0g oats, 2\xa03/4\xa0cups at 60\xa0\N{DEGREE SIGN}C"
    )
    assert tied("5 portions, 12 guests") == "5 portions, 12 guests"
