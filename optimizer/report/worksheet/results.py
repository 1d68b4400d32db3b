"""A table to collect a class's results in: CSV that a spreadsheet opens and never runs."""

import csv
import io

from optimizer.model.household import Scenario
from optimizer.report.measures import Units, measures
from optimizer.report.worksheet.rows import readings
from optimizer.report.worksheet.words import WORDS
from optimizer.studies.classroom import class_tests

COLUMNS = (
    "place", "date", "group", "test", "setup", "what", "unit",
    "our prediction", "measured 1", "measured 2", "measured 3", "notes",
)  # fmt: skip
RUNS = ("=", "+", "-", "@", "\t", "\r", "\n")


def guarded(cell: str) -> str:
    """Keep a spreadsheet from taking text for a formula.

    Parameters
    ----------
    cell
        Any text.

    Returns
    -------
    str
        The same, behind an apostrophe where it could be run.
    """
    return f"'{cell}" if cell.lstrip(" ").startswith(RUNS) else cell


def results_csv(scenario: Scenario, units: Units = "metric") -> str:
    """Write the table that a class fills in.

    Parameters
    ----------
    scenario
        The household whose place it is.
    units
        ``metric`` or ``us``.

    Returns
    -------
    str
        CSV with a row for every reading; what the planner expects is not in it.
    """
    out = io.StringIO()
    table = csv.writer(out, lineterminator="\r\n")
    table.writerow(COLUMNS)
    for test in class_tests(scenario):
        for row in readings(test, measures(units)):
            given = [scenario.title, "", "", WORDS[row.test].title, row.setup, row.what, row.unit]
            table.writerow([guarded(cell) for cell in given + [""] * (len(COLUMNS) - len(given))])
    return out.getvalue()
