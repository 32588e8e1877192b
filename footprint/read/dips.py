"""A tank read as a level: what it holds follows from its table, between two neighbouring rows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import pairwise

import numpy as np

from footprint.base.finding import Finding, declare
from footprint.base.units import Unit, label
from footprint.read.cell_values import Valued, values_in
from footprint.read.column_units import UNITS_DISAGREE, unit_of
from footprint.read.fault import Fault, Refusal, fault_in, merged_findings
from footprint.read.headings import Column, locate
from footprint.read.library import Library, sheet_of
from footprint.read.readings import Dips, Listed, Series
from footprint.read.roles import Purpose
from footprint.read.series import Result, Source, origin_of, series_of
from footprint.read.sheet import Sheet
from footprint.read.site import DipTable
from footprint.read.site import Source as Place

LEVEL_OUTSIDE_TABLE = declare(
    "level-outside-dip-table",
    "stop",
    means="A level lies below the first or above the last row of the tank's table.",
    effect="the table does not say what the tank holds at it; the stock counts as missing",
    mend="look at the unit of the level, or add the rows that the table lacks",
    example="12400 mm with a table from 0 to 11800 mm",
)
DIP_TABLE_NOT_RISING = declare(
    "dip-table-not-rising",
    "stop",
    means="A level stands twice in a tank's table, or the tank holds less at a higher level.",
    effect="the content at a level can't be told; the stocks of this tank are not read",
    mend="write the rows as the tank's calibration certificate has them",
    example="5200 mm 4310 t above 5300 mm 4130 t; mended: 5300 mm 4410 t",
)
DIP_TABLE_INCOMPLETE = declare(
    "dip-table-incomplete",
    "stop",
    means="A tank's table has fewer than two rows, or a row with a level and no content.",
    effect="the content between its neighbours can't be told; the stocks of this tank are not read",
    mend="write the content, or remove the row",
    example="5200 mm beside an empty cell",
)


@dataclass(frozen=True, eq=False, slots=True)
class _Table:
    """Levels in rising order and what the tank holds at each."""

    levels: Listed
    contents: Listed
    unit: Unit


def dips_of(
    source: Source, library: Library, purposes: Sequence[Purpose]
) -> Result | list[Finding]:
    """Return the stocks of a tank with levels and table beside them, or why they are not read.

    Args:
        source: where the levels stand; its unit is that of the levels. [source]
        library: the files of the site. [library]
        purposes: roles of the tank. [text]

    Findings:
        level-outside-dip-table: at the cell of the level.
        dip-table-not-rising, dip-table-incomplete, units-disagree: the table.
        the codes of `series`, `headings`, `library`.

    Source: definition
    """
    dips = source.meter.dips
    if dips is None:
        raise ValueError(f"{source.meter.tag} has no table of dips")
    column, findings = _column(library, dips)
    if column is None:
        return findings
    levels = locate(column.sheet, dips.content_column, dips.level_column)
    if isinstance(levels, Finding):
        return [*findings, levels]
    table = _table(column, levels, source, purposes)
    if not isinstance(table, _Table):
        return [*findings, *table]
    read = series_of(source)
    series, faults = _stocks(source, read.series, table)
    return Result(series, [*read.faults, *faults], read.holes, [*findings, *read.findings])


def _column(library: Library, dips: DipTable) -> tuple[Column | None, list[Finding]]:
    """Return the column of the contents, or None with the reason."""
    book = library.book(dips.file)
    if book is None:
        return None, []
    place = Place(file=dips.file, sheet=dips.sheet, date_column=dips.level_column)
    sheet, findings = sheet_of(book, place, partial(_has_table, dips))
    if sheet is None:
        return None, findings
    column = locate(sheet, dips.level_column, dips.content_column)
    if isinstance(column, Finding):
        return None, [*findings, column]
    return column, findings


def _has_table(dips: DipTable, sheet: Sheet) -> bool:
    """Return whether a sheet has the columns of a table."""
    return isinstance(locate(sheet, dips.level_column, dips.content_column), Column)


def _table(
    contents: Column, levels: Column, source: Source, purposes: Sequence[Purpose]
) -> _Table | list[Finding]:
    """Return the table in rising order, or what is wrong with it."""
    of_level, findings = unit_of(levels, None, [])
    of_content, more = unit_of(contents, None, purposes)
    if of_level is None or of_content is None:
        return [*findings, *more]
    if of_level != source.unit:
        where = levels.sheet.where(levels.column, [levels.header_row], levels.heading)
        what = f"the table has levels in {label(of_level)}, the readings in {label(source.unit)}"
        return [UNITS_DISAGREE.at(where, what)]
    first = max(one.unit_row or one.header_row for one in (levels, contents))
    rows = [row for row in contents.sheet.by_row if row > first]
    faults: list[Fault] = []
    known, held = (_numbers(one, rows, source, faults) for one in (levels, contents))
    faults += _without_partner(contents, known, held)
    order = sorted(known.keys() & held.keys(), key=lambda row: known[row])
    faults += _not_rising(contents, [(row, known[row], held[row]) for row in order])
    if any(one.refusal.code.level == "stop" for one in faults):
        return merged_findings(faults)
    return _Table(_listed(levels, order, known), _listed(contents, order, held), of_content)


def _numbers(
    column: Column, rows: Sequence[int], source: Source, faults: list[Fault]
) -> dict[int, float]:
    """Return the numbers of a column by row; what can't be read is added to the faults."""
    cells = [cell for row in rows if (cell := column.sheet.at(row, column.column)) is not None]
    found = values_in(
        cells, source.meter.decimal_mark, is_per_cent=False, is_text_usual=column.sheet.is_text
    )
    for cell, one in zip(cells, found, strict=True):
        if isinstance(one, Refusal):
            faults.append(fault_in(column.sheet, column.heading, cell, one))
    pairs = zip(cells, found, strict=True)
    return {cell.row: one.value for cell, one in pairs if isinstance(one, Valued)}


