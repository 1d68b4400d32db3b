"""Words of a household that would do harm elsewhere: on a page, paper, chart or table."""

import csv
import io
import json
import re
import xml.etree.ElementTree as ET
from collections.abc import Callable, Iterator
from functools import lru_cache
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest
import vl_convert
from streamlit.testing.v1 import AppTest

from app.state import SCENARIO
from optimizer.planning.planner import plan
from optimizer.report.sheet import fridge_html, sheet_html
from optimizer.report.worksheet import results_csv, teacher_html, worksheet_html
from optimizer.scenario.appending import append
from optimizer.scenario.logbook import log_path
from optimizer.scenario.reading import parse

MAIN = Path(__file__).parents[2] / "app" / "main.py"
SLOW = pytest.param("how_long", marks=pytest.mark.nightly)
PAGES = ("plan", "kitchen", "menu", SLOW, "tradeoffs", "box", "log", "sheet")
# A picture, link or colour of Markdown whose signs are not written as signs.
LIVE = re.compile(r"(?<!\\)!\[|(?<!\\)\]\(|(?<!\\)<(script|b|img)|(?<!\\):red\[")
# Of what a page draws, these are read as Markdown; others are shown as they are.
MARKDOWN = {"body", "label", "help", "caption", "captions", "content", "header", "message"}
Opens = Callable[[str], AppTest]
FORMULA = re.compile(r"\s*[=+\-@\t\r]")


class Tags(HTMLParser):
    """All tags of a page with the names of their attributes."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.found: set[tuple[str, str]] = set()
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: Any) -> None:
        self.found |= {(tag, name) for name, _ in attrs} | {(tag, "")}


@pytest.fixture(scope="module")
def planned(hostile: str) -> tuple[Any, Any]:
    """Give the household of hostile words and its plan."""
    scenario = parse(hostile)
    made = plan(scenario)
    assert made.steps
    return scenario, made


def test_a_page_holds_words_and_no_tags_of_theirs(planned):
    scenario, made = planned
    pages = [sheet_html(made, scenario), fridge_html(made, scenario), worksheet_html(scenario),
             teacher_html(scenario)]  # fmt: skip
    for page in pages[:2]:
        assert "&lt;script&gt;alert(1)&lt;/script&gt;" in page  # it is there, as words
    for page in pages:
        tags = Tags(page).found
        assert not {tag for tag, _ in tags} & {"script", "img", "iframe", "object", "link"}
        assert not {pair for pair in tags if pair[1].startswith("on")}
        assert {name for _, name in tags} <= ATTRIBUTES
        assert (
            "default-src &#39;none&#39;" in page
        )  # and should one get through, it may fetch nothing


ATTRIBUTES = {
    "", "aria-hidden", "aria-label", "charset", "class", "colspan", "content", "d", "fill",
    "height", "href", "http-equiv", "id", "lang", "name", "overflow", "patternunits", "role",
    "scope",
    "stroke", "stroke-width", "style", "width", "x", "x1", "x2", "y", "y1", "y2",
}  # fmt: skip


def test_a_table_for_a_spreadsheet_has_no_formulas(hostile):
    for sign in ("=", "+", "-", "@", "\t=", "\r="):
        title = f'"{sign}cmd|calc!A1"'.replace("\t", "\\t").replace("\r", "\\r")
        text = re.sub(r"title: .*", lambda _, t=title: f"title: {t}", hostile)
        rows = list(csv.reader(io.StringIO(results_csv(parse(text)))))
        assert len(rows) > 5
        assert not [cell for row in rows for cell in row if FORMULA.match(cell)]


# the front end


@pytest.fixture(scope="module")
def drawn(hostile: str, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Opens]:
    """Give what opens a page of the front end, with hostile words in file, log and name."""
    folder = tmp_path_factory.mktemp("drawn")
    file = folder / "![p](x).yaml"
    file.write_text(hostile, encoding="utf-8")
    note = "=2+2 ![p](http://evil.example/p.png) <script>"
    fuel = next(iter(parse(hostile).stores)).fuel.name
    said = {"at": "day 1 06:30", "kind": "fuel", "fuel": fuel, "left": "5.9 kg", "note": note}
    append(log_path(file), said)
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_STATE_HOME", str(folder / "state"))
        patch.setenv(SCENARIO, str(file))
        yield lru_cache(page_of)


def page_of(page: str) -> AppTest:
    """Open a page and look until it is whole."""
    window = AppTest.from_file(MAIN, default_timeout=120)
    window.switch_page(f"views/{page}.py")
    window.run()
    for _ in range(60):
        if not window.status:
            break
        window.run()
    assert not window.exception, window.exception
    return window


def elements(block: Any) -> Iterator[Any]:
    """Give every element of a page."""
    for child in block.children.values():
        yield child
        if hasattr(child, "children"):
            yield from elements(child)


def markdown(message: Any) -> Iterator[str]:
    """Give the texts of an element that are read as Markdown."""
    for field, value in message.ListFields():
        if field.type == field.TYPE_MESSAGE:
            for each in value if field.is_repeated else [value]:
                if hasattr(each, "ListFields"):
                    yield from markdown(each)
        elif field.type == field.TYPE_STRING and field.name in MARKDOWN:
            yield from value if field.is_repeated else [value]


@pytest.mark.parametrize("page", PAGES)
def test_no_word_is_taken_for_a_mark_on_a_page(drawn, page):
    found: list[str] = []
    for element in elements(drawn(page)._tree):
        if getattr(element, "proto", None) is not None:
            found += markdown(element.proto)
        if getattr(element, "type", "") in {"table", "arrow_table"}:
            table = element.value
            found += [str(cell) for cell in (*table.columns, *table.to_numpy().ravel())]
    assert any("evil" in text for text in found)
    assert "\n".join(text for text in found if LIVE.search(text)) == ""


@pytest.mark.parametrize("page", ["plan", "tradeoffs"])
def test_a_chart_of_hostile_words_is_a_picture_of_words(drawn, page):
    specs = [json.loads(each.proto.spec) for each in drawn(page).get("vega_lite_chart")]
    assert specs
    for spec in specs:
        svg = ET.fromstring(vl_convert.vegalite_to_svg(spec))  # noqa: S314  (made here)
        tags = {each.tag.rpartition("}")[2] for each in svg.iter()}
        names = {name.rpartition("}")[2] for each in svg.iter() for name in each.attrib}
        assert not tags & {"script", "image", "foreignObject", "a"}
        assert not {name for name in names if name.startswith("on") or name == "href"}
