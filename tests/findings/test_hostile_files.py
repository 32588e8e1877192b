from __future__ import annotations

from functools import cache
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory

import openpyxl
from hypothesis import given, settings
from hypothesis import strategies as st

from footprint.base.finding import Finding
from footprint.read import load_site, read
from footprint.read.guard import content_of
from footprint.read.sheet import Book
from footprint.read.textfile import open_text
from footprint.read.workbook import open_workbook
from tests.findings.site_folder import good_site


@cache
def small_workbook() -> bytes:
    """Return a workbook of one sheet with a few cells."""
    book = openpyxl.Workbook()
    sheet = book.worksheets[0]
    for row in (["Date", "Feed gas (Nm3)"], ["2025-03-04", 12.5], ["2025-03-05", 12.75]):
        sheet.append(row)
    stream = BytesIO()
    book.save(stream)
    return stream.getvalue()


def opened(content: bytes) -> object:
    """Return what the guard and the reader make of some bytes."""
    with TemporaryDirectory() as path:
        (Path(path) / "file.xlsx").write_bytes(content)
        found = content_of(Path(path), "file.xlsx")
        if isinstance(found, Finding):
            return found
        if found.kind == "text":
            return open_text("file.xlsx", found.content)
        return open_workbook("file.xlsx", found.content)


@settings(deadline=None, max_examples=60)
@given(st.data())
def test_damaged_workbook_is_never_an_exception(data: st.DataObject) -> None:
    """A workbook with any byte changed is read or refused in words."""
    content = bytearray(small_workbook())
    place = data.draw(st.integers(0, len(content) - 1))
    content[place] = data.draw(st.integers(0, 255))

    assert opened(bytes(content)) is not None


@settings(deadline=None, max_examples=60)
@given(st.integers(0, 10_000))
def test_workbook_cut_short_is_never_an_exception(length: int) -> None:
    """A workbook of which only the first bytes were copied is read or refused in words."""
    assert opened(small_workbook()[:length]) is not None


@settings(deadline=None, max_examples=100)
@given(st.binary(max_size=300))
def test_any_bytes_are_never_an_exception(content: bytes) -> None:
    """Whatever bytes stand in a file, it is read or refused in words."""
    assert opened(content) is not None


@settings(deadline=None, max_examples=100)
@given(st.text(alphabet='Date;,\t|"\n 0123456789.()Nmx', max_size=200))
def test_any_text_is_never_an_exception(text: str) -> None:
    """Whatever text stands in a table, it is read or refused in words."""
    assert opened(text.encode()) is not None


@settings(deadline=None, max_examples=100)
@given(st.text(alphabet='[]works=".{}1-\n#, ', max_size=120))
def test_any_site_file_is_never_an_exception(text: str) -> None:
    """Whatever stands in a site file, it is read or refused in words."""
    with TemporaryDirectory() as path:
        (Path(path) / "site.toml").write_text(text, encoding="utf-8")

        site, findings = load_site(Path(path))

    assert site is not None or findings


def test_cells_far_apart_are_read_as_two(tmp_path: Path) -> None:
    """A sheet whose two cells stand in opposite corners costs two cells, not a billion."""
    book = openpyxl.Workbook()
    sheet = book.worksheets[0]
    sheet["A1"], sheet["XFD1048576"] = 1, 2
    book.save(tmp_path / "corners.xlsx")

    found = open_workbook("corners.xlsx", (tmp_path / "corners.xlsx").read_bytes())

    assert isinstance(found, Book)
    assert list(found.sheets[0].cells) == [(1, 1), (1_048_576, 16_384)]


def test_folder_without_site_file_is_told(tmp_path: Path) -> None:
    """A folder without a site file leads to a finding that says so."""
    readings, findings = read(tmp_path / "nowhere")

    assert readings is None
    assert [(one.code, one.where.words) for one in findings] == [("no-site-file", "site.toml")]


def test_file_that_cannot_be_opened_blocks_only_its_own_series(tmp_path: Path) -> None:
    """Where one file can't be opened, the others are read all the same."""
    folder = good_site(tmp_path)
    folder.books.pop("laboratory.xlsx")

    readings, findings = folder.read()

    assert [one.code for one in findings] == ["missing-file"]
    assert readings is not None
    assert len(readings.series) == 6
    assert readings.analyses == {}


def test_sheet_name_is_never_a_path(tmp_path: Path) -> None:
    """A sheet whose name looks like a path is read as any other, and nothing is written."""
    folder = good_site(tmp_path)
    folder.books["meters.xlsx"]["..evil"] = folder.books["meters.xlsx"].pop("Power")
    folder.meter("EM-4")["sheet"] = "..evil"
    folder.read()
    before = sorted(one.name for one in tmp_path.iterdir())

    readings, _ = read(tmp_path)

    assert readings is not None
    assert "EM-4" in readings.series
    assert sorted(one.name for one in tmp_path.iterdir()) == before
