"""The workbook: all sheets in order, put in place at once."""

from __future__ import annotations

import os
import tempfile
from copy import deepcopy
from datetime import datetime
from pathlib import Path
from typing import Any

from xlsxwriter import Workbook

from footprint.report.arrange import arrange
from footprint.report.book import Book
from footprint.report.charts import write_charts
from footprint.report.checks import write_checks
from footprint.report.desk import Desk
from footprint.report.factors import write_factors
from footprint.report.files import write_files
from footprint.report.findings import write_findings
from footprint.report.first import write_glance, write_sign_off
from footprint.report.how import write_how
from footprint.report.listed import write_listing
from footprint.report.looks import Looks
from footprint.report.pages import write_page
from footprint.report.picture import write_picture
from footprint.report.plan import YEAR, ListSheet
from footprint.report.readings import write_readings
from footprint.report.sheet import Stored, strict
from footprint.report.tabled import write_tables

LONGEST_PROPERTY = 255  # characters that the file format holds
OPTIONS: dict[str, Any] = {
    "strings_to_numbers": False,
    "strings_to_formulas": False,
    "strings_to_urls": False,
    "default_format_properties": {"font_name": "Arial", "font_size": 10},
}


def as_computed(value: float | str) -> float | str:
    """Return the result of a formula as it was computed.

    Args:
        value: number or words. [any]

    Source: definition
    """
    return value


def report(book: Book, path: Path, *, stored: Stored = as_computed) -> None:
    """Write the workbook; the same book gives the same bytes.

    Args:
        book: what is shown. [book]
        path: the file to write or to replace. [path]
        stored: result stored beside a formula; tests falsify it to prove recalculation. [function]

    Raises:
        LayoutError: a row has no place: our own mistake.
        WorkbookError: the file format refuses a cell: our own mistake.

    Source: definition
    """
    handle, name = tempfile.mkstemp(suffix=".xlsx", prefix=".", dir=path.parent)
    os.close(handle)
    try:
        with strict():
            _write(book, name, stored)
        Path(name).chmod(0o666 & ~_umask())
        Path(name).replace(path)
    except BaseException:
        Path(name).unlink()
        raise


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _write(book: Book, name: str, stored: Stored) -> None:
    layout = arrange(book)
    workbook = Workbook(name, deepcopy(OPTIONS))  # the library adds to what it is given
    _tell_properties(workbook, book)
    desk = Desk(layout, workbook, Looks(workbook), stored)
    write_glance(desk)
    write_sign_off(desk)
    if book.checks:
        write_checks(desk)
    if book.findings:
        write_findings(desk)
    for page in layout.pages:
        if isinstance(page, ListSheet):
            write_listing(desk, page)
            continue
        sheet = write_page(desk, page)
        last = write_picture(desk, sheet, write_charts(desk, sheet, page.next_row + 1))
        sheet.paper.print_area(0, 0, last, YEAR)
    if layout.readings:
        write_readings(desk)
    for tables in layout.tables:
        write_tables(desk, tables)
    if layout.factors.sections or layout.factors.iterated:
        write_factors(desk)
    if book.files:
        write_files(desk)
    write_how(desk)
    workbook.close()


def _tell_properties(workbook: Workbook, book: Book) -> None:
    workbook.set_properties(
        {
            "title": f"Carbon and energy, {book.works}, {book.year}",
            "subject": f"1 January to 31 December {book.year}",
            "company": book.operator,
            "created": datetime(book.year, 12, 31),  # noqa: DTZ001  the file format knows no zones
        }
    )
    facts = {
        "Works": book.works,
        "Period": str(book.year),
        "Plan": book.plan,
        "Tool": book.tool_version,
        "Rules": ", ".join(book.bases),
        "Run": book.fingerprint,
    }
    for words, fact in facts.items():
        workbook.set_custom_property(words, fact[:LONGEST_PROPERTY], "text")
