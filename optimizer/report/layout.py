"""Plain lines of text, at most 80 columns wide, with wrapped labels and aligned columns."""

import re
import textwrap
from collections.abc import Sequence
from itertools import zip_longest

WIDTH = 80
GAP = "  "
TIED = "\xa0"  # a space that no line is broken at
UNITS = r"g|kg|mL|L|cups?|tbsp|tsp|oz|lb|qt|min|h|cm|m|MJ|kWh|°C|°F|%|of them"
NUMBER_AND_UNIT = re.compile(rf"(?<=\d) (?=(?:{UNITS})(?!\w))|(?<=\d) (?=\d/\d)")


def tied(text: str) -> str:
    """Keep a number and its unit on one line.

    Parameters
    ----------
    text
        A sentence.

    Returns
    -------
    str
        The same with spaces that no line is broken at.
    """
    return NUMBER_AND_UNIT.sub(TIED, text)


def broken(text: str, width: int, indent: str = "", after: str = "") -> list[str]:
    """Break a text into lines, never between a number and what it counts."""
    tied = re.sub(r"(?<=\d) (?=\S)", TIED, text)
    lines = textwrap.wrap(
        tied, width, initial_indent=indent, subsequent_indent=after, break_on_hyphens=False
    )
    return [line.replace(TIED, " ") for line in lines]


def wrap(text: str, indent: str = "", after: str | None = None) -> list[str]:
    """Break a text into lines; ``after`` indents the second line and those below it."""
    return broken(text, WIDTH, indent, indent if after is None else after)


def beside(cells: Sequence[str], widths: Sequence[int]) -> list[str]:
    """Set texts side by side, each wrapped in its own column."""
    columns = [broken(cell, width) or [""] for cell, width in zip(cells, widths, strict=True)]
    return [
        GAP.join(part.ljust(width) for part, width in zip(line, widths, strict=True)).rstrip()
        for line in zip_longest(*columns, fillvalue="")
    ]


def column_widths(rows: Sequence[Sequence[str]], width: int) -> list[int]:
    """Give each column what it needs, and the first what is left of it."""
    needs = [max(len(row[i]) for row in rows) for i in range(len(rows[0]))]
    left = width - sum(needs[1:]) - len(GAP) * (len(needs) - 1)
    return [min(needs[0], left), *needs[1:]]


def table(title: str, header: Sequence[str], rows: Sequence[Sequence[str]]) -> list[str]:
    """Set a table under its header line; the first column is indented and may wrap."""
    widths = column_widths([("", *header), *rows], WIDTH - len(GAP))
    widths[0] = max(widths[0], min(len(title) - len(GAP), WIDTH // 3))
    body = [GAP + line for row in rows for line in beside(row, widths)]
    head = beside((title, *header), [widths[0] + len(GAP), *widths[1:]])
    return [*head, *body]
