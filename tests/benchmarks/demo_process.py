"""How long the demonstration takes beside what it cannot do without: imports and the bare solve.

Run ``python tests/benchmarks/demo_process.py``: fresh processes, medians of one run. The target is
a ratio of at most 3 and a certified gap of at most 1 %.
"""

import json
import subprocess
import sys
from statistics import median

RUNS = 5
BARE = """
import time, sys
begin = time.perf_counter()
from optimizer.planning.planner import plan
from optimizer.report.text import plan_text
from optimizer.scenario.reading import read
from optimizer.shelf import data_folder
import typer, numpy, pulp, highspy, pint, pydantic, ruamel.yaml, fluids, ht
import chemicals.iapws
imports = time.perf_counter() - begin
from optimizer.planning.kitchen import choices, kitchen_of
from optimizer.planning import schedule as schedules
spent = []
solve = schedules.solve
def timed(*args, **options):
    outcome = solve(*args, **options)
    spent.append(outcome.seconds)
    return outcome
schedules.solve = timed
scenario = read(data_folder() / "scenarios" / "outage_weekend.yaml")
found = schedules.schedule(choices(scenario).columns, kitchen_of(scenario), goals=scenario.goals)
import json
print(json.dumps({"imports": imports, "solve": sum(spent), "gap": found.gap}))
"""
WHOLE = """
import time, subprocess, sys
begin = time.perf_counter()
subprocess.run([sys.executable, "-c", "from optimizer.cli import main; main()", "plan"],
               check=True, stdout=subprocess.DEVNULL)
print(time.perf_counter() - begin)
"""


def run(code: str) -> str:
    """Return what a fresh interpreter prints."""
    done = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    return done.stdout.splitlines()[-1]


def main() -> None:
    """Measure and print a table."""
    bare = [json.loads(run(BARE)) for _ in range(RUNS)]
    imports, solve = (median(b[key] for b in bare) for key in ("imports", "solve"))
    whole = median(float(run(WHOLE)) for _ in range(RUNS))
    print(f"{'imports':<22}{imports:6.2f} s")
    print(f"{'bare solve':<22}{solve:6.2f} s")
    print(f"{'whole process':<22}{whole:6.2f} s")
    print(f"{'ratio (target 3)':<22}{whole / (imports + solve):6.2f}")
    print(f"{'certified gap':<22}{bare[0]['gap']:6.2%}")


if __name__ == "__main__":
    main()
