"""A thing of the household's own, described from nothing: what is asked, what the answers make."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import MISSING, dataclass, fields
from typing import Any, Literal, get_args, get_origin, get_type_hints

from optimizer.errors import InputError, Problem
from optimizer.model.things import Cooker, Dish, Food, Fuel, Material, Pot, Stove
from optimizer.report.inventory import fields_told, meanings
from optimizer.scenario.fields import NOT_WRITTEN, key_of, unit_of
from optimizer.scenario.passages import value_of
from optimizer.shelf import load

RECORDS: dict[str, type[Any]] = {
    "fuels": Fuel,
    "stoves": Stove,
    "pots": Pot,
    "cookers": Cooker,
    "materials": Material,
    "foods": Food,
    "dishes": Dish,
}
FIRST = {"cookers": "kind", "fuels": "kind", "dishes": "serve"}  # the others hang on its answer
ALSO = {"foods": ("endpoint_c", "keeping")}  # a plan can do without; safety cannot
_BURNS = frozenset({"gas", "liquid", "alcohol", "wood", "charcoal", "tablet", "wax"})
_PACKED, _JAR, _AT = frozenset({"packed"}), frozenset({"vacuum"}), frozenset({"at"})
FOR: dict[str, dict[str, frozenset[str]]] = {  # asked only where the first answer is one of these
    "fuels": {
        "lhv_j_kg": _BURNS,
        "lhv_spread": _BURNS,
        "vapour": frozenset({"gas"}),
        "moisture": frozenset({"wood", "charcoal"}),
    },
    "cookers": {
        **dict.fromkeys(("material", "thickness_m", "gap"), _PACKED),
        **dict.fromkeys(("volume_m3", "rated_c", "rated_h", "rated_start_c", "rated_room_c"), _JAR),
        **dict.fromkeys(("liner_j_k", "preheated"), _JAR),
    },
    "dishes": {"serve_c": _AT},
}
NOT_ASKED: dict[str, Any] = {  # what holds where it is not asked
    "lhv_spread": 0,
    "moisture": 0,
    "gap": 0,
    "liner_j_k": "0 J/K",
    "preheated": False,
}
CAREFUL = {"spread": max, "z_k": min, "floor_c": max}  # nobody knows them at home
FAR_OFF = "how far off it may be, as a share; one time in three it is more"
YES_NO = ("yes", "no")
NOTHING = "none"  # an answer, unlike an empty field


@dataclass(frozen=True, slots=True)
class Blank:
    """One thing to be asked; ``options`` are the only answers there are."""

    key: str
    meaning: str
    such_as: str = ""
    first: str = ""
    options: tuple[str, ...] = ()


def first_blank(kind: str) -> Blank | None:
    """Give what is asked first, if the rest hangs on it.

    Parameters
    ----------
    kind
        Section of the file.
    """
    if kind not in FIRST:
        return None
    hint = get_type_hints(RECORDS[kind])[FIRST[kind]]
    return Blank(FIRST[kind], meanings(kind)[FIRST[kind]], options=get_args(hint))


def blanks(kind: str, answer: str | None, named: Mapping[str, Sequence[str]]) -> tuple[Blank, ...]:
    """Give what has to be asked of a thing.

    Parameters
    ----------
    kind
        Section of the file.
    answer
        What was answered to the first blank.
    named
        Names that can be given to a ``fuel`` and a ``material``.

    Returns
    -------
    tuple of Blank
        In the order of the shelf's columns; of a dish without its foods.
    """
    hints = get_type_hints(RECORDS[kind])
    told = fields_told(kind, _example(kind, answer))
    return tuple(
        _blank(kind, name, hints[name], told[key_of(name)], named)
        for name in _asked(kind, hints, answer)
        if name != FIRST.get(kind)
    )


def _example(kind: str, answer: str | None) -> Any:
    """Give a thing of the shelf from which examples are taken."""
    things = list(getattr(load(), kind).values())
    alike = [each for each in things if answer and getattr(each, FIRST[kind]) == answer]
    return (alike or things)[0]


def _asked(kind: str, hints: Mapping[str, Any], answer: str | None) -> list[str]:
    """Name the fields that have to be said."""
    fit = [f for f in fields(RECORDS[kind]) if f.name not in NOT_WRITTEN | {"ingredients"}]
    hang = FOR.get(kind, {})
    fit = [f for f in fit if f.name not in hang or answer in hang[f.name]]
    must = {
        f.name
        for f in fit
        if f.name in {*hang, *ALSO.get(kind, ())}
        or (f.default is MISSING and type(None) not in get_args(hints[f.name]))
    }
    return [f.name for f in fit if f.name in must]


def _blank(
    kind: str, name: str, hint: Any, told: tuple[str, str], named: Mapping[str, Sequence[str]]
) -> Blank:
    key, (value, meaning) = key_of(name), told
    arms = [arm for arm in get_args(hint) if arm is not type(None)] or [hint]
    inner = hint if get_origin(hint) is Literal else arms[0]
    if key.endswith("spread"):
        meaning = FAR_OFF
    if key in named:
        return Blank(key, meaning, options=tuple(named[key]))
    if get_origin(inner) is Literal:
        return Blank(key, meaning, options=get_args(inner))
    if inner is bool:
        return Blank(key, meaning, options=YES_NO)
    if name == "endpoint_c":
        return Blank(key, f"{meaning}; write none for anything else", such_as="74 degC")
    such_as = value if unit_of(name) else value.split(" ")[0]
    return Blank(key, meaning, such_as, _careful(kind, name))


def _careful(kind: str, name: str) -> str:
    """Give the most careful value on the shelf of what nobody can measure at home."""
    choose = next((best for part, best in CAREFUL.items() if name.endswith(part)), None)
    if choose is None:
        return ""
    things = getattr(load(), kind).values()
    thing = choose(things, key=lambda each: getattr(each, name))
    return fields_told(kind, thing)[key_of(name)][0]


def entry_of(
    kind: str, asked: Iterable[Blank], said: Mapping[str, str | None], name: str
) -> dict[str, Any]:
    """Make the entry of the file out of the answers.

    Parameters
    ----------
    kind
        Section of the file.
    asked
        What was asked, the first blank too.
    said
        Key to answer.
    name
        What the thing will be called in the file.

    Returns
    -------
    dict
        Keys and plain values.

    Raises
    ------
    InputError
        If something is not said yet; all of it.
    """
    keys = [blank.key for blank in asked]
    missing = [key for key in keys if not (said.get(key) or "").strip()]
    if missing:
        told = "is not said yet"
        raise InputError(
            [Problem("scenario", None, f"{kind}.{name}.{key}", "missing", told) for key in missing]
        )
    entry = {key: value_of(str(said[key])) for key in keys}
    entry = {key: value for key, value in entry.items() if value != NOTHING}
    hints = get_type_hints(RECORDS[kind])
    entry |= {
        key_of(field): value
        for field, value in NOT_ASKED.items()
        if field in hints and key_of(field) not in keys
    }
    if "thickness" in entry:
        entry["packing"] = {part: entry.pop(part) for part in ("material", "thickness")}
    return entry
