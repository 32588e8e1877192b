"""Recalculates a workbook with engines that are not ours."""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
from pathlib import Path

import formualizer
import openpyxl
import pytest

POISON = -987654321.0  # stored in place of every result: only a true recalculation can remove it
ALWAYS = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema"
 xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load">
<prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
<item oor:path="/org.openoffice.Office.Calc/Formula/Load">
<prop oor:name="ODFRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>"""
Value = float | str | bool | None
Values = dict[tuple[str, str], Value]
needs_calc = pytest.mark.skipif(
    not shutil.which("soffice") and not os.environ.get("CI"),
    reason="LibreOffice Calc is not installed",
)


def recalculate(path: Path) -> Values:
    """Return every cell of a workbook as LibreOffice Calc computes it, by sheet and cell."""
    with tempfile.TemporaryDirectory() as folder:
        profile = Path(folder) / "profile"
        (profile / "user").mkdir(parents=True)
        (profile / "user" / "registrymodifications.xcu").write_text(ALWAYS, encoding="utf-8")
        out = Path(folder) / "out"
        command = [
            "soffice",
            f"-env:UserInstallation={profile.as_uri()}",
            "--headless",
            "--convert-to",
            "xlsx",
        ]
        subprocess.run(
            [*command, "--outdir", str(out), str(path)],
            check=True,
            capture_output=True,
            timeout=300,
        )
        return values_of(out / path.name)


def recalculate_small(path: Path) -> Values:
    """Return every formula cell as a small engine computes it, by sheet and cell."""
    book = formualizer.load_workbook(str(path))
    found: Values = {}
    for sheet, cell in formulas_of(path):
        row, column = openpyxl.utils.cell.coordinate_to_tuple(cell)
        found[sheet, cell] = book.evaluate_cell(sheet, row, column)
    return found


def values_of(path: Path) -> Values:
    """Return what is stored in every cell that is not empty."""
    book = openpyxl.load_workbook(path, data_only=True)
    return {
        (sheet.title, cell.coordinate): cell.value
        for sheet in book
        for row in sheet.iter_rows()
        for cell in row
        if cell.value is not None
    }


def formulas_of(path: Path) -> dict[tuple[str, str], str]:
    """Return every formula, by sheet and cell."""
    book = openpyxl.load_workbook(path)
    return {
        (sheet.title, cell.coordinate): cell.value
        for sheet in book
        for row in sheet.iter_rows()
        for cell in row
        if cell.data_type == "f"
    }


def differences(stored: Values, computed: Values, cells: list[tuple[str, str]]) -> list[str]:
    """Return the cells whose recalculated value is not the stored one, to 1e-9 relative."""
    found = []
    for place in cells:
        ours, theirs = stored.get(place), computed.get(place)
        if (
            isinstance(ours, int | float)
            and isinstance(theirs, int | float)
            and not isinstance(theirs, bool)
        ):
            if abs(ours - theirs) <= 1e-9 * max(1.0, abs(ours)):
                continue
        elif ours == theirs:
            continue
        found.append(f"{place[0]}!{place[1]}: stored {ours!r}, recalculated {theirs!r}")
    return found
