"""Workbooks of the .ods and .xls formats, both saved by LibreOffice from one sheet."""

from __future__ import annotations

import sys
import zipfile
from datetime import datetime
from io import BytesIO
from pathlib import Path

import pytest

from footprint.base.finding import Finding
from footprint.read.library import Library
from footprint.read.other_formats import holds_macros, open_other
from footprint.read.sheet import Book, Merged, Sheet
from tests.findings.site_folder import SiteFolder, good_site

HERE = Path(__file__).parent
FORMATS = ("ods", "xls")
SPACES = " ".join(
    f'xmlns:{name}="urn:oasis:names:tc:opendocument:xmlns:{name}:1.0"'
    for name in ("office", "table", "text", "style")
)
KIND = "application/vnd.oasis.opendocument.spreadsheet"
SEVEN = (
    '<table:table-cell table:number-columns-repeated="{across}" office:value-type="float" '
    'office:value="7"/>'
)
MANIFEST = (
    '<m:manifest xmlns:m="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0">'
    f'<m:file-entry m:full-path="/" m:media-type="{KIND}"/>'
    '<m:file-entry m:full-path="content.xml" m:media-type="text/xml"/></m:manifest>'
)


def opened(kind: str) -> Book:
    """Return the workbook of a format as the library of a folder opens it."""
    book = Library(HERE).book(f"other_format.{kind}")
    assert book is not None
    return book


def traps(kind: str) -> Sheet:
    """Return the sheet with all that a reader may lose."""
    return next(sheet for sheet in opened(kind).sheets if sheet.name == "Traps")


def ods_of(rows: str, **more: str) -> bytes:
    """Return an .ods workbook whose only sheet is the rows given."""
    content = (
        f"<office:document-content {SPACES}><office:body><office:spreadsheet>"
        f'<table:table table:name="One">{rows}</table:table>'
        "</office:spreadsheet></office:body></office:document-content>"
    )
    parts = {"mimetype": KIND, "content.xml": content, "META-INF/manifest.xml": MANIFEST, **more}
    stream = BytesIO()
    with zipfile.ZipFile(stream, "w") as packed:
        for name, text in parts.items():
            packed.writestr(name, text)
    return stream.getvalue()


def row_of(cells: str, down: str = "1") -> str:
    """Return a row of cells that stands for itself several times."""
    return f'<table:table-row table:number-rows-repeated="{down}">{cells}</table:table-row>'


def read_ods(tmp_path: Path, rows: str) -> tuple[Book | None, list[Finding]]:
    """Return what the library of a folder makes of an .ods workbook."""
    (tmp_path / "one.ods").write_bytes(ods_of(rows))
    library = Library(tmp_path)
    return library.book("one.ods"), library.findings


def with_power(path: Path, kind: str) -> SiteFolder:
    """Return a good site whose power stands in a workbook of another format."""
    folder = good_site(path)
    folder.books["meters.xlsx"].pop("Power")
    folder.texts[f"power.{kind}"] = (HERE / f"other_format.{kind}").read_bytes()
    folder.meter("EM-4")["file"] = f"power.{kind}"
    return folder


@pytest.mark.parametrize("kind", FORMATS)
def test_cells_keep_kind_value_and_address(kind: str) -> None:
    """Dates, numbers, per cent and texts are those that the spreadsheet program shows."""
    sheet = traps(kind)

    found = {cell.address: (cell.kind, cell.value, cell.written) for cell in sheet.cells.values()}

    assert found["A1"] == ("text", "Words", "Words")
    assert found["A2"] == ("date", datetime(2025, 1, 1), "2025-01-01")  # noqa: DTZ001
    assert found["B2"] == ("number", 12.5, "12.5")
    assert found["B3"] == ("number", 0.985, "98.5 %")
    assert found["C2"][:2] == ("number", 25.0)
    assert sheet.cells[3, 2].is_percent


@pytest.mark.parametrize("kind", FORMATS)
def test_errors_are_errors(kind: str) -> None:
    """A cell that shows an error is known as one, never as a blank or a text."""
    cells = traps(kind).cells

    found = [(cells[place].kind, cells[place].value) for place in ((3, 3), (4, 3))]

    assert found == [("error", "#DIV/0!"), ("error", "#N/A")]


@pytest.mark.parametrize("kind", FORMATS)
def test_merged_and_hidden_are_known(kind: str) -> None:
    """Merged cells, hidden rows, columns and sheets are told as of any other workbook."""
    sheet = traps(kind)

    assert sheet.merged == (Merged(6, 1, 7, 2),)
    assert sheet.hidden_rows == {3}
    assert sheet.hidden_columns == {3}
    assert [one.name for one in opened(kind).sheets if one.is_hidden] == ["Hidden"]


