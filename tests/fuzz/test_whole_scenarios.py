"""Whole scenarios from file to plan: never a traceback, a hang, or a plan the checker rejects.

Here some hundreds; ``.ci/nightly`` sets FUELTHRIFT_NIGHTLY and tries thousands of each.
"""

import os
import signal
from collections.abc import Iterator
from contextlib import contextmanager

from hypothesis import HealthCheck, event, given, settings

from optimizer.errors import InputError, LimitError
from optimizer.planning.planner import plan
from optimizer.planning.verify import verify
from optimizer.report.result import to_json
from optimizer.report.text import plan_text
from optimizer.scenario.reading import parse
from tests.fuzz.whole_scenarios import mangled, trees, written

NIGHTLY = bool(os.environ.get("FUELTHRIFT_NIGHTLY"))
TIME_LIMIT_S = 1.0  # of the search; the comparisons may take as much again
CPU_S = 30  # of this process: ways, both searches, the check and the words; a watchdog
MANY = settings(
    derandomize=not NIGHTLY,  # in CI the same scenarios each time, at night others each time
    max_examples=250 if NIGHTLY else 200,  # the night has 20 rounds of it
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
VALID = settings(MANY, max_examples=100 if NIGHTLY else 25)


class TooLongError(Exception):
    """The processor worked beyond the watchdog's limit."""


@contextmanager
def watched(seconds: float) -> Iterator[None]:
    """Stop what works on beyond so many seconds of the processor's time, whoever else is at it."""

    def stop(*_: object) -> None:
        raise TooLongError(f"at work for {seconds} s")

    before = signal.signal(signal.SIGPROF, stop)
    signal.setitimer(signal.ITIMER_PROF, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)


def said(error: InputError | LimitError) -> str:
    """Name how a scenario ended without a plan; it must say why."""
    if isinstance(error, LimitError):
        assert "allow more time" in str(error)
        return "no plan in time"
    assert error.problems
    assert all(problem.message for problem in error.problems)
    return "told what is wrong with it"


def tried(text: str) -> str:
    """Read, plan, check and tell one scenario; any error that is not for a cook fails the test."""
    try:
        scenario = parse(text, "f.yaml")
        made = plan(scenario, gap=0.1, time_limit_s=TIME_LIMIT_S)
    except (InputError, LimitError) as error:
        return said(error)
    verify(made, scenario)
    assert made.steps if made.status != "infeasible" else made.changes
    assert plan_text(made, scenario)
    assert to_json(made)["status"] == made.status
    return made.status


@MANY
@given(mangled())
def test_a_mangled_scenario_is_told_or_planned(text):
    with watched(CPU_S):
        event(tried(text))


@VALID
@given(trees())
def test_a_valid_scenario_is_read_and_planned(tree):
    with watched(CPU_S):
        outcome = tried(written(tree))
    event(outcome)
    assert outcome != "told what is wrong with it"
