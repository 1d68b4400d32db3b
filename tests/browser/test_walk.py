"""A walk through the front end in a real browser, on a laptop and on a phone.

The demo is looked at, a stock is changed, the new saving is read and held against the planner, the
sheet is taken along and printed. Nothing is asked of any other machine on the way, and every page
passes the rules of WCAG 2.1 A and AA that a program can check.
"""

import os
import re
import shutil
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import BrowserContext, Page, expect, sync_playwright
from pypdf import PdfReader

from optimizer.planning.planner import plan
from optimizer.report.balance import headline
from optimizer.report.measures import measures
from optimizer.scenario.reading import read

CHROMIUM = os.environ.get("CHROMIUM") or shutil.which("chromium") or shutil.which("google-chrome")
FLAGS = ["--no-sandbox", "--disable-gpu", "--headless=new"]
PAGES = {"Plan": "", "Kitchen": "kitchen", "Menu": "menu", "How long": "how_long",
         "Trade-offs": "tradeoffs", "Box": "box", "Log": "log", "Sheet": "sheet"}  # fmt: skip
RULES = {"runOnly": {"type": "tag", "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa"]}}
HERE = {"127.0.0.1", "localhost"}
OWN = {"data", "blob", "file", "about"}  # schemes that ask nobody
LAPTOP, PHONE = 1280, 390
PATIENCE_MS = 90_000
SAVING = re.compile(r"\d+ MJ of fuel instead of \d+ MJ")
# Everything that is still being drawn is marked as such by the server's own page.
DRAWN = "() => !document.querySelector('[data-testid=stStatusWidget], [data-stale=true]')"
TOO_WIDE = """() => [...document.querySelectorAll('[data-testid=stMain]')]
    .some(part => part.scrollWidth > part.clientWidth)"""

pytestmark = [
    pytest.mark.browser,
    pytest.mark.slow,
    pytest.mark.skipif(CHROMIUM is None, reason="no Chromium on this machine to walk with"),
]


@dataclass
class Server:
    """The front end, running; and where its working copy is."""

    address: str
    copy: Path


@dataclass
class Walk:
    """One browser, and everything it asked for."""

    context: BrowserContext
    page: Page
    asked: list[str] = field(default_factory=list)

    def outside(self) -> list[str]:
        """Give what was asked of other machines."""
        parts = [(url, urlsplit(url)) for url in self.asked]
        return [url for url, p in parts if p.scheme not in OWN and p.hostname not in HERE]

    def drawn(self) -> None:
        """Wait until the page is drawn."""
        self.page.wait_for_load_state()
        self.page.locator("h1, h2, h3").first.wait_for(timeout=PATIENCE_MS)
        self.page.wait_for_timeout(500)
        self.page.wait_for_function(DRAWN, timeout=PATIENCE_MS)

    def go(self, title: str) -> None:
        """Go to a page by its door, which stands in words on every width."""
        self.page.get_by_role("link", name=title, exact=True).first.click()
        path = PAGES[title]
        self.page.wait_for_url(re.compile(rf"/{path}$"), timeout=PATIENCE_MS)
        self.drawn()


@pytest.fixture
def server(tmp_path: Path) -> Iterator[Server]:
    with socket.socket() as any_port:
        any_port.bind(("127.0.0.1", 0))
        port = any_port.getsockname()[1]
    words = [sys.executable, "-m", "optimizer.cli", "app", "--no-browser", "--port", str(port)]
    kept = {**os.environ, "XDG_STATE_HOME": str(tmp_path)}
    with (tmp_path / "server.txt").open("w") as told:
        started = subprocess.Popen(words, env=kept, cwd=tmp_path, stdout=told, stderr=told)
        try:
            address = f"http://127.0.0.1:{port}"
            _wait_for(address)
            yield Server(address, tmp_path / "fuelthrift" / "demo.yaml")
        finally:
            started.terminate()
            started.wait(30)


def _wait_for(address: str) -> None:
    for _ in range(300):
        try:
            with urllib.request.urlopen(address, timeout=2):
                return
        except OSError:
            time.sleep(0.2)
    pytest.fail("the front end did not start")