@pytest.mark.parametrize(("kind", "codes"), [("ods", []), ("xls", ["formulas-not-told"])])
def test_readings_come_from_other_formats(kind: str, codes: list[str], tmp_path: Path) -> None:
    """Readings in an .ods or .xls workbook are the same as in an .xlsx, with their cells."""
    folder = with_power(tmp_path, kind)

    readings, findings = folder.read()

    assert readings is not None
    series = readings.series["EM-4"]
    assert [one.code for one in findings] == codes
    assert list(series.values) == [4800.5] * 12
    assert series.origins[2] is not None
    assert series.origins[2].cell == "B4"


def test_missing_reader_is_told_with_both_ways_out(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Without the library of .xls, the user learns how to save the file or what to install."""
    monkeypatch.setitem(sys.modules, "xlrd", None)
    folder = with_power(tmp_path, "xls")

    readings, findings = folder.read()

    assert readings is None
    assert [one.code for one in findings] == ["reader-not-installed"]
    assert findings[0].mend == "save the file as .xlsx, or run: pip install 'footprint[xls]'"
    assert findings[0].where.words == "power.xls"


def test_formula_of_ods_keeps_its_text_and_its_lack_of_a_result(tmp_path: Path) -> None:
    """A formula that was never computed is known as such, and references read as in a sheet."""
    rows = (
        '<table:table-row><table:table-cell table:formula="of:=[.B2]*2+SUM([.B3:.B5])"/>'
        "<table:table-cell table:formula=\"of:=['file:///c/old.ods'#$Sheet1.B4]\" "
        'office:value-type="float" office:value="3"/></table:table-row>'
    )

    book, _ = read_ods(tmp_path, rows)

    assert book is not None
    cells = book.sheets[0].cells
    assert (cells[1, 1].kind, cells[1, 1].formula) == ("no result", "=B2*2+SUM(B3:B5)")
    assert (cells[1, 2].value, cells[1, 2].formula) == (3.0, "=[old.ods]Sheet1!B4")


def test_repeated_cells_of_ods_stand_at_each_place(tmp_path: Path) -> None:
    """A cell that the file stores once for several places is read at each of them."""
    rows = row_of("<table:table-cell/>" + SEVEN.format(across="3"), down="2")
    rows += row_of('<table:table-cell table:number-columns-repeated="16384"/>', down="1048570")

    book, _ = read_ods(tmp_path, rows)

    assert book is not None
    assert set(book.sheets[0].cells) == {(row, column) for row in (1, 2) for column in (2, 3, 4)}


@pytest.mark.parametrize(
    "rows",
    [
        row_of(SEVEN.format(across="16384"), down="1048576"),
        row_of('<table:table-cell office:value-type="float" office:value="NaN"/>'),
        row_of("<table:table-cell/>", down="many"),
        row_of("<table:table-cell><table:table/></table:table-cell>"),
    ],
    ids=["cells without end", "number that is none", "count that is none", "table inside a table"],
)
def test_strange_ods_is_refused_in_words(rows: str, tmp_path: Path) -> None:
    """An .ods workbook that no program writes is refused, and never fills the memory."""
    book, findings = read_ods(tmp_path, rows)

    assert book is None
    assert [one.code for one in findings] == ["unsafe-workbook"]


def test_encrypted_ods_is_told_as_such(tmp_path: Path) -> None:
    """An .ods workbook with a password is told as one."""
    manifest = MANIFEST.replace("<m:file-entry", "<m:encryption-data/><m:file-entry")
    (tmp_path / "one.ods").write_bytes(ods_of("", **{"META-INF/manifest.xml": manifest}))
    library = Library(tmp_path)

    book = library.book("one.ods")

    assert book is None
    assert [one.code for one in library.findings] == ["password-protected-file"]


def test_macros_of_other_formats_are_told() -> None:
    """A workbook with macros is known in both formats; one without is not."""
    with_basic = ods_of("", **{"Basic/Standard/Module1.xml": "<a/>"})
    old = (HERE / "other_format.xls").read_bytes()

    assert holds_macros(with_basic, "ods")
    assert not holds_macros(ods_of(""), "ods")
    assert holds_macros(old + "_VBA_PROJECT".encode("utf-16-le"), "xls")
    assert not holds_macros(old, "xls")


@pytest.mark.parametrize("length", [600, 2000, 4000])
def test_xls_cut_short_is_never_an_exception(length: int) -> None:
    """An old workbook of which only a part was copied is read or refused in words."""
    content = (HERE / "other_format.xls").read_bytes()[:length]

    book, findings = open_other("old.xls", content, "xls")

    assert book is not None or [one.code for one in findings] == ["unsafe-workbook"]
