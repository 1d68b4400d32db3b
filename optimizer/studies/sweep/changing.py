"""One value put into the text of a scenario, by the code that changes scenarios."""

from collections.abc import Iterable
from functools import lru_cache
from typing import Any

from optimizer.scenario.changes import with_field, with_people, with_value, with_weather
from optimizer.scenario.document import Location
from optimizer.scenario.passages import plain_of, value_of

FIELD = 3  # section, name, key
PLACES: dict[str, Location] = {
    "altitude": ("place", "altitude"),
    "kitchen": ("place", "kitchen"),
    "water": ("place", "water"),
    "cooks": ("cooks",),
    "confidence": ("confidence",),
    "reserve": ("reserve",),
}
WEATHER = ("outdoors", "wind", "sun", "rain", "wet_sticks")
EATERS = ("people", "adults", "children")
DAYS = "days"
KEYS = (*EATERS, DAYS, *WEATHER, *PLACES)
# What is meant by the bare name of a thing.
USUAL = {"fuels": "stock", "stoves": "count", "pots": "count", "cookers": "count"}
SECTIONS = (*USUAL, "dishes", "foods", "materials")


def names_in(plain: dict[str, Any]) -> list[str]:
    """Return the things of a file that have a usual value: fuels, stoves, pots, cookers."""
    return [str(name) for section in USUAL for name in _section(plain, section)]


def place_of(plain: dict[str, Any], key: str) -> Location | None:
    """Return where a thing that is varied stands in a file; None if there is no such thing.

    Parameters
    ----------
    plain : dict
        What the file says.
    key : str
        ``people``, ``outdoors``, ``sticks``, ``sticks.price``, ...
    """
    if key in EATERS:
        return ("people",) if key == "people" else ("people", key)
    if key in WEATHER:
        return ("weather",)
    if key in PLACES or key == DAYS:
        return PLACES.get(key, (DAYS,))
    name, _, said = key.partition(".")
    for section in SECTIONS:
        if name in _section(plain, section):
            after = said or USUAL.get(section, "")
            return (section, name, *after.split(".")) if after else None
    return None


def _section(plain: dict[str, Any], section: str) -> dict[str, Any]:
    found = plain.get(section)
    return found if isinstance(found, dict) else {}


@lru_cache(maxsize=64)
def with_one(text: str, key: str, value: str) -> str:
    """Return the text of a scenario with one value in it; ``days`` is not a change of the text.

    Parameters
    ----------
    text : str
        The whole file.
    key : str
        What is varied.
    value : str
        As it is written in the file.

    Raises
    ------
    InputError, KeyError, ValueError
        If it cannot be put there.
    """
    given = value_of(value)
    if key in EATERS:
        return _eaters(text, key, given)
    if key in WEATHER:
        return _weather(text, key, given)
    plain = plain_of(text)
    at = place_of(plain, key)
    if at is None:
        raise KeyError(key)
    if at[0] in USUAL and len(at) == FIELD:
        return with_field(text, str(at[0]), str(at[1]), str(at[2]), given)
    return with_value(text, at, given)


def _eaters(text: str, key: str, given: Any) -> str:
    """Say how many eat; ``people`` are grown ones, who eat most."""
    said = plain_of(text).get("people")
    now: dict[str, Any] = said if isinstance(said, dict) else {"adults": said}
    now = {"adults": given} if key == "people" else {**now, key: given}
    return with_people(text, now.get("adults", 0), now.get("children", 0))


def _weather(text: str, key: str, given: Any) -> str:
    """Say one thing of the weather of every day, and of the usual cold outdoors."""
    plain = plain_of(text)
    for day in range(1, int(plain["days"]) + 1):
        text = with_weather(text, day, key, given)
    return with_value(text, ("place", key), given) if key == "outdoors" else text


def in_order(keys: Iterable[str]) -> list[str]:
    """Return the order in which changes are made: as given, but all who eat before some of them.

    The last axis changes from point to point: what the others change is then known.
    """
    return sorted(keys, key=lambda key: key in ("adults", "children"))
