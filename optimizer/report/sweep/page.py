"""A sweep as a page: the chart, and the table with the same numbers beneath."""

from markupsafe import Markup

from optimizer import shelf
from optimizer.report.measures import in_measures, measures
from optimizer.report.paper.press import printed
from optimizer.report.sweep.chart import panel_svg, told
from optimizer.report.sweep.panels import MOST_PANELS, Panel, Panels, panels_of
from optimizer.report.sweep.text import MIND, counted, header, notes, point_words, row_words
from optimizer.studies.sweep.study import Sweep

MOST_ROWS = 1000
CAUTIONS = ("makers_word", "flames_outdoors")


def sweep_html(known: Sweep) -> str:
    """Write the page of a sweep.

    Parameters
    ----------
    known
        What is known of it.

    Returns
    -------
    str
        HTML that needs nothing beside it, and no network.
    """
    whole, axes = panels_of(known), known.grid.axes
    drawn = [(panel.title, told(panel, whole), _svg(panel, whole)) for panel in whole.panels]
    system = measures("metric")
    return printed(
        "sweep.html",
        title=f"{known.scenario.title}: how many days the store lasts",
        counted=counted(known),
        drawn=drawn,
        left_out=whole.left_out,
        most_panels=MOST_PANELS,
        notes=[note for note in notes(known) if note != MIND],
        cautions=[in_measures(shelf.load().cautions[code].text, system) for code in CAUTIONS],
        header=header(known.scenario.currency),
        rows=[(point_words(row, axes), row_words(row), row) for row in known.rows[:MOST_ROWS]],
        more=max(0, len(known.rows) - MOST_ROWS),
    )


def _svg(panel: Panel, whole: Panels) -> Markup:
    """Draw a panel; vl-convert escapes every word in what it draws, which a test looks at."""
    return Markup(panel_svg(panel, whole))  # noqa: S704  (escaped)  # nosec B704
