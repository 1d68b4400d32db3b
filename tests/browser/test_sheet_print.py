"""The sheet printed by a real browser: one page a day on A4 and on Letter, in letters of 10 pt."""

import os
import shutil
import subprocess
from dataclasses import replace
from pathlib import Path

import pytest
from pypdf import PdfReader

from optimizer.model.household import Scenario
from optimizer.model.plan import Plan, Step
from optimizer.planning.planner import plan
from optimizer.report.sheet import sheet_html
from optimizer.scenario.reading import read
from optimizer.shelf import data_folder

CHROMIUM = os.environ.get("CHROMIUM") or shutil.which("chromium") or shutil.which("google-chrome")
DAY_MIN = 1440
POINT = 10.0
ROUNDING = 0.05  # of a font size, in a PDF

pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(CHROMIUM is None, reason="no Chromium on this machine to print with"),
]


def printed(html: str, paper: str, folder: Path) -> PdfReader:
    """Print a page as a household would, on this paper."""
    page, pdf = folder / "sheet.html", folder / f"{paper}.pdf"
    page.write_text(html.replace("@page {", f"@page {{ size: {paper};", 1), encoding="utf-8")
    flags = ["--headless=new", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer"]
    profile = f"--user-data-dir={folder / 'profile'}"
    command = [str(CHROMIUM), *flags, profile, f"--print-to-pdf={pdf}", page.as_uri()]
    subprocess.run(command, check=True, capture_output=True, timeout=120)
    return PdfReader(pdf)


def smallest_letters(pdf: PdfReader) -> float:
    """Give the smallest font size on paper, in points."""
    sizes: list[float] = []

    def seen(text, matrix, text_matrix, font, size):
        if text.strip():
            scale = abs(text_matrix[3]) * abs(matrix[3])
            sizes.append(size * scale)

    for page in pdf.pages:
        page.extract_text(visitor_text=seen)
    return min(sizes)


def begins(pdf: PdfReader, words: str) -> list[int]:
    """Give the pages that have these words near their top."""
    tops = [" ".join(page.extract_text().split())[:60] for page in pdf.pages]
    return [n for n, top in enumerate(tops) if words in top and "fridge" not in top]


@pytest.fixture(scope="module")
def demo() -> tuple[Scenario, Plan]:
    scenario = read(data_folder() / "scenarios" / "outage_weekend.yaml")
    return scenario, plan(scenario, gap=0.05)


def crowded(scenario: Scenario, made: Plan, dishes: int) -> tuple[Scenario, Plan]:
    """Put so many dishes of the demonstration, and its fires, on each of its days."""
    items, steps, fires = [], [], []
    for day in range(1, scenario.days + 1):
        for step in sorted(made.steps, key=lambda s: s.serve % DAY_MIN)[:dishes]:
            steps.append(moved(step, day, len(items)))
            items.append(replace(scenario.items[step.number], number=len(items)))
        fires += [
            replace(f, day=day, start=f.start + by, end=f.end + by)
            for by, f in ((DAY_MIN * (day - 1), fire) for fire in made.fires if fire.day == 1)
        ]
    crowd = replace(scenario, items=tuple(items))
    return crowd, replace(made, steps=tuple(steps), fires=tuple(fires))


def moved(step: Step, day: int, number: int) -> Step:
    """Cook a dish on another day."""
    by = DAY_MIN * (day - step.day)
    return replace(
        step, number=number, day=day, light=step.light + by, on=step.on + by, boil=step.boil + by,
        off=step.off + by, serve=step.serve + by,
        move=None if step.move is None else step.move + by,
        soak_from=None if step.soak_from is None else step.soak_from + by,
        reboil=tuple(
            replace(r, on=r.on + by, boil=r.boil + by, off=r.off + by) for r in step.reboil
        ),
    )  # fmt: skip


@pytest.mark.parametrize("units", ["metric", "us"])
@pytest.mark.parametrize("paper", ["A4", "letter"])
def test_ten_dishes_a_day_are_one_page_a_day(demo, paper, units, tmp_path):
    scenario, made = crowded(*demo, dishes=10)
    pdf = printed(sheet_html(made, scenario, units), paper, tmp_path)
    assert len(pdf.pages) == 2 + scenario.days  # the first page and the copy for the fridge
    assert smallest_letters(pdf) >= POINT - ROUNDING


@pytest.mark.parametrize("paper", ["A4", "letter"])
def test_the_demonstration_is_one_page_a_day(demo, paper, tmp_path):
    scenario, made = demo
    pdf = printed(sheet_html(made, scenario), paper, tmp_path)
    assert len(pdf.pages) == 2 + scenario.days
    assert smallest_letters(pdf) >= POINT - ROUNDING


def test_sixteen_dishes_go_on_under_the_same_header(demo, tmp_path):
    scenario, made = crowded(*demo, dishes=16)
    pdf = printed(sheet_html(made, scenario), "A4", tmp_path)
    for name in ("Friday 15 January", "Saturday 16 January", "Sunday 17 January"):
        pages = begins(pdf, name)
        assert len(pages) == 2, name
        assert pages[1] == pages[0] + 1
        assert "what to do on" in pdf.pages[pages[1]].extract_text().splitlines()[0]
