"""Who eats, as the file says it, sound or not."""

from typing import Any

from app import cached
from optimizer.scenario import neighbours


def household_heads(text: str) -> dict[str, tuple[int, int]]:
    """Give grown and small ones of each household that shares the kitchen; none where none do.

    Parameters
    ----------
    text
        The whole scenario file, sound or not.
    """
    return {} if cached.said(text) is None else neighbours.household_heads(text)


def eaters(text: str, portions: Any, place: int, order: int) -> dict[str, float]:
    """Say how many grown and small ones eat of a dish.

    Parameters
    ----------
    text
        The whole scenario file.
    portions
        What the file says of it; None: all for whom it is and whose diet it fits.
    place, order
        Where it stands in the menu: its meal, and its place there.
    """
    people = (cached.said(text) or {}).get("people")
    scenario = cached.reading(text).scenario if portions is None else None
    for item in scenario.items if scenario else ():
        if item.stands == (place, order):
            return {"adults": item.adults, "children": item.children}
    everybody = {"adults": people, "children": 0} if isinstance(people, int) else people
    given = portions if isinstance(portions, dict) else everybody
    found = given if isinstance(given, dict) else {}
    heads = {who: found.get(who, 0) for who in ("adults", "children")}
    return {who: float(n) if isinstance(n, int | float) else 0.0 for who, n in heads.items()}
