"""Sheets in memory for tests of reading, without a file."""

from __future__ import annotations

from datetime import datetime

from footprint.read.sheet import Cell, Kind, Merged, Sheet

Value = float | int | str | bool | datetime | None


def sheet_of(rows: list[list[Value]], merged: tuple[Merged, ...] = (), name: str = "Gas") -> Sheet:
    """Return a sheet of rows from A1 on; None is an empty cell."""
    cells = {
        (row, column): cell_of(row, column, value)
        for row, values in enumerate(rows, start=1)
        for column, value in enumerate(values, start=1)
        if value is not None
    }
    return Sheet("meters.xlsx", name, cells, merged=merged)


def cell_of(row: int, column: int, value: Value) -> Cell:
    """Return a cell of the kind that its value has."""
    kind: Kind = "text"
    if isinstance(value, bool):
        kind = "truth"
    elif isinstance(value, datetime):
        kind = "date"
    elif isinstance(value, int | float):
        kind, value = "number", float(value)
    assert value is not None
    written = f"{value:.15g}" if isinstance(value, float) else str(value)
    return Cell(row, column, kind, value, written)
