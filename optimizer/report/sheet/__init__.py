"""The plan on paper: one self-contained page of HTML that prints a sheet a day."""

from optimizer.report.sheet.page import fridge_html, sheet_html

__all__ = ["fridge_html", "sheet_html"]
