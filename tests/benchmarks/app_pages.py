"""How long a person waits at a page of the front end, beside a bare plan of the demonstration.

Run ``python tests/benchmarks/app_pages.py``. Every number is the median of five rounds in one
process, after one that is not counted. The targets: from an edit of the demonstration to its new
plan on the Plan page under 1 s, and a page whose plan is known under 0.3 s. A busy machine blurs
the times, hardly the ratio to a bare plan ("plans"). What the plan is set beside and what more is
worth come later than the new plan; the row "all of it" tells when. Exit code 1 if a target is
missed.
"""

import logging
import os
import sys
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

from streamlit.testing.v1 import AppTest

from app import cached
from optimizer.cli.outlet import demo_file
from optimizer.planning.planner import plan
from optimizer.scenario.changes import with_field
from optimizer.scenario.reading import parse

ROUNDS = 5
MOST_EDIT_S = 1.0
MOST_PAGE_S = 0.3
MAIN = Path(__file__).parents[2] / "app" / "main.py"
PAGES = ("plan", "kitchen", "menu", "tradeoffs", "sheet")
STOCK = "field:fuels.sticks.stock"
ADULTS = "field:people.adults"


def timed(doing: Callable[[], object]) -> float:
    """Give the time that something takes [s]."""
    began = time.perf_counter()
    doing()
    return time.perf_counter() - began


def usual(doing: Callable[[int], object]) -> float:
    """Give the median over the rounds, the first of which is not counted [s]."""
    return median([timed(partial(doing, number)) for number in range(ROUNDS + 1)][1:])


def bare(number: int) -> None:
    """Read and plan the demonstration with another stock, as an edit does."""
    text = demo_file().read_text(encoding="utf-8")
    plan(parse(with_field(text, "fuels", "sticks", "stock", f"{13 + number} kg")))


def window_on(page: str) -> AppTest:
    """Open a window on a page."""
    window = AppTest.from_file(MAIN, default_timeout=120)
    window.switch_page(f"views/{page}.py")
    window.run()
    settled(window)
    return window


def settled(window: AppTest) -> None:
    """Look again until no search goes on any more."""
    while window.status:
        window.run()


def edited(*, whole: bool = False) -> float:
    """Time from another stock on the Plan page to its new plan, or to all of it [s]."""
    window = window_on("plan")

    def edit(number: int) -> None:
        window.text_input(STOCK).set_value(f"{13 + number}.{5 if whole else 7} kg").run()
        drawn(window, whole=whole)

    return usual(edit)


def more_eat() -> float:
    """Time from another number of people on the Plan page to its new plan [s]."""
    window = window_on("plan")

    def edit(number: int) -> None:
        window.number_input(ADULTS).set_value(2 + number % 2).run()
        drawn(window)
        cached.search(window.session_state["desk"].text).wait()
        cached.search.clear()

    return usual(edit)


def drawn(window: AppTest, *, whole: bool = False) -> None:
    """Look again until the new plan is there, or all of it."""
    settled(window)
    if whole:
        cached.search(window.session_state["desk"].text).wait()
        window.run()
    if window.exception or window.error:
        raise SystemExit(f"the edit failed: {window.exception or window.error}")


def looked_at(page: str) -> float:
    """Time of a page on which all is known: no search goes on any more [s]."""
    window = window_on(page)
    return usual(lambda _: window.run())


def main() -> int:
    """Tell the times as a table."""
    plan_s = usual(bare)
    rows = [("a bare plan of the demonstration", plan_s, None)]
    rows.append(("another stock, to the new plan", edited(), MOST_EDIT_S))
    rows.append(("another stock, to all of it", edited(whole=True), None))
    rows.append(("others eat along, to the new plan", more_eat(), MOST_EDIT_S))
    rows += [(f"{page}, all of it known", looked_at(page), MOST_PAGE_S) for page in PAGES]
    print(f"{'':<38} {'s':>6} {'plans':>6} {'most s':>7}")
    for what, seconds, most in rows:
        limit = "" if most is None else f"{most:g}"
        late = "  missed" if most is not None and seconds > most else ""
        print(f"{what:<38} {seconds:>6.2f} {seconds / plan_s:>6.2f} {limit:>7}{late}")
    return int(any(most is not None and seconds > most for _, seconds, most in rows))


if __name__ == "__main__":
    logging.disable(logging.WARNING)
    with TemporaryDirectory() as folder:
        os.environ["XDG_STATE_HOME"] = folder
        sys.exit(main())
