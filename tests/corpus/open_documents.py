"""Workbooks of the OpenDocument format, part by part."""

from __future__ import annotations

from tests.corpus.package import archive

SPREADSHEET = "application/vnd.oasis.opendocument.spreadsheet"
NAMES = " ".join(
    f'xmlns:{name}="urn:oasis:names:tc:opendocument:xmlns:{name}:1.0"'
    for name in ("office", "table", "text", "style", "manifest")
)
CELL = '<table:table-cell office:value-type="float" office:value="1" {}/>'
LAUGHS = '<!DOCTYPE x [<!ENTITY a "ha"><!ENTITY b "&a;&a;">]>'


def open_document(table: str, before: str = "") -> bytes:
    """Return a workbook of one sheet."""
    content = (
        f'{before}<office:document-content {NAMES} office:version="1.2"><office:body>'
        f'<office:spreadsheet><table:table table:name="Power">{table}</table:table>'
        "</office:spreadsheet></office:body></office:document-content>"
    )
    entries = "".join(
        f'<manifest:file-entry manifest:full-path="{path}" manifest:media-type="{kind}"/>'
        for path, kind in (("/", SPREADSHEET), ("content.xml", "text/xml"))
    )
    manifest = f"<manifest:manifest {NAMES}>{entries}</manifest:manifest>"
    return archive(
        {"mimetype": SPREADSHEET, "META-INF/manifest.xml": manifest, "content.xml": content}
    )


def repeated(rows: int, columns: int) -> bytes:
    """Return a workbook whose only cell is repeated."""
    cell = CELL.format(f'table:number-columns-repeated="{columns}"')
    return open_document(
        f'<table:table-row table:number-rows-repeated="{rows}">{cell}</table:table-row>'
    )


def hidden_without_end() -> bytes:
    """Return a workbook with more hidden columns than a sheet has, and no headings."""
    column = 'table:visibility="collapse" table:number-columns-repeated="2000000000"'
    row = f"<table:table-row>{CELL.format('')}</table:table-row>"
    return open_document(f"<table:table-column {column}/>{row}")


OPEN_DOCUMENTS = {
    "a billion repeated cells": lambda: repeated(1_048_576, 1000),
    "a million repeated cells": lambda: repeated(100_000, 10),
    "a cell repeated beyond the grid": lambda: repeated(1, 2_000_000_000),
    "a cell merged without end": lambda: open_document(
        "<table:table-row>"
        + CELL.format('table:number-columns-spanned="2000000000"')
        + "</table:table-row>"
    ),
    "entities that swell in an open document": lambda: open_document("", LAUGHS),
}
