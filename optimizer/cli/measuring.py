"""Quantities and names given as options; what is wrong with one is told with all the rest."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from difflib import get_close_matches
from pathlib import Path
from typing import TYPE_CHECKING, Any, Protocol, TypeVar

from optimizer.cli.options import option_problem
from optimizer.errors import Problem

if TYPE_CHECKING:
    from optimizer.units import Quantity


class _Thing(Protocol):
    @property
    def name(self) -> str: ...
    @property
    def label(self) -> str: ...


Named = TypeVar("Named", bound=_Thing)
FEW = 20  # names that are all told


@dataclass(slots=True)
class Options:
    """Reads options one by one; collects the problems of all of them."""

    problems: list[Problem] = field(default_factory=list)

    def wrong(self, option: str, code: str, message: str) -> None:
        """Note what is wrong with an option."""
        self.problems.append(option_problem(option, code, message))

    def quantity(
        self, option: str, text: str | None, unit: str, bounds: tuple[float, float], written: str
    ) -> float | None:
        """Read a number with its unit; None (and noted) if it is none, None if not given."""
        if text is None:
            return None
        from optimizer.units import QuantityError, convert

        try:
            value = convert(text, unit, written)
        except QuantityError as error:
            self.wrong(option, error.code, str(error))
            return None
        low, high = bounds
        if not low <= value <= high:
            self.wrong(option, "bounds", f"'{text}' must be {low:g} to {high:g} {unit}")
            return None
        return value

    def amount(
        self, option: str, text: str, units: tuple[str, ...], written: str
    ) -> "Quantity | None":
        """Read a quantity that may be of several kinds; None (and noted) if it is of none."""
        from optimizer.units import QuantityError, convert_any

        try:
            return convert_any(text, units, written)
        except QuantityError as error:
            self.wrong(option, error.code, str(error))
            return None

    def number(self, option: str, value: float | None, bounds: tuple[float, float]) -> None:
        """Check a bare number."""
        low, high = bounds
        if value is not None and not low <= value <= high:
            self.wrong(option, "bounds", f"must be {low:g} to {high:g}, given {value:g}")

    def thing(self, option: str, name: str | None, known: Mapping[str, Named]) -> Named | None:
        """Find a thing by name or label; None (and noted) if it is not there."""
        if name is None:
            return None
        called = {word.casefold(): each for each in known.values() for word in names_of(each)}
        sought = name.strip().casefold()
        if sought in called:
            return called[sought]
        near = get_close_matches(sought, called, 1)
        hint = f"did you mean {called[near[0]].name}?" if near else _there_are(known)
        self.wrong(option, "unknown_name", f"'{name}' is neither in the file nor known; {hint}")
        return None


def names_of(thing: Any) -> tuple[str, str]:
    """Give what a thing may be called."""
    return thing.name, thing.label


def _there_are(known: Mapping[str, Any]) -> str:
    if len(known) > FEW:
        return "fuelthrift check --shelf lists what there is"
    return f"there are {', '.join(known)}"


def same_file(one: Path | None, other: Path | None) -> bool:
    """Tell whether two paths are one file that is there."""
    if one is None or other is None or not (one.exists() and other.exists()):
        return False
    return one.samefile(other)
