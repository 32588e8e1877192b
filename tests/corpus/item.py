"""One messy, wrong or hostile file of a works with one power meter, and what reading it gives."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import Any

import numpy as np

from footprint.base.finding import Finding
from footprint.read.readings import Readings
from tests.findings.site_folder import SiteFolder, good_site

DATE = "Date"
POWER = "Power bought (MWh)"
DAYS = ("2025-01-02", "2025-02-03", "2025-03-04")
VALUES = (1.5, 2.25, 1234.5)
GOOD = dict(zip(DAYS, VALUES, strict=True))


@dataclass(frozen=True)
class Item:
    """A file and what must come of it.

    Attributes:
        name: what is odd about the file, in words. [text]
        file: its name. [text]
        content: its bytes, or what makes them. [bytes]
        values: readings by their date; all others are missing. [MWh]
        findings: code and place in words of every finding. [text]
        keys: of the meter in the site file. [keys]
        year: of the return. [year]
    """

    name: str
    file: str
    content: bytes | Callable[[], bytes]
    values: Mapping[str, float] = field(default_factory=lambda: GOOD)
    findings: Sequence[tuple[str, str]] = ()
    keys: Mapping[str, Any] = field(default_factory=dict)
    year: int = 2025

    def folder(self, path: Path) -> SiteFolder:
        """Return the site folder in which the file is the only one."""
        made = self.content if isinstance(self.content, bytes) else self.content()
        return site_of(path, self.file, made, self.year, **self.keys)


def site_of(path: Path, file: str, content: bytes, year: int = 2025, **keys: Any) -> SiteFolder:
    """Return the folder of a works with one power meter, read from one file."""
    folder = good_site(path)
    meter = {"tag": "EM-4", "file": file, "column": "Power bought", "rows": "tickets"}
    works = folder.site["works"]
    works["year"] = year
    works["plan"] = works["plan"] | {"valid_from": date(2020, 1, 1)}
    folder.site = {
        "works": works,
        "units": folder.site["units"],
        "meters": [meter | keys],
        "streams": [folder.stream("power")],
    }
    folder.books = {}
    folder.texts = {file: content}
    return folder


def values_in(readings: Readings | None) -> dict[str, float]:
    """Return the readings of the power meter by their date, without those that are missing."""
    series = readings.series.get("EM-4") if readings else None
    if series is None:
        return {}
    found = zip(series.dates, series.values, strict=True)
    return {day.isoformat(): float(value) for day, value in found if not np.isnan(value)}


def told(findings: Sequence[Finding]) -> list[tuple[str, str]]:
    """Return code and place of each finding."""
    return sorted((one.code, one.where.words) for one in findings)


def lines(*rows: str, encoding: str = "utf-8", end: str = "\n") -> bytes:
    """Return the bytes of a text file."""
    return (end.join(rows) + end).encode(encoding)


def text_of(values: Sequence[str], days: Sequence[str] = DAYS, sign: str = ";") -> bytes:
    """Return a text table of dates and values."""
    rows = [f"{day}{sign}{value}" for day, value in zip(days, values, strict=True)]
    return lines(f"{DATE}{sign}{POWER}", *rows)


def in_text(cell: str, column: str = POWER) -> str:
    """Return the place of a cell in the text file."""
    return f'power.csv > {cell} (column "{column}")'


def in_book(cell: str, column: str = POWER, sheet: str = "Power") -> str:
    """Return the place of a cell in the workbook."""
    return f'power.xlsx > {sheet} > {cell} (column "{column}")'
