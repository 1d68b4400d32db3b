"""The sheet: one page that needs nothing beside it, a day to a section, every word escaped."""

import re
from dataclasses import replace
from html.parser import HTMLParser

import pytest

from optimizer.planning.planner import plan
from optimizer.report.sheet import sheet_html
from optimizer.scenario.reading import read
from optimizer.shelf import data_folder


class Page(HTMLParser):
    VOID = frozenset({"meta", "br", "link", "img", "input"})

    def __init__(self, text: str) -> None:
        super().__init__()
        self.open: list[str] = []
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.words = ""
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))
        if tag not in self.VOID:
            self.open.append(tag)

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        if self.open and self.open[-1] != "style":
            self.words += data + " "


@pytest.fixture(scope="module")
def demo():
    scenario = read(data_folder() / "scenarios" / "outage_weekend.yaml")
    return scenario, plan(scenario, gap=0.05)


@pytest.fixture(scope="module")
def page(demo) -> Page:
    scenario, made = demo
    return Page(sheet_html(made, scenario))


def test_every_tag_is_closed_and_every_day_has_its_sheet(demo, page):
    scenario, _ = demo
    assert page.open == []
    sections = [a["class"].split()[0] for tag, a in page.tags if tag == "section"]
    assert sections == ["front", "fridge", *scenario.days * ["day"]]


def test_nothing_is_fetched_and_nothing_runs(demo, page):
    scenario, made = demo
    assert not {"script", "link", "img", "iframe", "object"} & {tag for tag, _ in page.tags}
    assert not re.search(r"(https?:)?//", sheet_html(made, scenario))
    policy = next(a["content"] for tag, a in page.tags if a.get("http-equiv"))
    assert policy.startswith("default-src 'none'")


def test_all_meals_and_cautions_are_on_it(demo, page):
    _, made = demo
    words = " ".join(page.words.split())
    for step in made.steps:
        assert f"{step.serve // 60 % 24:02d}:{step.serve % 60:02d}" in words
        assert step.item in words
    for caution in made.cautions:
        assert caution.text.split(".")[0].replace("degC", "").split("60")[0].strip() in words


def test_what_comes_from_a_cooker_has_a_box_for_the_thermometer(demo, page):
    _, made = demo
    boxed = sum(step.finish != "flame" for step in made.steps)
    ticks = [a for tag, a in page.tags if a.get("class") == "box"]
    assert len(ticks) == boxed
    assert all(a["aria-label"] for a in ticks)


def test_words_of_the_household_cannot_become_tags(demo):
    scenario, made = demo
    nasty = "<script>alert(1)</script> & 'quoted' \"twice\""
    steps = tuple(replace(step, item=nasty, meal=nasty) for step in made.steps)
    text = sheet_html(replace(made, steps=steps, title=nasty), replace(scenario, title=nasty))
    page = Page(text)
    assert "script" not in {tag for tag, _ in page.tags}
    assert "<script>" not in text


def test_us_measures_are_told_throughout(demo):
    scenario, made = demo
    words = Page(sheet_html(made, scenario, "us")).words
    assert "140 \N{DEGREE SIGN}F" in words
    assert "\N{DEGREE SIGN}C" not in words
