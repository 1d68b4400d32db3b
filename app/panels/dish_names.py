"""What the cook calls the dishes of a menu, and the foods and marks that people leave out."""

from collections.abc import Mapping
from typing import Any

from app import entries
from app.panels.numbers import label_of, record_of
from optimizer.model.eaters import MARKS
from optimizer.shelf import load


def dish_label(name: str) -> str:
    """Say what the cook calls a dish.

    Parameters
    ----------
    name
        Its name in the file.
    """
    return label_of("dishes", name, record_of("dishes", name))


def served_label(entry: Any) -> str:
    """Say what the cook calls a dish as it stands in a meal, and what is left out of it.

    Parameters
    ----------
    entry
        A bare name, or what is said of the dish; or a big boil.
    """
    if isinstance(entry, Mapping) and isinstance(entry.get("one_boil"), list):
        return "one boil for " + ", ".join(served_label(each) for each in entry["one_boil"])
    said = entry if isinstance(entry, Mapping) else {"dish": entry}
    without = said.get("without")
    left_out = f" without {words_told(without).replace('_', ' ')}" if without else ""
    return dish_label(str(said.get("dish", "?"))) + left_out


def words_told(given: Any) -> str:
    """Write a word, or several of them, of the file.

    Parameters
    ----------
    given
        As it stands there.
    """
    return ", ".join(map(str, given)) if isinstance(given, list) else str(given)


def left_out_words() -> list[str]:
    """Give the words for what people may leave out: marks, then all foods by their names."""
    return list(dict.fromkeys((*MARKS, *load().foods, *entries.mapping(("foods",)))))


def left_out_label(word: str) -> str:
    """Say what is left out.

    Parameters
    ----------
    word
        A mark, such as meat, or the name of a food.
    """
    if word in MARKS:
        return f"anything with {word}"
    return label_of("foods", word, record_of("foods", word))
