"""How long a certified schedule takes beside the same program given whole to a solver.

Run ``python tests/benchmarks/schedules.py [ROW ...]`` with ``--rounds 5 --limit 40 --peers
--seed 1``, or ``--warm`` for a week planned again after a small edit. Each row is an invented
household (see `instances`), from the scenario to the checked plan, the median of the rounds. With
``--peers`` the same integer program is given whole to HiGHS, CBC and CP-SAT, and to the one-level
form of this package, once each and in the same run, with the time limit: how many times longer they
take to the same gap, or the gap they are left with. Compare ratios, not seconds.
"""

import argparse
import gc
import json
import math
import resource
import subprocess
import sys
import time
from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

from instances import ROWS, Instance, instance, text_of

from optimizer.cli import GARBAGE_AT
from optimizer.model.household import Scenario
from optimizer.planning import schedule as scheduling
from optimizer.planning.board import terms
from optimizer.planning.kitchen import choices, household_of, kitchen_of
from optimizer.planning.memory import Memory
from optimizer.planning.planner import as_plan
from optimizer.planning.result import Result
from optimizer.planning.rows import build
from optimizer.planning.schedule import schedule
from optimizer.planning.solver import set_goal
from optimizer.planning.verify import verify
from optimizer.scenario.reading import parse

TARGETS_S = {
    "one day, 7 dishes, all stoves": 1,
    "week, 7 dishes a day": 4,
    "week, 12 dishes a day": 4,
    "week, 25 dishes a day": 4,
    "equal days, one fuel tight": 8,
    "equal days, two fuels tight": 8,
    "two households on one stove": 10,
    "month, repeating": 6,
    "month, never repeating": 15,
    "90 days, repeating": 20,
    "90 days, never repeating": 30,
    "60 people, two days": 5,
    "200 people, a week": 15,
}
WAYS_TARGET_S = 0.2
PEERS = ("HiGHS", "CBC", "CP-SAT")
FINE, USUAL = 0.001, 0.01
NEVER = 10**9


def gap_of(row: str) -> float:
    """Return the gap a row is to be certified to."""
    return FINE if row.startswith("one day") else USUAL


def ours(scenario: Scenario, gap: float, limit_s: float) -> tuple[float, float, Result]:
    """Plan once: seconds from the scenario to the checked plan, those for the ways, the result."""
    begin = time.perf_counter()
    options, kitchen = choices(scenario), kitchen_of(scenario)
    ways_s = time.perf_counter() - begin
    found = schedule(
        options.columns, kitchen, goals=scenario.goals[:1], gap=gap, time_limit_s=limit_s
    )
    if found.chosen:
        verify(as_plan(scenario, options, kitchen, found), scenario)
    return time.perf_counter() - begin, ways_s, found


def one_level(scenario: Scenario, gap: float, limit_s: float) -> tuple[float, float | None]:
    """Return the seconds and the gap of the form that takes all columns at once."""
    few, scheduling.FEW = scheduling.FEW, NEVER
    try:
        seconds, _, found = ours(scenario, gap, limit_s)
    finally:
        scheduling.FEW = few
    return seconds, found.gap


def write_whole(scenario: Scenario, path: Path) -> None:
    """Write the program over all columns as MPS."""
    board = build(choices(scenario).columns, kitchen_of(scenario), branch=False)
    set_goal(board.program, terms(board, scenario.goals[0]))
    board.program.problem.writeMPS(str(path))


def peer(name: str, model: Path, gap: float, limit_s: float) -> tuple[float, float | None]:
    """Return the seconds and the gap of a solver given the whole program."""
    words = [sys.executable, str(Path(__file__).with_name("peers.py"))]
    words += [name, str(model), str(limit_s), str(gap)]
    done = subprocess.run(
        words, check=False, capture_output=True, text=True, timeout=4 * limit_s + 60
    )
    if done.returncode:
        return limit_s, None
    told = json.loads(done.stdout.splitlines()[-1])
    best, bound = told["best"], told["bound"]
    left = None if best is None or bound is None else (best - bound) / abs(best)
    return told["seconds"], left


def beside(scenario: Scenario, gap: float, limit_s: float, mine_s: float) -> Iterator[str]:
    """Yield how each peer does: a ratio of seconds, and the gap left if it does not get there."""
    with TemporaryDirectory() as folder:
        model = Path(folder) / "whole.mps"
        write_whole(scenario, model)
        told = [(name, peer(name, model, gap, limit_s)) for name in PEERS]
    told.append(("one level", one_level(scenario, gap, limit_s)))
    for name, (seconds, left) in told:
        if left is not None and left <= gap * (1 + 1e-6):
            yield f"{name} {seconds / mine_s:.1f}x"
        else:
            told_left = "no plan" if left is None else f"{left:.1%}"
            yield f"{name} >{seconds / mine_s:.1f}x ({told_left})"


