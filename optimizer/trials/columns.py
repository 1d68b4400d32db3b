"""The columns of a table of readings: which is which, in what unit, and what a cell says."""

import re
from dataclasses import dataclass
from typing import Final

WATER_C: Final = (-5.0, 115.0)
ROOM_C: Final = (-40.0, 60.0)
KINDS: Final = {
    "time": {"time", "minutes", "minute", "min", "hours", "hour", "clock", "elapsed", "when"},
    "temp": {"temp", "temperature", "water", "food", "inside", "contents"},
    "room": {"room", "kitchen", "air", "ambient", "outside"},
    "note": {"note", "notes", "remark", "remarks", "comment", "comments"},
}
_UNITS: Final = {
    "min": {"min", "minute", "minutes", "mins"},
    "h": {"h", "hour", "hours", "hr", "hrs"},
    "s": {"s", "sec", "second", "seconds"},
    "clock": {"clock"},
    "c": {"c", "degc", "celsius", "\u00b0c", "\u2103"},
    "f": {"f", "degf", "fahrenheit", "\u00b0f", "\u2109"},
}
_MINUTES: Final = {"min": 1.0, "h": 60.0, "s": 1 / 60}
_NUMBER = re.compile(r"\s*([+-]?\d+(?:[.,]\d+)?)\s*([^\d\s,.][^\d]*)?\s*")
_CLOCK = re.compile(r"\s*(\d{1,3}):(\d{2})(?::(\d{2}))?\s*(am|pm)?\s*", re.IGNORECASE)
WORDS: Final = frozenset(word for words in KINDS.values() for word in words)
_NOON_H = 12
_HOUR_MIN = 60


@dataclass(frozen=True, slots=True)
class Column:
    """One column: time, temp, room, note or unknown, and its unit if the header says it."""

    place: int
    kind: str
    unit: str | None
    shown: str

    @classmethod
    def headed(cls, place: int, cell: str) -> "Column":
        """Understand a cell of the header."""
        words = set(re.findall(r"[a-z\u00b0\u2103\u2109]+", cell.casefold()))
        kind = next((k for k, known in KINDS.items() if known & words), "unknown")
        wanted = ("clock", "min", "h", "s") if kind == "time" else ("c", "f")
        unit = next((u for u in wanted if _UNITS[u] & words), None)
        return cls(place, kind, unit, cell)

    def read(self, cell: str) -> float | str:
        """Read a cell as minutes or degC, or say what is wrong with it."""
        return self._minutes(cell) if self.kind == "time" else self._degrees_c(cell)

    def _minutes(self, cell: str) -> float | str:
        clock = clock_min(cell)
        if clock is not None:
            return clock
        number, word = _split(cell)
        unit = _unit(word, ("min", "h", "s")) or self.unit
        if number is None or unit == "clock" or (word and not _unit(word, ("min", "h", "s"))):
            return f"expected a time such as 45, 1.5 h or 18:05, given '{cell:.40}'"
        if unit is None:
            return f"'{cell:.40}': minutes or hours? name the column time_min or time_h"
        return number * _MINUTES[unit]

    def _degrees_c(self, cell: str) -> float | str:
        number, word = _split(cell)
        unit = _unit(word, ("c", "f")) or self.unit
        if number is None or (word and not _unit(word, ("c", "f"))):
            return f"expected a temperature such as 92.5, given '{cell:.40}'"
        if unit is None:
            return f"'{cell:.40}': which degrees? name the column {self.kind}_c or {self.kind}_f"
        value = number if unit == "c" else (number - 32) / 1.8
        low, high = ROOM_C if self.kind == "room" else WATER_C
        if not low <= value <= high:
            return f"'{cell:.40}' must be {low:g} to {high:g} degC"
        return value


def clock_min(cell: str) -> float | None:
    """Read a time on the clock, or hours and minutes with a colon.

    Parameters
    ----------
    cell : str
        Such as 18:05, 6:05 pm, 0:45 [-]

    Returns
    -------
    float or None
        Minutes since midnight; None if it is no such time [min]

    Raises
    ------
    ValueError
        Never: what is no time is None.

    References
    ----------
    .. [1] definition, p 1, sixty minutes an hour.
    """
    found = _CLOCK.fullmatch(cell)
    if found is None or int(found[2]) >= _HOUR_MIN:
        return None
    hour = int(found[1])
    if found[4]:
        hour = hour % _NOON_H + (_NOON_H if found[4].casefold() == "pm" else 0)
    return hour * _HOUR_MIN + int(found[2]) + int(found[3] or 0) / 60


def _split(cell: str) -> tuple[float | None, str]:
    found = _NUMBER.fullmatch(cell)
    if found is None:
        return None, ""
    return float(found[1].replace(",", ".")), (found[2] or "").strip()


def _unit(text: str, wanted: tuple[str, ...]) -> str | None:
    word = text.casefold().replace(" ", "")
    return next((unit for unit in wanted if word in _UNITS[unit]), None)
