"""Changes to the households that share a kitchen, from text to text; comments are kept."""

from collections.abc import Sequence
from typing import Any

from optimizer.scenario.changes import with_value
from optimizer.scenario.passages import plain_of, put, remove

ADULTS, CHILDREN, BRINGS = "adults", "children", "brings"


def with_households(text: str, names: Sequence[str]) -> str:
    """Say which households there are; what is said of those that stay is kept.

    Parameters
    ----------
    text
        The whole file.
    names
        Their names; none takes them out.
    """
    said = plain_of(text).get("households")
    if not names:
        return remove(text, ("households",)) if "households" in plain_of(text) else text
    if not isinstance(said, dict) or len(set(names)) < len(names):
        return put(text, ("households",), list(names))
    new: dict[str, int] = {ADULTS: 0} if _told(said) else {}
    if not set(said) & set(names):
        return put(text, ("households",), list(names))
    for name in [each for each in said if each not in names]:
        text = remove(text, ("households", name))
    for name in [each for each in names if each not in said]:
        text = put(text, ("households", name), new)
    return _summed(text)


def with_household_people(text: str, name: str, adults: int, children: int) -> str:
    """Say how many people one household has; all people together follow.

    Parameters
    ----------
    text
        The whole file.
    name
        Of a household that is named in it.
    adults
        Grown ones.
    children
        Small ones.
    """
    heads = household_heads(text)
    said = plain_of(text).get("households")
    if not isinstance(said, dict) or not _told(said):
        text = put(text, ("households",), {other: _entry(said, other, heads) for other in heads})
    people = {**_entry(plain_of(text)["households"], name, heads), ADULTS: adults}
    return _summed(put(text, ("households", name), {**people, CHILDREN: children}))


def with_brought(text: str, name: str, fuel: str, amount: str) -> str:
    """Say how much of a fuel a household brings into the store.

    Parameters
    ----------
    text
        The whole file.
    name
        Of a household that is named in it.
    fuel
        Name of the fuel.
    amount
        As it is written in the file; empty: it brings none.
    """
    said = plain_of(text).get("households")
    if not isinstance(said, dict):
        text = put(text, ("households",), {other: {} for other in said or ()})
    at = ("households", name)
    part = plain_of(text)["households"][name]
    if not isinstance(part, dict):
        text = put(text, at, {} if part is None else {ADULTS: part})
    text = with_value(text, (*at, BRINGS, fuel), amount)
    empty = plain_of(text)["households"][name].get(BRINGS) == {}
    return remove(text, (*at, BRINGS)) if empty else text


def household_heads(text: str) -> dict[str, tuple[int, int]]:
    """Give grown and small ones by household; shared out evenly where the file says none.

    Parameters
    ----------
    text
        The whole file.
    """
    plain = plain_of(text)
    said = plain.get("households")
    names = [str(each) for each in said] if isinstance(said, list | dict) else []
    if isinstance(said, dict) and _told(said):
        return {name: _counted(said[name]) for name in names}
    adults, children = _counted(plain.get("people"))
    count = len(names)
    return {
        name: ((adults + count - 1 - n) // count, (children + count - 1 - n) // count)
        for n, name in enumerate(names)
    }


def _counted(said: Any) -> tuple[int, int]:
    """Read grown and small ones, a bare number as grown ones."""
    part = said if isinstance(said, dict) else {ADULTS: said}
    adults, children = (part.get(who) for who in (ADULTS, CHILDREN))
    return (
        adults if isinstance(adults, int) else 0,
        children if isinstance(children, int) else 0,
    )


def _told(said: dict[str, Any]) -> bool:
    """Tell whether any household says how many it is."""
    return any(
        isinstance(part, int) or (isinstance(part, dict) and {ADULTS, CHILDREN} & {*part})
        for part in said.values()
    )


def _entry(said: Any, name: str, heads: dict[str, tuple[int, int]]) -> dict[str, Any]:
    """Write one household with its people, and with what it says beside them."""
    part = said.get(name) if isinstance(said, dict) else None
    rest = part if isinstance(part, dict) else {}
    adults, children = heads[name]
    return {ADULTS: adults, CHILDREN: children, **rest}


def _summed(text: str) -> str:
    """Let all people be those of the households."""
    said = plain_of(text)["households"]
    counted = [_counted(part) for part in said.values()]
    people = {ADULTS: sum(a for a, _ in counted), CHILDREN: sum(c for _, c in counted)}
    return put(text, ("people",), people) if _told(said) else text
