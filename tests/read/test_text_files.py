from __future__ import annotations

import pytest

from footprint.read.sheet import Sheet
from footprint.read.textfile import open_text

LINES = ["Date;Feed gas (Nm³)", "2025-03-04;12,5", "2025-03-05;12,75"]


def sheet_in(content: bytes) -> Sheet:
    """Return the sheet of a text file that can be read."""
    book, findings = open_text("feed.csv", content)
    assert book is not None
    assert findings == []
    return book.sheets[0]


def texts(sheet: Sheet) -> list[str]:
    """Return the texts of all cells, by row and column."""
    return [str(sheet.cells[place].value) for place in sorted(sheet.cells)]


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16"])
def test_encoding_is_told_by_its_mark(encoding: str) -> None:
    """The same table in each encoding with a mark, or in plain UTF-8, gives the same cells."""
    sheet = sheet_in("\n".join(LINES).encode(encoding))

    assert texts(sheet)[:2] == ["Date", "Feed gas (Nm³)"]


@pytest.mark.parametrize("ending", ["\n", "\r\n", "\r"])
def test_line_endings_do_not_matter(ending: str) -> None:
    """The same table with the line endings of each system gives the same cells."""
    sheet = sheet_in(ending.join(LINES).encode())

    assert sheet.cells[(3, 2)].value == "12,75"


@pytest.mark.parametrize("delimiter", [";", "\t", "|", ","])
def test_delimiter_is_told_by_the_lines(delimiter: str) -> None:
    """Whatever sign parts all lines alike is the delimiter."""
    lines = ["Date;Feed gas", "2025-03-04;12.5", "2025-03-05;12.75"]

    sheet = sheet_in("\n".join(lines).replace(";", delimiter).encode())

    assert sheet.cells[(2, 2)].value == "12.5"


def test_comma_in_quotes_parts_nothing() -> None:
    """A comma inside quotes belongs to the field."""
    sheet = sheet_in(b'Date,"Feed gas, Nm3"\n2025-03-04,"12,5"\n')

    assert texts(sheet) == ["Date", "Feed gas, Nm3", "2025-03-04", "12,5"]


def test_decimal_comma_beside_semicolons_parts_nothing() -> None:
    """A comma that is not in the heading is a decimal mark, not a delimiter."""
    assert len(sheet_in("\n".join(LINES).encode()).cells) == 6


def test_line_with_sep_settles_the_delimiter() -> None:
    """A first line "sep=" settles the delimiter and is not counted as a row."""
    sheet = sheet_in(b"sep=,\nDate,Feed gas\n2025-03-04,12.5\n")

    assert sheet.cells[(1, 1)].value == "Date"


def test_titles_and_remarks_part_nothing() -> None:
    """Lines without any delimiter above or below the table do not hide the delimiter."""
    sheet = sheet_in(b"Works log\n\nDate;Feed gas\n2025-03-04;12.5\nchecked\n")

    assert sheet.cells[(3, 2)].value == "Feed gas"
    assert sheet.cells[(5, 1)].value == "checked"


def test_cell_is_named_as_a_spreadsheet_names_it() -> None:
    """The second field of the third line is B3."""
    sheet = sheet_in("\n".join(LINES).encode())

    assert sheet.cells[(3, 2)].address == "B3"


def test_empty_fields_at_the_end_may_be_missing() -> None:
    """Lines that leave empty fields at their end out are read."""
    sheet = sheet_in(b"Date;Feed gas;Remark\n2025-03-04;12.5;\n2025-03-05;12.75\n")

    assert sheet.cells[(3, 2)].value == "12.75"
