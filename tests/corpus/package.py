"""Workbooks part by part, so that a part can be odd, wrong or hostile."""

from __future__ import annotations

import zipfile
from collections.abc import Sequence
from io import BytesIO

MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
PACKAGE = "http://schemas.openxmlformats.org/package/2006"
TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml."
SHEET = "xl/worksheets/sheet1.xml"
Parts = dict[str, str | bytes]
CONTENT_TYPES = (
    f'<Types xmlns="{PACKAGE}/content-types">'
    '<Default Extension="rels" ContentType='
    '"application/vnd.openxmlformats-package.relationships+xml"/>'
    '<Default Extension="xml" ContentType="application/xml"/>'
    f'<Override PartName="/xl/workbook.xml" ContentType="{TYPE}sheet.main+xml"/>'
    f'<Override PartName="/{SHEET}" ContentType="{TYPE}worksheet+xml"/>'
    f'<Override PartName="/xl/styles.xml" ContentType="{TYPE}styles+xml"/>'
    f'<Override PartName="/xl/sharedStrings.xml" ContentType="{TYPE}sharedStrings+xml"/>'
    "</Types>"
)


def archive(parts: Parts) -> bytes:
    """Return a zip archive of parts."""
    stream = BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, content in parts.items():
            packed.writestr(name, content)
    return stream.getvalue()


def relations(*entries: tuple[str, str, str]) -> str:
    """Return a part of relationships: identifier, kind, target with further attributes."""
    rows = "".join(
        f'<Relationship Id="{identifier}" Type="{OFFICE}/{kind}" Target={target}/>'
        for identifier, kind, target in entries
    )
    return f'<Relationships xmlns="{PACKAGE}/relationships">{rows}</Relationships>'


def parts_of(sheet: str, *, properties: str = "", target: str = '"worksheets/sheet1.xml"') -> Parts:
    """Return the parts of a workbook of one sheet named Power."""
    return {
        "[Content_Types].xml": CONTENT_TYPES,
        "_rels/.rels": relations(("rId1", "officeDocument", '"xl/workbook.xml"')),
        "xl/workbook.xml": (
            f'<workbook xmlns="{MAIN}" xmlns:r="{OFFICE}">{properties}'
            '<sheets><sheet name="Power" sheetId="1" r:id="rId1"/></sheets></workbook>'
        ),
        "xl/_rels/workbook.xml.rels": relations(
            ("rId1", "worksheet", target),
            ("rId2", "styles", '"styles.xml"'),
            ("rId3", "sharedStrings", '"sharedStrings.xml"'),
        ),
        "xl/styles.xml": styles(),
        "xl/sharedStrings.xml": shared("Date", "Power bought (MWh)"),
        SHEET: sheet,
    }


def workbook(sheet: str, *, properties: str = "", **changed: str | bytes) -> bytes:
    """Return a workbook of one sheet named Power; parts may be changed or added by their path."""
    return archive(parts_of(sheet, properties=properties) | changed)


def sheet_of(rows: str, *, before: str = "", after: str = "") -> str:
    """Return the text of a sheet: rows, with what stands before and after them."""
    return f'<worksheet xmlns="{MAIN}">{before}<sheetData>{rows}</sheetData>{after}</worksheet>'


def shared(*texts: str) -> str:
    """Return the part of shared texts."""
    return f'<sst xmlns="{MAIN}">' + "".join(f"<si><t>{text}</t></si>" for text in texts) + "</sst>"


def styles(*codes: str) -> str:
    """Return the part of styles: 0 is plain, 1 a date, then one for each number format given."""
    escaped = [code.replace("&", "&amp;").replace('"', "&quot;") for code in codes]
    formats = "".join(
        f'<numFmt numFmtId="{164 + place}" formatCode="{code}"/>'
        for place, code in enumerate(escaped)
    )
    numbers = [0, 14, *(164 + place for place in range(len(codes)))]
    uses = "".join(f'<xf numFmtId="{number}" fontId="0" fillId="0"/>' for number in numbers)
    return (
        f'<styleSheet xmlns="{MAIN}"><numFmts>{formats}</numFmts>'
        "<fonts><font/></fonts><fills><fill><patternFill/></fill></fills><borders><border/></borders>"
        f"<cellXfs>{uses}</cellXfs></styleSheet>"
    )


def rows_of(*rows: Sequence[str]) -> str:
    """Return rows of cells, each cell given whole."""
    return "".join(
        f'<row r="{number}">{"".join(cells)}</row>' for number, cells in enumerate(rows, start=1)
    )


def number(address: str, value: str, style: int = 0) -> str:
    """Return a cell of a number."""
    return f'<c r="{address}" s="{style}"><v>{value}</v></c>'


def inline(address: str, text: str) -> str:
    """Return a cell of a text of its own."""
    return f'<c r="{address}" t="inlineStr"><is><t>{text}</t></is></c>'


HEADINGS = (inline("A1", "Date"), inline("B1", "Power bought (MWh)"))
TABLE = (
    HEADINGS,
    (number("A2", "45659", 1), number("B2", "1.5")),
    (number("A3", "45691", 1), number("B3", "2.25")),
    (number("A4", "45720", 1), number("B4", "1234.5")),
)


def table(**cells: str) -> str:
    """Return the rows of the good table, with cells changed by their address."""
    rows = [
        [cells.get(f"{letter}{place}", cell) for letter, cell in zip("AB", row, strict=True)]
        for place, row in enumerate(TABLE, start=1)
    ]
    return rows_of(*rows)
