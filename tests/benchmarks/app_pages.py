"""How long a person waits at a page of the front end, beside a bare plan of the demonstration.

Run ``python tests/benchmarks/app_pages.py``. Every number is the median of five rounds in one
process, after one that is not counted. The targets: from an edit of the demonstration to its new
plan on the Plan page under 1 s, and a page whose plan is known under 0.3 s. A busy machine blurs
the times, hardly the ratio to a bare plan. Exit code 1 if a target is missed.
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


def edited() -> float:
    """Time from an edit on the Plan page to its new plan [s]."""
    window = window_on("plan")

    def edit(number: int) -> None:
        window.text_input(STOCK).set_value(f"{13 + number}.5 kg").run()
        settled(window)
        if window.exception or window.error:
            raise SystemExit(f"the edit failed: {window.exception or window.error}")

    return usual(edit)


def looked_at(page: str) -> float:
    """Time of a page on which all is known: no search goes on any more [s]."""
    window = window_on(page)
    return usual(lambda _: window.run())


def main() -> int:
    """Tell the times as a table."""
    plan_s = usual(bare)
    rows = [("a bare plan of the demonstration", plan_s, None)]
    rows.append(("an edit, to the new plan on its page", edited(), MOST_EDIT_S))
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
