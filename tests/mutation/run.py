"""Mutation testing by ``mutmut``, a part at a time; stopped and started again, it goes on.

``python -m tests.mutation.run physics`` or ``planning``, or only some modules of it:
``python -m tests.mutation.run planning contents boiling``. Verdicts are kept in
``.mutation-PART/mutants``; ``--tell`` only counts what there is. ``--sample=400`` tries so many of
all, drawn by chance, the same ones every time: what it tells of them holds for the whole within a
few points, which are told too. Each has only the quickest tests that come to it, ``TRIED_S``
seconds of them, so more may be killed than is told, never fewer. Fails below 85 % killed.
"""

import json
import random
import shutil
import subprocess
import sys
from collections import Counter
from collections.abc import Mapping, Sequence
from itertools import accumulate
from pathlib import Path

from scipy.stats import binomtest

LEAST_KILLED = 0.85
TESTS = {
    "physics": ("tests/physics", "tests/published"),
    "planning": (
        "tests/planning",
        "tests/advice",
        "tests/published",
        "tests/scenario/test_diets.py",
        "tests/studies/chances/test_trying.py",
        "tests/studies/endurance/test_left.py",
        "tests/studies/endurance/test_pool_of_days.py",
        "tests/studies/test_comparison.py",
        "tests/trials/test_record.py",
    ),
}
LEFT_OUT = (  # most read the source itself, and a mutant has no docstring of its own
    "tests/physics/test_docstrings.py",
    "tests/advice/test_promises.py",
    "tests/planning/test_schedule.py::TestMoreIsNeverWorse",  # not twice in one process
    "tests/studies/test_comparison.py::test_every_code_of_a_refusal_has_the_things_it_is_about",
)
TRIED_S = 20.0
SEED = 8
CERTAIN = 0.95
COPIED = ("app", "data", "optimizer", "tests", "README.md", "DEVELOPERS.md", "pyproject.toml")
VERDICTS = {0: "survived", 5: "no tests", 33: "no tests", None: "not yet", 2: "not yet"}
VERDICTS |= dict.fromkeys((24, -24, 36, 152), "timeout")  # counted as killed; any other is killed


def config(part: str) -> str:
    """Give mutmut's settings for one part."""
    options = ["-p", "no:cacheprovider", "-p", "tests.mutation.fresh"]
    options += [f"--deselect={path}" for path in LEFT_OUT]
    lists = {
        "source_paths": ["optimizer"],
        "only_mutate": [f"optimizer/{part}/*"],
        "also_copy": ["app", "data", "README.md", "DEVELOPERS.md"],
        "pytest_add_cli_args": options,
        "pytest_add_cli_args_test_selection": TESTS[part],
    }
    told = [f"{key} =\n    " + "\n    ".join(values) for key, values in lists.items()]
    return "\n".join(["[mutmut]", *told, "timeout_multiplier = 5.0", "timeout_constant = 2.0", ""])


def folder_of(part: str) -> Path:
    """Make the folder of a part, with the project as it is now; verdicts there are kept."""
    folder = Path(f".mutation-{part}")
    folder.mkdir(exist_ok=True)
    for name in COPIED:
        source = Path(name)
        if source.is_dir():
            shutil.copytree(source, folder / name, dirs_exist_ok=True)
        else:
            shutil.copy2(source, folder / name)
    (folder / "setup.cfg").write_text(config(part), encoding="utf-8")
    return folder


def verdicts(folder: Path) -> dict[str, str]:
    """Give what became of every mutant."""
    found: dict[str, str] = {}
    for path in sorted((folder / "mutants").rglob("*.meta")):
        codes = json.loads(path.read_text(encoding="utf-8"))["exit_code_by_key"]
        found |= {mutant: VERDICTS.get(code, "killed") for mutant, code in codes.items()}
    return found


def tell(found: dict[str, str]) -> bool:
    """Print the count of each module and all survivors; say whether enough were killed."""
    modules = sorted({mutant.rsplit(".", 1)[0] for mutant in found})
    for module in modules:
        count = Counter(v for mutant, v in found.items() if mutant.rsplit(".", 1)[0] == module)
        print(f"{module:45}", "  ".join(f"{count[v]:5} {v}" for v in sorted(count)))
    for mutant, verdict in found.items():
        if verdict in {"survived", "no tests"}:
            print(f"{verdict}: {mutant}")
    count = Counter(found.values())
    tried = count.total() - count["not yet"]
    killed = count["killed"] + count["timeout"]
    print(f"{killed} killed of {tried} tried, {count.total()} there are")
    if tried:
        sure = binomtest(killed, tried).proportion_ci(CERTAIN)
        print(f"{killed / tried:.1%} killed; of all that a draw by chance stands for")
        print(f"{sure.low:.1%} to {sure.high:.1%}, at {CERTAIN:.0%}")
    return tried > 0 and killed >= LEAST_KILLED * tried


def quickest(tests: Sequence[str], lasts: Mapping[str, float]) -> list[str]:
    """Give the quickest of some tests, as many as the time is enough for, and one at least."""
    ordered = sorted(tests, key=lambda test: (lasts[test], test))
    ends = accumulate(lasts[test] for test in ordered)
    return [t for t, end in zip(ordered, ends, strict=True) if end <= TRIED_S] or ordered[:1]


def keep_quickest(folder: Path) -> None:
    """Leave each function only its quickest tests in what mutmut found to come to it."""
    path = folder / "mutants" / "mutmut-stats.json"
    found = json.loads(path.read_text(encoding="utf-8"))
    tests = found["tests_by_mangled_function_name"]
    for function, its in tests.items():
        tests[function] = quickest(its, found["duration_by_test"])
    path.write_text(json.dumps(found), encoding="utf-8")


def mutmut(folder: Path, names: list[str]) -> None:
    """Try the mutants that match, or all."""
    command = [str(Path(sys.executable).with_name("mutmut")), "run", "--max-children", "1"]
    subprocess.run([*command, *names], cwd=folder, check=False)


def chosen(found: dict[str, str], part: str, words: Sequence[str]) -> list[str]:
    """Give the mutants that are asked for: of some modules, a draw of all, or all."""
    counts = [int(word.removeprefix("--sample=")) for word in words if "=" in word]
    modules = tuple(f"optimizer.{part}.{word}." for word in words if not word.startswith("--"))
    names = [name for name in sorted(found) if not modules or name.startswith(modules)]
    return random.Random(SEED).sample(names, min(counts[0], len(names))) if counts else names


def main(part: str, *words: str) -> int:
    """Run what has no verdict yet, and tell; 1 where too many survive."""
    folder = Path(f".mutation-{part}")
    if "--tell" not in words:
        folder = folder_of(part)
        mutmut(folder, ["made.but.not.tried"])
        keep_quickest(folder)
        found = verdicts(folder)
        left = [name for name in chosen(found, part, words) if found[name] == "not yet"]
        if left:
            mutmut(folder, left if words else [])  # by name it would be too long a command
    found = verdicts(folder)
    return 0 if tell({name: found[name] for name in chosen(found, part, words)}) else 1


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
