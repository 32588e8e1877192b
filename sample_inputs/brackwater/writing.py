"""Workbooks and text files of the invented works, the same bytes each time."""

from __future__ import annotations

import csv
from collections.abc import Callable, Iterable, Sequence
from datetime import datetime
from math import isnan
from pathlib import Path

import numpy as np
import xlsxwriter
from xlsxwriter.utility import xl_range

from .sheets import Column, Table
from .trade import Ticket

CREATED = datetime(2026, 1, 12, 8, 0)  # noqa: DTZ001  # spreadsheets know no time zone
WORKS = "Brackwater Works"
HEADER = 3  # rows above it: the works, the title, an empty one

Readings = Callable[[str, Column], Sequence[float]]  # sheet name and column to what is written


def write_workbooks(folder: Path, tables: Iterable[Table], readings: Readings) -> None:
    """Return nothing; write the workbooks, one sheet a table.

    Args:
        folder: where they go; must exist. [path]
        tables: sheets of a workbook in the order given. [tables]
        readings: what is written for a column of a sheet. [function]

    Source: definition
    """
    by_file: dict[str, list[Table]] = {}
    for table in tables:
        by_file.setdefault(table.file, []).append(table)
    for name, sheets in by_file.items():
        with xlsxwriter.Workbook(str(folder / name)) as book:
            book.set_properties({"created": CREATED, "title": name, "author": WORKS})
            for table in sheets:
                _write_sheet(book, table, readings)


def _write_sheet(book: xlsxwriter.Workbook, table: Table, readings: Readings) -> None:
    """Write titles, an empty row, headings, perhaps units, the readings, perhaps totals."""
    sheet, bold = book.add_worksheet(table.sheet), book.add_format({"bold": True})
    first = HEADER + (2 if table.has_unit_row else 1)
    sheet.write(0, 0, WORKS, bold)
    sheet.write(1, 0, f"{table.title}, {table.dates[-2].year}")
    sheet.set_column(0, len(table.columns), 16)
    sheet.freeze_panes(first, 1)
    head = {"bold": True, "text_wrap": True, "bottom": 1}
    heading = book.add_format({**head, "align": "right"})
    sheet.write(HEADER, 0, table.date_heading, book.add_format(head))
    dated = book.add_format({"num_format": table.date_format})
    for row, day in enumerate(table.dates, first):
        sheet.write_datetime(row, 0, datetime(day.year, day.month, day.day), dated)  # noqa: DTZ001
    if table.has_total:
        sheet.write(first + len(table.dates), 0, "Total", bold)
    for place, column in enumerate(table.columns, 1):
        values = [float(value) for value in readings(table.sheet, column)]
        _write_headings(sheet, table, place, heading)
        _write_values(sheet, (first, place), values, book.add_format(_shown(column)))
        if table.has_total and not column.is_level:
            _write_total(sheet, (first, place), values, book.add_format(_shown(column)))
    if table.status:
        place = len(table.columns) + 1
        sheet.write(HEADER, place, "Status", book.add_format(head))
        sheet.write_column(first, place, table.status)


def _shown(column: Column) -> dict[str, str]:
    """Return how the numbers of a column are shown."""
    return {"num_format": "#,##0" + ("." + "0" * column.decimals if column.decimals else "")}


def _write_headings(
    sheet: xlsxwriter.workbook.Worksheet, table: Table, place: int, shown: object
) -> None:
    """Write a heading with its unit behind it or below it."""
    column = table.columns[place - 1]
    if table.has_unit_row:
        sheet.write(HEADER, place, column.heading, shown)
        sheet.write(HEADER + 1, place, column.unit, shown)
    else:
        unit = f" ({column.unit})" if column.unit else ""
        sheet.write(HEADER, place, column.heading + unit, shown)


def _write_values(
    sheet: xlsxwriter.workbook.Worksheet,
    start: tuple[int, int],
    values: Sequence[float],
    shown: object,
) -> None:
    """Write the readings of a column downwards; the cell of a missing one stays empty."""
    for row, value in enumerate(values, start[0]):
        if not isnan(value):
            sheet.write_number(row, start[1], value, shown)


def _write_total(
    sheet: xlsxwriter.workbook.Worksheet,
    start: tuple[int, int],
    values: Sequence[float],
    shown: object,
) -> None:
    """Write a live sum below a column, with its result."""
    row, place = start[0] + len(values), start[1]
    cells = xl_range(start[0], place, row - 1, place)
    sheet.write_formula(row, place, f"=SUM({cells})", shown, round(float(np.nansum(values)), 6))


def write_tickets(path: Path, tickets: Sequence[Ticket]) -> None:
    """Return nothing; write the weighbridge tickets as text.

    Args:
        path: of the file. [path]
        tickets: in order of time. [tickets]

    Source: definition
    """
    with path.open("w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\r\n")
        writer.writerow(["Date", "Ticket", "Vehicle", "Customer", "Net weight (t)"])
        for ticket in tickets:
            day, net = ticket.day.isoformat(), f"{ticket.net:.2f}"
            writer.writerow([day, ticket.number, ticket.vehicle, "Drinks and food", net])
