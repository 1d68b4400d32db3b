"""Changes to what keeps food cold and to what is for sale, from text to text.

Each gives the whole file with the change and keeps its comments.
"""

from typing import Any

from optimizer.scenario.changes import with_value
from optimizer.scenario.passages import plain_of, put, remove

ENDS = ("until", "power_out")  # one of them says how long a place is cold


def with_cold(text: str, place: str, key: str, value: str) -> str:
    """Say until when a place is cold, or when its power went; nothing takes the place out.

    Parameters
    ----------
    text
        The whole file.
    place
        fridge, freezer or ice_box.
    key
        until or power_out; what was said by the other one goes.
    value
        Day and clock time.
    """
    other = next(end for end in ENDS if end != key)
    said = (plain_of(text).get("cold") or {}).get(place) or {}
    if not value.strip():
        return text if other in said else _without_cold(text, place)
    text = with_value(text, ("cold", place, key), value)
    return with_value(text, ("cold", place, other), None)


def _without_cold(text: str, place: str) -> str:
    """Take a cold place out; what is left empty goes with it."""
    said = plain_of(text).get("cold") or {}
    if place not in said:
        return text
    return remove(text, ("cold",) if set(said) == {place} else ("cold", place))


def with_offer(text: str, kind: str, name: str, key: str, value: Any) -> str:
    """Say one thing of what is for sale; a bare text after the name is the price.

    Parameters
    ----------
    text
        The whole file.
    kind
        fuels, stoves, pots or cookers.
    name
        Its name in the file.
    key
        price, storage_limit or most.
    value
        As it is written in the file; nothing takes it out.
    """
    said = plain_of(text)["shop"][kind][name]
    if isinstance(said, dict):
        return with_value(text, ("shop", kind, name, key), value)
    return put(text, ("shop", kind, name), value if key == "price" else {"price": said, key: value})


def with_water(text: str, kind: str, key: str, value: Any) -> str:
    """Say the price of water that needs no boiling, or how much of it; no price takes it out.

    Parameters
    ----------
    text
        The whole file.
    kind
        bottled_water or treated_water.
    key
        price or most.
    value
        As it is written in the file.
    """
    if key == "price" and not value.strip():
        return with_value(text, ("shop", kind), None)
    return with_value(text, ("shop", kind, key), value)
