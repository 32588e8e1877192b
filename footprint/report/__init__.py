"""The last stage: workbook, charts, picture of flows, terminal text, tables."""

from footprint.report.assemble import book_of
from footprint.report.book import Book, ChartRows, Flow, Headline, Verdict
from footprint.report.returns import Returns
from footprint.report.tables import as_json
from footprint.report.terminal import counted, summary
from footprint.report.workbook import report

__all__ = [
    "Book",
    "ChartRows",
    "Flow",
    "Headline",
    "Returns",
    "Verdict",
    "as_json",
    "book_of",
    "counted",
    "report",
    "summary",
]
