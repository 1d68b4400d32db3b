"""A machine of 1 GB; one without Streamlit; and what planning does not need is not loaded."""

import os
import resource
import subprocess
import sys
from pathlib import Path

import pytest

GB = 1_000_000_000
REFUSES = """
import sys
class Refused:
    def find_spec(self, name, path=None, target=None):
        if name.partition(".")[0] in REFUSED:
            raise ImportError(f"{name} is not to be had here")
sys.meta_path.insert(0, Refused())
import optimizer.cli
optimizer.cli.main()
"""
MEASURED = """
import resource, sys
import optimizer.cli
try:
    optimizer.cli.main()
finally:
    print("peak", resource.getrusage(resource.RUSAGE_SELF).ru_maxrss * 1024, file=sys.stderr)
"""
WATER = "# water: 2.2 L\n# pot: pot_2_5l\n# room: 15 degC\ntime_min,temp_c\n" + "".join(
    f"{hour * 60},{94 - 4 * hour}\n" for hour in range(7)
)


def ran(code: str, *words: str, **more: object) -> "subprocess.CompletedProcess[str]":
    """Run the command line in a process of its own."""
    given = [sys.executable, "-c", code, *words]
    return subprocess.run(given, capture_output=True, text=True, check=False, **more)  # type: ignore[call-overload, no-any-return]  # whatever is handed on


@pytest.fixture
def commands(tmp_path: Path, small: str, boiling: str) -> dict[str, list[str]]:
    """Give every command but the front end, on a small household."""
    file, stove, box = (tmp_path / name for name in ("shed.yaml", "stove.yaml", "box.csv"))
    for path, text in ((file, small), (stove, boiling), (box, WATER)):
        path.write_text(text, encoding="utf-8")
    return {
        "plan": ["plan", str(file), "--sheet", str(tmp_path / "sheet.html"), "--json", "-"],
        "compare": ["compare", str(file), "--dish", "porridge"],
        "days": ["days", str(file)],
        "buy": ["buy", str(file), "--days", "1"],
        "box": ["box", str(file)],
        "test-box": ["test-box", str(box)],
        "test-stove": ["test-stove", str(stove)],
        "record": ["record", str(file), "--at", "day 1 06:00", "--left", "sticks=2.9 kg"],
        "check": ["check", str(file)],
    }


def test_every_command_is_here(commands):
    from optimizer.cli import app

    known = {each.name or each.callback.__name__ for each in app.registered_commands}
    assert known - {"app"} <= set(commands) | LATER


LATER = {"sweep", "rota"}  # commands of others that may come: give them a line above


def test_every_command_works_without_streamlit_or_pandas(commands):
    for name, words in commands.items():
        code = f"REFUSED = {{'streamlit', 'altair', 'pandas', 'pyarrow'}}\n{REFUSES}"
        done = ran(code, *words)
        assert done.returncode == (name == "buy"), (name, done.stderr[-600:])  # nothing to buy here
        assert done.stdout


def test_the_refusal_of_these_tests_refuses(commands):
    done = ran(f"REFUSED = {{'ruamel'}}\n{REFUSES}", *commands["check"])
    assert done.returncode != 0
    assert "not to be had here" in done.stderr


@pytest.mark.skipif(sys.platform != "linux", reason="memory is limited in another way there")
def test_the_demonstration_is_planned_in_1_gb(tmp_path):
    """Address space is always more than memory in use: 1 GB of it is the harder limit."""

    def small_machine() -> None:
        resource.setrlimit(resource.RLIMIT_AS, (GB, GB))

    one = {**os.environ, "OPENBLAS_NUM_THREADS": "1"}
    done = ran(MEASURED, "plan", preexec_fn=small_machine, env=one, cwd=tmp_path)
    assert done.returncode == 0, done.stderr[-600:]
    assert "instead of" in done.stdout
