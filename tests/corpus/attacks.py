"""Workbooks made to exhaust, to deceive or to reach beyond their folder."""

from __future__ import annotations

import zipfile
from io import BytesIO

from tests.corpus.package import (
    MAIN,
    SHEET,
    archive,
    inline,
    number,
    parts_of,
    shared,
    sheet_of,
    styles,
    table,
    workbook,
)

STRINGS = "xl/sharedStrings.xml"
STYLES = "xl/styles.xml"
MIB = 2**20
LAUGHS = "".join(f'<!ENTITY a{n} "{f"&a{n - 1};" * 10}">' for n in range(1, 10))
DOCUMENT_TYPE = f'<!DOCTYPE x [<!ENTITY a0 "ha">{LAUGHS}]>'
FROM_A_FILE = '<!DOCTYPE x [<!ENTITY a SYSTEM "file:///etc/passwd">]>'
CELL = "<c><v>1</v></c>"


def good() -> bytes:
    """Return a workbook without fault."""
    return workbook(sheet_of(table()))


def with_part(name: str, part: str | bytes) -> bytes:
    """Return the good workbook with one part changed or added."""
    return workbook(sheet_of(table()), **{name: part})


def with_rows(more: str, after: str = "") -> bytes:
    """Return the good workbook with rows added, and what follows the rows."""
    return workbook(sheet_of(table() + more, after=after))


