"""Workbooks as sparse cells: formulas and stored results side by side."""

from __future__ import annotations

import math
import re
import warnings
from datetime import date, datetime, time, timedelta
from functools import lru_cache
from hashlib import sha256
from io import BytesIO

import openpyxl
from openpyxl.cell.cell import Cell as WorkbookCell
from openpyxl.chartsheet import Chartsheet
from openpyxl.utils import column_index_from_string
from openpyxl.workbook import Workbook
from openpyxl.worksheet.worksheet import Worksheet

from footprint.read.fault import Refusal
from footprint.read.part_scan import UNSAFE_WORKBOOK
from footprint.read.sheet import Book, Cell, Kind, Merged, Sheet

_QUOTED_OR_COLOURED = re.compile(r'"[^"]*"|\[[^\]]*\]|\\.')
_DIGITS = 15  # a spreadsheet keeps no more
_TEXT_LIMIT = 32_767  # as before
_COLUMNS = 16_384


def open_workbook(name: str, content: bytes) -> Book | Refusal:
    """Return the cells of all sheets of a workbook, or why it can't be opened.

    Args:
        name: of the file. [text]
        content: bytes that passed the guard. [bytes]

    Findings:
        unsafe-workbook: the workbook breaks the rules of its own format.

    Source: definition
    """
    try:
        stored = _load(content, is_result_wanted=False)
        results = _load(content, is_result_wanted=True) if _has_formula(stored) else stored
        sheets = tuple(
            _sheet(name, sheet, results[sheet.title])
            for sheet in stored.worksheets
            if not isinstance(sheet, Chartsheet)
        )
        if not sheets:
            return Refusal(UNSAFE_WORKBOOK, "the workbook holds no sheet that can be read")
    except Exception as fault:  # noqa: BLE001  what a strange file makes the library raise is not listed anywhere
        del fault  # its words are about the library, not about the user's file
        return Refusal(UNSAFE_WORKBOOK, "the workbook breaks the rules of its own format")
    return Book(name, len(content), sha256(content).hexdigest(), sheets)


def _load(content: bytes, *, is_result_wanted: bool) -> Workbook:
    """Return the workbook with its formulas, or with the results stored at the last saving."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # the library warns of decoration that it drops
        return openpyxl.load_workbook(
            BytesIO(content), data_only=is_result_wanted, keep_links=False, keep_vba=False
        )


def _cells(sheet: Worksheet) -> list[WorkbookCell]:
    """Return the cells that a sheet holds; public iterators make a cell for every gap."""
    return [cell for cell in sheet._cells.values() if isinstance(cell, WorkbookCell)]  # noqa: SLF001


def _has_formula(book: Workbook) -> bool:
    """Return whether any cell holds a formula, so that the results are needed too."""
    return any(cell.data_type == "f" for sheet in book.worksheets for cell in _cells(sheet))


def _sheet(file: str, sheet: Worksheet, results: Worksheet) -> Sheet:
    """Return one sheet as sparse cells."""
    cells = {
        (cell.row, cell.column): _cell(cell, results)
        for cell in _cells(sheet)
        if cell.value is not None and cell.value != ""
    }
    merged = tuple(
        Merged(area.min_row, area.min_col, area.max_row, area.max_col)
        for area in sheet.merged_cells.ranges
    )
    return Sheet(
        file,
        sheet.title,
        cells,
        is_hidden=sheet.sheet_state != "visible",
        hidden_rows=frozenset(row for row, one in sheet.row_dimensions.items() if one.hidden),
        hidden_columns=_hidden_columns(sheet),
        merged=merged,
    )


def _hidden_columns(sheet: Worksheet) -> frozenset[int]:
    """Return the hidden columns; a group of them is stored under the letter of its first."""
    hidden: set[int] = set()
    for letter, one in sheet.column_dimensions.items():
        if one.hidden:
            first = one.min or column_index_from_string(letter)
            hidden |= set(range(first, min(one.max or first, _COLUMNS) + 1))
    return frozenset(hidden)


def _cell(cell: WorkbookCell, results: Worksheet) -> Cell:
    """Return one cell with its stored result and, where it has one, its formula."""
    is_formula = cell.data_type == "f"
    value = results.cell(cell.row, cell.column).value if is_formula else cell.value
    formula = _formula(cell.value) if is_formula else ""
    is_percent = _shows_per_cent(str(cell.number_format))
    kind, plain = typed(value)
    is_error = cell.data_type == "e" or (
        is_formula and kind == "text" and str(value).startswith("#")
    )
    return Cell(
        cell.row,
        cell.column,
        "error" if is_error else kind,
        plain,
        written_of(plain, is_percent=is_percent and kind == "number"),
        is_percent=is_percent and kind == "number",
        formula=formula,
    )


@lru_cache(maxsize=1024)
def _shows_per_cent(number_format: str) -> bool:
    """Return whether cells of a number format show a hundred times what they hold."""
    return "%" in _QUOTED_OR_COLOURED.sub("", number_format)


def is_shown_as_percent(number_format: str) -> bool:
    """Return whether a number format shows per cent.

    Args:
        number_format: code of the format. [text]

    Source: definition
    """
    return "%" in _QUOTED_OR_COLOURED.sub("", number_format)


def _formula(value: object) -> str:
    """Return the text of a formula; formulas of a whole range carry theirs inside."""
    return str(getattr(value, "text", value) or "=")


def typed(value: object) -> tuple[Kind, float | str | datetime | bool]:
    """Return what the file says a value is.

    Args:
        value: as its library gives it. [any]

    Source: definition
    """
    match value:
        case None:
            found: tuple[Kind, float | str | datetime | bool] = ("no result", "")
        case bool():
            found = ("truth", value)
        case int() | float():
            found = ("number", float(value))
            if not math.isfinite(value):
                raise ValueError("no spreadsheet stores such a number")
        case datetime():
            found = ("date", value)
        case date():
            found = ("date", datetime.combine(value, time()))
        case time() | timedelta():
            found = ("time", str(value))
        case _:
            found = ("text", str(value))
            if len(str(value)) > _TEXT_LIMIT:
                raise ValueError("no spreadsheet stores such a text")
    return found


def written_of(value: float | str | datetime | bool, *, is_percent: bool) -> str:  # noqa: FBT001  a stored truth value
    """Return the text that a user recognises as the content of the cell.

    Args:
        value: of the cell. [any]
        is_percent: it is shown as per cent. [flag]

    Source: definition
    """
    if is_percent:
        return f"{float(value) * 100:.{_DIGITS}g} %"  # type: ignore[arg-type]
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if isinstance(value, float):
        return f"{value:.{_DIGITS}g}"
    if isinstance(value, datetime):
        clock = value.time()
        return f"{value:%Y-%m-%d}" if clock == time() else f"{value:%Y-%m-%d %H:%M}"
    return value
