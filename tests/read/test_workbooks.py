from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime, time
from io import BytesIO
from typing import Any
from zipfile import ZipFile

import openpyxl
import pytest
from openpyxl.worksheet.worksheet import Worksheet

from footprint.read.fault import Refusal
from footprint.read.sheet import Book, Merged
from footprint.read.workbook import open_workbook


def saved(change: Callable[[Worksheet], Any]) -> bytes:
    """Return the bytes of a workbook whose only sheet was changed before it was saved."""
    book = openpyxl.Workbook()
    change(book.worksheets[0])
    stream = BytesIO()
    book.save(stream)
    return stream.getvalue()


def book_of(content: bytes) -> Book:
    """Return a workbook that can be opened."""
    found = open_workbook("file.xlsx", content)
    assert isinstance(found, Book)
    return found


def opened(change: Callable[[Worksheet], Any]) -> Book:
    """Return a workbook whose only sheet was changed before it was saved."""
    return book_of(saved(change))


def with_part_changed(content: bytes, name: str, old: bytes, new: bytes) -> bytes:
    """Return a workbook in one of whose parts a text was replaced."""
    stream = BytesIO()
    with ZipFile(BytesIO(content)) as given, ZipFile(stream, "w") as packed:
        for part in given.namelist():
            text = given.read(part)
            assert part != name or old in text
            packed.writestr(part, text.replace(old, new) if part == name else text)
    return stream.getvalue()


@pytest.mark.parametrize(
    ("value", "kind", "written"),
    [
        (5, "number", "5"),
        (184320.25, "number", "184320.25"),
        (0.1 + 0.2, "number", "0.3"),
        ("n/a", "text", "n/a"),
        (True, "truth", "TRUE"),
        (datetime(2025, 3, 4), "date", "2025-03-04"),  # noqa: DTZ001
        (date(2025, 3, 4), "date", "2025-03-04"),
        (datetime(2025, 3, 4, 6, 30), "date", "2025-03-04 06:30"),  # noqa: DTZ001
        (time(6, 30), "time", "06:30:00"),
        ("#N/A", "error", "#N/A"),
        ("=A2", "no result", ""),
    ],
)
def test_cell_has_the_kind_of_its_value(value: Any, kind: str, written: str) -> None:
    """A cell is what the file says it is, and shows what the user sees."""
    book = opened(lambda sheet: sheet.cell(1, 1, value))

    cell = book.sheets[0].cells[(1, 1)]

    assert (cell.kind, cell.written) == (kind, written)


@pytest.mark.parametrize(
    ("form", "is_percent"),
    [("0.0%", True), ("0 %", True), ("General", False), ('0.0 "% N"', False), ("[Red]0", False)],
)
def test_format_of_per_cent_is_told_from_a_word(form: str, is_percent: bool) -> None:  # noqa: FBT001
    """A cell is shown as per cent by its format, not by a quoted sign."""

    def change(sheet: Worksheet) -> None:
        sheet["A1"] = 0.985
        sheet["A1"].number_format = form

    cell = opened(change).sheets[0].cells[(1, 1)]

    assert cell.is_percent == is_percent
    assert cell.written == ("98.5 %" if is_percent else "0.985")


def test_hidden_and_merged_parts_are_told() -> None:
    """Hidden rows, grouped hidden columns and merged ranges are known."""

    def change(sheet: Worksheet) -> None:
        sheet["A1"] = "Title"
        sheet.merge_cells("A1:C1")
        sheet.row_dimensions[3].hidden = True
        sheet.column_dimensions.group("D", "F", hidden=True)

    sheet = opened(change).sheets[0]

    assert sheet.merged == (Merged(1, 1, 1, 3),)
    assert sheet.hidden_rows == {3}
    assert sheet.hidden_columns == {4, 5, 6}


def test_empty_cells_with_a_format_hold_nothing() -> None:
    """A cell that only has a colour or a format is empty."""

    def change(sheet: Worksheet) -> None:
        sheet["B9"].number_format = "0.0%"
        sheet["A1"] = 1

    assert list(opened(change).sheets[0].cells) == [(1, 1)]


def test_wrong_size_of_sheet_in_the_file_hides_no_cell() -> None:
    """All cells are read even where the file states a smaller size of its sheet."""
    content = saved(lambda sheet: sheet.append([1, 2, 3]))
    sheet = "xl/worksheets/sheet1.xml"
    wrong = with_part_changed(content, sheet, b'<dimension ref="A1:C1"', b'<dimension ref="A1"')

    book = book_of(wrong)

    assert len(book.sheets[0].cells) == 3


def test_cells_without_address_follow_their_neighbours() -> None:
    """A cell without an address stands to the right of the one before it."""
    content = saved(lambda sheet: sheet.append([1, 2, 3]))
    sheet = "xl/worksheets/sheet1.xml"

    book = book_of(with_part_changed(content, sheet, b' r="B1"', b""))

    assert [cell.value for cell in book.sheets[0].cells.values()] == [1, 2, 3]


def test_number_that_is_none_refuses_the_workbook() -> None:
    """A stored number that is none makes the workbook unreadable, in words."""
    content = saved(lambda sheet: sheet.append([1, 2, 3]))
    sheet = "xl/worksheets/sheet1.xml"
    wrong = with_part_changed(content, sheet, b"<v>2</v>", b"<v>NaN</v>")

    found = open_workbook("file.xlsx", wrong)

    assert isinstance(found, Refusal)
    assert found.code.code == "unsafe-workbook"


def test_fingerprint_is_that_of_the_bytes() -> None:
    """Equal bytes have equal fingerprints, whatever the name of the file."""
    content = saved(lambda sheet: sheet.append([1, 2, 3]))

    first, second = book_of(content), open_workbook("other.xlsx", content)

    assert isinstance(second, Book)
    assert first.sha256 == second.sha256
    assert first.size == len(content)
