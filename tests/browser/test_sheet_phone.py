"""The sheet and the worksheets on a phone: nothing wider than its 390 px."""

import os
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from optimizer.planning.planner import plan
from optimizer.report.sheet import fridge_html, sheet_html
from optimizer.report.worksheet import teacher_html, worksheet_html
from optimizer.scenario.reading import read
from optimizer.shelf import data_folder

sync_api = pytest.importorskip("playwright.sync_api", reason="playwright is not installed")
CHROMIUM = os.environ.get("CHROMIUM") or shutil.which("chromium") or shutil.which("google-chrome")
PHONE = {"width": 390, "height": 844}

pytestmark = [
    pytest.mark.browser,
    pytest.mark.skipif(CHROMIUM is None, reason="no Chromium on this machine to look with"),
]


@pytest.fixture(scope="module")
def pages() -> dict[str, str]:
    scenario = read(data_folder() / "scenarios" / "street_kitchen.yaml")
    made = plan(scenario, gap=0.05)
    return {
        "sheets": sheet_html(made, scenario),
        "fridge": fridge_html(made, scenario),
        "worksheets": worksheet_html(scenario),
        "teacher": teacher_html(scenario),
    }


@pytest.fixture(scope="module")
def phone(tmp_path_factory: pytest.TempPathFactory) -> Iterator["sync_api.Page"]:
    flags = ["--no-sandbox", "--disable-gpu", "--headless=new"]
    profile = tmp_path_factory.mktemp("profile")
    with sync_api.sync_playwright() as browsers:
        context = browsers.chromium.launch_persistent_context(
            profile, executable_path=CHROMIUM, args=flags, viewport=PHONE
        )
        yield context.pages[0]
        context.close()


@pytest.mark.parametrize("name", ["sheets", "fridge", "worksheets", "teacher"])
def test_nothing_is_cut_off(phone: "sync_api.Page", pages, name: str, tmp_path: Path) -> None:
    file = tmp_path / f"{name}.html"
    file.write_text(pages[name], encoding="utf-8")
    asked: list[str] = []
    phone.on("request", lambda request: asked.append(request.url))
    phone.goto(file.as_uri())
    wide = phone.evaluate(
        "[...document.body.querySelectorAll('h1,h2,p,td,th,li,div,span')]"
        ".map(e => e.getBoundingClientRect().right).reduce((a, b) => Math.max(a, b), 0)"
    )
    assert 0 < wide <= PHONE["width"]
    assert all(url.startswith("file:") for url in asked)