@pytest.fixture
def walk(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Walk]:
    width, scheme = getattr(request, "param", (LAPTOP, "light"))
    with sync_playwright() as playwright:
        context = playwright.chromium.launch_persistent_context(
            tmp_path / "profile",
            executable_path=CHROMIUM,
            args=FLAGS,
            viewport={"width": width, "height": 900},
            color_scheme=scheme,
            accept_downloads=True,
        )
        walked = Walk(context, context.pages[0] if context.pages else context.new_page())
        context.on("request", lambda asked: walked.asked.append(asked.url))
        walked.page.on("websocket", lambda asked: walked.asked.append(asked.url))
        yield walked
        context.close()


def violations(page: Page) -> list[str]:
    """Give what breaks the rules of WCAG 2.1 A and AA."""
    found = Axe().run(page, options=RULES).response["violations"]
    return [f"{each['id']}: {node['html'][:200]}" for each in found for node in each["nodes"]]


def pages_printed(walk: Walk, html: Path, folder: Path) -> int:
    """Print a page as a household would, and count the sheets."""
    paper = walk.context.new_page()
    paper.goto(html.as_uri())
    pdf = folder / "sheet.pdf"
    paper.pdf(path=pdf, format="A4", prefer_css_page_size=True)
    paper.close()
    return len(PdfReader(pdf).pages)


@pytest.mark.parametrize("walk", [(LAPTOP, "light"), (PHONE, "light")], indirect=True,
                         ids=["laptop", "phone"])  # fmt: skip
def test_demo_stock_plan_sheet_paper(server: Server, walk: Walk, tmp_path: Path):
    walk.page.goto(server.address)
    first = walk.page.get_by_text(SAVING).first
    expect(first).to_be_visible(timeout=PATIENCE_MS)
    before = first.inner_text()
    expect(walk.page.get_by_text("Three dark days at Fennel House").first).to_be_visible()
    walk.go("Kitchen")
    change_stock(walk.page, server.copy)
    walk.go("Plan")
    scenario = read(server.copy)
    wanted = headline(plan(scenario), scenario.currency, measures("metric"))[0]
    assert wanted != before
    expect(walk.page.get_by_text(SAVING).first).to_have_text(wanted, timeout=PATIENCE_MS)
    walk.go("Sheet")
    html = taken_along(walk.page, tmp_path)
    assert pages_printed(walk, html, tmp_path) == 2 + scenario.days  # about, fridge, a page a day
    walk.page.goto(f"{server.address}/kitchen")  # a new session: nothing is lost
    stock = walk.page.get_by_label("How much there is").first
    expect(stock).to_have_value("5 kg", timeout=PATIENCE_MS)
    assert len(walk.asked) > len(walk.outside()) == 0


def change_stock(page: Page, copy: Path) -> None:
    """Type a stock without its unit, be told so, and mend it."""
    stock = page.get_by_label("How much there is").first
    expect(stock).to_have_value("12 kg")
    stock.fill("5")
    stock.press("Enter")
    expect(page.get_by_text("has no unit").first).to_be_visible(timeout=PATIENCE_MS)
    assert not copy.exists()
    stock.fill("5 kg")
    stock.press("Enter")
    expect(page.get_by_text("Your copy of the demo, saved")).to_be_visible(timeout=PATIENCE_MS)
    assert "stock: 5 kg # split and under a roof" in copy.read_text(encoding="utf-8")


def taken_along(page: Page, folder: Path) -> Path:
    """Download the sheets."""
    with page.expect_download() as taken:
        page.get_by_role("button", name=re.compile("Download the sheets")).click()
    html = folder / "sheets.html"
    taken.value.save_as(html)
    return html


@pytest.mark.parametrize(
    "walk",
    [(LAPTOP, "light"), (LAPTOP, "dark"), (PHONE, "light"), (PHONE, "dark")],
    indirect=True,
    ids=["laptop light", "laptop dark", "phone light", "phone dark"],
)
def test_every_page_can_be_read_by_all_and_asks_nobody(server: Server, walk: Walk):
    found: dict[str, list[str]] = {}
    for title, path in PAGES.items():
        walk.page.goto(f"{server.address}/{path}")
        walk.drawn()
        found[title] = violations(walk.page)
        assert not walk.page.evaluate(TOO_WIDE), f"{title} is wider than the window"
    walk.page.goto(f"{server.address}/kitchen")
    walk.drawn()
    stock = walk.page.get_by_label("How much there is").first
    stock.fill("5")
    stock.press("Enter")
    expect(walk.page.get_by_text("has no unit").first).to_be_visible(timeout=PATIENCE_MS)
    walk.page.get_by_role("button", name="File").first.click()
    walk.page.get_by_text("Save as a file on this machine").wait_for(timeout=PATIENCE_MS)
    walk.page.wait_for_timeout(500)
    found["a fault, and the file opened"] = violations(walk.page)
    assert {title: told for title, told in found.items() if told} == {}
    assert len(walk.asked) > len(walk.outside()) == 0


