"""Faults in single cells of a column of readings."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from typing import Any

from openpyxl.worksheet.worksheet import Worksheet

from tests.findings.case import Case, all_of
from tests.findings.site_folder import SiteFolder

FEED = 'meters.xlsx > Gas > {cell} (column "Feed gas (Nm3)")'
PURITY = 'meters.xlsx > Product > {cell} (column "Purity (% by mass)")'


def put(address: str, value: Any, sheet: str = "Gas") -> Callable[[SiteFolder], None]:
    """Return a change that writes one cell."""
    return lambda folder: folder.put(sheet, address, value)


def fill(address: str, value: Any, sheet: str) -> Callable[[SiteFolder], None]:
    """Return a change that writes one value into the rest of a column."""

    def change(folder: SiteFolder) -> None:
        for row in range(int(address[1:]), len(folder.sheet(sheet)) + 1):
            folder.put(sheet, f"{address[0]}{row}", value)

    return change


def in_format(address: str, number_format: str, sheet: str) -> Callable[[SiteFolder], None]:
    """Return a change that gives a cell a number format."""

    def change(folder: SiteFolder) -> None:
        def touch(worksheet: Worksheet) -> None:
            worksheet[address].number_format = number_format

        folder.touch(sheet, touch)

    return change


def empty_with_substitute(folder: SiteFolder) -> None:
    """Empty a cell and declare a substitute for its day."""
    folder.put("Gas", "B66", None)
    substitute(folder)


def substitute(folder: SiteFolder) -> None:
    """Declare a substitute for 4 March."""
    day = datetime(2025, 3, 4).date()  # noqa: DTZ001
    folder.site["substitutes"] = [
        {
            "meter": "FT-1",
            "first_day": day,
            "last_day": day,
            "value": 690000.0,
            "author": "A. Tester",
            "why": "meter under repair",
            "when": day,
        }
    ]


CELL_CASES = [
    Case(
        "text-in-number-cell",
        put("B66", "n/a"),
        FEED.format(cell="B66"),
        '"n/a" is not a number',
    ),
    Case(
        "text-in-number-cell",
        put("B66", "12 Nm3"),
        FEED.format(cell="B66"),
        '"12 Nm3" is not a number',
    ),
    Case(
        "text-in-number-cell",
        put("B66", value=True),
        FEED.format(cell="B66"),
        '"TRUE" is not a number',
    ),
    Case(
        "missing-reading",
        put("B66", None),
        FEED.format(cell="B66"),
        "no reading for 2025-03-04",
    ),
    Case(
        "missing-reading",
        all_of(*(put(f"B{row}", None) for row in range(66, 72))),
        FEED.format(cell="B66:B71"),
        "no reading for 2025-03-04 to 2025-03-09 (6 days)",
    ),
    Case(
        "missing-reading",
        put("B6", None, "Power"),
        'meters.xlsx > Power > B6 (column "Power bought (MWh)")',
        "no reading for 2025-03",
    ),
    Case(
        "reading-substituted",
        empty_with_substitute,
        FEED.format(cell="B66"),
        "FT-1, 2025-03-04: 690000 instead, by A. Tester",
    ),
    Case(
        "substitute-not-needed",
        substitute,
        'meters.xlsx > Gas (column "Feed gas (Nm3)")',
        "FT-1 has readings for 2025-03-04, which a substitute covers",
    ),
    Case(
        "formula-without-result",
        put("B66", "=C66*2"),
        FEED.format(cell="B66"),
        "formulas have no stored result",
    ),
    Case(
        "error-cell",
        put("B66", "#DIV/0!"),
        FEED.format(cell="B66"),
        'the cell shows "#DIV/0!"',
    ),
    Case(
        "date-in-number-cell",
        put("B66", datetime(2025, 12, 3)),  # noqa: DTZ001
        FEED.format(cell="B66"),
        '"2025-12-03" is stored as a date or a time',
    ),
    Case(
        "number-stored-as-text",
        put("B66", "700 001.5"),
        FEED.format(cell="B66"),
        "numbers are stored as text",
    ),
    Case(
        "contradictory-decimal-marks",
        all_of(put("B66", "700001.5"), put("B67", "700001,5")),
        FEED.format(cell="B67"),
        '"700001,5" has another decimal mark than the cells above it',
        also=("number-stored-as-text",),
    ),
    Case(
        "ambiguous-decimal-mark",
        put("B66", "700,001"),
        FEED.format(cell="B66"),
        '"700,001" may be 700.001 or 700001',
    ),
    Case(
        "negative-reading",
        put("B66", -12),
        FEED.format(cell="B66"),
        '-12 is below zero, which "feed" can\'t be',
    ),
    Case(
        "negative-reading",
        all_of(put("B66", -12), put("B67", -3), put("B70", -5)),
        FEED.format(cell="B66:B67, B70"),
        '-12 is below zero, which "feed" can\'t be, and 2 more cells like it',
    ),
    Case(
        "per-cent-out-of-range",
        put("C66", 998, "Product"),
        PURITY.format(cell="C66"),
        "998 is not between 0 and 100 per cent",
    ),
    Case(
        "share-in-per-cent-column",
        fill("C4", 0.998, "Product"),
        PURITY.format(cell="C4:C368"),
        "all readings of the column are below 1 per cent",
    ),
    Case(
        "mixed-per-cent",
        in_format("C66", "0.0%", "Product"),
        PURITY.format(cell="C66"),
        "cells are shown as per cent, while most of the column are plain numbers",
    ),
    Case(
        "amount-shown-as-per-cent",
        in_format("B66", "0%", "Product"),
        'meters.xlsx > Product > B66 (column "Ammonia (t)")',
        '"100050 %" stands in a column of amounts',
    ),
]
