"""The press: fills a template; every word of the household is escaped on its way."""

from functools import lru_cache

from jinja2 import Environment, PackageLoader, StrictUndefined

from optimizer.report.layout import tied

POLICY = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'"
"""No script, no picture, no address: a page that can do nothing but be read."""


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
