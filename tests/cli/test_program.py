"""The installed program: start, help, exit codes, a plain terminal."""

import os
import subprocess
import sys
from pathlib import Path

HEAVY = ("pandas", "pulp", "pint", "pydantic", "ruamel.yaml", "numpy")


def program(*words: str, **variables: str) -> subprocess.CompletedProcess[str]:
    code = "from optimizer.cli import main; main()"
    return subprocess.run(
        [sys.executable, "-c", code, *words],
        capture_output=True,
        encoding=variables.get("PYTHONIOENCODING", "utf-8"),
        check=False,
        env=os.environ | variables,
    )


def test_help_names_the_commands() -> None:
    told = program("--help")
    assert told.returncode == 0
    assert "plan" in told.stdout
    assert "check" in told.stdout


def test_no_word_at_all_is_a_usage_error() -> None:
    assert program().returncode == 2


def test_only_the_parser_is_loaded_at_the_start() -> None:
    code = f"import sys, optimizer.cli; print([m for m in {HEAVY!r} if m in sys.modules])"
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert told.stdout.strip() == "[]"


def test_a_terminal_that_cannot_show_a_letter(file: Path) -> None:
    text = file.read_text(encoding="utf-8").replace(
        "cold morning", "cold morning in Ji\u010d\u00edn"
    )
    file.write_text(text, encoding="utf-8")
    told = program("plan", str(file), PYTHONIOENCODING="latin-1", PYTHONUTF8="0")
    assert told.returncode == 0
    assert told.stdout.startswith("One cold morning in Ji?\u00edn\n")


def test_pandas_stays_away_from_the_plan_path(file: Path) -> None:
    code = (
        "import sys\n"
        "from optimizer.cli import app\n"
        f"app(['plan', {str(file)!r}], standalone_mode=False)\n"
        "print('pandas' in sys.modules)"
    )
    told = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert told.stdout.splitlines()[-1] == "False"


def test_bad_input_has_no_traceback(bad: Path) -> None:
    told = program("plan", str(bad))
    assert told.returncode == 2
    assert "Traceback" not in told.stderr
    assert told.stdout == ""
