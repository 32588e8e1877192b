"""Random sheets as spreadsheet programs write them, many to a workbook."""

from __future__ import annotations

from datetime import datetime, timedelta
from io import BytesIO
from random import Random
from typing import Any

import xlsxwriter
from xlsxwriter.format import Format
from xlsxwriter.worksheet import Worksheet

SHEETS = 25  # in a workbook
FIRST_DAY = datetime(2005, 1, 1)  # noqa: DTZ001  spreadsheets know no zones
DAYS = 365 * 40
HEADINGS = ("Date", "Feed gas (Nm³)", "Power, MWh", "Größe", "  two  blanks ", "100 %")


def random_workbook(seed: int) -> bytes:
    """Return a workbook of random sheets; every second one counts its dates from 1904."""
    dice = Random(seed)  # noqa: S311  a test's dice
    stream = BytesIO()
    options = {"date_1904": bool(seed % 2), "in_memory": True}
    with xlsxwriter.Workbook(stream, options) as book:
        shown = book.add_format({"num_format": "dd/mm/yyyy"})
        for number in range(SHEETS):
            _fill(book.add_worksheet(f"Sheet {number}"), dice, shown)
    return stream.getvalue()


def _fill(sheet: Worksheet, dice: Random, shown: Format) -> None:
    """Write headings, some of them merged, and rows with blanks."""
    top, left = dice.randrange(6), dice.randrange(4)
    rows, columns = dice.randrange(1, 12), dice.randrange(1, 6)
    if columns > 1 and dice.random() < 0.5:
        sheet.merge_range(top, left, top, left + columns - 1, dice.choice(HEADINGS))
    else:
        sheet.write_string(top, left, dice.choice(HEADINGS))
    for row in range(top + 1, top + 1 + rows):
        for column in range(left, left + columns):
            if dice.random() < 0.8:
                _write(sheet, (row, column), dice, shown)


def _write(sheet: Worksheet, place: tuple[int, int], dice: Random, shown: Format) -> None:
    """Write one cell of a random kind."""
    row, column = place
    kind = dice.randrange(6)
    if kind == 0:
        sheet.write_datetime(row, column, FIRST_DAY + timedelta(days=dice.randrange(DAYS)), shown)
    elif kind == 1:
        sheet.write_formula(row, column, "=1+1", None, _number(dice))
    elif kind == 2:
        sheet.write_string(row, column, dice.choice(HEADINGS))
    elif kind == 3:
        sheet.write_boolean(row, column, dice.random() < 0.5)
    else:
        sheet.write_number(row, column, _number(dice))


def _number(dice: Random) -> float:
    """Return a number of any size, with as many digits as a spreadsheet keeps."""
    return float(f"{dice.uniform(-1, 1) * 10 ** dice.randrange(-6, 9):.15g}")


def plain(value: Any) -> Any:
    """Return a value in the form in which all readers can be compared."""
    if isinstance(value, int) and not isinstance(value, bool):
        return float(value)
    if isinstance(value, datetime) or not hasattr(value, "year"):
        return value
    return datetime(value.year, value.month, value.day)  # noqa: DTZ001  a date without a time
