"""Faults of gas analyses."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from tests.findings.case import Case, all_of
from tests.findings.cases_cells import put
from tests.findings.site_folder import SiteFolder

SHEET = "Natural gas"
PLACE = "laboratory.xlsx > Natural gas > "


def heading(text: str) -> Callable[[SiteFolder], None]:
    """Return a change of the heading of ethane."""
    return put("C3", text, SHEET)


def in_column(*values: Any) -> Callable[[SiteFolder], None]:
    """Return a change that adds a column with a heading and one value for all samples."""

    def change(folder: SiteFolder) -> None:
        rows = folder.sheet(SHEET)
        rows[2].append(values[0])
        for row in rows[3:]:
            row.append(values[1])

    return change


def without_samples(folder: SiteFolder) -> None:
    """Leave the headings alone."""
    del folder.sheet(SHEET)[3:]


ANALYSIS_CASES = [
    Case(
        "unknown-component",
        heading("Inerts"),
        PLACE + 'C3 (column "Inerts")',
        '"Inerts" is no known component',
    ),
    Case(
        "plus-fraction-without-split",
        heading("C6+"),
        PLACE + 'C3 (column "C6+")',
        '"C6+" sums up heavier hydrocarbons',
    ),
    Case(
        "repeated-heading",
        heading("Methane"),
        PLACE + 'C3 (column "Methane")',
        '"Methane" is methane, which another column holds already',
    ),
    Case(
        "analysis-not-in-mole-per-cent",
        heading("C2H6 (ppm)"),
        PLACE + 'C3 (column "C2H6 (ppm)")',
        '"C2H6 (ppm)" is in "ppm"',
    ),
    Case(
        "no-components",
        all_of(*(put(f"{column}3", f"Gas {column}", SHEET) for column in "BCDE")),
        "laboratory.xlsx > Natural gas",
        'no heading is a known component of "natural gas"',
    ),
    Case(
        "missing-column",
        put("A3", "Date", SHEET),
        "laboratory.xlsx > Natural gas",
        'no heading "Sampled" in the sheet',
    ),
    Case(
        "no-samples",
        without_samples,
        PLACE + "A3",
        'no sample of "natural gas"',
    ),
    Case(
        "analysis-does-not-close",
        put("B6", 84.0, SHEET),
        PLACE + 'A6 (column "Sampled")',
        "the components sum to 90 mole per cent",
    ),
    Case(
        "analysis-closes-poorly",
        put("B6", 92.0, SHEET),
        PLACE + 'A6 (column "Sampled")',
        "the components sum to 98 mole per cent",
    ),
    Case(
        "empty-component",
        put("C6", None, SHEET),
        PLACE + 'C6 (column "C2H6")',
        "samples have no value for ethane",
    ),
    Case(
        "component-out-of-range",
        put("C6", -0.02, SHEET),
        PLACE + 'C6 (column "C2H6")',
        "-0.02 is not between 0 and 100",
    ),
    Case(
        "water-in-dry-analysis",
        in_column("H2O", 0.5),
        PLACE + 'F4:F16 (column "H2O")',
        "samples declared dry hold water",
    ),
    Case(
        "text-in-number-cell",
        put("C6", "<0.05", SHEET),
        PLACE + 'C6 (column "C2H6")',
        '"<0.05" is not a number',
    ),
]
