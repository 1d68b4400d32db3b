"""What the file says of keeping fresh food cold, as stretches of the clock."""

from collections.abc import Iterator
from typing import Any

from optimizer.model.household import DAY_MIN, Cold, Weather
from optimizer.model.things import Rules
from optimizer.scenario.document import Document, Location

PLACES = {"fridge": "fridge", "freezer": "freezer", "ice_box": "ice box"}


def cold_of(
    document: Document, given: Any, rules: Rules, weather: tuple[Weather, ...]
) -> tuple[Cold, ...]:
    """Lay out where fresh food is kept cold, and until when.

    Parameters
    ----------
    document
        Gets what is wrong.
    given
        The part of the file; None where it says nothing: then nothing is cold.
    rules
        How long a fridge and a freezer stay cold without power.
    weather
        One a day.
    """
    if given is None:
        return ()
    named = (_place(document, given, key, rules) for key in PLACES)
    outside = _outdoors(rules, weather) if given.outdoors else ()
    return (*(cold for cold in named if cold is not None), *outside)


def fresh_of(document: Document, given: Any, days: int) -> tuple[int, ...]:
    """Tell when fresh food comes into the house: before the first day, and when it is bought.

    Parameters
    ----------
    document
        Gets what is wrong.
    given
        The part of the file, or None.
    days
        How many the scenario has.
    """
    if given is None:
        return (0,)
    for place, minute in enumerate(given.bought):
        if minute >= days * DAY_MIN:
            message = f"this is beyond the last day, {days}"
            document.problem(("cold", "bought", place), "beyond", message)
    return tuple(sorted({0, *given.bought}))


def _place(document: Document, given: Any, key: str, rules: Rules) -> Cold | None:
    """Make one cold place, said by the end of its cold or by when its power went."""
    part, at = getattr(given, key), ("cold", key)
    if part is None:
        return None
    if (part.until is None) == (part.power_out is None):
        message = "say either until, when it stops being cold, or power_out, when its power went"
        document.problem(at, "contradiction", message)
        return None
    if part.until is not None:
        return Cold(PLACES[key], 0, part.until)
    return _shut(document, part, key, rules, at)


def _shut(document: Document, part: Any, key: str, rules: Rules, at: Location) -> Cold | None:
    """Make a cold place that nobody opens once its power went."""
    if key == "ice_box":
        message = "an ice box has no power to fail; say until, when its ice will have melted"
        document.problem((*at, "power_out"), "contradiction", message)
        return None
    minutes = rules.fridge_shut_min
    if key == "freezer":
        minutes = rules.freezer_full_min if part.full else rules.freezer_half_min
    return Cold(PLACES[key], 0, part.power_out + round(minutes))


def _outdoors(rules: Rules, weather: tuple[Weather, ...]) -> Iterator[Cold]:
    """Yield the days cold enough outdoors also in their warmest hour."""
    for day, each in enumerate(weather):
        if each.outdoors_c + rules.outdoors_warmer_k <= rules.cold_c:
            yield Cold("outdoors", day * DAY_MIN, (day + 1) * DAY_MIN)