def _without_partner(
    column: Column, known: dict[int, float], held: dict[int, float]
) -> list[Fault]:
    """Return faults of rows that hold a level or a content alone, and of a table of one row."""
    refusal = Refusal(DIP_TABLE_INCOMPLETE, "rows hold a level without content, or the reverse")
    rows = sorted(known.keys() ^ held.keys())
    if len(known.keys() & held.keys()) < 2:  # noqa: PLR2004  between two rows lies what is sought
        refusal = Refusal(DIP_TABLE_INCOMPLETE, "the table has fewer than two rows")
        rows = rows or [column.header_row]
    return [Fault(refusal, column.sheet, column.heading, row, column.column) for row in rows]


def _not_rising(column: Column, rows: Sequence[tuple[int, float, float]]) -> list[Fault]:
    """Return faults of rows whose level repeats or whose content falls."""
    faults: list[Fault] = []
    for (_, low, less), (row, level, content) in pairwise(rows):
        if level == low or content < less:
            what = f"{content:.10g} at {level:.10g} follows {less:.10g} at {low:.10g}"
            refusal = Refusal(DIP_TABLE_NOT_RISING, what)
            cell = column.sheet.cells[(row, column.column)]
            faults.append(fault_in(column.sheet, column.heading, cell, refusal))
    return faults


def _listed(column: Column, rows: Sequence[int], values: dict[int, float]) -> Listed:
    """Return the numbers of some rows with their cells."""
    cells = [column.sheet.cells[(row, column.column)] for row in rows]
    return Listed(
        np.array([values[row] for row in rows]), tuple(origin_of(column, one) for one in cells)
    )


def _stocks(source: Source, read: Series, table: _Table) -> tuple[Series, list[Fault]]:
    """Return what the tank held at each level, and faults of levels that the table lacks."""
    levels, known = read.values.copy(), table.levels.values
    column, faults = source.column, list[Fault]()
    row_of = {day: row for row, day in source.rows.days.items()}
    for place in np.flatnonzero((levels < known[0]) | (levels > known[-1])):
        what = f"{levels[place]:.10g} is not between {known[0]:.10g} and {known[-1]:.10g}"
        cell = column.sheet.cells[(row_of[read.dates[place]], column.column)]
        refusal = Refusal(LEVEL_OUTSIDE_TABLE, f"{what} {label(source.unit)}")
        faults.append(fault_in(column.sheet, column.heading, cell, refusal))
        levels[place] = np.nan
    below = np.clip(np.searchsorted(known, levels, side="right") - 1, 0, len(known) - 2)
    basis = Dips(
        Listed(levels, read.origins),
        source.unit,
        table.levels,
        table.contents,
        tuple(int(place) for place in below),
    )
    contents = np.interp(levels, known, table.contents.values)
    return replace(read, values=contents, unit=table.unit, basis=basis), faults
