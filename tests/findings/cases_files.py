"""Files that are missing, misplaced, damaged, hostile, or of another kind."""

from __future__ import annotations

import zipfile
from collections.abc import Callable
from io import BytesIO

import openpyxl

from tests.findings.case import Case
from tests.findings.site_folder import SiteFolder

OLD_CONTAINER = bytes.fromhex("D0CF11E0A1B11AE1") + bytes(504)
MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
SHEET = "xl/worksheets/sheet1.xml"


def archive(parts: dict[str, str | bytes]) -> bytes:
    """Return a zip archive of some parts."""
    stream = BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, content in parts.items():
            packed.writestr(name, content)
    return stream.getvalue()


def workbook_of(sheet: str | bytes, **more: str | bytes) -> bytes:
    """Return a workbook whose only sheet is the text given, and whatever parts are added."""
    return archive(
        {"[Content_Types].xml": "<Types/>", "xl/workbook.xml": "<workbook/>", SHEET: sheet, **more}
    )


def sheet_of(cells: str) -> str:
    """Return the text of a sheet from its cells."""
    return f'<worksheet xmlns="{MAIN}"><sheetData><row>{cells}</row></sheetData></worksheet>'


def with_content(content: bytes | Callable[[], bytes]) -> Callable[[SiteFolder], None]:
    """Return a change that puts a file of some bytes in the place of the laboratory's workbook."""

    def change(folder: SiteFolder) -> None:
        folder.books.pop("laboratory.xlsx")
        folder.texts["laboratory.xlsx"] = content if isinstance(content, bytes) else content()

    return change


def named(name: str) -> Callable[[SiteFolder], None]:
    """Return a change that names another file for the analyses."""
    return lambda folder: folder.site["analyses"][0].update(file=name)


def link_out(folder: SiteFolder) -> None:
    """Put a link that leads out of the folder in the place of the laboratory's workbook."""
    folder.books.pop("laboratory.xlsx")
    outside = folder.path.parent / "outside.xlsx"
    outside.write_bytes(b"PK")
    (folder.path / "laboratory.xlsx").symlink_to(outside)


def cut_short(folder: SiteFolder) -> None:
    """Put the first bytes of a workbook in the place of the laboratory's workbook."""
    with_content(workbook_of(sheet_of(""))[:-30])(folder)


def stored_twice() -> bytes:
    """Return a workbook that stores a part twice."""
    packed = workbook_of(sheet_of(""), **{"xl/workbook.xmm": "<workbook/>"})
    return packed.replace(b"xl/workbook.xmm", b"xl/workbook.xml")


def with_macros(folder: SiteFolder) -> None:
    """Put a workbook with macros in the place of the laboratory's workbook."""
    book = openpyxl.Workbook()
    for row in folder.books.pop("laboratory.xlsx")["Natural gas"]:
        book.worksheets[0].append(row)
    book.worksheets[0].title = "Natural gas"
    stream = BytesIO()
    book.save(stream)
    with zipfile.ZipFile(stream, "a") as packed:
        packed.writestr("xl/vbaProject.bin", b"macros")
    folder.texts["laboratory.xlsx"] = stream.getvalue()


def encrypted_part() -> bytes:
    """Return a workbook whose first part is marked as encrypted."""
    packed = bytearray(workbook_of(sheet_of("")))
    for mark, place in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        packed[packed.index(mark) + place] |= 1
    return bytes(packed)


def bomb() -> bytes:
    """Return a small workbook that unpacks to 30 MiB."""
    return workbook_of(sheet_of('<c r="A1" t="str"><v>' + "A" * (30 * 2**20) + "</v></c>"))


