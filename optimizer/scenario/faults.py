"""What pydantic finds wrong, told to a person: expected, given, and the nearest key or word."""

from collections.abc import Iterable
from difflib import get_close_matches
from typing import Any, get_args

from pydantic import BaseModel
from pydantic_core import ErrorDetails

from optimizer.scenario.document import Document, Location

MOST_NAMED = 30  # names that are known; more are no help
_KINDS = {
    "int_type": "a whole number",
    "int_from_float": "a whole number",
    "float_type": "a number",
    "bool_type": "true or false",
    "string_type": "text",
    "string_too_short": "some text",
    "string_too_long": "a shorter text",
    "dict_type": "lines such as 'key: value'",
    "model_type": "lines such as 'key: value'",
    "list_type": "a list",
}
_NEAR = 0.6  # likeness of two words from which one may have been meant
_RULES = {
    "greater_than": ("more than", "gt"),
    "greater_than_equal": ("at least", "ge"),
    "less_than": ("less than", "lt"),
    "less_than_equal": ("at most", "le"),
}


def near(word: str, known: Iterable[str]) -> str:
    """Ask whether the nearest known word was meant.

    Parameters
    ----------
    word
        What was given.
    known
        What there is.
    """
    listed = sorted(known)
    found = get_close_matches(word, listed, n=1, cutoff=_NEAR)
    if found:
        return f"; did you mean '{found[0]}'?"
    return f"; known: {', '.join(listed)}" if len(listed) <= MOST_NAMED else ""


def note(document: Document, model: type[BaseModel], found: list[ErrorDetails]) -> None:
    """Note what pydantic finds wrong; a key that is only misspelt is not missing as well.

    Parameters
    ----------
    document
        The file.
    model
        Model of the whole file.
    found
        What pydantic says.
    """
    meant: set[Location] = set()
    for error in sorted(found, key=lambda each: each["type"] == "missing"):
        location: Location = error["loc"]
        kind = error["type"]
        if kind == "extra_forbidden":
            meant.add((*location[:-1], _unknown_key(document, model, location)))
        elif kind != "missing":
            document.problem(location, _code(kind), _message(error))
        elif location not in meant:
            what = f"'{location[-1]}' is missing{_written(model, location)}"
            document.problem(location[:-1], "missing", what)


def _unknown_key(document: Document, model: type[BaseModel], location: Location) -> str:
    """Note a key that the file may not have here, and give the one that may have been meant."""
    known = _keys_at(model, location[:-1])
    key = str(location[-1])
    document.problem(location, "unknown_key", f"unknown key '{key}'{near(key, known)}")
    return next(iter(get_close_matches(key, sorted(known), n=1, cutoff=_NEAR)), "")


def _code(kind: str) -> str:
    if kind in _KINDS:
        return "type"
    if kind in {"literal_error", "string_pattern_mismatch"}:
        return "choice"
    return "bounds" if kind in _RULES or kind.startswith("too_") else kind


def _message(error: ErrorDetails) -> str:
    """Tell what was expected and what was given."""
    kind, given = error["type"], _given(error["input"])
    context: dict[str, Any] = error.get("ctx", {})
    if kind in _KINDS:
        return f"expected {_KINDS[kind]}, given {given}"
    if kind in _RULES:
        rule, limit = _RULES[kind]
        return f"must be {rule} {context[limit]:g}, given {given}"
    if kind == "literal_error":
        choices = context["expected"]
        words = [word.strip("' ") for word in choices.replace(" or ", ",").split(",")]
        return f"expected {choices}, given {given}{near(str(error['input']), words)}"
    if kind == "string_pattern_mismatch":
        return f"expected a code of three capital letters such as EUR, given {given}"
    if kind in {"too_short", "too_long"}:
        edge, few = ("min_length", "at least") if kind == "too_short" else ("max_length", "at most")
        return f"must have {few} {context[edge]} entries, has {context['actual_length']}"
    return str(error["msg"])


def _given(value: Any) -> str:
    """Show a value that is wrong, shortened."""
    if isinstance(value, dict):
        return "a mapping"
    if isinstance(value, list):
        return "a list"
    if value is None or isinstance(value, bool):
        return {None: "nothing", True: "true", False: "false"}[value]
    return repr(value[:60]) if isinstance(value, str) else f"{value!s:.60}"


def _written(model: type[BaseModel], location: Location) -> str:
    """Show how a missing key might be written, where its field knows."""
    for part in _models_at(model, location[:-1]):
        field = part.model_fields.get(str(location[-1]))
        shown = (
            next((m.written for m in field.metadata if hasattr(m, "written")), None)
            if field
            else None
        )
        if shown:
            return f"; write for example '{location[-1]}: {shown}'"
    return ""


def _keys_at(model: type[BaseModel], location: Location) -> set[str]:
    """Find the keys a mapping may have at a place of the file."""
    return {key for part in _models_at(model, location) for key in part.model_fields}


def _models_at(model: type[BaseModel], location: Location) -> list[type[BaseModel]]:
    """Find the models a place of the file may be of."""
    reached: list[type[BaseModel]] = [model]
    for part in location:
        fields = [m.model_fields.get(str(part)) for m in reached]
        steps = [found for field in fields if field for found in _models_in(field.annotation)]
        reached = steps or reached
    return reached


def _models_in(annotation: Any) -> list[type[BaseModel]]:
    """Find the models inside a type, such as that of the values of a mapping."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return [annotation]
    return [found for part in get_args(annotation) for found in _models_in(part)]
