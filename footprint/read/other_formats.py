"""Workbooks in other formats: .ods as it is, .xls where its library is installed."""

from __future__ import annotations

import zipfile
from collections.abc import Callable
from hashlib import sha256
from io import BytesIO
from typing import Literal

from footprint.base.finding import Finding, Where, declare
from footprint.read.fault import Refusal
from footprint.read.ods import sheets_of_ods
from footprint.read.part_scan import UNSAFE_WORKBOOK
from footprint.read.sheet import Book, Sheet
from footprint.read.xls import sheets_of_xls

Format = Literal["ods", "xls"]
_OPEN: dict[Format, Callable[[str, bytes], tuple[Sheet, ...]]] = {
    "ods": sheets_of_ods,
    "xls": sheets_of_xls,
}
_VBA = "_VBA_PROJECT".encode("utf-16-le")

READER_NOT_INSTALLED = declare(
    "reader-not-installed",
    "stop",
    means="A file is an old .xls workbook, and the library that reads it is not installed.",
    effect="nothing can be read from it",
    mend="open it in a spreadsheet program and save it as .xlsx, or install the reader",
    example="gas_2025.xls; mended: gas_2025.xlsx, or pip install 'footprint[xls]'",
)
FORMULAS_NOT_TOLD = declare(
    "formulas-not-told",
    "note",
    means="The file is an old .xls workbook, of which formulas can't be told from typed values.",
    effect="the results were read as they were last stored; one that was never computed would "
    "look like a typed 0",
    mend="save the file as .xlsx, so that formulas are seen",
    example="gas_2025.xls",
)


def open_other(name: str, content: bytes, kind: Format) -> tuple[Book | None, list[Finding]]:
    """Return the cells of an .ods or .xls workbook, or why they can't be read.

    Args:
        name: of the file. [text]
        content: bytes that passed the guard. [bytes]
        kind: of the file. [text]

    Findings:
        reader-not-installed: how to save it, or which extra to install.
        unsafe-workbook: it breaks the rules of its own format.
        formulas-not-told: what the format's reader does not tell.

    Source: definition
    """
    try:
        sheets = _OPEN[kind](name, content)
    except ImportError:
        what = f"the reader of .{kind} files is not installed"
        mend = f"save the file as .xlsx, or run: pip install 'footprint[{kind}]'"
        return None, [READER_NOT_INSTALLED.at(Where(name), what, mend=mend)]
    except Exception as fault:  # noqa: BLE001  what a strange file makes a library raise is not listed anywhere
        del fault  # its words are about the library, not about the user's file
        refusal = Refusal(UNSAFE_WORKBOOK, "the workbook breaks the rules of its own format")
        return None, [refusal.code.at(Where(name), refusal.what)]
    told = kind == "xls"
    what = "formulas were read as the values last stored"
    notes = [FORMULAS_NOT_TOLD.at(Where(name), what)] if told else []
    return Book(name, len(content), sha256(content).hexdigest(), sheets), notes


def holds_macros(content: bytes, kind: Format) -> bool:
    """Return whether an .ods or .xls workbook holds macros.

    Args:
        content: of the file. [bytes]
        kind: of the file. [text]

    Source: definition
    """
    if kind == "xls":
        return _VBA in content
    with zipfile.ZipFile(BytesIO(content)) as archive:
        return any(part.startswith(("Basic/", "Scripts/")) for part in archive.namelist())
