"""The plan of the whole workbook, made before anything is written."""

from __future__ import annotations

from footprint.report.book import Book
from footprint.report.layout import Layout, empty_layout, refuse_homeless
from footprint.report.place_leaves import place_factors, place_readings
from footprint.report.place_months import place_checks, place_pages, place_steps
from footprint.report.place_tables import place_tables


def arrange(book: Book) -> Layout:
    """Return where every named row of a book stands.

    Args:
        book: what is shown. [book]

    Raises:
        LayoutError: a row has no place, two share a key, or two sheets share a name.

    Source: definition
    """
    layout = empty_layout(book)
    place_pages(layout)
    place_checks(layout)
    place_readings(layout)
    place_factors(layout)
    place_tables(layout)
    place_steps(layout)
    refuse_homeless(layout)
    return layout
