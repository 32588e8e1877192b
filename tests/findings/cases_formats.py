"""Workbooks of other formats, whose findings need a library that is there or is not."""

from __future__ import annotations

from pathlib import Path

from tests.findings.case import Case
from tests.findings.site_folder import SiteFolder

OLD = Path(__file__).parents[1] / "read" / "other_format.xls"
FORMAT_CODES = ("reader-not-installed",)  # provoked in tests/read, where the library is hidden


def old_power(folder: SiteFolder) -> None:
    """Put the power into an old binary workbook."""
    folder.books["meters.xlsx"].pop("Power")
    folder.texts["power.xls"] = OLD.read_bytes()
    folder.meter("EM-4")["file"] = "power.xls"


FORMAT_CASES = [
    Case(
        "formulas-not-told", old_power, "power.xls", "formulas were read as the values last stored"
    )
]
