"""The search for a plan: it goes on beside the page and can be watched and stopped."""

import atexit
import threading
import time
import weakref
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from typing import Literal, Protocol

from app.reading import reading
from app.turns import Turns
from optimizer.errors import CheckError, InputError, LimitError, PhysicsError, Problem
from optimizer.model.household import Scenario
from optimizer.model.plan import Plan
from optimizer.planning.kitchen import household_of
from optimizer.planning.memory import Memory
from optimizer.planning.planner import plans as make_plans
from optimizer.studies.chances.study import with_chances
from optimizer.studies.households import with_households

DRAWING_S = 0.3  # the rest of a plan waits so long, so that the page is drawn without haste
END_S = 5.0  # searches that are asked to end with the program are given so long, all together

Why = Literal["", "input", "limit", "stopped", "defect"]


class Stoppable(Protocol):
    """A search that goes on beside the page."""

    whole: threading.Event

    def drop(self) -> None:
        """Ask it to end, since nobody waits for it any more."""
        ...


_GOING: "weakref.WeakSet[Stoppable]" = weakref.WeakSet()


def ended_with_the_program(search: Stoppable) -> None:
    """Let a search not go on in the solver while the program is taken down around it.

    Parameters
    ----------
    search
        A search that begins.
    """
    _GOING.add(search)


@atexit.register
def _end() -> None:
    """Stop what still goes on, and wait for it a little."""
    going = [search for search in _GOING if not search.whole.is_set()]
    for search in going:
        search.drop()
    last = time.monotonic() + END_S
    for search in going:
        search.whole.wait(max(0.0, last - time.monotonic()))


@dataclass(frozen=True, slots=True)
class Planned:
    """A plan, or why there is none; ``plan.status`` may still be "infeasible"."""

    plan: Plan | None
    why: Why = ""
    told: str = ""
    problems: tuple[Problem, ...] = ()


_MEMORIES: list[Memory] = []  # of searches that have ended; the one used last is last
_MOST_MEMORIES = 4


_LENDING = threading.Lock()


@contextmanager
def _remembered(household: object) -> Iterator[Memory]:
    """Lend what was worked out before for this household, to one search at a time."""
    memory = Memory()
    with _LENDING:
        for place in reversed(range(len(_MEMORIES))):
            if _MEMORIES[place].household == household:
                memory = _MEMORIES.pop(place)
                break
    try:
        yield memory
    finally:
        with _LENDING:
            _MEMORIES.append(memory)
            del _MEMORIES[:-_MOST_MEMORIES]


def _scenario(text: str) -> Scenario:
    """Give the scenario of a text that is without problems."""
    found = reading(text)
    if found.scenario is None:
        raise InputError(list(found.problems))
    return found.scenario


def _with_those_of(tried: Plan, plan: Plan) -> Plan:
    """Give a plan that has grown the chances and shares of its steps, which are the same still."""
    return replace(
        plan,
        steps=tried.steps,
        fuels=tried.fuels,
        chances=tried.chances,
        shares=tried.shares,
        rota=tried.rota,
    )


class Search:
    """A search for a plan that goes on beside the page; it can be watched and stopped.

    The plan is there as soon as its schedule and its saving are; its chances, what else it is set
    beside, and what more is worth come later.
    """

    def __init__(self, of: str | Scenario, gap: float, time_limit_s: float, turn: Turns) -> None:
        self._turn = turn  # so many searches at once
        self.best: float | None = None
        self.bound: float | None = None
        self.stopping = self.dropped = False
        self.windows: set[str] = set()  # that look at it
        self.made, self.whole = threading.Event(), threading.Event()
        self._found: Planned | None = None
        self._began = time.monotonic()
        ended_with_the_program(self)
        words = (of, gap, time_limit_s)
        threading.Thread(target=self._run, args=words, daemon=True).start()

    @property
    def seconds(self) -> float:
        """How long it has been going on [s]."""
        return time.monotonic() - self._began

    def wait(self, seconds: float | None = None, *, whole: bool = True) -> Planned | None:
        """Wait for the plan; None if it is not there by then.

        Parameters
        ----------
        seconds
            Longest wait; None for however long it takes [s]
        whole
            Wait for all of it; False: the schedule and its saving will do.
        """
        there = (self.whole if whole else self.made).wait(seconds)
        return self._found if there else None

    def stop(self) -> None:
        """Ask it to end with the best plan so far."""
        self.stopping = True

    def drop(self) -> None:
        """Ask it to end, since nobody waits for it any more."""
        self.stopping = self.dropped = True
        self._turn.look_again()

    def _wanted(self) -> bool:
        return not self.dropped

    def _run(self, of: str | Scenario, gap: float, time_limit_s: float) -> None:
        whole = False
        try:
            self._search(of, gap, time_limit_s)
            whole = True
        finally:  # whatever went wrong, nobody waits for ever
            if not whole:
                self._found = Planned(None, "defect", "the search ended without an answer")
            self.made.set()
            self.whole.set()

    def _search(self, of: str | Scenario, gap: float, time_limit_s: float) -> None:
        """Search, and show the plan as it grows; where there is none, say why."""
        try:
            scenario = _scenario(of) if isinstance(of, str) else of
            growing, first = self._begun(scenario, gap, time_limit_s)
            time.sleep(DRAWING_S)
            self._try(first, scenario)
            while self._grown(growing):  # another search may have the memory by now
                pass
        except InputError as error:
            self._found = Planned(None, "input", str(error), tuple(error.problems))
        except PhysicsError as error:
            self._found = Planned(None, "input", str(error))
        except LimitError as error:
            self._found = Planned(None, "stopped" if self.stopping else "limit", str(error))
        except CheckError as error:
            self._found = Planned(None, "defect", str(error))

    def _begun(
        self, scenario: Scenario, gap: float, time_limit_s: float
    ) -> tuple[Iterator[Plan], Plan]:
        """Find the schedule and its saving, and show it; what grows from it comes with it."""
        with self._turn.taken(first=True, wanted=self._wanted) as mine:
            if not mine:
                raise LimitError("nobody waits for it any more")
            with _remembered(household_of(scenario)) as memory:
                growing = make_plans(
                    scenario,
                    gap=gap,
                    time_limit_s=time_limit_s,
                    progress=self._progress,
                    memory=memory,
                    wanted=self._wanted,
                )
                first = next(growing)
            self._show(first)
        return growing, first

    def _try(self, first: Plan, scenario: Scenario) -> None:
        """Try the plan, after those who have none yet."""
        self._tried = first
        with self._turn.taken(wanted=self._wanted) as mine:
            if mine:
                self._tried = with_households(with_chances(first, scenario), scenario)
                self._show(self._tried)

    def _grown(self, growing: Iterator[Plan]) -> bool:
        """Work out one more part of the plan, after those who have none yet; False: it is whole."""
        with self._turn.taken(wanted=self._wanted) as mine:
            more = next(growing, None) if mine else None
            if more is not None:
                self._show(_with_those_of(self._tried, more))
        return more is not None

    def _show(self, plan: Plan) -> None:
        self._found = Planned(plan)
        self.made.set()

    def _progress(self, seconds: float, best: float | None, bound: float | None) -> bool:
        self.best, self.bound = best, bound
        return not self.stopping
