"""The press: fills a template; every word of the household is escaped on its way."""

import re
from functools import lru_cache

from jinja2 import Environment, PackageLoader, StrictUndefined

from optimizer.report.layout import TIED

POLICY = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'"
"""No script, no picture, no address: a page that can do nothing but be read."""


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


@lru_cache(maxsize=1)
def _press() -> Environment:
    """Return the press: all is escaped, and a word that is missing is an error."""
    press = Environment(
        loader=PackageLoader("optimizer.report.paper", ""),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    press.filters["tied"] = tied
    press.globals["policy"] = POLICY
    return press


def printed(template: str, **words: object) -> str:
    """Fill a template.

    Parameters
    ----------
    template
        Its name in this package.
    **words
        What it is filled with.

    Returns
    -------
    str
        HTML that needs nothing beside it.
    """
    return _press().get_template(template).render(**words)