def test_by_keyboard_alone(server: Server, walk: Walk):
    page = walk.page
    page.goto(f"{server.address}/kitchen")
    expect(page.get_by_label("How much there is").first).to_be_visible(timeout=PATIENCE_MS)
    walk.drawn()
    page.bring_to_front()
    reached = []
    for _ in range(150):
        page.keyboard.press("Tab")
        name = page.evaluate("() => document.activeElement.getAttribute('aria-label') || ''")
        reached.append(name)
        if name == "How much there is":
            break
    assert reached[-1] == "How much there is", reached
    page.keyboard.press("Control+A")
    page.keyboard.type("6 kg", delay=20)
    page.keyboard.press("Enter")
    expect(page.get_by_text("Your copy of the demo, saved")).to_be_visible(timeout=PATIENCE_MS)
    assert "stock: 6 kg" in server.copy.read_text(encoding="utf-8")


@pytest.mark.parametrize("walk", [(LAPTOP, "light"), (PHONE, "dark")], indirect=True,
                         ids=["laptop", "phone"])  # fmt: skip
def test_a_cooker_is_sized_and_tested_with_water(server: Server, walk: Walk):
    page = walk.page
    page.goto(f"{server.address}/box")
    walk.drawn()
    type_in(page, "Packing there is", "60")
    expect(page.get_by_text("has no unit").first).to_be_visible(timeout=PATIENCE_MS)
    type_in(page, "Packing there is", "60 L")
    expect(page.get_by_text("60 L of packing goes").first).to_be_visible(timeout=PATIENCE_MS)
    type_in(page, "Water in it", "4.8 L")
    type_in(page, "Room (if not read each time)", "12 degC")
    for row, (time_min, level) in enumerate([("0", "97"), ("30", "92"), ("60", "88")], start=1):
        type_in(page, f"Time {row}", time_min)
        type_in(page, f"Water {row}", level)
    expect(page.get_by_text("3 readings over 1 h").first).to_be_visible(timeout=PATIENCE_MS)
    walk.drawn()
    assert violations(page) == []
    assert not page.evaluate(TOO_WIDE)
    page.get_by_role("button", name="Write down for packed box").click()
    expect(page.get_by_text("Your copy of the demo, saved")).to_be_visible(timeout=PATIENCE_MS)
    assert "water test, 3 readings over 1.0 h" in server.copy.read_text(encoding="utf-8")
    assert len(walk.asked) > len(walk.outside()) == 0


def type_in(page: Page, label: str, text: str) -> None:
    """Type into a field and leave it."""
    field = page.get_by_label(label, exact=True).first
    field.fill(text)
    field.press("Enter")
    page.wait_for_function(DRAWN, timeout=PATIENCE_MS)
    page.wait_for_timeout(300)


@pytest.mark.parametrize("walk", [(LAPTOP, "light"), (PHONE, "dark")], indirect=True,
                         ids=["laptop", "phone"])  # fmt: skip
def test_what_is_folded_away_can_be_read_by_all(server: Server, walk: Walk):
    page = walk.page
    for path, parts in (("kitchen", ["diets"]), ("menu", ["breakfast", "More about tea"])):
        page.goto(f"{server.address}/{path}")
        walk.drawn()
        for part in parts:
            page.locator("summary", has_text=part).first.click()
            walk.drawn()
        assert violations(page) == []
        assert not page.evaluate(TOO_WIDE)
    type_in(page, "Kept hot and drawn on: times and amounts", "07:30 0.3 L")
    expect(page.get_by_text("drawn 07:30 0.3 L").first).to_be_visible(timeout=PATIENCE_MS)