ENTITIES = f'<!DOCTYPE a [<!ENTITY b "b">]><worksheet xmlns="{MAIN}"/>'
FILE_CASES = [
    Case("macros-not-run", with_macros, "laboratory.xlsx", "the workbook holds macros"),
    Case(
        "missing-file",
        named("labratory.xlsx"),
        "labratory.xlsx",
        'no file "labratory.xlsx" in the folder',
    ),
    Case(
        "file-outside-the-folder",
        named("../laboratory.xlsx"),
        "../laboratory.xlsx",
        '"../laboratory.xlsx" lies outside the folder of the site',
    ),
    Case(
        "file-outside-the-folder",
        link_out,
        "laboratory.xlsx",
        '"laboratory.xlsx" lies outside the folder of the site',
    ),
    Case(
        "file-too-large",
        with_content(lambda: bytes(65 * 2**20)),
        "laboratory.xlsx",
        '"laboratory.xlsx" has 65 MiB; the limit is 64',
    ),
    Case("empty-file", with_content(b""), "laboratory.xlsx", '"laboratory.xlsx" holds no bytes'),
    Case(
        "password-protected-file",
        with_content(OLD_CONTAINER + "EncryptedPackage".encode("utf-16-le")),
        "laboratory.xlsx",
        "the workbook is encrypted with a password",
    ),
    Case(
        "password-protected-file",
        with_content(encrypted_part()),
        "laboratory.xlsx",
        "parts of the workbook are encrypted",
    ),
    Case(
        "unsupported-file-format",
        with_content(OLD_CONTAINER),
        "laboratory.xlsx",
        "the file is an old document, no workbook",
    ),
    Case(
        "unsupported-file-format",
        with_content(b"<html><table></table></html>"),
        "laboratory.xlsx",
        "the file is a web page or XML text, not a table",
    ),
    Case(
        "unsupported-file-format",
        with_content(archive({"content.xml": "<a/>", "mimetype": "spreadsheet"})),
        "laboratory.xlsx",
        "the file is a document, but not a workbook",
    ),
    Case(
        "unsupported-file-format",
        with_content(archive({"xl/workbook.bin": b"..."})),
        "laboratory.xlsx",
        "the file is an .xlsb workbook, which is not read",
    ),
    Case(
        "unsupported-file-format",
        with_content(archive({"readme.txt": "hello"})),
        "laboratory.xlsx",
        "the file is an archive, but not a workbook",
    ),
    Case(
        "unsupported-file-format",
        with_content(b"%PDF-1.7"),
        "laboratory.xlsx",
        "the file is a picture, a print or an archive",
    ),
    Case(
        "unsafe-workbook",
        with_content(bomb),
        "laboratory.xlsx",
        "the workbook would unpack to an unreasonable size",
    ),
    Case(
        "unsafe-workbook",
        with_content(workbook_of(ENTITIES)),
        "laboratory.xlsx",
        f'part "{SHEET}" declares a document type',
    ),
    Case(
        "unsafe-workbook",
        with_content(workbook_of("<a>" * 100 + "</a>" * 100)),
        "laboratory.xlsx",
        f'part "{SHEET}" nests elements deeper than 64',
    ),
    Case(
        "unsafe-workbook",
        with_content(workbook_of(sheet_of('<c r="ZZZZ99999999"><v>1</v></c>'))),
        "laboratory.xlsx",
        f'part "{SHEET}" holds a cell ZZZZ99999999 outside the grid',
    ),
    Case(
        "unsafe-workbook",
        with_content(workbook_of(sheet_of('<c r="A1"><v>1</v></c><c r="A1"><v>2</v></c>'))),
        "laboratory.xlsx",
        f'part "{SHEET}" holds cell A1 twice',
    ),
    Case(
        "unsafe-workbook",
        with_content(workbook_of("<worksheet>")),
        "laboratory.xlsx",
        f'part "{SHEET}" is not well-formed',
    ),
    Case(
        "unsafe-workbook",
        cut_short,
        "laboratory.xlsx",
        "the archive of the workbook is cut short or damaged",
    ),
    Case(
        "unsafe-workbook",
        with_content(stored_twice),
        "laboratory.xlsx",
        "a part of the workbook is stored twice",
    ),
    Case(
        "unsafe-workbook",
        with_content(workbook_of(sheet_of(""), **{"../../evil.xml": "<a/>"})),
        "laboratory.xlsx",
        "a part of the workbook names a place outside it",
    ),
    Case(
        "unsafe-workbook",
        with_content(workbook_of(sheet_of(""), **{f"xl/{n}": b"" for n in range(5000)})),
        "laboratory.xlsx",
        "the workbook has 5003 parts",
    ),
    Case(
        "unsafe-workbook",
        with_content(workbook_of(sheet_of('<c r="A1"><v>not a number</v></c>'))),
        "laboratory.xlsx",
        "the workbook breaks the rules of its own format",
    ),
]
