"""A table of twelve months, as a workbook or as text, laid out in any way."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from io import BytesIO
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import openpyxl

from footprint.base.finding import Finding
from tests.corpus.item import site_of, values_in

MONTHS = tuple(datetime(2025, month, 1) for month in range(1, 13))  # noqa: DTZ001  no zones in sheets
Rows = list[list[Any]]


@dataclass(frozen=True)
class Read:
    """Readings by their date, and what was found."""

    values: dict[str, float]
    findings: list[Finding]


@dataclass(frozen=True)
class Layout:
    """How the table is laid out.

    Attributes:
        rows_above: empty rows above the headings. [1]
        columns_before: empty columns in front. [1]
        blank_after: months after which an empty row stands. [1]
        order: of date, power and remark. [1]
        headings: of date, power and remark. [text]
    """

    rows_above: int = 0
    columns_before: int = 0
    blank_after: frozenset[int] = frozenset()
    order: tuple[int, ...] = (0, 1, 2)
    headings: tuple[str, ...] = ("Date", "Power bought (MWh)", "Remark")


def rows_in(layout: Layout, values: Sequence[float]) -> Rows:
    """Return the rows of the table in a layout."""
    rows: Rows = [[] for _ in range(layout.rows_above)]
    for number, row in enumerate([layout.headings, *zip(MONTHS, values, values, strict=True)]):
        rows.append([None] * layout.columns_before + [row[place] for place in layout.order])
        rows += [[]] if number in layout.blank_after else []
    return rows


def read_workbook(rows: Rows) -> Read:
    """Return what is read from a workbook of these rows."""
    book = openpyxl.Workbook()
    for row in rows:
        book.worksheets[0].append(row)
    stream = BytesIO()
    book.save(stream)
    return _read("power.xlsx", stream.getvalue())


def read_text(rows: Rows, mark: str = ".", sign: str = ";", encoding: str = "utf-8") -> Read:
    """Return what is read from a text file of these rows."""
    lines = [sign.join(_in_text(value, mark) for value in row) for row in rows]
    return _read("power.csv", ("\n".join(lines) + "\n").encode(encoding))


def _in_text(value: Any, mark: str) -> str:
    """Return a value as a text file has it."""
    if isinstance(value, datetime):
        return value.date().isoformat()
    text = "" if value is None else str(value)
    return text.replace(".", mark) if isinstance(value, float) else text


def _read(file: str, content: bytes) -> Read:
    """Return what is read from the only file of a site."""
    with TemporaryDirectory() as path:
        readings, findings = site_of(Path(path), file, content, rows="monthly").read()
    return Read(values_in(readings), findings)
