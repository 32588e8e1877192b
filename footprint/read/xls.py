"""Old binary workbooks as sparse cells, by the library xlrd, which tells no formulas."""

from __future__ import annotations

import importlib
import io
from typing import Any

from footprint.read.sheet import Cell, Merged, Sheet
from footprint.read.workbook import is_shown_as_percent, typed, written_of

_EMPTY, _DATE, _TRUTH, _ERROR, _BLANK = 0, 3, 4, 5, 6  # kinds of cell in the library


def sheets_of_xls(name: str, content: bytes) -> tuple[Sheet, ...]:
    """Return the sheets of an old binary workbook that passed the guard.

    Args:
        name: of the file. [text]
        content: of the file. [bytes]

    Raises:
        ImportError: the library is not installed.

    Source: definition
    """
    library = importlib.import_module("xlrd")
    book = library.open_workbook(
        file_contents=content, formatting_info=True, ragged_rows=True, logfile=io.StringIO()
    )
    return tuple(_sheet(library, name, sheet) for sheet in book.sheets())


def _sheet(library: Any, file: str, sheet: Any) -> Sheet:
    """Return one sheet as sparse cells."""
    cells = {
        (row + 1, column + 1): _cell(library, sheet, row, column)
        for row in range(sheet.nrows)
        for column in range(sheet.row_len(row))
        if sheet.cell_type(row, column) not in (_EMPTY, _BLANK)
        and sheet.cell_value(row, column) != ""
    }
    return Sheet(
        file,
        sheet.name,
        cells,
        is_hidden=sheet.visibility != 0,
        hidden_rows=frozenset(at + 1 for at, one in sheet.rowinfo_map.items() if one.hidden),
        hidden_columns=frozenset(at + 1 for at, one in sheet.colinfo_map.items() if one.hidden),
        merged=tuple(
            Merged(first + 1, left + 1, after, beyond)
            for first, after, left, beyond in sheet.merged_cells
        ),
    )


def _cell(library: Any, sheet: Any, row: int, column: int) -> Cell:
    """Return one cell."""
    cell, book = sheet.cell(row, column), sheet.book
    if cell.ctype == _ERROR:
        text = str(library.error_text_from_code.get(cell.value, "#N/A"))
        return Cell(row + 1, column + 1, "error", text, text)
    value: object = cell.value
    if cell.ctype == _DATE:
        value = _date(library, book, cell.value)
    elif cell.ctype == _TRUTH:
        value = bool(cell.value)
    kind, plain = typed(value)
    number_format = book.format_map[book.xf_list[cell.xf_index].format_key].format_str
    is_percent = kind == "number" and is_shown_as_percent(number_format)
    text = written_of(plain, is_percent=is_percent)
    return Cell(row + 1, column + 1, kind, plain, text, is_percent=is_percent)


def _date(library: Any, book: Any, serial: float) -> object:
    """Return the date of a serial number, a time of day where it names no day.

    A serial that no calendar has stays a number.
    """
    try:
        found = library.xldate_as_datetime(serial, book.datemode)
    except (library.xldate.XLDateError, OverflowError, ValueError):
        return serial
    return found.time() if serial < 1 else found
