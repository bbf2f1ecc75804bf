"""The numbers behind a series for its trainer: as text for the terminal, as data for other programs."""

from sitegen.report.gather import Report, gather
from sitegen.report.plain_data import report_data
from sitegen.report.text import report_lines

__all__ = ["Report", "gather", "report_data", "report_lines"]
