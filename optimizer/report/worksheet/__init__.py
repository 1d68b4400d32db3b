"""Worksheets for a class: predict, measure, compare; a teacher's page; a table of results."""

from optimizer.report.worksheet.page import teacher_html, worksheet_html
from optimizer.report.worksheet.results import results_csv

__all__ = ["results_csv", "teacher_html", "worksheet_html"]
