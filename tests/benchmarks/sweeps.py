"""A thousand weekends on one core and on two: how much of twice the pace is reached.

::

    python tests/benchmarks/sweeps.py [--points 1000] [--slices 1] [--file FILE]

One core is this process, held to one core. Two are two workers, their start counted in. The same
points are worked out both ways, and the rows are held against each other. In slices both ways
take turns, so that what else runs on the machine weighs on both alike; workers start anew in each.
"""

import argparse
import os
import resource
import time
from dataclasses import dataclass
from pathlib import Path

from optimizer.scenario.reading import parse
from optimizer.studies.sweep.engines import cores, here
from optimizer.studies.sweep.grid import Effort, Grid, grid_of
from optimizer.studies.sweep.outcome import Row

FILE = Path(__file__).parents[2] / "data" / "scenarios" / "one_person_jar.yaml"
VARIED = ("ethanol=0.4..2.2:0.2 L", "kitchen=6..24:2 degC", "outdoors=-10..8:2 degC")
WANTED = 0.85


@dataclass(slots=True)
class Spent:
    """Time on the clock and on processors [s]."""

    clock_s: float = 0.0
    cpu_s: float = 0.0

    def add(self, work) -> list[Row]:
        """Do some work and count its time."""
        clock, cpu = time.perf_counter(), cpu_s()
        rows = [row for part in work() for row in part]
        self.clock_s += time.perf_counter() - clock
        self.cpu_s += cpu_s() - cpu
        return sorted(rows, key=lambda row: row["point"])


def cpu_s() -> float:
    """Return processor time of this process and of workers that have ended [s]."""
    spent = [resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]
    return sum(each.ru_utime + each.ru_stime for each in spent)


def on_one(grid: Grid, numbers: list[int], spent: Spent) -> list[Row]:
    """Work out points on one core."""
    every = os.sched_getaffinity(0)
    os.sched_setaffinity(0, {min(every)})
    try:
        return spent.add(lambda: here(grid, numbers))
    finally:
        os.sched_setaffinity(0, every)


def main() -> None:
    """Measure, and print."""
    asked = argparse.ArgumentParser()
    asked.add_argument("--points", type=int, default=1000)
    asked.add_argument("--slices", type=int, default=1)
    asked.add_argument("--file", type=Path, default=FILE)
    given = asked.parse_args()
    text = given.file.read_text(encoding="utf-8")
    grid = grid_of(str(given.file), text, VARIED, Effort())
    one, two, statuses = Spent(), Spent(), {}
    load = os.getloadavg()[0]
    list(here(grid, [1]))  # whatever is loaded once is loaded
    numbers = list(range(1, min(given.points, grid.count) + 1))
    size = -(-len(numbers) // given.slices)
    for start in range(0, len(numbers), size):
        part = numbers[start : start + size]
        first = on_one(grid, part, one)
        second = two.add(lambda part=part: cores(grid, part, 2))
        if first != second:
            raise SystemExit("the rows differ")
        for row in first:
            statuses[row["status"]] = statuses.get(row["status"], 0) + 1
    share = one.clock_s / two.clock_s / 2
    print(f"{len(numbers)} points of {parse(text).title}: {statuses}; rows the same both ways")
    print(f"load before {load:.1f}, after {os.getloadavg()[0]:.1f}, on {os.cpu_count()} cores")
    print(f"one core:  {one.clock_s:7.1f} s on the clock, {one.cpu_s:7.1f} s of processor")
    print(f"two cores: {two.clock_s:7.1f} s on the clock, {two.cpu_s:7.1f} s of processor")
    print(f"{share:.2f} of twice one core by the clock (wanted: {WANTED})")
    print(f"{one.cpu_s / two.cpu_s:.2f} of the processor time of two is that of one")


if __name__ == "__main__":
    main()