def swelling(name: str, start: str, piece: str, end: str, size: int) -> bytes:
    """Return a workbook with a part that repeats a piece up to a size."""
    stream = BytesIO(archive({key: part for key, part in parts_of("").items() if key != name}))
    block = piece.encode() * (MIB // len(piece))
    with (
        zipfile.ZipFile(stream, "a", zipfile.ZIP_DEFLATED, compresslevel=1) as packed,
        packed.open(name, "w") as part,
    ):
        part.write(start.encode())
        for _ in range(size // MIB):
            part.write(block)
        part.write(end.encode())
    return stream.getvalue()


def sheet_swelling(piece: str, size: int) -> bytes:
    """Return a workbook whose sheet repeats a piece within one row."""
    start = f'<worksheet xmlns="{MAIN}"><sheetData><row>'
    return swelling(SHEET, start, piece, "</row></sheetData></worksheet>", size)


def many_small_parts() -> bytes:
    """Return a workbook of parts that are small by themselves, but not together."""
    more = {
        f"xl/worksheets/sheet{n}.xml": sheet_of(f"<row>{CELL * 16_000}</row>") for n in range(2, 30)
    }
    return workbook(sheet_of(table()), **more)


def lying_about_size() -> bytes:
    """Return a workbook whose directory says that the sheet is shorter than it is."""
    stream = BytesIO(good())
    with zipfile.ZipFile(stream) as packed:
        size = packed.getinfo(SHEET).file_size
    return stream.getvalue().replace(size.to_bytes(4, "little"), (64).to_bytes(4, "little"))


def with_wrong_sum() -> bytes:
    """Return a workbook in which one byte of the packed sheet is another."""
    content = bytearray(good())
    place = content.index(SHEET.encode()) + len(SHEET) + 40
    content[place] ^= 0xFF
    return bytes(content)


def overlapping() -> bytes:
    """Return a workbook in which two names of the directory share the bytes of one part."""
    content = with_part("xl/worksheets/sheet2.xml", "<a/>")
    place = content.rindex(b"xl/worksheets/sheet2.xml") - 4
    first = content.index(b"PK\x03\x04").to_bytes(4, "little")
    return content[:place] + first + content[place + 4 :]


def packed_otherwise(method: int) -> bytes:
    """Return a workbook whose parts are said to be packed by a method."""
    content = bytearray(good())
    for mark, place in ((b"PK\x03\x04", 8), (b"PK\x01\x02", 10)):
        start = content.find(mark)
        while start >= 0:
            content[start + place : start + place + 2] = method.to_bytes(2, "little")
            start = content.find(mark, start + 4)
    return bytes(content)


def packed_harder() -> bytes:
    """Return a workbook whose sheet of 30 MiB is packed by bzip2 into some hundred bytes."""
    stream = BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_BZIP2) as packed:
        for name, part in parts_of(sheet_of(" " * 30 * MIB)).items():
            packed.writestr(name, part)
    return stream.getvalue()


def sheet_of_another_name(name: str, sheet: str) -> bytes:
    """Return a workbook whose sheet lies in a part that does not look like a sheet."""
    parts = {key: part for key, part in parts_of("", target=f'"/{name}"').items() if key != SHEET}
    types = str(parts["[Content_Types].xml"]).replace(f"/{SHEET}", f"/{name}")
    return archive(parts | {"[Content_Types].xml": types, name: sheet})


WORKBOOKS = {
    "entities that swell in the sheet": lambda: workbook(
        DOCUMENT_TYPE + sheet_of(table(A1=inline("A1", "&a9;")))
    ),
    "entities that swell in the shared texts": lambda: with_part(
        STRINGS, DOCUMENT_TYPE + shared("&a9;")
    ),
    "entities that swell in the styles": lambda: with_part(STYLES, DOCUMENT_TYPE + styles()),
    "entities that swell in the workbook part": lambda: with_part(
        "xl/workbook.xml", DOCUMENT_TYPE + "<workbook/>"
    ),
    "entities that swell in the relationships": lambda: with_part(
        "xl/_rels/workbook.xml.rels", DOCUMENT_TYPE + "<a/>"
    ),
    "entities that swell in the list of contents": lambda: with_part(
        "[Content_Types].xml", DOCUMENT_TYPE + "<Types/>"
    ),
    "entities that swell in the properties": lambda: with_part(
        "docProps/core.xml", DOCUMENT_TYPE + "<a/>"
    ),
    "entities in a sheet of UTF-16": lambda: with_part(
        SHEET, (DOCUMENT_TYPE + sheet_of("")).encode("utf-16")
    ),
    "entity from a file": lambda: workbook(FROM_A_FILE + sheet_of(table(A1=inline("A1", "&a;")))),
    "document type from the net": lambda: workbook(
        '<!DOCTYPE x SYSTEM "http://example.org/x.dtd">' + sheet_of(table())
    ),
    "entities in a sheet named as a picture": lambda: sheet_of_another_name(
        "xl/media/image1.png", DOCUMENT_TYPE + sheet_of(table(A1=inline("A1", "&a9;")))
    ),
    "cell outside the grid in a sheet of another name": lambda: sheet_of_another_name(
        "xl/data/one.dat", sheet_of(table(B3=number("ZZZ3", "1")))
    ),
    "text of 300 MiB": lambda: swelling(
        STRINGS, f'<sst xmlns="{MAIN}"><si><t>', "A", "</t></si></sst>", 300 * MIB
    ),
    "text of 5 MiB": lambda: swelling(
        STRINGS, f'<sst xmlns="{MAIN}"><si><t>', "A", "</t></si></sst>", 5 * MIB
    ),
    "a million shared texts": lambda: swelling(
        STRINGS, f'<sst xmlns="{MAIN}">', "<si/>", "</sst>", 5 * MIB
    ),
    "a million styles": lambda: swelling(
        STYLES, f'<styleSheet xmlns="{MAIN}"><cellXfs>', "<xf/>", "</cellXfs></styleSheet>", 5 * MIB
    ),
    "twenty million cells": lambda: sheet_swelling(CELL, 300 * MIB),
    "half a million cells": lambda: sheet_swelling(CELL, 8 * MIB),
    "30 MiB of blanks packed by bzip2": packed_harder,
    "many small sheets": many_small_parts,
    "a million cells in one merged range": lambda: with_rows(
        "", '<mergeCells><mergeCell ref="A1:XFD1048576"/></mergeCells>'
    ),
    "a whole column merged": lambda: with_rows(
        "", '<mergeCells><mergeCell ref="D1:D1048576"/></mergeCells>'
    ),
    "merged range without rows": lambda: with_rows(
        "", '<mergeCells><mergeCell ref="A:XFD"/></mergeCells>'
    ),
    "25 000 merged pairs": lambda: with_rows(
        "",
        "<mergeCells>"
        + "".join(f'<mergeCell ref="D{n}:E{n}"/>' for n in range(1, 24_999))
        + "</mergeCells>",
    ),
    "many merged ranges": lambda: with_rows(
        "", "<mergeCells>" + '<mergeCell ref="D1:D9999"/>' * 900 + "</mergeCells>"
    ),
    "link over the whole grid": lambda: with_rows(
        "", '<hyperlinks><hyperlink ref="A1:XFD1048576" location="x"/></hyperlinks>'
    ),
    "number format of 200 000 brackets": lambda: with_part(STYLES, styles("[" * 200_000)),
    "cell far outside the grid": lambda: with_rows(
        '<row r="9"><c r="ZZZZ99999999"><v>1</v></c></row>'
    ),
    "row number of a thousand digits": lambda: with_rows(
        f'<row r="{"9" * 1000}"><c><v>1</v></c></row>'
    ),
    "50 000 nested elements": lambda: with_rows("", "<a>" * 50_000 + "</a>" * 50_000),
    "nested elements in the shared texts": lambda: with_part(STRINGS, "<a>" * 999 + "</a>" * 999),
    "20 000 parts": lambda: workbook(sheet_of(table()), **{f"xl/{n}": b"" for n in range(20_000)}),
    "part named by a path upwards": lambda: with_part("../../evil.xml", "<a/>"),
    "part named from the root": lambda: with_part("/etc/evil.xml", "<a/>"),
    "part named with turned strokes": lambda: with_part("xl\\..\\evil.xml", "<a/>"),
    "directory lies about the size": lying_about_size,
    "one byte of the sheet changed": with_wrong_sum,
    "parts that overlap": overlapping,
    "parts packed by an unknown method": lambda: packed_otherwise(99),
    "cut in the middle": lambda: good()[: len(good()) // 2],
    "cut by a byte": lambda: good()[:-1],
    "only the mark of an archive": lambda: b"PK\x03\x04",
    "number with a stroke below": lambda: workbook(sheet_of(table(B3=number("B3", "1_000")))),
    "number in digits of another script": lambda: workbook(
        sheet_of(table(B3=number("B3", "\u0661\u0662")))
    ),
    "number beyond all numbers": lambda: workbook(sheet_of(table(B3=number("B3", "1e999")))),
    "text longer than a cell": lambda: workbook(sheet_of(table(B3=inline("B3", "9" * 40_000)))),
    "sheet that is not closed": lambda: workbook("<worksheet><sheetData>"),
    "sheet that is no XML": lambda: workbook("Date;Power"),
    "empty sheet part": lambda: workbook(""),
}
