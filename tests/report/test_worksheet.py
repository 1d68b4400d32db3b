"""Worksheets: blanks for the class, numbers only for the teacher, a table that runs nothing."""

import csv
import io
import re
from dataclasses import replace
from html.parser import HTMLParser

import pytest

from optimizer.report.worksheet import results_csv, teacher_html, worksheet_html
from optimizer.report.worksheet.results import COLUMNS, guarded
from optimizer.report.worksheet.words import SETUPS, WORDS
from optimizer.studies.classroom import class_tests


class Words(HTMLParser):
    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.words = ""
        self._in = ""
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        self._in = tag
        self.tags.append((tag, dict(attrs)))

    def handle_data(self, data):
        if self._in != "style":
            self.words += data.replace("\xa0", " ") + " "


def plainly(html: str) -> str:
    return " ".join(Words(html).words.split())


def test_every_test_has_words_and_every_setup_a_name(scenario):
    tests = class_tests(scenario)
    assert [test.name for test in tests] == list(WORDS)
    assert {each.name for test in tests for each in test.setups} == set(SETUPS)


def test_a_page_a_test_with_predict_measure_compare(scenario):
    html = worksheet_html(scenario)
    sections = [a["class"] for tag, a in Words(html).tags if tag == "section"]
    assert sections == ["front", *len(WORDS) * ["test"]]
    words = plainly(html)
    for heading in ("Predict", "Measure", "Compare"):
        assert len(re.findall(rf"\b{heading} ", words)) >= len(WORDS)


def test_grown_people_hot_water_and_flames_come_first(scenario):
    first = worksheet_html(scenario).split("</section>")[0]
    words = plainly(first)
    assert "Only with grown people" in words
    assert "Hot water scalds" in words
    assert "Flames stay outdoors" in words
    assert "Use every flame outdoors" in words  # the caution as the table of cautions has it
    assert "cannot promise that food is safe to eat" in words


@pytest.mark.parametrize("units", ["metric", "us"])
def test_numbers_are_on_the_teachers_page_alone(scenario, units):
    teacher, pupils = (
        plainly(teacher_html(scenario, units)),
        plainly(worksheet_html(scenario, units)),
    )
    degree = "\N{DEGREE SIGN}F" if units == "us" else "\N{DEGREE SIGN}C"
    table = teacher.split("eight of ten", 1)[1]
    expected = re.findall(rf"(\d+) {degree} (\d+) to (\d+)", table)
    assert len(expected) > 8
    assert all(int(low) <= int(usual) <= int(high) for usual, low, high in expected)
    assert not re.search(r"\d+ to \d+", pupils.split("1. Lid on, lid off")[1])
    assert "Keep this page back" in teacher


def test_the_place_counts(scenario):
    high = replace(scenario, place=replace(scenario.place, altitude_m=2500.0))
    assert "2500 m above the sea" in plainly(teacher_html(high))
    assert plainly(teacher_html(high)) != plainly(teacher_html(scenario))


@pytest.mark.parametrize("made", [worksheet_html, teacher_html])
def test_nothing_is_fetched_and_nothing_runs(scenario, made):
    html = made(replace(scenario, title="<script>x</script>"))
    tags = {tag for tag, _ in Words(html).tags}
    assert not {"script", "link", "img", "iframe", "form", "input"} & tags
    assert "//" not in html
    assert "<script>" not in html


def test_the_table_has_a_row_for_every_blank(scenario):
    rows = list(csv.reader(io.StringIO(results_csv(scenario))))
    assert tuple(rows[0]) == COLUMNS
    blanks = worksheet_html(scenario).count('<td class="cell">') // 4
    assert len(rows) - 1 == blanks
    assert {len(row) for row in rows} == {len(COLUMNS)}
    assert {row[3] for row in rows[1:]} == {words.title for words in WORDS.values()}


@pytest.mark.parametrize(
    "title", ['=HYPERLINK("x")', "+1+1", "-2", "@SUM(A1)", "\t=1", "\r=1", "\n=1", "  =1"]
)
def test_a_spreadsheet_runs_nothing(scenario, title):
    text = results_csv(replace(scenario, title=title))
    for row in csv.reader(io.StringIO(text)):
        assert not any(cell.strip().startswith(("=", "+", "-", "@")) for cell in row)
    assert guarded(title).startswith("'")


def test_plain_words_stay_plain():
    assert guarded("Alder Row - upstairs") == "Alder Row - upstairs"
    assert guarded("") == ""


def test_us_measures(scenario):
    text = results_csv(scenario, "us")
    assert "\N{DEGREE SIGN}F" in text
    assert "\N{DEGREE SIGN}C" not in text
    assert "140 \N{DEGREE SIGN}F" in plainly(worksheet_html(scenario, "us"))
    assert "9 mph" in plainly(teacher_html(scenario, "us"))  # 4 m/s; 1 mph is 0.44704 m/s