def measure(row: str, seed: int, rounds: int, limit_s: float, *, peers: bool) -> str:
    """Return the line of a row."""
    scenario, gap = parse(text_of(instance(row, seed))), gap_of(row)
    times, ways, found = [], [], None
    for _ in range(rounds):
        seconds, ways_s, found = ours(scenario, gap, limit_s)
        times.append(seconds)
        ways.append(ways_s)
    mine, left = median(times), found.gap if found else None
    reached = "no plan" if left is None else f"{left:.2%}"
    met = "met" if left is not None and left <= gap and mine <= TARGETS_S[row] else "missed"
    line = (
        f"{row:<30} {len(scenario.items):>4} dishes  gap {reached:>7} ({gap:.1%})  "
        f"{mine:6.1f} s ({TARGETS_S[row]:>2} s) {met:<6}  ways {median(ways):4.2f} s"
    )
    extra = "; ".join(beside(scenario, gap, limit_s, mine)) if peers else ""
    return f"{line}  {extra}".rstrip()


def growth(seed: int, limit_s: float) -> str:
    """Return how the time grows from a month to three, as a power of the days."""
    times = []
    for row in ("month, never repeating", "90 days, never repeating"):
        seconds, _, _ = ours(parse(text_of(instance(row, seed))), USUAL, limit_s)
        times.append(seconds)
    return f"from 30 to 90 days the time grows as days^{math.log(times[1] / times[0], 3):.2f}"


def edits(week: Instance) -> Iterator[tuple[str, Instance]]:
    """Yield small edits of a week: another supper on one day, a little more of a fuel."""
    third = [
        ("supper", "bulgur") if n == len(week.menu[2]) - 1 else each
        for n, each in enumerate(week.menu[2])
    ]
    yield "another dish", replace(week, menu=(*week.menu[:2], third, *week.menu[3:]))
    yield "more sticks", replace(week, sticks_kg=week.sticks_kg * 1.01)


def warm(seed: int, rounds: int, limit_s: float) -> Iterator[str]:
    """Yield how many times faster an edited week is planned with what was known before."""
    week = instance("week, 7 dishes a day", seed)
    for name, edited in edits(week):
        cold_s, warm_s = [], []
        for _ in range(rounds):
            memory = Memory()
            _remembering(week, memory, limit_s)
            warm_s.append(_remembering(edited, memory, limit_s))
            cold_s.append(_remembering(edited, Memory(), limit_s))
        ratio = median(cold_s) / median(warm_s)
        yield f"week again with {name}: {ratio:.1f} times faster than cold"


def _remembering(made: Instance, memory: Memory, limit_s: float) -> float:
    scenario = parse(text_of(made))
    begin = time.perf_counter()
    options = choices(scenario, known=memory.ways(household_of(scenario)))
    schedule(
        options.columns,
        kitchen_of(scenario),
        goals=scenario.goals[:1],
        gap=USUAL,
        time_limit_s=limit_s,
        memory=memory,
    )
    return time.perf_counter() - begin


def main(words: Sequence[str] | None = None) -> int:
    """Print the table."""
    reader = argparse.ArgumentParser(description=__doc__)
    reader.add_argument("rows", nargs="*", metavar="ROW", help="names of rows, or parts of them")
    reader.add_argument("--rounds", type=int, default=5)
    reader.add_argument("--limit", type=float, default=40.0, help="seconds for each search")
    reader.add_argument("--seed", type=int, default=0, help="another draw of the menus")
    reader.add_argument("--peers", action="store_true", help="also give the whole to the solvers")
    reader.add_argument("--warm", action="store_true", help="only a week planned again")
    given = reader.parse_args(words)
    gc.set_threshold(GARBAGE_AT)  # as on the command line
    if given.warm:
        for line in warm(given.seed, given.rounds, given.limit):
            print(line, flush=True)
        print(growth(given.seed, given.limit))
        return 0
    for row in ROWS:
        if not given.rows or any(part in row for part in given.rows):
            print(
                measure(row, given.seed, given.rounds, given.limit, peers=given.peers), flush=True
            )
    most_mb = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1000
    print(f"most memory {most_mb:.0f} MB; ways of a week are to take {WAYS_TARGET_S} s")
    return 0


if __name__ == "__main__":
    sys.exit(main())
