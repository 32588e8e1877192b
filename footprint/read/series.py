"""The readings of one meter in the order of their dates, with every hole and every slip named."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np

from footprint.base.finding import Finding, declare
from footprint.base.source import Reading
from footprint.base.units import Unit, is_convertible, unit
from footprint.read.cell_values import Valued, values_in
from footprint.read.fault import Fault, Refusal, fault_in
from footprint.read.headings import Column
from footprint.read.holes import (
    Hole,
    around,
    explained,
    needless,
    periods,
    runs,
    substitute_for,
    substituted,
)
from footprint.read.hours import hours_refused
from footprint.read.readings import Series
from footprint.read.roles import MAY_BE_NEGATIVE, Purpose, kind_of
from footprint.read.rows import Rows
from footprint.read.sheet import Cell
from footprint.read.site import Gap, Meter, Substitute

_PER_CENT = 100.0

NEGATIVE_READING = declare(
    "negative-reading",
    "stop",
    means="A reading is below zero where its role allows none.",
    effect="it would be taken off the total; the reading counts as missing",
    mend="write the amount without its sign, or 0 if the meter drifted while nothing flowed",
    example="-12 Nm3 of feed gas; mended: 0",
)
CREDIT_NOTE = declare(
    "negative-ticket",
    "note",
    means="A ticket is below zero.",
    effect="it was taken as a credit note and reduces the total",
    mend="nothing, if it corrects an earlier ticket",
    example="-21.4 t of CO2 sold",
)
PER_CENT_OUT_OF_RANGE = declare(
    "per-cent-out-of-range",
    "stop",
    means="A reading in per cent is below 0 or above 100.",
    effect="no product holds more than all of itself; the reading counts as missing",
    mend="look the value up and write it into the cell",
    example="998 in a column of purity; mended: 99.8",
)
FRACTION_IN_PER_CENT = declare(
    "share-in-per-cent-column",
    "stop",
    means="All readings of a column of per cent are below 1.",
    effect="they look like shares: 0.998 read as per cent makes the product a "
    "hundred times too small",
    mend="write per cent, or remove the per cent sign from the heading and give "
    "the cells that format",
    example="0.998 under Purity (%); mended: 99.8",
)


@dataclass(frozen=True, eq=False, slots=True)
class Source:
    """What a series is made from.

    Attributes:
        meter: as declared. [meter]
        column: where it stands. [column]
        rows: of its table. [rows]
        unit: of the column. [unit]
        purposes: roles and uses of the meter. [text]
        substitutes: and gaps of this meter. [entries]
        year: of the return. [year]
    """

    meter: Meter
    column: Column
    rows: Rows
    unit: Unit
    purposes: Sequence[Purpose]
    substitutes: Sequence[Substitute | Gap]
    year: int


@dataclass(frozen=True, eq=False, slots=True)
class Result:
    """A series with what was found in its cells."""

    series: Series
    faults: list[Fault]
    holes: list[Hole]
    findings: list[Finding]


def series_of(source: Source) -> Result:
    """Return the readings of a meter in the order of their dates.

    Args:
        source: where they stand, and what they must be. [source]

    Findings:
        negative-reading, negative-ticket, per-cent-out-of-range, share-in-per-cent-column.
        reading-substituted, substitute-not-needed; holes are returned for the whole table.
        the codes of `cell_values`.

    Source: definition
    """
    read, faults = values_of(source)
    row_of = {day: row for row, day in source.rows.days.items()}
    expected = periods(source.meter.rows, source.year)
    refused = rows_refused(faults)
    open_days = [
        day for day in expected if row_of.get(day) not in read and day not in source.rows.blocked
    ]
    covered = [day for day in open_days if substitute_for(source.substitutes, day)]
    bare = [day for day in open_days if day not in covered and row_of.get(day) not in refused]
    covered_rows = {row_of.get(day) for day in covered}
    kept = [
        fault
        for fault in faults
        if fault.refusal.code.level != "stop" or fault.row not in covered_rows
    ]
    present = [day for day in expected if row_of.get(day) in read]
    findings = [*substituted_findings(source, covered, row_of), *needless_findings(source, present)]
    dated = [(day, row_of.get(day)) for day in expected]
    return Result(series_from(source, dated, read), kept, _holes(source, bare, row_of), findings)


def rows_refused(faults: Sequence[Fault]) -> set[int]:
    """Return the rows of faults that stop a figure.

    Args:
        faults: of one column. [faults]

    Source: definition
    """
    return {fault.row for fault in faults if fault.refusal.code.level == "stop"}


def values_of(source: Source) -> tuple[dict[int, float], list[Fault]]:
    """Return the number in each row that has one, and what is wrong or was chosen.

    Args:
        source: where the readings stand, and what they must be. [source]

    Source: definition
    """
    column, sheet = source.column, source.column.sheet
    is_per_cent = source.unit == unit("percent")
    cells = [cell for row in source.rows.days if (cell := sheet.at(row, column.column)) is not None]
    found = values_in(
        cells,
        source.meter.decimal_mark,
        is_per_cent=is_per_cent,
        is_text_usual=sheet.is_text,
    )
    read: dict[int, float] = {}
    faults: list[Fault] = []
    for cell, one in zip(cells, found, strict=True):
        refusal = one if isinstance(one, Refusal) else None
        if isinstance(one, Valued) and (is_per_cent or one.value < 0):
            refusal = _implausible(source, one.value)
        if refusal is None and isinstance(one, Valued):
            day = source.rows.days[cell.row]
            refusal = hours_refused(source.meter, source.unit, day, one.value)
        if refusal:
            faults.append(fault_in(sheet, column.heading, cell, refusal))
        if isinstance(one, Valued) and (refusal is None or refusal.code.level != "stop"):
            read[cell.row] = one.value
            faults += [fault_in(sheet, column.heading, cell, note) for note in one.notes]
    return _without_shares(source, read, faults), faults


def _implausible(source: Source, value: float) -> Refusal | None:
    """Return why a number cannot be a reading of its role, or the note that it is a credit."""
    if source.unit == unit("percent") and not 0 <= value <= _PER_CENT:
        return Refusal(PER_CENT_OUT_OF_RANGE, f"{value:.10g} is not between 0 and 100 per cent")
    is_gauge = is_convertible(source.unit, unit("kPa_gauge"))  # below the atmosphere's is negative
    if value >= 0 or is_gauge or any(purpose in MAY_BE_NEGATIVE for purpose in source.purposes):
        return None
    if source.meter.rows == "invoices":
        return None  # a credit note, told with its period
    if source.meter.rows == "tickets":
        return Refusal(CREDIT_NOTE, "tickets are below zero")
    named = ", ".join(f'"{purpose}"' for purpose in source.purposes) or source.meter.tag
    return Refusal(NEGATIVE_READING, f"{value:.10g} is below zero, which {named} can't be")


def _without_shares(
    source: Source, read: dict[int, float], faults: list[Fault]
) -> dict[int, float]:
    """Return the readings, or none where a whole column of per cent looks like shares."""
    is_per_cent = any(kind_of(purpose) == "per cent" for purpose in source.purposes)
    if not (is_per_cent and read and 0 < max(read.values()) <= 1):
        return read
    refusal = Refusal(FRACTION_IN_PER_CENT, "all readings of the column are below 1 per cent")
    column = source.column
    faults += [
        fault_in(column.sheet, column.heading, column.sheet.cells[(row, column.column)], refusal)
        for row in read
    ]
    return {}


def series_from(
    source: Source, dated: Sequence[tuple[date, int | None]], read: dict[int, float]
) -> Series:
    """Return the series; periods without a reading are NaN.

    Args:
        source: where the readings stand. [source]
        dated: each period and its row; None without one. [date, row]
        read: number in each row that has one. [unit of the series]

    Source: definition
    """
    column = source.column
    cells = [column.sheet.at(row, column.column) if row else None for _, row in dated]
    return Series(
        source.meter.tag,
        source.meter.rows,
        tuple(day for day, _ in dated),
        np.array([read.get(row or 0, np.nan) for _, row in dated], dtype=np.float64),
        source.unit,
        tuple(origin_of(column, cell) if cell else None for cell in cells),
    )


def origin_of(column: Column, cell: Cell) -> Reading:
    """Return the place of a reading, with its text and, where it has one, its formula.

    Args:
        column: of the table. [column]
        cell: that holds something. [cell]

    Source: definition
    """
    written = f"{cell.written} from {cell.formula}" if cell.formula else cell.written
    home = column.sheet.home(cell.row)
    return Reading(home.file, home.name, cell.address, written)


def _holes(source: Source, bare: list[date], row_of: dict[date, int]) -> list[Hole]:
    """Return the holes, run by run; empty cells and missing rows apart."""
    expected, header_row = periods(source.meter.rows, source.year), source.column.header_row
    without_row = [day for day in expected if day not in row_of]
    told = explained(without_row, expected, row_of, rows_refused(source.rows.faults))
    holes: list[Hole] = []
    for run in runs([day for day in bare if day not in told], expected, lambda day: day in row_of):
        has_row = run[0] in row_of
        rows = tuple(row_of[day] for day in run) if has_row else around(run, row_of, header_row)
        holes.append(Hole(source.column, source.meter.tag, tuple(run), rows, has_row))
    return holes


def substituted_findings(
    source: Source, covered: list[date], row_of: dict[date, int]
) -> list[Finding]:
    """Return a note for each run of periods that a substitute covers.

    Args:
        source: where the readings stand. [source]
        covered: periods without a reading that a substitute covers. [date]
        row_of: row of each period that has one. [row]

    Source: definition
    """
    expected = periods(source.meter.rows, source.year)
    findings: list[Finding] = []
    for run in runs(covered, expected, lambda day: id(substitute_for(source.substitutes, day))):
        rows = tuple(row_of[day] for day in run if day in row_of)
        entry = substitute_for(source.substitutes, run[0])
        if isinstance(entry, Substitute):  # what fills a gap is known when all meters are read
            hole = Hole(source.column, source.meter.tag, tuple(run), rows, bool(rows))
            findings.append(substituted(hole, entry, source.meter.rows))
    return findings


def needless_findings(source: Source, present: list[date]) -> list[Finding]:
    """Return a warning for each substitute that covers days with readings.

    Args:
        source: where the readings stand. [source]
        present: periods with a reading. [date]

    Source: definition
    """
    findings: list[Finding] = []
    for entry in source.substitutes:
        days = [day for day in present if entry.first_day <= day <= entry.last_day]
        if days:
            findings.append(needless(entry, source.column, days, source.meter.rows))
    return findings
