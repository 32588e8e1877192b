from __future__ import annotations

from datetime import datetime
from pathlib import Path

import pytest
import xlsxwriter

from footprint.base.finding import Finding
from footprint.read.readings import Readings
from tests.findings.cases_formulas import FORMULA_CODES
from tests.findings.site_folder import MONTHS, good_site

ROW_OF_MARCH = 3


def read_with_formula(path: Path, formula: str, result: object) -> tuple[Readings, list[Finding]]:
    """Return what is read where the power of March is a formula with a stored result."""
    folder = good_site(path)
    folder.meter("EM-4")["file"] = "power.xlsx"
    folder.books["meters.xlsx"].pop("Power")
    with xlsxwriter.Workbook(path / "power.xlsx", {"default_date_format": "mmm yy"}) as book:
        sheet = book.add_worksheet("Power")
        sheet.write_row(0, 0, ["Month", "Power bought (MWh)"])
        for row, month in enumerate(MONTHS, start=1):
            sheet.write_datetime(row, 0, datetime(month.year, month.month, 1))  # noqa: DTZ001
            sheet.write_number(row, 1, 4800.5)
        sheet.write_formula(ROW_OF_MARCH, 1, formula, None, result)
    readings, findings = folder.read()
    assert readings is not None
    return readings, findings


@pytest.mark.parametrize(
    ("code", "formula", "what"),
    [
        (FORMULA_CODES[0], "=B2+0.25", "readings are results of formulas"),
        (FORMULA_CODES[1], "='[old.xlsx]Power'!B4", "formulas draw on another workbook"),
    ],
)
def test_stored_result_of_formula_is_read(
    code: str, formula: str, what: str, tmp_path: Path
) -> None:
    """The stored result of a formula is the reading, and the user is told that it is one."""
    readings, findings = read_with_formula(tmp_path, formula, 4800.75)

    series = readings.series["EM-4"]
    origin = series.origins[2]
    assert series.values[2] == 4800.75
    assert [(one.code, one.what) for one in findings] == [(code, what)]
    assert findings[0].where.words == 'power.xlsx > Power > B4 (column "Power bought (MWh)")'
    assert origin is not None
    assert origin.written == f"4800.75 from {formula}"


def test_stored_error_of_formula_is_no_reading(tmp_path: Path) -> None:
    """A formula whose stored result is an error of the spreadsheet gives no reading."""
    readings, findings = read_with_formula(tmp_path, "=B2/0", "#DIV/0!")

    assert [one.code for one in findings] == ["error-cell"]
    assert readings.series["EM-4"].values[2] != readings.series["EM-4"].values[2]


def test_empty_result_of_formula_is_no_zero(tmp_path: Path) -> None:
    """A formula whose stored result is an empty text is refused, never taken as zero."""
    readings, findings = read_with_formula(tmp_path, '=""', "")

    assert [one.level for one in findings] == ["stop"]
    assert readings.series["EM-4"].values[2] != readings.series["EM-4"].values[2]
