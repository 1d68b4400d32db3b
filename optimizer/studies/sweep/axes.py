"""What is varied: ``sticks=4,8,12 kg`` or ``people=2..6``, read into values as a file has them."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from difflib import get_close_matches

from optimizer.errors import Problem

MOST_VALUES = 200  # of one thing
NUMBER = r"[+-]?(?:\d+(?:\.\d*)?|\.\d+)"
_BARE = re.compile(NUMBER)
_WITH_UNIT = re.compile(rf"({NUMBER})\s*([^\d\s.+-].*)")
_RANGE = re.compile(rf"({NUMBER})\s*\.\.\s*({NUMBER})(?:\s*:\s*({NUMBER}))?\s*([^\d\s.].*)?")
_TIMES = re.compile(r"[xX\u00d7]\s*\d.*")
_EXACT = 1e-9
WRITTEN = "write for example people=2..6, or sticks=4,8,12 kg"


@dataclass(frozen=True, slots=True)
class Axis:
    """One thing that is varied, and its values as they would stand in the file."""

    key: str
    values: tuple[str, ...]

    @property
    def unit(self) -> str | None:
        """Unit that all values have, empty if they are bare numbers; None if neither."""
        units = {unit_of(value) for value in self.values}
        return units.pop() if len(units) == 1 else None

    @property
    def column(self) -> str:
        """Name of its column: with the unit, where all values have the same."""
        return re.sub(r"[^a-z0-9]+", "_", f"{self.key} {_spoken(self.unit)}".casefold()).strip("_")

    def cell(self, value: str) -> float | int | str:
        """Return a value as it stands in its column: a number where all are, else the text."""
        if self.unit is None:
            return value
        number = float((_BARE.match(value) or [value])[0])
        whole = all("." not in each for each in self.values)
        return int(number) if whole else number


def unit_of(value: str) -> str | None:
    """Return the unit of a value, empty for a bare number; None for words and packages."""
    if _BARE.fullmatch(value):
        return ""
    found = _WITH_UNIT.fullmatch(value)
    return found[2] if found and not _TIMES.fullmatch(found[2]) else None


def _spoken(unit: str | None) -> str:
    short = {"degC": "c", "degF": "f", "%": "percent"}
    return short.get(unit or "", (unit or "").replace("/", " per "))


@dataclass(slots=True)
class Wanted:
    """Reads what is to be varied, and collects everything that is wrong with it."""

    problems: list[Problem] = field(default_factory=list)

    def wrong(self, key: str, code: str, message: str) -> None:
        """Note what is wrong with one of the axes."""
        shown = f"--vary {key[:40]}".strip()
        self.problems.append(Problem("command line", None, shown, code, message))

    def axes(self, texts: "tuple[str, ...]") -> tuple[Axis, ...]:
        """Read all axes; what is no axis is noted and left out."""
        found: dict[str, Axis] = {}
        for text in texts:
            axis = self._axis(text)
            if axis is not None and axis.key in found:
                self.wrong(axis.key, "repeated", "is varied twice; put all values in one list")
            elif axis is not None:
                found[axis.key] = axis
        if not texts:
            self.wrong("", "missing", f"nothing is varied; {WRITTEN}")
        return tuple(found.values())

    def _axis(self, text: str) -> Axis | None:
        key, equals, listed = (part.strip() for part in text.partition("="))
        if not equals or not key or not listed:
            self.wrong(key, "syntax", f"'{text[:60]}' is no name and values; {WRITTEN}")
            return None
        values = tuple(self._values(key, listed))
        twice = sorted({value for value in values if values.count(value) > 1})
        if twice:
            self.wrong(key, "repeated", f"{', '.join(twice)} stands there twice")
        if len(values) > MOST_VALUES:
            told = f"at most {MOST_VALUES} values, given {len(values)}"
            self.wrong(key, "too_many", told)
        return Axis(key, values) if values and not twice and len(values) <= MOST_VALUES else None

    def _values(self, key: str, listed: str) -> Iterator[str]:
        """Yield the values of a list; numbers without a unit take that of the last one."""
        words = [word.strip() for word in listed.split(",")]
        if not all(words):
            self.wrong(key, "syntax", f"'{listed[:60]}' has an empty place between commas")
            return
        unit = _unit_at_end(words[-1])
        for word in words:
            stretch = _RANGE.fullmatch(word)
            if stretch:
                yield from self._stretch(key, word, stretch, unit)
            else:
                yield f"{word} {unit}" if unit and _BARE.fullmatch(word) else _spaced(word)

    def _stretch(self, key: str, word: str, found: "re.Match[str]", unit: str) -> Iterator[str]:
        """Yield the values from one to another, both among them."""
        first, last, step = float(found[1]), float(found[2]), float(found[3] or 1)
        count = (last - first) / step if step > 0 else -1.0
        if count < 0 or abs(count - round(count)) > _EXACT:
            told = f"'{word}' does not go up from the first to the last by even steps"
            self.wrong(key, "range", f"{told}; write 2..6, or 4..12:2 kg for every second one")
            return
        if count > MOST_VALUES:
            self.wrong(key, "too_many", f"at most {MOST_VALUES} values, '{word}' has more")
            return
        after = found[4] or unit
        for n in range(round(count) + 1):
            yield f"{first + n * step:g} {after}".strip()


def _unit_at_end(word: str) -> str:
    """Return what stands after the number of the last value; empty if nothing does."""
    stretch, single = _RANGE.fullmatch(word), _WITH_UNIT.fullmatch(word)
    if stretch:
        return stretch[4] or ""
    return single[2] if single else ""


def _spaced(word: str) -> str:
    found = _WITH_UNIT.fullmatch(word)
    return f"{found[1]} {found[2]}" if found else word


def meant(key: str, known: "list[str]") -> str:
    """Ask whether the nearest known name was meant, or say which there are."""
    found = get_close_matches(key, known, 1)
    return f"did you mean {found[0]}?" if found else f"it can be {', '.join(known)}"
