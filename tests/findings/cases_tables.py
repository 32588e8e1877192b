"""Faults in headings, dates, units, sheets and rows of totals."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from typing import Any

from openpyxl.worksheet.worksheet import Worksheet

from tests.findings.case import Case, all_of
from tests.findings.cases_cells import put
from tests.findings.site_folder import SiteFolder

DATES = 'meters.xlsx > Gas > {cell} (column "Date")'
HEADING = 'meters.xlsx > Gas > B3 (column "{heading}")'


def heading(text: str, unit: str | None = None) -> Callable[[SiteFolder], None]:
    """Return a change of the feed meter's heading, and of its unit in the site file."""

    def change(folder: SiteFolder) -> None:
        folder.put("Gas", "B3", text)
        if unit:
            folder.meter("FT-1")["unit"] = unit

    return change


def rows(change_rows: Callable[[list[list[Any]]], Any], sheet: str = "Gas") -> Any:
    """Return a change of the rows of a sheet."""

    def change(folder: SiteFolder) -> None:
        change_rows(folder.sheet(sheet))

    return change


def keys(tag: str, **values: Any) -> Callable[[SiteFolder], None]:
    """Return a change of a meter's entry."""
    return lambda folder: folder.meter(tag).update(values)


def touched(sheet: str, change_sheet: Callable[[Worksheet], Any]) -> Callable[[SiteFolder], None]:
    """Return a change of a sheet before it is saved."""
    return lambda folder: folder.touch(sheet, change_sheet)


def second_gas_sheet(folder: SiteFolder) -> None:
    """Copy the sheet of the gas meters and name neither."""
    folder.books["meters.xlsx"]["Gas, old"] = folder.sheet("Gas")
    for tag in ("FT-1", "FT-2"):
        folder.meter(tag).pop("sheet")


def hidden_gas_sheet(folder: SiteFolder) -> None:
    """Copy the sheet of the gas meters, hide the copy and name neither."""
    second_gas_sheet(folder)
    folder.touch("Gas, old", lambda sheet: setattr(sheet, "sheet_state", "hidden"))


def dates_by_month_and_day(folder: SiteFolder) -> None:
    """Give the feed meter tickets whose dates may be read both ways."""
    folder.use_text(["Date;Feed gas (Nm3)", "03/04/2025;12.5", "05/04/2025;12.5"])


