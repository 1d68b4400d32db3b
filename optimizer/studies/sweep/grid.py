"""The grid: every combination of the values, each a point with a number, one after the other."""

import hashlib
import json
import math
from collections.abc import Iterator
from dataclasses import asdict, dataclass, replace
from importlib.metadata import PackageNotFoundError, version

from optimizer.errors import InputError
from optimizer.model.household import Scenario
from optimizer.scenario.clock import MOST_DAYS
from optimizer.scenario.document import Location
from optimizer.scenario.passages import plain_of
from optimizer.scenario.reading import parse
from optimizer.studies.endurance.repeat import repeated
from optimizer.studies.sweep.axes import Axis, Wanted, meant
from optimizer.studies.sweep.changing import DAYS, KEYS, in_order, names_in, place_of, with_one

MOST_POINTS = 20_000
FINGERPRINT = 16


@dataclass(frozen=True, slots=True)
class Effort:
    """What is asked of each point."""

    goals: tuple[str, ...] = ()  # none: those of the file
    confidence: float | None = None  # None: that of the file
    gap: float = 0.01
    time_limit_s: float = 30.0  # for the plan, and as much for the days
    days: bool = True  # whether to count the days that the store lasts


@dataclass(frozen=True, slots=True)
class Grid:
    """A scenario and what is varied in it; plain values, so that it can be sent to a worker."""

    file: str
    text: str
    axes: tuple[Axis, ...]
    effort: Effort

    @property
    def count(self) -> int:
        """How many points there are."""
        return math.prod(len(axis.values) for axis in self.axes)

    @property
    def fingerprint(self) -> str:
        """What tells the rows of this sweep from those of any other."""
        axes = [[axis.key, *axis.values] for axis in self.axes]
        said = [program_version(), self.text, axes, asdict(self.effort)]
        return hashlib.sha256(json.dumps(said).encode()).hexdigest()[:FINGERPRINT]

    def values(self, number: int) -> dict[str, str]:
        """Return what is varied at a point, from 1; the last axis changes from point to point."""
        found, left = {}, number - 1
        for axis in reversed(self.axes):
            left, place = divmod(left, len(axis.values))
            found[axis.key] = axis.values[place]
        return {axis.key: found[axis.key] for axis in self.axes}

    def household(self, number: int) -> Scenario:
        """Return the household of a point as the file has it, whose days are one round.

        Raises
        ------
        InputError
            If it is no sound scenario.
        """
        text, given = self.text, self.values(number)
        for key in in_order(given):
            text = text if key == DAYS else with_one(text, key, given[key])
        found = parse(text, self.file)
        sure = self.effort.confidence
        return replace(
            found,
            goals=self.effort.goals or found.goals,
            confidence=found.confidence if sure is None else sure,
        )

    def scenario(self, household: Scenario, number: int) -> Scenario:
        """Return the household of a point with as many days as that point has."""
        days = self.values(number).get(DAYS)
        return household if days is None else repeated(household, int(days))


def program_version() -> str:
    """Return the version of this program, which must be the same on every worker."""
    try:
        return version("fuelthrift")
    except PackageNotFoundError:
        return "unknown"


def grid_of(file: str, text: str, texts: tuple[str, ...], effort: Effort) -> Grid:
    """Read what is to be varied, and check every value by itself in the file.

    Parameters
    ----------
    file : str
        Name of the scenario, for messages.
    text : str
        The whole of it, without a fault.
    texts : tuple of str
        What is varied, such as ``sticks=4,8,12 kg``.
    effort : Effort
        What is asked of each point.

    Returns
    -------
    Grid
        Combinations that make no sense together are still among its points.

    Raises
    ------
    InputError
        If anything is wrong with it; all of it at once.
    """
    wanted = Wanted()
    axes = wanted.axes(texts)
    grid = Grid(file, text, axes, effort)
    if grid.count > MOST_POINTS:
        told = f"at most {MOST_POINTS} points, these come to {grid.count}; vary less at a time"
        wanted.wrong("", "too_many", told)
    for axis in axes if grid.count <= MOST_POINTS else ():
        _check(wanted, grid, axis)
    if wanted.problems:
        raise InputError(wanted.problems)
    return grid


def _check(wanted: Wanted, grid: Grid, axis: Axis) -> None:
    plain = plain_of(grid.text)
    at = place_of(plain, axis.key)
    if at is None:
        known = [*KEYS, *names_in(plain)]
        told = f"'{axis.key}' is neither in the file nor a thing that can be varied"
        wanted.wrong(axis.key, "unknown_name", f"{told}; {meant(axis.key, known)}")
        return
    for value in axis.values:
        for code, message in _faults(grid, axis.key, value, at):
            wanted.wrong(axis.key, code, message)


def _faults(grid: Grid, key: str, value: str, at: Location) -> Iterator[tuple[str, str]]:
    """Yield what is wrong with one value, whatever the others are."""
    if key == DAYS:
        if not (value.isascii() and value.isdigit() and 1 <= int(value) <= MOST_DAYS):
            yield "bounds", f"expected a whole number of days, 1 to {MOST_DAYS}, given '{value}'"
        return
    try:
        parse(with_one(grid.text, key, value), grid.file)
    except InputError as error:
        begin = ".".join(map(str, at[:2]))
        for problem in error.problems:
            if problem.key.startswith(begin) or problem.key == "place.outdoors":
                yield problem.code, f"value '{value}': {problem.message}"
                return
    except (LookupError, TypeError, ValueError) as error:
        yield "value", f"value '{value}' cannot be put into the file: {error}"
