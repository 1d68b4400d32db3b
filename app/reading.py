"""A text read as a scenario: each text once, whoever asks."""

from dataclasses import dataclass
from functools import lru_cache

from optimizer.errors import InputError, Problem
from optimizer.model.household import Scenario
from optimizer.scenario.reading import parse


@dataclass(frozen=True, slots=True)
class Reading:
    """A scenario, or everything that is wrong with its text."""

    scenario: Scenario | None
    problems: tuple[Problem, ...] = ()


@lru_cache(maxsize=100)
def reading(text: str) -> Reading:
    """Read the text of a scenario.

    Parameters
    ----------
    text
        The whole file.

    Returns
    -------
    Reading
        The scenario, or all that is wrong.
    """
    try:
        return Reading(parse(text))
    except InputError as error:
        return Reading(None, tuple(error.problems))
