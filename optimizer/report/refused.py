"""Why ways of one dish do not work: one line a reason, with all the things it is about."""

import re
from collections.abc import Hashable, Iterable, Sequence
from dataclasses import replace
from typing import TypeVar

from optimizer.model.household import Scenario
from optimizer.model.plan import Refusal
from optimizer.planning.explain import ABOUT
from optimizer.report.names import Names
from optimizer.studies.comparison import Comparison

ENDS = 2  # of a span of the clock
Key = TypeVar("Key", bound=Hashable)

DIGITS = re.compile(r"-?\d+")
DEGREES = re.compile(r"(-?\d+) degC")
CLOCK = re.compile(r"\b\d\d:\d\d\b")
ALL_KINDS = ("stove", "pot", "cooker")
MANY = 2  # where that many pots are all there are, "any pot" is said

About = tuple[str | None, str | None, str | None]  # stove, pot, cooker; None: whichever
Several = tuple[str | None, ...]
Merged = tuple[Several, Several, Several]  # stoves, pots, cookers


def refusal_sentences(found: Comparison, scenario: Scenario) -> list[str]:
    """Give one sentence for each reason, the commonest first.

    Parameters
    ----------
    found
        The ways and refusals of one dish.
    scenario
        The household, for the names of its things.

    Returns
    -------
    list of str
        Sentences such as "4 L pot or 6 L pot into the packed box: may be only 55 degC ...".
    """
    told = _widened(found.refusals)
    working = [(way.stove, way.pot, way.cooker) for way in found.ways]
    kinds = _kinds(told, working)
    by_reason: dict[str, list[About]] = {}
    for refusal in told:
        by_reason.setdefault(refusal.reason, []).append(
            _about(_things(refusal), kinds[refusal.code])
        )
    ordered = sorted(by_reason.items(), key=lambda pair: -len(pair[1]))
    told_ = [(_told(those, scenario), reason) for reason, those in ordered]
    return [": ".join(filter(None, pair)) for pair in told_]


def _things(refusal: Refusal) -> About:
    return refusal.stove, refusal.pot, refusal.cooker


def _about(things: About, kinds: Sequence[str]) -> About:
    """Keep the things of some kinds."""
    stove, pot, cooker = (
        name if kind in kinds else None for kind, name in zip(ALL_KINDS, things, strict=True)
    )
    return stove, pot, cooker


def _kinds(refusals: Sequence[Refusal], working: Sequence[About]) -> dict[str, tuple[str, ...]]:
    """Give the kinds of things each code is about; all three where fewer would be ambiguous."""
    kinds = {refusal.code: ABOUT[refusal.code] for refusal in refusals}
    reasons: dict[tuple[str, About], set[str]] = {}
    for refusal in refusals:
        about = _about(_things(refusal), kinds[refusal.code])
        reasons.setdefault((refusal.code, about), set()).add(refusal.reason)
    unclear = {
        code
        for (code, about), told in reasons.items()
        if len(told) > 1 or about in [_about(way, kinds[code]) for way in working]
    }
    return {code: ALL_KINDS if code in unclear else those for code, those in kinds.items()}


def _widened(refusals: Sequence[Refusal]) -> list[Refusal]:
    """Give refusals that differ in nothing but numbers one reason that holds for all of them."""
    alike: dict[tuple[str, str, bool], list[str]] = {}
    for refusal in refusals:
        alike.setdefault(_words(refusal), []).append(refusal.reason)
    return [replace(refusal, reason=_wide(refusal, alike[_words(refusal)])) for refusal in refusals]


def _words(refusal: Refusal) -> tuple[str, str, bool]:
    """Give code and reason without numbers, and whether it is about an insulated cooker."""
    return refusal.code, DIGITS.sub("", refusal.reason), refusal.cooker is not None


def _wide(refusal: Refusal, alike: Sequence[str]) -> str:
    """Widen a span of the clock, or of temperatures, to that of all reasons in the same words."""
    spans = [CLOCK.findall(reason) for reason in alike]
    if refusal.code == "no_start" and all(len(s) == ENDS and s[0] <= s[1] for s in spans):
        ends = iter((min(s[0] for s in spans), max(s[1] for s in spans)))
        return CLOCK.sub(lambda _: next(ends), refusal.reason)
    levels = [int(level) for reason in alike for level in DEGREES.findall(reason)]
    if refusal.code == "cold" and len(set(levels)) > 1:
        return DEGREES.sub(f"{min(levels)} degC to {max(levels)} degC", refusal.reason)
    return refusal.reason


def _told(those: Iterable[About], scenario: Scenario) -> str:
    """Say in few words what a reason is about."""
    names = Names(scenario)
    pots = {own.pot.name for own in scenario.pots}
    return "; ".join(_phrase(part, names, pots) for part in merged(those))


def merged(those: Iterable[About]) -> list[Merged]:
    """Put pots of the same stove and cooker together, then stoves, then cookers.

    Parameters
    ----------
    those
        Stoves, pots and cookers.
    """
    pots = _grouped(((stove, cooker), pot) for stove, pot, cooker in those)
    stoves = _grouped(((some, cooker), stove) for (stove, cooker), some in pots.items())
    cookers = _grouped(((some, pots_), cooker) for (pots_, cooker), some in stoves.items())
    return [(some, pots_, cookers_) for (some, pots_), cookers_ in cookers.items()]


def _grouped(pairs: Iterable[tuple[Key, str | None]]) -> dict[Key, Several]:
    """Put what has the same key together, each once, in order."""
    found: dict[Key, dict[str | None, None]] = {}
    for key, value in pairs:
        found.setdefault(key, {})[value] = None
    return {key: tuple(values) for key, values in found.items()}


def _phrase(part: Merged, names: Names, all_pots: set[str]) -> str:
    """Say "4 L pot or 6 L pot on the stick stove into the packed box"."""
    stoves = [names.stove(name) for name in part[0] if name]
    pots = [names.pot(name) for name in part[1] if name]
    cookers = [names.cooker(name) for name in part[2] if name]
    if len(pots) >= MANY and set(part[1]) == all_pots:
        pots = ["any pot"]
    on = f"on the {_either(stoves)}" if pots and stoves else _either(stoves)
    link = "with or without the " if None in part[2] else "into the "
    into = f"{link if pots or stoves else ''}{_either(cookers)}" if cookers else ""
    return " ".join(words for words in (_either(pots), on, into) if words)


def _either(words: Sequence[str]) -> str:
    """Write "a, b or c"."""
    return " or ".join([", ".join(words[:-1]), *words[-1:]] if len(words) > 1 else words)