CODES_OF_HEADINGS = [
    (
        "gas-volume-without-conditions",
        "m3",
        'unit "m3" does not say at which temperature and pressure',
    ),
    ("unit-is-a-rate", "Nm3/h", 'unit "Nm3/h" is an amount per time'),
    ("ambiguous-unit", "Mscf", 'unit "Mscf" means different amounts to different people'),
    ("energy-without-net-or-gross", "GJ", 'unit "GJ" does not say net or gross'),
    ("gauge-pressure", "bar(g)", 'unit "bar(g)" is counted from the atmosphere'),
    ("pressure-without-reference", "kPa", 'unit "kPa" does not say absolute or gauge'),
    ("per-cent-by-mole", "mol-%", 'unit "mol-%" is per cent of the molecules'),
    ("unknown-unit", "Nm4", 'unit "Nm4" is not known'),
    (
        "bad-unit-for-role",
        "MWh",
        '"feed" is counted in a gas volume such as Nm3, or kmol, not in MWh',
    ),
]
TABLE_CASES = [
    *(
        Case(
            code, heading(f"Feed gas ({unit})"), HEADING.format(heading=f"Feed gas ({unit})"), what
        )
        for code, unit, what in CODES_OF_HEADINGS
    ),
    Case(
        "missing-unit",
        heading("Feed gas"),
        HEADING.format(heading="Feed gas"),
        'nothing names the unit of "Feed gas"',
    ),
    Case(
        "units-disagree",
        heading("Feed gas (Nm3)", unit="kNm3"),
        HEADING.format(heading="Feed gas (Nm3)"),
        'the heading says "Nm3", but site.toml says "kNm3"',
    ),
    Case(
        "standard-volume-taken-at-15-c",
        heading("Feed gas (Sm3)"),
        HEADING.format(heading="Feed gas (Sm3)"),
        'unit "Sm3" was read as 15 °C, 101.325 kPa',
    ),
    Case(
        "missing-column",
        heading("Feed flow (Nm3)"),
        "meters.xlsx > Gas > row 3",
        'no heading "Feed gas" in row 3',
    ),
    Case(
        "repeated-heading",
        put("C3", "Feed gas (kNm3)"),
        "meters.xlsx > Gas > B3, C3",
        'heading "Feed gas (Nm3)" stands over 2 columns',
        also=("missing-column",),
    ),
    Case(
        "missing-sheet",
        keys("EM-4", sheet="Powr"),
        "meters.xlsx",
        'no sheet "Powr"',
    ),
    Case(
        "sheet-not-named",
        second_gas_sheet,
        "meters.xlsx",
        'sheets "Gas", "Gas, old" all have the columns sought',
    ),
    Case(
        "hidden-sheet-read",
        touched("Power", lambda sheet: setattr(sheet, "sheet_state", "hidden")),
        "meters.xlsx > Power",
        'sheet "Power" is hidden',
    ),
    Case(
        "hidden-sheet-left-out",
        hidden_gas_sheet,
        "meters.xlsx > Gas, old",
        'hidden sheet "Gas, old" is not read',
    ),
    Case(
        "hidden-rows-read",
        touched("Gas", lambda sheet: setattr(sheet.row_dimensions[66], "hidden", True)),
        DATES.format(cell="A66"),
        "hidden rows hold readings",
    ),
    Case(
        "hidden-rows-read",
        touched("Gas", lambda sheet: setattr(sheet.column_dimensions["B"], "hidden", True)),
        HEADING.format(heading="Feed gas (Nm3)"),
        'the column "Feed gas (Nm3)" is hidden',
    ),
    Case(
        "missing-row",
        rows(lambda sheet: sheet.pop(65)),
        DATES.format(cell="A65:A66"),
        "no row for 2025-03-04",
    ),
    Case(
        "repeated-date",
        put("A67", datetime(2025, 3, 4)),  # noqa: DTZ001
        DATES.format(cell="A66:A67"),
        "a date stands in more than one row",
    ),
    Case(
        "date-outside-year",
        rows(lambda sheet: sheet.insert(3, [datetime(2024, 12, 31), 1, 1])),  # noqa: DTZ001
        DATES.format(cell="A4"),
        "rows are not dated in 2025",
    ),
    Case(
        "implausible-date",
        put("A66", datetime(2052, 3, 4)),  # noqa: DTZ001
        DATES.format(cell="A66"),
        "2052-03-04 is not in 2025, the year of the return",
    ),
    Case(
        "row-without-date",
        put("A66", None),
        DATES.format(cell="A66"),
        "readings stand beside an empty date",
    ),
    Case(
        "total-without-label",
        rows(lambda sheet: sheet.append([None, 365 * 700000, 365 * 300000])),
        DATES.format(cell="A369"),
        "a row without date holds the sums of its columns",
    ),
    Case(
        "total-disagrees",
        rows(lambda sheet: sheet.append(["Total", 365 * 700000 + 5000, 365 * 300000])),
        'meters.xlsx > Gas > B369 (column "Feed gas (Nm3)")',
        "the total is 5000 above the sum of the rows above it",
    ),
    Case(
        "date-not-understood",
        put("A66", "4 Mrz"),
        DATES.format(cell="A66"),
        '"4 Mrz" is not a date',
    ),
    Case(
        "ambiguous-date-order",
        dates_by_month_and_day,
        'feed.csv > A2:A3 (column "Date")',
        '"03/04/2025" may be 2025-03-04 or 2025-04-03, and 1 more cell like it',
    ),
    Case(
        "mixed-dates",
        put("A66", "04/03/2025"),
        DATES.format(cell="A66"),
        '"04/03/2025" is text, while other cells of the column hold dates',
    ),
    Case(
        "date-as-number",
        put("A66", 45720),
        DATES.format(cell="A66"),
        "plain numbers were read as serial numbers of days",
    ),
    Case(
        "date-as-text",
        put("A66", "2025-03-04"),
        DATES.format(cell="A66"),
        "dates are written as text",
    ),
    Case(
        "time-of-day-left-out",
        put("A66", datetime(2025, 3, 4, 6)),  # noqa: DTZ001
        DATES.format(cell="A66"),
        "dates carry the time 06:00",
    ),
    Case(
        "not-the-first-of-a-month",
        put("A6", datetime(2025, 3, 31), "Power"),  # noqa: DTZ001
        'meters.xlsx > Power > A6 (column "Month")',
        "dates are not the first of a month",
    ),
    Case(
        "negative-ticket",
        all_of(keys("EM-4", rows="tickets"), put("B6", -3.5, "Power")),
        'meters.xlsx > Power > B6 (column "Power bought (MWh)")',
        "tickets are below zero",
    ),
]
