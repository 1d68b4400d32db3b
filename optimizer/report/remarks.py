"""What answers about one thing have in common: parts, what to mind, what was written where."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from optimizer.report.layout import GAP, wrap
from optimizer.report.measures import Measures, in_measures
from optimizer.shelf import load


def joined(parts: Iterable[Sequence[str]]) -> str:
    """Set parts under each other with an empty line between; empty ones are left out.

    Parameters
    ----------
    parts
        Each some lines.
    """
    return "\n\n".join("\n".join(part) for part in parts if part)


def mind(codes: Iterable[str], system: Measures) -> list[str]:
    """Say what to mind.

    Parameters
    ----------
    codes
        Of the table of cautions.
    system
        The measures.
    """
    told = (in_measures(f"- {load().cautions[code].text}", system) for code in codes)
    return ["Mind", *(line for text in told for line in wrap(text, GAP, 2 * GAP))]


def written_into(values: Mapping[str, Any], written: str | None) -> list[str]:
    """Say what was written into which scenario.

    Parameters
    ----------
    values
        Keys of the file and their values; None was taken out.
    written
        The file; None if nothing was written.
    """
    if written is None:
        return []
    keys = {key: value for key, value in values.items() if value is not None}
    said = "; ".join(f"{key}: {value}" for key, value in keys.items() if key != "source")
    return wrap(f"Written into {written} ({said}). The version before is kept beside it.")
