from __future__ import annotations

from io import BytesIO
from typing import Any

import openpyxl
import pytest
import python_calamine

from footprint.read.sheet import Book
from footprint.read.workbook import open_workbook
from tests.referee.random_sheets import SHEETS, plain, random_workbook

WORKBOOKS = 40  # of 25 sheets: 1,000 sheets
Cells = dict[tuple[int, int], Any]


def ours(content: bytes) -> list[Cells]:
    """Return the cells of each sheet as this package reads them."""
    book = open_workbook("random.xlsx", content)
    assert isinstance(book, Book)
    return [{place: cell.value for place, cell in sheet.cells.items()} for sheet in book.sheets]


def of_calamine(content: bytes) -> list[Cells]:
    """Return the cells of each sheet as calamine reads them, counted from A1."""
    book = python_calamine.CalamineWorkbook.from_filelike(BytesIO(content))
    sheets = [
        book.get_sheet_by_name(name).to_python(skip_empty_area=False) for name in book.sheet_names
    ]
    return [
        {
            (row, column): plain(value)
            for row, values in enumerate(sheet, start=1)
            for column, value in enumerate(values, start=1)
            if value != ""
        }
        for sheet in sheets
    ]


def of_openpyxl(content: bytes) -> list[Cells]:
    """Return the cells of each sheet as plain openpyxl reads stored results."""
    book = openpyxl.load_workbook(BytesIO(content), data_only=True)
    return [
        {
            (cell.row, cell.column): plain(cell.value)
            for row in sheet.iter_rows()
            for cell in row
            if cell.value is not None
        }
        for sheet in book.worksheets
    ]


@pytest.mark.parametrize("seed", range(WORKBOOKS))
def test_three_readers_agree_on_address_and_value(seed: int) -> None:
    """Three readers find the same values at the same addresses of random sheets."""
    content = random_workbook(seed)

    read = ours(content)

    assert len(read) == SHEETS
    assert any(read)
    assert read == of_calamine(content)
    assert read == of_openpyxl(content)
