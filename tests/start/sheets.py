"""Spreadsheets of many layouts, written for tests of drafting; all figures are invented."""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from datetime import date, datetime, time, timedelta
from pathlib import Path

import openpyxl

Cell = str | float | int | date | datetime | None
YEAR = 2025
MONTHS = [date(YEAR, month, 1) for month in range(1, 13)]
SHORT = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def days_of(first: date, count: int) -> list[date]:
    """Return some days that follow each other."""
    return [first + timedelta(days=place) for place in range(count)]


def hours_of(first: date, count: int) -> list[datetime]:
    """Return some hours that follow each other, from midnight on."""
    return [datetime.combine(first, time()) + timedelta(hours=place) for place in range(count)]


def write(path: Path, sheets: dict[str, Sequence[Sequence[Cell]]]) -> Path:
    """Write a workbook from its rows and return its path."""
    book = openpyxl.Workbook()
    book.remove(book.worksheets[0])
    for name, rows in sheets.items():
        sheet = book.create_sheet(name)
        for row in rows:
            sheet.append(list(row))
    book.save(path)
    return path


def write_text(path: Path, lines: Sequence[str]) -> Path:
    """Write a text table from its lines and return its path."""
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")
    return path


def answered(text: str) -> str:
    """Return a draft with the # removed from each line that is a key or the name of a table."""
    lines: list[str] = []
    for line in text.splitlines():
        bare = line.removeprefix("# ")
        try:
            is_key = bool(tomllib.loads(bare)) and not bare.startswith("#")
        except tomllib.TOMLDecodeError:
            is_key = False
        lines.append(bare if is_key else line)
    return "\n".join(lines) + "\n"
