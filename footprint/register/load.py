"""The factor files of a folder, read into a register; all faults of all files in one run."""

from __future__ import annotations

import csv
import io
from importlib import resources
from importlib.resources.abc import Traversable
from pathlib import Path

from footprint.base.finding import Finding, Where
from footprint.register import faults
from footprint.register.editions import check_editions
from footprint.register.entry import COLUMNS, Entry, Line
from footprint.register.line import Cells, entry_of
from footprint.register.register import Register

_PLACE_IN_A_SERIES = {"quantity", "jurisdiction", "first_day", "last_day"}


def factors_folder() -> Traversable:
    """Return the folder of factor files: inside the installed package, else beside it.

    Source: definition
    """
    package = resources.files("footprint")
    inside = package / "factors"
    return inside if inside.is_dir() else Path(str(package)).parent / "factors"


def load(folder: Path | None = None) -> tuple[Register, list[Finding]]:
    """Return the register of all sound lines, and all faults of the others.

    Args:
        folder: holds the .csv files; the delivered factors when None. [folder]

    Findings:
        factor-folder-empty: no factor file
        factor-file-unreadable: not text in UTF-8
        factor-heading-wrong: the columns are not the fifteen
        factor-line-misshapen: too many or too few cells
        others: see `faults`

    Source: definition
    """
    findings: list[Finding] = []
    entries: list[Entry] = []
    faulty: dict[Line, set[str]] = {}
    for file in _files(folder or factors_folder(), findings):
        for cells in _lines_of(file, findings):
            entries.append(entry_of(cells))
            if cells.findings:
                faulty[cells.line] = {finding.where.column for finding in cells.findings}
            findings += cells.findings
    placed = [one for one in entries if not faulty.get(one.line, set()) & _PLACE_IN_A_SERIES]
    unitless = {line for line, columns in faulty.items() if "unit" in columns}
    undecided, between = check_editions(placed, unitless)
    left_out = faulty.keys() | undecided
    return Register(one for one in entries if one.line not in left_out), findings + between


def _files(folder: Traversable, findings: list[Finding]) -> list[Traversable]:
    inside = list(folder.iterdir()) if folder.is_dir() else []
    files = sorted(
        (file for file in inside if file.name.endswith(".csv")), key=lambda file: file.name
    )
    if not files:
        findings.append(faults.FOLDER_EMPTY.at(Where(str(folder)), "no factor file is here"))
    return files


def _lines_of(file: Traversable, findings: list[Finding]) -> list[Cells]:
    try:
        text = file.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError:
        findings.append(
            faults.FILE_UNREADABLE.at(Where(file.name), "the file is not text in UTF-8")
        )
        return []
    reader = csv.reader(io.StringIO(text, newline=""))
    heading = next(reader, [])
    if tuple(heading) != COLUMNS:
        where = Where(file.name, cell="line 1")
        findings.append(
            faults.HEADING_WRONG.at(
                where, "the columns are not those of a factor file", read=",".join(heading)
            )
        )
        return []
    lines: list[Cells] = []
    for row in reader:
        line = Line(file.name, reader.line_num)
        if len(row) == len(COLUMNS):
            lines.append(Cells(dict(zip(COLUMNS, row, strict=True)), line))
        elif any(cell.strip() for cell in row):
            findings.append(_misshapen(line, row))
    return lines


def _misshapen(line: Line, row: list[str]) -> Finding:
    where = Where(line.file, cell=f"line {line.number}")
    what = f"the line has {len(row)} cells instead of {len(COLUMNS)}"
    return faults.LINE_MISSHAPEN.at(where, what, read=",".join(row))
