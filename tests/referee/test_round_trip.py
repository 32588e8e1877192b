from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

import openpyxl
import pytest
import xlsxwriter

from footprint.read.readings import Series
from tests.corpus.item import site_of

MONTHS = [datetime(2025, month, 1) for month in range(1, 13)]  # noqa: DTZ001  no zones in sheets
VALUES = [4800.5 + month / 8 for month in range(12)]
TITLE, HEADINGS = "A works that does not exist", ("Date", "Power bought (MWh)")


def by_openpyxl(path: Path) -> None:
    """Write the table with openpyxl."""
    book = openpyxl.Workbook()
    sheet = book.worksheets[0]
    for row in ([TITLE], [], HEADINGS, *zip(MONTHS, VALUES, strict=True)):
        sheet.append(row)
    book.save(path)


def by_xlsxwriter(path: Path) -> None:
    """Write the table with XlsxWriter."""
    with xlsxwriter.Workbook(path, {"default_date_format": "mmm yyyy"}) as book:
        sheet = book.add_worksheet()
        sheet.write_string(0, 0, TITLE)
        sheet.write_row(2, 0, HEADINGS)
        for row, (month, value) in enumerate(zip(MONTHS, VALUES, strict=True), start=3):
            sheet.write_datetime(row, 0, month)
            sheet.write_number(row, 1, value)


def by_calc(path: Path) -> None:
    """Write the table with XlsxWriter, and save it again with LibreOffice Calc."""
    given = path.with_name("given.xlsx")
    by_xlsxwriter(given)
    profile = f"-env:UserInstallation={(path.parent / 'profile').as_uri()}"
    saved = path.parent / "saved"
    command = ["soffice", profile, "--headless", "--convert-to", "xlsx", "--outdir", saved, given]
    subprocess.run(command, check=True, capture_output=True, timeout=300)
    shutil.move(saved / "given.xlsx", path)


def series_of(write: Callable[[Path], None], path: Path) -> Series:
    """Return the readings of a table that a program has written."""
    write(path / "written.xlsx")
    content = (path / "written.xlsx").read_bytes()
    readings, findings = site_of(path, "power.xlsx", content, rows="monthly").read()
    assert findings == []
    assert readings is not None
    return readings.series["EM-4"]


def compare(series: Series) -> None:
    """Check that the readings are those of the table, each from its own cell."""
    origins = [one for one in series.origins if one is not None]
    assert series.dates == tuple(month.date() for month in MONTHS)
    assert series.values.tolist() == VALUES
    assert [one.cell for one in origins] == [f"B{row}" for row in range(4, 16)]
    assert [one.written for one in origins] == [f"{value:.15g}" for value in VALUES]


@pytest.mark.parametrize("write", [by_openpyxl, by_xlsxwriter])
def test_table_of_any_library_gives_the_same_readings(
    write: Callable[[Path], None], tmp_path: Path
) -> None:
    """A table written by either library is read with the same dates, values and cells."""
    series = series_of(write, tmp_path)

    compare(series)


@pytest.mark.calc
@pytest.mark.skipif(
    shutil.which("soffice") is None and "CI" not in os.environ, reason="needs LibreOffice Calc"
)
def test_table_saved_by_calc_gives_the_same_readings(tmp_path: Path) -> None:
    """A table saved again by LibreOffice Calc is read with the same dates, values and cells."""
    series = series_of(by_calc, tmp_path)

    compare(series)
