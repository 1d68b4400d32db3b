"""How long a person waits at a page of the front end, beside a bare plan of the demonstration.

Run ``python tests/benchmarks/app_pages.py``. Every number is the median of five rounds in one
process, after one that is not counted. The targets: from an edit of the demonstration to its new
plan on the Plan page under 1 s, and a page whose plan is known under 0.3 s. A busy machine blurs
the times, less the process's own time on the machine ("cpu s") and its ratio to that of a bare
solve of the demonstration's program ("solves"); targets are held against the first. People and
dishes are others each round, so that nothing of them is known; a dish is timed from the change of
the file. Chances, what the plan is set beside on any stove, and what more is worth come later than
the new plan; the row "all of it" tells when. Exit code 1 if a target is missed.
"""

import gc
import logging
import os
import sys
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from typing import Any

from streamlit import config
from streamlit.testing.v1 import AppTest

from app import cached
from app.launch import SETTINGS
from optimizer.cli import GARBAGE_AT
from optimizer.cli.outlet import demo_file
from optimizer.planning.board import terms
from optimizer.planning.kitchen import choices, kitchen_of
from optimizer.planning.planner import plan
from optimizer.planning.rows import build
from optimizer.planning.solver import set_goal, solve
from optimizer.scenario.changes import with_field, with_value
from optimizer.scenario.reading import parse

ROUNDS = 5
MOST_EDIT_S = 1.0
MOST_PAGE_S = 0.3
MAIN = Path(__file__).parents[2] / "app" / "main.py"
PAGES = ("plan", "kitchen", "menu", "tradeoffs", "sheet")
STOCK = "field:fuels.sticks.stock"
# One number changed each round, and never the same household twice; all have a plan.
PEOPLE = (("children", 2), ("adults", 3), ("children", 1), ("adults", 1), ("children", 4),
          ("children", 2))  # fmt: skip
LUNCH = ("menu", 1, "dishes")
DISHES = ("lentil_soup", "barley_soup", "noodle_soup", "pumpkin_soup", "potatoes", "beetroot_soup")


@dataclass(frozen=True)
class Took:
    """How long something took, and how long this process was at work then."""

    wall_s: float
    cpu_s: float


def timed(doing: Callable[[], object]) -> Took:
    """Time something."""
    began, at_work = time.perf_counter(), time.process_time()
    doing()
    return Took(time.perf_counter() - began, time.process_time() - at_work)


def middle(rounds: Sequence[Took]) -> Took:
    """Give the medians, the first round left out."""
    counted = rounds[1:]
    return Took(median(each.wall_s for each in counted), median(each.cpu_s for each in counted))


def usual(doing: Callable[[int], object]) -> Took:
    """Give the medians over the rounds, the first of which is not counted."""
    return middle([timed(partial(doing, number)) for number in range(ROUNDS + 1)])


def bare(number: int) -> None:
    """Read and plan the demonstration with another stock, as an edit does."""
    text = demo_file().read_text(encoding="utf-8")
    plan(parse(with_field(text, "fuels", "sticks", "stock", f"{13 + number} kg")))


def solved(number: int) -> Took:
    """Time the integer program of the demonstration with another stock, as an edit solves it."""
    text = demo_file().read_text(encoding="utf-8")
    home = parse(with_field(text, "fuels", "sticks", "stock", f"{13 + number} kg"))
    board = build(choices(home).columns, kitchen_of(home), branch=False)
    set_goal(board.program, terms(board, home.goals[0]))
    return timed(partial(solve, board.program, gap=0.01))


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


def edited(*, whole: bool = False) -> Took:
    """Time from another stock on the Plan page to its new plan, or to all of it."""
    window = window_on("plan")

    def edit(number: int) -> None:
        window.text_input(STOCK).set_value(f"{13 + number}.{5 if whole else 7} kg").run()
        drawn(window, whole=whole)

    return usual(edit)


def more_eat() -> Took:
    """Time from another number of people on the Plan page to its new plan."""
    window, times = window_on("plan"), []
    for who, heads in PEOPLE:
        field = window.number_input(f"field:people.{who}")
        times.append(timed(lambda field=field, heads=heads: changed(window, field, heads)))
        whole(window)
    return middle(times)


def changed(window: AppTest, field: Any, value: object) -> None:
    """Put a value into a field, and look until the new plan is there."""
    field.set_value(value).run()
    drawn(window)


def other_lunch() -> Took:
    """Time from another dish in the file to the new plan on the Plan page."""
    window, times = window_on("plan"), []
    for dish in DISHES:
        desk = window.session_state["desk"]
        desk.replace(with_value(desk.text, LUNCH, [dish]), "another lunch")
        times.append(timed(lambda: (window.run(), drawn(window))))
        whole(window)
    return middle(times)


def whole(window: AppTest) -> None:
    """Wait until all of a plan is there, so that the next edit has the machine for itself."""
    found = cached.search(window.session_state["desk"].text).wait()
    if found is None or found.plan is None or not found.plan.steps:
        raise SystemExit("an edit of this benchmark has no plan")


def drawn(window: AppTest, *, whole: bool = False) -> None:
    """Look again until the new plan is there, or all of it."""
    settled(window)
    if whole:
        cached.search(window.session_state["desk"].text).wait()
        window.run()
    if window.exception or window.error:
        raise SystemExit(f"the edit failed: {window.exception or window.error}")


def looked_at(page: str) -> Took:
    """Time of a page on which all is known: no search goes on any more."""
    window = window_on(page)
    return usual(lambda _: window.run())


def main() -> int:
    """Tell the times as a table."""
    bare_solve = middle([solved(number) for number in range(ROUNDS + 1)])
    rows: list[tuple[str, Took, float | None]] = [
        ("a bare solve of the demonstration", bare_solve, None),
        ("a bare plan of it", usual(bare), None),
    ]
    rows.append(("another stock, to the new plan", edited(), MOST_EDIT_S))
    rows.append(("another stock, to all of it", edited(whole=True), None))
    rows.append(("others eat along, to the new plan", more_eat(), MOST_EDIT_S))
    rows.append(("another dish, to the new plan", other_lunch(), MOST_EDIT_S))
    rows += [(f"{page}, all of it known", looked_at(page), MOST_PAGE_S) for page in PAGES]
    print(f"{'':<38} {'s':>6} {'cpu s':>6} {'solves':>6} {'most s':>7}")
    late = False
    for what, took, most in rows:
        limit, missed = "" if most is None else f"{most:g}", most is not None and took.wall_s > most
        late = late or missed
        told = f"{took.wall_s:>6.2f} {took.cpu_s:>6.2f} {took.cpu_s / bare_solve.cpu_s:>6.2f}"
        print(f"{what:<38} {told} {limit:>7}{'  missed' if missed else ''}")
    return int(late)


def as_served() -> None:
    """Leave garbage to Python as the server does, which is started by the command line."""
    gc.set_threshold(GARBAGE_AT)
    config.set_option("runner.postScriptGC", SETTINGS["runner.postScriptGC"])


if __name__ == "__main__":
    logging.disable(logging.WARNING)
    as_served()
    with TemporaryDirectory() as folder:
        os.environ["XDG_STATE_HOME"] = folder
        sys.exit(main())
