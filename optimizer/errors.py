"""What can go wrong, told to a person.

::

    FuelthriftError
    ├── InputError      a file or an option is wrong; carries every Problem at once  (exit 2)
    ├── PhysicsError    a quantity lies outside the range a formula holds for        (a bug, or 2)
    ├── LimitError      a limit was hit before any plan was found                    (exit 3)
    ├── SaveError       a file could not be written                                  (exit 4)
    └── CheckError      the independent checker rejects a plan                       (a bug)
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Problem:
    """One thing wrong with an input: where it is, and what to write instead."""

    file: str
    line: int | None
    key: str
    code: str
    message: str

    def __str__(self) -> str:
        place = self.file if self.line is None else f"{self.file}:{self.line}"
        return f"{place}: {self.key}: {self.message}" if self.key else f"{place}: {self.message}"


class FuelthriftError(Exception):
    """Anything this package raises on purpose."""


class InputError(FuelthriftError):
    """An input is wrong; ``problems`` lists all of it, in the order of the file."""

    def __init__(self, problems: list[Problem]) -> None:
        self.problems = sorted(problems, key=lambda p: (p.file, p.line or 0, p.key))
        super().__init__("\n".join(str(problem) for problem in self.problems))


class PhysicsError(FuelthriftError, ValueError):
    """A quantity lies outside the range for which a formula holds."""


class LimitError(FuelthriftError):
    """A limit on time or size was hit before there was a plan."""


class SaveError(FuelthriftError):
    """A file could not be written; what was there before is untouched."""


class CheckError(FuelthriftError):
    """The independent checker rejects a plan: a defect of the planner, never of the household."""
